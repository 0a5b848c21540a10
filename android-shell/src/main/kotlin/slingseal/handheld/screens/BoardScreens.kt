package slingseal.handheld.screens

import android.view.View
import slingseal.core.BoardLoad
import slingseal.core.LoadView
import slingseal.core.MovementKind
import slingseal.core.RecordState
import slingseal.core.ZoneColumn
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose

/** What stands on the zone, one state under the other; what somebody must look into comes first. */
class BoardScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.board)

    private val board = shell.attempt { shell.core.board(MOST.toUInt()) }
    private val soon = shell.attempt { shell.core.runningOut() }.orEmpty()

    override fun build(): View {
        val board = board ?: return page(text(R.string.board), body())
        val notices =
            (board.notices + soon).distinct().map {
                parts.signed(
                    Sign.WARN,
                    parts.words(it, 17, bold = true, ground = palette.panel),
                    palette.panel,
                )
            }
        val columns = board.columns.filter { it.count > 0u }.sortedByDescending { it.aside }
        return page(
            text(R.string.board),
            body(
                if (notices.isEmpty()) null
                else parts.panel(parts.column(*notices.toTypedArray(), space = 8), thick = true),
                if (columns.isEmpty()) parts.words(text(R.string.board_none), 20) else null,
                *columns.flatMap(::column).toTypedArray(),
                key(Face.ROW, text(R.string.withdraw), Sign.GEAR, text(R.string.withdraw_about)) {
                    shell.go(Place.Withdraw())
                },
                key(Face.ROW, text(R.string.move), Sign.SPREAD, text(R.string.board_move_about)) {
                    shell.go(Place.Move)
                },
            ),
            listOf(
                key(Face.GOOD, text(R.string.closing), Sign.TICK) { CloseScreen.open(shell, null) },
                key(Face.SIDE, text(R.string.board_find), Sign.CODE) { shell.go(Place.Scan(Purpose.Story)) },
            ),
        )
    }

    private fun column(column: ZoneColumn): List<View> {
        val title =
            parts.heading(
                text(
                    R.string.board_column,
                    column.title.replaceFirstChar(Char::uppercase),
                    column.count.toInt(),
                ),
                21,
            )
        val more = column.count.toInt() - column.loads.size
        val rest = if (more > 0) parts.words(text(R.string.board_more, more), 16, quiet = true) else null
        return listOfNotNull(
            if (column.aside) parts.signed(Sign.WARN, title) else title,
            parts.column(*column.loads.map(::row).toTypedArray(), space = 12),
            rest,
        )
    }

    private fun row(load: BoardLoad): View {
        val about =
            listOf(load.detail, load.description, load.reported)
                .filter(String::isNotEmpty)
                .joinToString(" · ")
        return key(Face.ROW, load.load, if (load.soon) Sign.WARN else Sign.NEXT, about) {
            shell.go(Place.Story(load.load))
        }
    }

    private companion object {
        /** So many loads of a state are listed; the rest are found by their number or tag. */
        const val MOST = 20
    }
}

/** Everything that is known of a load, the first first, and what a leader does about it. (load) */
class StoryScreen(shell: Shell, override val place: Place.Story) : Screen(shell, place) {
    private val story: LoadView? = shell.attempt { shell.core.load(place.load) }
    override val paneTitle: CharSequence
        get() = place.load

    override val spoken
        get() = story?.let { "${it.load}: ${it.stateTitle}" }

    override fun build(): View {
        val story = story ?: return page(place.load, body())
        val ground = palette.panel
        val state =
            parts.panel(
                parts.column(
                    *listOfNotNull(
                            parts.words(
                                story.stateTitle.replaceFirstChar(Char::uppercase),
                                24,
                                bold = true,
                                ground = ground,
                            ),
                            story.reported.takeIf(String::isNotEmpty)?.let {
                                parts.words(it, 17, ground = ground)
                            },
                            story.tag?.let {
                                parts.words(
                                    "${it.description} · ${it.gross} · ${it.aircraft}",
                                    18,
                                    ground = ground,
                                )
                            },
                            story.tag?.let {
                                parts.words("${it.pickup.name} – ${it.destination.name}", 18, ground = ground)
                            },
                        )
                        .toTypedArray(),
                    space = 3,
                ),
                thick = true,
            )
        val records =
            story.inspections.map { record ->
                val line = record.line
                key(
                    Face.ROW,
                    text(if (line.fit) R.string.fit else R.string.not_fit),
                    signOf(line.state),
                    listOf(line.inspector, line.issued.dtg, record.banner)
                        .filter(String::isNotEmpty)
                        .joinToString(" · "),
                ) {
                    shell.go(Place.Record(line.record))
                }
            }
        val moments = story.moments.map { parts.words("${it.at.dtg}  ${it.what}", 17) }
        return page(
            story.load,
            body(
                state,
                *(if (records.isEmpty()) emptyList()
                    else
                        listOf(
                            parts.eyebrow(text(R.string.story_records)),
                            parts.column(*records.toTypedArray(), space = 12),
                        ))
                    .toTypedArray(),
                parts.eyebrow(text(R.string.story)),
                *moments.toTypedArray(),
                space = 10,
            ),
            listOf(
                key(Face.GOOD, text(R.string.report), Sign.PLUS) { shell.go(Place.What(Draft(story.load))) },
                key(Face.BAD, text(R.string.story_refuse), Sign.CROSS) {
                    shell.go(Place.Refuse(Draft(story.load, MovementKind.REFUSED)))
                },
            ),
        )
    }

    private fun signOf(state: RecordState): Sign =
        when (state) {
            RecordState.FIT -> Sign.TICK
            RecordState.WAITS,
            RecordState.EXPIRED,
            RecordState.SUPERSEDED -> Sign.WARN
            else -> Sign.CROSS
        }
}
