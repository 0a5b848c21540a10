package slingseal.handheld.places

import java.io.Serializable
import slingseal.handheld.R

/** Why something is written, and what it is about. */
sealed class Why(val title: Int, val guide: Int) : Serializable {
    /** The walk that the words go to; null where they go elsewhere. */
    abstract val on: WalkRef?

    data class Abandon(override val on: WalkRef) : Why(R.string.abandon, R.string.abandon_guide)

    data class NotFit(override val on: WalkRef) : Why(R.string.not_fit, R.string.not_fit_guide)

    /** A note on a deficiency that has a name. */
    data class Note(val draft: DeficiencyDraft) : Why(R.string.add_note, R.string.note_guide) {
        override val on
            get() = draft.on
    }

    /** A deficiency that has no name in the list. */
    data class Other(override val on: WalkRef, val card: Int, val point: String) :
        Why(R.string.something_else, R.string.other_guide)

    /** Why a point does not apply. */
    data class NotApplicable(override val on: WalkRef, val card: Int, val point: String) :
        Why(R.string.not_applicable, R.string.not_applicable_guide)

    /** The serial number of a piece that is rejected. */
    data class Reject(override val on: WalkRef, val finding: Int) :
        Why(R.string.reject_piece, R.string.reject_guide)

    /** Why the seal of a record no longer holds. */
    data class Void(val record: String) : Why(R.string.void_it, R.string.void_words) {
        override val on
            get() = null
    }
}
