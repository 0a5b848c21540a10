package slingseal.handheld.sense

import android.content.Context
import android.speech.tts.TextToSpeech
import java.util.Locale

/** Reads a page aloud, where the platform has a voice. A new page cuts the old one short. */
class Voice(context: Context, private val onFailure: () -> Unit) {
    private var ready = false
    private var failed = false
    private var waiting: String? = null
    /** The language of the words, which is the core's. */
    var language: Locale = Locale.getDefault()
        set(value) {
            field = value
            if (ready) ready = speaks(value)
        }

    private val engine: TextToSpeech = TextToSpeech(context.applicationContext) { status -> started(status) }

    /** What was said last, or would have been where there is no voice. */
    var last: String? = null
        private set

    private fun started(status: Int) {
        ready = status == TextToSpeech.SUCCESS && speaks(language)
        if (!ready) {
            failed = true
            if (waiting != null) onFailure()
            return
        }
        failed = false
        waiting?.let(::say)
        waiting = null
    }

    private fun speaks(language: Locale) =
        engine.setLanguage(language).let {
            it != TextToSpeech.LANG_MISSING_DATA && it != TextToSpeech.LANG_NOT_SUPPORTED
        }

    fun say(words: String) {
        last = words
        if (failed) return onFailure()
        if (ready) engine.speak(words, TextToSpeech.QUEUE_FLUSH, null, "page") else waiting = words
    }

    fun hush() {
        waiting = null
        if (ready) engine.stop()
    }

    fun close() = engine.shutdown()
}
