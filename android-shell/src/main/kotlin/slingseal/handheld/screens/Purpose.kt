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
    HOOK_SEAL(R.string.scan_seal, R.string.scan_seal_guide),
    HOOK_TAG(R.string.scan_tag, R.string.scan_hook_tag_guide),
    SET_UP(R.string.scan_set_up, R.string.scan_set_up_guide),

    /** The frames of a moving code; they come one after another and never by typing. */
    MOVING(R.string.scan_moving, R.string.scan_moving_guide),
    HAVE(R.string.move_ask, R.string.scan_have_guide),

    /** An instructor's: the tag of the load that is to be planted. */
    EXAM_TAG(R.string.scan_tag, R.string.scan_tag_guide),

    /** A student's: the key that the instructor shows, and where it is not known the tag on the load. */
    EXAM_KEY(R.string.exam_scan_key, R.string.exam_scan_key_guide),
    EXAM_RUN_TAG(R.string.scan_tag, R.string.scan_tag_guide),
    EXAM_RESULT(R.string.exam_scan_result, R.string.exam_scan_result_guide),
    ;

    /** Hands a text to the core and goes where its answer leads; false where the core refused it. */
    fun take(shell: Shell, text: String, other: String): Boolean = when (this) {
        INSPECT -> shell.attempt { shell.core.readTag(text) }?.let { shell.swap(Place(PageKind.TAG, it.text)) } != null
        HOOK_SEAL -> shell.attempt { shell.core.check(text, null) }?.let { shell.swap(Place(PageKind.SCAN, HOOK_TAG.name, text)) } != null
        HOOK_TAG -> shell.attempt { shell.core.readTag(text) }?.let { shell.swap(Place(PageKind.VERDICT, other, it.text)) } != null
        SET_UP -> shell.attempt { shell.core.receive(text) }?.let { SetUpScreen.received(shell, it) } != null
        MOVING -> shell.attempt { shell.core.movingTake(text) } != null
        HAVE -> shell.attempt { shell.core.movingBegin(text) }?.let { shell.swap(Place(PageKind.MOVE_OUT, text)) } != null
        EXAM_TAG -> drawn(shell, text, 4)?.let { shell.swap(it) } != null
        EXAM_KEY -> shell.attempt { shell.core.examKey(text) }?.let { shell.swap(Place(PageKind.EXAM_NAME, it.key)) } != null
        EXAM_RUN_TAG -> shell.attempt { shell.core.readTag(text) }?.let { ready(shell, other, it.text) } != null
        EXAM_RESULT -> shell.attempt { shell.core.receive(text) }?.let { received(shell, it) } != null
    }.also { shell.feel(if (it) Beat.READ else Beat.REFUSED) }

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
