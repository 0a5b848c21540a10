package slingseal.handheld.screens

import android.view.View
import slingseal.core.ClassRequest
import slingseal.core.DebriefView
import slingseal.core.ExamResultView
import slingseal.core.PlantedCall
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat

/** The instructor's PIN that scores an ended run. */
class ExamScoreScreen(shell: Shell, override val place: Place.ExamScore) : PinPage(shell, place) {
    override val title
        get() = text(R.string.exam_score)

    override val words
        get() = text(R.string.exam_score_words)

    override val done
        get() = text(R.string.exam_score_it)

    override fun take(pin: String) =
        shell.work({ shell.core.examScore(place.sheet, pin) }) {
            feel(Beat.GOOD)
            swap(Place.ExamResult(it.line.result))
        }
}

/** A result, and the debrief in the order of the load. */
class ExamResultScreen(shell: Shell, override val place: Place.ExamResult) : Screen(shell, place) {
    private val result = shell.attempt { shell.core.examResult(place.result) }

    override fun build(): View {
        val result = result ?: return page(text(R.string.exam_result), body())
        return page(
            text(R.string.exam_result),
            body(
                parts.panel(parts.words(result.what, 17, bold = true, ground = palette.panel), thick = true),
                head(result),
                *result.warnings
                    .map { parts.signed(Sign.CROSS, parts.words(it, 18, bold = true)) }
                    .toTypedArray(),
                *(result.debrief?.let(::debrief)
                        ?: result.planted.map {
                            parts.words("${text(R.string.exam_card, it.card.toInt())} · ${it.shown}", 18)
                        })
                    .toTypedArray(),
                parts.panel(facts(result)),
                space = 12,
            ),
            listOf(
                key(Face.SIDE, text(R.string.show_code), Sign.SHOW) {
                    shell.go(Place.ExamResultCode(result.line.result))
                }
            ),
        )
    }

    private fun head(result: ExamResultView): View {
        val (sign, word) = outcome(result.line)
        val ground = palette.panel
        return parts.panel(
            parts.column(
                parts.signed(sign, parts.words(text(word), 30, bold = true, ground = ground), ground),
                parts.words(
                    "${result.line.student} · ${result.line.load} · ${text(R.string.exam_attempt, result.line.attempt.toInt())}",
                    19,
                    bold = true,
                    ground = ground,
                ),
                *result.reasons.map { parts.words(it, 18, ground = ground) }.toTypedArray(),
                space = 4,
            )
        )
    }

    private fun debrief(debrief: DebriefView): List<View> {
        val items =
            debrief.items.map {
                val found = it.call == PlantedCall.FOUND || it.call == PlantedCall.NAMED_OTHERWISE
                parts.signed(if (found) Sign.TICK else Sign.CROSS, parts.words(it.words, 18, bold = !found))
            }
        val calls =
            debrief.falseCalls.map {
                parts.signed(
                    Sign.MINUS,
                    parts.words(
                        text(
                            R.string.exam_false_call,
                            it.card.toInt(),
                            it.cardTitle,
                            it.called,
                            it.afterS?.let(::clock).orEmpty(),
                        ),
                        18,
                    ),
                )
            }
        val cards =
            debrief.cards.map {
                parts.words(
                    "${clock(it.seconds)}  ${text(R.string.exam_card, it.card.toInt())}, ${it.title}",
                    16,
                )
            }
        val none = if (calls.isEmpty()) listOf(parts.words(text(R.string.exam_no_false), 18)) else calls
        return listOf(parts.eyebrow(text(R.string.exam_in_order))) +
            items +
            parts.eyebrow(text(R.string.exam_false)) +
            none +
            parts.eyebrow(text(R.string.exam_by_card)) +
            cards
    }

    private fun facts(result: ExamResultView) =
        parts.facts(
            listOf(
                text(R.string.procedure) to (result.title ?: result.line.procedure),
                text(R.string.exam_standard) to result.standard.words,
                text(R.string.exam_began) to result.line.began.dtg,
                text(R.string.exam_key) to result.line.key,
                text(R.string.exam_instructor) to "${result.line.instructor} · ${result.authority}",
            ),
            18,
        )
}

/** A signed result as a code: another device takes it in, and no hook check takes it for a seal. */
class ExamResultCodeScreen(shell: Shell, override val place: Place.ExamResultCode) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    private val result = shell.attempt { shell.core.examResult(place.result) }
    private val code = result?.let { shell.attempt { shell.core.codeOf(it.text) } }

    override fun build(): View {
        val result = result ?: return page(text(R.string.exam_result), body())
        val code = code ?: return page(text(R.string.exam_result), body())
        val words =
            body(
                parts.words("${result.line.student} · ${text(outcome(result.line).second)}", 22, bold = true),
                parts.words(result.what, 18),
                parts.words(text(R.string.exam_result_code), 17, quiet = true),
            )
        return codePage(
            shell,
            onItsSide,
            codeView(shell, code, text(R.string.exam_result)),
            underCode(words, key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }),
        )
    }
}

/** The class, in short: by student, and what is missed most. The desk tells the rest. */
class ExamClassScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val view = shell.attempt { shell.core.examClass(ClassRequest(null, null, null)) }

    override fun build(): View {
        val view = view ?: return page(text(R.string.exam_class), body())
        val students =
            view.students.map {
                val passed =
                    text(
                        R.string.exam_student_line,
                        it.passed.toInt(),
                        it.runs.toInt(),
                        it.found.toInt(),
                        it.planted.toInt(),
                        it.falseCalls.toInt(),
                        it.retests.toInt(),
                    )
                it.student to passed
            }
        val missed =
            view.missed
                .filter { it.missed > 0u }
                .take(MOST)
                .map {
                    it.deficiency to
                        text(
                            R.string.exam_missed_line,
                            it.missed.toInt(),
                            it.of.toInt(),
                            percent(it.low),
                            percent(it.high),
                            it.procedure,
                        )
                }
        return page(
            text(R.string.exam_class),
            body(
                parts.eyebrow(text(R.string.exam_students)),
                if (students.isEmpty()) parts.words(text(R.string.exam_no_results), 18)
                else parts.panel(parts.facts(students, 17)),
                if (missed.isEmpty()) null
                else parts.eyebrow(text(R.string.exam_missed, view.counted.toInt())),
                if (missed.isEmpty()) null else parts.panel(parts.facts(missed, 17)),
                *view.warnings.map { parts.signed(Sign.CROSS, parts.words(it, 17)) }.toTypedArray(),
                parts.words(text(R.string.exam_class_desk), 16, quiet = true),
            ),
        )
    }

    private fun percent(share: Double) = Math.round(share * 100).toInt()

    private companion object {
        const val MOST = 8
    }
}
