package slingseal.handheld.screens

import android.view.View
import slingseal.core.PointView
import slingseal.core.WalkRequest
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Why
import slingseal.handheld.places.walkOf
import slingseal.handheld.sense.Beat
import slingseal.handheld.sense.HardAnswer

/** Why a point does not apply to this load: a reason from the list, or words. It stands on the record. */
class NotApplicableScreen(shell: Shell, override val place: Place.NotApplicable) : Screen(shell, place) {
    private val walk
        get() = place.on

    private var list: PickList? = null
    override val staysOn
        get() = true

    override val takesHardKeys
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.not_applicable)

    override val spoken
        get() = text(R.string.not_applicable_guide)

    private val point: PointView? =
        shell.attempt { shell.core.walkOf(walk) }?.card?.points?.firstOrNull { it.id == place.point }

    override fun build(): View {
        val rows =
            REASONS.map { id -> key(Face.ROW, text(id), Sign.MINUS) { take(text(id)) } } +
                key(Face.ROW, text(R.string.own_words), Sign.PLUS) {
                    shell.go(Place.Write(Why.NotApplicable(walk, place.card, place.point)))
                }
        list = PickList(rows, shell)
        return page(
            text(R.string.not_applicable),
            body(
                point?.let { parts.heading(it.prompt, 22) },
                parts.words(text(R.string.not_applicable_guide), 19),
                parts.column(*rows.toTypedArray(), space = 18),
            ),
        )
    }

    private fun take(reason: String) {
        val request = WalkRequest.NotApplicable(place.card.toUInt(), place.point, reason)
        shell.answer(walk, request, Beat.GOOD) { backTo(Place.Walk::class) }
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit

    private companion object {
        val REASONS = listOf(R.string.na_not_fitted, R.string.na_not_used, R.string.na_other_half)
    }
}
