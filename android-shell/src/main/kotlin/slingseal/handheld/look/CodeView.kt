package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.view.View
import kotlin.math.min

/** A QR code, drawn on whole pixels with the quiet zone of four modules that ISO/IEC 18004 asks for. */
class CodeView(
    context: Context,
    private val palette: Palette,
    side: Int,
    dark: BooleanArray,
    spoken: CharSequence,
) : View(context) {
    private val paint = Paint()
    private var side = side
    private var dark = dark

    init {
        id = generateViewId()
        contentDescription = spoken
    }

    /** The next frame of a moving code. */
    fun show(side: Int, dark: BooleanArray) {
        this.side = side
        this.dark = dark
        invalidate()
    }

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val width = MeasureSpec.getSize(widthSpec)
        val height =
            if (MeasureSpec.getMode(heightSpec) == MeasureSpec.UNSPECIFIED) width
            else MeasureSpec.getSize(heightSpec)
        val edge = min(width, height)
        setMeasuredDimension(edge, edge)
    }

    override fun onDraw(canvas: Canvas) {
        val modules = side + 2 * QUIET
        val module = (min(width, height) / modules).coerceAtLeast(1)
        val left = (width - module * side) / 2
        val top = (height - module * side) / 2
        canvas.drawColor(palette.code.under)
        paint.color = palette.code.on
        for (y in 0 until side) for (x in 0 until side) {
            if (dark[y * side + x]) {
                val px = (left + x * module).toFloat()
                val py = (top + y * module).toFloat()
                canvas.drawRect(px, py, px + module, py + module, paint)
            }
        }
    }

    private companion object {
        const val QUIET = 4
    }
}
