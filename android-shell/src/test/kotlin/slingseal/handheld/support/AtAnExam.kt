package slingseal.handheld.support

import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import slingseal.core.ExamRunState
import slingseal.core.RunView
import slingseal.handheld.places.Place
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.ValueScreen
import slingseal.handheld.sense.Beat

/** The ways through an examination that several tests go. */
abstract class AtAnExam : OnAPhone() {
    protected fun Screen.exams() {
        press("More")
        press("Examinations")
    }

    protected fun Screen.step(name: String, sign: String) =
        press(keys().first { it.contentDescription == "$name: $sign" })

    protected fun run(): RunView = core.examRun(core.examRuns().single { it.state == ExamRunState.OPEN }.run)

    /** Calls a deficiency of the card in front. */
    protected fun Screen.call(shown: String) {
        press("Deficiency")
        press(shown)
        assertFalse("nothing is put right in a run", hasKey("Correct it now"))
        press("Call it")
        assertEquals(Beat.DEFICIENCY, hand.lastBeat)
    }

    /**
     * Everything good, what is planned where a value is asked for, until `stop` says so or no card is left.
     */
    protected fun Screen.walkOn(see: () -> Unit = {}, stop: (Int) -> Boolean = { false }) {
        while (hand.front is CardScreen && !stop(run().walk.card!!.number.toInt())) {
            see()
            if (hasKey("All good")) {
                press("All good")
                continue
            }
            press(if (hasKey("Count")) "Count" else "Give value")
            assertTrue(hand.front is ValueScreen)
            see()
            val plan = Zone.planned(hand.front!!.place as Place.Value)
            if (plan == null) {
                press(keys().first { it.label.toString() != "Back" })
            } else {
                type(plan)
                press("Take it")
            }
        }
    }
}
