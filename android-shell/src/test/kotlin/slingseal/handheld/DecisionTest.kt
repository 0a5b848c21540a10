package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.FateView
import slingseal.core.FindingState
import slingseal.core.PointKind
import slingseal.core.PointState
import slingseal.core.WalkRequest
import slingseal.core.WalkStage
import slingseal.core.WalkView
import slingseal.handheld.look.PressGuard
import slingseal.handheld.places.DeficiencyDraft
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.Why
import slingseal.handheld.screens.DecideScreen
import slingseal.handheld.screens.PinScreen
import slingseal.handheld.screens.RiggingScreen
import slingseal.handheld.screens.ValueScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.support.AtTheLoad
import slingseal.handheld.support.Zone
import slingseal.handheld.support.Zone.Companion.PIN
import slingseal.handheld.support.see

/** What is found and decided at the load: counts, reasons, pieces, and decisions that go back. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class DecisionTest : AtTheLoad() {
    @Test
    fun fitStandsBehindTheRecapAloneAndIsHeld() {
        val screen = atTheDecision()
        val stations = onlyWalk().stations
        for (station in stations) {
            assertFalse(
                "fit before the recap was gone through",
                screen.keys().any { it.label.startsWith("Fit") },
            )
            assertTrue("not fit stands on every page", screen.hasKey("Not fit"))
            screen.press("Next")
            assertTrue(screen.words(), screen.words().contains(station.title))
        }
        screen.press("Fit: hold")
        assertEquals("a tap is not enough", WalkStage.Walking, onlyWalk().stage)
        screen.press(screen.key("Fit: hold"), held = PressGuard.LONGEST + 2 * PressGuard.GRAVE)
        assertEquals("what rests on the glass says nothing", WalkStage.Walking, onlyWalk().stage)
        // the page of the recap outlives a turn of the phone, the decision is not nearer for it
        val page = screen.hand.front!!.place as Place.Walk
        screen.hold("Fit: hold")
        assertEquals(WalkStage.Decided(true), onlyWalk().stage)
        assertEquals(stations.size, page.recap)
    }

    @Test
    fun aDecisionIsTakenBackFromThePinFromTheStartAndByTheTag() {
        val screen = atTheDecision()
        fun decide() {
            screen.recap()
            screen.hold("Fit: hold")
            assertTrue(screen.hand.front is PinScreen)
        }
        decide()
        screen.press("Undo")
        assertEquals(Beat.UNDONE, screen.hand.lastBeat)
        assertEquals(WalkStage.Walking, onlyWalk().stage)
        assertTrue("the recap begins anew", screen.hand.front is DecideScreen && !screen.hasKey("Fit: hold"))

        decide()
        screen.press("Back")
        assertTrue(screen.words(), screen.keys().any { "to be sealed" in it.contentDescription })
        screen.press("KM-015")
        screen.press("Undo")
        assertEquals(WalkStage.Walking, onlyWalk().stage)

        decide()
        screen.press("Back")
        Zone.camera()
        screen.press("Inspect a load")
        screen.hand.see(Zone.camera(tag))
        screen.press("Begin the inspection")
        screen.press("Undo")
        assertEquals(WalkStage.Walking, onlyWalk().stage)
        screen.press("Not fit")
        screen.press("Weather or ground")
        assertEquals(WalkStage.Decided(false), onlyWalk().stage)
        screen.type(PIN)
        screen.press("Seal it")
        assertFalse(core.records(null, 1u).single().fit)
        assertTrue(
            core.record(core.records(null, 1u).single().record).timeline.any {
                it.what == "Decided not fit: Weather or ground"
            }
        )
    }

    @Test
    fun withADeficiencyOpenNotFitIsOneKeyAndTheRecapShowsEveryFinding() {
        zone.inspector()
        var walk = core.beginWalk(zone.tag().text)
        val names = mutableListOf<String>()
        fun find(walk: WalkView): WalkView {
            val card = walk.card!!
            val point = card.points.first { point -> point.deficiencies.isNotEmpty() }
            names += point.deficiencies.first().shown
            return core.doWalk(
                walk.walk,
                WalkRequest.Deficiency(
                    card.number,
                    point.id,
                    point.deficiencies.first().name,
                    null,
                    emptyList(),
                ),
            )
        }
        walk = find(walk)
        walk = core.doWalk(walk.walk, Zone.answer(walk))
        walk = find(walk)
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        val screen = open(walk.walk)
        screen.press("Not fit")
        assertEquals("one key, no words", WalkStage.Decided(false), onlyWalk().stage)
        assertEquals(Beat.DEFICIENCY, screen.hand.lastBeat)
        screen.press("Undo")
        for (finding in walk.findings.filter { it.inPlace }) {
            core.doWalk(walk.walk, WalkRequest.PutRight(finding.number, null, null, emptyList()))
            core.doWalk(walk.walk, WalkRequest.LookAgain(finding.number, true, null, null, emptyList()))
        }
        if (onlyWalk().findings.all { it.state == FindingState.CLOSED }) {
            screen.hand.redraw()
            screen.settle()
            for (name in names) assertTrue(screen.words(), screen.words().contains(name))
        }
        assertEquals(2, names.size)
    }

    @Test
    fun whatDoesNotApplyIsSaidWithAReason() {
        zone.inspector()
        val walk = walkTo(zone.tag()) { it.mayNotApply }
        val point = walk.card!!.points.first { it.mayNotApply }
        val screen = open(walk.walk)
        screen.press("Deficiency")
        screen.press("Does not apply")
        assertTrue(screen.words(), screen.words().contains(point.prompt))
        screen.press("It is on the other half")
        val answered =
            onlyWalk()
                .let { core.doWalk(it.walk, WalkRequest.GoTo(walk.card!!.number)) }
                .card!!
                .points
                .first { it.id == point.id }
        assertEquals(PointState.GOOD, answered.state)
        assertTrue(answered.answer.orEmpty(), answered.answer.orEmpty().contains("It is on the other half"))
        assertEquals(Beat.GOOD, screen.hand.lastBeat)

        // and in words of one's own; no words are none
        screen.hand.redraw()
        screen.settle()
        screen.press("Undo")
        screen.press("Deficiency")
        screen.press("Does not apply")
        screen.press("In your own words")
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("Nothing typed yet"))
        screen
            .shown()
            .filterIsInstance<android.widget.EditText>()
            .single()
            .setText("short strap, no adjuster")
        screen.press("Take it")
        val again =
            core.doWalk(walk.walk, WalkRequest.GoTo(walk.card!!.number)).card!!.points.first {
                it.id == point.id
            }
        assertTrue(again.answer.orEmpty(), again.answer.orEmpty().contains("short strap, no adjuster"))
    }

    @Test
    fun aRejectedPieceGoesByItsSerialNumber() {
        zone.inspector()
        fun rejecting(point: slingseal.core.PointView) = point.deficiencies.any { it.fate == FateView.REJECT }
        val walk = walkTo(zone.tag(), ::rejecting)
        val point = walk.card!!.points.first(::rejecting)
        val bad = point.deficiencies.first { it.fate == FateView.REJECT }
        val screen = open(walk.walk)
        screen.press("Deficiency")
        screen.press(screen.keys().first { it.label == bad.shown })
        screen.press("Reject the piece")
        assertFalse("nothing of it is put right on the spot", screen.hasKey("It is corrected"))
        screen.press(
            screen.keys().first { it.label == "Reject the piece" || it.label == "Another serial number" }
        )
        screen.shown().filterIsInstance<android.widget.EditText>().single().setText("BG-0417")
        screen.press("Take it")
        assertEquals("BG-0417", onlyWalk().findings.single().piece)
        assertTrue(
            screen.words(),
            screen.words().contains("BG-0417") && screen.words().contains("out of service"),
        )
    }

    @Test
    fun countsAreAskedTheNumberFirst() {
        zone.inspector()
        var walk = core.beginWalk(zone.tag().text)
        fun count(view: WalkView) =
            view.card?.points?.firstOrNull { it.kind is PointKind.Count && it.state == PointState.UNANSWERED }
        while (count(walk) == null) {
            walk = core.doWalk(walk.walk, Zone.answer(walk))
            assertEquals(null, walk.refused)
        }
        val screen = open(walk.walk)
        assertFalse("not good before it is counted", screen.hasKey("All good"))
        screen.press("Count")
        assertTrue(screen.hand.front is ValueScreen)
        val wanted = slingseal.handheld.support.counted(count(walk)!!.id).toInt()
        assertFalse(screen.words(), Regex("[Mm]ust be|wanted").containsMatchIn(screen.words()))
        screen.type(wanted.toString())
        screen.press("Take it")
        assertTrue(screen.words(), screen.words().contains("Counted $wanted"))
    }

    @Test
    fun aLinkThatDiffersIsADeficiencyAndChangesTheStatics() {
        zone.inspector()
        var walk = core.beginWalk(zone.vehicleTag().text)
        fun links(view: WalkView) =
            view.card?.points?.firstOrNull { it.kind is PointKind.Count && it.state == PointState.UNANSWERED }
        while (links(walk) == null) {
            walk = core.doWalk(walk.walk, Zone.answer(walk))
            assertEquals(null, walk.refused)
        }
        val planned = walk.rigging
        val screen = open(walk.walk)
        screen.press("Count")
        val wanted = slingseal.handheld.support.counted(links(walk)!!.id).toInt()
        screen.type((wanted + 4).toString())
        screen.press("Take it")
        assertTrue(
            screen.words(),
            screen.words().contains("Counted ${wanted + 4}, wanted $wanted: noted as a deficiency"),
        )
        assertEquals(Beat.DEFICIENCY, screen.hand.lastBeat)
        val after = core.walk(walk.walk)
        assertNotEquals(planned, after.rigging)
        assertTrue(screen.words(), screen.words().contains(after.linkChange!!))
        screen.press("More")
        screen.press(screen.keys().first { it.label == "Rigging" })
        assertTrue(screen.hand.front is RiggingScreen)
        // beside the plan: link by link, and the picture that is expected below the one that was counted
        screen.finish()
        val said = screen.words()
        assertTrue(said, said.contains("link ${wanted + 4} counted, link $wanted planned"))
        assertTrue(said, said.contains("planned, not counted yet"))
        val eyebrows = listOf("As it was counted", "As it is planned")
        assertTrue(said, eyebrows.all(said::contains))
        val pictures =
            screen.all().filterIsInstance<android.widget.ImageView>().filter {
                it.contentDescription?.isNotEmpty() == true && it.drawable != null
            }
        assertEquals(2, pictures.count())
    }

    /** Drawn by the core from its list: which part this card is about is seen before it is read. */
    @Test
    fun theLoadIsDrawnBesideTheCardWithItsPartMarked() {
        zone.inspector()
        var walk = core.beginWalk(zone.tag().text)
        val screen = open(walk.walk)
        fun drawn(): List<Int> {
            val view = screen.shown().filterIsInstance<slingseal.handheld.look.LoadDrawing>().single()
            val picture =
                android.graphics.Bitmap.createBitmap(
                    view.width,
                    view.height,
                    android.graphics.Bitmap.Config.ARGB_8888,
                )
            view.draw(android.graphics.Canvas(picture))
            return (0 until view.width * view.height).map {
                picture.getPixel(it % view.width, it / view.width)
            }
        }
        val first = drawn()
        assertTrue("there is ink", first.toSet().size > 2)
        val marked = core.walkDrawing(walk.walk)
        while (core.walkDrawing(walk.walk) == marked) walk = core.doWalk(walk.walk, Zone.answer(walk))
        screen.hand.redraw()
        screen.settle()
        assertTrue("another part is marked", first != drawn())
    }

    @Test
    fun theLoadStandsOverEveryPageOfItsInspection() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag("KM-071").text)
        val card = walk.card!!
        val point = card.points.first { it.deficiencies.isNotEmpty() }
        val screen = open(walk.walk)
        val on = WalkRef.Inspection(walk.walk)
        val draft = DeficiencyDraft(on, 1, point.id, point.deficiencies.first().name)
        val places =
            listOf(
                Place.Walk(on),
                Place.More(on),
                Place.Cards(on),
                Place.Findings(on),
                Place.Pick(on),
                Place.Deficiency(draft),
                Place.Write(Why.Note(draft)),
                Place.NotFit(on),
            )
        for (place in places) {
            screen.hand.go(place)
            screen.settle()
            assertTrue("$place: ${screen.words()}", screen.words().contains("Load KM-071"))
        }
    }

    @Test
    fun aNoteOfTwoLinesIsTaken() {
        zone.inspector()
        val walk = core.beginWalk(zone.tag().text)
        val screen = open(walk.walk)
        screen.press("Deficiency")
        screen.press(screen.keys().first { it.label == "Something else" })
        screen
            .shown()
            .filterIsInstance<android.widget.EditText>()
            .single()
            .setText("strap frayed\nleft of the patch")
        screen.press("Take it")
        screen.press("Note it, go on")
        assertEquals("strap frayed / left of the patch", onlyWalk().findings.single().note)
    }
}
