package slingseal.handheld

import kotlin.math.hypot
import kotlin.math.max
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import slingseal.handheld.look.Box
import slingseal.handheld.look.GlovePlan
import slingseal.handheld.look.Spot

/** Where the keys of a glove page stand, on screens of many sizes; MIL-STD-1472E: 19 mm keys, 13 mm apart. */
class PlanTest {
    private val keys = setOf(Spot.FIRST, Spot.SECOND, Spot.SIDE_ONE, Spot.SIDE_TWO)

    private fun gap(a: Box, b: Box) =
        hypot(
            max(0, max(a.left - b.right, b.left - a.right)).toDouble(),
            max(0, max(a.top - b.bottom, b.top - a.bottom)).toDouble(),
        )

    @Test
    fun keysAndGapsAreFitForGlovesOnEveryPhone() {
        var seen = 0
        for (density in listOf(1f, 1.5f, 2f, 2.625f, 3f, 3.5f)) for (w in 330..480 step 10) for (h in
            560..960 step 40) {
            for ((width, height) in listOf(w to h, h to w)) {
                val boxes =
                    GlovePlan.boxes(
                        (width * density).toInt(),
                        (height * density).toInt(),
                        density,
                        keys + Spot.BETWEEN + Spot.MIDDLE,
                    )
                val four = keys.map { boxes.getValue(it) }
                for (box in four) {
                    assertTrue(
                        "$width x $height at $density: $box",
                        box.width >= 120 * density && box.height >= 120 * density,
                    )
                    assertTrue(
                        box.left >= 0 &&
                            box.top >= 0 &&
                            box.right <= width * density &&
                            box.bottom <= height * density
                    )
                }
                for (i in 0..2) for (j in i + 1..3) {
                    assertTrue("$width x $height at $density", gap(four[i], four[j]) >= 82 * density)
                }
                val middle = boxes.getValue(Spot.MIDDLE)
                assertTrue(
                    "$width x $height: no room to read",
                    middle.width >= 180 * density && middle.height >= 180 * density,
                )
                seen += 1
            }
        }
        assertEquals(6 * 16 * 11 * 2, seen)
    }

    /**
     * A thumb pivots near the lower corner and sweeps about 4 inches (common practice): both answers must lie
     * inside.
     */
    @Test
    fun bothAnswersLieUnderOneThumb() {
        for ((w, h) in listOf(360 to 640, 411 to 891, 640 to 360, 891 to 411)) {
            val boxes = GlovePlan.boxes(w, h, 1f, keys)
            for (spot in listOf(Spot.FIRST, Spot.SECOND)) {
                val b = boxes.getValue(spot)
                val reach = hypot(w - (b.left + b.right) / 2.0, h - (b.top + b.bottom) / 2.0)
                assertTrue("$spot on $w x $h is $reach dp from the corner", reach <= 4 * 160)
            }
        }
    }
}
