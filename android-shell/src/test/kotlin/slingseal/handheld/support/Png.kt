package slingseal.handheld.support

import android.graphics.Bitmap
import java.io.ByteArrayOutputStream
import java.io.DataOutputStream
import java.io.OutputStream
import java.util.zip.CRC32
import java.util.zip.Deflater
import java.util.zip.DeflaterOutputStream

/**
 * Writes a bitmap as a PNG (ISO/IEC 15948), packed lightly: Robolectric's own writer does not pack at all,
 * and there are hundreds.
 */
object Png {
    fun write(bitmap: Bitmap, out: OutputStream) {
        val pixels = IntArray(bitmap.width * bitmap.height)
        bitmap.getPixels(pixels, 0, bitmap.width, 0, 0, bitmap.width, bitmap.height)
        val rows = ByteArray(bitmap.height * (1 + 3 * bitmap.width))
        var at = 0
        for (y in 0 until bitmap.height) {
            rows[at++] = 0 // no filter
            for (x in 0 until bitmap.width) {
                val pixel = pixels[y * bitmap.width + x]
                rows[at++] = (pixel shr 16).toByte()
                rows[at++] = (pixel shr 8).toByte()
                rows[at++] = pixel.toByte()
            }
        }
        val packed = ByteArrayOutputStream()
        DeflaterOutputStream(packed, Deflater(2)).use { it.write(rows) }
        val data = DataOutputStream(out)
        data.write(
            byteArrayOf(
                0x89.toByte(),
                'P'.code.toByte(),
                'N'.code.toByte(),
                'G'.code.toByte(),
                13,
                10,
                26,
                10,
            )
        )
        val header = ByteArrayOutputStream()
        DataOutputStream(header).run {
            writeInt(bitmap.width)
            writeInt(bitmap.height)
            write(byteArrayOf(8, 2, 0, 0, 0)) // 8 bits, red green blue
        }
        chunk(data, "IHDR", header.toByteArray())
        chunk(data, "IDAT", packed.toByteArray())
        chunk(data, "IEND", ByteArray(0))
        data.flush()
    }

    private fun chunk(out: DataOutputStream, kind: String, bytes: ByteArray) {
        val name = kind.toByteArray(Charsets.US_ASCII)
        out.writeInt(bytes.size)
        out.write(name)
        out.write(bytes)
        out.writeInt(
            CRC32()
                .apply {
                    update(name)
                    update(bytes)
                }
                .value
                .toInt()
        )
    }
}
