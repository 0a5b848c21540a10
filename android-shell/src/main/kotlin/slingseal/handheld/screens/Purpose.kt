package slingseal.handheld.screens

import java.io.Serializable
import slingseal.core.Handheld
import slingseal.core.HandheldException
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

    /** Hands a text to the core and goes where its answer leads; a refusal is told by the page in front. */
    fun take(shell: Shell, text: String) =
        when (this) {
            Inspect -> read(shell, { readTag(text) }) { swap(Place.Tag(it.text)) }
            is Hook -> hook(shell, text, this)
            Arrival -> arrived(shell, text)
            SetUp -> received(shell, text) { SetUpScreen.received(this, it) }
            Moving -> read(shell, { movingTake(text) }) {}
            Have -> MoveOutScreen.ready(shell, text) { swap(it) }
            PlanLike -> PlanScreen.begin(shell, text)
            is PlanPiece -> received(shell, text) { onto(it, draft) }
            KeyRequest -> received(shell, text) { asked(it) }
            Story -> received(shell, text) { story(it) }
            CopyPart -> read(shell, { authorityPart(text) }) { CopyKeptScreen.take(this, it, text) }
            is Piece -> received(shell, text) { piece(it, procedure) }
            ExamTag -> read(shell, { drawn(text, 4) }) { swap(it) }
            ExamKey -> read(shell, { examKey(text) }) { swap(Place.ExamName(it.key)) }
            is ExamRunTag -> read(shell, { readTag(text) }) { ready(this@Purpose, it.text) }
            ExamResult -> received(shell, text) { result(it) }
        }

    private fun <T> read(shell: Shell, job: Handheld.() -> T, then: Shell.(T) -> Unit) =
        shell.ask(job) {
            feel(Beat.READ)
            then(it)
        }

    private fun received(shell: Shell, text: String, then: Shell.(Received) -> Unit) =
        read(shell, { receive(text) }, then)

    /** To the verdict, with what was read before. */
    private fun hook(shell: Shell, text: String, before: Hook) =
        read(
            shell,
            {
                // what is no tag is a seal, or nothing
                val typed = orNull { readTag(text) }
                if (typed != null) Place.Hook(before.seal, typed.text)
                else check(text, null).let { Place.Hook(text, before.tag) }
            },
        ) {
            backTo(Place.Hook::class)
            swap(it)
        }

    /** What the core has; null where it refuses. */
    private fun <T> orNull(job: () -> T): T? =
        try {
            job()
        } catch (e: HandheldException) {
            android.util.Log.i("slingseal", "another kind: ${e.message}")
            null
        }

    /** Back to the equipment of a load, with the piece. */
    private fun Shell.onto(what: Received, draft: TagDraft) {
        if (what !is Received.Inspection) return refuse(activity.getString(R.string.scan_piece_other))
        PlanPiecesScreen.scanned(this, what.name, draft)
    }

    /** To the page that says what whoever asks may do. */
    private fun Shell.asked(what: Received) {
        if (what !is Received.KeyRequest) return refuse(activity.getString(R.string.authority_scan_other))
        swap(Place.AuthorityIssue(Issuing(what.request, what.holder, what.fingerprint)))
    }

    /** Back to the page that waits for a name, with that of the piece. */
    private fun Shell.piece(what: Received, list: String) {
        if (what !is Received.Inspection) return refuse(activity.getString(R.string.scan_piece_other))
        swap(Place.SubjectName(list, what.name))
    }

    /** To the story of the load that a code is of; what the code says is taken in. */
    private fun Shell.story(what: Received) {
        val load =
            when (what) {
                is Received.Tag -> what.v1.load
                is Received.Seal -> what.v1.facts?.load ?: what.v1.tag?.load
                is Received.Movement -> what.report.load
                is Received.Void -> what.load
                else -> null
            }
        if (load == null) return refuse(activity.getString(R.string.board_find_guide))
        swap(Place.Story(load))
    }

    /** To the load that lies here. A report is taken in first, and is of a load too. */
    private fun arrived(shell: Shell, text: String) =
        read(
            shell,
            {
                try {
                    arrival(text).let { text }
                } catch (e: HandheldException) {
                    (orNull { receive(text) } as? Received.Movement)?.report?.load ?: throw e
                }
            },
        ) {
            swap(Place.Arrival(it))
        }

    /** Back to the page that waits for the tag, with it. */
    private fun Shell.ready(before: ExamRunTag, tag: String) {
        backTo(Place.ExamReady::class)
        swap(Place.ExamReady(before.key, before.student, tag))
    }

    private fun Shell.result(what: Received) {
        if (what !is Received.Examination) return SetUpScreen.received(this, what)
        news = activity.getString(R.string.exam_taken, what.load, what.by)
        swap(Place.ExamResults)
    }
}
