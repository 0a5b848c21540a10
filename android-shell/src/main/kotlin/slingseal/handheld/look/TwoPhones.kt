package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.graphics.RectF
import android.view.View
import kotlin.math.min

/**
 * Two phones, and which of them looks at the other's code: this one stands in front, filled. The words below
 * say the same, so a screen reader passes over it.
 */
class TwoPhones(context: Context, private val palette: Palette, private val what: Shows) : View(context) {
    /** What goes from one to the other. */
    enum class Shows {
        THIS,
        OTHER,
        ALONE,
    }

    private val paint = Paint(Paint.ANTI_ALIAS_FLAG)
    private val box = RectF()

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) =
        setMeasuredDimension(MeasureSpec.getSize(widthSpec), dp(96))

    override fun onDraw(canvas: Canvas) {
        val high = height.toFloat()
        val wide = min(high * 0.56f, width / 5f)
        val gap = wide * 1.5f
        val left = if (what == Shows.ALONE) (width - wide) / 2f else (width - 2 * wide - gap) / 2f
        phone(canvas, left, wide, high, own = true, code = what == Shows.THIS)
        if (what == Shows.ALONE) return
        val other = left + wide + gap
        phone(canvas, other, wide, high, own = false, code = what == Shows.OTHER)
        // the code goes from who shows it to who looks
        val (from, to) = if (what == Shows.THIS) left + wide to other else other to left + wide
        arrow(canvas, from, to, high / 2)
    }

    private fun phone(canvas: Canvas, x: Float, wide: Float, high: Float, own: Boolean, code: Boolean) {
        val edge = dp(3).toFloat()
        box.set(x + edge, edge, x + wide - edge, high - edge)
        paint.style = Paint.Style.FILL
        paint.color = palette.panel.under
        canvas.drawRoundRect(box, wide / 6, wide / 6, paint)
        paint.style = Paint.Style.STROKE
        paint.strokeWidth = if (own) edge * 1.6f else edge * 0.7f
        paint.color = palette.panel.on
        canvas.drawRoundRect(box, wide / 6, wide / 6, paint)
        if (code) code(canvas, x + wide / 2, high / 2, wide * 0.5f)
        else if (own && what == Shows.ALONE)
            Signs.draw(canvas, Sign.KEY, x + wide / 2, high / 2, wide * 0.5f, palette.panel.on, paint)
        else Signs.draw(canvas, Sign.EYE, x + wide / 2, high / 2, wide * 0.45f, palette.panel.on, paint)
    }

    /** What every such code has: three corners, and squares between them. */
    private fun code(canvas: Canvas, x: Float, y: Float, size: Float) {
        val cell = size / 7
        paint.style = Paint.Style.FILL
        paint.color = palette.panel.on
        for (row in 0 until 7) for (column in 0 until 7) if (CODE[row][column] == '#') {
            val (left, top) = x - size / 2 + column * cell to y - size / 2 + row * cell
            canvas.drawRect(left, top, left + cell * 0.96f, top + cell * 0.96f, paint)
        }
    }

    private fun arrow(canvas: Canvas, from: Float, to: Float, y: Float) {
        val way = if (to > from) 1 else -1
        val (start, end) = from + way * dp(6) to to - way * dp(6)
        val head = dp(12).toFloat()
        paint.style = Paint.Style.STROKE
        paint.strokeCap = Paint.Cap.ROUND
        paint.strokeWidth = dp(5).toFloat()
        paint.color = palette.page.on
        canvas.drawLine(start, y, end, y, paint)
        canvas.drawLine(end, y, end - way * head, y - head, paint)
        canvas.drawLine(end, y, end - way * head, y + head, paint)
    }

    private companion object {
        val CODE = listOf("###.###", "#.#.#.#", "###.###", "..#.#..", "###.#.#", "#.#..#.", "###.#.#")
    }
}
