package slingseal.handheld.support

import android.graphics.Bitmap
import android.graphics.Color
import android.graphics.Rect
import kotlin.math.max
import kotlin.math.min
import kotlin.math.pow

/** Contrast as WCAG 2.2 defines it: relative luminance of sRGB, and (L1 + 0.05) / (L2 + 0.05). */
object Contrast {
    fun luminance(color: Int): Double {
        fun linear(value: Int) =
            (value / 255.0).let { if (it <= 0.04045) it / 12.92 else ((it + 0.055) / 1.055).pow(2.4) }
        return 0.2126 * linear(Color.red(color)) +
            0.7152 * linear(Color.green(color)) +
            0.0722 * linear(Color.blue(color))
    }

    fun ratio(a: Int, b: Int): Double {
        val x = luminance(a)
        val y = luminance(b)
        return (max(x, y) + 0.05) / (min(x, y) + 0.05)
    }

    /**
     * What lies under (the commonest colour) and what is written on it (the colour farthest from that, of
     * those that are really there).
     */
    fun drawn(bitmap: Bitmap, box: Rect): Pair<Int, Int>? {
        val r = Rect(box)
        if (!r.intersect(0, 0, bitmap.width, bitmap.height)) return null
        val pixels = IntArray(r.width() * r.height())
        bitmap.getPixels(pixels, 0, r.width(), r.left, r.top, r.width(), r.height())
        val counts = counts(pixels)
        val under = counts.maxBy { it.second }.first
        // letters are full-coloured inside their strokes: a colour of a handful of pixels is only an edge
        val enough = max(4, pixels.size / 4000)
        val on =
            counts
                .filter { it.first != under && it.second >= enough }
                .map { it.first }
                .maxByOrNull { ratio(it, under) } ?: return null
        return under to on
    }

    private fun counts(pixels: IntArray): List<Pair<Int, Int>> {
        pixels.sort()
        val out = mutableListOf<Pair<Int, Int>>()
        var from = 0
        for (at in 1..pixels.size) {
            if (at < pixels.size && pixels[at] == pixels[from]) continue
            out += pixels[from] to at - from
            from = at
        }
        return out
    }
}
