package slingseal.handheld.screens

import android.view.View
import slingseal.core.ClosePoint
import slingseal.core.CloseView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.sense.Beat

/**
 * What does not add up: each point with what is known and what to do, to be explained in a leader's words,
 * and then signed. It is worked out beside the main thread each time the page comes; what came of it stands
 * until then. (day or nothing)
 */
class CloseScreen(shell: Shell, override val place: Place.Close) : Screen(shell, place) {
    private val day
        get() = place.day

    /** What a result is kept under: in another language it is worked out again. */
    private val kept
        get() = "${slingseal.handheld.Core.language(context)} ${day.orEmpty()}"

    override val paneTitle: CharSequence
        get() = text(R.string.close)

    private var asked = false
    private val made = shell.attempt { shell.core.closings() }.orEmpty()

    override fun shown() {
        if (asked || shell.busy || last?.first == kept) return
        asked = true
        val core = shell.core
        val (of, under) = day to kept
        shell.work({ core.closeAccount(of) }) {
            last = under to it
            redrawSame()
        }
    }

    override fun build(): View {
        val view =
            last?.takeIf { it.first == kept }?.second
                ?: return page(text(R.string.close), body(), listOf(today()))
        val open = view.points.count { it.note == null }
        val facts =
            parts.facts(
                listOf(
                    text(R.string.close_loads) to
                        text(R.string.close_counts, view.loads.toInt(), view.inspections.toInt()),
                    text(R.string.close_ways) to
                        text(
                            R.string.close_moved,
                            view.lifted.toInt(),
                            view.setDown.toInt(),
                            view.lost.toInt(),
                        ),
                    text(R.string.close_unsigned) to view.unsigned.toString(),
                ),
                18,
            )
        val state =
            if (open == 0)
                parts.signed(
                    Sign.TICK,
                    parts.words(
                        text(if (view.points.isEmpty()) R.string.close_adds_up else R.string.close_explained),
                        21,
                        bold = true,
                    ),
                )
            else parts.signed(Sign.WARN, parts.words(text(R.string.close_open, open), 21, bold = true))
        val points = view.points.map(::point)
        return page(
            text(R.string.close),
            body(state, parts.column(*points.toTypedArray(), space = 14), parts.panel(facts), closings()),
            listOf(key(Face.GOOD, text(R.string.close_sign), Sign.KEY) { sign(view) }, today()),
        )
    }

    private fun today() =
        key(Face.SIDE, text(if (day == null) R.string.close_today else R.string.close_all), Sign.LIST) {
            changed()
            shell.swap(Place.Close(if (day == null) Zulu.today() else null))
        }

    private fun point(point: ClosePoint): View {
        val about =
            listOfNotNull(point.known, point.note?.let { text(R.string.close_said, it) } ?: point.toDo)
                .joinToString(" · ")
        return key(
            Face.ROW,
            "${point.title}: ${point.subject}",
            if (point.note == null) Sign.WARN else Sign.TICK,
            about,
        ) {
            shell.go(
                Place.ClosePoint(
                    point.id,
                    "${point.title}: ${point.subject}",
                    point.toDo,
                    point.note.orEmpty(),
                )
            )
        }
    }

    /** The statements that were signed or came in. */
    private fun closings(): View? {
        if (made.isEmpty()) return null
        return parts.column(
            parts.eyebrow(text(R.string.close_made)),
            *made
                .map { parts.words("${it.issued.dtg} · ${it.name} · ${it.by} · ${it.check}", 17) }
                .toTypedArray(),
            space = 6,
        )
    }

    private fun sign(view: CloseView) {
        if (view.explained) return shell.go(Place.ClosePin(day))
        shell.notice = text(R.string.close_explain_first)
        shell.feel(Beat.REFUSED)
        shell.redraw()
    }

    companion object {
        /** What was worked out last, and under what it is kept. */
        @Volatile private var last: Pair<String, CloseView>? = null

        /** Something was done: what was worked out is worked out anew. */
        fun changed() {
            last = null
        }

        fun open(shell: Shell, day: String?) {
            changed()
            shell.go(Place.Close(day))
        }
    }
}

/** What a leader says of an open point; nothing takes it back. (point, title, what to do, what was said) */
class ClosePointScreen(shell: Shell, override val place: Place.ClosePoint) : WritingScreen(shell, place) {
    override val title
        get() = place.title

    override val guide
        get() = text(R.string.close_point_guide, place.toDo)

    override val done
        get() = text(R.string.take_it)

    override val before
        get() = place.note

    override fun take(words: String) {
        val point = place.id
        shell.ask({ explain(point, words.trim()) }) {
            CloseScreen.changed()
            back()
        }
    }
}

/** The PIN that signs the closing. (day or nothing) */
class ClosePinScreen(shell: Shell, override val place: Place.ClosePin) : PinPage(shell, place) {
    override val title
        get() = text(R.string.close_sign)

    override val words
        get() = text(R.string.close_pin)

    override val done
        get() = text(R.string.sign_short)

    override fun take(pin: String) {
        val core = shell.core
        val day = place.day
        shell.work({ core.signClosing(day, pin) }) {
            feel(Beat.GOOD)
            CloseScreen.changed()
            backTo(Place.Board::class)
            go(Place.Closed(it.code?.text, it.statement.check))
        }
    }
}

/**
 * The closing as a code, where it fits one; it travels with every bundle all the same. (text or nothing,
 * check word)
 */
class ClosedScreen(shell: Shell, override val place: Place.Closed) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(if (place.text == null) R.string.closed_long else R.string.closed_words)

    private val code = place.text?.let { text -> shell.attempt { shell.core.codeOf(text) } }

    override fun build(): View {
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }
        val check = parts.panel(parts.facts(listOf(text(R.string.closed_check) to place.check), 24))
        val code =
            code
                ?: return page(
                    text(R.string.close),
                    body(parts.words(spoken, 20, bold = true), check),
                    listOf(done),
                )
        return codePage(
            shell,
            onItsSide,
            codeView(shell, code, text(R.string.closed_code)),
            underCode(body(parts.words(spoken, 19, bold = true), check), done),
        )
    }
}

/** A piece of gear is taken out of service: its number, why, the PIN; one page each. */
class WithdrawScreen(shell: Shell, override val place: Place.Withdraw) : WritingScreen(shell, place) {
    private val serial
        get() = place.serial

    override val title
        get() = text(R.string.withdraw)

    override val guide
        get() = serial?.let { text(R.string.withdraw_why, it) } ?: text(R.string.withdraw_serial)

    override val done
        get() = text(R.string.next)

    override fun take(words: String) {
        if (words.isNotBlank()) {
            val said = words.trim()
            return shell.swap(serial?.let { Place.WithdrawPin(it, said) } ?: Place.Withdraw(said))
        }
        shell.notice = text(R.string.nothing_typed)
        shell.redraw()
    }
}

class WithdrawPinScreen(shell: Shell, override val place: Place.WithdrawPin) : PinPage(shell, place) {
    override val title
        get() = text(R.string.withdraw)

    override val words
        get() = text(R.string.withdraw_pin, place.serial)

    override val done
        get() = text(R.string.sign_short)

    override fun take(pin: String) {
        val core = shell.core
        val (serial, why) = place
        shell.work({ core.withdrawPiece(serial, why, pin) }) {
            feel(Beat.GOOD)
            backTo(Place.Board::class)
            go(Place.Inspection(it.digest))
        }
    }
}
