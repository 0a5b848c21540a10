package slingseal.handheld.look

import android.content.Context
import android.view.View
import kotlin.math.min

/**
 * Keys in a grid that fills its room. Without a gap the keys touch each other and are only drawn apart: then
 * each takes as much of the glass as there is, for a glove.
 */
open class KeyGrid(
    context: Context,
    /** Row by row; null leaves a place empty. */
    private val keys: List<Key?>,
    /** The room between keys, in dp. */
    private val gap: Int,
    /** How many stand beside each other, where the grid is high and where it is wide. */
    private val high: Int = 3,
    private val wide: Int = 4,
) : PlacedGroup(context) {
    init {
        for (key in keys.filterNotNull()) {
            if (gap == 0) key.inset = dp(DRAWN)
            addView(key)
        }
    }

    override fun place(width: Int, height: Int, put: (View, Int, Int, Int, Int) -> Unit) {
        val across = if (width > height * 1.15f) wide else high
        val down = (keys.size + across - 1) / across
        val gap = min(dp(gap), min(width, height) / 20)
        val w = (width - gap * (across - 1)) / across
        val h = (height - gap * (down - 1)) / down
        for ((at, key) in keys.withIndex()) key?.let {
            put(it, at % across * (w + gap), at / across * (h + gap), w, h)
        }
    }

    private companion object {
        /** How far inside its place a key is drawn that touches its neighbours, in dp. */
        const val DRAWN = 3
    }
}

/** Twelve keys: digits, a step back, and what stands in the last corner. */
class NumberPad(
    context: Context,
    palette: Palette,
    /** One more sign or the key that is done with; nothing leaves the corner empty. */
    corner: Key?,
    backLabel: CharSequence,
    gap: Int,
    onKey: (Char) -> Unit,
    onBack: () -> Unit,
) : KeyGrid(context, keys(context, palette, corner, backLabel, onKey, onBack), gap) {
    private companion object {
        fun keys(
            context: Context,
            palette: Palette,
            corner: Key?,
            backLabel: CharSequence,
            onKey: (Char) -> Unit,
            onBack: () -> Unit,
        ): List<Key?> {
            fun face(of: Char) = Key(context, palette, Face.SIDE, of.toString()) { onKey(of) }
            val digits = ('1'..'9').map(::face)
            val back = Key(context, palette, Face.SIDE, backLabel, Sign.ERASE) { onBack() }
            val zero = face('0')
            // one digit follows another at once: a pad is not a card; what ends it waits like every key
            (digits + back + zero).forEach { it.settledAt = 0 }
            return digits + back + zero + corner
        }
    }
}
