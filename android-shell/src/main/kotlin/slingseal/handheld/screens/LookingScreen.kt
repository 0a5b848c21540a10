package slingseal.handheld.screens

import android.Manifest
import android.content.Intent
import android.graphics.ColorMatrixColorFilter
import android.graphics.Paint
import android.net.Uri
import android.provider.Settings
import android.view.TextureView
import android.view.View
import android.view.ViewGroup
import android.widget.FrameLayout
import android.widget.LinearLayout
import android.widget.TextView
import java.io.IOException
import slingseal.core.CodeKind
import slingseal.core.HandheldException
import slingseal.core.Reading
import slingseal.core.StickerReading
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.look.SignView
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.Blind
import slingseal.handheld.sense.Eye
import slingseal.handheld.sense.Luminance
import slingseal.handheld.sense.Sticker
import slingseal.handheld.words

/** The code of the question for the camera. */
private const val ASK_CAMERA = 1

/**
 * A page that looks through the camera: the window, the torch, and what is said where nothing can be seen.
 */
abstract class LookingScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val preview by lazy { TextureView(context) }
    protected val eye by lazy { Eye(context, preview, ::onPicture, photo(), ::onBlind) }
    protected var state: TextView? = null
    @Volatile protected var inFront = false

    /** Why nothing can be seen; null while something can, or is not known to be. */
    protected var blind: Blind? = null
        private set

    override val staysOn
        get() = true

    /** What takes a photograph, on a page that takes one. */
    protected open fun photo(): ((ByteArray) -> Unit)? = null

    /** Texts that are known already: of two codes in one frame, the other is read. */
    protected open val known: List<String>
        get() = emptyList()

    override val touches
        get() = looks

    /** One touch is as good as a look: what a sticker holds goes where a code's text goes. */
    override fun touched(sticker: Sticker?) {
        val read =
            try {
                sticker?.let { shell.core.readSticker(it.read()) } ?: StickerReading.Foreign
            } catch (e: IOException) {
                return say(R.string.sticker_lost)
            }
        when (read) {
            is StickerReading.Ours -> {
                val codes =
                    listOfNotNull(
                        read.tag?.let { Reading.Ours(CodeKind.TAG, it) },
                        read.seal?.let { Reading.Ours(CodeKind.SEAL, it) },
                    ) + read.others.map { Reading.Ours(it.kind, it.text) }
                if (codes.isNotEmpty()) onCodes(codes)
            }
            is StickerReading.Empty -> say(R.string.sticker_empty)
            is StickerReading.Foreign -> say(R.string.sticker_empty)
            is StickerReading.Damaged -> say(R.string.sticker_differs)
            is StickerReading.Newer -> say(R.string.sticker_newer)
        }
    }

    private fun say(id: Int) =
        context.runOnUiThread {
            state?.text = text(id)
            shell.feel(Beat.REFUSED)
            if (shell.speaks) shell.say(text(id))
        }

    /** How many codes of one frame are read. */
    protected open val codesInAFrame
        get() = 1

    /** What one frame held of ours, off the main thread; never empty. */
    protected abstract fun onCodes(codes: List<Reading.Ours>)

    /** Said beside the camera, which goes on. */
    override fun refused(words: String) {
        val line = state ?: return super.refused(words)
        line.text = words
        if (shell.speaks) shell.say(words)
    }

    /** The camera's picture with corners to aim by; where there is none, why, and the way out. */
    protected fun window(): View {
        (preview.parent as? ViewGroup)?.removeView(preview)
        // at night the picture is dark and red like the page
        if (!palette.lightPage)
            preview.setLayerPaint(Paint().apply { colorFilter = ColorMatrixColorFilter(NIGHT) })
        val why =
            blind
                ?: return FrameLayout(context).apply {
                    setBackgroundColor(android.graphics.Color.BLACK)
                    contentDescription = text(R.string.camera_picture)
                    addView(preview, fill())
                    addView(SignView(context, Sign.CORNERS, palette.code.under), fill())
                }
        val settings =
            key(Face.ROW, text(R.string.open_settings), Sign.SUN) { openSettings() }
                .takeIf { why == Blind.NOT_ALLOWED }
        val again =
            key(Face.ROW, text(R.string.try_again), Sign.AGAIN) { again() }
                .takeIf { why == Blind.TAKEN || why == Blind.BROKEN }
        val words =
            parts.signed(
                Sign.WARN,
                parts.words(text(wordsOf(why)), 19, bold = true, ground = palette.panel),
                palette.panel,
            )
        return parts.scroll(
            parts.panel(
                parts.column(*listOfNotNull(words, settings, again).toTypedArray(), space = 12),
                thick = true,
            )
        )
    }

    private fun fill() =
        FrameLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.MATCH_PARENT)

    protected fun torchKey(): Key? =
        key(Face.SIDE, text(R.string.torch), Sign.TORCH) { eye.light(!eye.torch) }
            .takeIf { blind == null && eye.hasTorch }

    private fun wordsOf(why: Blind): Int =
        when (why) {
            Blind.NO_CAMERA -> R.string.no_camera
            Blind.NOT_ALLOWED -> R.string.camera_not_allowed
            Blind.TAKEN -> R.string.camera_taken
            Blind.BROKEN -> R.string.camera_broken
        }

    private fun openSettings() {
        context.startActivity(
            Intent(
                Settings.ACTION_APPLICATION_DETAILS_SETTINGS,
                Uri.fromParts("package", context.packageName, null),
            )
        )
    }

    private fun again() {
        blind = null
        shell.redrawSame()
        if (inFront && looks) eye.start()
    }

    /** Whether the camera is wanted as the page stands. */
    open val looks
        get() = true

    override fun shown() {
        inFront = true
        // back from the settings it may be allowed
        if (
            blind == Blind.NOT_ALLOWED &&
                context.checkSelfPermission(Manifest.permission.CAMERA) ==
                    android.content.pm.PackageManager.PERMISSION_GRANTED
        ) {
            blind = null
            shell.redrawSame()
        }
        if (looks) eye.start()
    }

    override fun hidden() {
        inFront = false
        eye.stop()
    }

    /** The camera is asked for once; after that the page shows the way to the settings. */
    private fun onBlind(why: Blind) {
        if (why == Blind.NOT_ALLOWED && Core.choice(Core.ASKED).isEmpty()) {
            shell.choose(Core.ASKED, "yes")
            context.requestPermissions(arrayOf(Manifest.permission.CAMERA), ASK_CAMERA)
        }
        if (blind == why) return
        blind = why
        shell.redrawSame()
        if (shell.speaks) shell.say(text(wordsOf(why)))
    }

    /** Called with every picture that the camera gives, off the main thread. */
    fun onPicture(picture: Luminance) {
        if (!inFront) return
        val codes = mutableListOf<Reading.Ours>()
        while (codes.size < codesInAFrame) {
            val passed = known + codes.map { it.text }
            val reading =
                try {
                    shell.core.readFrameBeside(
                        picture.width.toUInt(),
                        picture.height.toUInt(),
                        picture.width.toUInt(),
                        picture.bytes,
                        passed,
                    )
                } catch (e: HandheldException) {
                    return context.runOnUiThread { if (inFront) state?.text = e.words }
                }
            if (reading is Reading.Foreign && codes.isEmpty())
                context.runOnUiThread { if (inFront) state?.text = text(R.string.foreign_code) }
            codes += reading as? Reading.Ours ?: break
        }
        if (codes.isNotEmpty()) onCodes(codes)
    }

    /** The words over the picture, on a phone that is held upright. */
    protected fun upright(said: View): View =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            noticePanel()?.let { addView(it) }
            addView(said)
            addView(
                window(),
                LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f).apply {
                    topMargin = context.dp(10)
                },
            )
        }

    /** A camera's page on its side: the picture from edge to edge, words and keys laid on it. */
    protected fun bleeding(title: CharSequence, said: View, keys: List<Key>): View =
        FrameLayout(context).apply {
            addView(window(), fill())
            val edge = dp(10)
            addView(
                backKey(),
                FrameLayout.LayoutParams(
                        dp(84),
                        dp(84),
                        android.view.Gravity.TOP or android.view.Gravity.START,
                    )
                    .apply { setMargins(edge, edge, 0, 0) },
            )
            val words =
                parts.panel(
                    parts.scroll(
                        parts.column(
                            *listOfNotNull(noticePanel(), parts.heading(title, 20, palette.panel), said)
                                .toTypedArray(),
                            space = 2,
                        )
                    )
                )
            addView(
                words,
                FrameLayout.LayoutParams(
                        dp(330),
                        dp(126),
                        android.view.Gravity.BOTTOM or android.view.Gravity.START,
                    )
                    .apply { setMargins(edge, 0, 0, edge) },
            )
            val column =
                LinearLayout(context).apply {
                    orientation = LinearLayout.VERTICAL
                    for ((at, key) in keys.asReversed().withIndex()) {
                        addView(
                            key,
                            LinearLayout.LayoutParams(dp(150), 0, 1f).apply { if (at > 0) topMargin = dp(24) },
                        )
                    }
                }
            if (keys.isNotEmpty()) {
                addView(
                    column,
                    FrameLayout.LayoutParams(
                            ViewGroup.LayoutParams.WRAP_CONTENT,
                            ViewGroup.LayoutParams.MATCH_PARENT,
                            android.view.Gravity.END,
                        )
                        .apply { setMargins(0, edge, edge, edge) },
                )
            }
        }

    protected companion object {
        /** A picture's brightness, a third of it, as the night's red. */
        private val NIGHT =
            floatArrayOf(
                0.2f,
                0.2f,
                0.1f,
                0f,
                0f,
                0.08f,
                0.08f,
                0.04f,
                0f,
                0f,
                0.03f,
                0.03f,
                0.02f,
                0f,
                0f,
                0f,
                0f,
                0f,
                1f,
                0f,
            )
    }
}
