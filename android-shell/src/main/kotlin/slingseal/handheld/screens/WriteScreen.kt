package slingseal.handheld.screens

import android.view.View
import kotlin.reflect.KClass
import slingseal.core.VoidCause
import slingseal.core.WalkRequest
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.DeficiencyDraft
import slingseal.handheld.places.OTHER
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.Why
import slingseal.handheld.places.run
import slingseal.handheld.sense.Beat

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
                if (said.isEmpty()) empty() else shell.swap(Place.VoidPin(why.record, VoidCause.OTHER, said))
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
