package slingseal.handheld.screens

import android.view.View
import android.widget.TextView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.NumberPad
import slingseal.handheld.look.Page
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Measure
import slingseal.handheld.places.Place

/** Words of a weighing: the scales and their source, or what a point is called. */
class WeighWordsScreen(shell: Shell, override val place: Place.WeighWords) : WritingScreen(shell, place) {
    private val weighing = place.weighing
    private val at = place.at
    override val staysOn
        get() = true

    override val title
        get() = text(if (at == null) R.string.weigh_scales else R.string.weigh_name)

    override val guide
        get() = text(if (at == null) R.string.weigh_scales_guide else R.string.weigh_name_guide)

    override val done
        get() = text(R.string.take_it)

    override val before
        get() = at?.let { weighing.point(it).name } ?: weighing.entered.scales

    override fun take(words: String) {
        // one line: what a person reads beside a number
        val line = words.trim().replace(Regex("\\s+"), " ")
        if (at == null) return weighing.copy(entered = weighing.entered.copy(scales = line)).put(shell)
        val changed = weighing.with(at, weighing.point(at).copy(name = line))
        changed.put(shell)
        shell.go(Place.WeighPoint(changed, at))
    }
}

/** A number of a weighing on keys for a glove. */
class WeighNumberScreen(shell: Shell, override val place: Place.WeighNumber) : Screen(shell, place) {
    private val weighing = place.weighing
    private val measure = place.measure
    private val at = place.at
    private val unit = measure.counted.unit(weighing.entered)

    /** Null: what stood there before stands. */
    private var typed: String? = null
    private var value: TextView? = null

    override val staysOn
        get() = true

    override val hidesBars
        get() = true

    override val paneTitle: CharSequence
        get() = text(measure.title)

    override val spoken
        get() = about()

    private val ofPoint = measure in Measure.OF_POINT || measure in Measure.OF_POINT_RAISED

    private fun about(): String {
        val point = weighing.point(at).name.ifEmpty { text(R.string.weigh_point, at + 1) }.takeIf { ofPoint }
        return listOfNotNull(point, text(measure.title)).joinToString(": ")
    }

    override fun build(): View {
        val shown =
            parts.fitted("", 44, 20).apply { accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE }
        value = shown
        show()
        val take = key(Face.GOOD, text(R.string.take_it), Sign.TICK) { take() }
        val keys =
            NumberPad(context, palette, take, text(R.string.take_back), gap = 0, { type(it) }, { back() })
        val point = key(Face.SIDE, POINT.toString()) { type(POINT) }.apply { settledAt = 0 }
        point.contentDescription = text(R.string.weigh_decimal)
        val words =
            parts.column(*listOfNotNull(noticePanel(), parts.heading(about(), 19)).toTypedArray(), space = 2)
        return Page(parts).pin(backKey(), point, words, shown, keys, onItsSide, high = 56)
    }

    private fun type(sign: Char) {
        val now = typed.orEmpty()
        if (now.length < MOST && !(sign == POINT && POINT in now)) typed = now + sign
        show()
    }

    /** The first step back takes off what stood there before. */
    private fun back() {
        typed = typed.orEmpty().dropLast(1)
        show()
    }

    private fun show() {
        val words = typed?.let { if (it.isEmpty()) NOTHING else "$it $unit" }
        val shown = words ?: measure.of(weighing, at).ifEmpty { NOTHING }
        value?.text = shown
        value?.contentDescription = if (shown == NOTHING) text(R.string.nothing_typed) else shown
    }

    private fun take() {
        val number = typed ?: return shell.back()
        val changed = measure.put(weighing, at, if (number.isEmpty()) "" else "$number $unit")
        changed.put(shell)
        if (ofPoint) shell.go(Place.WeighPoint(changed, at))
        else if (measure in Measure.OF_HEIGHT || measure in Measure.OF_RAISED)
            shell.go(Place.WeighHeight(changed))
    }

    private companion object {
        const val MOST = 9
        const val POINT = '.'
        const val NOTHING = "–"
    }
}
