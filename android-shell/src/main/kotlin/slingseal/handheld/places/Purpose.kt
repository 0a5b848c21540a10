package slingseal.handheld.places

import java.io.Serializable
import slingseal.core.TagDraft
import slingseal.handheld.R

/** What a code is scanned for: which words guide the person, and where the text goes. */
sealed class Purpose(val title: Int, val guide: Int) : Serializable {
    /** What is typed where no camera reads it. */
    open val typing
        get() = R.string.type_guide

    data object Inspect : Purpose(R.string.scan_tag, R.string.scan_tag_guide)

    /** At the hook, typed: the seal or the tag, whichever it is, beside what was read before. */
    data class Hook(val seal: String?, val tag: String?) : Purpose(R.string.hook_check, R.string.hook_words)

    /** Where a load is taken down: its tag, its seal, or a report of it. */
    data object Arrival : Purpose(R.string.arrival, R.string.arrival_guide)

    data object SetUp : Purpose(R.string.scan_set_up, R.string.scan_set_up_guide)

    /** The frames of a moving code; they come one after another and never by typing. */
    data object Moving : Purpose(R.string.scan_moving, R.string.scan_moving_guide)

    data object Have : Purpose(R.string.move_ask, R.string.scan_have_guide)

    /** At the planner: the tag of a load like the new one. */
    data object PlanLike : Purpose(R.string.plan_scan, R.string.plan_scan_guide)

    /** At the planner: the code of a piece that goes onto the draft. */
    data class PlanPiece(val draft: TagDraft) : Purpose(R.string.scan_piece, R.string.scan_piece_guide)

    /** At the authority: the key of whoever joins. */
    data object KeyRequest : Purpose(R.string.authority_scan, R.string.authority_scan_guide)

    /** A leader's: a load's tag, seal or report; its story. */
    data object Story : Purpose(R.string.board_find, R.string.board_find_guide)

    /** A part of an authority's copy. */
    data object CopyPart : Purpose(R.string.copy_scan, R.string.copy_scan_guide) {
        override val typing
            get() = R.string.copy_type_guide
    }

    /** The code or sticker of a piece that was inspected before: its name, to inspect it by this list. */
    data class Piece(val procedure: String) : Purpose(R.string.scan_piece, R.string.scan_piece_guide)

    /** An instructor's: the tag of the load that is to be planted. */
    data object ExamTag : Purpose(R.string.scan_tag, R.string.scan_tag_guide)

    /** A student's: the key that the instructor shows, and where it is not known the tag on the load. */
    data object ExamKey : Purpose(R.string.exam_scan_key, R.string.exam_scan_key_guide)

    data class ExamRunTag(val key: String, val student: String) :
        Purpose(R.string.scan_tag, R.string.scan_tag_guide)

    data object ExamResult : Purpose(R.string.exam_scan_result, R.string.exam_scan_result_guide)
}
