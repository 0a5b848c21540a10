package slingseal.handheld

import android.graphics.Rect
import android.view.KeyEvent
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.CodeView
import slingseal.core.MovementKind
import slingseal.core.MovementView
import slingseal.core.Received
import slingseal.core.RefusalCause
import slingseal.core.VerdictWord
import slingseal.handheld.look.Glove
import slingseal.handheld.look.VerdictView
import slingseal.handheld.places.Place
import slingseal.handheld.screens.ReportScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.Gloves
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/**
 * What becomes of a load after its verdict, by one press at the hook, on a phone that has no key of its own.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class HookReportTest : OnAPhone() {
    private fun only(load: String = "KM-015"): MovementView = core.movements(load).single()

    /** A phone of the hookup team, without a key, before this verdict. */
    private fun judged(seal: CodeView, tag: CodeView): Screen {
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        screen.hand.see(Zone.camera(seal, tag))
        return screen
    }

    @Test
    fun onePressAfterTheVerdictSaysThatItFlew() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag), tag)
        assertEquals("no key, no credential", null, core.setUp().fingerprint)
        screen.press("Lifted")
        val report = only()
        assertEquals(
            listOf(MovementKind.LIFTED, VerdictWord.GO, null),
            listOf(report.event, report.verdict, report.by),
        )
        assertFalse(report.later || report.against)
        assertEquals(Beat.GOOD, screen.hand.lastBeat)
        assertTrue(
            screen.words(),
            screen.words().contains("KM-015: lifted") && screen.words().contains("unsigned"),
        )
        // what is shown is the report itself: another phone has it by its camera
        val leader = zone.core("leader").also(zone::meet)
        val taken = leader.receive(screen.readCode()) as Received.Movement
        assertEquals(report.digest, taken.report.digest)
        screen.press("Next load")
        assertEquals(Place.Hook::class, screen.hand.front!!.place::class)
        assertEquals(null, screen.shown().filterIsInstance<VerdictView>().singleOrNull())
    }

    @Test
    fun aRefusalHasItsReasonFromAListAndWordsOnlyIfThereIsMoreToSay() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag, fit = false), tag)
        screen.press("Refused")
        screen.press(screen.keys().first { it.label == "The verdict was not GO" })
        assertEquals(
            listOf(MovementKind.REFUSED, RefusalCause.VERDICT, VerdictWord.NO_GO, null),
            only().let { listOf(it.event, it.cause, it.verdict, it.note) },
        )
        assertEquals(Beat.DEFICIENCY, screen.hand.lastBeat)

        // a note goes along
        screen.press("Next load")
        val second = zone.tag("KM-016")
        screen.hand.see(Zone.camera(zone.sealOf(second), second))
        screen.press("Refused")
        screen.press("Add a note")
        screen.write("swung into the mast")
        screen.press("Take it")
        assertEquals("nothing is given yet", 0, core.movements("KM-016").size)
        screen.press(screen.keys().first { it.label == "It hung or swung badly" })
        assertEquals(
            listOf(RefusalCause.UNSTABLE, "swung into the mast"),
            only("KM-016").let { listOf(it.cause, it.note) },
        )

        // another reason is none without words
        screen.press("Next load")
        val third = zone.tag("KM-017")
        screen.hand.see(Zone.camera(zone.sealOf(third), third))
        screen.press("Refused")
        screen.press(screen.keys().first { it.label.startsWith("Another reason") })
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("Nothing typed yet"))
        screen.write("crew changed")
        screen.press("Take it")
        assertEquals(
            listOf(RefusalCause.OTHER, "crew changed"),
            only("KM-017").let { listOf(it.cause, it.note) },
        )
    }

    /** It was lifted all the same: that is kept, and stands out. */
    @Test
    fun aLiftAgainstANoGoIsTakenAndStandsOut() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag, fit = false), tag)
        screen.press("Lifted")
        assertTrue(only().against)
        assertTrue(screen.words(), screen.words().contains("the verdict shown was NO-GO"))
    }

    @Test
    fun whereNoLoadOrSeveralAreMeantNothingIsReported() {
        val a = zone.sealOf(zone.tag())
        val b = zone.sealOf(zone.tag("KM-016"))
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        screen.hand.see(Zone.camera(a, b))
        assertFalse(screen.hasKey("Lifted") || screen.hasKey("Refused"))
        assertTrue(screen.hasKey("Next load"))
        screen.press("Next load")
        assertFalse("no verdict yet", screen.hasKey("Lifted"))
    }

    /**
     * 19 mm a key, as far apart as gloves want (MIL-STD-1472E, 5.4.2.1), on a small phone, both ways up, in
     * both languages.
     */
    @Test
    fun theTwoKeysAreOfGloveSizeAndApart() {
        val tag = zone.tag()
        val seal = zone.sealOf(tag)
        for (qualifiers in
            listOf(
                "w360dp-h640dp-port-xhdpi",
                "w640dp-h360dp-land-xhdpi",
                "es-rMX-w360dp-h640dp-port-xhdpi",
            )) {
            RuntimeEnvironment.setQualifiers(qualifiers)
            Zone.newPhone()
            zone.meet(core)
            val screen = Screen(Zone.launch().get())
            screen.hand.go(Place.Hook(seal.text, tag.text))
            screen.settle()
            val density = screen.activity.resources.displayMetrics.density
            val words =
                if ("es" in qualifiers) listOf("Levantada", "Rechazada") else listOf("Lifted", "Refused")
            val (lifted, refused) = words.map { screen.box(screen.key(it)) }
            for (box in listOf<Rect>(lifted, refused)) assertTrue(
                "$qualifiers: $box",
                box.width() >= Glove.KEY * density && box.height() >= Glove.KEY * density,
            )
            assertTrue(qualifiers, Gloves.gap(lifted, refused) >= Glove.GAP * density)
        }
    }

    /** The volume stays the volume on a verdict; the button at the ear answers, once it is switched on. */
    @Test
    fun aTeamWithItsHandsOnTheLoadReportsAtTheEar() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag), tag)
        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK, 100)
        assertEquals("off out of the box", 0, core.movements("KM-015").size)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        assertTrue(screen.hand.ear.listening)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 300)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 300)
        assertEquals("the volume keys are the system's", 0, core.movements("KM-015").size)
        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK, 1200)
        assertEquals(
            "held, it says the verdict again",
            core.check(null, tag.text).spoken,
            screen.hand.lastWords,
        )
        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK, 100)
        assertEquals(MovementKind.LIFTED, only().event)
        assertTrue(screen.hand.front is ReportScreen)
    }

    @Test
    fun aRefusalByKeysAlone() {
        val tag = zone.tag()
        val screen = judged(zone.sealOf(tag), tag)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        screen.hardKey(KeyEvent.KEYCODE_MEDIA_NEXT, 60)
        assertEquals(Place.Refuse::class, screen.hand.front!!.place::class)
        repeat(3) { screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 250) }
        assertTrue(screen.hand.lastWords, screen.hand.lastWords!!.startsWith("The load shifted"))
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 250)
        assertEquals(RefusalCause.DAMAGE, only().cause)
    }

    // from phone to phone
}
