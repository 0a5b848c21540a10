package slingseal.handheld.screens

import android.view.View
import slingseal.core.FateView
import slingseal.core.FindingState
import slingseal.core.FindingView
import slingseal.core.PointState
import slingseal.core.WalkRequest
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.GloveFrame
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Spot
import slingseal.handheld.places.DeficiencyDraft
import slingseal.handheld.places.OTHER
import slingseal.handheld.places.Place
import slingseal.handheld.places.Why
import slingseal.handheld.places.run
import slingseal.handheld.places.walkOf
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** Which deficiency it is: by point, by name. */
class PickScreen(shell: Shell, override val place: Place.Pick) : Screen(shell, place) {
    private var list: PickList? = null
    override val staysOn
        get() = true

    override val takesHardKeys
        get() = true

    override val spoken
        get() = text(R.string.pick_words)

    private val walk = shell.attempt { shell.core.walkOf(place.on) }

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.deficiency), body())
        val card = walk.card ?: return page(text(R.string.deficiency), body())
        val keys = mutableListOf<slingseal.handheld.look.Key>()
        val views = mutableListOf<View>()
        for (point in
            card.points.filter { it.state == PointState.UNANSWERED || it.state == PointState.GOOD }) {
            views += parts.words(point.prompt, 19, bold = true)
            for (known in point.deficiencies) {
                // what can be put right is no matter of an examination, and would tell what is planted seldom
                val later = if (place.run != null) null else fate(known.fate)?.let { text(it) }
                val row =
                    key(Face.ROW, known.shown, Sign.CROSS, later) { pick(card.number, point.id, known.name) }
                keys += row
                views += row
            }
            val other =
                key(Face.ROW, text(R.string.something_else), Sign.PLUS) {
                    shell.go(Place.Write(Why.Other(place.on, card.number.toInt(), point.id)))
                }
            keys += other
            views += other
            if (point.mayNotApply && place.run == null) {
                val none =
                    key(
                        Face.ROW,
                        text(R.string.not_applicable),
                        Sign.MINUS,
                        text(R.string.not_applicable_about),
                    ) {
                        shell.go(Place.NotApplicable(place.on, card.number.toInt(), point.id))
                    }
                keys += none
                views += none
            }
        }
        list = PickList(keys, shell)
        return page(text(R.string.what_is_wrong), body(parts.column(*views.toTypedArray(), space = 14)))
    }

    /** What becomes of the load, or of the piece, where it is not put right on the spot. */
    private fun fate(fate: FateView): Int? =
        when (fate) {
            FateView.IN_PLACE -> null
            FateView.RERIG -> R.string.needs_rerigging
            FateView.NEW_TAG -> R.string.needs_new_tag
            FateView.REJECT -> R.string.rejects_piece
        }

    private fun pick(card: UInt, point: String, name: String) =
        shell.go(Place.Deficiency(DeficiencyDraft(place.on, card.toInt(), point, name)))

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit
}

/** A deficiency before it is noted: with a note and photographs, to be put right now or later. */
class DeficiencyScreen(shell: Shell, override val place: Place.Deficiency) : Screen(shell, place) {
    private val draft = place.draft
    private val on
        get() = draft.on

    private val point
        get() = draft.point

    private val name
        get() = draft.name

    private val note
        get() = draft.note.ifEmpty { null }

    private val photos
        get() = draft.photos

    override val staysOn
        get() = true

    override val hidesBars
        get() = onItsSide

    override val takesHardKeys
        get() = true

    override val spoken
        get() = text(if (inRun) R.string.exam_call_spoken else R.string.deficiency_spoken, named())

    /** In an examination nothing is put right: one key calls it. */
    private val inRun
        get() = place.run != null

    private val view = shell.attempt { shell.core.walkOf(on) }

    private fun known() =
        view?.card?.points?.firstOrNull { it.id == point }?.deficiencies?.firstOrNull { it.name == name }

    private fun named(): String = known()?.shown ?: note ?: name

    private fun rejects() = known()?.fate == FateView.REJECT

    override fun build(): View {
        val about = view?.card?.points?.firstOrNull { it.id == point }
        val frame = GloveFrame(context)
        if (inRun) {
            frame.put(Spot.FIRST, key(Face.BAD, text(R.string.exam_call), Sign.CROSS) { noteIt(now = false) })
        } else {
            // what is rejected is not put right: its serial number is asked for
            val now =
                if (rejects()) key(Face.GOOD, text(R.string.reject_piece), Sign.NEXT) { noteIt(now = true) }
                else key(Face.GOOD, text(R.string.put_right_now), Sign.TICK) { noteIt(now = true) }
            frame.put(Spot.FIRST, now)
            frame.put(
                Spot.SECOND,
                key(Face.BAD, text(R.string.note_go_on), Sign.CROSS) { noteIt(now = false) },
            )
        }
        return frame
            .put(Spot.SIDE_ONE, key(Face.SIDE, text(R.string.back), Sign.BACK) { shell.back() })
            .put(
                Spot.SIDE_TWO,
                key(Face.SIDE, text(if (inRun) R.string.add_note else R.string.note_or_photo), Sign.PLUS) {
                    shell.go(Place.Write(Why.Note(draft)))
                },
            )
            .put(
                Spot.MIDDLE,
                parts.scroll(
                    body(
                        parts.eyebrow(about?.prompt.orEmpty()),
                        parts.heading(named(), 27),
                        parts.words(
                            text(if (inRun) R.string.exam_call_words else R.string.deficiency_words),
                            18,
                        ),
                        note
                            ?.takeIf { name != OTHER }
                            ?.let { parts.panel(parts.words(it, 18, ground = palette.panel)) },
                        if (photos.isEmpty()) null
                        else parts.words(text(R.string.photos_taken, photos.size), 17),
                    )
                ),
            )
    }

    private fun noteIt(now: Boolean) {
        val before = view?.findings?.maxOfOrNull { it.number } ?: 0u
        val on = on
        val request = WalkRequest.Deficiency(draft.card.toUInt(), point, name, note, photos)
        shell.answer(on, request, Beat.DEFICIENCY) { after ->
            val made = after.findings.maxByOrNull { it.number }?.takeIf { it.number > before }
            backTo(Place.Walk::class)
            if (now && made != null) go(Place.Finding(on, made.number.toInt()))
        }
    }

    override fun hard(answer: HardAnswer) =
        when (answer) {
            HardAnswer.FIRST -> noteIt(now = !inRun)
            HardAnswer.SECOND -> noteIt(now = false)
            HardAnswer.AGAIN -> shell.say(spoken)
            HardAnswer.BACK -> shell.back()
        }
}

/** A finding on its way from found, to put right, to looked at again. */
class FindingScreen(shell: Shell, override val place: Place.Finding) : Screen(shell, place) {
    private val walk
        get() = place.on

    private val finding: FindingView? =
        shell
            .attempt { shell.core.walkOf(walk) }
            ?.findings
            ?.firstOrNull { it.number.toInt() == place.finding }

    override val staysOn
        get() = true

    override val hidesBars
        get() = onItsSide

    override val takesHardKeys
        get() = true

    override val spoken: String?
        get() =
            finding?.let {
                when (it.state) {
                    FindingState.OPEN -> text(R.string.finding_open_spoken, it.shown)
                    FindingState.PUT_RIGHT -> text(R.string.finding_again_spoken, it.prompt)
                    FindingState.CLOSED -> text(R.string.finding_closed)
                }
            }

    override fun build(): View {
        val finding = finding ?: return page(text(R.string.findings), body())
        val frame = GloveFrame(context)
        when (finding.state) {
            FindingState.OPEN -> {
                val rejects = finding.fate == FateView.REJECT
                frame.put(
                    Spot.FIRST,
                    if (rejects) rejectKey(finding)
                    else key(Face.GOOD, text(R.string.is_put_right), Sign.TICK) { putRight() },
                )
                frame.put(
                    Spot.SECOND,
                    key(Face.SIDE, text(R.string.later), Sign.BACK) { shell.backTo(Place.Walk::class) },
                )
            }
            FindingState.PUT_RIGHT -> {
                frame.put(Spot.FIRST, key(Face.GOOD, text(R.string.good_now), Sign.TICK) { again(true) })
                frame.put(Spot.SECOND, key(Face.BAD, text(R.string.still_wrong), Sign.CROSS) { again(false) })
                frame.put(
                    Spot.SIDE_ONE,
                    key(Face.SIDE, text(R.string.later), Sign.BACK) { shell.backTo(Place.Walk::class) },
                )
            }
            FindingState.CLOSED ->
                frame.put(
                    Spot.FIRST,
                    key(Face.GOOD, text(R.string.back), Sign.BACK) { shell.backTo(Place.Walk::class) },
                )
        }
        val words =
            when (finding.state) {
                FindingState.OPEN -> openWords(finding)
                FindingState.PUT_RIGHT -> R.string.finding_again_words
                FindingState.CLOSED -> R.string.finding_closed
            }
        frame.put(
            Spot.MIDDLE,
            parts.scroll(
                body(
                        parts.eyebrow(finding.prompt),
                        parts.heading(finding.shown, 27),
                        parts.words(text(words), 19),
                        finding.piece?.let {
                            parts.panel(parts.facts(listOf(text(R.string.rejected_piece) to it), 22))
                        },
                        finding.note?.let { parts.panel(parts.words(it, 18, ground = palette.panel)) },
                        *finding.story.map { parts.words(it, 16, quiet = true) }.toTypedArray(),
                    )
                    .apply { setPadding(0, (14 * resources.displayMetrics.density).toInt(), 0, 0) }
            ),
        )
        return frame
    }

    private fun openWords(finding: FindingView) =
        when (finding.fate) {
            FateView.IN_PLACE -> R.string.finding_open_words
            FateView.RERIG -> R.string.finding_rerig_words
            FateView.NEW_TAG -> R.string.finding_tag_words
            FateView.REJECT ->
                if (finding.piece == null) R.string.finding_reject_words else R.string.finding_rejected_words
        }

    /** A piece that is rejected goes by its serial number, so that no other load finds it again. */
    private fun rejectKey(finding: FindingView) =
        key(
            Face.BAD,
            text(if (finding.piece == null) R.string.reject_piece else R.string.reject_other),
            Sign.CROSS,
        ) {
            reject(finding)
        }

    private fun reject(finding: FindingView) = shell.go(Place.Write(Why.Reject(walk, finding.number.toInt())))

    private fun putRight() {
        val number = finding?.number ?: return
        shell.answer(walk, WalkRequest.PutRight(number, null, null, emptyList()), Beat.GOOD) { redraw() }
    }

    private fun again(good: Boolean) {
        val finding = finding ?: return
        if (good && finding.needsValue) {
            return shell.go(Place.Value(walk, finding.card.toInt(), finding.point, finding.number.toInt()))
        }
        val beat = if (good) Beat.GOOD else Beat.DEFICIENCY
        shell.answer(walk, WalkRequest.LookAgain(finding.number, good, null, null, emptyList()), beat) {
            if (good) backTo(Place.Walk::class) else redraw()
        }
    }

    override fun hard(answer: HardAnswer) {
        val state = finding?.state ?: return
        when (answer) {
            HardAnswer.FIRST ->
                when (state) {
                    FindingState.OPEN -> if (finding?.fate == FateView.REJECT) reject(finding) else putRight()
                    FindingState.PUT_RIGHT -> again(true)
                    FindingState.CLOSED -> shell.backTo(Place.Walk::class)
                }
            HardAnswer.SECOND ->
                if (state == FindingState.PUT_RIGHT) again(false) else shell.backTo(Place.Walk::class)
            HardAnswer.AGAIN -> spoken?.let(shell::say)
            HardAnswer.BACK -> shell.backTo(Place.Walk::class)
        }
    }
}
