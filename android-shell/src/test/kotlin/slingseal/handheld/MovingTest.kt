package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.BundleReport
import slingseal.core.MovingTaken
import slingseal.core.Role
import slingseal.handheld.screens.FramesScreen
import slingseal.handheld.screens.MovedScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/** Records go from device to device by the codes on their screens alone. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class MovingTest : OnAPhone() {
    @Before fun anInspectors() = zone.inspector()

    @Test
    fun aMovingCodeGoesOutOverTheScreen() {
        val core = Core.of(RuntimeEnvironment.getApplication())
        val record = Zone.sealed(core, zone.tag("KM-031")).record
        val other = zone.core("other").also(zone::meet)
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Move records")
        screen.press("Show a moving code")

        // the other device looks at the screen now and then, and misses what was shown in between
        other.movingListen()
        val seen = mutableSetOf<String>()
        var report: BundleReport? = null
        var missed = 0
        for (look in 0 until 400) {
            screen.settle(FramesScreen.FRAME * if (look % 4 == 0) 3 else 1)
            // no reader finds every code: a frame that is missed is one more that is lost, but few may be
            val text =
                try {
                    screen.readCode()
                } catch (e: com.google.zxing.ReaderException) {
                    missed += 1
                    continue
                }
            seen += text
            val taken = other.movingTake(text)
            if (taken is MovingTaken.Done) {
                report = taken.report
                break
            }
        }
        assertTrue("$missed missed, ${seen.size} read", missed <= 1 + seen.size / 10)
        assertTrue("the code moves: ${seen.size}", seen.size > 3)
        assertEquals(1u, report?.new)
        assertEquals(emptyList<Any>(), report?.setAside)
        assertEquals(listOf(record), other.records(null, 10u).map { it.record })

        // asked for what is lacking, nothing is left to send
        screen.press("Done")
        screen.press("Send what is lacking")
        (screen.activity as HandheldActivity).see(Zone.camera(other.haveCode()))
        assertTrue(screen.words(), Regex("Records\n0\n").containsMatchIn(screen.words()))
    }

    @Test
    fun aMovingCodeComesInThroughTheCamera() {
        val other = zone.core("other").also(zone::meet)
        zone.credential(other, "Lantern 2", Role.INSPECTOR)
        Zone.sealed(other, zone.tag("KM-032"))
        val activity = Zone.launch().get()
        val screen = Screen(activity)
        screen.press("More")
        screen.press("Move records")

        // first this phone shows what it has, so that the other leaves that out
        screen.press("Show what is here")
        other.movingBegin(screen.readCode())
        screen.press("Back")
        screen.press("Take in")
        var frame = 0
        while (activity.front !is MovedScreen) {
            check(frame < 400) { screen.words() }
            // every third frame is lost, and each one that is seen is seen twice
            if (frame % 3 != 1)
                repeat(2) {
                    if (activity.front !is MovedScreen)
                        activity.see(Zone.camera(other.movingFrame(frame.toUInt())))
                }
            if (frame == 2)
                assertTrue(screen.words(), Regex("2 of \\d+ parts").containsMatchIn(screen.words()))
            frame += 1
        }
        assertTrue(screen.words(), screen.words().contains("1 new"))
        assertTrue(screen.words(), screen.words().contains("Nothing was set aside"))
        assertEquals(Beat.GOOD, activity.lastBeat)
        assertEquals(listOf("KM-032"), Core.of(activity).records(null, 10u).map { it.load })
        screen.press("Records")
        assertTrue(screen.hasKey("KM-032"))
    }

    @Test
    fun aCodeOfAnotherKindIsToldAndTheGatheringGoesOn() {
        val activity = Zone.launch().get()
        val screen = Screen(activity)
        screen.press("More")
        screen.press("Move records")
        screen.press("Take in")
        assertTrue("parts are not typed", !screen.hasKey("Type it"))
        activity.see(Zone.camera(zone.tag("KM-033")))
        assertTrue(screen.words(), screen.words().contains("moving code", ignoreCase = true))
        val other = zone.core("other").also(zone::meet)
        other.movingBegin(null)
        activity.see(Zone.camera(other.movingFrame(0u)))
        assertTrue(
            screen.words(),
            Regex("1 of \\d+ parts").containsMatchIn(screen.words()) || activity.front is MovedScreen,
        )
    }
}
