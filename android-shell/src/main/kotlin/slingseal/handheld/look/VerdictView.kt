package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.Typeface
import android.view.View
import kotlin.math.min

/** One of the three verdicts at the hook, as it is seen at arm's length. */
enum class Stamp(val corners: Int, val sign: Sign) { GO(0, Sign.TICK), WAIT(4, Sign.BARS), NO_GO(8, Sign.CROSS) }

/** The verdict as shape, sign and word; colour is added, never alone. */
class VerdictView(context: Context, private val palette: Palette, private val stamp: Stamp, private val word: String) : View(context) {
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG)

    init {
        contentDescription = word
        accessibilityLiveRegion = ACCESSIBILITY_LIVE_REGION_ASSERTIVE
    }

    val ground: Ground
        get() = when (stamp) {
            Stamp.GO -> palette.go
            Stamp.WAIT -> palette.wait
            Stamp.NO_GO -> palette.noGo
        }

    /** NO-GO stands in a thick frame, WAIT in a thin one, GO in none but what parts it from the page. */
    private fun frame(canvas: Canvas) {
        val edge = dp(when (stamp) {
            Stamp.GO -> 2
            Stamp.WAIT -> 5
            Stamp.NO_GO -> 12
        }).toFloat()
        paint.reset()
        paint.style = Paint.Style.STROKE
        paint.strokeWidth = edge
        paint.color = ground.on
        canvas.drawRect(edge / 2, edge / 2, width - edge / 2, height - edge / 2, paint)
    }

    override fun onDraw(canvas: Canvas) {
        canvas.drawColor(ground.under)
        frame(canvas)
        val upright = height > width * 0.62f
        val shape = if (upright) min(width * 0.5f, height * 0.58f) else min(height * 0.8f, width * 0.32f)
        val x = if (upright) width / 2f else width * 0.05f + shape / 2
        val y = if (upright) height * 0.06f + shape / 2 else height / 2f
        paint.reset()
        paint.isAntiAlias = true
        paint.color = ground.on
        canvas.drawPath(Signs.outline(stamp.corners, x, y, shape), paint)
        Signs.draw(canvas, stamp.sign, x, y, shape * 0.52f, ground.under, paint)

        paint.reset()
        paint.isAntiAlias = true
        paint.color = ground.on
        paint.typeface = Typeface.DEFAULT_BOLD
        paint.textAlign = Paint.Align.CENTER
        val room = if (upright) width * 0.9f else width - shape - width * 0.15f
        val tall = if (upright) height - (y + shape / 2) - height * 0.06f else height * 0.8f
        paint.textSize = 100f
        paint.textSize = min(100f * room / paint.measureText(word), tall * 0.95f)
        val middle = if (upright) y + shape / 2 + (height - y - shape / 2) / 2 else height / 2f
        val wordX = if (upright) width / 2f else x + shape / 2 + (width - x - shape / 2) / 2
        canvas.drawText(word, wordX, middle - (paint.ascent() + paint.descent()) / 2, paint)
    }
}
