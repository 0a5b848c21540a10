package slingseal.handheld.sense

import java.nio.Buffer
import java.nio.ByteBuffer

/** A grey picture: one byte a pixel, rows from the top, no padding. */
class Luminance(val width: Int, val height: Int, val bytes: ByteArray) {
    companion object {
        /**
         * Takes the brightness plane of a camera frame, whose rows may be padded and whose pixels may be
         * apart.
         */
        fun ofPlane(plane: ByteBuffer, width: Int, height: Int, rowStride: Int, pixelStride: Int): Luminance {
            val out = ByteArray(width * height)
            // as a Buffer: ByteBuffer.position returns another type since Java 9, which older Androids do not
            // have
            val cursor: Buffer = plane
            if (pixelStride == 1) {
                for (row in 0 until height) {
                    cursor.position(row * rowStride)
                    plane.get(out, row * width, width)
                }
            } else {
                for (row in 0 until height) for (column in 0 until width) {
                    out[row * width + column] = plane.get(row * rowStride + column * pixelStride)
                }
            }
            return Luminance(width, height, out)
        }
    }
}
