package slingseal.handheld.screens

import android.view.Gravity
import android.view.View
import android.widget.LinearLayout
import slingseal.core.CardState
import slingseal.core.FindingState
import slingseal.core.FindingView
import slingseal.core.StationView
import slingseal.core.WalkRequest
import slingseal.core.WalkView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.GloveFrame
import slingseal.handheld.look.PressGuard
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Spot
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place
import slingseal.handheld.places.Why
import slingseal.handheld.places.ofLoad
import slingseal.handheld.places.ref
import slingseal.handheld.places.walkOf
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/**
 * The decision, behind a recap that is gone through: first what was found, then station by station what was
 * said of its cards. "All good" pressed from end to end is no look: FIT stands on the last page of the recap
 * alone, and is held, not tapped. The core says whether it may be said at all.
 */
class DecideScreen(shell: Shell, override val place: Place.Walk, private val walk: WalkView) :
    Screen(shell, place) {
    private val free
        get() = walk.blocksFit.isEmpty()

    private val last
        get() = walk.stations.size

    /**
     * Which page of the recap: 0 is what was found, then one a station. It stands in the place, so that a
     * turn of the phone keeps it.
     */
    private val step
        get() = place.recap.coerceIn(0, last)

    private val station: StationView?
        get() = walk.stations.getOrNull(step - 1)

    private val mayFit
        get() = free && step == last

    override val staysOn
        get() = true

    override val hidesBars
        get() = onItsSide

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.decide)

    override val spoken: String
        get() =
            listOfNotNull(
                    station?.let { "${it.title}. ${stationWords(it)}" }
                        ?: walk.blocksFit.firstOrNull()
                        ?: foundWords(),
                    if (mayFit)
                        text(if (walk.ofLoad) R.string.decide_words else R.string.decide_words_subject)
                    else null,
                )
                .joinToString(" ")

    override fun build(): View {
        val frame = GloveFrame(context)
        if (mayFit) {
            frame.put(
                Spot.FIRST,
                key(Face.GOOD, text(R.string.fit_held), Sign.TICK, hold = PressGuard.GRAVE) { fit() },
            )
        } else if (step < last) {
            frame.put(Spot.FIRST, key(Face.SIDE, text(R.string.next), Sign.NEXT) { to(step + 1) })
        }
        frame.put(Spot.SECOND, key(Face.BAD, text(R.string.not_fit), Sign.CROSS) { notFit(shell, walk) })
        frame.put(Spot.SIDE_ONE, key(Face.SIDE, text(R.string.back), Sign.BACK) { back() })
        val undo = walk.undo?.takeIf { step == 0 }
        frame.put(
            Spot.SIDE_TWO,
            if (undo != null) key(Face.SIDE, text(R.string.undo), Sign.UNDO) { undo(undo) }
            else key(Face.SIDE, text(R.string.cards), Sign.LIST) { shell.go(Place.Cards(walk.ref)) },
        )
        frame.put(Spot.BETWEEN, parts.spokenAs(numbers(), text(R.string.recap_of, step + 1, last + 1)))
        frame.put(Spot.MIDDLE, parts.scroll(contents()))
        return frame
    }

    private fun numbers() =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            gravity = Gravity.CENTER
            val room = { share: Float ->
                LinearLayout.LayoutParams(LinearLayout.LayoutParams.MATCH_PARENT, 0, share)
            }
            addView(
                parts.fitted((step + 1).toString(), 34, 20).apply {
                    gravity = Gravity.CENTER_HORIZONTAL or Gravity.BOTTOM
                },
                room(1.4f),
            )
            addView(
                parts.fitted(text(R.string.of_cards, last + 1), 16, 12).apply {
                    gravity = Gravity.CENTER_HORIZONTAL or Gravity.TOP
                },
                room(1f),
            )
        }

    private fun contents(): View {
        val views = station?.let(::ofStation) ?: ofLoad()
        val ask =
            if (mayFit)
                parts.words(
                    text(if (walk.ofLoad) R.string.decide_words else R.string.decide_words_subject),
                    20,
                    bold = true,
                )
            else null
        return body(*views.toTypedArray(), ask, space = 10).apply { setPadding(0, context.dp(8), 0, 0) }
    }

    private fun ofLoad(): List<View> {
        val blocks = walk.blocksFit.map { parts.signedPanel(Sign.WARN, it, 19) }
        val facts =
            listOfNotNull(
                text(R.string.procedure) to walk.title,
                text(R.string.inspector) to walk.inspector,
                walk.rigging?.let { text(R.string.rigging) to it },
            )
        val change = walk.linkChange?.let { parts.signedPanel(Sign.WARN, it, 17) }
        return listOfNotNull(
            parts.heading(
                text(
                    if (free) R.string.recap
                    else if (walk.ofLoad) R.string.decide_blocked else R.string.decide_blocked_subject
                ),
                24,
            ),
            *blocks.toTypedArray(),
            parts.words(foundWords(), 19, bold = true),
            *walk.findings.map(::finding).toTypedArray(),
            change,
            parts.panel(parts.facts(facts, 17)),
            *walk.cautions.map { parts.signed(Sign.WARN, parts.words(it, 17)) }.toTypedArray(),
            parts.words(text(R.string.manual_rules), 15, quiet = true),
        )
    }

    private fun ofStation(station: StationView): List<View> =
        listOf(
            parts.eyebrow(
                if (station.first == station.last) text(R.string.recap_card, station.first.toInt())
                else text(R.string.recap_cards, station.first.toInt(), station.last.toInt())
            ),
            parts.heading(station.title, 25),
            parts.signed(
                if (here(station).any { it.state != FindingState.CLOSED }) Sign.CROSS else Sign.TICK,
                parts.words(stationWords(station), 19, bold = true),
            ),
        ) + here(station).map(::finding)

    private fun here(station: StationView) = walk.findings.filter { it.card in station.first..station.last }

    private fun stationWords(station: StationView): String {
        val states = walk.cards.subList(station.first.toInt() - 1, station.last.toInt())
        val good = states.count { it == CardState.GOOD }
        return if (good == states.size) text(R.string.recap_all_good)
        else text(R.string.recap_good, good, states.size)
    }

    private fun foundWords(): String {
        val closed = walk.findings.count { it.state == FindingState.CLOSED }
        return if (walk.findings.isEmpty()) text(R.string.nothing_found)
        else text(R.string.found_corrected, walk.findings.size, closed)
    }

    private fun finding(finding: FindingView): View {
        val (sign, state) = signOf(finding.state)
        val lines =
            listOfNotNull(
                parts.signed(
                    sign,
                    parts.words(finding.shown, 18, bold = true, ground = palette.panel),
                    palette.panel,
                ),
                parts.words(
                    "${text(R.string.exam_card, finding.card.toInt())} · ${finding.prompt} · ${text(state)}",
                    16,
                    ground = palette.panel,
                ),
                finding.value?.let { parts.words(it, 16, ground = palette.panel) },
                finding.note?.let { parts.words("“$it”", 16, ground = palette.panel) },
            )
        return parts.panel(parts.column(*lines.toTypedArray(), space = 3))
    }

    private fun to(next: Int) {
        shell.feel(Beat.READ)
        shell.swap(Place.Walk(walk.ref, next))
    }

    private fun back() = if (step > 0) to(step - 1) else shell.back()

    private fun undo(number: UInt) {
        shell.answer(walk.ref, WalkRequest.Undo(number), Beat.UNDONE) { redraw() }
    }

    private fun fit() {
        val on = walk.ref
        shell.answer(on, WalkRequest.Decide(true, null), Beat.GOOD) { swap(Place.Walk(on)) }
    }

    /** Up goes on; at the end the long press says fit, which no brush does. */
    override fun hard(answer: HardAnswer) =
        when (answer) {
            HardAnswer.FIRST -> if (step < last) to(step + 1) else shell.say(text(R.string.fit_by_key))
            HardAnswer.SECOND -> notFit(shell, walk)
            HardAnswer.AGAIN -> if (mayFit) fit() else shell.say(spoken)
            HardAnswer.BACK -> back()
        }
}

/** How a finding is shown, the same sign on every page. */
internal fun signOf(state: FindingState): Pair<Sign, Int> =
    when (state) {
        FindingState.OPEN -> Sign.CROSS to R.string.finding_open
        FindingState.PUT_RIGHT -> Sign.EYE to R.string.finding_put_right
        FindingState.CLOSED -> Sign.TICK to R.string.finding_closed
    }

/**
 * Not fit: where a deficiency is open it says why, and one key is enough; else a reason is picked. Either can
 * be taken back.
 */
internal fun notFit(shell: Shell, walk: WalkView) {
    if (
        walk.findings.none { it.state != FindingState.CLOSED } &&
            walk.tagFaults.isEmpty() &&
            walk.riggingWithinLimits
    ) {
        return shell.go(Place.NotFit(walk.ref))
    }
    shell.answer(walk.ref, WalkRequest.Decide(false, null), Beat.DEFICIENCY) { backTo(Place.Walk::class) }
}

/** Why a load is not fit on which no deficiency is open: a reason from the list, or words. */
class NotFitScreen(shell: Shell, override val place: Place.NotFit) : Screen(shell, place) {
    private var list: PickList? = null
    override val staysOn
        get() = true

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.not_fit)

    private val ofLoad = shell.attempt { shell.core.walkOf(place.on) }?.ofLoad != false
    override val spoken
        get() = text(if (ofLoad) R.string.not_fit_guide else R.string.not_fit_guide_subject)

    override fun build(): View {
        val rows =
            REASONS.filter { ofLoad || it !in OF_LOADS }
                .map { id -> key(Face.ROW, text(id), Sign.CROSS) { decide(text(id)) } } +
                key(Face.ROW, text(R.string.own_words), Sign.PLUS) {
                    shell.go(Place.Write(Why.NotFit(place.on)))
                }
        list = PickList(rows, shell)
        return page(
            text(R.string.not_fit),
            body(parts.words(spoken, 19), parts.column(*rows.toTypedArray(), space = 18)),
        )
    }

    private fun decide(reason: String) {
        shell.answer(place.on, WalkRequest.Decide(false, reason), Beat.DEFICIENCY) {
            backTo(Place.Walk::class)
        }
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit

    private companion object {
        val OF_LOADS = setOf(R.string.why_changed, R.string.why_plan)
        val REASONS =
            listOf(
                R.string.why_changed,
                R.string.why_weather,
                R.string.why_missing,
                R.string.why_plan,
                R.string.why_doubt,
            )
    }
}
