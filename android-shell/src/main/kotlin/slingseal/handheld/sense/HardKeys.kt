package slingseal.handheld.sense

import android.view.KeyEvent

/** What the keys at the edge of a phone and the button of a headset say. */
enum class HardAnswer { FIRST, SECOND, AGAIN }

/**
 * Volume up or one press of the headset's button gives the first answer, volume down or two presses the second;
 * a long press says the page again. An answer is given when the key comes up, after it was held for a moment,
 * and never for a press that began before the page had settled.
 */
class HardKeys(private val later: (Long, () -> Unit) -> Unit, private val answer: (HardAnswer) -> Unit) {
    private var downAt = 0L
    private var live = false
    private var clicks = 0
    private var round = 0

    /** Whether the key is one of ours; every other key keeps its meaning. */
    fun feed(event: KeyEvent, settledAt: Long): Boolean {
        val headset = event.keyCode == KeyEvent.KEYCODE_HEADSETHOOK || event.keyCode == KeyEvent.KEYCODE_MEDIA_PLAY_PAUSE
        val volume = event.keyCode == KeyEvent.KEYCODE_VOLUME_UP || event.keyCode == KeyEvent.KEYCODE_VOLUME_DOWN
        if (!headset && !volume) return false
        if (event.action == KeyEvent.ACTION_DOWN) {
            if (event.repeatCount == 0) {
                downAt = event.eventTime
                live = event.eventTime >= settledAt
            }
            return true
        }
        if (event.action != KeyEvent.ACTION_UP || !live) return true
        live = false
        val held = event.eventTime - downAt
        when {
            held >= LONG -> answer(HardAnswer.AGAIN)
            headset -> clicked()
            held < BRUSH -> {}
            event.keyCode == KeyEvent.KEYCODE_VOLUME_UP -> answer(HardAnswer.FIRST)
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
                answer(if (count >= 2) HardAnswer.SECOND else HardAnswer.FIRST)
            }
        }
    }

    companion object {
        const val BRUSH = 60L
        const val LONG = 900L
        const val TWICE = 400L
    }
}
