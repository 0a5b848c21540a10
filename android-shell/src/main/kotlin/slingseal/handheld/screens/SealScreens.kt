package slingseal.handheld.screens

import android.view.View
import slingseal.core.SealFacts
import slingseal.core.WalkRequest
import slingseal.core.WalkStage
import slingseal.core.WalkView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.ref
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** The PIN that seals a decided inspection; until then the decision can be taken back. */
class PinScreen(shell: Shell, place: Place, private val walk: WalkView) : PinPage(shell, place) {
    private val fit
        get() = (walk.stage as? WalkStage.Decided)?.fit == true

    override val staysOn
        get() = true

    override val title
        get() = text(R.string.seal)

    override val words
        get() = text(if (fit) R.string.pin_fit else R.string.pin_not_fit, walk.load)

    override val saysLoad
        get() = true

    override val done
        get() = text(R.string.seal_it)

    override val spoken
        get() = words

    override fun otherKey() =
        key(Face.SIDE, text(R.string.undo_small), Sign.UNDO, text(R.string.take_back_decision)) { takeBack() }

    private fun takeBack() {
        shell.answer(walk.ref, WalkRequest.TakeBack, Beat.UNDONE) { redraw() }
    }

    override fun take(pin: String) {
        val core = shell.core
        val id = walk.walk
        shell.work({ core.seal(id, pin, null) }) {
            feel(Beat.GOOD)
            swap(Place.Seal(it.record))
        }
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
        text(R.string.findings) to
            text(R.string.found_corrected, facts.found.toInt(), facts.corrected.toInt()),
        text(R.string.check_by_voice) to facts.check,
    )
}

/** The seal, full screen, as bright as it goes. */
class SealScreen(shell: Shell, override val place: Place.Seal) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val takesHardKeys
        get() = true

    override fun hard(answer: HardAnswer) =
        when (answer) {
            HardAnswer.FIRST,
            HardAnswer.BACK -> shell.backTo(Place.Start::class)
            HardAnswer.SECOND,
            HardAnswer.AGAIN -> shell.say(spoken)
        }

    override val spoken
        get() = text(R.string.seal_spoken)

    private val seal = shell.attempt { shell.core.showSeal(place.record) }
    private val tag = seal?.let { shell.attempt { shell.core.record(it.record) } }?.tag?.text

    override fun build(): View {
        val seal = seal ?: return page(text(R.string.seal), body())
        val code = code(seal.code)
        val facts = seal.facts
        val ground = palette.panel
        // what a person compares first stands first and large: the load, the outcome, who, how heavy, until
        // when
        val read =
            parts.panel(
                parts.column(
                    parts.words(
                        "${facts.load} · ${text(if (facts.fit) R.string.fit else R.string.not_fit)}",
                        22,
                        bold = true,
                        ground = ground,
                    ),
                    parts.words(
                        listOfNotNull(facts.inspector, facts.authority).joinToString(" · "),
                        18,
                        ground = ground,
                    ),
                    parts.words("${facts.mass} · ${seal.aircraft}", 18, bold = true, ground = ground),
                    parts.words("${text(R.string.valid_until)} ${facts.validUntil.dtg}", 18, ground = ground),
                    parts.words(seal.description, 16, ground = ground),
                    parts.words("${text(R.string.check_by_voice)}: ${facts.check}", 16, ground = ground),
                    parts.words(
                        "${text(R.string.findings)}: ${text(R.string.found_corrected, facts.found.toInt(), facts.corrected.toInt())}",
                        16,
                        ground = ground,
                    ),
                    space = 3,
                )
            )
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(Place.Start::class) }
        val sticker = stickerKey(shell, *listOfNotNull(seal.code.text, tag).toTypedArray())
        return codePage(
            shell,
            onItsSide,
            code,
            underCode(body(read, parts.words(text(R.string.manual_rules), 15, quiet = true)), done, sticker),
        )
    }

    private fun code(code: slingseal.core.CodeView): View = codeView(shell, code, text(R.string.code_of_seal))
}
