package slingseal.handheld.screens

import java.io.Serializable
import slingseal.core.Received
import slingseal.core.TagDraft
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.sense.Beat

/** What a code is scanned for: which words guide the person, and where the text goes. */
sealed class Purpose(val title: Int, val guide: Int) : Serializable {
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
    data object CopyPart : Purpose(R.string.copy_scan, R.string.copy_scan_guide)

    /** The code or sticker of a piece that was inspected before: its name, to inspect it by this list. */
    data class Piece(val procedure: String) : Purpose(R.string.scan_piece, R.string.scan_piece_guide)

    /** An instructor's: the tag of the load that is to be planted. */
    data object ExamTag : Purpose(R.string.scan_tag, R.string.scan_tag_guide)

    /** A student's: the key that the instructor shows, and where it is not known the tag on the load. */
    data object ExamKey : Purpose(R.string.exam_scan_key, R.string.exam_scan_key_guide)

    data class ExamRunTag(val key: String, val student: String) :
        Purpose(R.string.scan_tag, R.string.scan_tag_guide)

    data object ExamResult : Purpose(R.string.exam_scan_result, R.string.exam_scan_result_guide)

    /** Hands a text to the core and goes where its answer leads; false where the core refused it. */
    fun take(shell: Shell, text: String): Boolean =
        when (this) {
            Inspect ->
                shell.attempt { shell.core.readTag(text) }?.let { shell.swap(Place.Tag(it.text)) } != null
            is Hook -> hook(shell, text, this)
            Arrival -> arrived(shell, text)
            SetUp ->
                shell.attempt { shell.core.receive(text) }?.let { SetUpScreen.received(shell, it) } != null
            Moving -> shell.attempt { shell.core.movingTake(text) } != null
            Have -> true.also { MoveOutScreen.ready(shell, text) { swap(it) } }
            PlanLike -> PlanScreen.begin(shell, text)
            is PlanPiece -> shell.attempt { shell.core.receive(text) }?.let { onto(shell, it, draft) } == true
            KeyRequest -> shell.attempt { shell.core.receive(text) }?.let { asked(shell, it) } == true
            Story -> story(shell, text)
            CopyPart -> CopyKeptScreen.take(shell, text)
            is Piece ->
                shell.attempt { shell.core.receive(text) }?.let { piece(shell, it, procedure) } == true
            ExamTag -> drawn(shell, text, 4)?.let { shell.swap(it) } != null
            ExamKey ->
                shell.attempt { shell.core.examKey(text) }?.let { shell.swap(Place.ExamName(it.key)) } != null
            is ExamRunTag ->
                shell.attempt { shell.core.readTag(text) }?.let { ready(shell, this, it.text) } != null
            ExamResult -> shell.attempt { shell.core.receive(text) }?.let { received(shell, it) } != null
        }.also { shell.feel(if (it) Beat.READ else Beat.REFUSED) }

    /** To the verdict, with what was read before. */
    private fun hook(shell: Shell, text: String, before: Hook): Boolean {
        val typed = shell.attempt { shell.core.readTag(text) }
        // what is no tag is a seal, or nothing
        if (typed == null) shell.notice = null
        val place =
            if (typed != null) {
                Place.Hook(before.seal, typed.text)
            } else {
                shell.attempt { shell.core.check(text, null) } ?: return false
                Place.Hook(text, before.tag)
            }
        shell.backTo(Place.Hook::class)
        shell.swap(place)
        return true
    }

    /** Back to the equipment of a load, with the piece. */
    private fun onto(shell: Shell, what: Received, draft: TagDraft): Boolean {
        if (what !is Received.Inspection) {
            shell.notice = shell.activity.getString(R.string.scan_piece_other)
            return false
        }
        PlanPiecesScreen.scanned(shell, what.name, draft)
        return true
    }

    /** To the page that says what whoever asks may do. */
    private fun asked(shell: Shell, what: Received): Boolean {
        if (what !is Received.KeyRequest) {
            shell.notice = shell.activity.getString(R.string.authority_scan_other)
            return false
        }
        shell.swap(Place.AuthorityIssue(Issuing(what.request, what.holder, what.fingerprint)))
        return true
    }

    /** Back to the page that waits for a name, with that of the piece. */
    private fun piece(shell: Shell, what: Received, list: String): Boolean {
        if (what !is Received.Inspection) {
            shell.notice = shell.activity.getString(R.string.scan_piece_other)
            return false
        }
        shell.swap(Place.SubjectName(list, what.name))
        return true
    }

    /** To the story of the load that a code is of; what the code says is taken in. */
    private fun story(shell: Shell, text: String): Boolean {
        val load =
            when (val what = shell.attempt { shell.core.receive(text) }) {
                is Received.Tag -> what.v1.load
                is Received.Seal -> what.v1.facts?.load ?: what.v1.tag?.load
                is Received.Movement -> what.report.load
                is Received.Void -> what.load
                else -> null
            }
        if (load == null && shell.notice == null)
            shell.notice = shell.activity.getString(R.string.board_find_guide)
        shell.swap(Place.Story(load ?: return false))
        return true
    }

    /** To the load that lies here. A report is taken in first, and is of a load too. */
    private fun arrived(shell: Shell, text: String): Boolean {
        val load =
            if (shell.attempt { shell.core.arrival(text) } != null) text
            else {
                val why = shell.notice
                val report = shell.attempt { shell.core.receive(text) } as? Received.Movement
                shell.notice = if (report == null) why else null
                report?.report?.load ?: return false
            }
        shell.swap(Place.Arrival(load))
        return true
    }

    /** Back to the page that waits for the tag, with it. */
    private fun ready(shell: Shell, before: ExamRunTag, tag: String) {
        shell.backTo(Place.ExamReady::class)
        shell.swap(Place.ExamReady(before.key, before.student, tag))
    }

    private fun received(shell: Shell, what: Received) {
        if (what !is Received.Examination) return SetUpScreen.received(shell, what)
        shell.news = shell.activity.getString(R.string.exam_taken, what.load, what.by)
        shell.swap(Place.ExamResults)
    }
}
