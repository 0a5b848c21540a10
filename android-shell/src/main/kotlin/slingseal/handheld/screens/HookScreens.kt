package slingseal.handheld.screens

import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.Reading
import slingseal.core.VerdictView
import slingseal.core.VerdictWord
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Glove
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Stamp
import slingseal.handheld.look.VerdictView as Stamped
import slingseal.handheld.look.dp
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

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
        val look =
            LinearLayout(context).apply {
                orientation = LinearLayout.VERTICAL
                noticePanel()?.let { addView(it) }
                addView(said)
                addView(
                    window(),
                    LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f).apply {
                        topMargin = context.dp(10)
                    },
                )
            }
        return page(text(R.string.hook_check), look, keys, scrolls = false)
    }

    private fun typeKey() =
        key(Face.SIDE, text(R.string.type_it), Sign.LIST) { shell.go(Place.Type(Purpose.Hook(seal, tag))) }

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
                addView(parts.scroll(facts(verdict)), LinearLayout.LayoutParams(MATCH, MATCH))
            }
        // the camera stays open beside the word while the other code may still be read; after that the next
        // load waits there
        val beside = if (looks) looking() else next()
        val answers = answers(verdict)
        return if (onItsSide) aside(sign, beside, said, answers) else upright(sign, beside, said, answers)
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

    /** The word from edge to edge, the facts, and under the thumb the two keys of the report. */
    private fun upright(sign: View, beside: View, said: View, answers: List<Key>): View =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            val top =
                LinearLayout(context).apply {
                    addView(sign, LinearLayout.LayoutParams(0, MATCH, if (looks) 1.6f else 2.6f))
                    addView(
                        beside,
                        LinearLayout.LayoutParams(0, MATCH, 1f).apply {
                            if (!looks) setMargins(dp(8), dp(8), dp(8), dp(8))
                        },
                    )
                }
            addView(top, LinearLayout.LayoutParams(MATCH, context.dp(176)))
            addView(said, LinearLayout.LayoutParams(MATCH, 0, 1f))
            if (answers.isEmpty()) return@apply
            val keys =
                LinearLayout(context).apply {
                    for ((at, key) in answers.withIndex()) addView(
                        key,
                        LinearLayout.LayoutParams(0, MATCH, 1f).apply {
                            if (at > 0) marginStart = dp(Glove.GAP)
                        },
                    )
                }
            addView(
                keys,
                LinearLayout.LayoutParams(MATCH, dp(Glove.KEY)).apply {
                    setMargins(dp(14), dp(6), dp(14), dp(12))
                },
            )
        }

    private fun aside(sign: View, beside: View, said: View, answers: List<Key>): View =
        LinearLayout(context).apply {
            val left =
                LinearLayout(context).apply {
                    orientation = LinearLayout.VERTICAL
                    addView(sign, LinearLayout.LayoutParams(MATCH, 0, 1.5f))
                    addView(
                        beside,
                        LinearLayout.LayoutParams(MATCH, 0, if (looks) 1.3f else 0.6f).apply {
                            if (!looks) setMargins(dp(8), dp(8), dp(8), dp(8))
                        },
                    )
                }
            addView(left, LinearLayout.LayoutParams(0, MATCH, 0.8f))
            addView(said, LinearLayout.LayoutParams(0, MATCH, 1.1f))
            if (answers.isEmpty()) return@apply
            val keys =
                LinearLayout(context).apply {
                    orientation = LinearLayout.VERTICAL
                    for ((at, key) in answers.withIndex()) addView(
                        key,
                        LinearLayout.LayoutParams(MATCH, 0, 1f).apply {
                            if (at > 0) topMargin = dp(Glove.GAP)
                        },
                    )
                }
            addView(
                keys,
                LinearLayout.LayoutParams(dp(Glove.KEY + 4), MATCH).apply {
                    setMargins(0, dp(14), dp(12), dp(14))
                },
            )
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
            key(Face.BAD, text(R.string.event_refused), Sign.CROSS) { refused(load) },
            key(Face.GOOD, text(R.string.event_lifted), Sign.LIFT) { lifted(load) },
        )
    }

    private fun lifted(load: String) = Draft(load, Draft.LIFTED).give(shell)

    private fun refused(load: String) = shell.go(Place.Refuse(Draft(load, Draft.REFUSED)))

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
            HardAnswer.SECOND -> load?.let(::refused)
            HardAnswer.AGAIN -> shell.say(verdict.spoken)
            HardAnswer.BACK -> shell.swap(Place.Hook())
        }
    }

    /**
     * Under the word, first to last as it is needed: why not, which load, how heavy against what is allowed,
     * for which aircraft, who looked, until when, and what hurts. The outcome of the inspection is not
     * repeated: the word is what counts.
     */
    private fun facts(verdict: VerdictView): View {
        val facts = verdict.facts
        val grave = verdict.reasons.filter { it.grade != "note" }
        val load = facts?.load ?: verdict.tag?.load
        val weight =
            verdict.tag?.let { text(R.string.gross_of, it.gross, it.allowable) }
                ?: facts?.let { text(R.string.gross_alone, it.mass) }
        val who =
            listOfNotNull(verdict.tag?.aircraft, facts?.inspector?.let { text(R.string.inspected_by, it) })
                .joinToString(" · ")
        val lines =
            listOfNotNull(
                noticePanel(),
                if (grave.isEmpty()) null else parts.words(verdict.first, 19, bold = true),
                *verdict.shown
                    .map { line ->
                        parts.signed(
                            signOf(line.verdict),
                            parts.words("${line.load} · ${line.word}. ${line.first}", 17, bold = true),
                        )
                    }
                    .toTypedArray(),
                load?.let { parts.words(it, 26, bold = true) },
                weight?.let { parts.words(it, 18, bold = true) },
                who.ifEmpty { null }?.let { parts.words(it, 17) },
                facts?.let { parts.words(text(R.string.until, it.validUntil.dtg), 17) },
                verdict.cautions.firstOrNull()?.let {
                    parts.signed(Sign.WARN, parts.words(it, 17, bold = true))
                },
                *verdict.reasons
                    .filter { it.text != verdict.first }
                    .map {
                        parts.signed(
                            if (it.grade == "note") Sign.EYE else Sign.CROSS,
                            parts.words(it.text, 17),
                        )
                    }
                    .toTypedArray(),
                facts?.authority?.let { parts.words("${text(R.string.authority)}: $it", 16) },
                facts?.let { parts.words("${text(R.string.check_by_voice)}: ${it.check}", 16) },
                facts
                    ?.takeIf { it.found > 0u }
                    ?.let {
                        parts.words(
                            "${text(R.string.findings)}: ${text(R.string.found_corrected, it.found.toInt(), it.corrected.toInt())}",
                            16,
                        )
                    },
                *verdict.cautions.drop(1).map { parts.words(it, 16, quiet = true) }.toTypedArray(),
            )
        return parts.column(*lines.toTypedArray(), space = 3)
    }

    private fun signOf(verdict: VerdictWord) =
        when (verdict) {
            VerdictWord.GO -> Sign.TICK
            VerdictWord.WAIT -> Sign.BARS
            VerdictWord.NO_GO -> Sign.CROSS
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
            null -> if (shell.notice != null) shell.feel(Beat.REFUSED)
        }
    }

    override val codesInAFrame
        get() = 4

    override fun onCodes(codes: List<Reading.Ours>) {
        seen = seen + codes.map { it.text }
        context.runOnUiThread { if (inFront) take(codes) }
    }

    private fun take(codes: List<Reading.Ours>) {
        val ours = codes.filter { it.kind == TAG || it.kind in JUDGED }
        if (ours.count { it.kind == TAG } > 1 || ours.count { it.kind in JUDGED } > 1) {
            return shell.swap(Place.Hook(several = ours.map { it.text }))
        }
        var newSeal = seal
        var newTag = tag
        for (code in codes) {
            when (code.kind) {
                TAG -> newTag = shell.attempt { shell.core.readTag(code.text) }?.text ?: newTag
                in JUDGED -> newSeal = code.text
                // a void that is shown here counts from here on
                else ->
                    shell
                        .attempt { shell.core.receive(code.text) }
                        ?.let { shell.news = SetUpScreen.words(shell, it) }
            }
        }
        if (newSeal == seal && newTag == tag) {
            shell.notice?.let { if (shell.speaks) shell.say(it) }
            if (shell.notice != null) shell.feel(Beat.REFUSED)
            return if (shell.news == null) sayHere() else shell.redraw()
        }
        shell.swap(Place.Hook(newSeal, newTag))
    }

    private fun sayHere() {
        shell.notice?.let { state?.text = it }
        shell.notice = null
    }

    companion object {
        private const val MATCH = ViewGroup.LayoutParams.MATCH_PARENT

        /** What takes the seal's place: a seal, and what somebody may hold up for one. */
        private val JUDGED = setOf(SEAL, "examination key", "examination result")
    }
}
