package slingseal.handheld.screens

import android.view.ViewGroup
import android.widget.LinearLayout
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
import slingseal.core.VerdictWord
import slingseal.handheld.look.GloveFrame
import slingseal.handheld.look.Spot
import slingseal.handheld.look.Stamp
import slingseal.handheld.look.VerdictView
import slingseal.handheld.look.dp

/** Under the aircraft: first the seal, then the tag, then one answer. */
class HookScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val staysOn get() = true
    override val hidesBars get() = onItsSide
    override val takesHardKeys get() = true
    override val spoken get() = text(R.string.hook_words)

    override fun build(): View = GloveFrame(context)
        .put(Spot.FIRST, key(Face.GOOD, text(R.string.scan_seal), Sign.CODE) { seal() })
        .put(Spot.SECOND, key(Face.SIDE, text(R.string.tag_alone), Sign.EYE) { tag() })
        .put(Spot.SIDE_ONE, key(Face.SIDE, text(R.string.back), Sign.BACK) { shell.back() })
        .put(
            Spot.MIDDLE,
            parts.scroll(
                body(
                    parts.heading(text(R.string.hook_check), 28),
                    parts.words(text(R.string.hook_step_one), 21, bold = true),
                    parts.words(text(R.string.hook_step_two), 21, bold = true),
                    parts.words(text(R.string.hook_tag_alone), 17, quiet = true),
                ).apply { setPadding(0, (12 * resources.displayMetrics.density).toInt(), 0, 0) },
            ),
        )

    private fun seal() = shell.go(Place(PageKind.SCAN, Purpose.HOOK_SEAL.name))

    private fun tag() = shell.go(Place(PageKind.SCAN, Purpose.HOOK_TAG.name, ""))

    override fun hard(answer: HardAnswer) = when (answer) {
        HardAnswer.FIRST -> seal()
        HardAnswer.SECOND -> tag()
        HardAnswer.AGAIN -> shell.say(spoken)
    }
}

/** The verdict: shape, sign, word, colour, sound and beat, and the first reason in plain words. */
class VerdictScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val verdict = shell.attempt {
        shell.core.check(place.args[0].ifEmpty { null }, place.args[1].ifEmpty { null })
    }
    override val staysOn get() = true
    override val shines get() = true
    override val takesHardKeys get() = true
    override val spoken get() = verdict?.spoken

    override fun build(): View {
        val verdict = verdict ?: return page(text(R.string.hook_check), body(), listOf(next()))
        val stamp = when (verdict.verdict) {
            VerdictWord.GO -> Stamp.GO
            VerdictWord.WAIT -> Stamp.WAIT
            VerdictWord.NO_GO -> Stamp.NO_GO
        }
        val sign = VerdictView(context, palette, stamp, verdict.word)
        val others = verdict.reasons.filter { it.text != verdict.first }
        val words = body(
            parts.words(verdict.first, 24, bold = true),
            *others.map { parts.signed(if (it.grade == "note") Sign.EYE else Sign.CROSS, parts.words(it.text, 18)) }.toTypedArray(),
            verdict.facts?.let { parts.panel(parts.facts(sealFacts(shell, it) + listOfNotNull(verdict.tag?.let { tag -> text(R.string.aircraft) to tag.aircraft }))) },
            *verdict.cautions.map { parts.words(it, 16, quiet = true) }.toTypedArray(),
            space = 12,
        )
        return LinearLayout(context).apply {
            orientation = if (onItsSide) LinearLayout.HORIZONTAL else LinearLayout.VERTICAL
            val match = ViewGroup.LayoutParams.MATCH_PARENT
            addView(sign, if (onItsSide) LinearLayout.LayoutParams(0, match, 1f) else LinearLayout.LayoutParams(match, 0, 0.85f))
            val read = LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                setPadding(context.dp(14), context.dp(12), context.dp(14), context.dp(12))
                addView(parts.scroll(words), LinearLayout.LayoutParams(match, 0, 1f))
                addView(next(), LinearLayout.LayoutParams(match, context.dp(96)).apply { topMargin = context.dp(12) })
            }
            addView(read, if (onItsSide) LinearLayout.LayoutParams(0, match, 1f) else LinearLayout.LayoutParams(match, 0, 1f))
        }
    }

    private fun next() = key(Face.SIDE, text(R.string.next_load), Sign.HOOK) { again() }

    private fun again() = shell.backTo(PageKind.HOOK)

    override fun shown() {
        shell.feel(
            when (verdict?.verdict) {
                VerdictWord.GO -> Beat.GO
                VerdictWord.WAIT -> Beat.WAIT
                VerdictWord.NO_GO -> Beat.NO_GO
                null -> Beat.REFUSED
            },
        )
    }

    override fun hard(answer: HardAnswer) = when (answer) {
        HardAnswer.AGAIN -> spoken?.let(shell::say) ?: Unit
        HardAnswer.FIRST, HardAnswer.SECOND -> again()
    }
}
