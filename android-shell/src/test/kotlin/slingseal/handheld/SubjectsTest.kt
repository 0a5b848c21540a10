package slingseal.handheld

import android.widget.EditText
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Handheld
import slingseal.core.Received
import slingseal.core.Role
import slingseal.core.StickerReading
import slingseal.core.VerdictWord
import slingseal.core.WalkRequest
import slingseal.core.WalkView
import slingseal.handheld.places.Place
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.InspectionScreen
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see
import slingseal.handheld.support.sound

/**
 * A unit's day on the phone, of what is no load: briefing, hooks, gear, hookup, derigging; and what a load
 * hears of the gear.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class SubjectsTest : OnAPhone() {
    @Before fun anInspectors() = zone.inspector()

    private fun phone(): Screen = Screen(Zone.launch().get())

    private fun only(): WalkView = core.walk(core.start().inHand.single().walk)

    /** To the first page, from wherever the phone is. */
    private fun Screen.home() {
        (activity as HandheldActivity).backTo(Place.Start::class)
        settle()
    }

    /** Begins a list by touch, by its title and a name that is typed. */
    private fun Screen.begin(title: String, name: String): WalkView {
        home()
        press("More")
        press("Inspect gear, zone, hooks")
        press(title)
        write(name)
        press("Begin the inspection")
        assertTrue(words(), (activity as HandheldActivity).front is CardScreen)
        return only()
    }

    /** Answers every card as a sound one. */
    private fun walk(begun: WalkView, on: Handheld = core): WalkView {
        var view = begun
        while (view.card != null) {
            view = on.doWalk(view.walk, sound(view))
            check(view.refused == null) { view.refused?.message.orEmpty() }
        }
        return view
    }

    /** The recap, FIT, the PIN: what the page of the signed inspection says then. */
    private fun Screen.sign(fit: Boolean = true): String {
        (activity as HandheldActivity).redraw()
        settle()
        if (fit) {
            while (hasKey("Next")) press("Next")
            hold("Fit: hold")
        } else {
            press("Not fit")
        }
        type(Zone.PIN)
        press("Sign it")
        assertTrue(words(), (activity as HandheldActivity).front is InspectionScreen)
        return words()
    }

    @Test
    fun aDayOfAUnit() {
        val screen = phone()
        val activity = screen.activity as HandheldActivity
        val hook = zone.core("hook").also(zone::meet)

        // the briefing, by touch from the first card to the last
        screen.begin("Zone and briefing", "Kestrel Meadow")
        assertTrue("the band says the zone and no load", screen.words().startsWith("Kestrel Meadow\n"))
        var touched = 0
        while (activity.front is CardScreen) {
            if (screen.hasKey("All good")) {
                screen.press("All good")
                touched += 1
            } else {
                core.doWalk(only().walk, sound(only()))
                activity.redraw()
                screen.settle()
            }
        }
        assertTrue("$touched cards", touched >= 5)
        assertTrue(screen.sign(), screen.words().contains("Kestrel Meadow · Fit"))

        // hooks with the crew; a chain, whose serial number is longer than any load number
        walk(screen.begin("Daily inspection of the hooks, with the crew", "Heron 2"))
        screen.sign()
        val serial = "CH-0004/Lot 2026-03"
        walk(screen.begin("Gear: chain leg", serial))
        assertTrue(screen.sign(), screen.words().contains("Valid until"))

        // a net with a cut mesh is withdrawn: by code, by sticker and by bundle others hear of it
        var net = screen.begin("Gear: cargo net", "CB-0932")
        while (net.card!!.points.none { it.id == "mesh.strip-2.bend" }) net =
            core.doWalk(net.walk, sound(net))
        net =
            core.doWalk(
                net.walk,
                WalkRequest.Deficiency(
                    net.card!!.number,
                    "mesh.strip-2.bend",
                    "more than two strands break when bent",
                    null,
                    emptyList(),
                ),
            )
        assertEquals("CB-0932", net.findings.single().piece)
        walk(net)
        assertTrue(screen.sign(fit = false), screen.words().contains("CB-0932 · withdrawn"))
        val code = screen.readCode()
        assertTrue(code, code.startsWith("PI1:"))
        val heard = hook.receive(code)
        assertTrue("$heard", heard is Received.Inspection && !heard.fit && heard.name == "CB-0932")
        val sticker = core.sticker(listOf(code), 868u)
        assertTrue("${sticker.bytes} bytes", sticker.fits)
        val others = (hook.readSticker(sticker.message) as StickerReading.Ours).others
        assertEquals(listOf(code), others.map { it.text })
        val bundle = java.io.File.createTempFile("slingseal", ".bundle").apply { delete() }
        core.bundleOut(bundle.path)
        val later = zone.core("later").also(zone::meet)
        later.bundleIn(bundle.path)
        assertEquals(4, later.keptInspections().size)

        // the next load that names it: told before the first card, and never fit
        screen.home()
        screen.press("Inspect a load")
        activity.see(Zone.camera(zone.tag("KM-033")))
        assertTrue(screen.words(), screen.words().contains("CB-0932: withdrawn"))
        screen.press("Begin the inspection")
        val load = walk(only())
        assertTrue(load.blocksFit.toString(), load.blocksFit.any { it.contains("CB-0932") })
        core.doWalk(load.walk, WalkRequest.Decide(false, null))
        core.seal(load.walk, Zone.PIN, null)

        // a load that is fit: its hookup is read aloud before the aircraft is called, then it is derigged
        val tag = zone.tag("KM-034", bag = "CB-0100")
        val seal = Zone.sealed(core, tag)
        assertEquals(VerdictWord.GO, hook.check(seal.code.text, tag.text).verdict)
        activity.speaks = true
        walk(screen.begin("Hookup, read aloud before the aircraft is called", "km-034"))
        assertEquals("the first card was spoken", true, activity.lastWords?.isNotEmpty())
        assertTrue(screen.sign(), screen.words().contains("KM-034 · Fit"))
        walk(screen.begin("Release, derig, gear counted back", "KM-034"))
        screen.sign()

        // everything is kept, and nothing is in hand
        screen.home()
        screen.press("More")
        screen.press("Inspect gear, zone, hooks")
        screen.press("What was inspected")
        val names = screen.keys().map { it.label.toString() }
        assertEquals(
            listOf("KM-034", "KM-034", "CB-0932", serial, "Heron 2", "Kestrel Meadow"),
            names.filter { it != "Back" },
        )
        assertEquals(emptyList<Any>(), core.start().inHand)
        assertEquals(emptyList<String>(), core.audit().faults)
    }

    @Test
    fun aDecisionThatWasNotSignedIsToldAndTakenBack() {
        val screen = phone()
        val activity = screen.activity as HandheldActivity
        walk(screen.begin("Gear: swivel", "SW-11"))
        activity.redraw()
        screen.settle()
        while (screen.hasKey("Next")) screen.press("Next")
        screen.hold("Fit: hold")
        assertTrue(screen.words(), screen.words().contains("Your PIN signs: SW-11 is FIT."))
        screen.home()
        screen.press("More")
        screen.press("Inspect gear, zone, hooks")
        screen.press("What was inspected")
        assertTrue(
            screen.keys().single { it.label.toString() == "SW-11" }.contentDescription.contains("not signed")
        )
        screen.press("SW-11")
        screen.press("Undo")
        assertTrue("back before the decision", screen.hasKey("Next") || screen.hasKey("Fit: hold"))
        while (screen.hasKey("Next")) screen.press("Next")
        screen.hold("Fit: hold")
        screen.type(Zone.PIN)
        screen.press("Sign it")
        assertTrue(screen.words(), screen.words().contains("SW-11 · Fit"))
    }

    @Test
    fun aPieceIsKnownByItsOwnCodeAndALoadsTagIsNone() {
        val other = zone.core("other").also(zone::meet)
        zone.credential(other, "Herald 2", Role.INSPECTOR)
        val walked = walk(other.beginInspection("gear-hook", "HK-77"), other)
        other.doWalk(walked.walk, WalkRequest.Decide(true, null)).also {
            check(it.refused == null) { it.refused?.message + it.blocksFit }
        }
        val code = other.signInspection(walked.walk, Zone.PIN).code
        val screen = phone()
        val activity = screen.activity as HandheldActivity
        screen.press("More")
        screen.press("Inspect gear, zone, hooks")
        screen.press("Gear: hook")
        screen.press("Scan its code")
        activity.see(Zone.camera(zone.tag("KM-031")))
        assertTrue(screen.words(), screen.words().contains("no inspection of a piece"))
        activity.see(Zone.camera(code))
        assertEquals("HK-77", screen.shown().filterIsInstance<EditText>().single().text.toString())
        screen.press("Begin the inspection")
        assertEquals("HK-77", only().load)
        assertFalse(only().title.isEmpty())
    }
}
