package slingseal.handheld.screens

import android.view.View
import slingseal.core.ExamPick
import slingseal.core.ExamPlan
import slingseal.core.PlantedView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planting
import slingseal.handheld.sense.HardAnswer

/**
 * The cards on which something can be planted, with what is picked on each: one a card, or one would hide
 * another.
 */
class ExamPickCardScreen(shell: Shell, override val place: Place.ExamCards) : Screen(shell, place) {
    override val secret
        get() = true

    private val planting = place.planting

    private val all = shell.attempt { shell.core.examPlantable(planting.tag) }

    override fun build(): View {
        val all = all ?: return page(text(R.string.exam_pick), body())
        val views = mutableListOf<View>()
        for ((station, here) in all.groupBy { it.station }) {
            views += parts.words(station, 19, bold = true)
            for ((card, names) in here.groupBy { it.card }) views += row(card, names)
        }
        return page(
            text(R.string.exam_pick),
            body(
                parts.words(text(R.string.exam_pick_words, planting.picks.size), 18),
                parts.column(*views.toTypedArray(), space = 12),
            ),
            listOf(key(Face.GOOD, text(R.string.exam_rig_these), Sign.TICK) { done() }),
        )
    }

    private fun row(card: UInt, names: List<PlantedView>): Key {
        val picked = names.firstOrNull { planting.has(it) }
        val title = text(R.string.exam_card_title, card.toInt(), names.first().cardTitle)
        return key(Face.ROW, title, if (picked == null) Sign.NONE else Sign.CROSS, picked?.shown) {
                shell.go(Place.ExamNames(planting, card.toInt()))
            }
            .apply { chosen = picked != null }
    }

    private fun done() {
        val plan = ExamPlan(planting.tag, planting.picks, null, null)
        shell.ask({ examPlan(plan) }) {
            backTo(Place.ExamPlan::class)
            swap(Place.ExamPlan(planting))
        }
    }
}

/** What can be planted on one card. */
class ExamPickNameScreen(shell: Shell, override val place: Place.ExamNames) : Screen(shell, place) {
    override val secret
        get() = true

    private val planting = place.planting
    private val card = place.card.toUInt()
    private var list: PickList? = null
    override val takesHardKeys
        get() = true

    private val here =
        shell.attempt { shell.core.examPlantable(planting.tag) }.orEmpty().filter { it.card == card }

    override fun build(): View {
        val keys = mutableListOf<Key>()
        val views = mutableListOf<View>()
        for ((prompt, names) in here.groupBy { it.prompt }) {
            views += parts.words(prompt, 19, bold = true)
            for (known in names) {
                val row =
                    key(Face.ROW, known.shown, if (planting.has(known)) Sign.TICK else Sign.CROSS) {
                        take(here, known)
                    }
                keys += row
                views += row
            }
        }
        if (here.any { planting.has(it) }) {
            val none = key(Face.ROW, text(R.string.exam_leave_out), Sign.MINUS) { take(here, null) }
            keys += none
            views += none
        }
        list = PickList(keys, shell)
        val title =
            here.firstOrNull()?.let { text(R.string.exam_card_title, card.toInt(), it.cardTitle) }
                ?: text(R.string.exam_pick)
        return page(title, body(parts.column(*views.toTypedArray(), space = 14)))
    }

    private fun take(here: List<PlantedView>, picked: PlantedView?) {
        val others = planting.picks.filter { pick -> here.none { it.point == pick.point } }
        val picks = others + listOfNotNull(picked?.let { ExamPick(it.point, it.name) })
        shell.backTo(Place.ExamCards::class)
        shell.swap(Place.ExamCards(planting.picking(picks)))
    }

    override fun hard(answer: HardAnswer) = list?.hard(answer) ?: Unit
}

private fun Planting.has(known: PlantedView) =
    picks.any { it.point == known.point && it.deficiency == known.name }
