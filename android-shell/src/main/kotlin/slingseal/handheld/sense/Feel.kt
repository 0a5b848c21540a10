package slingseal.handheld.sense

import android.content.Context
import android.media.AudioAttributes
import android.media.AudioManager
import android.media.ToneGenerator
import android.os.VibrationEffect
import android.os.Vibrator

/**
 * What the hand is to feel. Each pattern differs from every other in the number or the length of its beats.
 */
enum class Beat(private vararg val millis: Long, val tone: Int? = null) {
    /** One short beat: taken as good. */
    GOOD(0, 60),

    /** Two long beats: a deficiency is noted. */
    DEFICIENCY(0, 220, 140, 220),

    /** Four quick beats: refused, look at the screen. */
    REFUSED(0, 70, 60, 70, 60, 70, 60, 70),

    /** Short, long: taken back. */
    UNDONE(0, 60, 90, 160),

    /** A code was read. */
    READ(0, 40, 50, 40),
    GO(0, 700, tone = ToneGenerator.TONE_PROP_ACK),
    WAIT(0, 300, 200, 300, tone = ToneGenerator.TONE_PROP_BEEP2),
    NO_GO(0, 400, 120, 400, 120, 400, tone = ToneGenerator.TONE_SUP_ERROR);

    /** Wait and beat in turn, in milliseconds. */
    fun pattern(): LongArray = millis.copyOf()
}

/** Plays beats, and with the verdicts a sound. */
class Feel(context: Context) {
    private val vibrator = context.getSystemService(Context.VIBRATOR_SERVICE) as Vibrator?

    /** The last beat that was asked for. */
    var last: Beat? = null
        private set

    fun play(beat: Beat) {
        last = beat
        vibrator
            ?.takeIf { it.hasVibrator() }
            ?.vibrate(VibrationEffect.createWaveform(beat.pattern(), -1), MEANT)
        beat.tone?.let(::sound)
    }

    private fun sound(tone: Int) {
        try {
            val generator = ToneGenerator(AudioManager.STREAM_ALARM, ToneGenerator.MAX_VOLUME)
            generator.startTone(tone, TONE_MILLIS)
            android.os
                .Handler(android.os.Looper.getMainLooper())
                .postDelayed(generator::release, TONE_MILLIS + 100L)
        } catch (e: RuntimeException) {
            // a device with its audio taken by a call has no tone to give; the beat and the words remain
            android.util.Log.i("slingseal", "no tone: ${e.message}")
        }
    }

    private companion object {
        const val TONE_MILLIS = 600

        /** Felt and heard as an alarm is: a phone set to silence still says NO-GO. */
        val MEANT: AudioAttributes =
            AudioAttributes.Builder()
                .setUsage(AudioAttributes.USAGE_ALARM)
                .setContentType(AudioAttributes.CONTENT_TYPE_SONIFICATION)
                .build()
    }
}
