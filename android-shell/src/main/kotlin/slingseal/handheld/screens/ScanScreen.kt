package slingseal.handheld.screens

import android.view.View
import slingseal.core.CodeKind
import slingseal.core.HandheldException
import slingseal.core.MovingTaken
import slingseal.core.Reading
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.sense.Beat
import slingseal.handheld.words

/** Looks for a code through the camera; typing it is the way out where there is none. */
class ScanScreen(shell: Shell, override val place: Place.Scan) : LookingScreen(shell, place) {
    private val purpose = place.purpose
    private var lastFrame = ""
    private var refusedText: String? = null

    init {
        if (purpose == Purpose.Moving) shell.core.movingListen()
    }

    override val hidesBars
        get() = onItsSide

    override val paneTitle: CharSequence
        get() = text(purpose.title)

    override val spoken
        get() = text(purpose.guide)

    override fun build(): View {
        val said =
            parts.words(
                text(purpose.guide),
                20,
                bold = true,
                ground = if (onItsSide) palette.panel else palette.page,
            )
        said.accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE
        state = said
        val type = key(Face.SIDE, text(R.string.type_it), Sign.TYPE) { shell.swap(Place.Type(purpose)) }
        // nobody types the parts of a moving code
        val keys = listOfNotNull(type.takeIf { purpose != Purpose.Moving }, torchKey())
        if (onItsSide && blind == null) return bleeding(text(purpose.title), said, keys)
        return page(text(purpose.title), upright(said), keys, scrolls = false)
    }

    override fun onCodes(codes: List<Reading.Ours>) {
        val text = codes.first().text
        when {
            purpose == Purpose.Moving && codes.first().kind == CodeKind.MOVEMENT ->
                context.runOnUiThread { report(text) }
            purpose == Purpose.Moving -> frame(text)
            // a sticker holds the tag and what was reported beside it
            purpose == Purpose.Arrival && codes.size > 1 -> withReports(codes)
            else -> context.runOnUiThread { read(text) }
        }
    }

    /** A report goes by itself too, in one code. */
    private fun report(text: String) {
        if (!inFront || shell.busy || text == lastFrame) return
        lastFrame = text
        shell.ask({ receive(text) }) {
            state?.text = SetUpScreen.words(this, it)
            feel(Beat.GOOD)
        }
    }

    /** The reports are taken in where they are read, off the main thread; then the load is gone to. */
    private fun withReports(codes: List<Reading.Ours>) {
        if (!inFront) return
        val (loads, others) = codes.partition { it.kind == CodeKind.TAG || it.kind == CodeKind.SEAL }
        for (other in others) try {
            shell.core.receive(other.text)
        } catch (e: HandheldException) {
            // the load's own page is gone to all the same, and tells what is known of it
            android.util.Log.i("slingseal", "not taken in: ${e.message}")
        }
        (loads.firstOrNull() ?: others.firstOrNull())?.let { context.runOnUiThread { read(it.text) } }
    }

    /**
     * One frame of a moving code, still off the main thread: with the last one the core judges all that came.
     */
    private fun frame(part: String) {
        if (!inFront || part == lastFrame) return
        lastFrame = part
        val taken =
            try {
                shell.core.movingTake(part)
            } catch (e: HandheldException) {
                return context.runOnUiThread { if (inFront) state?.text = e.words }
            }
        context.runOnUiThread {
            if (!inFront) return@runOnUiThread
            when (taken) {
                is MovingTaken.More ->
                    state?.text = text(R.string.move_progress, taken.taken.toInt(), taken.enough.toInt())
                is MovingTaken.Done -> {
                    shell.feel(Beat.GOOD)
                    shell.swap(MovedScreen.place(shell, taken.report))
                }
            }
        }
    }

    private fun read(text: String) {
        // a code that was refused stays before the camera: it is told once
        if (!inFront || shell.busy || text == refusedText) return
        refusedText = text
        purpose.take(shell, text)
    }
}
