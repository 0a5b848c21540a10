package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Handheld
import slingseal.core.Role
import slingseal.core.VerdictWord
import slingseal.handheld.look.Key
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/** What a leader does about a load and its gear, by touch from the zone board on. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class LeaderTest : OnAPhone() {
    private lateinit var screen: Screen
    private lateinit var inspector: Handheld
    private lateinit var hook: Handheld

    @Before
    fun aLeaders() {
        zone.inspector(Role.LEADER)
        inspector =
            zone.core("inspector").also {
                zone.meet(it)
                zone.credential(it, "Anvil 3", Role.INSPECTOR)
            }
        hook = zone.core("hook").also(zone::meet)
    }

    private fun pin(done: String) {
        screen.type(Zone.PIN)
        screen.press(done)
    }

    private fun words(words: String, done: String) {
        screen.write(words)
        screen.press(done)
    }

    private fun board() {
        screen = Screen(Zone.launch().get())
        screen.press("Zone board")
    }

    @Test
    fun aSealIsVoidedFromTheBoard() {
        val tag = zone.tag("KM-064")
        val seal = Zone.sealed(inspector, tag).code.text
        core.receive(tag.text)
        core.receive(seal)
        assertEquals(VerdictWord.GO, hook.check(seal, tag.text).verdict)
        board()
        screen.press("KM-064")
        screen.press(screen.keys().first { key: Key -> "Anvil 3" in key.contentDescription })
        screen.press("Void the seal")
        screen.press("In your own words")
        screen.press("Take it")
        assertTrue("no cause, no void: ${screen.words()}", screen.words().contains("Nothing typed yet"))
        words("slid off its pallet", "Take it")
        assertTrue(screen.words(), screen.words().contains("slid off its pallet"))
        pin("Void it")
        hook.receive(screen.readCode())
        val no = hook.check(seal, tag.text)
        assertEquals(no.first, VerdictWord.NO_GO, no.verdict)
        assertTrue(no.first, no.reasons.any { "slid off its pallet" in it.text })
        screen.press("Done")
        assertTrue(screen.words(), screen.words().contains("slid off its pallet"))
        screen.press("Back")
        assertTrue("the story says it too: ${screen.words()}", screen.words().contains("oid"))
        assertEquals(slingseal.core.FlowState.VOIDED, core.load("KM-064").state)
    }

    @Test
    fun aLoadIsRefusedFromItsStoryAndTheRefusalIsSigned() {
        val tag = zone.tag("KM-067")
        val seal = Zone.sealed(inspector, tag).code.text
        core.receive(tag.text)
        core.receive(seal)
        assertEquals(VerdictWord.GO, hook.check(seal, tag.text).verdict)
        board()
        screen.press("KM-067")
        screen.press("Refuse")
        screen.press("It is too heavy")
        assertEquals(
            "on this phone it counts at once",
            slingseal.core.FlowState.REFUSED,
            core.load("KM-067").state,
        )
        hook.receive(screen.readCode())
        assertEquals("elsewhere it is a hint", VerdictWord.GO, hook.check(seal, tag.text).verdict)
        assertTrue(screen.words(), screen.words().contains("moves on when somebody signs"))
        screen.press("Sign it with your PIN")
        pin("Sign it")
        assertTrue(screen.words(), !screen.words().contains("moves on when somebody signs"))
        hook.receive(screen.readCode())
        val no = hook.check(seal, tag.text)
        assertEquals(no.first, VerdictWord.NO_GO, no.verdict)
    }

    @Test
    fun aPieceIsTakenOutOfServiceFromTheBoard() {
        val tag = zone.tag("KM-065", bag = "CB-0940")
        val seal = Zone.sealed(inspector, tag).code.text
        assertEquals(VerdictWord.GO, hook.check(seal, tag.text).verdict)
        board()
        screen.press("Take gear out of service")
        words("", "Next")
        assertTrue(screen.words(), screen.words().contains("Nothing typed yet"))
        words("CB-0940", "Next")
        words("acid on the webbing", "Next")
        pin("Sign it")
        assertTrue(screen.words(), screen.words().contains("CB-0940"))
        hook.receive(screen.readCode())
        val no = hook.check(seal, tag.text)
        assertEquals(no.first, VerdictWord.NO_GO, no.verdict)
        assertTrue(no.first, no.reasons.any { "CB-0940" in it.text && "acid on the webbing" in it.text })

        // a load that is planned with it is told so before it is signed, and until an inspector finds it fit
        val planned =
            inspector
                .draftLike(tag.text)
                .copy(load = "KM-066", weightSource = slingseal.core.WeightSource.WEIGHED)
        inspector.receive(screen.readCode())
        assertTrue(inspector.checkDraft(planned).faults.any { "CB-0940" in it })
    }
}
