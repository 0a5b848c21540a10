package slingseal.handheld

import android.view.KeyEvent
import android.view.MotionEvent
import slingseal.handheld.look.OneFinger
import slingseal.handheld.look.StaleTouch
import slingseal.handheld.sense.Ear
import slingseal.handheld.sense.HardAnswer
import slingseal.handheld.sense.HardKeys
import slingseal.handheld.sense.Touch

/**
 * What hands do: one finger on the glass, the keys at the edge and at the ear, a sticker that is touched. A
 * page that asks for none of them gets none, and none while something is awaited.
 */
internal class Hands(
    private val shell: Shell,
    private val front: () -> Screen?,
    private val settledAt: () -> Long,
) {
    private val oneFinger = OneFinger()
    private val staleTouch = StaleTouch()
    private val hardKeys =
        HardKeys({ millis, run -> shell.activity.window.decorView.postDelayed(run, millis) }, ::hard)
    private val touch = Touch(shell.activity) { sticker -> front()?.takeIf { it.touches }?.touched(sticker) }

    /** The button of a headset. */
    val ear = Ear(shell.activity) { hardKeys.feed(it, settledAt()) }

    /** Why no sticker can be touched; null where one can. */
    val untouched
        get() = touch.missing

    private val takesHardKeys
        get() = front()?.takesHardKeys == true && !Slow.shows && shell.hardKeysOn

    private val takesEarKeys
        get() = front()?.takesEarKeys == true && !Slow.shows && shell.hardKeysOn

    /** For the page that was drawn; a sticker's reader wants an activity that is in front. */
    fun dress(resumed: Boolean) {
        ear.listen(takesHardKeys || takesEarKeys)
        touch.listen(resumed && front()?.touches == true)
    }

    fun resume() = touch.listen(front()?.touches == true)

    fun pause() = touch.listen(false)

    fun close() = ear.listen(false)

    /** A touch of the glass; what counts goes on to the page by [pass]. */
    fun touched(event: MotionEvent, pass: (MotionEvent) -> Boolean): Boolean {
        val cancelled = { end: MotionEvent -> oneFinger.sift(end)?.let { pass(it) } }
        if (staleTouch.swallows(event, shell.busy) { cancelled(it) }) return true
        val sifted = oneFinger.sift(event) ?: return true
        return pass(sifted).also { if (sifted !== event) sifted.recycle() }
    }

    /** A key of the phone or of a headset; whether it was an answer. */
    fun keyed(event: KeyEvent): Boolean {
        val ours = takesHardKeys || takesEarKeys && event.keyCode in HardKeys.AT_THE_EAR
        return ours && hardKeys.feed(event, settledAt())
    }

    private fun hard(answer: HardAnswer) {
        if (!shell.busy && (takesHardKeys || takesEarKeys)) front()?.hard(answer)
    }
}
