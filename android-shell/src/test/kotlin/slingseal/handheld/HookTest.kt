package slingseal.handheld

import android.content.Intent
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.VerdictWord
import slingseal.handheld.look.Palette
import slingseal.handheld.look.VerdictView
import slingseal.handheld.places.Place
import slingseal.handheld.screens.LookingScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.Contrast
import slingseal.handheld.support.FakeSticker
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see
import slingseal.handheld.support.touch

/** Under the aircraft: seal and tag in any order, one verdict at once, by camera, by hand and by touch. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class HookTest : OnAPhone() {
    /** A phone of the hookup team on the page, with what a camera sees. */
    private fun atTheHook(): Screen {
        Zone.newPhone()
        Zone.camera()
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        return screen
    }

    private fun Screen.verdict() =
        shown().filterIsInstance<VerdictView>().singleOrNull()?.contentDescription?.toString()

    private fun Screen.looks() = (hand.front as LookingScreen).looks

    @Test
    fun eitherCodeFirstAndBothInOneFrame() {
        val tag = zone.tag()
        val seal = zone.sealOf(tag)
        var screen = atTheHook()
        assertEquals("the camera is open at once", true, screen.looks())
        screen.hand.see(Zone.camera(seal))
        assertEquals("a verdict with the seal alone", "GO", screen.verdict())
        assertTrue("and the tag may follow", screen.looks() && screen.words().contains("Tag too"))
        screen.hand.see(Zone.camera(tag))
        assertEquals("GO", screen.verdict())
        assertFalse(screen.looks())

        screen = atTheHook()
        screen.hand.see(Zone.camera(tag))
        assertEquals("a tag alone is no verdict while its seal may be shown", null, screen.verdict())
        assertTrue(
            screen.words(),
            screen.words().contains("KM-015") && screen.words().contains("Now the seal"),
        )
        screen.hand.see(Zone.camera(seal))
        assertEquals("GO", screen.verdict())
        assertEquals(Beat.GO, screen.hand.lastBeat)

        screen = atTheHook()
        screen.hand.see(Zone.camera(seal, tag))
        assertEquals("both in one frame", "GO", screen.verdict())
        assertFalse(screen.looks())
        assertTrue(screen.words(), screen.words().contains("7000 lb"))
    }

    /** Two loads' seals in one frame: each is judged and the gravest is shown. */
    @Test
    fun severalSealsAtOnceShowTheGravest() {
        val good = zone.sealOf(zone.tag())
        val unfit = zone.sealOf(zone.tag("KM-016"), fit = false)
        val screen = atTheHook()
        screen.hand.see(Zone.camera(good, unfit))
        assertEquals("NO-GO", screen.verdict())
        assertTrue(
            screen.words(),
            screen.words().contains("KM-015 · ") && screen.words().contains("KM-016 · NO-GO"),
        )
        assertFalse(screen.looks())
    }

    @Test
    fun aNoGoWaitsForNoTagAndNeverSaysFit() {
        val tag = zone.tag()
        val unfit = zone.sealOf(tag, fit = false)
        val screen = atTheHook()
        screen.hand.see(Zone.camera(unfit))
        assertEquals("NO-GO", screen.verdict())
        assertEquals(Beat.NO_GO, screen.hand.lastBeat)
        assertFalse("nothing more is asked for", screen.looks())
        assertFalse(screen.words(), Regex("\\bFit\\b|Outcome").containsMatchIn(screen.words()))
        val verdict = core.check(unfit.text, null)
        assertTrue(verdict.spoken, verdict.spoken.startsWith("Do not lift."))

        val good = zone.sealOf(zone.tag("KM-016"))
        val other = atTheHook()
        other.hand.see(Zone.camera(good, zone.tag("KM-017")))
        assertEquals("another load's tag", "NO-GO", other.verdict())
        assertFalse(other.words(), Regex("\\bFit\\b|Outcome").containsMatchIn(other.words()))
    }

    /** What the hookup team compares stands under the word, whole, before anybody scrolls. */
    @Test
    fun theFactsStandUnderTheWordWithoutScrolling() {
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
            Zone.camera()
            zone.meet(core)
            val screen = Screen(Zone.launch().get())
            for ((name, place) in
                mapOf(
                    "go" to Place.Hook(seal.text, tag.text),
                    "seal" to Place.Hook(seal.text),
                    "no-go" to Place.Hook(seal.text, zone.tag("KM-016").text),
                )) {
                screen.hand.go(place)
                screen.settle()
                val verdict = core.check(seal.text, place.tag)
                val facts = verdict.facts!!
                val wanted =
                    listOfNotNull(
                        facts.load,
                        facts.mass,
                        facts.inspector,
                        facts.validUntil.dtg,
                        verdict.cautions.first(),
                        verdict.tag?.allowable,
                        verdict.tag?.aircraft,
                    )
                for (words in wanted) {
                    val view =
                        screen.shown().filterIsInstance<android.widget.TextView>().firstOrNull {
                            it.text.contains(words)
                        }
                    assertTrue(
                        "$qualifiers $name: \"$words\" is not on the page: ${screen.words()}",
                        view != null,
                    )
                    assertTrue("$qualifiers $name: \"$words\" must be scrolled for", screen.isWhole(view!!))
                }
                assertEquals(if (name == "no-go") VerdictWord.NO_GO else VerdictWord.GO, verdict.verdict)
            }
        }
    }

    /** For eyes that see no hue: GO is light, NO-GO dark; and their frames differ. */
    @Test
    fun goAndNoGoDifferInLightness() {
        for (palette in Palette.entries) {
            val ratio = Contrast.ratio(palette.go.under, palette.noGo.under)
            assertTrue("$palette: $ratio", ratio >= 4.5)
            assertTrue(
                "$palette",
                Contrast.luminance(palette.go.under) > Contrast.luminance(palette.noGo.under),
            )
        }
    }

    @Test
    fun aTypedSealAndATypedTagDoWhatTheCameraDoes() {
        val tag = zone.tag()
        val seal = zone.sealOf(tag)
        val screen = atTheHook()
        screen.press("Type it")
        screen.write(tag.text)
        screen.press("Use it")
        assertEquals(null, screen.verdict())
        screen.press("Type it")
        screen.write(seal.text)
        screen.press("Use it")
        assertEquals("GO", screen.verdict())
        screen.press("Next load")
        assertEquals(null, screen.verdict())
        assertTrue(screen.looks())
    }

    @Test
    fun oneTouchOfAStickerIsAVerdict() {
        val tag = zone.tag()
        val seal = zone.sealOf(tag)
        val screen = atTheHook()
        assertTrue(screen.hand.front!!.touches)
        screen.touch(FakeSticker(888, message = core.sticker(listOf(seal.text, tag.text), 888u).message))
        assertEquals("GO", screen.verdict())
        assertEquals(Beat.GO, screen.hand.lastBeat)
        assertFalse("nothing is left to read", screen.looks())
        screen.press("Next load")
        screen.touch(FakeSticker(888))
        assertTrue(screen.words(), screen.words().contains("Nothing of ours"))
        screen.touch(FakeSticker(888, gone = true))
        assertTrue(screen.words(), screen.words().contains("taken away too soon"))
        assertEquals(null, screen.verdict())
    }

    @Test
    fun shortcutsAndPaneTitles() {
        zone.inspector()
        fun open(action: String) =
            Screen(
                    org.robolectric.Robolectric.buildActivity(HandheldActivity::class.java, Intent(action))
                        .setup()
                        .get()
                )
                .also { it.settle() }
        fun pane(screen: Screen) =
            screen.all().first { it is slingseal.handheld.look.SafeArea }.accessibilityPaneTitle
        val hook = open(Shortcut.HOOK)
        assertEquals(Place.Hook::class, hook.hand.front!!.place::class)
        assertEquals("Hook check", pane(hook))
        val inspect = open(Shortcut.INSPECT)
        assertEquals(Place.Scan::class, inspect.hand.front!!.place::class)
        inspect.press("Back")
        inspect.press("More")
        assertEquals("More", pane(inspect))
    }
}
