package slingseal.handheld.sense

import android.content.Context
import android.speech.tts.TextToSpeech
import java.util.Locale

/** Reads a page aloud, where the platform has a voice. A new page cuts the old one short. */
class Voice(context: Context) {
    private var ready = false
    private var waiting: String? = null
    private val engine: TextToSpeech = TextToSpeech(context.applicationContext) { status -> started(status) }

    /** What was said last, or would have been where there is no voice. */
    var last: String? = null
        private set

    private fun started(status: Int) {
        ready = status == TextToSpeech.SUCCESS
        if (!ready) return
        engine.language = Locale.getDefault()
        waiting?.let(::say)
        waiting = null
    }

    fun say(words: String) {
        last = words
        if (ready) engine.speak(words, TextToSpeech.QUEUE_FLUSH, null, "page") else waiting = words
    }

    fun hush() {
        waiting = null
        if (ready) engine.stop()
    }

    fun close() = engine.shutdown()
}
