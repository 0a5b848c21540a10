package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.DashPathEffect
import android.graphics.Paint
import android.graphics.Path
import android.view.View
import kotlin.math.min
import slingseal.core.DrawingView
import slingseal.core.DrawnLine

/**
 * The load as the core draws it, in a square: what the card is about is heavy, the rest stands back. The
 * words beside it say the same.
 */
class LoadDrawing(context: Context, private val palette: Palette, private val drawing: DrawingView) :
    View(context) {
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG)
    private val paths = drawing.lines.map { it to Path() }
    private val broken = DashPathEffect(floatArrayOf(dp(3).toFloat(), dp(3).toFloat()), 0f)

    /** Whether anything is marked: a card about people, or about the whole of the load, marks nothing. */
    val marks = drawing.lines.any { it.marked }

    init {
        importantForAccessibility = IMPORTANT_FOR_ACCESSIBILITY_NO
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val side =
            min(
                MeasureSpec.getSize(widthSpec),
                if (MeasureSpec.getMode(heightSpec) == MeasureSpec.UNSPECIFIED) Int.MAX_VALUE
                else MeasureSpec.getSize(heightSpec),
            )
        setMeasuredDimension(side, side)
    }

    override fun onSizeChanged(width: Int, height: Int, oldWidth: Int, oldHeight: Int) {
        val scale = min(width, height) / drawing.side.toFloat()
        for ((line, path) in paths) trace(line, path, scale)
    }

    private fun trace(line: DrawnLine, path: Path, scale: Float) {
        path.reset()
        for ((at, dot) in line.dots.chunked(2).withIndex()) {
            val (x, y) = dot.map { it.toFloat() * scale }
            if (at == 0) path.moveTo(x, y) else path.lineTo(x, y)
        }
        if (line.closed) path.close()
    }

    override fun onDraw(canvas: Canvas) {
        paint.style = Paint.Style.STROKE
        paint.strokeJoin = Paint.Join.ROUND
        paint.strokeCap = Paint.Cap.ROUND
        // what is marked lies over the rest, whatever it is behind
        for (marked in listOf(false, true)) for ((line, path) in paths) {
            if (line.marked != marked) continue
            paint.color = if (marked) palette.page.on else palette.line
            paint.strokeWidth =
                dp(
                        if (marked) (if (line.fine || line.hidden) 1.7f else 2.6f)
                        else if (line.fine || line.hidden) 0.6f else 1.1f
                    )
                    .toFloat()
                    .coerceAtLeast(1f)
            paint.pathEffect = if (line.hidden && !marked) broken else null
            canvas.drawPath(path, paint)
        }
    }
}
