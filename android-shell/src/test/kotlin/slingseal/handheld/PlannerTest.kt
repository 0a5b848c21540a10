package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Role
import slingseal.core.StickerReading
import slingseal.core.TagSignature
import slingseal.core.VerdictWord
import slingseal.core.WalkRequest
import slingseal.core.WeightSource
import slingseal.handheld.look.CodeView
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planned
import slingseal.handheld.support.FakeSticker
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.PageJudge
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see
import slingseal.handheld.support.sound
import slingseal.handheld.support.touch

/**
 * A load is planned on a phone: like the last one, field by field, its statics live, its tag signed and
 * shown.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class PlannerTest : OnAPhone() {
    private lateinit var screen: Screen

    @Before
    fun aPlanners() {
        Zone.nfc()
        zone.inspector(Role.PLANNER)
    }

    private fun put(field: String, words: String) {
        screen.press(field)
        screen.write(words)
        screen.press("Take it")
    }

    private fun like(tag: slingseal.core.CodeView) {
        screen = Screen(Zone.launch().get())
        screen.press("Plan a load")
        screen.press("Scan a tag")
        (screen.activity as HandheldActivity).see(Zone.camera(tag))
        assertTrue(screen.words(), screen.hasKey("Sign the tag"))
    }

    private fun sign(): String {
        screen.press("Sign the tag")
        screen.type(Zone.PIN)
        screen.press("Sign it")
        return screen.readCode()
    }

    @Test
    fun aLoadLikeTheLastOneIsPlannedSealedAndHooked() {
        like(zone.tag("KM-040"))
        // nothing is signed that lacks its number and the source of its weight
        screen.press("Sign the tag")
        assertTrue(
            screen.words(),
            screen.words().contains("load number") && screen.words().contains("say how the weight is known"),
        )
        put("Load", "km-041")
        put("Gross weight", "9000 lb")
        screen.press("Weight from")
        screen.press("Weighed")
        assertTrue(
            "more than its bag carries: ${screen.words()}",
            screen.words().contains("is rated 3000 lb"),
        )
        put("Gross weight", "2100 lb")
        put("Allowable load", "2000 lb")
        assertTrue(
            "over what the aircrew gives: ${screen.words()}",
            screen.words().contains("is over the allowable load"),
        )
        put("Allowable load", "7000 lb")
        put("Gross weight", "heavy")
        assertTrue(screen.words(), screen.words().contains("heavy"))
        put("Gross weight", "2100 lb")
        put("What it is", "Water, webbing bag")
        put("Set down at", "Heron Ford")
        put("Grid of the set-down", "")
        put("Rigger", "Mason 5")

        // a piece by its own code, and one by its serial number; another is taken off
        val store =
            zone.core("store").also {
                zone.meet(it)
                zone.credential(it, "Herald 2", Role.INSPECTOR)
            }
        var walk = store.beginInspection("gear-web", "CB-0777")
        while (walk.card != null) walk = store.doWalk(walk.walk, sound(walk))
        store.doWalk(walk.walk, WalkRequest.Decide(true, null))
        screen.press("Equipment")
        screen.press("cargo bag CB-0932")
        screen.press("Scan its code")
        (screen.activity as HandheldActivity).see(Zone.camera(store.signInspection(walk.walk, Zone.PIN).code))
        screen.press("Another piece")
        screen.write("SL-0044")
        screen.press("Take it")
        // the same piece again by the sticker that hangs on it
        screen.press("piece CB-0777")
        assertFalse(screen.words(), screen.hasKey("piece CB-0777"))
        screen.press("Scan its code")
        val shown = store.keptInspections().single { it.name == "CB-0777" }
        val onIt = store.sticker(listOf(store.inspection(shown.signed!!).code.text), 868u).message
        screen.touch(FakeSticker(868, onIt))
        assertTrue(screen.words(), screen.hasKey("piece CB-0777"))
        screen.press("Done")
        screen.press("Link in each grab hook")
        screen.press("Done")
        val text = sign()
        assertTrue(text, text.startsWith("LT"))
        assertTrue(
            screen.words(),
            screen.words().contains("KM-041 · 2100 lb") && screen.words().contains("Lantern 1"),
        )

        val tag = zone.core("reader").also(zone::meet).readTag(text)
        assertEquals(listOf("SL-0044", "CB-0777"), tag.equipment.map { it.serial })
        assertEquals(WeightSource.WEIGHED, tag.basis.weightSource)
        assertEquals("Heron Ford" to null, tag.destination.name to tag.destination.grid)
        assertEquals(TagSignature.PLANNER, tag.signature)
        val sticker = core.sticker(listOf(text), 868u)
        assertTrue("${sticker.bytes} bytes", sticker.fits)
        assertEquals(text, (core.readSticker(sticker.message) as StickerReading.Ours).tag)
        val inspector =
            zone.core("inspector").also {
                zone.meet(it)
                zone.credential(it, "Thistle 7", Role.INSPECTOR)
            }
        val seal = Zone.sealed(inspector, core.codeOf(text))
        val go = zone.core("hook").also(zone::meet).check(seal.code.text, text)
        assertEquals(go.first, VerdictWord.GO, go.verdict)

        // it is kept: the next one is like it
        screen.press("Done")
        screen.press("Plan a load")
        assertTrue(screen.words(), screen.hasKey("Like the last: Water, webbing bag"))
    }

    @Test
    fun theStaticsChangeWithTheLinks() {
        like(zone.vehicleTag())
        val before = core.readTag(zone.vehicleTag().text).rigging!!.summary
        assertTrue(screen.words(), screen.words().contains(before))
        screen.press("Link in each grab hook")
        val leg =
            screen.keys().first {
                it.label.startsWith("Leg ") && it.contentDescription.contains("one link more")
            }
        screen.press(leg)
        val after = screen.words()
        assertTrue(after, !after.contains(before))
        screen.press("Done")
        put("Load", "KM-050")
        screen.press("Weight from")
        screen.press("Data plate")
        val tag = core.readTag(sign())
        assertNotEquals(before, tag.rigging?.summary)
        assertTrue(after.contains(tag.rigging!!.summary))
    }

    private fun pages(): PageJudge {
        val bare = core.draftLike(zone.tag("KM-040").text)
        val vehicle =
            core
                .draftLike(zone.vehicleTag().text)
                .copy(load = "KM-051", weightSource = WeightSource.DATA_PLATE, rigger = "Mason 5")
        core.receive(zone.tag("KM-040").text)
        core.receive(zone.vehicleTag().text)
        val made = core.writeDraft(vehicle, Zone.PIN).code.text
        return PageJudge(
            linkedMapOf(
                "plan" to Place.Plan,
                "plan-bare" to Place.PlanDraft(bare),
                "plan-vehicle" to Place.PlanDraft(vehicle),
                "plan-field" to Place.PlanField(vehicle, Planned.GROSS),
                "plan-source" to Place.PlanSource(vehicle),
                "plan-pieces" to Place.PlanPieces(vehicle),
                "plan-piece" to Place.PlanPiece(vehicle, "chain leg"),
                "plan-links" to Place.PlanLinks(vehicle),
                "plan-pin" to Place.PlanPin(vehicle),
                "plan-tag" to Place.PlanTag(made),
            )
        )
    }

    @Test fun everyPageInEveryLight() = pages().inEveryLight("plan")

    @Test fun everyPageInSpanish() = pages().inSpanish("plan")
}
