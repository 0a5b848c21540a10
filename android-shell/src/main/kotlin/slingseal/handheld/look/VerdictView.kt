package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.RectF
import android.graphics.Typeface
import android.view.View
import kotlin.math.min

/** One of the three verdicts at the hook, as it is seen at arm's length. */
enum class Stamp(val corners: Int, val sign: Sign) {
    GO(0, Sign.TICK),
    WAIT(4, Sign.BARS),
    NO_GO(8, Sign.CROSS),
}

/** The verdict as shape, sign and word; colour is added, never alone. */
class VerdictView(
    context: Context,
    private val palette: Palette,
    private val stamp: Stamp,
    private val word: String,
) : View(context) {
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG)

    init {
        contentDescription = word
        accessibilityLiveRegion = ACCESSIBILITY_LIVE_REGION_ASSERTIVE
    }

    val ground: Ground
        get() =
            when (stamp) {
                Stamp.GO -> palette.go
                Stamp.WAIT -> palette.wait
                Stamp.NO_GO -> palette.noGo
            }

    /** NO-GO stands in a thick frame, WAIT in a thin one, GO in none but what parts it from the page. */
    private val edge: Float
        get() =
            dp(
                    when (stamp) {
                        Stamp.GO -> 2
                        Stamp.WAIT -> 5
                        Stamp.NO_GO -> 12
                    }
                )
                .toFloat()

    private fun frame(canvas: Canvas) {
        paint.reset()
        paint.style = Paint.Style.STROKE
        paint.strokeWidth = edge
        paint.color = ground.on
        canvas.drawRect(edge / 2, edge / 2, width - edge / 2, height - edge / 2, paint)
    }

    override fun onDraw(canvas: Canvas) {
        canvas.drawColor(ground.under)
        frame(canvas)
        val inside = RectF(edge + dp(4), edge + dp(4), width - edge - dp(4), height - edge - dp(4))
        paint.reset()
        paint.isAntiAlias = true
        paint.color = ground.on
        paint.typeface = Typeface.DEFAULT_BOLD
        // sign over word or beside it: whichever lets the word be larger, for that is what is read at arm's
        // length
        val over = Lines(shape = min(inside.width() * 0.5f, inside.height() * 0.44f), over = true, inside)
        val beside = Lines(shape = min(inside.height() * 0.8f, inside.width() * 0.32f), over = false, inside)
        val best = if (over.size(paint, word) >= beside.size(paint, word)) over else beside
        val size = best.size(paint, word)
        val x = if (best.over) inside.centerX() else inside.left + inside.width() * 0.03f + best.shape / 2
        val y = if (best.over) inside.top + inside.height() * 0.03f + best.shape / 2 else inside.centerY()
        canvas.drawPath(Signs.outline(stamp.corners, x, y, best.shape), paint)
        Signs.draw(canvas, stamp.sign, x, y, best.shape * 0.52f, ground.under, paint)

        paint.reset()
        paint.isAntiAlias = true
        paint.color = ground.on
        paint.typeface = Typeface.DEFAULT_BOLD
        paint.textAlign = Paint.Align.CENTER
        paint.textSize = size
        val top = if (best.over) y + best.shape / 2 else inside.top
        val left = if (best.over) inside.left else x + best.shape / 2
        val middle = (top + inside.bottom) / 2
        canvas.drawText(
            word,
            (left + inside.right) / 2,
            middle - (paint.ascent() + paint.descent()) / 2,
            paint,
        )
    }

    /** How sign and word share the room. */
    private class Lines(val shape: Float, val over: Boolean, inside: RectF) {
        private val wide = if (over) inside.width() * 0.94f else inside.width() * 0.9f - shape
        private val tall = if (over) inside.height() * 0.94f - shape else inside.height() * 0.9f

        fun size(paint: Paint, word: String): Float {
            paint.textSize = 100f
            return min(100f * wide / paint.measureText(word), tall)
        }
    }
}
