package slingseal.handheld.look

import android.content.Context
import android.view.View
import android.view.ViewGroup
import kotlin.math.min

/**
 * Ten digits and two steps, as large as the screen allows. Nothing that was typed is shown, kept in a saved state or
 * spoken: the digits live here until they are handed over once.
 */
class PinPad(
    context: Context,
    palette: Palette,
    doneLabel: CharSequence,
    backLabel: CharSequence,
    private val onCount: (Int) -> Unit,
    private val onDone: (String) -> Unit,
) : ViewGroup(context) {
    private val typed = StringBuilder()
    private val keys: List<Key>

    init {
        fun digit(of: Char) = Key(context, palette, Face.SIDE, of.toString()) { type(of) }
        val digits = ('1'..'9').map(::digit)
        val back = Key(context, palette, Face.SIDE, backLabel, Sign.BACK) { back() }
        val zero = digit('0')
        val done = Key(context, palette, Face.GOOD, doneLabel, Sign.TICK) { done() }
        keys = digits + back + zero + done
        keys.forEach(::addView)
        // one digit follows another at once: a pad is not a card
        keys.forEach { it.settledAt = 0 }
    }

    val digitKeys: List<View> get() = keys

    private fun type(digit: Char) {
        if (typed.length < MOST) typed.append(digit)
        onCount(typed.length)
    }

    private fun back() {
        if (typed.isNotEmpty()) typed.setLength(typed.length - 1)
        onCount(typed.length)
    }

    private fun done() {
        val pin = typed.toString()
        for (i in typed.indices) typed.setCharAt(i, '0')
        typed.setLength(0)
        onCount(0)
        onDone(pin)
    }

    private fun columns(width: Int, height: Int) = if (width > height * 1.3f) 4 else 3

    override fun onMeasure(widthSpec: Int, heightSpec: Int) {
        val width = MeasureSpec.getSize(widthSpec)
        val height = MeasureSpec.getSize(heightSpec)
        setMeasuredDimension(width, height)
        place(width, height) { key, _, _, w, h ->
            key.measure(MeasureSpec.makeMeasureSpec(w, MeasureSpec.EXACTLY), MeasureSpec.makeMeasureSpec(h, MeasureSpec.EXACTLY))
        }
    }

    override fun onLayout(changed: Boolean, left: Int, top: Int, right: Int, bottom: Int) =
        place(right - left, bottom - top) { key, x, y, w, h -> key.layout(x, y, x + w, y + h) }

    private fun place(width: Int, height: Int, put: (Key, Int, Int, Int, Int) -> Unit) {
        val across = columns(width, height)
        val down = 12 / across
        val gap = min(dp(16), min(width, height) / 20)
        val w = (width - gap * (across - 1)) / across
        val h = (height - gap * (down - 1)) / down
        for ((at, key) in keys.withIndex()) put(key, at % across * (w + gap), at / across * (h + gap), w, h)
    }

    private companion object {
        const val MOST = 12
    }
}
