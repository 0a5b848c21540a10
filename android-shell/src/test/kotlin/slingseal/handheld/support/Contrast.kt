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
        fun linear(value: Int) = (value / 255.0).let { if (it <= 0.04045) it / 12.92 else ((it + 0.055) / 1.055).pow(2.4) }
        return 0.2126 * linear(Color.red(color)) + 0.7152 * linear(Color.green(color)) + 0.0722 * linear(Color.blue(color))
    }

    fun ratio(a: Int, b: Int): Double {
        val x = luminance(a)
        val y = luminance(b)
        return (max(x, y) + 0.05) / (min(x, y) + 0.05)
    }

    /** What lies under (the commonest colour) and what is written on it (the colour farthest from that, of those that are really there). */
    fun drawn(bitmap: Bitmap, box: Rect): Pair<Int, Int>? {
        val r = Rect(box)
        if (!r.intersect(0, 0, bitmap.width, bitmap.height)) return null
        val count = HashMap<Int, Int>()
        for (y in r.top until r.bottom) for (x in r.left until r.right) count.merge(bitmap.getPixel(x, y), 1, Int::plus)
        val under = count.maxBy { it.value }.key
        // letters are full-coloured inside their strokes: a colour of a handful of pixels is only an edge
        val enough = max(4, r.width() * r.height() / 4000)
        val on = count.filter { it.key != under && it.value >= enough }.keys.maxByOrNull { ratio(it, under) } ?: return null
        return under to on
    }
}
