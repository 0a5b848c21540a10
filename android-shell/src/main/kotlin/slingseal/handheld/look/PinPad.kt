package slingseal.handheld.look

import android.content.Context
import android.view.View

/** Takes a PIN. Nothing that was typed is shown, kept in a saved state or spoken: the digits are handed over once and wiped. */
class PinPad(context: Context, palette: Palette, backLabel: CharSequence, private val onCount: (Int) -> Unit) {
    private val typed = CharArray(MOST)
    private var count = 0

    val view: View = NumberPad(context, palette, "", backLabel, ::type, ::back)

    private fun type(digit: Char) {
        if (count < MOST) typed[count++] = digit
        onCount(count)
    }

    private fun back() {
        if (count > 0) typed[--count] = '0'
        onCount(count)
    }

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
