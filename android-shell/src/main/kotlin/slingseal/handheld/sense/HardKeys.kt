package slingseal.handheld.sense

import android.view.KeyEvent

/** What the keys at the edge of a phone and the button of a headset say. */
enum class HardAnswer {
    /** Volume up, or one press at the ear. */
    FIRST,

    /** Volume down, or two presses. */
    SECOND,

    /**
     * Volume up held, or the button at the ear held: the page again, and where a number is counted, take it.
     */
    AGAIN,

    /** Volume down held, or three presses: take back, or go back. */
    BACK,
}

/**
 * Turns keys into answers. An answer is given when the key comes up, after it was held for longer than a
 * brush and not for ever, and never for a press that began before the page had settled.
 */
class HardKeys(private val later: (Long, () -> Unit) -> Unit, private val answer: (HardAnswer) -> Unit) {
    private var downAt = 0L
    private var downCode = 0
    private var live = false
    private var clicks = 0
    private var round = 0

    /** Whether the key is one of ours; every other key keeps its meaning. */
    fun feed(event: KeyEvent, settledAt: Long): Boolean {
        val code = event.keyCode
        if (code !in OURS) return false
        if (event.action == KeyEvent.ACTION_DOWN) {
            if (event.repeatCount == 0) {
                // both keys at once are a grip, and no answer
                live = event.eventTime >= settledAt && !(live && code != downCode)
                downAt = event.eventTime
                downCode = code
            }
            return true
        }
        if (event.action != KeyEvent.ACTION_UP || !live || code != downCode) return true
        live = false
        val held = event.eventTime - downAt
        val ear = code in AT_THE_EAR
        when {
            held > LONGEST -> {}
            code == KeyEvent.KEYCODE_MEDIA_NEXT -> answer(HardAnswer.SECOND)
            code == KeyEvent.KEYCODE_MEDIA_PREVIOUS -> answer(HardAnswer.BACK)
            held >= LONG ->
                answer(if (code == KeyEvent.KEYCODE_VOLUME_DOWN) HardAnswer.BACK else HardAnswer.AGAIN)
            ear -> clicked()
            held < BRUSH -> {}
            code == KeyEvent.KEYCODE_VOLUME_UP -> answer(HardAnswer.FIRST)
            else -> answer(HardAnswer.SECOND)
        }
        return true
    }

    private fun clicked() {
        clicks += 1
        val mine = ++round
        later(TWICE) {
            if (mine == round) {
                val count = clicks
                clicks = 0
                answer(
                    if (count == 1) HardAnswer.FIRST
                    else if (count == 2) HardAnswer.SECOND else HardAnswer.BACK
                )
            }
        }
    }

    companion object {
        /**
         * What lasts less is a brush, in milliseconds: a key at the edge is met in passing more easily than
         * the glass. Common practice.
         */
        const val BRUSH = 180L

        /** From here on a press is a long one. */
        const val LONG = 900L

        /** From here on something leans on the key. */
        const val LONGEST = 4000L

        /** How long the next press at the ear is waited for. */
        const val TWICE = 400L

        /** What the buttons of headsets send, by wire or by radio. */
        val AT_THE_EAR =
            setOf(
                KeyEvent.KEYCODE_HEADSETHOOK,
                KeyEvent.KEYCODE_MEDIA_PLAY_PAUSE,
                KeyEvent.KEYCODE_MEDIA_PLAY,
                KeyEvent.KEYCODE_MEDIA_PAUSE,
                KeyEvent.KEYCODE_MEDIA_NEXT,
                KeyEvent.KEYCODE_MEDIA_PREVIOUS,
            )
        private val OURS = AT_THE_EAR + setOf(KeyEvent.KEYCODE_VOLUME_UP, KeyEvent.KEYCODE_VOLUME_DOWN)
    }
}
