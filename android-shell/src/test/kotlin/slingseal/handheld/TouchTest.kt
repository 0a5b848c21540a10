package slingseal.handheld

import android.nfc.NfcAdapter
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.GraphicsMode
import slingseal.core.MovementKind
import slingseal.core.StickerReading
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.screens.StickerScreen
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Sticker
import slingseal.handheld.support.FakeSticker
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Screen
import slingseal.handheld.support.Zone
import slingseal.handheld.support.touch

/** Stickers by touch: written, read back and judged, and where the reader listens. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
class TouchTest : OnAPhone() {
    @Test
    fun aStickerIsWrittenReadBackAndJudged() {
        zone.inspector()
        val tag = zone.tag()
        val seal = Zone.sealed(core, tag)
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Sticker(listOf(seal.code.text, tag.text)))
        screen.settle()
        assertTrue(screen.hand.front is StickerScreen)
        val good = FakeSticker(2000)
        screen.touch(good)
        assertTrue(screen.words(), screen.words().contains("Written, read back, and right."))
        assertEquals(Beat.GOOD, screen.hand.lastBeat)
        val verdict = core.readSticker(good.message) as slingseal.core.StickerReading.Ours
        assertEquals(seal.code.text to tag.text, verdict.seal to verdict.tag)
        for ((sticker, words) in
            listOf(
                FakeSticker(2000, writable = false) to "locked",
                FakeSticker(2000, torn = true) to "read back differs",
                FakeSticker(2000, gone = true) to "taken away too soon",
                FakeSticker(100) to "Too small",
                null to "not a sticker that can be written",
            )) {
            screen.touch(sticker)
            assertTrue("$words: ${screen.words()}", screen.words().contains(words))
            assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        }
        // one out of the box is laid out with its first message, and read with the next touch
        val blank = FakeSticker(null, readsBack = false)
        screen.touch(blank)
        assertTrue(screen.words(), screen.words().contains("Not checked yet"))
        assertFalse(screen.words(), screen.words().contains("read back, and right"))
        assertEquals(Beat.REFUSED, screen.hand.lastBeat)
        screen.touch(FakeSticker(2000, message = blank.message))
        assertTrue(screen.words(), screen.words().contains("Written, read back, and right."))
        // room for the seal and not for the tag as well
        val both = core.sticker(listOf(seal.code.text, tag.text), 0u).bytes.toInt()
        val small = FakeSticker(both - 1)
        screen.touch(small)
        assertTrue(screen.words(), screen.words().contains("The seal alone was written"))
    }

    @Test
    fun theReaderListensOnScanAndHookPagesAlone() {
        zone.inspector()
        Zone.nfc()
        val screen = Screen(Zone.launch().get())
        val adapter = shadowOf(NfcAdapter.getDefaultAdapter(screen.activity))

        /** What the page wants and what the platform was asked for are one. */
        fun touches(): Boolean =
            screen.hand.front!!.touches.also {
                assertEquals("${screen.hand.front!!.place}", it, adapter.isInReaderMode)
            }
        assertFalse(touches())
        screen.press("Hook check")
        assertTrue(touches())
        screen.press("Back")
        screen.press("Inspect a load")
        assertTrue(touches())
        screen.touch(FakeSticker(888, message = core.sticker(listOf(zone.tag("KM-081").text), 888u).message))
        assertTrue(screen.words(), screen.words().contains("KM-081"))
        assertFalse(touches())
    }

    /** The tag and the seal live on the load: a report goes beside them, and never in their place. */
    @Test
    fun aReportGoesOntoTheStickerOfItsLoadBesideTheTag() {
        Zone.nfc()
        val tag = zone.tag()
        val screen = Screen(Zone.launch().get())
        screen.hand.go(Place.Arrival(tag.text))
        screen.settle()
        screen.press("Set down")
        screen.press("Write to sticker")
        fun holding(text: String, room: Int = 2000) =
            FakeSticker(room, core.sticker(listOf(text), 2000u).message)
        val own = holding(tag.text)
        screen.touch(own)
        assertTrue(screen.words(), screen.words().contains("Written, read back, and right."))
        val held = core.readSticker(own.message) as StickerReading.Ours
        assertEquals(tag.text, held.tag)
        assertEquals(1, held.others.size)
        val others = holding(zone.tag("KM-016").text)
        screen.touch(others)
        assertTrue(screen.words(), screen.words().contains("another load's"))
        assertEquals(
            zone.tag("KM-016").text.length,
            (core.readSticker(others.message) as StickerReading.Ours).tag!!.length,
        )
        val small = holding(tag.text).let { FakeSticker(it.message.size + 20, it.message) }
        screen.touch(small)
        assertTrue("the tag is not given up for it: ${screen.words()}", screen.words().contains("Too small"))
        assertEquals(tag.text, (core.readSticker(small.message) as StickerReading.Ours).tag)

        // another phone has both by one touch
        Zone.newPhone()
        val other = Screen(Zone.launch().get())
        other.hand.go(Place.Scan(Purpose.Arrival))
        other.settle()
        other.touch(own)
        assertEquals(listOf(MovementKind.SET_DOWN), core.movements("KM-015").map { it.event })
        assertEquals(Place.Arrival::class, other.hand.front!!.place::class)
    }
}
