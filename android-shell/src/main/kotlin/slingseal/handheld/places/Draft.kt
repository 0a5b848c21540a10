package slingseal.handheld.places

import java.io.Serializable
import slingseal.core.MovementKind
import slingseal.core.MovementView
import slingseal.core.PieceReport
import slingseal.core.RefusalCause
import slingseal.core.ReportRequest
import slingseal.handheld.R
import slingseal.handheld.look.Sign

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
    /** What happened; null before somebody says so. */
    val event: MovementKind? = null,
    /** Why, of a refusal. */
    val cause: RefusalCause? = null,
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
    internal fun request(event: MovementKind) =
        ReportRequest(
            load,
            event,
            cause,
            at,
            aircraft.ifEmpty { null },
            where.ifEmpty { null },
            photos,
            pieces,
            note.ifEmpty { null },
        )

    companion object {
        /** What stands for an event, the same on every page. */
        fun signOf(event: MovementKind): Sign =
            when (event) {
                MovementKind.LIFTED -> Sign.LIFT
                MovementKind.SET_DOWN -> Sign.DOWN
                MovementKind.DERIGGED,
                MovementKind.RETURNED -> Sign.GEAR
                MovementKind.REFUSED,
                MovementKind.LOST -> Sign.CROSS
            }

        fun signOf(report: MovementView): Sign = if (report.against) Sign.WARN else signOf(report.event)

        /** The word on an event's key. */
        fun keyOf(event: MovementKind): Int =
            when (event) {
                MovementKind.LIFTED -> R.string.event_lifted
                MovementKind.REFUSED -> R.string.event_refused
                MovementKind.SET_DOWN -> R.string.event_set_down
                MovementKind.DERIGGED -> R.string.event_derigged
                MovementKind.LOST -> R.string.event_lost
                MovementKind.RETURNED -> R.string.event_returned
            }
    }
}
