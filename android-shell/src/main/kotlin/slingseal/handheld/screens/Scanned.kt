package slingseal.handheld.screens

import slingseal.core.Handheld
import slingseal.core.HandheldException
import slingseal.core.Received
import slingseal.core.TagDraft
import slingseal.handheld.R
import slingseal.handheld.Shell
import slingseal.handheld.places.Issuing
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.sense.Beat

/** Hands a text to the core and goes where its answer leads; a refusal is told by the page in front. */
internal fun Purpose.take(shell: Shell, text: String) =
    when (this) {
        Purpose.Inspect -> read(shell, { readTag(text) }) { swap(Place.Tag(it.text)) }
        is Purpose.Hook -> hook(shell, text, this)
        Purpose.Arrival -> arrived(shell, text)
        Purpose.SetUp -> received(shell, text) { SetUpScreen.received(this, it) }
        Purpose.Moving -> read(shell, { movingTake(text) }) {}
        Purpose.Have -> MoveOutScreen.ready(shell, text) { swap(it) }
        Purpose.PlanLike -> PlanScreen.begin(shell, text)
        is Purpose.PlanPiece -> received(shell, text) { onto(it, draft) }
        Purpose.KeyRequest -> received(shell, text) { asked(it) }
        Purpose.Story -> received(shell, text) { story(it) }
        Purpose.CopyPart -> read(shell, { authorityPart(text) }) { CopyKeptScreen.take(this, it) }
        is Purpose.Piece -> received(shell, text) { piece(it, procedure) }
        Purpose.ExamTag -> read(shell, { drawn(text, 4) }) { swap(it) }
        Purpose.ExamKey -> read(shell, { examKey(text) }) { swap(Place.ExamName(it.key)) }
        is Purpose.ExamRunTag -> read(shell, { readTag(text) }) { ready(this@take, it.text) }
        Purpose.ExamResult -> received(shell, text) { result(it) }
    }

private fun <T> read(shell: Shell, job: Handheld.() -> T, then: Shell.(T) -> Unit) =
    shell.ask(job) {
        feel(Beat.READ)
        then(it)
    }

private fun received(shell: Shell, text: String, then: Shell.(Received) -> Unit) =
    read(shell, { receive(text) }, then)

/** To the verdict, with what was read before. */
private fun hook(shell: Shell, text: String, before: Purpose.Hook) =
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
private fun Shell.ready(before: Purpose.ExamRunTag, tag: String) {
    backTo(Place.ExamReady::class)
    swap(Place.ExamReady(before.key, before.student, tag))
}

private fun Shell.result(what: Received) {
    if (what !is Received.Examination) return SetUpScreen.received(this, what)
    news = activity.getString(R.string.exam_taken, what.load, what.by)
    swap(Place.ExamResults)
}
