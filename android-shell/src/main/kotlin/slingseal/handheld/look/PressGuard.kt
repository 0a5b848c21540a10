package slingseal.handheld.look

import android.view.MotionEvent
import kotlin.math.hypot

/**
 * Tells a press that is meant from a brush of a sleeve and from a palm that rests: one pointer, down and up
 * on the same key, held for a moment and not for ever, without wandering; and never one that began before the
 * page had stood still for a while, so that a second press does not fall through to the next card.
 */
class PressGuard(
    private val wander: Float,
    /** The shortest hold that counts, in milliseconds. */
    val hold: Long = HOLD,
    /** The longest: what lies on the glass longer is no finger that presses. */
    val longest: Long = LONGEST,
) {
    private var downAt = 0L
    private var downX = 0f
    private var downY = 0f
    private var live = false

    enum class Step {
        NOTHING,
        BEGAN,
        PRESSED,
        CANCELLED,
    }

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
            MotionEvent.ACTION_POINTER_DOWN,
            MotionEvent.ACTION_CANCEL -> if (live) return cancel()
            MotionEvent.ACTION_UP ->
                if (live) {
                    val meant = event.eventTime - downAt in hold..longest && !wandered(event, width, height)
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
            event.x < 0 ||
            event.y < 0 ||
            event.x >= width ||
            event.y >= height

    companion object {
        /**
         * How long a press lasts at least, in milliseconds. A brush lasts less; common practice, not a
         * standard.
         */
        const val HOLD = 120L

        /** How long a press lasts at most, in milliseconds. Common practice. */
        const val LONGEST = 3000L

        /**
         * How long a key is held that says fit, in milliseconds: nobody says it in passing. Common practice.
         */
        const val GRAVE = 1000L

        /** How long a page stands before it takes a press, in milliseconds. */
        const val SETTLE = 450L
    }
}

/**
 * One finger at a time over the whole window. A second one anywhere is a palm: what the first had begun is
 * called off, and nothing counts until the glass is bare again.
 */
class OneFinger {
    private var deaf = false

    /**
     * What is to be handed on: the event itself, or a cancel in its stead (to be recycled by the caller), or
     * nothing.
     */
    fun sift(event: MotionEvent): MotionEvent? {
        when (event.actionMasked) {
            MotionEvent.ACTION_DOWN -> deaf = isPalm(event)
            MotionEvent.ACTION_POINTER_DOWN ->
                if (!deaf) {
                    deaf = true
                    return MotionEvent.obtain(event).apply { action = MotionEvent.ACTION_CANCEL }
                }
        }
        return event.takeIf { !deaf }
    }

    /** Some screens tell a palm by themselves (API 33). */
    private fun isPalm(event: MotionEvent) = event.getToolType(0) == TOOL_TYPE_PALM

    private companion object {
        /** `MotionEvent.TOOL_TYPE_PALM`, which is newer than the oldest Android that we serve. */
        const val TOOL_TYPE_PALM = 5
    }
}
