package slingseal.handheld.screens

import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.CodeKind
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.core.MovementKind
import slingseal.core.Reading
import slingseal.core.Received
import slingseal.core.VerdictView
import slingseal.core.VerdictWord
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Stamp
import slingseal.handheld.look.VerdictView as Stamped
import slingseal.handheld.look.dp
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer
import slingseal.handheld.words

/**
 * At the hook, before the aircraft is called: one page with the camera open. Seal and tag are read in either
 * order, or both in one frame; with the seal alone there is a verdict, and a NO-GO waits for nothing.
 */
class HookScreen(shell: Shell, override val place: Place.Hook) : LookingScreen(shell, place) {
    private val seal = place.seal
    private val tag = place.tag
    private val noTag = tag == null
    private val alone = place.alone
    private val several = place.several
    private val read = listOfNotNull(seal, tag) + several
    private var told = false
    private val judged: VerdictView? =
        if (read.isEmpty()) null
        else
            shell.attempt {
                if (several.isEmpty()) shell.core.check(seal, tag) else shell.core.checkAll(several)
            }

    /** A tag alone says nothing as long as its seal may still be shown: none is known here. */
    private val verdict: VerdictView? =
        judged?.takeIf { seal != null || alone || several.isNotEmpty() || it.facts != null }

    @Volatile private var seen = read

    override val staysOn
        get() = true

    override val shines
        get() = verdict != null

    override val hidesBars
        get() = true

    override val known
        get() = seen

    override val paneTitle: CharSequence
        get() = verdict?.word ?: text(R.string.hook_check)

    override val spoken
        get() = verdict?.spoken ?: guide()

    /** There is more to read, and it could change what is said. */
    override val looks
        get() =
            verdict == null ||
                verdict.verdict != VerdictWord.NO_GO &&
                    (seal == null || tag == null) &&
                    !alone &&
                    several.isEmpty()

    private fun guide(): String {
        val load = judged?.tag?.load
        return if (load == null) text(R.string.hook_words) else text(R.string.hook_now_seal, load)
    }

    override fun build(): View = verdict?.let(::judgedPage) ?: lookingPage()

    private fun lookingPage(): View {
        val said =
            parts.words(guide(), 20, bold = true, ground = if (onItsSide) palette.panel else palette.page)
        said.accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
        state = said
        val keys = listOfNotNull(typeKey(), torchKey(), noSealKey())
        if (onItsSide && blind == null) return bleeding(text(R.string.hook_check), said, keys)
        return page(text(R.string.hook_check), upright(said), keys, scrolls = false)
    }

    private fun typeKey() =
        key(Face.SIDE, text(R.string.type_it), Sign.TYPE) { shell.go(Place.Type(Purpose.Hook(seal, tag))) }

    private fun noSealKey(): Key? =
        if (tag == null) null
        else
            key(Face.BAD, text(R.string.no_seal), Sign.CROSS) {
                shell.swap(Place.Hook(tag = tag, alone = true))
            }

    private fun judgedPage(verdict: VerdictView): View {
        val stamp =
            when (verdict.verdict) {
                VerdictWord.GO -> Stamp.GO
                VerdictWord.WAIT -> Stamp.WAIT
                VerdictWord.NO_GO -> Stamp.NO_GO
            }
        val sign = Stamped(context, palette, stamp, verdict.word)
        val said =
            LinearLayout(context).apply {
                setPadding(context.dp(12), context.dp(6), context.dp(12), 0)
                addView(
                    parts.scroll(VerdictFacts(shell).facts(verdict, noticePanel())),
                    LinearLayout.LayoutParams(MATCH, MATCH),
                )
            }
        // the camera stays open beside the word while the other code may still be read; after that the next
        // load waits there
        val beside = if (looks) looking() else next()
        val answers = answers(verdict)
        val layout = VerdictLayout(context)
        return if (onItsSide) layout.aside(sign, beside, said, answers, looks)
        else layout.upright(sign, beside, said, answers, looks)
    }

    private fun looking() =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            setPadding(dp(6), dp(4), dp(6), dp(4))
            val said =
                parts.words(
                    text(if (noTag) R.string.hook_tag_too else R.string.hook_seal_too),
                    15,
                    bold = true,
                )
            state = said
            addView(said)
            addView(window(), LinearLayout.LayoutParams(MATCH, 0, 1f))
            torchKey()?.let {
                addView(it, LinearLayout.LayoutParams(MATCH, dp(60)).apply { topMargin = dp(4) })
            }
        }

    /** The load that a report would be of; none where none is known, or where several were shown. */
    private fun meant(verdict: VerdictView): String? {
        val shown = verdict.shown.map { it.load }.distinct()
        return (verdict.facts?.load ?: verdict.tag?.load)?.takeIf { shown.size <= 1 }
    }

    /** What became of it, one press each: refused, and under the thumb lifted. No PIN, no question. */
    private fun answers(verdict: VerdictView): List<Key> {
        val load = meant(verdict) ?: return emptyList()
        return listOf(
            key(Face.BAD, text(R.string.event_refused), Sign.CROSS) { notLifted(load) },
            key(Face.GOOD, text(R.string.event_lifted), Sign.LIFT) { lifted(load) },
        )
    }

    private fun lifted(load: String) = Draft(load, MovementKind.LIFTED).give(shell)

    private fun notLifted(load: String) = shell.go(Place.Refuse(Draft(load, MovementKind.REFUSED)))

    override val takesEarKeys
        get() = verdict != null

    /**
     * At the ear, for hands that hold the load: one press lifted, two refused, three the next load, held the
     * verdict again.
     */
    override fun hard(answer: HardAnswer) {
        val verdict = verdict ?: return
        val load = meant(verdict)
        when (answer) {
            HardAnswer.FIRST -> load?.let(::lifted)
            HardAnswer.SECOND -> load?.let(::notLifted)
            HardAnswer.AGAIN -> shell.say(verdict.spoken)
            HardAnswer.BACK -> shell.swap(Place.Hook())
        }
    }

    private fun next() = key(Face.SIDE, text(R.string.next_load), Sign.HOOK) { shell.swap(Place.Hook()) }

    override fun shown() {
        super.shown()
        if (told) return
        told = true
        when (verdict?.verdict) {
            VerdictWord.GO -> shell.feel(Beat.GO)
            VerdictWord.WAIT -> shell.feel(Beat.WAIT)
            VerdictWord.NO_GO -> shell.feel(Beat.NO_GO)
            null -> if (judged == null && read.isNotEmpty()) shell.feel(Beat.REFUSED)
        }
    }

    override val codesInAFrame
        get() = 4

    override fun onCodes(codes: List<Reading.Ours>) {
        context.runOnUiThread { if (inFront && !shell.busy) take(codes) }
    }

    private fun take(codes: List<Reading.Ours>) {
        seen = seen + codes.map { it.text }
        val ours = codes.filter { it.kind == CodeKind.TAG || it.kind in JUDGED }
        if (ours.count { it.kind == CodeKind.TAG } > 1 || ours.count { it.kind in JUDGED } > 1) {
            return shell.swap(Place.Hook(several = ours.map { it.text }))
        }
        shell.ask({ known(codes) }) { read ->
            read.news?.let { news = SetUpScreen.words(this, it) }
            val (newSeal, newTag) = (read.seal ?: seal) to (read.tag ?: tag)
            val why = read.refused
            when {
                newSeal != seal || newTag != tag -> swap(Place.Hook(newSeal, newTag))
                read.news != null -> redraw()
                why != null -> refuse(why)
            }
        }
    }

    /** What of the codes the core knows; one that it refuses does not hide the others. */
    private fun Handheld.known(codes: List<Reading.Ours>): Known {
        var known = Known()
        for (code in codes) {
            try {
                known =
                    when (code.kind) {
                        CodeKind.TAG -> known.copy(tag = readTag(code.text).text)
                        in JUDGED -> known.copy(seal = code.text)
                        // a void that is shown here counts from here on
                        else -> known.copy(news = receive(code.text))
                    }
            } catch (e: HandheldException) {
                known = known.copy(refused = e.words)
            }
        }
        return known
    }

    /** What was read of the codes that were shown. */
    private data class Known(
        val seal: String? = null,
        val tag: String? = null,
        val news: Received? = null,
        val refused: String? = null,
    )

    companion object {
        private const val MATCH = ViewGroup.LayoutParams.MATCH_PARENT

        /** What takes the seal's place: a seal, and what somebody may hold up for one. */
        private val JUDGED = setOf(CodeKind.SEAL, CodeKind.EXAM_KEY, CodeKind.EXAM_RESULT)
    }
}
