package slingseal.handheld.screens

import android.view.View
import slingseal.core.VerdictView
import slingseal.core.VerdictWord
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Sign

/** What stands under the word of a verdict. */
internal class VerdictFacts(private val shell: Shell) {
    private val parts
        get() = shell.parts

    private fun text(id: Int, vararg args: Any): String = shell.activity.getString(id, *args)

    /**
     * Under the word, first to last as it is needed: why not, which load, how heavy against what is allowed,
     * for which aircraft, who looked, until when, and what hurts. The outcome of the inspection is not
     * repeated: the word is what counts.
     */
    fun facts(verdict: VerdictView, notice: View?): View {
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
                notice,
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
}
