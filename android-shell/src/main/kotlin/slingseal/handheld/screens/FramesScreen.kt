package slingseal.handheld.screens

import android.os.Handler
import android.os.Looper
import android.view.View
import slingseal.core.HandheldException
import slingseal.core.MovingOut
import slingseal.handheld.Core
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.words

/** Shows a moving code, frame after frame without an end: whoever reads it says when it is whole. */
abstract class FramesScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val hands = Handler(Looper.getMainLooper())
    private val step = Runnable { next() }
    private var code: CodeView? = null
    private var frame = 0
    private var showing = false

    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(R.string.move_words)

    private var out: MovingOut? = null
    private var first: slingseal.core.CodeView? = null

    override fun read() {
        out = prepare()
        first = out?.let { shell.attempt { shell.core.movingFrame(0u) } }
        super.read()
    }

    override fun build(): View {
        val out = out ?: return page(text(R.string.move), body())
        val first = first ?: return page(text(R.string.move), body())
        val view = codeView(shell, first, text(R.string.move_code))
        code = view
        val words = body(*about(out).toTypedArray())
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }
        return codePage(shell, onItsSide, view, underCode(words, done))
    }

    /** What the frames are of, readied in the core. */
    protected abstract fun prepare(): MovingOut?

    /** What is said beside the code. */
    protected open fun about(out: MovingOut): List<View> {
        val facts =
            parts.facts(
                listOf(
                    text(R.string.records) to out.records.toString(),
                    text(R.string.move_papers) to out.papers.toString(),
                    text(R.string.move_frames) to out.enough.toString(),
                ),
                18,
            )
        val left = out.leftOut.map { parts.signed(Sign.CROSS, parts.words(it, 17)) }
        return listOf(parts.words(text(R.string.move_words), 18, bold = true), parts.panel(facts)) +
            left +
            parts.words(text(R.string.move_no_photos), 16, quiet = true)
    }

    private fun next() {
        val view = code ?: return
        if (!showing) return
        frame += 1
        val (core, number) = shell.core to frame
        Core.quick.execute {
            val made =
                try {
                    core.movingFrame(number.toUInt())
                } catch (e: HandheldException) {
                    hands.post { if (showing) shell.refuse(e.words) }
                    return@execute
                }
            hands.post {
                if (!showing) return@post
                view.show(made.size.toInt(), dark(made))
                // one chain of frames, however often the page came and went meanwhile
                hands.removeCallbacks(step)
                hands.postDelayed(step, FRAME)
            }
        }
    }

    override fun shown() {
        if (showing) return
        showing = true
        hands.postDelayed(step, FRAME)
    }

    override fun hidden() {
        showing = false
        hands.removeCallbacks(step)
    }

    companion object {
        /**
         * How long one frame stands, in milliseconds: a camera of 30 pictures a second sees each of them
         * whole several times.
         */
        const val FRAME = 160L
    }
}
