package slingseal.handheld

import android.content.Context
import android.graphics.Insets
import android.graphics.Rect
import android.os.Vibrator
import android.speech.tts.TextToSpeech
import android.view.KeyEvent
import android.view.WindowInsets
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import org.robolectric.shadows.ShadowTextToSpeech
import slingseal.core.HandheldException
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.PhotoScreen
import slingseal.handheld.screens.answer
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/** A card is heard, answered by a button at the ear and felt; and what else holds on every page. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class WithoutLookingTest : OnAPhone() {
    @Before fun anInspectors() = zone.inspector()

    private fun launched(): Pair<HandheldActivity, Screen> = Zone.launch().get().let { it to Screen(it) }

    private fun Screen.beginWalk() {
        press("Inspect a load")
        (activity as HandheldActivity).see(Zone.camera(zone.tag()))
        press("Begin the inspection")
    }

    private fun walk() = core.walk(core.start().inHand.single().walk)

    @Test
    fun aCardIsHeardAnsweredAtTheEarAndFelt() {
        val (activity, screen) = launched()
        val vibrator = shadowOf(activity.getSystemService(Context.VIBRATOR_SERVICE) as Vibrator)
        vibrator.setHasVibrator(true)
        screen.press("More")
        screen.press("Light, voice, keys")
        screen.press("Voice")
        screen.press("Keys at the edge and at the ear")
        repeat(2) { screen.press("Back") }
        val engine = shadowOf(ShadowTextToSpeech.getLastTextToSpeechInstance())
        engine.onInitListener.onInit(TextToSpeech.SUCCESS)
        screen.beginWalk()
        assertEquals("the first card is said", walk().card!!.spoken, engine.lastSpokenText)

        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK)
        assertEquals("one press is good", 2u, walk().card!!.number)
        assertEquals("the next card is said", walk().card!!.spoken, engine.lastSpokenText)
        assertEquals(Beat.GOOD.pattern().toList(), vibrator.pattern?.toList())

        screen.hardKey(KeyEvent.KEYCODE_HEADSETHOOK, held = 1200)
        assertEquals("a long press answers nothing", 2u, walk().card!!.number)
        assertEquals(walk().card!!.spoken, engine.lastSpokenText)

        // two presses: a deficiency. The list is walked by the volume keys, name by name.
        repeat(2) { screen.press(KeyEvent.KEYCODE_HEADSETHOOK) }
        screen.settle(600)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 250)
        val named = engine.lastSpokenText
        assertTrue(
            named,
            walk().card!!.points.any { point -> point.deficiencies.any { named.startsWith(it.shown) } },
        )
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 250)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 250)
        assertEquals(1, walk().findings.size)
        assertEquals(Beat.DEFICIENCY.pattern().toList(), vibrator.pattern?.toList())
        assertNotEquals(Beat.GOOD.pattern().toList(), Beat.DEFICIENCY.pattern().toList())
    }

    /**
     * Whoever listens and hears nothing is told that nothing is coming, once, in words that can be read here.
     */
    @Test
    fun aVoiceThatFailsIsToldOnceInTheReadersLanguage() {
        for ((qualifiers, words) in listOf("en" to "no voice", "es-rMX" to "no tiene voz")) {
            RuntimeEnvironment.setQualifiers(qualifiers)
            val (activity, screen) = launched()
            activity.speaks = true
            shadowOf(ShadowTextToSpeech.getLastTextToSpeechInstance())
                .onInitListener
                .onInit(TextToSpeech.ERROR)
            activity.go(Place.Hook())
            screen.settle()
            assertTrue(screen.words(), screen.words().contains(words))
            activity.go(Place.Hook())
            screen.settle()
            assertTrue("once: ${screen.words()}", !screen.words().contains(words))
        }
    }

    /** What was refused is heard to its end: the page that comes with it does not cut it short. */
    @Test
    fun aRefusalIsHeardAndNotCutShortByItsPage() {
        val (activity, screen) = launched()
        activity.speaks = true
        val engine = shadowOf(ShadowTextToSpeech.getLastTextToSpeechInstance())
        engine.onInitListener.onInit(TextToSpeech.SUCCESS)
        // not fit may not be called fit: the walk refuses, and the page of the walk is spoken with it
        screen.beginWalk()
        val id = walk().walk
        activity.answer(WalkRef.Inspection(id), slingseal.core.WalkRequest.Decide(true, null), Beat.GOOD) {}
        screen.settle()
        val refused = core.doWalk(id, slingseal.core.WalkRequest.Decide(true, null)).refused!!.message
        assertTrue(
            engine.lastSpokenText,
            engine.lastSpokenText.startsWith(refused) && engine.lastSpokenText.contains(walk().card!!.spoken),
        )
        // and one that comes with slow work
        activity.work({ core.seal(id, "000000", null) }) {}
        screen.finish()
        screen.settle()
        assertTrue(
            engine.lastSpokenText,
            engine.lastSpokenText.isNotEmpty() && screen.words().contains(engine.lastSpokenText),
        )
    }

    /** A phone may speak what the core does not: then the words are English, and so is the voice. */
    @Test
    fun theVoiceIsOfTheLanguageThatTheCoreSpeaks() {
        ShadowTextToSpeech.addLanguageAvailability(java.util.Locale.FRENCH)
        for ((qualifiers, language) in listOf("fr" to "en", "es-rMX" to "es", "en-rGB" to "en")) {
            RuntimeEnvironment.setQualifiers(qualifiers)
            val (activity, screen) = launched()
            activity.speaks = true
            val engine = shadowOf(ShadowTextToSpeech.getLastTextToSpeechInstance())
            engine.onInitListener.onInit(TextToSpeech.SUCCESS)
            activity.go(Place.Hook())
            screen.settle()
            assertEquals(qualifiers, language, engine.currentLanguage.language)
            assertTrue(engine.lastSpokenText, engine.lastSpokenText.isNotEmpty())
        }
    }

    /** A short press of a key, with no wait after it. */
    private fun Screen.press(code: Int) {
        val at = android.os.SystemClock.uptimeMillis()
        root.dispatchKeyEvent(KeyEvent(at, at, KeyEvent.ACTION_DOWN, code, 0))
        settle(100)
        root.dispatchKeyEvent(
            KeyEvent(at, android.os.SystemClock.uptimeMillis(), KeyEvent.ACTION_UP, code, 0)
        )
        settle(60)
    }

    @Test
    fun theBarsAndTheCutOutCoverNoKey() {
        val (activity, screen) = launched()
        screen.beginWalk()
        assertTrue(activity.front is CardScreen)
        val safe = Rect(40, 90, screen.root.width - 20, screen.root.height - 130)
        val insets =
            WindowInsets.Builder()
                .setInsets(WindowInsets.Type.statusBars(), Insets.of(0, 60, 0, 0))
                .setInsets(WindowInsets.Type.navigationBars(), Insets.of(0, 0, 20, 130))
                .setInsets(WindowInsets.Type.displayCutout(), Insets.of(40, 90, 0, 0))
                .build()
        val before = screen.keys().map { screen.box(it) }
        assertTrue("some key lay under a bar before", before.any { !safe.contains(it) })
        screen.root.dispatchApplyWindowInsets(insets)
        screen.settle()
        for (key in screen.keys()) assertTrue(
            "${key.label}: ${screen.box(key)} in $safe",
            safe.contains(screen.box(key)),
        )
    }

    /** The key is out of its vault for one seal alone: there is nothing that could stay unlocked. */
    @Test
    fun thePinOpensTheKeyForOneSealAndNoMore() {
        val first = Zone.sealed(core, zone.tag("KM-041"))
        assertTrue(first.facts.fit)
        var view = core.beginWalk(zone.tag("KM-042").text)
        while (view.card != null) view = core.doWalk(view.walk, Zone.answer(view))
        core.doWalk(view.walk, slingseal.core.WalkRequest.Decide(true, null))
        val refused = runCatching { core.seal(view.walk, "000000", null) }.exceptionOrNull()
        assertTrue("$refused", refused is HandheldException.Refused)
        assertEquals(1, core.records(null, 10u).size)
    }

    @Test
    fun theScreenStaysOnWhileWalkingAndShinesForACode() {
        val (activity, screen) = launched()
        val on = android.view.WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON
        fun staysOn() = activity.window.attributes.flags and on != 0
        assertTrue("the first page lets the screen sleep", !staysOn())
        screen.beginWalk()
        assertTrue(staysOn())
        val seal = Zone.sealed(core, zone.tag("KM-043"))
        activity.go(Place.Seal(seal.record))
        screen.settle()
        assertEquals(1f, activity.window.attributes.screenBrightness, 0f)
        activity.backTo(Place.Start::class)
        screen.settle()
        assertEquals(-1f, activity.window.attributes.screenBrightness, 0f)
    }

    @Test
    fun aTypedTagDoesWhatAScannedOneDoes() {
        val (_, screen) = launched()
        screen.press("Inspect a load")
        screen.press("Type it")
        val line = screen.shown().filterIsInstance<android.widget.EditText>().single()
        line.setText(zone.tag("KM-044").text.dropLast(1))
        screen.press("Use it")
        assertTrue(screen.words(), core.start().inHand.isEmpty() && !screen.hasKey("Begin the inspection"))
        screen
            .shown()
            .filterIsInstance<android.widget.EditText>()
            .single()
            .setText("  ${zone.tag("KM-044").text}\n")
        screen.press("Use it")
        screen.press("Begin the inspection")
        assertEquals("KM-044", walk().load)
    }

    @Test
    fun theTorchIsOfferedWhereThereIsOneAndTheCameraIsAskedFor() {
        shadowOf(RuntimeEnvironment.getApplication()).denyPermissions(android.Manifest.permission.CAMERA)
        val (_, screen) = launched()
        screen.press("Inspect a load")
        assertTrue(
            "no camera that may be used: typing is offered, a torch is not",
            screen.hasKey("Type it") && !screen.hasKey("Torch"),
        )
        assertTrue(screen.words(), screen.words().contains("not allowed"))
        screen.press("Back")
        Zone.camera()
        screen.press("Inspect a load")
        assertTrue(screen.hasKey("Torch"))
        assertTrue(screen.words(), !screen.words().contains("not allowed"))
    }

    @Test
    fun aPhotographGoesWithADeficiency() {
        val (activity, screen) = launched()
        screen.beginWalk()
        screen.press("Deficiency")
        val name = walk().card!!.points.first { it.deficiencies.isNotEmpty() }.deficiencies.first().shown
        screen.press(name)
        screen.press("Note or photo")
        screen.shown().filterIsInstance<android.widget.EditText>().single().setText("left of the patch")
        screen.press("Add a photo")
        val picture = java.io.ByteArrayOutputStream()
        android.graphics.Bitmap.createBitmap(64, 48, android.graphics.Bitmap.Config.ARGB_8888)
            .compress(android.graphics.Bitmap.CompressFormat.JPEG, 90, picture)
        (activity.front as PhotoScreen).review(picture.toByteArray())
        screen.settle()
        assertTrue(
            "nothing is kept before it was looked at",
            core.start().inHand.size == 1 && screen.hasKey("Take it again"),
        )
        screen.press("Keep it")
        assertTrue(
            screen.words(),
            screen.words().contains("Photos: 1") && screen.words().contains("left of the patch"),
        )
        screen.press("Note it, go on")
        val finding = walk().findings.single()
        assertEquals("left of the patch", finding.note)
        assertEquals(1, finding.photos.size)
        assertEquals(Beat.DEFICIENCY, activity.lastBeat)
    }
}
