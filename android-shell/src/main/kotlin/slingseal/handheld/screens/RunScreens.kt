package slingseal.handheld.screens

import android.view.View
import slingseal.core.NextStep
import slingseal.core.RunView
import slingseal.core.WalkRequest
import slingseal.core.WalkView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.run
import slingseal.handheld.places.walkOf
import slingseal.handheld.sense.Beat

/**
 * The page of a run. It is made from the run alone: what is planted is in no view that a student's page asks
 * for.
 */
internal fun runScreen(shell: Shell, place: Place.Walk, run: String): Screen {
    val view = shell.attempt { shell.core.examRun(run) } ?: return StartScreen(shell, Place.Start)
    val card = view.walk.card
    return when {
        view.ended -> RunEndedScreen(shell, place, view)
        view.walk.next == NextStep.ANSWER_CARD && card != null -> CardScreen(shell, place, view.walk, card)
        else -> EndRunScreen(shell, place, WalkRef.Run(run))
    }
}

/** Side steps from a card of a run: nothing pauses it. */
class RunMoreScreen(shell: Shell, place: Place, private val run: WalkRef.Run) : Screen(shell, place) {
    override val staysOn
        get() = true

    private val walk = shell.attempt { shell.core.walkOf(run) }

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.more), body())
        val rows =
            listOf(
                key(Face.ROW, text(R.string.exam_end), Sign.TICK, text(R.string.exam_end_about)) {
                    shell.go(Place.ExamEnd(run))
                },
                key(
                    Face.ROW,
                    text(R.string.exam_calls),
                    Sign.CROSS,
                    text(R.string.exam_called, walk.findings.size),
                ) {
                    shell.go(Place.ExamCalls(run))
                },
                key(Face.ROW, text(R.string.all_cards), Sign.LIST, answered(walk)) {
                    shell.go(Place.Cards(run))
                },
                key(Face.ROW, text(R.string.say_again), Sign.SPEAK) {
                    walk.card?.let { shell.say(it.spoken) }
                },
                key(Face.ROW, text(R.string.settings), Sign.SUN) { shell.go(Place.Settings(run)) },
            )
        return page(
            text(R.string.more),
            body(
                parts.column(*rows.toTypedArray(), space = 20),
                parts.words(text(R.string.exam_no_pause), 17, quiet = true),
            ),
        )
    }

    private fun answered(walk: WalkView) =
        text(R.string.cards_done, walk.progress.cardsDone.toInt(), walk.progress.cards.toInt())
}

/** What was called, to go back to its card; nothing is put right in a run. */
class CallsScreen(shell: Shell, override val place: Place.ExamCalls) : Screen(shell, place) {
    override val staysOn
        get() = true

    private val walk = shell.attempt { shell.core.walkOf(place.on) }

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.exam_calls), body())
        val rows =
            walk.findings.map { call ->
                key(
                    Face.ROW,
                    call.shown,
                    Sign.CROSS,
                    "${text(R.string.exam_card, call.card.toInt())} · ${call.prompt}",
                ) {
                    shell.answer(place.on, WalkRequest.GoTo(call.card), Beat.GOOD) {
                        backTo(Place.Walk::class)
                    }
                }
            }
        val none = if (rows.isEmpty()) parts.words(text(R.string.exam_no_calls), 19) else null
        return page(text(R.string.exam_calls), body(none, parts.column(*rows.toTypedArray(), space = 18)))
    }
}

/** Whether the run is to end: behind the last card, or before it. */
class EndRunScreen(shell: Shell, place: Place, private val on: WalkRef.Run) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val spoken
        get() = text(R.string.exam_end_ask)

    private val walk = shell.attempt { shell.core.walkOf(on) }

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.exam_end), body())
        val left = (walk.progress.cards - walk.progress.cardsDone).toInt()
        val words = if (left == 0) text(R.string.exam_all_answered) else text(R.string.exam_left, left)
        return page(
            text(R.string.exam_end_ask),
            body(
                parts.words(words, 21, bold = true),
                parts.words(text(R.string.exam_called, walk.findings.size), 19),
                parts.column(
                    key(Face.ROW, text(R.string.exam_calls), Sign.CROSS) { shell.go(Place.ExamCalls(on)) },
                    key(Face.ROW, text(R.string.all_cards), Sign.LIST) { shell.go(Place.Cards(on)) },
                    space = 18,
                ),
            ),
            listOf(key(Face.GOOD, text(R.string.exam_end), Sign.TICK) { end() }),
        )
    }

    private fun end() {
        val run = on.run
        shell.ask({ examEnd(run) }) {
            feel(Beat.GOOD)
            backTo(Place.Walk::class)
        }
    }
}

/** A run that is ended: to the instructor, by hand or by code. */
class RunEndedScreen(shell: Shell, place: Place, private val run: RunView) : Screen(shell, place) {
    override val spoken
        get() = text(R.string.exam_ended_words)

    private val line = shell.attempt { shell.core.examRuns() }?.firstOrNull { it.run == run.sheet }

    override fun build(): View {
        val sheet =
            key(if (line?.canScore == true) Face.SIDE else Face.GOOD, text(R.string.exam_sheet), Sign.SHOW) {
                shell.go(Place.ExamSheet(run.run))
            }
        val score =
            line
                ?.takeIf { it.canScore }
                ?.let {
                    key(Face.GOOD, text(R.string.exam_score), Sign.KEY) { shell.go(Place.ExamScore(it.run)) }
                }
        val facts =
            parts.facts(
                listOf(
                    text(R.string.exam_student) to run.student,
                    text(R.string.load) to run.walk.load,
                    text(R.string.exam_time) to run.clock,
                    text(R.string.exam_key) to run.key,
                )
            )
        return page(
            text(R.string.exam_ended),
            body(
                parts.words(text(R.string.exam_ended_words), 20, bold = true),
                parts.panel(facts),
                parts.words(
                    text(if (score == null) R.string.exam_ended_away else R.string.exam_ended_here),
                    18,
                ),
                parts.words(text(R.string.exam_training), 17, quiet = true),
            ),
            listOfNotNull(score, sheet),
        )
    }
}

/** The sheet of an ended run as a moving code: the instructor's device takes it in. */
class ExamSheetScreen(shell: Shell, override val place: Place.ExamSheet) : FramesScreen(shell, place) {
    override val spoken
        get() = text(R.string.exam_sheet_words)

    override fun prepare() = shell.attempt { shell.core.examSheetMoving(place.run) }

    override fun about(out: slingseal.core.MovingOut): List<View> =
        listOf(
            parts.words(text(R.string.exam_sheet_words), 18, bold = true),
            parts.words(text(R.string.exam_sheet_how), 17),
            parts.panel(parts.facts(listOf(text(R.string.move_frames) to out.enough.toString()), 18)),
            parts.words(text(R.string.exam_training), 16, quiet = true),
        )
}
