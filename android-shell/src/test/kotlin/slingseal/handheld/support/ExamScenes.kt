package slingseal.handheld.support

import slingseal.core.ExamBegin
import slingseal.core.ExamPlan
import slingseal.core.Handheld
import slingseal.core.RunView
import slingseal.core.WalkRequest
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.screens.Purpose
import slingseal.handheld.screens.runName

/** Places of examinations on a phone that is an instructor's: one run scored, one ended, one going on. */
class ExamScenes(private val zone: Zone, private val core: Handheld) {
    fun places(): Map<String, Place> {
        val tag = zone.tag("KM-051")
        val plan = core.examPlan(ExamPlan(tag.text, emptyList(), 4u, "Monday"))
        val key = Zone.locked(core, tag, "Monday", 4u)
        val planted = key.planted!!.associate { it.point to it.name }

        val scored =
            walkedOn(begin(key.key, "Pupil 1"), 40) {
                planted.size > 1 && it == planted.keys.first() || it == "apex.fitting.nut"
            }
        val result = core.examScore(core.examEnd(scored.run).sheet!!, Zone.PIN)
        val ended = core.examEnd(begin(key.key, "Pupil 2").run)

        val open = walkedOn(begin(key.key, "Thistle 7"), 7) { it == "apex.fitting.nut" }
        val name = runName(open.run)
        val card = open.walk.card!!
        val known = card.points.first { it.deficiencies.isNotEmpty() }
        val picks = plan.planted.joinToString("\n") { "${it.point}\t${it.name}" }
        val standard = arrayOf(tag.text, "4", plan.seed!!, "", "3", "120", "0")
        return linkedMapOf(
            "exams" to Place(PageKind.EXAMS),
            "exam-plan" to Place(PageKind.EXAM_PLAN, *standard.take(4).toTypedArray()),
            "exam-picked" to Place(PageKind.EXAM_PLAN, tag.text, "4", plan.seed!!, picks),
            "exam-pick-card" to Place(PageKind.EXAM_CARDS, tag.text, "4", plan.seed!!, picks),
            "exam-pick-name" to
                Place(
                    PageKind.EXAM_NAMES,
                    tag.text,
                    "4",
                    plan.seed!!,
                    picks,
                    plan.planted.first().card.toString(),
                ),
            "exam-standard" to Place(PageKind.EXAM_STANDARD, *standard),
            "exam-lock" to Place(PageKind.EXAM_LOCK, *standard),
            "exam-key" to Place(PageKind.EXAM_KEY, key.key),
            "exam-keys" to Place(PageKind.EXAM_KEYS),
            "exam-reveal" to Place(PageKind.EXAM_REVEAL, key.key),
            "exam-scan" to Place(PageKind.SCAN, Purpose.EXAM_KEY.name),
            "exam-name" to Place(PageKind.EXAM_NAME, key.key),
            "exam-ready" to Place(PageKind.EXAM_READY, key.key, "Thistle 7", ""),
            "exam-card" to Place(PageKind.WALK, name),
            "exam-pick" to Place(PageKind.PICK, name, card.number.toString()),
            "exam-call" to
                Place(
                    PageKind.DEFICIENCY,
                    name,
                    card.number.toString(),
                    known.id,
                    known.deficiencies.first().name,
                    "",
                    "",
                ),
            "exam-more" to Place(PageKind.MORE, name),
            "exam-cards" to Place(PageKind.CARDS, name),
            "exam-calls" to Place(PageKind.EXAM_CALLS, name),
            "exam-end" to Place(PageKind.EXAM_END, name),
            "exam-ended" to Place(PageKind.WALK, runName(ended.run)),
            "exam-sheet" to Place(PageKind.EXAM_SHEET, ended.run),
            "exam-score" to Place(PageKind.EXAM_SCORE, ended.sheet!!),
            "exam-results" to Place(PageKind.EXAM_RESULTS),
            "exam-result" to Place(PageKind.EXAM_RESULT, result.line.result),
            "exam-result-code" to Place(PageKind.EXAM_RESULT_CODE, result.line.result),
            "exam-class" to Place(PageKind.EXAM_CLASS),
        )
    }

    private fun begin(key: String, student: String) = core.examBegin(ExamBegin(key, null, student))

    /** So many answers: a call where a point is to be called, good everywhere else. */
    private fun walkedOn(begun: RunView, answers: Int, called: (String) -> Boolean): RunView {
        var run = begun
        repeat(answers) {
            val card = run.walk.card ?: return run
            for (point in card.points.filter { called(it.id) }) {
                run =
                    core.examDo(
                        run.run,
                        WalkRequest.Deficiency(
                            card.number,
                            point.id,
                            point.deficiencies.first().name,
                            null,
                            emptyList(),
                        ),
                    )
            }
            run = core.examDo(run.run, Zone.answer(run.walk))
        }
        return run
    }
}
