package slingseal.handheld

import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.GraphicsMode
import slingseal.core.Handheld
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone

/** A record is evidence: whatever its inspector decided, the page says first whether it may be relied on. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class RecordsTest {
    private lateinit var zone: Zone
    private lateinit var core: Handheld

    @Before
    fun newPhone() {
        Zone.newPhone()
        zone = Zone()
        zone.inspector()
        core = Core.of(RuntimeEnvironment.getApplication())
    }

    @Test
    fun aRecordThatWaitsSaysSoWhereItIsListedAndOnItsPage() {
        Zone.sealed(core, zone.tag("KM-012"))
        Zone.sealed(core, zone.tag("KM-013", signed = false))
        val screen = Screen(Zone.launch().get())
        (screen.activity as HandheldActivity).go(Place.Records())
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
}
