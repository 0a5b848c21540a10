package slingseal.handheld

import android.view.WindowManager
import android.widget.EditText
import java.io.File
import java.nio.file.Files
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.CredentialState
import slingseal.core.EditionState
import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.core.MovingTaken
import slingseal.core.Role
import slingseal.core.VerdictWord
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.Palette
import slingseal.handheld.places.AuthorityCode
import slingseal.handheld.places.Deed
import slingseal.handheld.places.Issuing
import slingseal.handheld.places.Place
import slingseal.handheld.screens.FramesScreen
import slingseal.handheld.support.PageJudge
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/**
 * A team that never meets a desk: one phone is its authority, by touches, and the others join by what stands
 * on its screen.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class TeamTest {
    private lateinit var screen: Screen
    private lateinit var core: Handheld
    private var presses = 0
    private var scans = 0

    @Before
    fun newPhone() {
        Zone.newPhone()
        Zone.camera()
    }

    private fun launch() {
        screen = Screen(Zone.launch().get())
        core = Core.of(screen.activity)
    }

    private fun press(label: String) {
        screen.press(label)
        presses += 1
    }

    private fun write(words: String) = screen.shown().filterIsInstance<EditText>().single().setText(words)

    private fun code(): String {
        scans += 1
        val view = screen.shown().filterIsInstance<CodeView>().single()
        return Zone.readIndependently(screen.pixels(), screen.box(view))
    }

    private fun home(name: String): Handheld =
        Handheld.open(
            Files.createTempDirectory("slingseal-$name").toFile().apply { deleteOnExit() }.path,
            name.toByteArray().copyOf(32),
            "en",
        )

    private fun toTheAuthority() {
        (screen.activity as HandheldActivity).backTo(Place.Start::class)
        screen.settle()
        press("More")
        press("Set-up")
        press(if (screen.hasKey("Start a team")) "Start a team" else NAME)
    }

    private fun sign(words: String = WORDS) {
        write(words)
        press("Sign")
    }

    /** Begun by touch, with all lists approved. */
    private fun begin() {
        toTheAuthority()
        assertTrue(
            "what it means stands there before",
            screen.words().contains("carry the trust of the whole team"),
        )
        press("Begin")
        write(NAME)
        press("Next")
        assertTrue("nothing is approved unasked", screen.words().contains("a start and no manual"))
        press("Pick all")
        press("Next")
        assertTrue(screen.activity.window.attributes.flags and WindowManager.LayoutParams.FLAG_SECURE != 0)
        sign()
        assertTrue(screen.words(), screen.words().contains("Type the same passphrase again"))
        sign()
        assertTrue(
            screen.words(),
            screen.words().contains("Step 2 of 4") && screen.words().contains(core.authority().fingerprint),
        )
    }

    /**
     * A phone joins: card and voice, its key, its credential, the roster; all of it off the authority's
     * screen.
     */
    private fun join(phone: Handheld, holder: String, vararg roles: String): String {
        toTheAuthority()
        press("Show the card")
        val fingerprint = core.authority().fingerprint
        assertTrue("it is read out from here", screen.words().contains(fingerprint))
        phone.trust(code(), fingerprint)
        press("Done")
        press("Scan a key")
        scans += 1
        (screen.activity as HandheldActivity).see(Zone.camera(phone.makeKey(holder, Zone.PIN)))
        assertTrue(
            screen.words(),
            screen.words().contains(holder) && screen.words().contains(phone.setUp().fingerprint.orEmpty()),
        )
        for (role in roles) press(role)
        press("Give a credential")
        sign()
        val credential = code()
        phone.receive(credential)
        press("Show the roster")
        phone.receive(code())
        press("Done")
        // whoever plans or hooks has all four steps too, and is told that it seals nothing
        val stands = phone.setUp()
        assertTrue(stands.next, stands.ready && stands.maySeal == INSPECTOR in roles)
        assertEquals(holder, stands.credential?.holder)
        return credential
    }

    @Test
    fun aTeamOfPhonesPlansSealsAndHooks() {
        launch()
        begin()
        val planner = home("planner").also { join(it, "Anvil 3", PLANNER) }
        val inspector = home("inspector").also { join(it, "Lantern 1", INSPECTOR) }
        val hookup = home("hookup").also { join(it, "Thistle 7", HOOKUP) }
        // four people on four phones: what was pressed and scanned, without the words that were typed
        assertTrue("$presses presses, $scans scans", presses < 70 && scans <= 12)

        val plan = File("../bindings/desk/demo/bag.toml").readText()
        val tag = planner.writeTag(plan, null, Zone.PIN).code
        val seal = Zone.sealed(inspector, tag)
        val go = hookup.check(seal.code.text, tag.text)
        assertEquals(go.first, VerdictWord.GO, go.verdict)
        assertTrue(
            "who may not plan signs no tag",
            runCatching { inspector.writeTag(plan.replace("KM-015", "KM-016"), null, Zone.PIN) }.isFailure,
        )

        // the inspector is revoked by touch: with the new roster the seal is NO-GO
        toTheAuthority()
        press("Who may do what")
        press("Lantern 1")
        press("Revoke")
        sign()
        assertEquals(CredentialState.REVOKED, core.issued().issued.single { it.holder == "Lantern 1" }.state)
        press("Show the roster")
        hookup.receive(code())
        val no = hookup.check(seal.code.text, tag.text)
        assertEquals(no.first, VerdictWord.NO_GO, no.verdict)

        // a list is withdrawn by touch
        toTheAuthority()
        press("Lists that count")
        press("Webbing cargo bag on one chain leg")
        assertTrue(
            screen.key("Webbing cargo bag on one chain leg").contentDescription.contains("to be withdrawn")
        )
        press("Sign")
        sign()
        press("Show the roster")
        planner.receive(code())
        assertEquals(
            EditionState.WITHDRAWN,
            planner.procedureEditions().single { it.id == "bag" && it.inUse }.state,
        )

        // everything goes on to a fifth phone by one moving code off the screen
        press("Done")
        press("Hand everything on")
        val fifth = home("fifth").also { it.trust(core.authority().card.text, core.authority().fingerprint) }
        fifth.movingListen()
        var done = false
        var looks = 0
        while (!done && looks++ < 200) {
            screen.settle(FramesScreen.FRAME)
            val text = runCatching { code() }.getOrNull() ?: continue
            done = fifth.movingTake(text) is MovingTaken.Done
        }
        assertTrue("the moving code was read", done)
        assertEquals(core.authority().sequence, fifth.setUp().authorities.single().roster)
    }

    @Test
    fun badWordsAreToldAndTheAuthoritysOwnPhoneMaySealToo() {
        launch()
        toTheAuthority()
        press("Begin")
        press("Next")
        assertTrue(screen.words(), screen.words().contains("Nothing typed yet"))
        write(NAME)
        press("Next")
        press("Next")
        sign("short")
        sign("short")
        assertTrue(
            "the core says what a passphrase must be: ${screen.words()}",
            screen.words().lowercase().contains("passphrase") && !screen.words().contains("begun"),
        )
        assertTrue(runCatching { core.authority() }.exceptionOrNull() is HandheldException)
        sign()
        sign("$WORDS!")
        assertTrue(screen.words(), screen.words().contains("The two passphrases differ"))
        sign()
        sign()
        assertTrue(screen.words(), screen.words().contains("Step 2 of 4"))
        toTheAuthority()

        // no key request, no role, a wrong passphrase
        press("Scan a key")
        (screen.activity as HandheldActivity).see(Zone.camera(core.authority().card))
        assertTrue(screen.words(), screen.words().contains("This is no key request"))
        val other = home("other")
        (screen.activity as HandheldActivity).see(Zone.camera(other.makeKey("Rook 8", Zone.PIN)))
        press("Give a credential")
        assertTrue(screen.words(), screen.words().contains("pick a role"))
        press(LEADER)
        press("Give a credential")
        sign("another sea at Alder Bridge")
        assertFalse("nothing was issued", core.issued().issued.any { it.holder == "Rook 8" })
        assertTrue(screen.words(), screen.words().contains("passphrase", ignoreCase = true))
        sign()
        assertEquals(listOf(Role.LEADER), core.issued().issued.single { it.holder == "Rook 8" }.roles)

        // its own key, and a credential that is taken in at once
        core.makeKey("Mason 5", Zone.PIN)
        toTheAuthority()
        press("A credential for this phone")
        press(INSPECTOR)
        press(PLANNER)
        press("Give a credential")
        sign()
        assertTrue(screen.words(), screen.words().contains("Credential of Mason 5 taken in"))
        assertTrue(core.setUp().ready)
    }

    private fun pages(): PageJudge {
        Zone.nfc()
        val phone = Core.of(org.robolectric.RuntimeEnvironment.getApplication())
        phone.authorityInit(NAME, WORDS, phone.procedures().map { it.id }.filter { it != "zone" })
        val card = phone.authority()
        val anvil = home("anvil")
        val request = anvil.makeKey("Anvil 3", Zone.PIN).text
        val own = phone.makeKey("Mason 5", Zone.PIN).text
        val credential =
            phone
                .issue(slingseal.core.Issue(request, listOf(Role.PLANNER), "2027-01-01", null, null), WORDS)
                .text
        phone.issue(
            slingseal.core.Issue(
                home("rook").makeKey("Rook 8", Zone.PIN).text,
                listOf(Role.LEADER, Role.HOOKUP),
                "2026-12-01",
                null,
                null,
            ),
            WORDS,
        )
        phone.revoke(listOf("Rook 8"), null, WORDS)
        val fingerprint = phone.setUp().fingerprint.orEmpty()
        return PageJudge(
                linkedMapOf(
                    "set-up" to Place.SetUp,
                    "authority" to Place.Authority,
                    "authority-name" to Place.AuthorityName,
                    "authority-first-lists" to Place.AuthorityLists(NAME, setOf("bag", "net")),
                    "authority-lists" to Place.AuthorityLists(picked = setOf("bag", "zone")),
                    "authority-words" to Place.AuthorityWords(Deed.Begin(NAME, emptyList())),
                    "authority-issue" to
                        Place.AuthorityIssue(
                            Issuing(own, "Mason 5", fingerprint, listOf(Role.INSPECTOR), 30)
                        ),
                    "authority-card" to Place.AuthorityShown(AuthorityCode.CARD),
                    "authority-roster" to Place.AuthorityShown(AuthorityCode.ROSTER),
                    "authority-credential" to Place.AuthorityCredential(credential, "Anvil 3", own = false),
                    "authority-people" to Place.AuthorityPeople,
                    "authority-person" to
                        Place.AuthorityPerson(phone.issued().issued.first { it.holder == "Anvil 3" }.id),
                )
            )
            .also { check(card.name == NAME) }
    }

    @Test fun everyPageInEveryLight() = pages().inEveryLight("team")

    @Test fun everyPageInSpanish() = pages().inSpanish("team")

    /** What it means to be one, on a phone that is none. */
    @Test
    fun theBeginningInEveryLight() {
        Zone.nfc()
        for ((group, language) in listOf("team-new" to "", "team-new-spanish" to "es-rMX-")) {
            Core.close()
            val judge = PageJudge(linkedMapOf("set-up" to Place.SetUp, "authority" to Place.Authority))
            judge.draw(group, "${language}w360dp-h640dp-port-xhdpi", 1f, Palette.entries)
            judge.draw("$group-side", "${language}w640dp-h360dp-land-xhdpi", 1f, listOf(Palette.DAY))
            judge.judge()
        }
    }

    private companion object {
        const val NAME = "Sela Relief"
        const val WORDS = "high water at Alder Bridge"
        const val PLANNER = "Planner: signs tags"
        const val INSPECTOR = "Inspector: seals loads"
        const val HOOKUP = "Hookup: checks and reports"
        const val LEADER = "Leader: voids, withdraws, closes"
    }
}
