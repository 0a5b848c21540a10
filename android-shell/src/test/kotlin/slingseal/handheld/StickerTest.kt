package slingseal.handheld

import android.nfc.NdefMessage
import android.nfc.NdefRecord
import org.junit.Assert.assertArrayEquals
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import slingseal.core.CodeKind
import slingseal.core.Role
import slingseal.core.StickerReading
import slingseal.core.VerdictWord
import slingseal.handheld.support.OnAPhone
import slingseal.handheld.support.Zone

/**
 * What the core writes to an NFC sticker, read by the platform's own parser, and the other way round. No
 * sticker was touched.
 */
@RunWith(RobolectricTestRunner::class)
class StickerTest : OnAPhone() {
    @Test
    fun thePlatformReadsWhatTheCoreWrites() {
        val inspector =
            zone.core("inspector").also {
                zone.meet(it)
                zone.credential(it, "Lantern 1", Role.INSPECTOR)
            }
        val tag = zone.tag()
        val seal = Zone.sealed(inspector, tag).code.text
        // an NTAG216 as the platform tells it is smaller than its 888 bytes
        val written = inspector.sticker(listOf(seal, tag.text), 868u)
        assertTrue("${written.bytes} bytes", written.fits)

        val platform = NdefMessage(written.message)
        assertEquals(
            listOf("application/vnd.slingseal.sl1", "application/vnd.slingseal.lt2"),
            platform.records.map { it.toMimeType() },
        )
        assertEquals(written.bytes.toInt(), platform.byteArrayLength)
        assertArrayEquals("one spelling", written.message, platform.toByteArray())

        val read =
            zone.core("hookup").also(zone::meet).let {
                it.readSticker(platform.toByteArray()) as StickerReading.Ours to it
            }
        assertEquals(seal to tag.text, read.first.seal to read.first.tag)
        assertEquals(VerdictWord.GO, read.second.check(read.first.seal, read.first.tag).verdict)
    }

    @Test
    fun theCoreReadsWhatThePlatformWrites() {
        val core = zone.core("reader")
        val tag = zone.tag()
        val payload = NdefMessage(core.sticker(listOf(tag.text), 0u).message).records.single().payload
        val ours = NdefRecord.createMime("application/vnd.slingseal.lt2", payload)
        val address = NdefRecord.createUri("https://example.org/")
        val app = NdefRecord.createApplicationRecord("slingseal.handheld")
        assertArrayEquals(core.sticker(listOf(tag.text), 0u).message, NdefMessage(ours).toByteArray())
        for (message in listOf(NdefMessage(ours), NdefMessage(address, ours, app))) {
            assertEquals(
                StickerReading.Ours(null, tag.text, emptyList()),
                core.readSticker(message.toByteArray()),
            )
        }
        assertEquals(StickerReading.Foreign, core.readSticker(NdefMessage(address, app).toByteArray()))
        val empty = NdefMessage(NdefRecord(NdefRecord.TNF_EMPTY, null, null, null))
        assertEquals(StickerReading.Empty, core.readSticker(empty.toByteArray()))
        val newer = NdefMessage(NdefRecord.createMime("application/vnd.slingseal.sl2", payload))
        assertEquals(StickerReading.Newer(CodeKind.SEAL), core.readSticker(newer.toByteArray()))
    }
}
