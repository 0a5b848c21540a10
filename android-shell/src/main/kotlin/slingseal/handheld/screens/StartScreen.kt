package slingseal.handheld.screens

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
import slingseal.core.StartView
import slingseal.core.WalkLine

/** The first page: what can be done, what is in hand, what is pending. */
class StartScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override fun build(): View {
        val start = shell.attempt { shell.core.start() } ?: return page(text(R.string.app_name), body(), back = false)
        val inspect = key(Face.GOOD, text(R.string.inspect_load), Sign.CODE) { shell.go(Place(PageKind.SCAN, Purpose.INSPECT.name)) }
        val hook = key(Face.SIDE, text(R.string.hook_check), Sign.HOOK) { shell.go(Place(PageKind.HOOK)) }
        return page(null, contents(start), listOf(inspect, hook), back = false)
    }

    private fun contents(start: StartView): View {
        val head = parts.column(
            parts.heading(text(R.string.app_name), 30),
            parts.words(start.holder ?: text(R.string.no_holder), 18, quiet = true),
            space = 0,
        )
        val notices = start.notices.map { parts.panel(parts.signed(Sign.CROSS, parts.words(it, 18, bold = true, ground = palette.panel), palette.panel), thick = true) }
        val hand = if (start.inHand.isEmpty()) {
            listOf(parts.words(text(R.string.nothing_in_hand), 18))
        } else {
            start.inHand.map(::row)
        }
        val ready = start.setUp.let { parts.panel(parts.column(parts.words(text(R.string.set_up), 15, quiet = true, ground = palette.panel), parts.words(it, 18, bold = true, ground = palette.panel), space = 2)) }
        val doors = listOf(
            key(Face.ROW, text(R.string.records), Sign.LIST, text(R.string.records_count, start.records.toInt())) { shell.go(Place(PageKind.RECORDS)) },
            key(Face.ROW, text(R.string.move), Sign.SPREAD, text(R.string.move_about)) { shell.go(Place(PageKind.MOVE)) },
            key(Face.ROW, text(R.string.set_up), Sign.KEY, text(R.string.set_up_about)) { shell.go(Place(PageKind.SET_UP)) },
            key(Face.ROW, text(R.string.exams), Sign.EYE, exams()) { shell.go(Place(PageKind.EXAMS)) },
            key(Face.ROW, text(R.string.settings), Sign.SUN, text(R.string.settings_about)) { shell.go(Place(PageKind.SETTINGS)) },
        )
        return body(
            head,
            *notices.toTypedArray(),
            parts.eyebrow(text(R.string.in_hand)),
            parts.column(*hand.toTypedArray(), space = 16),
            ready,
            parts.column(*doors.toTypedArray(), space = 16),
            parts.words(text(R.string.manual_rules), 15, quiet = true),
        )
    }

    private fun exams() = shell.openRuns().firstOrNull()?.let { "${it.student}: ${text(R.string.exam_goes_on, it.load)}" } ?: text(R.string.exams_about)

    private fun row(line: WalkLine): View {
        val state = when (line.state) {
            "paused" -> text(R.string.state_paused)
            "decided" -> text(R.string.state_decided)
            else -> text(R.string.state_walking)
        }
        return key(Face.ROW, line.load, Sign.EYE, "$state · ${line.updated.dtg}") { shell.go(Place(PageKind.WALK, line.walk)) }
    }
}
