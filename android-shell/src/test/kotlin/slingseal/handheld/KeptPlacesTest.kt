package slingseal.handheld

import android.os.Bundle
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import slingseal.core.DraftLink
import slingseal.core.DraftPiece
import slingseal.core.ExamPick
import slingseal.core.FieldWeighed
import slingseal.core.FieldWeighing
import slingseal.core.MovementKind
import slingseal.core.MovingOut
import slingseal.core.PieceReport
import slingseal.core.Role
import slingseal.core.ScaleReading
import slingseal.core.TagDraft
import slingseal.core.VoidCause
import slingseal.core.WeightSource
import slingseal.handheld.places.AuthorityCode
import slingseal.handheld.places.CopyPart
import slingseal.handheld.places.Deed
import slingseal.handheld.places.DeficiencyDraft
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Issuing
import slingseal.handheld.places.KeptPlaces
import slingseal.handheld.places.Measure
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planned
import slingseal.handheld.places.Planting
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.Said
import slingseal.handheld.places.Standard
import slingseal.handheld.places.TeamStep
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.Weighing
import slingseal.handheld.places.Why

/** The pages that lie open come back as they were, or not at all. */
@RunWith(RobolectricTestRunner::class)
class KeptPlacesTest {
    private val walk = WalkRef.Inspection("w1")
    private val run = WalkRef.Run("r1")
    private val noted =
        DeficiencyDraft(walk, 3, "apex.pin", "bent", "a note\nof two lines", listOf("d1", "d2"))
    private val report =
        Draft(
            "KM-025",
            event = MovementKind.LOST,
            at = 1_790_000_000,
            pieces = listOf(PieceReport("CB-0940\t1", back = true, damaged = false)),
            sign = true,
            photos = listOf("p1"),
        )
    private val load =
        TagDraft(
            like = "LT1:A",
            load = "KM-026",
            description = "water, in drums",
            gross = "1200 kg",
            weightSource = WeightSource.WEIGHED,
            aircraft = "Heron 2",
            allowable = "1500 kg",
            pickup = "",
            destination = "Kestrel Meadow",
            grid = "33T WN 30740 61215",
            rigger = "Mason 5",
            equipment = listOf(DraftPiece("chain leg", "SL-0001"), DraftPiece("chain leg", "SL-0002")),
            links = listOf(DraftLink("1", 3u)),
            centre = listOf("1.2 m", "-0.02 m", "0.8 m"),
        )
    private val weighing =
        Weighing(
            load,
            FieldWeighing(
                points = listOf(ScaleReading("Front left", "-1.2 m", "0.7 m", "", "610 kg", "", "")),
                scales = "two of the maker's",
                tolerance = "0.5 %",
                height = "",
                heightTolerance = "",
                raised = "8 deg",
                over = "",
                angleTolerance = "",
                held = listOf("", "0.4 m"),
                lengthUnit = "m",
                massUnit = "kg",
            ),
        )
    private val planting = Planting("LT1:B", 2, "Monday", listOf(ExamPick("apex.pin", "bent")))
    private val standard = Standard(3, 120, 0)

    /** Each page once, and each kind of what some of them are given. */
    private val places: List<Place> =
        listOf(
            Place.Start,
            Place.Else,
            Place.Scan(Purpose.Inspect),
            Place.Scan(Purpose.PlanPiece(load)),
            Place.Scan(Purpose.ExamRunTag("k1", "Thistle 7")),
            Place.Type(Purpose.Hook(seal = null, tag = "LT1:C")),
            Place.Type(Purpose.Piece("gear-net")),
            Place.Tag("LT1:D"),
            Place.Walk(walk, 2),
            Place.Walk(run),
            Place.More(run),
            Place.Cards(walk),
            Place.Findings(walk),
            Place.Finding(walk, 1),
            Place.Pick(walk),
            Place.Deficiency(noted),
            Place.Photo(noted),
            Place.Value(walk, 3, "apex.count"),
            Place.Value(walk, 3, "apex.count", 2),
            Place.Write(Why.Abandon(walk)),
            Place.Write(Why.NotFit(walk)),
            Place.Write(Why.Note(noted)),
            Place.Write(Why.Other(walk, 3, "apex.pin")),
            Place.Write(Why.NotApplicable(walk, 3, "apex.pin")),
            Place.Write(Why.Reject(walk, 1)),
            Place.Write(Why.Void("rec")),
            Place.NotFit(walk),
            Place.NotApplicable(walk, 3, "apex.pin"),
            Place.Rigging(walk),
            Place.Settings(),
            Place.Settings(run),
            Place.Seal("rec"),
            Place.Sticker(listOf("SL1:A", "LT1:A")),
            Place.Records("rations"),
            Place.Find,
            Place.Record("rec"),
            Place.Void("rec"),
            Place.VoidPin("rec", VoidCause.OTHER, "in words"),
            Place.Voided("VO1:A"),
            Place.Hook(),
            Place.Hook(tag = "LT1:A", alone = true),
            Place.Hook(several = listOf("SL1:A", "SL1:B")),
            Place.Arrival("KM-025"),
            Place.What(report),
            Place.Refuse(report),
            Place.ReportNote(report, Said.WHERE),
            Place.ReportPhoto(report),
            Place.ReportPin(report),
            Place.When(report),
            Place.WhenTime(report),
            Place.Gear(report),
            Place.Report("KM-025", "d"),
            Place.Move,
            Place.Files,
            Place.MoveOut(MovingOut(1u, 2u, 3u, 40u, listOf("a photograph"))),
            Place.Have,
            Place.Moved("two came in", listOf("one is set aside")),
            Place.SetUp,
            Place.Join,
            Place.Team(TeamStep.KEYS),
            Place.Request,
            Place.Name,
            Place.NewPin("Thistle 7"),
            Place.Trust("AU1:A", "Sela Relief", "A123"),
            Place.TrustBeside("AU1:A", "Sela Relief", "A123"),
            Place.Authority,
            Place.AuthorityName,
            Place.AuthorityLists("Sela Relief", setOf("bag", "net")),
            Place.AuthorityWords(Deed.Begin("Sela Relief", listOf("bag"))),
            Place.AuthorityWords(Deed.Issue(Issuing("KR1:A", "Anvil 3", "A123", listOf(Role.PLANNER), 7))),
            Place.AuthorityWords(Deed.Revoke("c1")),
            Place.AuthorityWords(Deed.Approve(listOf("bag"))),
            Place.AuthorityWords(Deed.Withdraw(listOf("bag"))),
            Place.AuthorityWords(Deed.Renew),
            Place.AuthorityWords(Deed.Copy),
            Place.AuthorityWords(Deed.Restore("one", "two")),
            Place.AuthorityIssue(Issuing("KR1:A", "Anvil 3", "A123")),
            Place.AuthorityShown(AuthorityCode.ROSTER),
            Place.AuthorityCredential("CR1:A", "Anvil 3", own = true),
            Place.AuthorityPeople,
            Place.AuthorityPerson("c1"),
            Place.Copy(CopyPart.SECOND),
            Place.CopyKept,
            Place.Board,
            Place.Story("KM-025"),
            Place.Close("2026-06-07"),
            Place.ClosePoint("p1", "lifted and not set down", "ask", "a note"),
            Place.ClosePin(),
            Place.Closed(null, "kestrel"),
            Place.Withdraw("CB-0940"),
            Place.WithdrawPin("CB-0940", "cut"),
            Place.Plan,
            Place.PlanDraft(load),
            Place.PlanField(load, Planned.GRID),
            Place.PlanSource(load),
            Place.PlanPieces(load),
            Place.PlanPiece(load, "chain leg"),
            Place.PlanLinks(load),
            Place.PlanPin(load),
            Place.PlanTag("LT1:A"),
            Place.Weigh(weighing),
            Place.WeighPoint(weighing, 4),
            Place.WeighHeight(weighing),
            Place.WeighWords(weighing),
            Place.WeighNumber(weighing, Measure.AFT, 2),
            Place.Weighed(
                FieldWeighed(emptyList(), "4890 lb", listOf("62 in"), listOf("a"), "b", true, load)
            ),
            Place.ReportSign("KM-025", "d1"),
            Place.Procedures,
            Place.Procedure("bag", "d"),
            Place.ProceduresOut(),
            Place.Subjects,
            Place.Inspections,
            Place.SubjectName("gear-net", "CB-0940"),
            Place.Inspection("d"),
            Place.Exams,
            Place.ExamPlan(planting),
            Place.ExamCards(planting),
            Place.ExamNames(planting, 4),
            Place.ExamStandard(planting, standard),
            Place.ExamLock(planting, standard),
            Place.ExamKeys,
            Place.ExamKey("k1"),
            Place.ExamReveal("k1"),
            Place.ExamName("k1"),
            Place.ExamReady("k1", "Thistle 7", "LT1:A"),
            Place.ExamCalls(run),
            Place.ExamEnd(run),
            Place.ExamSheet("r1"),
            Place.ExamScore("s1"),
            Place.ExamResults,
            Place.ExamResult("x1"),
            Place.ExamResultCode("x1"),
            Place.ExamClass,
        )

    @Test
    fun everyPageComesBackAsItWas() {
        val kinds = Place::class.java.declaredClasses.filter { Place::class.java.isAssignableFrom(it) }
        assertEquals(
            kinds.filterNot { it.isInterface }.map { it.simpleName }.sorted(),
            places.map { it.javaClass.simpleName }.distinct().sorted(),
        )
        val state = Bundle().also { KeptPlaces.save(places, BUILD, it) }
        val back = KeptPlaces.load(BUILD, state)
        for ((was, isNow) in places.zip(back)) assertEquals(was, isNow)
        assertEquals(places.size, back.size)
    }

    @Test
    fun whatAnotherBuildKeptAndWhatIsDamagedIsNoPage() {
        assertEquals(emptyList<Place>(), KeptPlaces.load(BUILD, null))
        assertEquals(emptyList<Place>(), KeptPlaces.load(BUILD, Bundle()))
        val state = Bundle().also { KeptPlaces.save(listOf(Place.Start, Place.Board), BUILD, it) }
        assertEquals(emptyList<Place>(), KeptPlaces.load(BUILD + 1, state))

        val bytes = state.getByteArray("places")!!
        for (cut in bytes.indices) {
            state.putByteArray("places", bytes.copyOf(cut))
            assertEquals("cut at $cut", emptyList<Place>(), KeptPlaces.load(BUILD, state))
        }
        for (at in bytes.indices) {
            state.putByteArray("places", bytes.copyOf().also { it[at] = (it[at].toInt() xor 0xFF).toByte() })
            // it is read as it was, or not at all; nothing else comes up and nothing is thrown
            val back = KeptPlaces.load(BUILD, state)
            assertEquals("byte $at: $back", true, back.isEmpty() || back == listOf(Place.Start, Place.Board))
        }
    }

    private companion object {
        const val BUILD = 1_790_000_000_000
    }
}
