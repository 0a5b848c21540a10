package slingseal.handheld.screens

import android.view.View
import android.widget.TextView
import slingseal.core.PointKind
import slingseal.core.WalkRequest
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.NumberPad
import slingseal.handheld.look.Page
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.run
import slingseal.handheld.places.walkOf
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** What is asked for: of a point, or of a finding that is looked at again. */
private class Asked(val prompt: String, val spoken: String, val kind: PointKind)

/** A point that is answered with a value: counted, chosen, measured, read off. */
class ValueScreen(shell: Shell, override val place: Place.Value) : WritingScreen(shell, place) {
    private val walk
        get() = place.on

    private val finding
        get() = place.finding?.toUInt()

    /** How many findings there are before this answer. */
    private var found = 0
    private val asked: Asked? = ask()
    private var typed = ""

    private fun ask(): Asked? {
        val view = shell.attempt { shell.core.walkOf(walk) } ?: return null
        found = view.findings.size
        val number = finding
        if (number != null)
            return view.findings
                .firstOrNull { it.number == number }
                ?.let { Asked(it.prompt, it.prompt, it.kind) }
        return view.card
            ?.points
            ?.firstOrNull { it.id == place.point }
            ?.let { Asked(it.prompt, it.spoken, it.kind) }
    }

    private var shownValue: TextView? = null
    private var list: PickList? = null

    override val staysOn
        get() = true

    /** The keys of a count take the page. */
    override val saysLoad
        get() = asked?.kind is PointKind.Count && place.run == null

    override val hidesBars
        get() = asked?.kind is PointKind.Count

    override val takesHardKeys
        get() = asked?.kind is PointKind.Count || asked?.kind is PointKind.Choice

    override val spoken
        get() = asked?.spoken

    override val title
        get() = asked?.prompt ?: text(R.string.give_value)

    override val guide
        get() = asked?.spoken.orEmpty()

    override val done
        get() = text(R.string.take_it)

    override val code
        get() = asked?.kind is PointKind.Serial

    override fun build(): View =
        when (val kind = asked?.kind) {
            // the number first: whoever is told what it must be finds it
            is PointKind.Count -> pad(null, null, "")
            is PointKind.Measure ->
                pad('.', kind.range.ifEmpty { null }?.let { text(R.string.range_is, it) }, kind.unit)
            is PointKind.Choice -> {
                val rows = kind.options.map { option -> key(Face.ROW, option.shown) { take(option.name) } }
                list = PickList(rows, shell)
                page(title, body(parts.words(guide, 19), parts.column(*rows.toTypedArray(), space = 20)))
            }
            else -> super.build()
        }

    private fun pad(corner: Char?, about: String?, unit: String): View {
        val value =
            parts.fitted("–", 44, 20).apply {
                contentDescription = text(R.string.nothing_typed)
                accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
            }
        shownValue = value
        if (corner == null) return countPad(value, unit)
        val last =
            corner?.let { sign ->
                key(Face.SIDE, sign.toString()) { type(sign, unit) }.apply { settledAt = 0 }
            }
        val keys =
            NumberPad(
                context,
                palette,
                last,
                text(R.string.take_back),
                gap = 8,
                { type(it, unit) },
                { back(unit) },
            )
        val words = body(about?.let { parts.words(it, 18, bold = true) }, parts.words(guide, 17), space = 4)
        return padPage(title, words, value, keys, key(Face.GOOD, done, Sign.TICK) { takeTyped(unit) })
    }

    /** A count has no point: the last corner takes it, and the keys have the page. */
    private fun countPad(value: TextView, unit: String): View {
        val take = key(Face.GOOD, done, Sign.TICK) { takeTyped(unit) }
        val keys =
            NumberPad(
                context,
                palette,
                take,
                text(R.string.take_back),
                gap = 0,
                { type(it, unit) },
                { back(unit) },
            )
        val load = if (saysLoad) load?.let { parts.eyebrow(it) } else null
        val words =
            parts.column(
                *listOfNotNull(noticePanel(), load, parts.heading(title, 19), parts.words(guide, 16))
                    .toTypedArray(),
                space = 2,
            )
        return Page(parts).pin(backKey(), null, words, value, keys, onItsSide, high = 56)
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
        val request =
            if (number == null) {
                WalkRequest.Answer(place.card.toUInt(), place.point, words.trim())
            } else {
                WalkRequest.LookAgain(number, true, words.trim(), null, emptyList())
            }
        val kind = asked?.kind
        shell.answer(walk, request, Beat.GOOD) { after ->
            val wrong = after.findings.size > found
            if (wrong) feel(Beat.DEFICIENCY)
            // in an examination nothing is told but what was called
            if (kind is PointKind.Count && place.run == null)
                tell(words.trim(), wantedIn(after), wrong, after.linkChange)
            backTo(Place.Walk::class)
        }
    }

    /** The core tells what was wanted once the number is given. */
    private fun wantedIn(after: slingseal.core.WalkView): Int? {
        val id = place.point
        val kind =
            after.findings.lastOrNull { it.point == id }?.kind
                ?: after.card?.points?.firstOrNull { it.id == id }?.kind
        return (kind as? PointKind.Count)?.expected?.toInt()
    }

    /** What was counted, then what was wanted, then what a link that differs does to the load. */
    private fun Shell.tell(counted: String, wanted: Int?, wrong: Boolean, change: String?) {
        val words =
            when {
                wrong && wanted != null -> text(R.string.count_differs, counted, wanted)
                wanted != null -> text(R.string.count_right, counted, wanted)
                else -> text(R.string.count_taken, counted)
            }
        val said = listOfNotNull(words, change.takeIf { wrong }).joinToString(" ")
        if (wrong) notice = said else news = said
    }

    /**
     * Volume up counts one up and says it, down one down; held, up takes what was counted and down goes back.
     */
    override fun hard(answer: HardAnswer) {
        if (asked?.kind is PointKind.Choice) return list?.hard(answer) ?: Unit
        when (answer) {
            HardAnswer.FIRST -> step(1)
            HardAnswer.SECOND -> step(-1)
            HardAnswer.AGAIN -> if (typed.isEmpty()) asked?.spoken?.let(shell::say) else takeTyped("")
            HardAnswer.BACK -> shell.back()
        }
    }

    private fun step(by: Int) {
        typed = ((typed.toIntOrNull() ?: 0) + by).coerceIn(0, 99).toString()
        show("")
        shell.say(typed)
    }
}
