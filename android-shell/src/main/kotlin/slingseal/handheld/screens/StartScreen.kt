package slingseal.handheld.screens

import android.view.View
import slingseal.core.StartView
import slingseal.core.WalkLine
import slingseal.handheld.Core
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign

/** The first page: the load in hand, large; three doors; everything else behind one key. */
class StartScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override fun build(): View {
        val start = shell.attempt { shell.core.start() } ?: return page(text(R.string.app_name), body(), back = false)
        val inspect = key(Face.GOOD, text(R.string.inspect_load), Sign.CODE) { shell.go(Place(PageKind.SCAN, Purpose.INSPECT.name)) }
        val hook = key(Face.SIDE, text(R.string.hook_check), Sign.HOOK) { shell.go(Place(PageKind.HOOK)) }
        val other = key(Face.SIDE, text(R.string.more), Sign.MORE) { shell.go(Place(PageKind.ELSE)) }
        return page(null, contents(start), listOf(inspect, hook, other), back = false)
    }

    private fun contents(start: StartView): View {
        val notices = start.notices.map(::warning)
        // the newest first: it is the one that the hand left
        val hand = start.inHand.sortedByDescending { it.updated.unix }
        val loads = hand.mapIndexed { at, line -> if (at == 0) inHand(line) else row(line) }
        val run = shell.openRuns().firstOrNull()?.let { open ->
            key(Face.ROW, open.student, Sign.EYE, text(R.string.exam_goes_on, open.load)) { shell.go(Place(PageKind.EXAMS)) }
        }
        val setUp = shell.attempt { shell.core.setUp() }?.takeIf { !it.ready }
        return body(
            parts.column(parts.heading(text(R.string.app_name), 30), parts.words(start.holder ?: text(R.string.no_holder), 18, quiet = true), space = 0),
            *notices.toTypedArray(),
            if (Core.keyLost) warning(text(R.string.key_lost)) else null,
            if (loads.isEmpty()) parts.words(text(R.string.nothing_in_hand), 20) else parts.column(*loads.toTypedArray(), space = 16),
            run,
            setUp?.let { key(Face.ROW, text(R.string.set_up), Sign.WARN, it.next) { shell.go(Place(PageKind.SET_UP)) } },
        )
    }

    private fun warning(words: String) = parts.panel(parts.signed(Sign.WARN, parts.words(words, 18, bold = true, ground = palette.panel), palette.panel), thick = true)

    private fun state(line: WalkLine) = when (line.state) {
        "paused" -> text(R.string.state_paused)
        "decided" -> text(R.string.state_decided)
        else -> text(R.string.state_walking)
    }

    /** The load in hand: its number as large as the page allows. */
    private fun inHand(line: WalkLine): View = Key(context, palette, Face.LOAD, line.load, Sign.NEXT, "${text(R.string.in_hand)} · ${state(line)} · ${line.updated.dtg}") {
        shell.go(Place(PageKind.WALK, line.walk))
    }

    private fun row(line: WalkLine): View = key(Face.ROW, line.load, Sign.NEXT, "${state(line)} · ${line.updated.dtg}") { shell.go(Place(PageKind.WALK, line.walk)) }
}

/** Everything that is not the next load. */
class ElseScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence get() = text(R.string.more)

    override fun build(): View {
        val start = shell.attempt { shell.core.start() }
        val doors = listOf(
            key(Face.ROW, text(R.string.arrival), Sign.DOWN, text(R.string.arrival_about)) { shell.go(Place(PageKind.SCAN, Purpose.ARRIVAL.name)) },
            key(Face.ROW, text(R.string.records), Sign.LIST, text(R.string.records_count, start?.records?.toInt() ?: 0)) { shell.go(Place(PageKind.RECORDS)) },
            key(Face.ROW, text(R.string.move), Sign.SPREAD, text(R.string.move_about)) { shell.go(Place(PageKind.MOVE)) },
            key(Face.ROW, text(R.string.plan), Sign.PLUS, text(R.string.plan_about)) { shell.go(Place(PageKind.PLAN)) },
            key(Face.ROW, text(R.string.subjects), Sign.LIST, text(R.string.subjects_about)) { shell.go(Place(PageKind.SUBJECTS)) },
            key(Face.ROW, text(R.string.procedures), Sign.LIST, text(R.string.procedures_about)) { shell.go(Place(PageKind.PROCEDURES)) },
            key(Face.ROW, text(R.string.set_up), Sign.KEY, text(R.string.set_up_about)) { shell.go(Place(PageKind.SET_UP)) },
            key(Face.ROW, text(R.string.exams), Sign.EYE, exams()) { shell.go(Place(PageKind.EXAMS)) },
            key(Face.ROW, text(R.string.settings), Sign.SUN, text(R.string.settings_about)) { shell.go(Place(PageKind.SETTINGS)) },
        )
        return page(text(R.string.more), body(parts.column(*doors.toTypedArray(), space = 18), parts.words(text(R.string.manual_rules), 15, quiet = true)))
    }

    private fun exams() = shell.openRuns().firstOrNull()?.let { "${it.student}: ${text(R.string.exam_goes_on, it.load)}" } ?: text(R.string.exams_about)
}
