package slingseal.handheld.support

import slingseal.core.ExamBegin
import slingseal.core.ExamPick
import slingseal.core.ExamPlan
import slingseal.core.Handheld
import slingseal.core.RunView
import slingseal.core.WalkRequest
import slingseal.handheld.places.DeficiencyDraft
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planting
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.Standard
import slingseal.handheld.places.WalkRef

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
        val on = WalkRef.Run(open.run)
        val card = open.walk.card!!
        val known = card.points.first { it.deficiencies.isNotEmpty() }
        val drawn = Planting(tag.text, 4, plan.seed!!)
        val picked = drawn.copy(picks = plan.planted.map { ExamPick(it.point, it.name) })
        val standard = Standard(3, 120, 0)
        return linkedMapOf(
            "exams" to Place.Exams,
            "exam-plan" to Place.ExamPlan(drawn),
            "exam-picked" to Place.ExamPlan(picked),
            "exam-pick-card" to Place.ExamCards(picked),
            "exam-pick-name" to Place.ExamNames(picked, plan.planted.first().card.toInt()),
            "exam-standard" to Place.ExamStandard(drawn, standard),
            "exam-lock" to Place.ExamLock(drawn, standard),
            "exam-key" to Place.ExamKey(key.key),
            "exam-keys" to Place.ExamKeys,
            "exam-reveal" to Place.ExamReveal(key.key),
            "exam-scan" to Place.Scan(Purpose.ExamKey),
            "exam-name" to Place.ExamName(key.key),
            "exam-ready" to Place.ExamReady(key.key, "Thistle 7"),
            "exam-card" to Place.Walk(on),
            "exam-pick" to Place.Pick(on),
            "exam-call" to
                Place.Deficiency(
                    DeficiencyDraft(on, card.number.toInt(), known.id, known.deficiencies.first().name)
                ),
            "exam-more" to Place.More(on),
            "exam-cards" to Place.Cards(on),
            "exam-calls" to Place.ExamCalls(on),
            "exam-end" to Place.ExamEnd(on),
            "exam-ended" to Place.Walk(WalkRef.Run(ended.run)),
            "exam-sheet" to Place.ExamSheet(ended.run),
            "exam-score" to Place.ExamScore(ended.sheet!!),
            "exam-results" to Place.ExamResults,
            "exam-result" to Place.ExamResult(result.line.result),
            "exam-result-code" to Place.ExamResultCode(result.line.result),
            "exam-class" to Place.ExamClass,
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
