package slingseal.handheld

import android.view.KeyEvent
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.ExamBegin
import slingseal.core.ExamOutcome
import slingseal.core.MovingTaken
import slingseal.core.PlantedView
import slingseal.core.VerdictWord
import slingseal.handheld.look.CodeView
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planting
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.FramesScreen
import slingseal.handheld.screens.RunBand
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.AtAnExam
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN
import slingseal.handheld.support.see

/** An examination by real touches: planted and locked, run against the clock, scored and told. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ExamTest : AtAnExam() {
    private fun lockTwo(screen: Screen, tag: slingseal.core.CodeView): String {
        screen.exams()
        screen.press("Plant and lock")
        screen.hand.see(Zone.camera(tag))
        assertTrue(
            screen.words(),
            screen.words().contains("does not fly until every planted deficiency is corrected"),
        )
        repeat(2) { screen.step("Planted", "Less") }
        screen.press("Draw others")
        val first = screen.words()
        RuntimeEnvironment.setQualifiers("+land")
        RuntimeEnvironment.setQualifiers("+port")
        screen.hand.redraw()
        screen.settle()
        assertEquals(
            "what is to be rigged does not change under the instructor's hands",
            first,
            screen.words(),
        )
        screen.press("Standard")
        // the standard is the school's: nothing is chosen until it is said
        assertTrue(screen.words(), screen.words().contains("none is chosen for you"))
        screen.step("Must find", "Less")
        repeat(2) { screen.step("False calls let pass", "More") }
        assertTrue(screen.words(), screen.words().contains("1 of 2"))
        assertTrue("not all is said", screen.keys().none { it.label.toString() == "Lock it" })
        // a busy machine walks slowly
        repeat(8) { screen.step("Within", "More") }
        assertTrue(screen.words(), screen.words().contains("4:00"))
        screen.press("Lock it")
        screen.type("000000")
        screen.press("Lock it")
        assertTrue(screen.words(), screen.words().contains("PIN is wrong", ignoreCase = true))
        screen.type(PIN)
        screen.press("Lock it")
        return first
    }

    @Test
    fun pickedByCard() {
        zone.instructor()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.exams()
        screen.press("Plant and lock")
        screen.hand.see(Zone.camera(tag))
        screen.press("Pick by card")
        assertTrue(screen.words(), screen.words().contains("Picked: 4."))
        val all = core.examPlantable(tag.text)
        val drawn = screen.keys().filter { it.chosen }.map { it.label.toString() }
        assertEquals(4, drawn.size)

        // another one, then one of the drawn left out
        fun title(of: PlantedView) = "Card ${of.card} · ${of.cardTitle}"
        val picked = all.first { title(it) !in drawn }
        screen.press(title(picked))
        screen.press(picked.shown)
        assertTrue(screen.words(), screen.words().contains("Picked: 5."))
        screen.press(drawn.last())
        screen.press("Leave this card out")
        assertTrue(screen.words(), screen.words().contains("Picked: 4."))
        val gone = all.filter { title(it) == drawn.last() }.map { it.card }.toSet()

        screen.press("Rig these")
        assertTrue(screen.words(), screen.words().contains(picked.shown))
        assertFalse("a number is for a draw", screen.keys().any { it.contentDescription == "Planted: More" })
        screen.press("Standard")
        for (part in listOf("Must find", "Within", "False calls let pass")) screen.step(part, "More")
        screen.press("Lock it")
        screen.type(PIN)
        screen.press("Lock it")
        val planted = core.examReveal(core.examKeys().single().key, PIN).planted!!
        assertEquals(4, planted.size)
        assertTrue(planted.any { it.point == picked.point && it.name == picked.name })
        assertTrue(planted.none { it.card in gone })
    }

    @Test
    fun nothingPickedIsRefused() {
        zone.instructor()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.ExamPlan(Planting(tag.text, 4, "Monday")))
        screen.hand.go(Place.ExamCards(Planting(tag.text, 0, "Monday")))
        screen.settle()
        assertTrue(screen.words(), screen.words().contains("Picked: 0."))
        screen.press("Rig these")
        assertTrue(
            screen.words(),
            screen.words().contains("plant", ignoreCase = true) && screen.hand.front?.place is Place.ExamCards,
        )
    }

    @Test
    fun lockedRunRestartedScoredAndTold() {
        zone.instructor()
        val tag = zone.tag()
        val first = Zone.launch()
        var screen = Screen(first.get())
        val rigged = lockTwo(screen, tag)
        val key = core.examKeys().single()
        val planted: List<PlantedView> = core.examReveal(key.key, PIN).planted!!
        assertEquals(2, planted.size)
        for (one in planted) assertTrue(rigged, rigged.contains(one.shown))
        assertTrue(screen.words(), screen.words().contains(key.short))
        assertEquals(key.code.text, screen.readCode())
        for (one in planted) assertFalse(screen.words(), screen.words().contains(one.shown))

        screen.press("Begin a run on this device")
        screen.write("Thistle 7")
        screen.press("Take it")
        screen.press("Begin")
        assertTrue(screen.hand.front is CardScreen)
        assertTrue(screen.words(), screen.words().contains("Examination\nNo inspection · Thistle 7"))
        assertTrue(screen.words(), Regex("0:\\d\\d of 4:00").containsMatchIn(screen.words()))

        // a false call on a card where nothing is planted, then the first planted one is found
        val cards = planted.map { it.card.toInt() }
        screen.walkOn {
            it !in cards &&
                core.examRun(run().run).walk.card!!.points.any { point -> point.deficiencies.isNotEmpty() }
        }
        val wrong = run().walk.card!!.points.first { it.deficiencies.isNotEmpty() }.deficiencies.first()
        screen.call(wrong.shown)
        assertEquals(1, run().walk.findings.size)
        screen.walkOn { it == cards[0] }
        screen.call(planted[0].shown)
        assertEquals(2, run().walk.findings.size)

        // the program dies in the middle; the clock does not
        val before = run()
        first.pause().stop().destroy()
        Core.close()
        Thread.sleep(2100)
        val fresh = Zone.launch()
        screen = Screen(fresh.get())
        assertTrue("the run comes up by itself", screen.hand.front is CardScreen)
        val after = run()
        assertEquals(before.walk.card!!.number, after.walk.card!!.number)
        assertEquals(before.began, after.began)
        assertTrue("${before.elapsedS} then ${after.elapsedS}", after.elapsedS >= before.elapsedS + 2u)
        assertTrue(screen.words(), screen.words().contains(Regex("\\d:\\d\\d of 4:00")))
        // the clock on the screen moves by itself
        val shown = screen.words()
        Thread.sleep(1100)
        screen.settle(1100)
        assertNotEquals(shown, screen.words())

        // turned in the hand: the same card under the same clock
        RuntimeEnvironment.setQualifiers("+land")
        fresh.recreate()
        screen = Screen(fresh.get())
        screen.settle()
        assertEquals(after.walk.card!!.title, screen.heading())
        assertEquals(1, screen.shown().filterIsInstance<RunBand>().count())

        // nothing pauses it, and behind it every other door is shut
        screen.press("More")
        assertFalse(screen.hasKey("Pause"))
        screen.backTo(Place.Exams::class)
        assertEquals(setOf("Back", "Thistle 7"), screen.keys().map { it.label.toString() }.toSet())
        screen.press("Thistle 7")

        // the second planted one is passed as good; the last card leads to the end
        screen.walkOn()
        assertTrue(screen.words(), screen.words().contains("Every card is answered"))
        screen.press("End the run")
        assertTrue(screen.words(), screen.words().contains("The run is ended"))
        assertTrue(screen.hasKey("Show the sheet"))
        screen.press("Score")
        screen.type(PIN)
        screen.press("Score it")

        val line = core.examResults().single()
        assertEquals(
            listOf(slingseal.core.ExamOutcome.PASSED, "Thistle 7", "Mason 5"),
            listOf(line.outcome, line.student, line.instructor),
        )
        assertEquals(listOf(1u, 2u, 1u), listOf(line.found, line.of, line.falseCalls))
        val words = screen.words()
        assertTrue(words, words.contains("It is no inspection, and no load is fit by it"))
        assertTrue(words, words.contains("Passed") && words.contains("Found 1 of 2; 1 wanted."))
        assertTrue(
            words,
            Regex("Card ${cards[0]}, .*: ${Regex.escape(planted[0].shown)}: found at \\d:\\d\\d")
                .containsMatchIn(words),
        )
        assertTrue(
            words,
            Regex("Card ${cards[1]}, .*: ${Regex.escape(planted[1].shown)}: missed: passed as good")
                .containsMatchIn(words),
        )
        assertTrue(words, words.contains("called “${wrong.shown}”"))
        assertTrue(
            "in the order of the load",
            words.indexOf("Card ${cards[0]}, ") < words.indexOf("Card ${cards[1]}, "),
        )
        assertTrue(words, Regex("\\d:\\d\\d  card 1, ").containsMatchIn(words))

        // no inspection came of it, and the signed result is a code that no hook check takes
        assertTrue(core.records(null, 10u).isEmpty() && core.start().inHand.isEmpty())
        screen.press("Show the code")
        val verdict = core.check(screen.readCode(), tag.text)
        assertEquals(VerdictWord.NO_GO, verdict.verdict)
        assertTrue(verdict.first, verdict.first.contains("examination result"))
        screen.press("Done")
        screen.backTo(Place.Exams::class)
        screen.press("Runs and results")
        assertTrue(screen.hasKey("Thistle 7"))
        screen.press("Back")
        screen.press("The class")
        assertTrue(
            screen.words(),
            screen.words().contains("passed 1 of 1 runs") && screen.words().contains(planted[1].name),
        )
    }

    @Test
    fun aStudentsPhoneRunsAndItsSheetGoesBackByMovingCode() {
        val school = zone.school()
        val tag = zone.tag()
        val key = Zone.locked(school, tag, "Monday")
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.exams()
        screen.press("Run as a student")
        screen.hand.see(Zone.camera(tag))
        assertTrue(screen.words(), screen.words().contains("not an examination key"))
        screen.hand.see(Zone.camera(key.code))
        screen.write("Pupil 1")
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains(key.short) && screen.words().contains("Mason 5"))
        screen.press("Begin")
        assertTrue(screen.words(), screen.words().contains("tag of load KM-015 is not known here"))
        assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        screen.press("Scan tag")
        screen.hand.see(Zone.camera(zone.tag("KM-016")))
        screen.press("Begin")
        assertTrue("another load is refused: ${screen.words()}", core.examRuns().isEmpty())
        screen.press("Scan tag")
        screen.hand.see(Zone.camera(tag))
        screen.press("Begin")
        assertTrue(screen.hand.front is CardScreen)
        screen.press("More")
        screen.press("End the run")
        assertTrue(screen.words(), Regex("Cards not answered: \\d+").containsMatchIn(screen.words()))
        screen.press("End the run")
        assertFalse("what is planted is not known here", screen.hasKey("Score"))
        screen.press("Show the sheet")

        school.movingListen()
        var done: MovingTaken.Done? = null
        var look = 0
        while (done == null) {
            check(look++ < 200) { "the sheet does not come whole" }
            screen.settle(FramesScreen.FRAME)
            val text = runCatching { screen.readCode() }.getOrNull() ?: continue
            done = school.movingTake(text) as? MovingTaken.Done
        }
        assertEquals(1u, done.report.papers)
        assertEquals(emptyList<Any>(), done.report.setAside)
        val waiting = school.examRuns().single()
        assertTrue(waiting.canScore)
        val result = school.examScore(waiting.run, PIN)
        assertEquals(ExamOutcome.FAILED, result.line.outcome)

        // the result comes back by its code, and the student reads the debrief
        screen.press("Done")
        screen.backTo(Place.Exams::class)
        screen.press("Runs and results")
        screen.press("Scan a result")
        screen.hand.see(Zone.camera(core.codeOf(result.text)))
        screen.press("Pupil 1")
        assertTrue(
            screen.words(),
            screen.words().contains("Failed") && screen.words().contains("missed: not reached"),
        )
    }

    @Test
    fun aRunIsAnsweredByTheVolumeKeys() {
        zone.instructor()
        val key = Zone.locked(core, zone.tag(), "Monday")
        core.examBegin(ExamBegin(key.key, null, "Pupil 1"))
        val screen = Screen(Zone.launch().get())
        screen.hand.hardKeysOn = true
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP)
        assertEquals(2u, run().walk.card!!.number)
        // a deficiency: the first name, called
        for (code in
            listOf(
                KeyEvent.KEYCODE_VOLUME_DOWN,
                KeyEvent.KEYCODE_VOLUME_DOWN,
                KeyEvent.KEYCODE_VOLUME_UP,
                KeyEvent.KEYCODE_VOLUME_UP,
            )) screen.hardKey(code)
        assertEquals(1, run().walk.findings.size)
        assertEquals(Beat.DEFICIENCY, screen.hand.lastBeat)
        screen.press("Undo")
        assertTrue(run().walk.findings.isEmpty())
    }
}
