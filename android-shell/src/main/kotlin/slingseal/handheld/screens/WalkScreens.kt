package slingseal.handheld.screens

import android.view.View
import slingseal.core.FindingState
import slingseal.core.NextStep
import slingseal.core.WalkRequest
import slingseal.core.WalkStage
import slingseal.core.WalkView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.Why
import slingseal.handheld.places.ofLoad
import slingseal.handheld.places.ref
import slingseal.handheld.places.run
import slingseal.handheld.places.walkOf
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** The page of a walk, whatever the core says comes next. */
fun walkScreen(shell: Shell, place: Place.Walk): Screen {
    place.run?.let {
        return runScreen(shell, place, it)
    }
    val walk = shell.attempt { shell.core.walkOf(place.on) } ?: return StartScreen(shell, place)
    val card = walk.card
    return when (walk.next) {
        NextStep.ANSWER_CARD ->
            if (card != null) CardScreen(shell, place, walk, card) else DecideScreen(shell, place, walk)
        NextStep.LOOK_AGAIN -> FindingsScreen(shell, place, place.on, walk)
        NextStep.DECIDE -> DecideScreen(shell, place, walk)
        NextStep.SEAL -> PinScreen(shell, place, walk)
        NextStep.RESUME,
        NextStep.NOTHING ->
            if (!walk.ofLoad && walk.stage is WalkStage.Decided) decidedSubject(shell, place, walk)
            else PausedScreen(shell, place, walk)
    }
}

/** A walk that stands still: paused, or given up. */
class PausedScreen(shell: Shell, place: Place, private val walk: WalkView) : Screen(shell, place) {
    override fun build(): View {
        val stage = walk.stage
        val words =
            if (stage is WalkStage.Abandoned) text(R.string.abandoned_because, stage.reason)
            else text(R.string.paused_words)
        val keys =
            if (walk.next == NextStep.RESUME) {
                listOf(
                    key(Face.GOOD, text(R.string.resume), Sign.TICK) {
                        shell.answer(walk.ref, WalkRequest.Resume, Beat.GOOD) { redraw() }
                    }
                )
            } else {
                emptyList()
            }
        return page(
            walk.load,
            body(parts.words(walk.title, 20, bold = true), parts.words(words, 20), progress(walk)),
            keys,
        )
    }

    private fun progress(walk: WalkView) =
        parts.words(
            text(R.string.cards_done, walk.progress.cardsDone.toInt(), walk.progress.cards.toInt()),
            18,
        )
}

/** Side steps from a card. */
class MoreScreen(shell: Shell, override val place: Place.More) : Screen(shell, place) {
    override val staysOn
        get() = true

    private val walk = shell.attempt { shell.core.walkOf(place.on) }

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.more), body())
        val open = walk.findings.count { it.state != FindingState.CLOSED }
        val rows =
            listOfNotNull(
                key(Face.ROW, text(R.string.say_again), Sign.SPEAK) {
                    walk.card?.let { shell.say(it.spoken) }
                },
                key(Face.ROW, text(R.string.findings), Sign.CROSS, text(R.string.findings_open, open)) {
                    shell.go(Place.Findings(walk.ref))
                },
                key(
                    Face.ROW,
                    text(R.string.all_cards),
                    Sign.LIST,
                    text(R.string.cards_done, walk.progress.cardsDone.toInt(), walk.progress.cards.toInt()),
                ) {
                    shell.go(Place.Cards(walk.ref))
                },
                key(Face.ROW, text(R.string.pause), Sign.BARS) {
                    shell.answer(walk.ref, WalkRequest.Pause, Beat.GOOD) { backTo(Place.Start::class) }
                },
                key(Face.ROW, text(R.string.settings), Sign.SUN) { shell.go(Place.Settings()) },
                key(Face.ROW, text(R.string.abandon), Sign.WARN, text(R.string.abandon_about)) {
                    shell.go(Place.Write(Why.Abandon(walk.ref)))
                },
            )
        val rigging =
            walk.rigging?.let {
                key(Face.ROW, text(R.string.rigging), Sign.EYE, it) { shell.go(Place.Rigging(walk.ref)) }
            }
        return page(
            text(R.string.more),
            body(
                parts.column(*(rows + listOfNotNull(rigging)).toTypedArray(), space = 20),
                walk.linkChange?.let { parts.words(it, 18) },
            ),
        )
    }
}

/** Every card, to go back to one. */
class CardsScreen(shell: Shell, override val place: Place.Cards) : Screen(shell, place) {
    override val staysOn
        get() = true

    private val walk = shell.attempt { shell.core.walkOf(place.on) }

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.all_cards), body())
        val rows =
            walk.cards.mapIndexed { at, state ->
                val number = at + 1
                val station =
                    walk.stations.firstOrNull { number in it.first.toInt()..it.last.toInt() }?.title.orEmpty()
                val (sign, word) =
                    when (state) {
                        slingseal.core.CardState.GOOD -> Sign.TICK to R.string.card_good
                        slingseal.core.CardState.DEFICIENT -> Sign.CROSS to R.string.card_deficient
                        slingseal.core.CardState.AWAITS_SECOND_LOOK -> Sign.EYE to R.string.card_second_look
                        slingseal.core.CardState.PARTLY -> Sign.BARS to R.string.card_partly
                        slingseal.core.CardState.UNANSWERED -> Sign.NONE to R.string.card_open
                    }
                key(Face.ROW, "$number · $station", sign, text(word)) {
                    shell.answer(place.on, WalkRequest.GoTo(number.toUInt()), Beat.GOOD) {
                        backTo(Place.Walk::class)
                    }
                }
            }
        return page(text(R.string.all_cards), body(parts.column(*rows.toTypedArray(), space = 14)))
    }
}

/** Everything that was found; what is open comes first. */
class FindingsScreen(
    shell: Shell,
    place: Place,
    private val of: WalkRef,
    private val given: WalkView? = null,
) : Screen(shell, place) {
    private var list: PickList? = null
    override val staysOn
        get() = true

    override val takesHardKeys
        get() = true

    override val spoken
        get() = text(R.string.look_again_words)

    private val walk = given ?: shell.attempt { shell.core.walkOf(of) }

    override fun build(): View {
        val walk = walk ?: return page(text(R.string.findings), body())
        val rows =
            walk.findings
                .sortedBy { it.state == FindingState.CLOSED }
                .map { finding ->
                    val (sign, state) = signOf(finding.state)
                    key(Face.ROW, finding.shown, sign, "${text(state)} · ${finding.prompt}") {
                        shell.go(Place.Finding(walk.ref, finding.number.toInt()))
                    }
                }
        list = PickList(rows, shell)
        val notFit =
            if (walk.next == NextStep.LOOK_AGAIN) {
                key(Face.BAD, text(R.string.not_fit), Sign.CROSS) { notFit(shell, walk) }
            } else {
                null
            }
        val words = if (rows.isEmpty()) R.string.nothing_found else R.string.look_again_words
        return page(
            text(R.string.findings),
            body(parts.words(text(words), 19), parts.column(*rows.toTypedArray(), space = 18)),
            listOfNotNull(notFit),
        )
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit
}
