package slingseal.handheld.screens

import slingseal.core.Received
import slingseal.handheld.PageKind
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.sense.Beat

/** What a code is scanned for: which words guide the person, and where the text goes. */
enum class Purpose(val title: Int, val guide: Int) {
    INSPECT(R.string.scan_tag, R.string.scan_tag_guide),

    /** At the hook, typed: the seal or the tag, whichever it is. */
    HOOK(R.string.hook_check, R.string.hook_words),
    /** Where a load is taken down: its tag, its seal, or a report of it. */
    ARRIVAL(R.string.arrival, R.string.arrival_guide),
    SET_UP(R.string.scan_set_up, R.string.scan_set_up_guide),

    /** The frames of a moving code; they come one after another and never by typing. */
    MOVING(R.string.scan_moving, R.string.scan_moving_guide),
    HAVE(R.string.move_ask, R.string.scan_have_guide),

    /**
     * At the planner: the tag of a load like the new one; the code of a piece that goes onto it (its other is
     * the draft).
     */
    PLAN_LIKE(R.string.plan_scan, R.string.plan_scan_guide),
    PLAN_PIECE(R.string.scan_piece, R.string.scan_piece_guide),

    /** At the authority: the key of whoever joins. */
    KEY_REQUEST(R.string.authority_scan, R.string.authority_scan_guide),

    /** A leader's: a load's tag, seal or report; its story. */
    STORY(R.string.board_find, R.string.board_find_guide),

    /** A part of an authority's copy. */
    COPY_PART(R.string.copy_scan, R.string.copy_scan_guide),

    /**
     * The code or sticker of a piece that was inspected before: its name. Its other is the list to inspect it
     * by.
     */
    PIECE(R.string.scan_piece, R.string.scan_piece_guide),

    /** An instructor's: the tag of the load that is to be planted. */
    EXAM_TAG(R.string.scan_tag, R.string.scan_tag_guide),

    /** A student's: the key that the instructor shows, and where it is not known the tag on the load. */
    EXAM_KEY(R.string.exam_scan_key, R.string.exam_scan_key_guide),
    EXAM_RUN_TAG(R.string.scan_tag, R.string.scan_tag_guide),
    EXAM_RESULT(R.string.exam_scan_result, R.string.exam_scan_result_guide);

    /** Hands a text to the core and goes where its answer leads; false where the core refused it. */
    fun take(shell: Shell, text: String, other: String): Boolean =
        when (this) {
            INSPECT ->
                shell
                    .attempt { shell.core.readTag(text) }
                    ?.let { shell.swap(Place(PageKind.TAG, it.text)) } != null
            HOOK -> hook(shell, text, other)
            ARRIVAL -> arrived(shell, text)
            SET_UP ->
                shell.attempt { shell.core.receive(text) }?.let { SetUpScreen.received(shell, it) } != null
            MOVING -> shell.attempt { shell.core.movingTake(text) } != null
            HAVE -> true.also { MoveOutScreen.ready(shell, text) { swap(it) } }
            PLAN_LIKE -> PlanScreen.begin(shell, text)
            PLAN_PIECE -> shell.attempt { shell.core.receive(text) }?.let { onto(shell, it, other) } == true
            KEY_REQUEST -> shell.attempt { shell.core.receive(text) }?.let { asked(shell, it) } == true
            STORY -> story(shell, text)
            COPY_PART -> CopyKeptScreen.take(shell, text)
            PIECE -> shell.attempt { shell.core.receive(text) }?.let { piece(shell, it, other) } == true
            EXAM_TAG -> drawn(shell, text, 4)?.let { shell.swap(it) } != null
            EXAM_KEY ->
                shell
                    .attempt { shell.core.examKey(text) }
                    ?.let { shell.swap(Place(PageKind.EXAM_NAME, it.key)) } != null
            EXAM_RUN_TAG ->
                shell.attempt { shell.core.readTag(text) }?.let { ready(shell, other, it.text) } != null
            EXAM_RESULT -> shell.attempt { shell.core.receive(text) }?.let { received(shell, it) } != null
        }.also { shell.feel(if (it) Beat.READ else Beat.REFUSED) }

    /** To the verdict, with what was read before. */
    private fun hook(shell: Shell, text: String, other: String): Boolean {
        val (seal, tag) = other.split('\n', limit = 2)
        val typed = shell.attempt { shell.core.readTag(text) }
        // what is no tag is a seal, or nothing
        if (typed == null) shell.notice = null
        val place =
            if (typed != null) {
                Place(PageKind.HOOK, seal, typed.text)
            } else {
                shell.attempt { shell.core.check(text, null) } ?: return false
                Place(PageKind.HOOK, text, tag)
            }
        shell.backTo(PageKind.HOOK)
        shell.swap(place)
        return true
    }

    /** Back to the equipment of a load, with the piece. */
    private fun onto(shell: Shell, what: Received, draft: String): Boolean {
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
        shell.swap(
            Place(
                PageKind.AUTHORITY_ISSUE,
                what.request,
                what.holder,
                what.fingerprint,
                "",
                AuthorityScreen.DAYS.first().toString(),
            )
        )
        return true
    }

    /** Back to the page that waits for a name, with that of the piece. */
    private fun piece(shell: Shell, what: Received, list: String): Boolean {
        if (what !is Received.Inspection) {
            shell.notice = shell.activity.getString(R.string.scan_piece_other)
            return false
        }
        shell.swap(Place(PageKind.SUBJECT_NAME, list, what.name))
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
        shell.swap(Place(PageKind.STORY, load ?: return false))
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
        shell.swap(Place(PageKind.ARRIVAL, load))
        return true
    }

    /** Back to the page that waits for the tag, with it. */
    private fun ready(shell: Shell, other: String, tag: String) {
        val (key, student) = other.split('\n', limit = 2)
        shell.backTo(PageKind.EXAM_READY)
        shell.swap(Place(PageKind.EXAM_READY, key, student, tag))
    }

    private fun received(shell: Shell, what: Received) {
        if (what !is Received.Examination) return SetUpScreen.received(shell, what)
        shell.news = shell.activity.getString(R.string.exam_taken, what.load, what.by)
        shell.swap(Place(PageKind.EXAM_RESULTS))
    }
}
