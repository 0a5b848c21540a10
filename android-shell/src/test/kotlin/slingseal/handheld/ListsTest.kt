package slingseal.handheld

import java.io.File
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
import slingseal.core.Role
import slingseal.core.VerdictWord
import slingseal.handheld.screens.CardScreen
import slingseal.handheld.screens.MovedScreen
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/**
 * Which lists count: a unit's own goes from the desk to this phone by pictures of a moving code, and is
 * walked here.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ListsTest : OnAPhone() {
    @Before fun anInspectors() = zone.inspector()

    private fun crate(cards: Int) = buildString {
        append(
            "id = \"crate\"\nversion = 1\ntitle = \"Crate on one leg\"\nsource = \"user's own\"\n[[station]]\nid = \"all\"\ntitle = \"All of it\"\n"
        )
        repeat(cards) {
            append(
                "[[station.card]]\nid = \"look-$it\"\ntitle = \"Look $it\"\nmotion = \"Look at side $it.\"\n"
            )
            append(
                "[[station.card.point]]\nid = \"good\"\nprompt = \"Side $it is whole\"\nrerig = [\"side $it is broken\"]\n"
            )
        }
    }

    private fun plan(device: Handheld): CodeView {
        val plan =
            File("../bindings/desk/demo/bag.toml")
                .readText()
                .replace("procedure = \"bag\"", "procedure = \"crate\"")
        return device.writeTag(plan, null, Zone.PIN).code
    }

    /** A device that trusts the desk and may plan and inspect. */
    private fun device(name: String, holder: String) =
        zone.core(name).also {
            zone.meet(it)
            zone.credential(it, holder, Role.PLANNER, Role.INSPECTOR)
        }

    @Test
    fun aUnitsOwnListGoesFromTheDeskToTheHook() {
        // written and approved at the desk
        zone.desk.addProcedure(crate(3))
        zone.desk.approve(listOf("crate"), null, Zone.PASSPHRASE)
        val planner = device("plans", "Lantern 2")
        planner.addProcedure(crate(3))
        val tag = plan(planner)

        // without it, one line says which is missing and how to get it, and the key beside it fetches it
        val activity = Zone.launch().get()
        val core = Core.of(activity)
        val screen = Screen(activity)
        screen.press("Inspect a load")
        activity.see(Zone.camera(tag))
        assertTrue(
            screen.words(),
            screen.words().contains("the tag orders procedure crate version 1") &&
                screen.words().contains("receive it"),
        )
        assertTrue("what cannot be walked is not begun", !screen.hasKey("Begin the inspection"))
        assertTrue(runCatching { core.beginWalk(tag.text) }.isFailure)

        // carried by the pictures of a moving code, a third of them lost
        screen.press("Take lists in")
        val out = zone.desk.movingProcedures(emptyList())
        assertEquals(1u, out.papers)
        var frame = 0
        while (activity.front !is MovedScreen) {
            check(frame < 400) { screen.words() }
            if (frame % 3 != 1) activity.see(Zone.camera(zone.desk.movingFrame(frame.toUInt())))
            frame += 1
        }
        assertTrue(
            screen.words(),
            screen.words().contains("crate, version 1: approved by: Sela Relief. Inspections here go by it."),
        )
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

        // the forgery of one card under the same name and version: where the roster is known, it takes no
        // approved list's place
        val forger = zone.core("forger").also(zone::meet)
        zone.credential(forger, "Rook 8", Role.PLANNER, Role.INSPECTOR)
        forger.addProcedure(crate(1))
        assertTrue(
            "a text that nobody approves takes no approved one's place",
            runCatching { plan(forger) }.isFailure,
        )
        assertTrue(runCatching { forger.beginWalk(tag.text) }.isFailure)
        // without the roster it is walked by and sealed, and says GO to nobody: another list than the tag
        // orders; with its own tag it waits
        val blind = zone.core("blind")
        zone.desk.authority().let { blind.trust(it.card.text, it.fingerprint) }
        zone.credential(blind, "Rook 9", Role.PLANNER, Role.INSPECTOR)
        blind.addProcedure(crate(1))
        val forgedTag = plan(blind)
        val forged = Zone.sealed(blind, forgedTag)
        val no = third.check(forged.code.text, tag.text)
        assertEquals(no.first, VerdictWord.NO_GO, no.verdict)
        val its = zone.core("fourth").also(zone::meet).check(forged.code.text, forgedTag.text)
        assertEquals(VerdictWord.WAIT, its.verdict)
        assertTrue(its.first, its.first.contains("has not approved procedure crate version 1"))

        // withdrawn: what is walked from then on waits, and says by its name why
        Thread.sleep(1_100)
        zone.desk.withdraw(listOf("crate"), null, Zone.PASSPHRASE)
        val second = Zone.sealed(planner, tag)
        third.receive(zone.desk.authority().roster.text)
        val wait = third.check(second.code.text, tag.text)
        assertEquals(VerdictWord.WAIT, wait.verdict)
        assertTrue(wait.first, wait.first.contains("withdrew procedure crate version 1"))
    }

    /** From phone to phone, by the send page of the one and the pictures of its screen. */
    @Test
    fun aPhoneSendsWhatItHolds() {
        zone.desk.addProcedure(crate(3))
        zone.desk.approve(listOf("crate"), null, Zone.PASSPHRASE)
        Core.of(org.robolectric.RuntimeEnvironment.getApplication()).let {
            it.receive(zone.desk.authority().roster.text)
            it.addProcedure(crate(3))
        }
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Procedures")
        screen.press("Crate on one leg")
        assertTrue(screen.words(), screen.words().contains("approved by: Sela Relief"))
        screen.press("Send this list")
        val other =
            zone.core("other").also { other ->
                zone.desk.authority().let { other.trust(it.card.text, it.fingerprint) }
            }
        other.movingListen()
        var report: slingseal.core.BundleReport? = null
        for (look in 0 until 200) {
            screen.settle(slingseal.handheld.screens.FramesScreen.FRAME)
            val code = screen.shown().filterIsInstance<slingseal.handheld.look.CodeView>().single()
            val text =
                runCatching { Zone.readIndependently(screen.pixels(), screen.box(code)) }.getOrNull()
                    ?: continue
            report = (other.movingTake(text) as? slingseal.core.MovingTaken.Done)?.report ?: continue
            break
        }
        assertEquals(listOf("crate"), report?.procedures?.map { it.id })
        assertEquals(
            "the roster came along",
            EditionState.APPROVED to true,
            other.procedureEditions().single { it.id == "crate" }.let { it.state to it.inUse },
        )
    }

    /**
     * A list that nobody approves is kept apart; when the approval comes, it is what is walked by. By file,
     * as from a desk.
     */
    @Test
    fun whatNobodyApprovesIsKeptApartUntilSomebodyDoes() {
        val writer = zone.core("writer")
        val better = crate(3)
        writer.addProcedure(better)
        val file = File.createTempFile("slingseal", ".bundle")
        assertEquals(1u, writer.proceduresOut(listOf("crate"), file.path))
        val screen = Screen(Zone.launch().get())
        val core = Core.of(screen.activity)
        assertTrue(runCatching { core.procedures().single { it.id == "crate" } }.isFailure)
        slingseal.handheld.screens.FileScreen.take(
            screen.activity as HandheldActivity,
            android.net.Uri.fromFile(file),
        )
        screen.finish()
        assertTrue(
            screen.words(),
            screen.words().contains("crate, version 1: approved by: nobody. Kept apart"),
        )
        screen.press("Done")
        screen.press("More")
        screen.press("Procedures")
        val apart = screen.keys().single { it.label.toString() == "Crate on one leg" }
        screen.press(apart)
        assertTrue(screen.words(), screen.words().contains("no inspection here goes by it"))
        assertTrue("what is apart is not sent on as if it counted", !screen.hasKey("Send this list"))

        zone.desk.addProcedure(better)
        zone.desk.approve(listOf("crate"), null, Zone.PASSPHRASE)
        core.receive(zone.desk.authority().roster.text)
        (screen.activity as HandheldActivity).redraw()
        screen.settle()
        assertTrue(screen.words(), screen.words().contains("approved by: Sela Relief"))
        assertEquals(1u, core.procedures().single { it.id == "crate" }.version)
        assertTrue("it goes on from here", screen.hasKey("Send this list"))
    }
}
