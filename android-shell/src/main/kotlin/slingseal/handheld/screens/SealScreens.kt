package slingseal.handheld.screens

import android.widget.LinearLayout
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
import slingseal.core.SealFacts
import slingseal.core.WalkStage
import slingseal.core.WalkView
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.PinPad

/** A page with a PIN pad: how many digits were typed is shown, never which. */
abstract class PinPage(shell: Shell, place: Place) : Screen(shell, place) {
    private lateinit var pad: PinPad
    private lateinit var dots: TextView

    protected abstract val title: String
    protected abstract val words: String
    protected abstract val done: String

    protected abstract fun take(pin: String)

    override fun build(): View {
        dots = parts.fitted(" ", 34, 14)
        pad = PinPad(context, palette, text(R.string.take_back)) { count ->
            dots.text = if (count == 0) " " else "●".repeat(count)
            dots.contentDescription = text(R.string.digits_typed, count)
        }
        return padPage(title, body(parts.words(words, 18)), dots, pad.view, key(Face.GOOD, done, Sign.KEY) { take(pad.take()) })
    }
}

/** The PIN that seals a decided walk. */
class PinScreen(shell: Shell, place: Place, private val walk: WalkView) : PinPage(shell, place) {
    private val fit get() = (walk.stage as? WalkStage.Decided)?.fit == true
    override val staysOn get() = true
    override val title get() = text(R.string.seal)
    override val words get() = text(if (fit) R.string.pin_fit else R.string.pin_not_fit, walk.load)
    override val done get() = text(R.string.seal_it)

    override fun take(pin: String) = shell.work({ shell.core.seal(walk.walk, pin, null) }) {
        shell.feel(Beat.GOOD)
        shell.swap(Place(PageKind.SEAL, it.record))
    }
}

/** What a person checks beside the code. */
internal fun Screen.sealFacts(shell: Shell, facts: SealFacts): List<Pair<CharSequence, CharSequence>> {
    fun text(id: Int, vararg args: Any) = shell.activity.getString(id, *args)
    return listOfNotNull(
        text(R.string.load) to facts.load,
        text(R.string.outcome) to text(if (facts.fit) R.string.fit else R.string.not_fit),
        facts.inspector?.let { text(R.string.inspector) to it },
        facts.authority?.let { text(R.string.authority) to it },
        text(R.string.mass) to facts.mass,
        text(R.string.sealed_at) to facts.issued.dtg,
        text(R.string.valid_until) to facts.validUntil.dtg,
        text(R.string.findings) to text(R.string.found_corrected, facts.found.toInt(), facts.corrected.toInt()),
    )
}

/** The seal, full screen, as bright as it goes. */
class SealScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val staysOn get() = true
    override val shines get() = true
    override val spoken get() = text(R.string.seal_spoken)

    override fun build(): View {
        val seal = shell.attempt { shell.core.showSeal(place.args[0]) } ?: return page(text(R.string.seal), body())
        val code = code(seal.code)
        val facts = parts.facts(
            listOf(
                text(R.string.load) to "${seal.facts.load} · ${seal.description}",
                text(R.string.outcome) to text(if (seal.facts.fit) R.string.fit else R.string.not_fit),
                text(R.string.inspector) to listOfNotNull(seal.facts.inspector, seal.facts.authority).joinToString(" · "),
                text(R.string.mass) to "${seal.facts.mass} · ${seal.aircraft}",
                text(R.string.valid_until) to seal.facts.validUntil.dtg,
                text(R.string.findings) to text(R.string.found_corrected, seal.facts.found.toInt(), seal.facts.corrected.toInt()),
            ),
            18,
        )
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(PageKind.START) }
        if (!onItsSide) {
            return LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                addView(code)
                addView(page(null, body(parts.panel(facts), parts.words(text(R.string.manual_rules), 15, quiet = true)), listOf(done), back = false), LinearLayout.LayoutParams(LinearLayout.LayoutParams.MATCH_PARENT, 0, 1f))
            }
        }
        return LinearLayout(context).apply {
            orientation = LinearLayout.HORIZONTAL
            addView(code, LinearLayout.LayoutParams(LinearLayout.LayoutParams.WRAP_CONTENT, LinearLayout.LayoutParams.MATCH_PARENT))
            val right = LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                val pad = (12 * resources.displayMetrics.density).toInt()
                setPadding(pad, pad, pad, pad)
                addView(parts.scroll(body(parts.panel(facts), parts.words(text(R.string.manual_rules), 15, quiet = true))), LinearLayout.LayoutParams(LinearLayout.LayoutParams.MATCH_PARENT, 0, 1f))
                addView(done, LinearLayout.LayoutParams(LinearLayout.LayoutParams.MATCH_PARENT, (84 * resources.displayMetrics.density).toInt()).apply { topMargin = pad })
            }
            addView(right, LinearLayout.LayoutParams(0, LinearLayout.LayoutParams.MATCH_PARENT, 1f))
        }
    }

    private fun code(code: slingseal.core.CodeView): View = codeView(shell, code, text(R.string.code_of_seal))
}

/** A code of the core, drawn. */
internal fun codeView(shell: Shell, code: slingseal.core.CodeView, spoken: String): CodeView =
    CodeView(shell.activity, shell.palette, code.size.toInt(), dark(code), spoken)

internal fun dark(code: slingseal.core.CodeView) = BooleanArray(code.modules.size) { code.modules[it] != 0.toByte() }
