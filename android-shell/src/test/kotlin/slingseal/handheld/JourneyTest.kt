package slingseal.handheld

import android.content.pm.PackageManager
import android.view.KeyEvent
import android.view.WindowManager
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.FindingState
import slingseal.core.Role
import slingseal.core.VerdictWord
import slingseal.core.WalkStage
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.VerdictView
import slingseal.handheld.places.Place
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.ValueScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.AtTheLoad
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN
import slingseal.handheld.support.see

/** Whole jobs by real touches on the real program over the real Rust library. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class JourneyTest : AtTheLoad() {
    private fun Screen.scanTag(tag: slingseal.core.CodeView) {
        press("Inspect a load")
        (activity as HandheldActivity).see(Zone.camera(tag))
        press("Begin the inspection")
    }

    /**
     * Answers cards as good, giving the planned count where one is asked for, until none is left or `stop`
     * says so.
     */
    private fun Screen.walkOn(stop: (CardScreen) -> Boolean = { false }): Int {
        var answered = 0
        while (true) {
            val front = (activity as HandheldActivity).front
            if (front !is CardScreen || stop(front)) return answered
            if (hasKey("All good")) {
                press("All good")
                assertEquals(Beat.GOOD, (activity as HandheldActivity).lastBeat)
                answered += 1
            } else {
                press(if (hasKey("Count")) "Count" else "Give value")
                assertTrue((activity as HandheldActivity).front is ValueScreen)
                giveWhatIsPlanned()
            }
        }
    }

    private fun Screen.giveWhatIsPlanned() {
        val plan =
            Zone.planned((activity as HandheldActivity).front!!.place as Place.Value)
                ?: return press(keys().first { it.label.toString() != "Back" })
        type(plan)
        press("Take it")
    }

    @Test
    fun aWholeLoadFromTheTagToGoOnASecondDevice() {
        zone.inspector()
        val tag = zone.tag()
        val activity = Zone.launch().get()
        val screen = Screen(activity)
        screen.scanTag(tag)
        val first = onlyWalk()
        assertTrue("${first.cards.size} cards", first.cards.size in 25..40)

        // three cards are good, on the fourth a deficiency is found and put right
        repeat(3) { screen.walkOn { onlyWalk().card!!.number.toInt() > 3 } }
        val card = onlyWalk().card!!
        screen.press("Deficiency")
        val named =
            card.points
                .first { point -> point.deficiencies.any { it.inPlace } }
                .deficiencies
                .first { it.inPlace }
        screen.press(named.shown)
        screen.press("Correct it now")
        assertEquals(Beat.DEFICIENCY, activity.lastBeat)
        assertEquals(FindingState.OPEN, onlyWalk().findings.single().state)
        screen.press("It is corrected")
        assertEquals(FindingState.PUT_RIGHT, onlyWalk().findings.single().state)
        screen.press("Good now")
        if (activity.front is ValueScreen) screen.giveWhatIsPlanned()
        assertEquals(FindingState.CLOSED, onlyWalk().findings.single().state)

        // the rest of the walk, the decision, the PIN
        screen.walkOn()
        assertTrue(onlyWalk().blocksFit.isEmpty())
        screen.recap()
        screen.hold("Fit: hold")
        assertEquals(WalkStage.Decided(true), onlyWalk().stage)
        screen.type("000000")
        screen.press("Seal it")
        assertTrue(screen.words(), screen.words().contains("PIN is wrong", ignoreCase = true))
        assertEquals(Beat.REFUSED, activity.lastBeat)
        screen.type(PIN)
        screen.press("Seal it")
        assertTrue(screen.words().contains("1 found, 1 corrected"))
        assertEquals("full brightness", 1f, activity.window.attributes.screenBrightness)
        assertTrue(activity.window.attributes.flags and WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON != 0)

        // the code, read off the screen by a reader that shares nothing with ours
        val code = screen.shown().filterIsInstance<CodeView>().single()
        val text = Zone.readIndependently(screen.picture("journey-seal"), screen.box(code))
        assertTrue(text, text.startsWith("SL1:"))

        // a second device that has never met the first: GO; the same code over another load's tag: NO-GO
        val hookup = zone.core("hookup")
        zone.meet(hookup)
        val go = hookup.check(text, tag.text)
        assertEquals(go.reasons.toString(), VerdictWord.GO, go.verdict)
        assertEquals("Lantern 1", go.facts?.inspector)
        val swapped = hookup.check(text, zone.tag("KM-016").text)
        assertEquals(VerdictWord.NO_GO, swapped.verdict)
        // a code that was cut is no seal, however many signs are left
        for (cut in 1..6) assertEquals(
            "$cut signs less",
            VerdictWord.NO_GO,
            hookup.check(text.dropLast(cut), tag.text).verdict,
        )
    }

    /**
     * The second device is a phone of the same kind: it scans the seal off the first one's screen, then the
     * tag.
     */
    @Test
    fun theHookCheckOnAScreenSaysGoAndNoGo() {
        val tag = zone.tag()
        val seal = zone.sealOf(tag)
        Zone.newPhone()
        zone.meet(Core.of(RuntimeEnvironment.getApplication()))
        val activity = Zone.launch().get()
        val screen = Screen(activity)
        screen.press("Hook check")
        activity.see(Zone.camera(seal))
        activity.see(Zone.camera(tag))
        assertTrue(screen.hasKey("Next load"))
        assertEquals("GO", screen.shown().filterIsInstance<VerdictView>().single().contentDescription)
        assertEquals(Beat.GO, activity.lastBeat)

        screen.press("Next load")
        activity.see(Zone.camera(seal))
        activity.see(Zone.camera(zone.tag("KM-016")))
        assertEquals("NO-GO", screen.shown().filterIsInstance<VerdictView>().single().contentDescription)
        assertEquals(Beat.NO_GO, activity.lastBeat)

        screen.press("Next load")
        activity.see(Zone.camera(zone.tag("KM-017")))
        screen.press("No seal")
        assertEquals(
            "no seal is known of it",
            "NO-GO",
            screen.shown().filterIsInstance<VerdictView>().single().contentDescription,
        )
    }

    @Test
    fun processDeathInTheMiddleOfTheWalkResumesAtTheSameCard() {
        zone.inspector()
        val first = Zone.launch()
        val screen = Screen(first.get())
        screen.scanTag(zone.tag())
        repeat(4) { screen.press(if (screen.hasKey("All good")) "All good" else return@repeat) }
        val before = onlyWalk().card!!
        assertTrue(before.number > 1u)

        // as the system does it: saved state, then the process ends without a word
        val saved = android.os.Bundle()
        first.pause().stop().saveInstanceState(saved).destroy()
        Core.close()
        val again = org.robolectric.Robolectric.buildActivity(HandheldActivity::class.java).setup(saved)
        assertEquals(before.title, Screen(again.get()).heading())
        assertEquals(before.number, onlyWalk().card!!.number)

        // killed without any saved state: the walk that was being walked comes up by itself
        again.pause().stop().destroy()
        Core.close()
        val fresh = Zone.launch()
        assertTrue(fresh.get().front is CardScreen)
        assertEquals(before.title, Screen(fresh.get()).heading())

        // turned in the hand: nothing is lost, and back leads to the start
        RuntimeEnvironment.setQualifiers("+land")
        fresh.recreate()
        assertEquals(before.title, Screen(fresh.get()).heading())
    }

    /**
     * From the tag to the seal with the keys at the edge alone: begin, a deficiency, an undo, counts, the
     * recap, fit, the PIN.
     */
    @Test
    fun aWholeWalkByVolumeKeysAlone() {
        zone.inspector()
        val activity = Zone.launch().get()
        activity.hardKeysOn = true
        val screen = Screen(activity)
        screen.press("Inspect a load")
        activity.see(Zone.camera(zone.tag()))
        screen.settle()
        fun up() = screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 250)
        fun down() = screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 250)
        fun upHeld() = screen.hardKey(KeyEvent.KEYCODE_VOLUME_UP, 1200)
        fun downHeld() = screen.hardKey(KeyEvent.KEYCODE_VOLUME_DOWN, 1200)

        up()
        assertEquals("begun", 1u, onlyWalk().card!!.number)
        up()
        assertEquals(2u, onlyWalk().card!!.number)
        downHeld()
        assertEquals("taken back", 1u, onlyWalk().card!!.number)
        assertEquals(Beat.UNDONE, activity.lastBeat)
        up()
        fun answer() {
            val front = activity.front!!
            if (front !is ValueScreen) return up()
            val plan = Zone.planned(front.place as Place.Value)?.toInt()
            if (plan == null) {
                // a choice: the first is framed, then taken
                repeat(2) { up() }
            } else {
                // one too many, and one back
                repeat(plan + 1) { up() }
                down()
                upHeld()
            }
        }
        // on to a card whose first deficiency is corrected where the load stands
        while (
            activity.front !is CardScreen ||
                !onlyWalk().card!!.points.first { it.deficiencies.isNotEmpty() }.deficiencies.first().inPlace
        ) answer()
        // a deficiency: into the list and back out, in again, the first name, noted
        down()
        downHeld()
        assertTrue(activity.front is CardScreen)
        down()
        down()
        up()
        down()
        assertEquals(1, onlyWalk().findings.size)
        assertEquals(Beat.DEFICIENCY, activity.lastBeat)

        var presses = 0
        while (activity.front is CardScreen || activity.front is ValueScreen) {
            check(presses++ < 400) { screen.words() }
            answer()
        }
        // the open deficiency comes up: take it, corrected, good now
        down()
        up()
        up()
        up()
        if (activity.front is ValueScreen) {
            up()
            upHeld()
        }
        assertEquals(FindingState.CLOSED, onlyWalk().findings.single().state)
        // where the correction disturbs the card's other points, the card is looked at whole again
        while (activity.front is CardScreen || activity.front is ValueScreen) {
            check(presses++ < 500) { screen.words() }
            answer()
        }
        assertTrue(onlyWalk().blocksFit.toString(), onlyWalk().blocksFit.isEmpty())
        repeat(onlyWalk().stations.size) {
            upHeld()
            assertEquals("a long press says the page and no more", WalkStage.Walking, onlyWalk().stage)
            up()
        }
        up()
        assertEquals("a short press is not fit", WalkStage.Walking, onlyWalk().stage)
        upHeld()
        assertEquals(WalkStage.Decided(true), onlyWalk().stage)

        // the PIN: a digit too much is taken off, a count that went wrong is begun anew
        fun slots() = screen.shown().filterIsInstance<slingseal.handheld.look.Slots>().single().filled
        fun dial(digit: Char) {
            repeat(if (digit == '0') 10 else digit.digitToInt()) { up() }
            upHeld()
        }
        assertTrue(screen.words(), screen.words().contains("ten times for 0"))
        dial('0')
        assertEquals(1, slots())
        down()
        assertEquals("taken off", 0, slots())
        repeat(2) { up() }
        down()
        PIN.forEach(::dial)
        assertEquals(PIN.length, slots())
        assertTrue("never which", PIN.none { digit -> screen.words().lines().contains("$digit") })
        upHeld()
        screen.finish()
        val core = Core.of(RuntimeEnvironment.getApplication())
        assertEquals(1, core.records(null, 10u).size)
        assertTrue(activity.front!!.place is Place.Seal)
        up()
        assertTrue(activity.front!!.place is Place.Start)
    }

    @Test
    fun aBrushAndASecondPressAnswerNothing() {
        zone.inspector()
        val activity = Zone.launch().get()
        val screen = Screen(activity)
        screen.scanTag(zone.tag())
        screen.press(screen.key("All good"), held = 40)
        assertEquals("a brush", 1u, onlyWalk().card!!.number)
        screen.press("All good")
        assertEquals(2u, onlyWalk().card!!.number)
        // the second card asks for a choice under the same thumb
        screen.press(screen.key("Give value"), settleFirst = false)
        assertTrue("a second press at once", activity.front is CardScreen)
        assertEquals(2u, onlyWalk().card!!.number)
        screen.press("Undo")
        assertEquals("taken back", 1u, onlyWalk().card!!.number)
        assertEquals(Beat.UNDONE, activity.lastBeat)
    }

    @Test
    fun theDeviceIsSetUpByScanningCodes() {
        val activity = Zone.launch().get()
        val screen = Screen(activity)
        val authority = zone.desk.authority()
        screen.press("More")
        screen.press("Set-up")
        screen.press("Scan a code")
        activity.see(Zone.camera(authority.card))
        screen.hear(authority.fingerprint)
        screen.press("Compare")
        assertTrue(screen.words(), screen.words().contains("Sela Relief is trusted here"))
        screen.press("Scan a code")
        activity.see(Zone.camera(authority.roster))
        screen.press("Make this device's key")
        screen.shown().filterIsInstance<android.widget.EditText>().single().setText("Thistle 7")
        screen.press("Take it")
        repeat(2) {
            screen.type(PIN)
            screen.press("Take it")
        }
        val code = screen.shown().filterIsInstance<CodeView>().single()
        val request = Zone.readIndependently(screen.picture("journey-request"), screen.box(code))
        val issued =
            zone.desk.issue(
                slingseal.core.Issue(request, listOf(Role.INSPECTOR, Role.HOOKUP), "2099-01-01", null, null),
                Zone.PASSPHRASE,
            )
        screen.press("Back")
        screen.press("Scan a code")
        activity.see(Zone.camera(issued))
        val view = Core.of(activity).setUp()
        assertEquals("Thistle 7", view.credential?.holder)
        assertEquals(1u, view.authorities.single().roster)
        assertTrue(screen.words(), screen.words().contains("Thistle 7"))
    }

    @Test
    fun threePermissionsAndNoMore() {
        val app = RuntimeEnvironment.getApplication()
        val asked =
            app.packageManager
                .getPackageInfo(app.packageName, PackageManager.GET_PERMISSIONS)
                .requestedPermissions
        assertEquals(
            setOf(
                android.Manifest.permission.CAMERA,
                android.Manifest.permission.NFC,
                android.Manifest.permission.VIBRATE,
            ),
            asked!!.toSet(),
        )
    }

    @Test
    fun aCodeThatIsNotOursIsToldAndNothingElseHappens() {
        zone.inspector()
        val activity = Zone.launch().get()
        val screen = Screen(activity)
        screen.press("Inspect a load")
        activity.see(Zone.camera(zone.desk.authority().card))
        assertTrue(screen.words(), screen.words().contains("load tag"))
        assertEquals(Beat.REFUSED, activity.lastBeat)
        assertTrue(Core.of(activity).start().inHand.isEmpty())
    }
}
