package slingseal.handheld

import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Handheld
import slingseal.core.Issue
import slingseal.core.MovementKind
import slingseal.core.ReportRequest
import slingseal.core.Role
import slingseal.handheld.look.Palette
import slingseal.handheld.places.CopyPart
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.TeamStep
import slingseal.handheld.screens.CloseScreen
import slingseal.handheld.screens.CopyMade
import slingseal.handheld.support.PageJudge
import slingseal.handheld.support.Zone

/**
 * The guide, the leader's pages and the start of each role, drawn and measured: three palettes, both ways up,
 * large letters, both languages.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class GuidePagesTest {
    private val zone by lazy { Zone() }

    @Before
    fun newPhone() {
        Zone.newPhone()
        Zone.nfc()
        CopyMade.copy = null
        CloseScreen.changed()
    }

    private fun phone(): Handheld = Core.of(org.robolectric.RuntimeEnvironment.getApplication())

    private fun inEveryLight(group: String, vararg pages: Pair<String, Place>) {
        val judge = PageJudge(linkedMapOf(*pages))
        judge.draw(group, "w360dp-h640dp-port-xhdpi", 1f, Palette.entries)
        judge.draw("$group-side", "w640dp-h360dp-land-xhdpi", 1f, Palette.entries)
        judge.draw("$group-200", "w360dp-h640dp-port-xhdpi", 2f, listOf(Palette.DAY))
        judge.draw("$group-side-200", "w640dp-h360dp-land-xhdpi", 2f, listOf(Palette.DAY))
        Core.close()
        judge.draw("$group-spanish", "es-rMX-w411dp-h891dp-port-xhdpi", 1f, listOf(Palette.DAY))
        judge.draw("$group-spanish-side", "es-rMX-w640dp-h360dp-land-xhdpi", 1f, listOf(Palette.DAY))
        judge.judge()
    }

    private val start = Place.Start
    private val more = Place.Else
    private val join = Place.Join

    @Test
    fun aPhoneWithoutARole() =
        inEveryLight(
            "none",
            "start" to start,
            "more" to more,
            "set-up" to Place.SetUp,
            "join-card" to join,
            "team-begin" to Place.Team(TeamStep.BEGIN),
            "copy-none" to Place.CopyKept,
        )

    @Test
    fun theStepsOfWhoeverJoins() {
        val authority = zone.desk.authority()
        phone().trust(authority.card.text, authority.fingerprint)
        inEveryLight("join-key", "start" to start, "join-key" to join)
    }

    @Test
    fun theWishOfWhoeverJoins() {
        val authority = zone.desk.authority()
        phone().trust(authority.card.text, authority.fingerprint)
        phone().makeKey("Lantern 1", Zone.PIN)
        inEveryLight("join-wish", "start" to start, "join-credential" to join, "set-up" to Place.SetUp)
    }

    @Test
    fun theEndOfWhoeverJoins() {
        val authority = zone.desk.authority()
        val request =
            phone().run {
                trust(authority.card.text, authority.fingerprint)
                makeKey("Lantern 1", Zone.PIN)
            }
        phone()
            .receive(
                zone.desk
                    .issue(
                        Issue(request.text, listOf(Role.PLANNER), "2099-01-01", null, null),
                        Zone.PASSPHRASE,
                    )
                    .text
            )
        inEveryLight("join-roster", "start" to start, "join-roster" to join)
        phone().receive(authority.roster.text)
        inEveryLight(
            "joined",
            "start" to start,
            "joined" to join,
            "set-up" to Place.SetUp,
            "plan-first" to Place.Plan,
        )
    }

    @Test
    fun theAuthoritysOwnSteps() {
        val phone = phone()
        phone.authorityInit("Sela Relief", Zone.PASSPHRASE, phone.procedures().map { it.id })
        for ((name, role) in listOf("Anvil 3" to Role.PLANNER, "Lantern 1" to Role.INSPECTOR)) {
            phone.issue(
                Issue(
                    zone.core(name.take(4)).makeKey(name, Zone.PIN).text,
                    listOf(role),
                    "2099-01-01",
                    null,
                    null,
                ),
                Zone.PASSPHRASE,
            )
        }
        CopyMade.copy = phone.copyAuthority(Zone.PASSPHRASE)
        inEveryLight(
            "lead",
            "start" to start,
            "authority" to Place.Authority,
            "team-card" to Place.Team(TeamStep.CARD),
            "team-keys" to Place.Team(TeamStep.KEYS),
            "team-roster" to Place.Team(TeamStep.ROSTER),
            "copy-first" to Place.Copy(CopyPart.FIRST),
            "copy-type" to Place.Type(Purpose.CopyPart),
            "copy-second" to Place.Copy(CopyPart.SECOND),
        )
    }

    @Test
    fun theLeadersPages() {
        zone.inspector(Role.LEADER, Role.HOOKUP, Role.INSPECTOR)
        val phone = phone()
        for (load in listOf("KM-071", "KM-072", "KM-073")) {
            val tag = zone.tag(load)
            Zone.sealed(phone, tag, fit = load != "KM-073")
            if (load == "KM-071")
                phone.report(
                    ReportRequest(
                        load,
                        MovementKind.LIFTED,
                        null,
                        null,
                        null,
                        null,
                        emptyList(),
                        emptyList(),
                        null,
                    ),
                    null,
                )
        }
        phone.receive(zone.tag("KM-074", bag = "CB-0940").text)
        val copy = zone.desk.copyAuthority(Zone.PASSPHRASE)
        Core.choose("authority part", copy.first.code.text)
        val point = phone.closeAccount(null).points.first()
        phone.closeAccount(null).points.forEach { phone.explain(it.id, "as agreed on the zone") }
        val closing = phone.signClosing(null, Zone.PIN)
        phone.explain(point.id, "")
        inEveryLight(
            "leader",
            "start" to start,
            "board" to Place.Board,
            "story" to Place.Story("KM-071"),
            "close" to Place.Close(),
            "close-point" to Place.ClosePoint(point.id, "${point.title}: ${point.subject}", point.toDo, ""),
            "close-pin" to Place.ClosePin(),
            "closed" to Place.Closed(closing.code?.text, closing.statement.check),
            "closed-long" to Place.Closed(null, closing.statement.check),
            "withdraw" to Place.Withdraw(),
            "withdraw-pin" to Place.WithdrawPin("CB-0940", "a cut in the webbing"),
            "copy-kept" to Place.CopyKept,
        )
    }
}
