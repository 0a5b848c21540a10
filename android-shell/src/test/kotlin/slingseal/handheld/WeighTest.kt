package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.FieldWeighing
import slingseal.core.Role
import slingseal.core.TagDraft
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.Palette
import slingseal.handheld.places.KeptPlaces
import slingseal.handheld.places.Measure
import slingseal.handheld.places.Place
import slingseal.handheld.places.Weighing
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.PageJudge
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/** A load is weighed where it stands, by touch: at its corners, level and with its front raised. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class WeighTest : OnAPhone() {
    private lateinit var screen: Screen

    @Before fun nothingWeighed() = Weighing.forget()

    private fun number(row: String, digits: String) {
        screen.press(row)
        screen.type(digits)
        screen.press("Take it")
    }

    private fun words(row: String, words: String) {
        screen.press(row)
        screen.write(words)
        screen.press("Take it")
    }

    /** The four wheels of the vehicle, the datum under the middle of its rear axle. */
    private fun fourCorners() {
        screen.press("Front left")
        for ((at, corner) in CORNERS.withIndex()) {
            val (way, side, reads) = corner
            number("The scale shows", reads)
            number("Forward of the datum", way)
            number(side, "29")
            screen.press(if (at < CORNERS.size - 1) "Next point" else "Done")
        }
    }

    private fun plan() {
        zone.inspector(Role.PLANNER)
        screen = Screen(Zone.launch().get())
        screen.press("Plan a load")
        screen.press("Scan a tag")
        (screen.activity as HandheldActivity).see(Zone.camera(zone.vehicleTag()))
        words("Load", "KM-052")
    }

    @Test
    fun aLoadIsWeighedAtFourCornersAndTakenOverIntoItsTag() {
        plan()
        screen.press("Weigh the load")
        screen.press("Work it out")
        assertTrue(screen.words(), screen.words().contains("nothing was weighed"))
        fourCorners()
        words("Which scales", "Two pairs of wheel scales, certificate of the maker")
        number("May be wrong by", "2")
        screen.press("Height of the centre of gravity")
        number("Front raised by", "20")
        screen.press("Done")
        screen.press("Work it out")
        assertTrue(
            "what is open is told by its point: ${screen.words()}",
            screen.words().contains("Front left, up: still open"),
        )

        // each wheel's axle is 15 in up; the rear ones show more once the front is raised
        for ((at, tilted) in listOf(null, null, "1104", "1074").withIndex()) {
            screen.press(screen.keys().first { it.label.toString() == NAMES[at] })
            number("Above the datum", "15")
            tilted?.let { number("With one end raised, it shows", it) }
            screen.press("Back")
        }
        screen.press("Height of the centre of gravity")
        number("Over a length of", "108")
        number("The angle may be wrong by", "0.2")
        screen.press("Done")
        screen.press("Work it out")

        // by hand, as tests/journeys/lift_day.rs has it: x = 2840 * 108 / 4890, y = (2485 - 2405) * 29 /
        // 4890,
        // h = (x - x') cot(asin(20 / 108)) + 15
        val said = screen.words()
        assertTrue(said, said.contains("4890 lb") && said.contains("62.724 in · 0.474 in · 30.002 in"))
        assertTrue(said, said.contains("Scales: Two pairs of wheel scales, certificate of the maker."))
        assertTrue("what the tolerances leave: $said", said.contains("4882 lb to 4898 lb"))
        assertTrue("carried to tilt: $said", said.contains("Pitch lies within"))
        assertTrue("and to tensions: $said", said.contains("Leg 1: ") && said.contains("of its rating"))
        assertFalse("the height was weighed", said.contains("it is the plan's"))

        screen.press("Take it over")
        assertTrue("4898 lb" in screen.key("Gross weight").contentDescription)
        assertTrue("62.724 in" in screen.key("Weigh the load").contentDescription)
        screen.press("Sign the tag")
        screen.type(Zone.PIN)
        screen.press("Sign it")
        val view = screen.shown().filterIsInstance<CodeView>().single()
        val text = Zone.readIndependently(screen.pixels(), screen.box(view))
        val tag = core.readTag(text)
        assertEquals("the most that it may weigh", "4898 lb", tag.gross)
        assertEquals(slingseal.core.WeightSource.WEIGHED, tag.basis.weightSource)
        val again = core.weighDraft(core.draftLike(text), level())
        assertTrue(again.beside.joinToString(), again.beside.any { "planned 62.724 in" in it })
    }

    /** Who plans nothing weighs beside the tag all the same, and a hoist's scale alone gives the weight. */
    @Test
    fun anybodyWeighsBesideATag() {
        screen = Screen(Zone.launch().get())
        (screen.activity as HandheldActivity).go(Place.Tag(zone.vehicleTag().text))
        screen.settle()
        screen.press("Weigh the load")
        screen.press("Front left")
        number("The scale shows", "5210")
        screen.press("Back")
        for (name in NAMES.drop(1)) {
            screen.press(name)
            screen.press("Take the point away")
        }
        // keyed in by mistake, and taken back: a first step back takes off what stood there
        number("May be wrong by", "10")
        screen.press("May be wrong by")
        screen.press(screen.key("Erase"), settleFirst = false)
        screen.press("Take it")
        assertFalse(screen.words(), screen.words().contains("10 lb"))

        // whoever goes back by mistake finds what was keyed in
        screen.press("Back")
        screen.press("Weigh the load")
        screen.press("Scales in lb")
        assertTrue(
            "what is keyed in keeps its unit",
            screen.key("Front left").contentDescription.contains("5210 lb"),
        )
        screen.press("Work it out")
        val said = screen.words()
        assertTrue(said, said.contains("It may weigh 5210 lb: MORE than the 5000 lb that was planned"))
        assertTrue(said, said.contains("Nobody says which scales"))
        assertTrue(said, said.contains("was not weighed: it is the plan's"))
        assertTrue(said, said.contains("Tell the planner") && !screen.hasKey("Take it over"))
    }

    @Test
    fun aTurnOfThePhoneKeepsWhatWasKeyedIn() {
        val draft = core.draftLike(zone.vehicleTag().text)
        val weighing = Weighing(draft, raised(draft))
        val places =
            listOf(
                Place.Weigh(weighing),
                Place.WeighNumber(weighing, Measure.AFT, 2),
                Place.Weighed(core.weighDraft(draft, weighing.entered)),
            )
        val state = android.os.Bundle()
        KeptPlaces.save(places, 1, state)
        assertEquals(places, KeptPlaces.load(1, state))
        // aft and right are kept as minus, and nobody sees one
        val aft = Measure.AFT.put(weighing, 2, "12 in")
        assertEquals("-12 in", aft.point(2).forward)
        assertEquals("12 in" to "", Measure.AFT.of(aft, 2) to Measure.FORWARD.of(aft, 2))
        val down = Measure.NOSE_DOWN.put(weighing, 0, "8 deg")
        assertEquals("8 deg" to "", Measure.NOSE_DOWN.of(down, 0) to Measure.REAR_RAISED.of(down, 0))
        val share = Measure.TOLERANCE_SHARE.put(weighing, 0, "0.5 %")
        assertEquals("0.5 %" to "", Measure.TOLERANCE_SHARE.of(share, 0) to Measure.TOLERANCE.of(share, 0))
    }

    private fun level(): FieldWeighing {
        val begun = core.beginWeighing(core.draftLike(zone.vehicleTag().text))
        val points =
            begun.points.zip(CORNERS) { point, (way, side, reads) ->
                val left = if (side.startsWith("Left")) "29 in" else "-29 in"
                point.copy(forward = "$way in", left = left, reads = "$reads lb")
            }
        return begun.copy(points = points, scales = "wheel scales, certificate", tolerance = "2 lb")
    }

    private fun raised(draft: TagDraft): FieldWeighing {
        check(draft.like.isNotEmpty())
        val tilted = listOf("", "", "1104 lb", "1074 lb")
        val level = level()
        return level.copy(
            raised = "20 in",
            over = "108 in",
            points = level.points.zip(tilted) { point, shows -> point.copy(up = "15 in", tilted = shows) },
        )
    }

    private fun pages(): PageJudge {
        zone.inspector(Role.PLANNER)
        val draft = core.draftLike(zone.vehicleTag().text).copy(load = "KM-052")
        val bare = Weighing(draft, core.beginWeighing(draft))
        val whole = Weighing(draft, raised(draft))
        val weighed = core.weighDraft(draft, whole.entered)
        val heavy =
            core.weighDraft(
                draft,
                bare.entered.copy(points = bare.entered.points.map { it.copy(reads = "1500 lb") }),
            )
        return PageJudge(
            linkedMapOf(
                "weigh-bare" to Place.Weigh(bare),
                "weigh" to Place.Weigh(whole),
                "weigh-point" to Place.WeighPoint(whole, 2),
                "weigh-height" to Place.WeighHeight(whole),
                "weigh-words" to Place.WeighWords(whole),
                "weigh-number" to Place.WeighNumber(whole, Measure.RIGHT, 1),
                "weighed" to Place.Weighed(weighed),
                "weighed-heavy" to Place.Weighed(heavy),
                "plan-weighed" to Place.PlanDraft(weighed.taken!!),
                "tag-weigh" to Place.Tag(zone.vehicleTag().text),
            )
        )
    }

    @Test fun everyPageInEveryLight() = pages().inEveryLight("weigh")

    @Test
    fun everyPageInSpanish() {
        core.speak("es")
        val judge = pages()
        Core.close()
        judge.draw("weigh-spanish", "es-rMX-w360dp-h640dp-port-xhdpi", 1f, listOf(Palette.DAY))
        judge.draw("weigh-spanish-side", "es-rMX-w640dp-h360dp-land-xhdpi", 1f, listOf(Palette.DAY))
        judge.draw("weigh-spanish-200", "es-rMX-w360dp-h640dp-port-xhdpi", 2f, listOf(Palette.DAY))
        judge.judge()
    }

    private companion object {
        /** Forward, the side's key, and what the scale shows. */
        val CORNERS =
            listOf(
                Triple("108", "Left of the middle", "1445"),
                Triple("108", "Right of the middle", "1395"),
                Triple("0", "Left of the middle", "1040"),
                Triple("0", "Right of the middle", "1010"),
            )
        val NAMES = listOf("Front left", "Front right", "Rear left", "Rear right")
    }
}
