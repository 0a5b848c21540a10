package slingseal.handheld.screens

import android.view.TextureView
import android.view.ViewGroup
import android.widget.FrameLayout
import android.widget.TextView
import android.view.View
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer
import slingseal.core.HandheldException
import slingseal.core.MovingTaken
import slingseal.core.Reading
import slingseal.handheld.look.SignView
import slingseal.handheld.look.dp
import slingseal.handheld.words
import slingseal.handheld.sense.Blind
import slingseal.handheld.sense.Eye
import slingseal.handheld.sense.Luminance

/** Looks for a code through the camera; typing it is the way out where there is none. */
class ScanScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val purpose = Purpose.valueOf(place.args[0])
    private val other get() = place.args.getOrElse(1) { "" }
    private val preview = TextureView(context)
    private val eye = Eye(context, preview, ::onPicture, ::onBlind)
    private var state: TextView? = null
    @Volatile private var inFront = false
    private var lastFrame = ""
    private var refusedText: String? = null

    init {
        if (purpose == Purpose.MOVING) shell.core.movingListen()
    }

    override val staysOn get() = true
    override val spoken get() = text(purpose.guide)

    override fun build(): View {
        val said = parts.words(text(purpose.guide), 20, bold = true)
        said.accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
        state = said
        val window = FrameLayout(context).apply {
            setBackgroundColor(android.graphics.Color.BLACK)
            contentDescription = text(R.string.camera_picture)
            addView(preview, FrameLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.MATCH_PARENT))
            addView(SignView(context, Sign.CORNERS, palette.code.under), FrameLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.MATCH_PARENT))
        }
        val read = android.widget.LinearLayout(context).apply {
            orientation = android.widget.LinearLayout.VERTICAL
            noticePanel()?.let { addView(it) }
            addView(said)
            addView(window, android.widget.LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, 0, 1f).apply { topMargin = context.dp(10) })
        }
        val type = key(Face.SIDE, text(R.string.type_it), Sign.LIST) { shell.swap(Place(PageKind.TYPE, *place.args.toTypedArray())) }
        val torch = key(Face.SIDE, text(R.string.torch), Sign.TORCH) { eye.light(!eye.torch) }
        // nobody types the parts of a moving code
        return page(text(purpose.title), read, listOfNotNull(type.takeIf { purpose != Purpose.MOVING }, torch.takeIf { eye.hasTorch }), scrolls = false)
    }

    override fun shown() {
        inFront = true
        eye.start()
    }

    override fun hidden() {
        inFront = false
        eye.stop()
    }

    private fun onBlind(why: Blind) {
        val words = when (why) {
            Blind.NO_CAMERA -> R.string.no_camera
            Blind.NOT_ALLOWED -> R.string.camera_not_allowed
            Blind.TAKEN -> R.string.camera_taken
        }
        state?.text = text(words)
        if (why == Blind.NOT_ALLOWED) context.requestPermissions(arrayOf(android.Manifest.permission.CAMERA), 1)
    }

    /** Called with every picture that the camera gives, off the main thread. */
    fun onPicture(picture: Luminance) {
        val reading = shell.core.readFrame(picture.width.toUInt(), picture.height.toUInt(), picture.width.toUInt(), picture.bytes)
        when (reading) {
            is Reading.Ours -> if (purpose == Purpose.MOVING) frame(reading.text) else context.runOnUiThread { read(reading.text) }
            is Reading.Foreign -> context.runOnUiThread { if (inFront) state?.text = text(R.string.foreign_code) }
            is Reading.Nothing -> {}
        }
    }

    /** One frame of a moving code, still off the main thread: with the last one the core judges all that came. */
    private fun frame(part: String) {
        if (!inFront || part == lastFrame) return
        lastFrame = part
        val taken = try {
            shell.core.movingTake(part)
        } catch (e: HandheldException) {
            return context.runOnUiThread { if (inFront) state?.text = e.words }
        }
        context.runOnUiThread {
            if (!inFront) return@runOnUiThread
            when (taken) {
                is MovingTaken.More -> state?.text = text(R.string.move_progress, taken.taken.toInt(), taken.enough.toInt())
                is MovingTaken.Done -> {
                    shell.feel(Beat.GOOD)
                    shell.swap(MovedScreen.place(shell, taken.report))
                }
            }
        }
    }

    private fun read(text: String) {
        // a code that was refused stays before the camera: it is told once
        if (!inFront || text == refusedText) return
        if (!purpose.take(shell, text, other)) {
            refusedText = text
            state?.text = shell.notice
            shell.notice = null
        }
    }
}
