package slingseal.handheld.look

import android.content.Context
import android.graphics.Canvas
import android.graphics.Paint
import android.view.View
import kotlin.math.max
import kotlin.math.min

/**
 * Takes a PIN. Nothing that was typed is shown, kept in a saved state or spoken: the digits are handed over
 * once and wiped.
 */
class PinPad(
    context: Context,
    palette: Palette,
    backLabel: CharSequence,
    done: Key,
    private val onCount: (Int) -> Unit,
) {
    private val typed = CharArray(MOST)
    private var count = 0

    val view: View = NumberPad(context, palette, done, backLabel, gap = 0, onKey = ::type, onBack = ::back)

    fun type(digit: Char) {
        if (count < MOST) typed[count++] = digit
        onCount(count)
    }

    fun back() {
        if (count > 0) typed[--count] = '0'
        onCount(count)
    }

    /** How many digits stand here. */
    val size
        get() = count

    /** The digits, once. */
    fun take(): String {
        val pin = String(typed, 0, count)
        typed.fill('0')
        count = 0
        onCount(0)
        return pin
    }

    private companion object {
        const val MOST = 16
    }
}

/** One slot a digit: six to begin with, more where more are typed. */
class Slots(context: Context, private val palette: Palette) : View(context) {
    private val paint = Paint(Paint.ANTI_ALIAS_FLAG)

    var filled = 0
        set(value) {
            field = value
            invalidate()
        }

    override fun onDraw(canvas: Canvas) {
        val slots = max(LEAST, filled)
        val step = min(width / slots.toFloat(), height * 1.5f)
        val radius = min(step * 0.32f, height * 0.36f)
        val left = (width - step * slots) / 2
        paint.color = palette.page.on
        paint.strokeWidth = dp(3).toFloat()
        for (at in 0 until slots) {
            paint.style = if (at < filled) Paint.Style.FILL_AND_STROKE else Paint.Style.STROKE
            canvas.drawCircle(left + step * (at + 0.5f), height / 2f, radius, paint)
        }
    }

    private companion object {
        const val LEAST = 6
    }
}
