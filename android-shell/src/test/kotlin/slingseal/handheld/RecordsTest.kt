package slingseal.handheld

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.CodeView
import slingseal.core.VerdictWord
import slingseal.handheld.places.Place
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/** A record is evidence: whatever its inspector decided, the page says first whether it may be relied on. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class RecordsTest : OnAPhone() {
    @Before fun anInspectors() = zone.inspector()

    @Test
    fun aRecordThatWaitsSaysSoWhereItIsListedAndOnItsPage() {
        Zone.sealed(core, zone.tag("KM-012"))
        Zone.sealed(core, zone.tag("KM-013", signed = false))
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Records())
        screen.settle()
        val row = { load: String ->
            screen.keys().single { it.label.toString() == load }.contentDescription.toString()
        }
        assertTrue(row("KM-013"), row("KM-013").contains("Fit · waits: look into it first"))
        assertTrue(row("KM-012"), !row("KM-012").contains("waits"))
        screen.press("KM-013")
        assertTrue(screen.words(), screen.words().contains("waits: look into it first"))
        screen.press("Back")
        screen.press("KM-012")
        assertTrue(screen.words(), !screen.words().contains("waits"))
    }

    @Test
    fun aSealIsVoidedOnThePhoneAndFoundByWords() {
        val tag = zone.tag("KM-091")
        val seal = Zone.sealed(core, tag)
        Zone.sealed(core, zone.tag("KM-092"))
        val screen = Screen(Zone.launch().get())
        screen.press("More")
        screen.press("Records")
        assertTrue(screen.hasKey("KM-091") && screen.hasKey("KM-092"))
        screen.press("Find")
        screen.write("KM-091")
        screen.press("Find")
        assertTrue(screen.words(), screen.hasKey("KM-091") && !screen.hasKey("KM-092"))
        screen.press("KM-091")
        screen.press("Void the seal")
        screen.press("The load was moved")
        screen.press("1")
        screen.type(Zone.PIN)
        screen.press("Void it")
        assertTrue(
            "a wrong PIN voids nothing: ${screen.words()}",
            screen.words().contains("PIN is wrong", ignoreCase = true),
        )
        screen.type(Zone.PIN)
        screen.press("Void it")
        val code = screen.shown().filterIsInstance<slingseal.handheld.look.CodeView>().single()
        val text = Zone.readIndependently(screen.pixels(), screen.box(code))
        assertEquals(VerdictWord.NO_GO, core.check(seal.code.text, tag.text).verdict)

        // another phone that knows nothing of it says GO until it scans the void at the hook
        val hook = zone.core("hookup").also(zone::meet)
        assertEquals(VerdictWord.GO, hook.check(seal.code.text, tag.text).verdict)
        hook.receive(text)
        assertEquals(VerdictWord.NO_GO, hook.check(seal.code.text, tag.text).verdict)
    }
}
