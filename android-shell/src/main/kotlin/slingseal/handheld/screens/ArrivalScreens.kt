package slingseal.handheld.screens

import android.view.View
import android.view.ViewGroup
import android.widget.LinearLayout
import android.widget.ScrollView
import slingseal.core.ArrivalPiece
import slingseal.core.ArrivalView
import slingseal.core.MovementKind
import slingseal.core.PieceReport
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.look.dp
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.sense.HardAnswer

/**
 * The receiving side: whoever takes a load down sees what it is and what was done to it, and says what became
 * of it, one press each. It needs no key, no credential and nothing known before. Its argument is the text of
 * the load's tag, or the load's number.
 */
class ArrivalScreen(shell: Shell, override val place: Place.Arrival) : Screen(shell, place) {
    private val arrival: ArrivalView? = shell.attempt { shell.core.arrival(place.of) }
    private var list: PickList? = null
    override val staysOn
        get() = true

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = arrival?.load ?: text(R.string.arrival)

    override val spoken
        get() = arrival?.let { listOf(it.load, it.stateTitle).filter(String::isNotEmpty).joinToString(": ") }

    override fun build(): View {
        val arrival = arrival ?: return page(text(R.string.arrival), body())
        val down = event(arrival, MovementKind.SET_DOWN, Face.GOOD)
        val off = event(arrival, MovementKind.DERIGGED, Face.SIDE)
        val more =
            key(Face.SIDE, text(R.string.gear_and_more), Sign.MORE) {
                shell.go(Place.What(Draft(arrival.load)))
            }
        list = PickList(listOf(down, off, more), shell)
        return page(arrival.load, contents(arrival), listOf(down, off, more))
    }

    private fun event(arrival: ArrivalView, event: MovementKind, face: Face): Key =
        key(face, text(Draft.keyOf(event)), Draft.signOf(event)) { Draft(arrival.load, event).give(shell) }

    private fun contents(arrival: ArrivalView): View {
        val ground = palette.panel
        val tag = arrival.tag
        val state =
            if (arrival.stateTitle.isEmpty() && !arrival.unsigned) null
            else
                parts.panel(
                    parts.column(
                        *listOfNotNull(
                                if (arrival.stateTitle.isEmpty()) null
                                else
                                    parts.words(
                                        arrival.stateTitle.replaceFirstChar(Char::uppercase),
                                        24,
                                        bold = true,
                                        ground = ground,
                                    ),
                                if (arrival.unsigned) parts.words(arrival.reported, 17, ground = ground)
                                else null,
                            )
                            .toTypedArray(),
                        space = 2,
                    ),
                    thick = true,
                )
        val facts =
            tag?.let {
                parts.panel(
                    parts.facts(
                        listOfNotNull(
                            text(R.string.mass) to it.gross,
                            text(R.string.to) to
                                listOfNotNull(it.destination.name, it.destination.grid).joinToString(" · "),
                            text(R.string.from) to
                                listOfNotNull(it.pickup.name, it.pickup.grid).joinToString(" · "),
                            text(R.string.aircraft) to it.aircraft,
                            it.rigger?.let { rigger -> text(R.string.rigger) to rigger },
                        ),
                        18,
                    )
                )
            }
        val gear = arrival.pieces.map { piece -> pieceName(piece) to text(stateOf(piece)) }
        return body(
            state,
            tag?.let { parts.words(it.description, 21, bold = true) }
                ?: parts.words(text(R.string.no_tag_here), 18),
            *storyOf(shell, arrival.reports).toTypedArray(),
            facts,
            if (gear.isEmpty()) null else parts.eyebrow(text(R.string.equipment)),
            if (gear.isEmpty()) null else parts.panel(parts.facts(gear, 18)),
            parts.words(text(R.string.manual_rules), 15, quiet = true),
        )
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit

    companion object {
        fun pieceName(piece: ArrivalPiece) =
            listOf(piece.kind, piece.serial).filter { it.isNotEmpty() }.joinToString(" ")

        fun stateOf(piece: ArrivalPiece): Int =
            when {
                piece.back && piece.damaged -> R.string.gear_back_damaged
                piece.back -> R.string.gear_back
                piece.damaged -> R.string.gear_damaged
                else -> R.string.gear_out
            }
    }
}

/**
 * The load's equipment, a piece a row with two keys: it goes back, it is damaged. What is marked goes with
 * the report that is given.
 */
class GearScreen(shell: Shell, override val place: Place.Gear) : Screen(shell, place) {
    private var draft = place.draft
    private var scroll: ScrollView? = null
    private var list: PickList? = null
    private val toggles = mutableListOf<Key>()
    private val pieces = shell.attempt { shell.core.arrival(draft.load) }?.pieces.orEmpty()
    override val staysOn
        get() = true

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.gear)

    override val spoken
        get() = text(R.string.gear_guide)

    private fun mark(serial: String) =
        draft.pieces.firstOrNull { it.serial == serial } ?: PieceReport(serial, false, false)

    override fun build(): View {
        if (pieces.isEmpty())
            return page(text(R.string.gear), body(parts.words(text(R.string.gear_none), 19)))
        val all =
            key(Face.ROW, text(R.string.gear_all_back), Sign.TICK) {
                marked(pieces.map { mark(it.serial).copy(back = true) })
            }
        toggles.clear()
        val rows = pieces.map(::row)
        val back = draft.pieces.any { it.back }
        val give =
            if (back) event(MovementKind.RETURNED, Face.GOOD) else event(MovementKind.SET_DOWN, Face.GOOD)
        val keys =
            if (draft.pieces.isEmpty()) emptyList()
            else listOfNotNull(give, event(MovementKind.DERIGGED, Face.SIDE))
        list = PickList(listOf(all) + toggles + keys, shell, list?.at ?: -1)
        val content = body(parts.words(text(R.string.gear_guide), 18), all, *rows.toTypedArray(), space = 16)
        return page(text(R.string.gear), content, keys).also { scroll = content.parent as? ScrollView }
    }

    private fun event(event: MovementKind, face: Face) =
        key(face, text(Draft.keyOf(event)), Draft.signOf(event)) { draft.copy(event = event).give(shell) }

    private fun row(piece: ArrivalPiece): View {
        val mark = mark(piece.serial)
        val name = ArrivalScreen.pieceName(piece)
        val known =
            if (piece.back || piece.damaged) parts.words(text(ArrivalScreen.stateOf(piece)), 16, quiet = true)
            else null
        val goes =
            toggle(name, R.string.gear_back, Sign.GEAR, mark.back) {
                marked(listOf(mark.copy(back = !mark.back)))
            }
        val bad =
            toggle(name, R.string.gear_damaged, Sign.CROSS, mark.damaged) {
                marked(listOf(mark.copy(damaged = !mark.damaged)))
            }
        val pair =
            LinearLayout(context).apply {
                addView(goes, LinearLayout.LayoutParams(0, dp(HIGH), 1f))
                addView(bad, LinearLayout.LayoutParams(0, dp(HIGH), 1f).apply { marginStart = dp(20) })
            }
        return parts
            .column(*listOfNotNull(parts.words(name, 19, bold = true), known, pair).toTypedArray(), space = 4)
            .apply {
                layoutParams =
                    ViewGroup.LayoutParams(
                        ViewGroup.LayoutParams.MATCH_PARENT,
                        ViewGroup.LayoutParams.WRAP_CONTENT,
                    )
            }
    }

    private fun toggle(name: String, word: Int, sign: Sign, on: Boolean, press: () -> Unit): Key =
        key(Face.SIDE, text(word), if (on) Sign.TICK else sign, press = press).apply {
            chosen = on
            contentDescription = "$name: ${text(word)}"
            toggles += this
        }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit

    private fun marked(marks: List<PieceReport>) {
        val others = draft.pieces.filter { known -> marks.none { it.serial == known.serial } }
        val all = (others + marks.filter { it.back || it.damaged }).sortedBy { it.serial }
        draft = draft.copy(pieces = all)
        shell.keep(Place.Gear(draft))
        // the row that was pressed stays under the finger
        val at = scroll?.scrollY ?: 0
        shell.redrawSame()
        scroll?.let { it.post { it.scrollTo(0, at) } }
    }

    private companion object {
        /** How high the two keys of a piece stand, in dp. */
        const val HIGH = 96
    }
}
