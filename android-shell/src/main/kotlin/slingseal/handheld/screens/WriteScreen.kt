package slingseal.handheld.screens

import android.view.View
import slingseal.core.WalkRequest
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat

/** Why something is written. */
enum class Why(val title: Int, val guide: Int) {
    ABANDON(R.string.abandon, R.string.abandon_guide),
    NOT_FIT(R.string.not_fit, R.string.not_fit_guide),
    NOTE(R.string.add_note, R.string.note_guide),
    OTHER(R.string.something_else, R.string.other_guide),

    /** Why a point does not apply, and the serial number of a piece that is rejected. */
    NOT_APPLICABLE(R.string.not_applicable, R.string.not_applicable_guide),
    REJECT(R.string.reject_piece, R.string.reject_guide),

    /** Its first argument names a record. */
    VOID(R.string.void_it, R.string.void_words),
}

/** Words of a person's own. */
class WriteScreen(shell: Shell, place: Place) : WritingScreen(shell, place) {
    private val walk
        get() = place.args[0]

    private val why = Why.valueOf(place.args[1])
    override val staysOn
        get() = true

    override val title
        get() = text(why.title)

    override val guide
        get() = text(why.guide)

    override val done
        get() = text(R.string.take_it)

    override val code
        get() = why == Why.REJECT

    override val before
        get() = if (why == Why.NOTE) place.args[5] else ""

    /** A photograph goes with the note of an inspection; what is typed already goes along. */
    override fun extra(): List<View> =
        if (why != Why.NOTE || place.run != null) {
            emptyList()
        } else {
            val (card, point, name) = place.args.drop(2)
            listOf(
                key(Face.ROW, text(R.string.add_photo), Sign.EYE) {
                    shell.swap(Place(PageKind.PHOTO, walk, card, point, name, written.trim(), place.args[6]))
                }
            )
        }

    override fun take(words: String) {
        when (why) {
            Why.ABANDON -> answer(WalkRequest.Abandon(words), PageKind.START)
            Why.NOT_FIT -> answer(WalkRequest.Decide(false, words), PageKind.WALK)
            // card, point, name, note, photos
            Why.NOTE -> draft(place.args[2], place.args[3], place.args[4], words, place.args[6])
            Why.VOID ->
                if (words.isBlank()) empty()
                else shell.swap(Place(PageKind.VOID, walk, "other", words.trim()))
            // card, point
            Why.NOT_APPLICABLE ->
                if (words.isBlank()) empty()
                else
                    answer(
                        WalkRequest.NotApplicable(place.args[2].toUInt(), place.args[3], words.trim()),
                        PageKind.WALK,
                    )
            // finding
            Why.REJECT ->
                if (words.isBlank()) empty()
                else answer(WalkRequest.RejectPiece(place.args[2].toUInt(), words.trim()), PageKind.FINDING)
            Why.OTHER -> draft(place.args[2], place.args[3], OTHER, words, "")
        }
    }

    private fun empty() {
        shell.notice = text(R.string.nothing_typed)
        shell.redraw()
    }

    private fun answer(request: WalkRequest, then: PageKind) {
        shell.answer(walk, request, Beat.GOOD) { backTo(then) }
    }

    private fun draft(card: String, point: String, name: String, note: String, photos: String) {
        shell.backTo(PageKind.WALK)
        shell.go(Place(PageKind.DEFICIENCY, walk, card, point, name, note.trim(), photos))
    }
}
