package slingseal.handheld.look

import android.content.Context
import android.graphics.Rect
import android.os.Build
import android.view.View
import android.view.ViewGroup
import kotlin.math.max
import kotlin.math.min
import slingseal.handheld.NewerAndroid

/** A place for a key in a [GloveFrame]. */
enum class Spot {
    /** The answer that is given most, under the thumb. */
    FIRST,

    /** The other answer, under the thumb too. */
    SECOND,

    /** Side steps, away from the thumb, where they are not met by accident. */
    SIDE_ONE,
    SIDE_TWO,

    /** Something small between the two side steps. */
    BETWEEN,

    /** What is read. */
    MIDDLE,
}

/** A box in pixels. */
data class Box(val left: Int, val top: Int, val right: Int, val bottom: Int) {
    val width
        get() = right - left

    val height
        get() = bottom - top
}

/**
 * Where everything stands on a page that a gloved hand answers: four keys in the corners, each 120 dp or
 * more, with 82 dp or more between their edges, and the words in between. Upright, both answers lie at the
 * bottom; on its side, both lie on the right: one thumb reaches both.
 */
object GlovePlan {
    fun boxes(width: Int, height: Int, dp: Float, spots: Set<Spot>): Map<Spot, Box> =
        if (height >= width) upright(width, height, dp, spots) else aside(width, height, dp, spots)

    private fun upright(width: Int, height: Int, dp: Float, spots: Set<Spot>): Map<Spot, Box> {
        val gap = up(Glove.GAP * dp)
        val margin = min(up(14 * dp), max(0, (width - gap - 2 * up(Glove.KEY * dp)) / 2))
        val key = (width - 2 * margin - gap) / 2
        val sides = up(Glove.KEY * dp)
        val answers = min(key, max(up(Glove.KEY * dp), (height * 0.21f).toInt()))
        val right = width - margin
        val bottom = height - margin
        val out = mutableMapOf<Spot, Box>()
        val hasSides = Spot.SIDE_ONE in spots || Spot.SIDE_TWO in spots
        val lone = Spot.SECOND !in spots
        if (Spot.FIRST in spots)
            out[Spot.FIRST] = Box(if (lone) margin else right - key, bottom - answers, right, bottom)
        if (Spot.SECOND in spots) out[Spot.SECOND] = Box(margin, bottom - answers, margin + key, bottom)
        if (Spot.SIDE_ONE in spots) out[Spot.SIDE_ONE] = Box(margin, margin, margin + key, margin + sides)
        if (Spot.SIDE_TWO in spots) out[Spot.SIDE_TWO] = Box(right - key, margin, right, margin + sides)
        val between = up(2 * dp)
        if (Spot.BETWEEN in spots)
            out[Spot.BETWEEN] = Box(margin + key + between, margin, right - key - between, margin + sides)
        val top = if (hasSides || Spot.BETWEEN in spots) margin + sides else 0
        val foot = if (Spot.FIRST in spots || Spot.SECOND in spots) bottom - answers else height
        out[Spot.MIDDLE] = Box(margin, top, right, foot)
        return out
    }

    private fun aside(width: Int, height: Int, dp: Float, spots: Set<Spot>): Map<Spot, Box> {
        val gap = up(Glove.GAP * dp)
        val least = up(Glove.KEY * dp)
        val margin = min(up(14 * dp), max(0, (height - gap - 2 * least) / 2))
        val key = (height - 2 * margin - gap) / 2
        val wide = min(max(least, (width * 0.2f).toInt()), key * 3 / 2)
        val right = width - margin
        val bottom = height - margin
        val out = mutableMapOf<Spot, Box>()
        val hasSides = Spot.SIDE_ONE in spots || Spot.SIDE_TWO in spots
        if (Spot.FIRST in spots)
            out[Spot.FIRST] =
                Box(right - wide, if (Spot.SECOND in spots) bottom - key else margin, right, bottom)
        if (Spot.SECOND in spots) out[Spot.SECOND] = Box(right - wide, margin, right, margin + key)
        if (Spot.SIDE_ONE in spots) out[Spot.SIDE_ONE] = Box(margin, margin, margin + least, margin + key)
        if (Spot.SIDE_TWO in spots) out[Spot.SIDE_TWO] = Box(margin, bottom - key, margin + least, bottom)
        if (Spot.BETWEEN in spots) out[Spot.BETWEEN] = Box(margin, margin + key, margin + least, bottom - key)
        val left = if (hasSides || Spot.BETWEEN in spots) margin + least else 0
        val edge = if (Spot.FIRST in spots || Spot.SECOND in spots) right - wide else width
        out[Spot.MIDDLE] = Box(left + margin, margin / 2, edge - margin, height - margin / 2)
        return out
    }

    private fun up(value: Float) = kotlin.math.ceil(value).toInt()
}

/** Lays its children by [GlovePlan]. */
class GloveFrame(context: Context) : ViewGroup(context) {
    private val placed = mutableMapOf<Spot, View>()

    fun put(spot: Spot, view: View): GloveFrame {
        placed[spot] = view
        addView(view)
        return this
    }

    /** A screen reader reads the words first, then the answers, then the side steps. */
    override fun onAttachedToWindow() {
        super.onAttachedToWindow()
        var before: View? = null
        for (spot in READ) {
            val view = placed[spot] ?: continue
            if (view.id == NO_ID) view.id = generateViewId()
            before?.let { view.accessibilityTraversalAfter = it.id }
            before = view
        }
    }

    private fun plan(width: Int, height: Int) =
        GlovePlan.boxes(width, height, resources.displayMetrics.density, placed.keys)

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val width = MeasureSpec.getSize(widthSpec)
        val height = MeasureSpec.getSize(heightSpec)
        setMeasuredDimension(width, height)
        for ((spot, box) in plan(width, height)) {
            placed[spot]?.measure(exactly(box.width), exactly(box.height))
        }
    }

    override fun onLayout(changed: Boolean, left: Int, top: Int, right: Int, bottom: Int) {
        for ((spot, box) in plan(right - left, bottom - top)) {
            placed[spot]?.layout(box.left, box.top, box.right, box.bottom)
        }
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.Q) keepSwipesOff()
    }

    /** A thumb that comes in from the edge presses a key; the system takes it for a swipe back otherwise. */
    @NewerAndroid
    private fun keepSwipesOff() {
        systemGestureExclusionRects =
            placed
                .filterKeys { it == Spot.FIRST || it == Spot.SECOND }
                .values
                .map { Rect(it.left, it.top, it.right, it.bottom) }
    }

    private fun exactly(size: Int) = MeasureSpec.makeMeasureSpec(max(0, size), MeasureSpec.EXACTLY)

    private companion object {
        val READ = listOf(Spot.MIDDLE, Spot.BETWEEN, Spot.FIRST, Spot.SECOND, Spot.SIDE_ONE, Spot.SIDE_TWO)
    }
}
