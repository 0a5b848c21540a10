package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Page
import slingseal.handheld.look.PinPad
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Slots
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** A page with a PIN pad: how many digits were typed is shown, never which. */
abstract class PinPage(shell: Shell, place: Place) : Screen(shell, place) {
    private lateinit var pad: PinPad

    protected abstract val title: String
    protected abstract val words: String
    protected abstract val done: String

    /** A second way out, beside back. */
    protected open fun otherKey(): Key? = null

    override val secret
        get() = true

    override val hidesBars
        get() = true

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = title

    protected abstract fun take(pin: String)

    /** How often the key at the edge was pressed for the digit that comes; it is felt and never shown. */
    private var pulses = 0

    /**
     * By the keys at the edge, as a dial sends it: up as often as the digit says, ten times for 0, held takes
     * it, and held with nothing counted is done. Down forgets the count, or the digit before.
     */
    override fun hard(answer: HardAnswer) {
        when (answer) {
            HardAnswer.FIRST -> {
                pulses = pulses % DIAL + 1
                shell.feel(Beat.GOOD)
            }
            HardAnswer.SECOND -> {
                if (pulses == 0) pad.back()
                pulses = 0
                shell.feel(Beat.UNDONE)
            }
            HardAnswer.AGAIN ->
                if (pulses == 0) {
                    end()
                } else {
                    pad.type('0' + pulses % DIAL)
                    pulses = 0
                    shell.feel(Beat.READ)
                }
            HardAnswer.BACK -> shell.back()
        }
    }

    override fun build(): View {
        val slots =
            Slots(context, palette).apply {
                contentDescription = text(R.string.digits_typed, 0)
                accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
            }
        val end = key(Face.GOOD, done, Sign.KEY) { end() }
        pad =
            PinPad(context, palette, text(R.string.take_back), end) { count ->
                slots.filled = count
                slots.contentDescription = text(R.string.digits_typed, count)
            }
        val said =
            parts.column(
                *listOfNotNull(
                        noticePanel(),
                        parts.heading(title, 20),
                        parts.words(words, 17, bold = true),
                        if (shell.hardKeysOn) parts.words(text(R.string.pin_by_keys), 16) else null,
                    )
                    .toTypedArray(),
                space = 2,
            )
        return Page(parts).pin(backKey(), otherKey(), said, slots, pad.view, onItsSide)
    }

    /** A PIN of no digits is no try. */
    private fun end() {
        if (pad.size > 0) return take(pad.take())
        shell.notice = text(R.string.nothing_typed)
        shell.feel(Beat.REFUSED)
        shell.redrawSame()
    }

    private companion object {
        /** So many presses are a nought. */
        const val DIAL = 10
    }
}
