package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.look.VerdictView
import slingseal.handheld.places.Place
import slingseal.handheld.screens.RunBand
import slingseal.handheld.support.AtAnExam
import slingseal.handheld.support.FakeSticker
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN
import slingseal.handheld.support.see
import slingseal.handheld.support.touch

/** What is planted is told to nobody before the debrief, and no examination passes for an inspection. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ExamSecrecyTest : AtAnExam() {
    /** Two keys, the same student, the same answers: every word on every page is the same. */
    @Test
    fun theStudentsPagesSayNothingOfWhatIsPlanted() {
        val tag = zone.tag()
        val pages =
            listOf("Monday", "Tuesday").map { seed ->
                val school = zone.school()
                val key = Zone.locked(school, tag, seed)
                val list = school.examReveal(key.key, PIN).planted!!
                Zone.newPhone()
                zone.meet(core)
                core.receive(tag.text)
                core.receive(key.code.text)
                list.map { it.point to it.name } to studentsPages(key.short)
            }
        assertNotEquals(pages[0].first, pages[1].first)
        assertTrue("${pages[0].second.size} pages", pages[0].second.size > 40)
        pages[0].second.zip(pages[1].second).forEach { (one, other) -> assertEquals(one, other) }
        assertEquals(pages[0].second.size, pages[1].second.size)
    }

    private fun studentsPages(short: String): List<String> {
        val controller = Zone.launch()
        val screen = Screen(controller.get())
        val pages = mutableListOf<String>()
        fun see() {
            screen.settle()
            val said = screen.shown().mapNotNull { it.contentDescription }.joinToString("\n")
            pages +=
                "${screen.words()}\n$said"
                    .replace(Regex("\\d:\\d\\d"), "TIME")
                    .replace(Regex("\\d{6}Z \\w+ \\d+"), "DAY")
                    .replace(short, "KEY")
        }
        screen.exams()
        screen.press("Keys")
        screen.press(screen.keys().first { it.label.contains(short) })
        screen.press("Begin a run on this device")
        see()
        screen.write("Pupil 1")
        screen.press("Take it")
        see()
        screen.press("Begin")
        screen.walkOn(::see) { it == 3 }
        screen.press("Deficiency")
        see()
        screen.press(
            run().walk.card!!.points.first { it.deficiencies.isNotEmpty() }.deficiencies.first().shown
        )
        see()
        screen.press("Call it")
        for (side in listOf("End the run", "Called so far", "All cards", "Light, voice, keys")) {
            screen.press("More")
            see()
            screen.press(side)
            see()
            assertEquals("the clock stands over $side", 1, screen.shown().filterIsInstance<RunBand>().count())
            screen.backTo(Place.Walk::class)
        }
        screen.walkOn(::see)
        see()
        screen.press("End the run")
        see()
        controller.pause().stop().destroy()
        return pages
    }

    @Test
    fun aKeyAtTheHookIsNoGoAndSaysWhatItIs() {
        val school = zone.school()
        val tag = zone.tag()
        val key = Zone.locked(school, tag, "Monday")
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        screen.hand.see(Zone.camera(key.code))
        assertEquals("NO-GO", screen.shown().filterIsInstance<VerdictView>().single().contentDescription)
        assertTrue(screen.words(), screen.words().contains("examination key: training, and no inspection"))
        assertFalse(
            "a key is no inspection, and no tag makes one of it",
            (screen.hand.front as slingseal.handheld.screens.LookingScreen).looks,
        )
        // and not on a sticker either
        screen.press("Next load")
        screen.touch(FakeSticker(2000, core.sticker(listOf(key.code.text), 2000u).message))
        assertEquals("NO-GO", screen.shown().filterIsInstance<VerdictView>().single().contentDescription)
    }

    @Test
    fun whatIsPlantedShowsUnderThePinAndGoesWithThePage() {
        zone.instructor()
        val key = Zone.locked(core, zone.tag(), "Monday")
        val planted = key.planted!!
        val controller = Zone.launch()
        val screen = Screen(controller.get())
        screen.exams()
        screen.press("Keys")
        screen.press(screen.keys().first { it.label.contains(key.short) })
        screen.press("Show what is planted")
        screen.type("000000")
        screen.press("Show what is planted")
        assertTrue(screen.words(), planted.none { screen.words().contains(it.shown) })
        screen.type(PIN)
        screen.press("Show what is planted")
        assertTrue(screen.words(), planted.all { screen.words().contains(it.shown) })
        controller.pause()
        controller.resume()
        screen.settle()
        assertTrue(screen.words(), planted.none { screen.words().contains(it.shown) })
        assertTrue(screen.hasKey("Show what is planted"))
    }
}
