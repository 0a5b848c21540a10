package slingseal.handheld.look

import android.content.Context
import android.view.ViewGroup
import kotlin.math.min

/** Twelve keys in a grid, as large as the room allows: digits, a step back, and what stands in the last corner. */
class NumberPad(
    context: Context,
    palette: Palette,
    /** One more sign or the key that is done with; nothing leaves the corner empty. */
    corner: Key?,
    backLabel: CharSequence,
    /** The room between keys, in dp. */
    private val gap: Int,
    private val onKey: (Char) -> Unit,
    onBack: () -> Unit,
) : ViewGroup(context) {
    private val keys: List<Key>

    init {
        fun face(of: Char) = Key(context, palette, Face.SIDE, of.toString()) { onKey(of) }
        val digits = ('1'..'9').map(::face)
        val back = Key(context, palette, Face.SIDE, backLabel, Sign.ERASE) { onBack() }
        val zero = face('0')
        // one digit follows another at once: a pad is not a card; what ends it waits like every key
        (digits + back + zero).forEach { it.settledAt = 0 }
        keys = listOfNotNull(*digits.toTypedArray(), back, zero, corner)
        keys.forEach(::addView)
    }

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
        val across = if (width > height * 1.15f) 4 else 3
        val down = 12 / across
        val gap = min(dp(gap), min(width, height) / 20)
        val w = (width - gap * (across - 1)) / across
        val h = (height - gap * (down - 1)) / down
        for ((at, key) in keys.withIndex()) put(key, at % across * (w + gap), at / across * (h + gap), w, h)
    }
}
