package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.handheld.places.Issuing
import slingseal.handheld.sense.Luminance
import slingseal.handheld.support.Phones
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Team
import slingseal.handheld.support.Zone

/** The authority's phone is lost: two parts of its copy, on two phones, make another phone the authority. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class LostPhoneTest {
    private val phones = Phones()
    private val team = Team(phones)
    private val screen: Screen
        get() = phones.screen

    @Before
    fun newPhone() {
        Zone.newPhone()
        Zone.camera()
        Zone.nfc()
    }

    private fun kept() {
        phones.start()
        phones.press("More")
        phones.press("Set-up")
        phones.press("A part of a copy")
    }

    /** Keeps a part on a phone; the rows that it shows. */
    private fun keep(name: String, part: Luminance, number: Int): List<String> {
        phones.on(name)
        kept()
        assertTrue(screen.words(), screen.words().contains("never both on one phone"))
        phones.press("Scan a part")
        phones.look(part)
        assertTrue(
            screen.words(),
            screen.words().contains("Part $number of an authority's copy is kept here"),
        )
        return Regex("(?m)^ ?\\d+\\. ([A-Z2-7 ]+)$")
            .findAll(screen.words())
            .map { it.groupValues[1] }
            .toList()
    }

    @Test
    fun twoPartsAndThePassphraseMakeAnotherPhoneTheAuthority() {
        team.stand()
        phones.on(Team.LEAD)
        phones.start()
        phones.press("Sela Relief")
        phones.press("A copy in two parts")
        phones.write("another sea at Alder Bridge")
        phones.press("Sign")
        assertTrue(screen.words(), screen.words().contains("passphrase", ignoreCase = true))
        team.sign()
        val first = phones.picture()
        phones.press("Second part")
        val second = phones.picture()
        phones.press("Done")
        val before = phones.core.authority()
        val one = keep("planner", first, 1)
        keep("inspector", second, 2)

        // the lead's phone is gone from here on: the inspector's has both parts, for as long as it takes; the
        // planner's part comes on paper, and one letter of it was read wrong
        phones.press("Scan a part")
        phones.press("Type it")
        assertTrue(screen.words(), screen.words().contains("without their numbers"))
        val wrong = one.toMutableList()
        wrong[4] = wrong[4].replaceFirstChar { if (it == 'K') 'X' else 'K' }
        phones.write(wrong.joinToString("\n"))
        phones.press("Use it")
        assertTrue(screen.words(), screen.words().contains("row 5 is not as it was written"))
        phones.write(one.joinToString("\n"))
        phones.press("Use it")
        assertTrue(screen.words(), screen.words().contains("The old phone must never sign again"))
        phones.write("another sea at Alder Bridge")
        phones.press("Sign")
        assertTrue("no authority by a wrong passphrase", runCatching { phones.core.authority() }.isFailure)
        team.sign()
        assertTrue(screen.words(), screen.words().contains("This phone is the authority now"))
        val now = phones.core.authority()
        assertEquals(before.fingerprint to before.name, now.fingerprint to now.name)
        phones.start()
        phones.press("More")
        phones.press("Set-up")
        assertTrue("no part is kept beside the whole", !screen.hasKey("A part of a copy"))

        // a new roster, and the others take its word as they took the old one's
        phones.start()
        phones.press("Sela Relief")
        phones.press("Show the roster")
        phones.press("Renew")
        team.sign()
        phones.press("Show the roster")
        val roster = phones.picture()
        val sequence = phones.core.authority().sequence
        assertTrue("$sequence after ${before.sequence}", sequence > before.sequence)
        phones.on("hookup")
        phones.press("More")
        phones.press("Set-up")
        phones.press("Scan a code")
        phones.look(roster)
        assertEquals(sequence, phones.core.setUp().authorities.single().roster)

        // and it lets a fifth person in
        phones.on("inspector")
        phones.start()
        phones.press("Sela Relief")
        phones.press("Show the card")
        val card = phones.picture()
        val wish = team.ask("fifth", "Rook 8", card)
        phones.on("inspector")
        phones.start()
        phones.press("Sela Relief")
        phones.press("Scan a key")
        phones.look(wish)
        phones.press(Team.HOOKUP)
        phones.press("${Issuing.DAYS.last()} days")
        phones.press("Give a credential")
        team.sign()
        val credential = phones.picture()
        val given = phones.core.issued().issued.single { it.holder == "Rook 8" }
        val days = (given.expires.unix - System.currentTimeMillis() / 1000) / 86_400.0
        assertEquals("for as long as was chosen", Issuing.DAYS.last().toDouble(), days, 1.5)
        phones.start()
        phones.press("Sela Relief")
        phones.press("Show the roster")
        team.end("fifth", credential, phones.picture())
        assertTrue(phones.core.setUp().next, phones.core.setUp().ready)
    }
}
