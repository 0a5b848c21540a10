package slingseal.handheld.screens

import android.view.Gravity
import android.view.View
import android.widget.LinearLayout
import slingseal.core.CardState
import slingseal.core.CardView
import slingseal.core.DrawingView
import slingseal.core.PointKind
import slingseal.core.PointState
import slingseal.core.PointView
import slingseal.core.WalkRequest
import slingseal.core.WalkView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Chain
import slingseal.handheld.look.Face
import slingseal.handheld.look.GloveFrame
import slingseal.handheld.look.Link
import slingseal.handheld.look.LoadDrawing
import slingseal.handheld.look.Sign
import slingseal.handheld.look.Spot
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place
import slingseal.handheld.places.WalkRef
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** One card of the walk: read it, do it, answer it. */
class CardScreen(
    shell: Shell,
    override val place: Place.Walk,
    private val walk: WalkView,
    private val card: CardView,
) : Screen(shell, place) {
    private val name
        get() = place.on

    override val spoken
        get() = card.spoken

    override val staysOn
        get() = true

    override val hidesBars
        get() = onItsSide

    override val takesHardKeys
        get() = true

    /**
     * The first point that asks for a value of its own; a count does, for what was not counted is not known
     * to be right.
     */
    private val asking: PointView?
        get() =
            card.points.firstOrNull {
                (it.needsValue || it.kind is PointKind.Count) && it.state == PointState.UNANSWERED
            }

    override fun build(): View {
        val frame = GloveFrame(context)
        val asking = asking
        val first =
            if (asking == null) {
                key(Face.GOOD, text(R.string.all_good), Sign.TICK) { good() }
            } else {
                key(
                    Face.GOOD,
                    text(if (asking.kind is PointKind.Count) R.string.count else R.string.give_value),
                    Sign.NUMBER,
                ) {
                    give(asking)
                }
            }
        frame.put(Spot.FIRST, first)
        frame.put(Spot.SECOND, key(Face.BAD, text(R.string.deficiency), Sign.CROSS) { pick() })
        walk.undo?.let { number ->
            frame.put(Spot.SIDE_ONE, key(Face.SIDE, text(R.string.undo), Sign.UNDO) { undo(number) })
        }
        frame.put(
            Spot.SIDE_TWO,
            key(Face.SIDE, text(R.string.more), Sign.MORE) { shell.go(Place.More(name)) },
        )
        frame.put(Spot.BETWEEN, counter())
        frame.put(Spot.MIDDLE, parts.scroll(words()))
        return frame
    }

    private fun counter(): View =
        parts.spokenAs(numbers(), text(R.string.card_of, card.number.toInt(), card.of.toInt()))

    /** Which card of how many, as large as the room between the keys allows. */
    private fun numbers() =
        LinearLayout(context).apply {
            orientation = LinearLayout.VERTICAL
            gravity = Gravity.CENTER
            val room = { share: Float ->
                LinearLayout.LayoutParams(LinearLayout.LayoutParams.MATCH_PARENT, 0, share)
            }
            addView(
                parts.fitted(card.number.toString(), 34, 20).apply {
                    gravity = Gravity.CENTER_HORIZONTAL or Gravity.BOTTOM
                },
                room(1.4f),
            )
            addView(
                parts.fitted(text(R.string.of_cards, card.of.toInt()), 16, 12).apply {
                    gravity = Gravity.CENTER_HORIZONTAL or Gravity.TOP
                },
                room(1f),
            )
        }

    /** The load, with what this card is about; none for a list of somebody's own. */
    private val lines: DrawingView? =
        shell
            .attempt {
                listOfNotNull(
                    when (val on = place.on) {
                        is WalkRef.Inspection -> shell.core.walkDrawing(on.walk)
                        is WalkRef.Run -> shell.core.examDrawing(on.run)
                    }
                )
            }
            ?.firstOrNull()

    /** A view anew for each drawing of the page: one that has a parent takes no second one. */
    private fun drawing(): LoadDrawing? = lines?.let { LoadDrawing(context, palette, it) }

    /** Beside the title, as long as the letters leave room for it. */
    private val beside
        get() = context.resources.configuration.fontScale <= 1.3f

    private fun title(): View {
        val words =
            parts.column(
                parts.eyebrow(card.station),
                parts.heading(card.title, 25),
                parts.words(card.motion, 18),
                space = 6,
            )
        val load = (if (beside) drawing() else null) ?: return words
        return LinearLayout(context).apply {
            addView(words, LinearLayout.LayoutParams(0, LinearLayout.LayoutParams.WRAP_CONTENT, 1f))
            addView(
                load,
                LinearLayout.LayoutParams(context.dp(DRAWN), context.dp(DRAWN)).apply {
                    marginStart = context.dp(8)
                },
            )
        }
    }

    private fun words(): View =
        body(
                parts.column(
                    Chain(context, palette, walk.cards.map(::link), card.number.toInt() - 1),
                    title(),
                    space = 6,
                ),
                walk.linkChange?.let { parts.signedPanel(Sign.WARN, it, 17) },
                card.caution?.let {
                    parts.panel(parts.words(it, 17, bold = true, ground = palette.panel), thick = true)
                },
                parts.column(*card.points.map(::point).toTypedArray(), space = 8),
                if (beside) null else drawing(),
                space = 10,
            )
            .apply { setPadding(0, context.resources.displayMetrics.density.times(6).toInt(), 0, 0) }

    private fun link(state: CardState) =
        when (state) {
            CardState.UNANSWERED,
            CardState.PARTLY -> Link.OPEN
            CardState.GOOD -> Link.GOOD
            CardState.DEFICIENT -> Link.DEFICIENT
            CardState.AWAITS_SECOND_LOOK -> Link.DEFICIENT
        }

    private fun point(point: PointView): View {
        val sign =
            when (point.state) {
                PointState.UNANSWERED -> Sign.EYE
                PointState.GOOD -> Sign.TICK
                PointState.DEFICIENT,
                PointState.AWAITS_SECOND_LOOK -> Sign.CROSS
            }
        val shown = point.answer?.let { "${point.prompt}: $it" } ?: point.prompt
        return parts.signed(sign, parts.words(shown, 19, bold = true))
    }

    private fun good() = shell.answer(name, WalkRequest.CardGood(card.number), Beat.GOOD) { redraw() }

    private fun undo(number: UInt) = shell.answer(name, WalkRequest.Undo(number), Beat.UNDONE) { redraw() }

    private fun give(point: PointView) = shell.go(Place.Value(name, card.number.toInt(), point.id))

    private fun pick() = shell.go(Place.Pick(name))

    override fun hard(answer: HardAnswer) {
        when (answer) {
            HardAnswer.FIRST -> asking?.let(::give) ?: good()
            HardAnswer.SECOND -> pick()
            HardAnswer.AGAIN -> shell.say(card.spoken)
            HardAnswer.BACK -> walk.undo?.let(::undo) ?: shell.back()
        }
    }

    private companion object {
        /** How large the load is drawn beside the title, in dp. */
        const val DRAWN = 124
    }
}
