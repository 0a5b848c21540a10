package slingseal.handheld

import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Handheld
import slingseal.core.PointState
import slingseal.core.Role
import slingseal.core.WalkRequest
import slingseal.handheld.look.Palette
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.support.PageJudge
import slingseal.handheld.support.Zone
import slingseal.handheld.support.sound

/**
 * The pages of procedures and of what is no load, in every light, both ways up, with large text, and in
 * Spanish.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ListPagesTest {
    private lateinit var core: Handheld
    private lateinit var judge: PageJudge

    @Before
    fun aPhoneWithListsOfEveryStanding() {
        Zone.newPhone()
        Zone.camera()
        Zone.nfc()
        val zone = Zone()
        val own = { id: String, version: Int ->
            "id = \"$id\"\nversion = $version\ntitle = \"Crate on one leg\"\nsource = \"user's own\"\n[[station]]\nid = \"all\"\ntitle = \"All\"\n" +
                "[[station.card]]\nid = \"look\"\ntitle = \"Look\"\nmotion = \"Look at it.\"\n[[station.card.point]]\nid = \"good\"\nprompt = \"Whole\"\nrerig = [\"broken\"]\n"
        }
        // approved and here, approved and not here, withdrawn, never approved
        zone.desk.addProcedure(own("crate", 1))
        zone.desk.addProcedure(own("pipes", 3))
        zone.desk.approve(listOf("crate", "pipes"), null, Zone.PASSPHRASE)
        zone.desk.withdraw(listOf("derig"), null, Zone.PASSPHRASE)
        zone.inspector()
        core = Core.of(RuntimeEnvironment.getApplication())
        core.addProcedure(own("crate", 1))
        core.addProcedure(own("crate", 2))
        core.addProcedure(own("boat", 1))
        val planner =
            zone.core("plans").also {
                zone.meet(it)
                zone.credential(it, "Lantern 2", Role.PLANNER)
                it.addProcedure(own("pipes", 3))
            }
        val plan =
            java.io
                .File("../bindings/desk/demo/bag.toml")
                .readText()
                .replace("procedure = \"bag\"", "procedure = \"pipes\"")
        val ordering = planner.writeTag(plan, null, Zone.PIN).code
        val bad =
            decided("gear-net", "CB-0932", "mesh.strip-2.bend" to "more than two strands break when bent")
        val signed = core.signInspection(bad, Zone.PIN).digest
        val fit = core.signInspection(decided("zone", "Kestrel Meadow", null), Zone.PIN).digest
        val toSign = decided("gear-swivel", "SW-0011/Lot 2026-03", null)
        val deciding = walked("daily-hooks", "Heron 2", null)
        val card = core.beginInspection("hookup", "KM-034").walk
        val editions = core.procedureEditions()
        fun edition(id: String, version: Int) =
            editions
                .single {
                    it.id == id && it.version == version.toUInt() && (id != "crate" || version != 1 || it.own)
                }
                .let { Place.Procedure(it.id, it.digest) }
        judge =
            PageJudge(
                linkedMapOf(
                    "else" to Place.Else,
                    "procedures" to Place.Procedures,
                    "procedure-approved" to edition("crate", 1),
                    "procedure-missing" to edition("pipes", 3),
                    "procedure-apart" to edition("crate", 2),
                    "procedure-withdrawn" to
                        editions.first { it.id == "derig" }.let { Place.Procedure(it.id, it.digest) },
                    "procedures-out" to Place.ProceduresOut(),
                    "tag-missing" to Place.Tag(ordering.text),
                    "subjects" to Place.Subjects,
                    "subject-name" to Place.SubjectName("gear-net"),
                    "subject-hookup" to Place.SubjectName("hookup"),
                    "subject-card" to Place.Walk(WalkRef.Inspection(card)),
                    "subject-decide" to
                        Place.Walk(WalkRef.Inspection(deciding), core.walk(deciding).stations.size),
                    "subject-not-fit" to Place.NotFit(WalkRef.Inspection(deciding)),
                    "subject-sign" to Place.Walk(WalkRef.Inspection(toSign)),
                    "inspections" to Place.Inspections,
                    "inspection-withdrawn" to Place.Inspection(signed),
                    "inspection-fit" to Place.Inspection(fit),
                )
            )
    }

    private fun walked(list: String, name: String, bad: Pair<String, String>?): String {
        var view = core.beginInspection(list, name)
        while (view.card != null) {
            val card = view.card!!
            val found =
                bad?.takeIf { (id, _) ->
                    card.points.any { it.id == id && it.state == PointState.UNANSWERED }
                }
            view =
                core.doWalk(
                    view.walk,
                    if (found == null) sound(view)
                    else WalkRequest.Deficiency(card.number, found.first, found.second, null, emptyList()),
                )
            check(view.refused == null) { view.refused?.message.orEmpty() }
        }
        return view.walk
    }

    private fun decided(list: String, name: String, bad: Pair<String, String>?): String =
        walked(list, name, bad).also { walk ->
            val decided = core.doWalk(walk, WalkRequest.Decide(bad == null, null))
            check(decided.refused == null) { "${decided.refused?.message} ${decided.blocksFit}" }
        }

    @Test
    fun inEveryLightAndBothWaysUp() {
        judge.draw("lists", "w360dp-h640dp-port-xhdpi", 1f, Palette.entries)
        judge.draw("lists-side", "w640dp-h360dp-land-xhdpi", 1f, Palette.entries)
        judge.judge()
    }

    @Test
    fun withLargeText() {
        judge.draw("lists-200", "w360dp-h640dp-port-xhdpi", 2f, listOf(Palette.DAY))
        judge.draw("lists-side-200", "w640dp-h360dp-land-xhdpi", 2f, listOf(Palette.DAY))
        judge.judge()
    }

    @Test
    fun inSpanish() {
        Core.close()
        judge.draw("lists-spanish", "es-rMX-w411dp-h891dp-port-xhdpi", 1f, listOf(Palette.DAY))
        judge.draw("lists-spanish-side", "es-rMX-w640dp-h360dp-land-xhdpi", 1f, listOf(Palette.DAY))
        judge.judge()
    }
}
