package slingseal.handheld.screens

import java.io.Serializable
import slingseal.core.MovementView
import slingseal.core.PieceReport
import slingseal.core.ReportMade
import slingseal.core.ReportRequest
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat

/** What of a report is written in a person's own words. */
enum class Said(val title: Int, val guide: Int) {
    NOTE(R.string.report_note, R.string.note_guide),
    AIRCRAFT(R.string.aircraft, R.string.report_aircraft_guide),
    WHERE(R.string.report_where, R.string.report_where_guide);

    fun of(draft: Draft) =
        when (this) {
            NOTE -> draft.note
            AIRCRAFT -> draft.aircraft
            WHERE -> draft.where
        }

    fun on(draft: Draft, words: String) =
        when (this) {
            NOTE -> draft.copy(note = words)
            AIRCRAFT -> draft.copy(aircraft = words)
            WHERE -> draft.copy(where = words)
        }
}

/**
 * A report that is being put together. It stands in the place of each of its pages, so that a turn of the
 * phone keeps it.
 */
data class Draft(
    val load: String,
    val event: String = "",
    val cause: String = "",
    /** Seconds since 1970 where it happened before now. */
    val at: Long? = null,
    val note: String = "",
    val pieces: List<PieceReport> = emptyList(),
    val sign: Boolean = false,
    val aircraft: String = "",
    /** Where, MGRS. */
    val where: String = "",
    /** Photographs, by their digests. */
    val photos: List<String> = emptyList(),
) : Serializable {
    private fun request() =
        ReportRequest(
            load,
            event,
            cause.ifEmpty { null },
            at,
            aircraft.ifEmpty { null },
            where.ifEmpty { null },
            photos,
            pieces,
            note.ifEmpty { null },
        )

    /**
     * On disk at once and signed by nobody: nothing is waited for. Where somebody wants to sign, the PIN
     * comes first.
     */
    fun give(shell: Shell) {
        if (sign) return shell.go(Place.ReportPin(this))
        shell.ask({ report(request(), null) }) { given(it) }
    }

    /** The same under a PIN. */
    fun give(shell: Shell, pin: String) {
        val core = shell.core
        shell.work({ core.report(request(), pin) }) { given(it) }
    }

    /** Nothing of the way there is left to go back into: what was given is given. */
    private fun Shell.given(made: ReportMade) {
        feel(beat())
        backTo(if (lies(Place.Arrival::class)) Place.Arrival::class else Place.Start::class)
        go(Place.Report(made.report.load, made.report.digest))
    }

    private fun beat() = if (event == REFUSED || event == LOST) Beat.DEFICIENCY else Beat.GOOD

    companion object {
        const val LIFTED = "lifted"
        const val REFUSED = "refused"
        const val SET_DOWN = "set-down"
        const val DERIGGED = "derigged"
        const val LOST = "lost"
        const val RETURNED = "returned"

        /** What stands for an event, the same on every page. */
        fun signOf(event: String): Sign =
            when (event) {
                LIFTED -> Sign.LIFT
                SET_DOWN -> Sign.DOWN
                DERIGGED,
                RETURNED -> Sign.GEAR
                else -> Sign.CROSS
            }

        fun signOf(report: MovementView): Sign = if (report.against) Sign.WARN else signOf(report.event)

        /** The word on an event's key. */
        fun keyOf(event: String): Int =
            when (event) {
                LIFTED -> R.string.event_lifted
                REFUSED -> R.string.event_refused
                SET_DOWN -> R.string.event_set_down
                DERIGGED -> R.string.event_derigged
                LOST -> R.string.event_lost
                else -> R.string.event_returned
            }
    }
}
