package slingseal.handheld

import android.content.Context
import android.content.Intent
import android.graphics.Matrix
import android.hardware.camera2.CameraManager
import android.nfc.NfcAdapter
import android.provider.Settings
import android.widget.EditText
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import slingseal.core.CodeView
import slingseal.core.VerdictWord
import slingseal.handheld.look.Palette
import slingseal.handheld.look.VerdictView
import slingseal.handheld.screens.LookingScreen
import slingseal.handheld.screens.StickerScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Preview
import slingseal.handheld.sense.Sticker
import slingseal.handheld.support.Contrast
import slingseal.handheld.support.FakeSticker
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see
import slingseal.handheld.support.touch

/** Under the aircraft: seal and tag in any order, one verdict at once, by camera, by hand and by touch. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class HookTest {
    private lateinit var zone: Zone
    private val core
        get() = Core.of(RuntimeEnvironment.getApplication())

    @Before
    fun aPhoneAtTheHook() {
        Zone.newPhone()
        Zone.camera()
        zone = Zone()
    }

    /** A phone of the hookup team on the page, with what a camera sees. */
    private fun atTheHook(): Screen {
        Zone.newPhone()
        Zone.camera()
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        return screen
    }

    private val Screen.hand
        get() = activity as HandheldActivity

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
        screen.shown().filterIsInstance<EditText>().single().setText(tag.text)
        screen.press("Use it")
        assertEquals(null, screen.verdict())
        screen.press("Type it")
        screen.shown().filterIsInstance<EditText>().single().setText(seal.text)
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
    fun aStickerIsWrittenReadBackAndJudged() {
        zone.inspector()
        val tag = zone.tag()
        val seal = Zone.sealed(core, tag)
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Sticker(listOf(seal.code.text, tag.text)))
        screen.settle()
        assertTrue(screen.hand.front is StickerScreen)
        val good = FakeSticker(2000)
        screen.touch(good)
        assertTrue(screen.words(), screen.words().contains("Written, read back, and right."))
        assertEquals(Beat.GOOD, screen.hand.lastBeat)
        val verdict = core.readSticker(good.message) as slingseal.core.StickerReading.Ours
        assertEquals(seal.code.text to tag.text, verdict.seal to verdict.tag)
        for ((sticker, words) in
            listOf(
                FakeSticker(2000, writable = false) to "locked",
                FakeSticker(2000, torn = true) to "read back differs",
                FakeSticker(2000, gone = true) to "taken away too soon",
                FakeSticker(100) to "Too small",
                null to "not a sticker that can be written",
            )) {
            screen.touch(sticker)
            assertTrue("$words: ${screen.words()}", screen.words().contains(words))
            assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        }
        // one out of the box is laid out with its first message, and read with the next touch
        val blank = FakeSticker(null, readsBack = false)
        screen.touch(blank)
        assertTrue(screen.words(), screen.words().contains("Not checked yet"))
        assertFalse(screen.words(), screen.words().contains("read back, and right"))
        assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        screen.touch(FakeSticker(2000, message = blank.message))
        assertTrue(screen.words(), screen.words().contains("Written, read back, and right."))
        // room for the seal and not for the tag as well
        val both = core.sticker(listOf(seal.code.text, tag.text), 0u).bytes.toInt()
        val small = FakeSticker(both - 1)
        screen.touch(small)
        assertTrue(screen.words(), screen.words().contains("The seal alone was written"))
    }

    @Test
    fun theReaderListensOnScanAndHookPagesAlone() {
        zone.inspector()
        Zone.nfc()
        val screen = Screen(Zone.launch().get())
        val adapter = shadowOf(NfcAdapter.getDefaultAdapter(screen.activity))

        /** What the page wants and what the platform was asked for are one. */
        fun touches(): Boolean =
            screen.hand.front!!.touches.also {
                assertEquals("${screen.hand.front!!.place}", it, adapter.isInReaderMode)
            }
        assertFalse(touches())
        screen.press("Hook check")
        assertTrue(touches())
        screen.press("Back")
        screen.press("Inspect a load")
        assertTrue(touches())
        screen.touch(FakeSticker(888, message = core.sticker(listOf(zone.tag("KM-081").text), 888u).message))
        assertTrue(screen.words(), screen.words().contains("KM-081"))
        assertFalse(touches())
    }

    @Test
    fun theCameraIsAskedForOnceThenTheWayToTheSettings() {
        shadowOf(RuntimeEnvironment.getApplication()).denyPermissions(android.Manifest.permission.CAMERA)
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        assertEquals("asked", "yes", core.preference("camera asked"))
        assertTrue(screen.words(), screen.words().contains("not allowed"))
        assertTrue("typing is the way out", screen.hasKey("Type it"))
        screen.press("Open the settings")
        val started = shadowOf(screen.activity).nextStartedActivity
        assertEquals(Settings.ACTION_APPLICATION_DETAILS_SETTINGS, started.action)
        // allowed there: the page looks again when it is back in front
        Zone.camera()
        screen.hand.front!!.shown()
        screen.settle()
        assertFalse(screen.words(), screen.words().contains("not allowed"))
    }

    @Test
    fun aCameraThatThrowsIsToldAndEndsNothing() {
        val cameras =
            RuntimeEnvironment.getApplication().getSystemService(Context.CAMERA_SERVICE) as CameraManager
        shadowOf(cameras).removeCamera("0")
        val screen = Screen(Zone.launch().get())
        screen.press("Hook check")
        assertTrue(screen.words(), screen.words().contains("no camera"))
        assertTrue(screen.hasKey("Type it"))
    }

    @Test
    fun thePreviewIsTurnedAndFills() {
        fun box(matrix: Matrix, width: Int, height: Int) =
            android.graphics.RectF(0f, 0f, width.toFloat(), height.toFloat()).also { matrix.mapRect(it) }
        for ((turn, width, height) in
            listOf(
                Triple(0, 1080, 1500),
                Triple(90, 1800, 1000),
                Triple(270, 1800, 1000),
                Triple(180, 1080, 1500),
            )) {
            val seen = box(Preview.matrix(width, height, 1280, 720, turn), width, height)
            assertTrue(
                "$turn: $seen fills $width x $height",
                seen.left <= 1 && seen.top <= 1 && seen.right >= width - 1 && seen.bottom >= height - 1,
            )
            // the picture keeps its shape: 16:9, upright or on its side
            val ratio = maxOf(seen.width(), seen.height()) / minOf(seen.width(), seen.height())
            assertEquals("$turn", 16f / 9f, ratio, 0.02f)
            assertEquals(
                "$turn: the long side lies as the screen does",
                height > width,
                seen.height() > seen.width(),
            )
        }
    }

    @Test
    fun aSealIsVoidedOnThePhoneAndFoundByWords() {
        zone.inspector()
        val tag = zone.tag("KM-091")
        val seal = Zone.sealed(core, tag)
        Zone.sealed(core, zone.tag("KM-092"))
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Records")
        assertTrue(screen.hasKey("KM-091") && screen.hasKey("KM-092"))
        screen.press("Find")
        screen.shown().filterIsInstance<EditText>().single().setText("KM-091")
        screen.press("Find")
        assertTrue(screen.words(), screen.hasKey("KM-091") && !screen.hasKey("KM-092"))
        screen.press("KM-091")
        screen.press("Void the seal")
        screen.press("The load was moved")
        screen.press("1")
        for (digit in Zone.PIN) screen.press(screen.key(digit.toString()), settleFirst = false)
        screen.press("Void it")
        assertTrue(
            "a wrong PIN voids nothing: ${screen.words()}",
            screen.words().contains("PIN is wrong", ignoreCase = true),
        )
        for (digit in Zone.PIN) screen.press(screen.key(digit.toString()), settleFirst = false)
        screen.press("Void it")
        val code = screen.shown().filterIsInstance<slingseal.handheld.look.CodeView>().single()
        val text = Zone.readIndependently(screen.pixels(), screen.box(code))
        assertEquals(VerdictWord.NO_GO, core.check(seal.code.text, tag.text).verdict)

        // another phone that knows nothing of it says GO until it scans the void at the hook
        val hook = zone.core("hookup").also(zone::meet)
        assertEquals(VerdictWord.GO, hook.check(seal.code.text, tag.text).verdict)
        hook.receive(text)
        assertEquals(VerdictWord.NO_GO, hook.check(seal.code.text, tag.text).verdict)
    }

    @Test
    fun aBundleGoesOutAndComesInByFile() {
        zone.inspector()
        Zone.sealed(core, zone.tag("KM-095"))
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Move records")
        screen.press("By file")
        screen.press("Share a bundle")
        screen.finish()
        screen.settle()
        val file = Papers.file(screen.activity)
        assertTrue(file.length() > 500)
        val chooser = shadowOf(screen.activity).nextStartedActivity
        assertEquals(Intent.ACTION_CHOOSER, chooser.action)

        // another phone opens the very file
        val bytes = file.readBytes()
        Zone.newPhone()
        zone.meet(core)
        val uri = android.net.Uri.parse("content://elsewhere/bundle")
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStreamSupplier(uri) {
            java.io.ByteArrayInputStream(bytes)
        }
        val other =
            Screen(
                org.robolectric.Robolectric.buildActivity(
                        HandheldActivity::class.java,
                        Intent(Intent.ACTION_VIEW, uri),
                    )
                    .setup()
                    .get()
            )
        other.finish()
        other.settle()
        assertTrue(other.words(), other.words().contains("1 new"))
        assertEquals(listOf("KM-095"), core.records(null, 10u).map { it.load })
        // and one that is none is told
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStreamSupplier(uri) {
            java.io.ByteArrayInputStream(ByteArray(40) { 7 })
        }
        other.hand.let { slingseal.handheld.screens.FileScreen.take(it, uri) }
        other.finish()
        other.settle()
        assertTrue(other.words(), other.words().contains("bundle"))
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
        val hook = open(HandheldActivity.HOOK)
        assertEquals(Place.Hook::class, hook.hand.front!!.place::class)
        assertEquals("Hook check", pane(hook))
        val inspect = open(HandheldActivity.INSPECT)
        assertEquals(Place.Scan::class, inspect.hand.front!!.place::class)
        inspect.press("Back")
        inspect.press("More")
        assertEquals("More", pane(inspect))
    }
}
