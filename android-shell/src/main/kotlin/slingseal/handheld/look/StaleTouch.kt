package slingseal.handheld.look

import android.view.MotionEvent

/**
 * Fingers that meet a page which is left already: what they do until all have left the glass counts nowhere.
 */
class StaleTouch {
    private var stale = false

    /**
     * Whether the event is swallowed.
     *
     * @param busy whether the page that is seen takes nothing
     * @param cancel ends what a finger had begun before
     */
    fun swallows(event: MotionEvent, busy: Boolean, cancel: (MotionEvent) -> Unit): Boolean {
        if (busy && !stale) {
            stale = true
            val end = MotionEvent.obtain(event).apply { action = MotionEvent.ACTION_CANCEL }
            cancel(end)
            end.recycle()
        } else if (!busy && event.actionMasked == MotionEvent.ACTION_DOWN) {
            stale = false
        }
        return stale
    }
}
