package slingseal.handheld.support

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import slingseal.handheld.R
import slingseal.handheld.sense.Luminance

/**
 * A team that is begun and joined by the guide, by touch, with pictures of screens alone between its phones.
 */
class Team(private val phones: Phones) {
    private val screen: Screen
        get() = phones.screen

    lateinit var fingerprint: String
        private set

    /** The passphrase, and the key that signs with it. */
    fun sign() {
        phones.write(WORDS)
        phones.press("Sign")
    }

    /** The authority's side of the guide up to its card. */
    fun begin(): Luminance {
        phones.on(LEAD)
        assertTrue(
            "a phone without a role is a hook check and says how to become more",
            screen.words().contains("join a team or start one") && screen.hasKey("Hook check"),
        )
        phones.activity.speaks = true
        phones.press("Start a team")
        assertEquals("by voice too", words(R.string.team_begin), phones.activity.lastWords)
        assertTrue(
            screen.words(),
            screen.words().contains("Step 1 of 4") &&
                screen.words().contains("carry the trust of the whole team"),
        )
        phones.press("Begin")
        phones.write("Sela Relief")
        phones.press("Next")
        phones.press("Pick all")
        phones.press("Next")
        sign()
        sign()
        assertTrue(screen.words(), screen.words().contains("Step 2 of 4"))
        fingerprint = phones.core.authority().fingerprint
        return phones.picture()
    }

    /** A joiner's side of the guide up to its wish. */
    fun ask(name: String, holder: String, card: Luminance): Luminance {
        phones.on(name)
        phones.activity.speaks = true
        phones.press("Join a team")
        assertEquals("by voice too", words(R.string.join_card), phones.activity.lastWords)
        assertTrue(
            screen.words(),
            screen.words().contains("Step 1 of 4") && screen.words().contains("On the other phone"),
        )
        phones.press("Scan the card")
        phones.look(card)
        phones.hear(fingerprint)
        phones.press("Compare")
        assertTrue(screen.words(), screen.words().contains("Step 2 of 4"))
        phones.press("Make the key")
        phones.write(holder)
        phones.press("Take it")
        repeat(2) {
            phones.digits(Zone.PIN)
            phones.press("Take it")
        }
        assertTrue(screen.words(), screen.words().contains("Step 3 of 4"))
        return phones.picture()
    }

    /** One person's key on the authority's phone; gives the credential. */
    fun give(wish: Luminance, role: String): Luminance {
        phones.look(wish)
        phones.press(role)
        phones.press("Give a credential")
        sign()
        return phones.picture()
    }

    /** The joiner's side from its credential on. */
    fun end(name: String, credential: Luminance, roster: Luminance) {
        phones.on(name)
        phones.press("Join a team")
        phones.press("Credential")
        phones.look(credential)
        assertTrue(screen.words(), screen.words().contains("Step 4 of 4"))
        phones.press("Scan the roster")
        phones.look(roster)
        assertTrue(screen.words(), screen.words().contains("You are in the team"))
        phones.press("Done")
    }

    private fun words(id: Int) = phones.activity.getString(id)

    /** All of it. */
    fun stand() {
        val card = begin()
        val wishes = PEOPLE.map { (name, holder, _) -> ask(name, holder, card) }
        phones.on(LEAD)
        // the phone was laid aside and comes up at its start: the guide goes on
        phones.start()
        phones.press("Sela Relief")
        phones.press("Step by step")
        phones.press("Next")
        phones.press("Scan a key")
        val credentials =
            PEOPLE.zip(wishes).mapIndexed { at, (person, wish) ->
                give(wish, person.third).also { if (at < PEOPLE.size - 1) phones.press("Next person") }
            }
        phones.press("All have one")
        assertTrue(screen.words(), screen.words().contains("Step 4 of 4"))
        val roster = phones.picture()
        phones.press("The team stands")
        for ((person, credential) in PEOPLE.zip(credentials)) end(person.first, credential, roster)
    }

    companion object {
        const val LEAD = "lead"
        const val WORDS = "high water at Alder Bridge"
        const val PLANNER = "Planner: signs tags"
        const val INSPECTOR = "Inspector: seals loads"
        const val HOOKUP = "Hookup: checks and reports"
        val PEOPLE =
            listOf(
                Triple("planner", "Anvil 3", PLANNER),
                Triple("inspector", "Lantern 1", INSPECTOR),
                Triple("hookup", "Thistle 7", HOOKUP),
            )
    }
}
