package slingseal.handheld.look

import android.view.MotionEvent
import kotlin.math.hypot

/**
 * Tells a press that is meant from a brush of a sleeve: one pointer, down and up on the same key, held for a moment,
 * without wandering; and never one that began before the page had stood still for a while, so that a second press
 * does not fall through to the next card.
 */
class PressGuard(private val wander: Float, private val hold: Long = HOLD) {
    private var downAt = 0L
    private var downX = 0f
    private var downY = 0f
    private var live = false

    enum class Step { NOTHING, BEGAN, PRESSED, CANCELLED }

    fun feed(event: MotionEvent, width: Int, height: Int, settledAt: Long): Step {
        when (event.actionMasked) {
            MotionEvent.ACTION_DOWN -> {
                live = event.eventTime >= settledAt
                downAt = event.eventTime
                downX = event.x
                downY = event.y
                return if (live) Step.BEGAN else Step.NOTHING
            }
            MotionEvent.ACTION_MOVE -> if (live && wandered(event, width, height)) return cancel()
            // a second pointer is a palm or a sleeve
            MotionEvent.ACTION_POINTER_DOWN, MotionEvent.ACTION_CANCEL -> if (live) return cancel()
            MotionEvent.ACTION_UP -> if (live) {
                val meant = event.eventTime - downAt >= hold && !wandered(event, width, height)
                live = false
                return if (meant) Step.PRESSED else Step.CANCELLED
            }
        }
        return Step.NOTHING
    }

    private fun cancel(): Step {
        live = false
        return Step.CANCELLED
    }

    private fun wandered(event: MotionEvent, width: Int, height: Int) =
        hypot(event.x - downX, event.y - downY) > wander ||
            event.x < 0 || event.y < 0 || event.x >= width || event.y >= height

    companion object {
        /** How long a press lasts at least, in milliseconds. A brush lasts less; common practice, not a standard. */
        const val HOLD = 120L

        /** How long a page stands before it takes a press, in milliseconds. */
        const val SETTLE = 450L
    }
}
