package slingseal.handheld.screens

import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.Reading
import slingseal.core.VerdictView
import slingseal.core.VerdictWord
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Stamp
import slingseal.handheld.look.dp
import slingseal.handheld.sense.Beat
import slingseal.handheld.look.VerdictView as Stamped

/**
 * At the hook, before the aircraft is called: one page with the camera open. Seal and tag are read in either order, or both in one frame; with the
 * seal alone there is a verdict, and a NO-GO waits for nothing. Its arguments are the seal's text, the tag's text, and a word
 * where the tag is to be judged alone, or where several of a kind were shown at once: then their texts follow.
 */
class HookScreen(shell: Shell, place: Place) : LookingScreen(shell, place) {
    private val seal = place.args.getOrElse(0) { "" }
    private val tag = place.args.getOrElse(1) { "" }
    private val noTag = tag.isEmpty()
    private val alone = place.args.getOrElse(2) { "" } == ALONE
    private val several = if (place.args.getOrElse(2) { "" } == SEVERAL) place.args.drop(3) else emptyList()
    private val read = (listOf(seal, tag) + several).filter { it.isNotEmpty() }
    private var told = false
    private val judged: VerdictView? = if (read.isEmpty()) null else shell.attempt { if (several.isEmpty()) shell.core.check(seal.ifEmpty { null }, tag.ifEmpty { null }) else shell.core.checkAll(several) }

    /** A tag alone says nothing as long as its seal may still be shown: none is known here. */
    private val verdict: VerdictView? = judged?.takeIf { seal.isNotEmpty() || alone || several.isNotEmpty() || it.facts != null }

    @Volatile private var seen = read

    override val staysOn get() = true
    override val shines get() = verdict != null
    override val hidesBars get() = true
    override val known get() = seen
    override val paneTitle: CharSequence get() = verdict?.word ?: text(R.string.hook_check)
    override val spoken get() = verdict?.spoken ?: guide()

    /** There is more to read, and it could change what is said. */
    override val looks get() = verdict == null || verdict.verdict != VerdictWord.NO_GO && (seal.isEmpty() || tag.isEmpty()) && !alone && several.isEmpty()

    private fun guide(): String {
        val load = judged?.tag?.load
        return if (load == null) text(R.string.hook_words) else text(R.string.hook_now_seal, load)
    }

    override fun build(): View = verdict?.let(::judgedPage) ?: lookingPage()

    private fun lookingPage(): View {
        val said = parts.words(guide(), 20, bold = true, ground = if (onItsSide) palette.panel else palette.page)
        said.accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
        state = said
        val keys = listOfNotNull(typeKey(), torchKey(), noSealKey())
        if (onItsSide && blind == null) return bleeding(text(R.string.hook_check), said, keys)
        val look = LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            noticePanel()?.let { addView(it) }
            addView(said)
            addView(window(), LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f).apply { topMargin = context.dp(10) })
        }
        return page(text(R.string.hook_check), look, keys, scrolls = false)
    }

    private fun typeKey() = key(Face.SIDE, text(R.string.type_it), Sign.LIST) { shell.go(Place(PageKind.TYPE, Purpose.HOOK.name, "$seal\n$tag")) }

    private fun noSealKey(): Key? =
        if (tag.isEmpty()) null else key(Face.BAD, text(R.string.no_seal), Sign.CROSS) { shell.swap(Place(PageKind.HOOK, "", tag, ALONE)) }

    private fun judgedPage(verdict: VerdictView): View {
        val stamp = when (verdict.verdict) {
            VerdictWord.GO -> Stamp.GO
            VerdictWord.WAIT -> Stamp.WAIT
            VerdictWord.NO_GO -> Stamp.NO_GO
        }
        val sign = Stamped(context, palette, stamp, verdict.word)
        val match = ViewGroup.LayoutParams.MATCH_PARENT
        // the camera stays open beside the word while the other code may still be read
        val looking = if (looks) LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            setPadding(dp(6), dp(4), dp(6), dp(4))
            val said = parts.words(text(if (noTag) R.string.hook_tag_too else R.string.hook_seal_too), 15, bold = true)
            state = said
            addView(said)
            addView(window(), LinearLayout.LayoutParams(match, 0, 1f))
        } else null
        val keys = LinearLayout(context).apply {
            val more = listOfNotNull(torchKey()?.takeIf { looks })
            for (key in more) addView(key, LinearLayout.LayoutParams(0, match, 0.6f).apply { marginEnd = dp(16) })
            addView(next(), LinearLayout.LayoutParams(0, match, 1f))
        }
        val said = LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            setPadding(context.dp(12), context.dp(6), context.dp(12), context.dp(10))
            addView(parts.scroll(facts(verdict)), LinearLayout.LayoutParams(match, 0, 1f))
            addView(keys, LinearLayout.LayoutParams(match, context.dp(if (onItsSide) 72 else 84)).apply { topMargin = context.dp(6) })
        }
        return LinearLayout(context).apply {
            if (onItsSide) {
                val left = LinearLayout(context).apply {
                    orientation = LinearLayout.VERTICAL
                    addView(sign, LinearLayout.LayoutParams(match, 0, 1.4f))
                    looking?.let { addView(it, LinearLayout.LayoutParams(match, 0, 1f)) }
                }
                addView(left, LinearLayout.LayoutParams(0, match, 0.8f))
                addView(said, LinearLayout.LayoutParams(0, match, 1f))
            } else {
                orientation = LinearLayout.VERTICAL
                val top = LinearLayout(context).apply {
                    addView(sign, LinearLayout.LayoutParams(0, match, 1.6f))
                    looking?.let { addView(it, LinearLayout.LayoutParams(0, match, 1f)) }
                }
                addView(top, LinearLayout.LayoutParams(match, context.dp(if (looks) 176 else 200)))
                addView(said, LinearLayout.LayoutParams(match, 0, 1f))
            }
        }
    }

    /**
     * Under the word, first to last as it is needed: why not, which load, how heavy against what is allowed, for which
     * aircraft, who looked, until when, and what hurts. The outcome of the inspection is not repeated: the word is what counts.
     */
    private fun facts(verdict: VerdictView): View {
        val facts = verdict.facts
        val grave = verdict.reasons.filter { it.grade != "note" }
        val load = facts?.load ?: verdict.tag?.load
        val weight = verdict.tag?.let { text(R.string.gross_of, it.gross, it.allowable) } ?: facts?.let { text(R.string.gross_alone, it.mass) }
        val who = listOfNotNull(verdict.tag?.aircraft, facts?.inspector?.let { text(R.string.inspected_by, it) }).joinToString(" · ")
        val lines = listOfNotNull(
            noticePanel(),
            if (grave.isEmpty()) null else parts.words(verdict.first, 19, bold = true),
            *verdict.shown.map { line -> parts.signed(signOf(line.verdict), parts.words("${line.load} · ${line.word}. ${line.first}", 17, bold = true)) }.toTypedArray(),
            load?.let { parts.words(it, 26, bold = true) },
            weight?.let { parts.words(it, 18, bold = true) },
            who.ifEmpty { null }?.let { parts.words(it, 17) },
            facts?.let { parts.words(text(R.string.until, it.validUntil.dtg), 17) },
            verdict.cautions.firstOrNull()?.let { parts.signed(Sign.WARN, parts.words(it, 17, bold = true)) },
            *verdict.reasons.filter { it.text != verdict.first }.map { parts.signed(if (it.grade == "note") Sign.EYE else Sign.CROSS, parts.words(it.text, 17)) }.toTypedArray(),
            facts?.authority?.let { parts.words("${text(R.string.authority)}: $it", 16) },
            facts?.takeIf { it.found > 0u }?.let { parts.words("${text(R.string.findings)}: ${text(R.string.found_corrected, it.found.toInt(), it.corrected.toInt())}", 16) },
            *verdict.cautions.drop(1).map { parts.words(it, 16, quiet = true) }.toTypedArray(),
        )
        return parts.column(*lines.toTypedArray(), space = 3)
    }

    private fun signOf(verdict: VerdictWord) = when (verdict) {
        VerdictWord.GO -> Sign.TICK
        VerdictWord.WAIT -> Sign.BARS
        VerdictWord.NO_GO -> Sign.CROSS
    }

    private fun next() = key(Face.SIDE, text(R.string.next_load), Sign.HOOK) { shell.swap(Place(PageKind.HOOK)) }

    override fun shown() {
        super.shown()
        if (told) return
        told = true
        when (verdict?.verdict) {
            VerdictWord.GO -> shell.feel(Beat.GO)
            VerdictWord.WAIT -> shell.feel(Beat.WAIT)
            VerdictWord.NO_GO -> shell.feel(Beat.NO_GO)
            null -> if (shell.notice != null) shell.feel(Beat.REFUSED)
        }
    }

    override val codesInAFrame get() = 4

    override fun onCodes(codes: List<Reading.Ours>) {
        seen = seen + codes.map { it.text }
        context.runOnUiThread { if (inFront) take(codes) }
    }

    private fun take(codes: List<Reading.Ours>) {
        val ours = codes.filter { it.kind == TAG || it.kind in JUDGED }
        if (ours.count { it.kind == TAG } > 1 || ours.count { it.kind in JUDGED } > 1) {
            return shell.swap(Place(PageKind.HOOK, "", "", SEVERAL, *ours.map { it.text }.toTypedArray()))
        }
        var newSeal = seal
        var newTag = tag
        for (code in codes) {
            when (code.kind) {
                TAG -> newTag = shell.attempt { shell.core.readTag(code.text) }?.text ?: newTag
                in JUDGED -> newSeal = code.text
                // a void that is shown here counts from here on
                else -> shell.attempt { shell.core.receive(code.text) }?.let { shell.news = SetUpScreen.words(shell, it) }
            }
        }
        if (newSeal == seal && newTag == tag) {
            shell.notice?.let { if (shell.speaks) shell.say(it) }
            if (shell.notice != null) shell.feel(Beat.REFUSED)
            return if (shell.news == null) sayHere() else shell.redraw()
        }
        shell.swap(Place(PageKind.HOOK, newSeal, newTag))
    }

    private fun sayHere() {
        shell.notice?.let { state?.text = it }
        shell.notice = null
    }

    companion object {
        /** The tag is judged by what this device holds. */
        const val ALONE = "alone"

        /** Several seals or tags were shown at once. */
        const val SEVERAL = "several"

        /** What takes the seal's place: a seal, and what somebody may hold up for one. */
        private val JUDGED = setOf(SEAL, "examination key", "examination result")
    }
}
