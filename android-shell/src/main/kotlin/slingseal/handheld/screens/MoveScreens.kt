package slingseal.handheld.screens

import android.os.Handler
import android.os.Looper
import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import slingseal.core.BundleReport
import slingseal.core.HandheldException
import slingseal.core.MovingOut
import slingseal.handheld.Core
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.CodeView
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.words

/** Records go from phone to phone by a moving code: no cable, no network. */
class MoveScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override fun build(): View =
        page(
            text(R.string.move),
            body(
                parts.words(text(R.string.move_intro), 18),
                parts.column(
                    key(Face.ROW, text(R.string.move_out), Sign.SHOW, text(R.string.move_out_about)) {
                        MoveOutScreen.ready(shell, null) { go(it) }
                    },
                    key(Face.ROW, text(R.string.move_gather), Sign.CODE, text(R.string.move_gather_about)) {
                        shell.go(Place.Scan(Purpose.Moving))
                    },
                    key(Face.ROW, text(R.string.bundle_title), Sign.FILE, text(R.string.bundle_out_about)) {
                        shell.go(Place.Files)
                    },
                    space = 20,
                ),
                parts.eyebrow(text(R.string.move_less)),
                parts.words(text(R.string.move_less_words), 17),
                parts.column(
                    key(Face.ROW, text(R.string.move_have), Sign.LIST, text(R.string.move_have_about)) {
                        shell.go(Place.Have)
                    },
                    key(Face.ROW, text(R.string.move_ask), Sign.CODE, text(R.string.move_ask_about)) {
                        shell.go(Place.Scan(Purpose.Have))
                    },
                    space = 20,
                ),
            ),
        )
}

/** A code beside or above its words, as large as the room allows. */
internal fun Screen.codePage(shell: Shell, onItsSide: Boolean, code: View, read: View): View =
    LinearLayout(shell.activity).apply {
        val fill = ViewGroup.LayoutParams.MATCH_PARENT
        val wrap = ViewGroup.LayoutParams.WRAP_CONTENT
        orientation = if (onItsSide) LinearLayout.HORIZONTAL else LinearLayout.VERTICAL
        addView(
            code,
            if (onItsSide) LinearLayout.LayoutParams(wrap, fill) else LinearLayout.LayoutParams(fill, wrap),
        )
        addView(
            read,
            if (onItsSide) LinearLayout.LayoutParams(0, fill, 1f) else LinearLayout.LayoutParams(fill, 0, 1f),
        )
    }

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

/** Everything that is here, as frames. */
class MoveOutScreen(shell: Shell, override val place: Place.MoveOut) : FramesScreen(shell, place) {
    /** It was readied before this page came, and its numbers stand in the place. */
    override fun prepare() = place.out

    companion object {
        /**
         * Readies everything that is here, less what a have code names, beside the main thread; then gives
         * the page that shows it.
         */
        fun ready(shell: Shell, have: String?, done: Shell.(Place) -> Unit) {
            val core = shell.core
            shell.work({ core.movingBegin(have) }) { done(Place.MoveOut(it)) }
        }
    }
}

/** What is here already, as a code. */
class HaveScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    private val have = shell.attempt { shell.core.haveCode() }

    override fun build(): View {
        val have = have ?: return page(text(R.string.move_have), body())
        val code = codeView(shell, have, text(R.string.move_have))
        return codePage(
            shell,
            onItsSide,
            code,
            page(text(R.string.move_have), body(parts.words(text(R.string.move_have_words), 18))),
        )
    }
}

/** What came in: the sum, then what was set aside. */
class MovedScreen(shell: Shell, override val place: Place.Moved) : Screen(shell, place) {
    override val spoken
        get() = place.sum

    override fun build(): View {
        val aside =
            place.aside.map {
                parts.panel(
                    parts.signed(
                        Sign.CROSS,
                        parts.words(it, 18, bold = true, ground = palette.panel),
                        palette.panel,
                    ),
                    thick = true,
                )
            }
        return page(
            text(R.string.move),
            body(
                parts.panel(
                    parts.signed(
                        Sign.TICK,
                        parts.words(place.sum, 21, bold = true, ground = palette.panel),
                        palette.panel,
                    ),
                    thick = true,
                ),
                if (aside.isEmpty()) parts.words(text(R.string.move_nothing_aside), 18)
                else parts.eyebrow(text(R.string.move_aside)),
                *aside.toTypedArray(),
            ),
            listOf(
                key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(Place.Start::class) },
                key(Face.SIDE, text(R.string.records), Sign.LIST) { shell.swap(Place.Records()) },
            ),
            back = false,
        )
    }

    companion object {
        fun place(shell: Shell, report: BundleReport): Place {
            val sum =
                shell.activity.getString(
                    R.string.move_gathered,
                    report.new.toInt(),
                    report.completed.toInt(),
                    report.known.toInt(),
                    report.papers.toInt(),
                    report.movements.toInt(),
                )
            val lists = report.procedures.map { came(shell, it) }
            val aside = report.setAside.map { "${it.kind}, ${it.place}: ${it.reason}" } + report.warnings
            return Place.Moved((listOf(sum) + lists).joinToString("\n"), aside)
        }
    }
}
