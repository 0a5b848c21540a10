package slingseal.handheld.sense

import android.content.Context
import android.content.Intent
import android.media.session.MediaSession
import android.media.session.PlaybackState
import android.os.Build
import android.view.KeyEvent
import slingseal.handheld.NewerAndroid

/**
 * The button of a headset. By wire it comes as a key; by radio the system hands it to the media session that
 * is active, so there is one while the keys are switched on and a page takes them.
 */
class Ear(private val context: Context, private val onKey: (KeyEvent) -> Boolean) {
    private var session: MediaSession? = null

    /** What the system hands over. */
    val callback =
        object : MediaSession.Callback() {
            override fun onMediaButtonEvent(intent: Intent): Boolean = keyOf(intent)?.let(onKey) ?: false
        }

    val listening
        get() = session != null

    fun listen(on: Boolean) {
        if (on == listening) return
        session =
            if (on) open()
            else {
                session?.release()
                null
            }
    }

    private fun open() =
        MediaSession(context, "slingseal").apply {
            setCallback(callback)
            setPlaybackState(
                PlaybackState.Builder()
                    .setActions(
                        PlaybackState.ACTION_PLAY_PAUSE or
                            PlaybackState.ACTION_SKIP_TO_NEXT or
                            PlaybackState.ACTION_SKIP_TO_PREVIOUS
                    )
                    .setState(PlaybackState.STATE_PLAYING, 0, 1f)
                    .build()
            )
            isActive = true
        }

    private fun keyOf(intent: Intent): KeyEvent? =
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.TIRAMISU) newer(intent) else older(intent)

    @NewerAndroid
    private fun newer(intent: Intent) =
        intent.getParcelableExtra(Intent.EXTRA_KEY_EVENT, KeyEvent::class.java)

    @Suppress("DEPRECATION")
    private fun older(intent: Intent): KeyEvent? = intent.getParcelableExtra(Intent.EXTRA_KEY_EVENT)
}
