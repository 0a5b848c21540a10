package slingseal.handheld.screens

import slingseal.core.Handheld
import slingseal.core.HandheldException
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

    /** Hands a text to the core and goes where its answer leads; a refusal is told by the page in front. */
    fun take(shell: Shell, text: String, other: String) =
        when (this) {
            INSPECT -> read(shell, { readTag(text) }) { swap(Place(PageKind.TAG, it.text)) }
            HOOK -> hook(shell, text, other)
            ARRIVAL -> arrived(shell, text)
            SET_UP -> received(shell, text) { SetUpScreen.received(this, it) }
            MOVING -> read(shell, { movingTake(text) }) {}
            HAVE -> MoveOutScreen.ready(shell, text) { swap(it) }
            PLAN_LIKE -> PlanScreen.begin(shell, text)
            PLAN_PIECE -> received(shell, text) { onto(it, other) }
            KEY_REQUEST -> received(shell, text) { asked(it) }
            STORY -> received(shell, text) { story(it) }
            COPY_PART -> read(shell, { authorityPart(text) }) { CopyKeptScreen.take(this, it, text) }
            PIECE -> received(shell, text) { piece(it, other) }
            EXAM_TAG -> read(shell, { drawn(text, 4) }) { swap(it) }
            EXAM_KEY -> read(shell, { examKey(text) }) { swap(Place(PageKind.EXAM_NAME, it.key)) }
            EXAM_RUN_TAG -> read(shell, { readTag(text) }) { ready(other, it.text) }
            EXAM_RESULT -> received(shell, text) { result(it) }
        }

    private fun <T> read(shell: Shell, job: Handheld.() -> T, then: Shell.(T) -> Unit) =
        shell.ask(job) {
            feel(Beat.READ)
            then(it)
        }

    private fun received(shell: Shell, text: String, then: Shell.(Received) -> Unit) =
        read(shell, { receive(text) }, then)

    /** To the verdict, with what was read before. */
    private fun hook(shell: Shell, text: String, other: String) {
        val (seal, tag) = other.split('\n', limit = 2)
        read(
            shell,
            {
                // what is no tag is a seal, or nothing
                val typed = orNull { readTag(text) }
                if (typed != null) Place(PageKind.HOOK, seal, typed.text)
                else check(text, null).let { Place(PageKind.HOOK, text, tag) }
            },
        ) {
            backTo(PageKind.HOOK)
            swap(it)
        }
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
    private fun Shell.onto(what: Received, draft: String) {
        if (what !is Received.Inspection) return refuse(activity.getString(R.string.scan_piece_other))
        PlanPiecesScreen.scanned(this, what.name, draft)
    }

    /** To the page that says what whoever asks may do. */
    private fun Shell.asked(what: Received) {
        if (what !is Received.KeyRequest) return refuse(activity.getString(R.string.authority_scan_other))
        swap(
            Place(
                PageKind.AUTHORITY_ISSUE,
                what.request,
                what.holder,
                what.fingerprint,
                "",
                AuthorityScreen.DAYS.first().toString(),
            )
        )
    }

    /** Back to the page that waits for a name, with that of the piece. */
    private fun Shell.piece(what: Received, list: String) {
        if (what !is Received.Inspection) return refuse(activity.getString(R.string.scan_piece_other))
        swap(Place(PageKind.SUBJECT_NAME, list, what.name))
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
        swap(Place(PageKind.STORY, load))
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
            swap(Place(PageKind.ARRIVAL, it))
        }

    /** Back to the page that waits for the tag, with it. */
    private fun Shell.ready(other: String, tag: String) {
        val (key, student) = other.split('\n', limit = 2)
        backTo(PageKind.EXAM_READY)
        swap(Place(PageKind.EXAM_READY, key, student, tag))
    }

    private fun Shell.result(what: Received) {
        if (what !is Received.Examination) return SetUpScreen.received(this, what)
        news = activity.getString(R.string.exam_taken, what.load, what.by)
        swap(Place(PageKind.EXAM_RESULTS))
    }
}
