package slingseal.handheld.screens

import android.widget.TextView
import android.view.View
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer
import slingseal.core.PointKind
import slingseal.core.WalkRequest
import slingseal.handheld.look.NumberPad

/** What is asked for: of a point, or of a finding that is looked at again. */
private class Asked(val prompt: String, val spoken: String, val kind: PointKind)

/** A point that is answered with a value: counted, chosen, measured, read off. */
class ValueScreen(shell: Shell, place: Place) : WritingScreen(shell, place) {
    private val walk get() = place.args[0]
    private val card get() = place.args[1].toUInt()
    private val finding get() = place.args[3].toUIntOrNull()
    private val asked: Asked? by lazy { ask() }
    private var typed = ""

    private fun ask(): Asked? {
        val view = shell.attempt { shell.core.walkOf(walk) } ?: return null
        val number = finding
        if (number != null) return view.findings.firstOrNull { it.number == number }?.let { Asked(it.prompt, it.prompt, it.kind) }
        return view.card?.points?.firstOrNull { it.id == place.args[2] }?.let { Asked(it.prompt, it.spoken, it.kind) }
    }

    private var shownValue: TextView? = null
    private var list: PickList? = null

    override val staysOn get() = true
    override val takesHardKeys get() = asked?.kind is PointKind.Count || asked?.kind is PointKind.Choice
    override val spoken get() = asked?.spoken
    override val title get() = asked?.prompt ?: text(R.string.give_value)
    override val guide get() = asked?.spoken.orEmpty()
    override val done get() = text(R.string.take_it)
    override val code get() = asked?.kind is PointKind.Serial

    override fun build(): View = when (val kind = asked?.kind) {
        is PointKind.Count -> pad("", kind.expected?.let { text(R.string.plan_says, it.toInt()) }, "")
        is PointKind.Measure -> pad(".", kind.range.ifEmpty { null }?.let { text(R.string.range_is, it) }, kind.unit)
        is PointKind.Choice -> {
            val rows = kind.options.map { option -> key(Face.ROW, option.shown) { take(option.name) } }
            list = PickList(rows, shell::say)
            page(title, body(parts.words(guide, 19), parts.column(*rows.toTypedArray(), space = 20)))
        }
        else -> super.build()
    }

    private fun pad(corner: String, about: String?, unit: String): View {
        val value = parts.fitted("–", 44, 20).apply {
            contentDescription = text(R.string.nothing_typed)
            accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
        }
        shownValue = value
        val keys = NumberPad(context, palette, corner, text(R.string.take_back), { type(it, unit) }, { back(unit) })
        val words = body(about?.let { parts.words(it, 18, bold = true) }, parts.words(guide, 17), space = 4)
        return padPage(title, words, value, keys, key(Face.GOOD, done, Sign.TICK) { takeTyped(unit) })
    }

    private fun type(sign: Char, unit: String) {
        if (typed.length < 8) typed += sign
        show(unit)
    }

    private fun back(unit: String) {
        typed = typed.dropLast(1)
        show(unit)
    }

    private fun show(unit: String) {
        val words = if (typed.isEmpty()) "–" else "$typed $unit".trim()
        shownValue?.text = words
        shownValue?.contentDescription = words
    }

    private fun takeTyped(unit: String) {
        if (typed.isEmpty()) {
            shell.notice = text(R.string.nothing_typed)
            shell.feel(Beat.REFUSED)
            return shell.redraw()
        }
        take("$typed $unit".trim())
    }

    override fun take(words: String) {
        val number = finding
        val request = if (number == null) {
            WalkRequest.Answer(card, place.args[2], words.trim())
        } else {
            WalkRequest.LookAgain(number, true, words.trim(), null, emptyList())
        }
        val before = shell.attempt { shell.core.walkOf(walk) }?.findings?.size ?: 0
        val after = shell.answer(walk, request, Beat.GOOD) ?: return shell.redraw()
        if (after.findings.size > before) shell.feel(Beat.DEFICIENCY)
        shell.backTo(PageKind.WALK)
    }

    /** Volume down counts one up and says it, volume up takes what was counted. */
    override fun hard(answer: HardAnswer) {
        if (asked?.kind is PointKind.Choice) return list?.hard(answer) ?: Unit
        when (answer) {
            HardAnswer.SECOND -> {
                typed = ((typed.toIntOrNull() ?: 0) + 1).toString()
                show("")
                shell.say(typed)
            }
            HardAnswer.FIRST -> takeTyped("")
            HardAnswer.AGAIN -> asked?.spoken?.let(shell::say)
        }
    }
}
