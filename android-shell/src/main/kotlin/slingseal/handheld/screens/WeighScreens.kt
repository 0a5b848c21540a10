package slingseal.handheld.screens

import android.view.View
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Measure
import slingseal.handheld.places.Place
import slingseal.handheld.places.Weighing
import slingseal.handheld.sense.Beat

/** What was keyed in stands on the page of the weighing, whatever lies over it. */
internal fun Weighing.put(shell: Shell) {
    remember()
    shell.backTo(Place.Weigh::class)
    shell.swap(Place.Weigh(this))
}

/** A number of the weighing in a row: what it is, and what was keyed in. */
private fun Screen.measureRow(shell: Shell, weighing: Weighing, measure: Measure, at: Int): Key {
    fun text(id: Int) = shell.activity.getString(id)
    val value = measure.of(weighing, at)
    return Key(
        shell.activity,
        shell.palette,
        Face.ROW,
        text(measure.title).replaceFirstChar(Char::uppercase),
        if (value.isEmpty()) Sign.NUMBER else Sign.TICK,
        value.ifEmpty { text(R.string.plan_open) },
    ) {
        if (!shell.busy) shell.go(Place.WeighNumber(weighing, measure, at))
    }
}

/**
 * A load that is weighed where it stands: its points with what their scales show, the scales and their
 * tolerance, its height. What it comes to is the core's.
 */
class WeighScreen(shell: Shell, override val place: Place.Weigh) : Screen(shell, place) {
    private val weighing = place.weighing
    override val staysOn
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.weigh)

    override val spoken
        get() = text(R.string.weigh_guide)

    override fun build(): View {
        val entered = weighing.entered
        val points =
            entered.points.mapIndexed { at, point ->
                val places =
                    listOf(Measure.FORWARD, Measure.AFT, Measure.LEFT, Measure.RIGHT).mapNotNull { measure ->
                        measure.of(weighing, at).ifEmpty { null }?.let { "$it ${text(measure.title)}" }
                    }
                key(
                    Face.ROW,
                    point.name.ifEmpty { text(R.string.weigh_point, at + 1) },
                    if (point.reads.isEmpty()) Sign.NONE else Sign.TICK,
                    (listOf(point.reads.ifEmpty { text(R.string.plan_open) }) + places).joinToString(" · "),
                ) {
                    shell.go(Place.WeighPoint(weighing, at))
                }
            }
        val more =
            key(Face.ROW, text(R.string.weigh_another), Sign.PLUS) {
                shell.go(Place.WeighPoint(weighing, entered.points.size))
            }
        return page(
            text(R.string.weigh),
            body(
                parts.words(text(R.string.weigh_guide), 19),
                parts.column(*(points + more).toTypedArray(), space = 12),
                parts.eyebrow(text(R.string.weigh_scales_title)),
                parts.column(*scales().toTypedArray(), space = 12),
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            ),
            listOf(key(Face.GOOD, text(R.string.weigh_work_out), Sign.TICK) { workOut() }),
        )
    }

    private fun scales(): List<Key> {
        val entered = weighing.entered
        val height =
            listOf(entered.raised, entered.height).firstOrNull(String::isNotEmpty)?.removePrefix("-")?.let {
                value ->
                if (entered.raised.isEmpty()) value else text(R.string.weigh_raised_by, value)
            }
        return listOf(
            key(
                Face.ROW,
                text(R.string.weigh_scales),
                if (entered.scales.isEmpty()) Sign.TYPE else Sign.TICK,
                entered.scales.ifEmpty { text(R.string.plan_open) },
            ) {
                shell.go(Place.WeighWords(weighing))
            },
            measureRow(shell, weighing, Measure.TOLERANCE, 0),
            measureRow(shell, weighing, Measure.TOLERANCE_SHARE, 0),
            key(
                Face.ROW,
                text(R.string.weigh_height),
                if (height == null) Sign.NONE else Sign.TICK,
                height ?: text(R.string.weigh_height_open),
            ) {
                shell.go(Place.WeighHeight(weighing))
            },
            key(
                Face.ROW,
                text(R.string.weigh_tape, entered.lengthUnit),
                Sign.NONE,
                text(R.string.weigh_unit),
            ) {
                change(weighing.copy(entered = entered.copy(lengthUnit = after(LENGTHS, entered.lengthUnit))))
            },
            key(Face.ROW, text(R.string.weigh_mass, entered.massUnit), Sign.NONE, text(R.string.weigh_unit)) {
                change(weighing.copy(entered = entered.copy(massUnit = after(MASSES, entered.massUnit))))
            },
        )
    }

    private fun change(to: Weighing) = to.put(shell)

    private fun after(units: List<String>, unit: String) = units[(units.indexOf(unit) + 1) % units.size]

    private fun workOut() {
        val (core, of) = shell.core to weighing
        shell.work({ core.weighDraft(of.draft, of.entered) }) { weighed ->
            if (weighed.taken == null) {
                feel(Beat.REFUSED)
                notice = weighed.faults.firstOrNull()?.words
                redrawSame()
            } else {
                feel(if (weighed.good) Beat.GOOD else Beat.DEFICIENCY)
                go(Place.Weighed(weighed))
            }
        }
    }

    private companion object {
        val LENGTHS = listOf("in", "ft", "cm", "m")
        val MASSES = listOf("lb", "kg", "t")
    }
}

/** One point: what its scale shows, and where its push goes through. */
class WeighPointScreen(shell: Shell, override val place: Place.WeighPoint) : Screen(shell, place) {
    private val weighing = place.weighing
    private val at = place.at
    private val name
        get() = weighing.point(at).name.ifEmpty { text(R.string.weigh_point, at + 1) }

    override val staysOn
        get() = true

    override val paneTitle: CharSequence
        get() = name

    override val spoken
        get() = name

    override fun build(): View {
        val raised = weighing.entered.raised.isNotEmpty()
        val measures = Measure.OF_POINT + if (raised) Measure.OF_POINT_RAISED else emptyList()
        val rows = measures.map { measureRow(shell, weighing, it, at) }
        val called =
            key(Face.ROW, text(R.string.weigh_name), Sign.TICK, name) {
                shell.go(Place.WeighWords(weighing, at))
            }
        val off =
            key(Face.ROW, text(R.string.weigh_off), Sign.CROSS, text(R.string.weigh_off_about)) { off() }
        val last = at >= weighing.entered.points.size - 1
        val next =
            key(
                Face.GOOD,
                text(if (last) R.string.done else R.string.weigh_next),
                if (last) Sign.TICK else Sign.NEXT,
            ) {
                if (last) shell.back() else shell.swap(Place.WeighPoint(weighing, at + 1))
            }
        return page(
            name,
            body(
                parts.words(text(R.string.weigh_point_guide), 18),
                parts.column(*(rows + called + off).toTypedArray(), space = 12),
            ),
            listOf(next),
        )
    }

    private fun off() {
        val points = weighing.entered.points.filterIndexed { other, _ -> other != at }
        weighing.copy(entered = weighing.entered.copy(points = points)).put(shell)
    }
}

/** The height of the centre of gravity: keyed in, or by a second weighing with one end raised. */
class WeighHeightScreen(shell: Shell, override val place: Place.WeighHeight) : Screen(shell, place) {
    private val weighing = place.weighing
    override val staysOn
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.weigh_height)

    override val spoken
        get() = text(R.string.weigh_height_guide)

    override fun build(): View {
        fun rows(of: List<Measure>) =
            parts.column(*of.map { measureRow(shell, weighing, it, 0) }.toTypedArray(), space = 12)
        return page(
            text(R.string.weigh_height),
            body(
                parts.words(text(R.string.weigh_height_guide), 19),
                rows(Measure.OF_HEIGHT),
                parts.eyebrow(text(R.string.weigh_second)),
                parts.words(text(R.string.weigh_second_guide), 18),
                rows(Measure.OF_RAISED),
            ),
            listOf(key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.back() }),
        )
    }
}
