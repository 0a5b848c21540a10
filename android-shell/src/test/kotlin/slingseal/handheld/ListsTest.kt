package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.CodeView
import slingseal.core.EditionState
import slingseal.core.Handheld
import slingseal.core.VerdictWord
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.MovedScreen
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see
import java.io.File

/** Which lists count: a unit's own goes from the desk to this phone by pictures of a moving code, and is walked here. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ListsTest {
    private lateinit var zone: Zone

    @Before
    fun newPhone() {
        Zone.newPhone()
        zone = Zone()
        zone.inspector()
    }

    private fun crate(cards: Int) = buildString {
        append("id = \"crate\"\nversion = 1\ntitle = \"Crate on one leg\"\nsource = \"user's own\"\n[[station]]\nid = \"all\"\ntitle = \"All of it\"\n")
        repeat(cards) {
            append("[[station.card]]\nid = \"look-$it\"\ntitle = \"Look $it\"\nmotion = \"Look at side $it.\"\n")
            append("[[station.card.point]]\nid = \"good\"\nprompt = \"Side $it is whole\"\nrerig = [\"side $it is broken\"]\n")
        }
    }

    private fun plan(device: Handheld): CodeView {
        val plan = File("../bindings/desk/demo/bag.toml").readText().replace("procedure = \"bag\"", "procedure = \"crate\"")
        return device.writeTag(plan, null, Zone.PIN).code
    }

    /** A device that trusts the desk and may plan and inspect. */
    private fun device(name: String, holder: String) = zone.core(name).also {
        zone.meet(it)
        zone.credential(it, holder, "planner,inspector")
    }

    @Test
    fun aUnitsOwnListGoesFromTheDeskToTheHook() {
        // written and approved at the desk
        zone.desk.addProcedure(crate(3))
        zone.desk.approve(listOf("crate"), null, Zone.PASSPHRASE)
        val planner = device("plans", "Lantern 2")
        planner.addProcedure(crate(3))
        val tag = plan(planner)

        // without it, one line says which is missing and how to get it
        val activity = Zone.launch().get()
        val core = Core.of(activity)
        val missing = runCatching { core.beginWalk(tag.text) }.exceptionOrNull()?.message.orEmpty()
        assertTrue(missing, missing.contains("the tag orders procedure crate version 1") && missing.contains("receive it"))

        // carried by the pictures of a moving code, a third of them lost
        val screen = Screen(activity)
        screen.press("More")
        screen.press("Move records")
        screen.press("Take in")
        val out = zone.desk.movingProcedures(emptyList())
        assertEquals(1u, out.papers)
        var frame = 0
        while (activity.front !is MovedScreen) {
            check(frame < 400) { screen.words() }
            if (frame % 3 != 1) activity.see(Zone.camera(zone.desk.movingFrame(frame.toUInt())))
            frame += 1
        }
        val known = core.procedureEditions().single { it.id == "crate" }
        assertEquals(EditionState.APPROVED to true, known.state to known.inUse)

        // walked here by touch, sealed
        screen.press("Done")
        while (!screen.hasKey("Inspect a load")) screen.press("Back")
        screen.press("Inspect a load")
        activity.see(Zone.camera(tag))
        screen.press("Begin the inspection")
        var cards = 0
        while (activity.front is CardScreen) {
            screen.press("All good")
            cards += 1
        }
        assertEquals(3, cards)
        val seal = Zone.sealed(core, tag)

        // a third device has only the roster
        val third = zone.core("third").also(zone::meet)
        assertEquals(EditionState.MISSING, third.procedureEditions().single { it.id == "crate" }.state)
        val go = third.check(seal.code.text, tag.text)
        assertEquals(go.first, VerdictWord.GO, go.verdict)

        // the forgery of one card under the same name and version, sealed for the same load by a tag of its own
        val forger = zone.core("forger").also(zone::meet)
        zone.credential(forger, "Rook 8", "planner,inspector")
        forger.addProcedure(crate(1))
        val forgedTag = runCatching { plan(forger) }
        assertTrue("a text that nobody approves takes no approved one's place", forgedTag.isFailure)
        assertTrue(runCatching { forger.beginWalk(tag.text) }.isFailure)

        // withdrawn: what is walked from then on waits, and says by its name why
        Thread.sleep(1_100)
        zone.desk.withdraw(listOf("crate"), null, Zone.PASSPHRASE)
        val second = Zone.sealed(planner, tag)
        third.receive(zone.desk.authority().roster.text)
        val wait = third.check(second.code.text, tag.text)
        assertEquals(VerdictWord.WAIT, wait.verdict)
        assertTrue(wait.first, wait.first.contains("withdrew procedure crate version 1"))
    }
}
