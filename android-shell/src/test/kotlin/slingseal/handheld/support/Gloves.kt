package slingseal.handheld.support

import android.graphics.Rect
import kotlin.math.hypot
import kotlin.math.max

/** Measures keys as they were laid out, in dp. */
object Gloves {
    /** Every key that a finger can press, with its box. */
    fun targets(screen: Screen): Map<String, Rect> =
        screen
            .shown()
            .filter { it.isClickable }
            .associate { (it.contentDescription?.toString() ?: it.javaClass.simpleName) to screen.box(it) }

    /** The distance between the nearest edges of two boxes. */
    fun gap(a: Rect, b: Rect): Double {
        val dx = max(0, max(a.left - b.right, b.left - a.right))
        val dy = max(0, max(a.top - b.bottom, b.top - a.bottom))
        return hypot(dx.toDouble(), dy.toDouble())
    }

    fun gaps(boxes: Map<String, Rect>): Map<Pair<String, String>, Double> {
        val names = boxes.keys.toList()
        return buildMap {
            for (i in names.indices) for (j in i + 1 until names.size) {
                put(names[i] to names[j], gap(boxes.getValue(names[i]), boxes.getValue(names[j])))
            }
        }
    }
}
