package slingseal.handheld.screens

import android.view.View
import slingseal.core.BundleReport
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
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
        val aside = place.aside.map { parts.signedPanel(Sign.CROSS, it) }
        return page(
            text(R.string.move),
            body(
                parts.signedPanel(Sign.TICK, place.sum, 21),
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
