package slingseal.handheld.screens

import android.view.View
import java.io.Serializable
import kotlin.reflect.KClass
import slingseal.core.WalkRequest
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat

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

/** Words of a person's own. */
class WriteScreen(shell: Shell, override val place: Place.Write) : WritingScreen(shell, place) {
    private val why = place.why
    override val staysOn
        get() = true

    override val title
        get() = text(why.title)

    override val guide
        get() = text(why.guide)

    override val done
        get() = text(R.string.take_it)

    override val code
        get() = why is Why.Reject

    override val before
        get() = if (why is Why.Note) why.draft.note else ""

    /** A photograph goes with the note of an inspection; what is typed already goes along. */
    override fun extra(): List<View> =
        if (why !is Why.Note || place.run != null) {
            emptyList()
        } else {
            listOf(
                key(Face.ROW, text(R.string.add_photo), Sign.PHOTO) {
                    shell.swap(Place.Photo(why.draft.copy(note = written.trim())))
                }
            )
        }

    override fun take(words: String) {
        val said = words.trim()
        when (why) {
            is Why.Abandon -> answer(why.on, WalkRequest.Abandon(words), Place.Start::class)
            is Why.NotFit -> answer(why.on, WalkRequest.Decide(false, words), Place.Walk::class)
            is Why.Note -> draft(why.draft.copy(note = said))
            is Why.Other -> draft(DeficiencyDraft(why.on, why.card, why.point, OTHER, said))
            is Why.Void ->
                if (said.isEmpty()) empty() else shell.swap(Place.VoidPin(why.record, "other", said))
            is Why.NotApplicable ->
                if (said.isEmpty()) empty()
                else
                    answer(
                        why.on,
                        WalkRequest.NotApplicable(why.card.toUInt(), why.point, said),
                        Place.Walk::class,
                    )
            is Why.Reject ->
                if (said.isEmpty()) empty()
                else answer(why.on, WalkRequest.RejectPiece(why.finding.toUInt(), said), Place.Finding::class)
        }
    }

    private fun empty() {
        shell.notice = text(R.string.nothing_typed)
        shell.redraw()
    }

    private fun answer(on: WalkRef, request: WalkRequest, then: KClass<out Place>) {
        shell.answer(on, request, Beat.GOOD) { backTo(then) }
    }

    private fun draft(draft: DeficiencyDraft) {
        shell.backTo(Place.Walk::class)
        shell.go(Place.Deficiency(draft))
    }
}
