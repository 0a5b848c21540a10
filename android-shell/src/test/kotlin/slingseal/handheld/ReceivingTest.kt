package slingseal.handheld

import android.view.KeyEvent
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.GraphicsMode
import slingseal.core.MovementKind
import slingseal.core.MovementView
import slingseal.handheld.places.Place
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.see

/** Where a load is taken down, on phones that have no key of their own. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class ReceivingTest : OnAPhone() {
    private fun only(load: String = "KM-015"): MovementView = core.movements(load).single()

    @Test
    fun whoeverTakesALoadDownNeedsNoKeyAndNothingKnownBefore() {
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        assertEquals(emptyList<Any>(), core.setUp().authorities)
        screen.press("Receive a load")
        screen.hand.see(Zone.camera(tag))
        val view = core.readTag(tag.text)
        for (words in listOf("KM-015", view.description, view.gross, view.destination.name)) assertTrue(
            screen.words(),
            screen.words().contains(words),
        )
        screen.press("Set down")
        assertEquals(listOf(MovementKind.SET_DOWN, null), only().let { listOf(it.event, it.by) })
        screen.press("Done")
        assertTrue(
            screen.words(),
            screen.keys().any {
                it.label == "Set down" && it.contentDescription.contains("this device, unsigned")
            },
        )
        screen.press("Derigged")
        assertEquals(
            setOf(MovementKind.SET_DOWN, MovementKind.DERIGGED),
            core.movements("KM-015").map { it.event }.toSet(),
        )
    }

    @Test
    fun eachPieceGoesBackOrIsDamaged() {
        val tag = zone.vehicleTag()
        val pieces = core.arrival(tag.text).pieces
        assertTrue("${pieces.size}", pieces.size >= 2)
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Equipment")
        assertFalse("nothing is marked, so nothing is to be said", screen.hasKey("Derigged"))
        val first = "${pieces[0].kind} ${pieces[0].serial}"
        screen.press(screen.keys().first { it.contentDescription == "$first: Damaged" })
        assertTrue(screen.hasKey("Set down"))
        screen.press("All of it goes back")
        screen.press(
            screen.keys().first {
                it.contentDescription == "${pieces[1].kind} ${pieces[1].serial}: Goes back"
            }
        )
        // a turn of the phone keeps the marks
        screen.hand.redraw()
        screen.settle()
        screen.press(screen.keys().last { it.label == "Goes back" })
        val report = only(core.readTag(tag.text).load)
        assertEquals(MovementKind.RETURNED, report.event)
        assertEquals(
            pieces.filter { it != pieces[1] }.map { it.serial }.sorted(),
            report.pieces.map { it.serial }.sorted(),
        )
        assertTrue(
            report.pieces.all { it.back } && report.pieces.single { it.damaged }.serial == pieces[0].serial
        )
        screen.press("Done")
        assertTrue(
            screen.words(),
            screen.words().contains("Goes back, damaged") && screen.words().contains("Not back yet"),
        )
    }

    /**
     * The same by the keys at the edge alone: down frames the next, up marks it, and the frame stays where it
     * was.
     */
    @Test
    fun piecesAreMarkedByTheKeysAtTheEdge() {
        val tag = zone.vehicleTag()
        val pieces = core.arrival(tag.text).pieces
        val screen = Screen(Zone.launch().get())
        screen.hand.hardKeysOn = true
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        screen.press("Equipment")
        fun down() = screen.hardKey(android.view.KeyEvent.KEYCODE_VOLUME_DOWN, 250)
        fun up() = screen.hardKey(android.view.KeyEvent.KEYCODE_VOLUME_UP, 250)
        // past "all of it" to what the first piece has: goes back, damaged
        repeat(3) { down() }
        up()
        assertTrue(screen.words(), screen.hasKey("Set down"))
        down()
        up()
        // past the rest of the pieces to the report
        repeat(2 * pieces.size - 2) { down() }
        up()
        val report = only(core.readTag(tag.text).load)
        assertEquals(MovementKind.RETURNED, report.event)
        assertEquals(
            setOf(pieces[0].serial to false, pieces[1].serial to true),
            report.pieces.map { it.serial to it.back }.toSet(),
        )
        assertEquals(pieces[0].serial, report.pieces.single { it.damaged }.serial)
    }

    /**
     * A photograph of what came down goes with the report, by its digest, and its bytes are kept beside it.
     */
    @Test
    fun aReportTakesPhotographsAlong() {
        Zone.camera()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Equipment, more")
        for (shade in listOf(60, 190)) {
            screen.press("Add a photo")
            val picture = java.io.ByteArrayOutputStream()
            android.graphics.Bitmap.createBitmap(64, 48, android.graphics.Bitmap.Config.ARGB_8888)
                .apply { eraseColor(android.graphics.Color.rgb(shade, shade, shade)) }
                .compress(android.graphics.Bitmap.CompressFormat.JPEG, 90, picture)
            (screen.hand.front as slingseal.handheld.screens.ReportPhotoScreen).review(picture.toByteArray())
            screen.settle()
            assertTrue(screen.words(), screen.words().contains("Can it be seen what became of the load?"))
            screen.press("Keep it")
        }
        assertTrue(screen.words(), screen.key("Add a photo").contentDescription.contains("Photos: 2"))
        screen.press("Set down")
        assertEquals(2, only().photos.size)
    }

    @Test
    fun whatIsNoLoadIsToldAtTheReceivingSide() {
        val screen = Screen(Zone.launch().get())
        screen.press("Receive a load")
        screen.press("Type it")
        screen.write("KM-404")
        screen.press("Use it")
        assertTrue(screen.words(), screen.words().contains("nothing is known here of load KM-404"))
    }
}
