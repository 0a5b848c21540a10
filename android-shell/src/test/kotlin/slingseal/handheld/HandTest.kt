package slingseal.handheld

import android.content.Intent
import android.os.Bundle
import android.view.KeyEvent
import android.view.MotionEvent
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Role
import slingseal.handheld.look.PressGuard
import slingseal.handheld.places.Place
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.AtTheLoad
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/**
 * What a gloved hand can trust: palms that answer nothing, keys that wait to be switched on, a set-up that
 * tells the truth.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class HandTest : AtTheLoad() {
    /**
     * Whoever can read it off the screen has compared nothing: it is nowhere on the page, nor among what the
     * page was given.
     */
    @Test
    fun anAuthorityIsTrustedByWhatIsHeardAlone() {
        val launched = Zone.launch()
        val screen = Screen(launched.get())
        val authority = zone.desk.authority()
        Zone.camera()
        screen.hand.go(Place.SetUp)
        screen.settle()
        screen.press("Scan a code")
        screen.hand.see(Zone.camera(authority.card))
        assertEquals(Place.Trust::class, screen.hand.front!!.place::class)
        fun untold() {
            val told =
                screen.words() +
                    screen.shown().map { it.contentDescription ?: "" } +
                    screen.hand.front!!.spoken +
                    (screen.hand.front!!.place as Place.Trust).let { "${it.name} ${it.heard}" }
            for (group in authority.fingerprint.split(' ')) assertFalse(told, group in told)
        }
        untold()

        screen.press("Compare")
        assertTrue(screen.words(), screen.words().contains("Five groups are wanted"))
        assertTrue(core.setUp().authorities.isEmpty())

        // one digit was heard wrong
        val last = authority.fingerprint.last()
        val wrong = authority.fingerprint.dropLast(1) + if (last == '9') '0' else last + 1
        screen.hear(wrong)
        screen.press("Compare")
        assertTrue(screen.words(), screen.words().contains("the fingerprint does not match"))
        assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        untold()
        assertTrue(core.setUp().authorities.isEmpty())

        // a turn of the phone in the middle keeps what was heard; a slip is taken back
        val said = authority.fingerprint.filter { it != ' ' }
        screen.hear(said.take(6))
        screen.press("Erase")
        val state = Bundle().also { launched.saveInstanceState(it) }
        val after = Screen(Robolectric.buildActivity(HandheldActivity::class.java).setup(state).get())
        after.settle()
        after.hear(said.drop(5))
        after.press("Compare")
        assertEquals(authority.fingerprint, core.setUp().authorities.single().fingerprint)
        assertTrue(after.words(), after.words().contains("Sela Relief is trusted here"))
    }

    @Test
    fun aSecondAuthorityOfTheNameIsTrustedOnlyByOneWhoWasToldSo() {
        zone.meet(core)
        val other =
            zone
                .core("other desk")
                .also { it.authorityInit("Sela Relief", Zone.PASSPHRASE, emptyList()) }
                .authority()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Trust(other.card.text, other.name))
        screen.settle()
        screen.hear(other.fingerprint)
        screen.press("Compare")
        assertTrue(
            screen.words(),
            screen.words().contains("is trusted here already") &&
                screen.words().contains(zone.desk.authority().fingerprint),
        )
        assertEquals(1, core.setUp().authorities.size)
        screen.press("Trust both")
        assertEquals(2, core.setUp().authorities.size)
    }

    @Test
    fun aPalmAnswersNothing() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val screen = open(walk.walk)
        screen.settle()
        val good = screen.middle(screen.key("All good"))
        val bad = screen.middle(screen.key("Deficiency"))
        val nowhere = screen.root.width / 2f to screen.root.height / 2f
        fun two(first: Pair<Float, Float>, second: Pair<Float, Float>) {
            screen.settle()
            screen.fingers(MotionEvent.ACTION_DOWN, first)
            screen.settle(60)
            screen.fingers(
                MotionEvent.ACTION_POINTER_DOWN or (1 shl MotionEvent.ACTION_POINTER_INDEX_SHIFT),
                first,
                second,
            )
            screen.settle(200)
            screen.fingers(
                MotionEvent.ACTION_POINTER_UP or (1 shl MotionEvent.ACTION_POINTER_INDEX_SHIFT),
                first,
                second,
            )
            screen.settle(200)
            screen.fingers(MotionEvent.ACTION_UP, first)
            screen.settle()
        }
        fun untouched(why: String) {
            assertTrue(why, screen.hand.front is CardScreen)
            assertEquals(why, 1u, onlyWalk().card!!.number)
        }
        two(good, bad)
        untouched("two keys at once")
        two(nowhere, good)
        untouched("a palm beside a finger")
        two(good, nowhere)
        untouched("a finger beside a palm")
        screen.press(screen.key("All good"), held = PressGuard.LONGEST + PressGuard.HOLD + 500)
        untouched("what rests on a key")
        screen.press("All good")
        assertEquals("one finger answers", 2u, onlyWalk().card!!.number)
    }

    @Test
    fun hardKeysAreOffUntilSwitchedOnAndVolumeStaysVolumeOnAVerdict() {
        zone.inspector()
        val tag = zone.tag()
        val walk = core.beginWalk(tag.text)
        val screen = open(walk.walk)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 300)
        assertEquals("off out of the box", 1u, onlyWalk().card!!.number)
        assertFalse(screen.hand.ear.listening)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 100)
        assertEquals("a brush", 1u, onlyWalk().card!!.number)
        screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 300)
        assertEquals(2u, onlyWalk().card!!.number)

        val seal = Zone.sealed(core, zone.tag("KM-016"))
        screen.hand.go(Place.Hook(seal.code.text, zone.tag("KM-016").text))
        screen.settle()
        for (code in listOf(KeyEvent.KEYCODE_VOLUME_UP, KeyEvent.KEYCODE_VOLUME_DOWN)) screen.hardKey(
            code,
            300,
        )
        assertEquals(
            "a verdict stands until somebody presses the glass",
            Place.Hook::class,
            screen.hand.front!!.place::class,
        )
        assertFalse("the volume is the system's", screen.hand.front!!.takesHardKeys)
        assertTrue("nothing was reported by them", core.movements("KM-016").isEmpty())
    }

    /** A headset by radio speaks to the media session. */
    @Test
    fun aHeadsetByRadioAnswersThroughTheMediaSession() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val screen = open(walk.walk)
        screen.hand.hardKeysOn = true
        screen.hand.redraw()
        screen.settle()
        assertTrue(screen.hand.ear.listening)
        fun button(code: Int) {
            screen.settle()
            val at = android.os.SystemClock.uptimeMillis()
            for (action in listOf(KeyEvent.ACTION_DOWN, KeyEvent.ACTION_UP)) {
                screen.hand.ear.callback.onMediaButtonEvent(
                    Intent(Intent.ACTION_MEDIA_BUTTON)
                        .putExtra(Intent.EXTRA_KEY_EVENT, KeyEvent(at, at + 80, action, code, 0))
                )
            }
            screen.settle(600)
        }
        button(KeyEvent.KEYCODE_MEDIA_PLAY)
        assertEquals(2u, onlyWalk().card!!.number)
        button(KeyEvent.KEYCODE_MEDIA_PREVIOUS)
        assertEquals("back", 1u, onlyWalk().card!!.number)
        button(KeyEvent.KEYCODE_MEDIA_NEXT)
        assertEquals(Place.Pick::class, screen.hand.front!!.place::class)
    }

    @Test
    fun setUpIsFourStepsAndTheInspectionWarnsBeforeTheFirstCard() {
        zone.meet(core)
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Set-up")
        val words = screen.words()
        for (step in
            listOf(
                "1  An authority is trusted",
                "2  A key under your PIN",
                "3  A credential",
                "4  A fresh roster",
            )) assertTrue(words, words.contains(step))
        assertTrue(words, words.contains("Ready to check at the hook") && !words.contains("Ready to inspect"))
        zone.credential(core, "Mason 5", Role.HOOKUP)
        screen.hand.redraw()
        screen.settle()
        assertTrue(
            screen.words(),
            screen.words().contains("It seals no load") && !screen.words().contains("Ready to inspect"),
        )
        screen.hand.go(Place.Tag(zone.tag().text))
        screen.settle()
        assertTrue(screen.words(), screen.words().contains("cannot seal yet"))

        Zone.newPhone()
        zone.inspector()
        val good = Screen(Zone.launch().get())
        good.hand.go(Place.SetUp)
        good.settle()
        assertTrue(good.words(), good.words().contains("Ready to inspect and seal"))
        good.hand.go(Place.Tag(zone.tag().text))
        good.settle()
        assertFalse(good.words(), good.words().contains("cannot seal yet"))
    }

    @Test
    fun aLostKeystoreKeyIsToldAsSuch() {
        zone.inspector()
        Zone.launch().pause().stop().destroy()
        assertFalse(Core.keyLost)
        // the phone's keystore forgets, as after a reset; the home is still there
        slingseal.handheld.support.FakeKeystore.fresh()
        Core.close()
        val screen = Screen(Zone.launch().get())
        assertTrue(Core.keyLost)
        assertTrue(screen.words(), screen.words().contains("lost the key that guards your PIN"))
        screen.press("Inspect a load")
        screen.hand.see(Zone.camera(zone.tag()))
        assertTrue(
            screen.words(),
            screen.words().contains("cannot seal yet") && screen.words().contains("lost the key"),
        )
    }

    /** The order in which a screen reader goes: the words, the card's number, then the answers. */
    @Test
    fun aScreenReaderHearsTheWordsBeforeTheKeys() {
        zone.inspector()
        val screen = open(core.beginWalk(zone.tag().text).walk)
        val frame = screen.all().first { it is slingseal.handheld.look.GloveFrame }
        val good = screen.key("All good")
        val after = frame.findViewById<android.view.View>(good.accessibilityTraversalAfter)!!
        assertTrue("the number stands before the answer", after.contentDescription.startsWith("Card 1 of"))
        val words = frame.findViewById<android.view.View>(after.accessibilityTraversalAfter)!!
        assertTrue("the words stand before the number", words is android.widget.ScrollView)
        assertEquals("the edge is the keys'", 2, frame.systemGestureExclusionRects.size)
    }
}
