package slingseal.handheld.screens

import android.view.View
import android.widget.TextView
import slingseal.core.Role
import slingseal.core.TagDraft
import slingseal.handheld.Place
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.NumberPad
import slingseal.handheld.look.Page
import slingseal.handheld.look.Sign
import slingseal.handheld.sense.Beat

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

/** Words of a weighing: the scales and their source, or what a point is called. */
class WeighWordsScreen(shell: Shell, override val place: Place.WeighWords) : WritingScreen(shell, place) {
    private val weighing = place.weighing
    private val at = place.at
    override val staysOn
        get() = true

    override val title
        get() = text(if (at == null) R.string.weigh_scales else R.string.weigh_name)

    override val guide
        get() = text(if (at == null) R.string.weigh_scales_guide else R.string.weigh_name_guide)

    override val done
        get() = text(R.string.take_it)

    override val before
        get() = at?.let { weighing.point(it).name } ?: weighing.entered.scales

    override fun take(words: String) {
        // one line: what a person reads beside a number
        val line = words.trim().replace(Regex("\\s+"), " ")
        if (at == null) return weighing.copy(entered = weighing.entered.copy(scales = line)).put(shell)
        val changed = weighing.with(at, weighing.point(at).copy(name = line))
        changed.put(shell)
        shell.go(Place.WeighPoint(changed, at))
    }
}

/** A number of a weighing on keys for a glove. */
class WeighNumberScreen(shell: Shell, override val place: Place.WeighNumber) : Screen(shell, place) {
    private val weighing = place.weighing
    private val measure = place.measure
    private val at = place.at
    private val unit = measure.counted.unit(weighing.entered)

    /** Null: what stood there before stands. */
    private var typed: String? = null
    private var value: TextView? = null

    override val staysOn
        get() = true

    override val hidesBars
        get() = true

    override val paneTitle: CharSequence
        get() = text(measure.title)

    override val spoken
        get() = about()

    private val ofPoint = measure in Measure.OF_POINT || measure in Measure.OF_POINT_RAISED

    private fun about(): String {
        val point = weighing.point(at).name.ifEmpty { text(R.string.weigh_point, at + 1) }.takeIf { ofPoint }
        return listOfNotNull(point, text(measure.title)).joinToString(": ")
    }

    override fun build(): View {
        val shown =
            parts.fitted("", 44, 20).apply { accessibilityLiveRegion = View.ACCESSIBILITY_LIVE_REGION_POLITE }
        value = shown
        show()
        val take = key(Face.GOOD, text(R.string.take_it), Sign.TICK) { take() }
        val keys =
            NumberPad(context, palette, take, text(R.string.take_back), gap = 0, { type(it) }, { back() })
        val point = key(Face.SIDE, POINT.toString()) { type(POINT) }.apply { settledAt = 0 }
        point.contentDescription = text(R.string.weigh_decimal)
        val words =
            parts.column(*listOfNotNull(noticePanel(), parts.heading(about(), 19)).toTypedArray(), space = 2)
        return Page(parts).pin(backKey(), point, words, shown, keys, onItsSide, high = 56)
    }

    private fun type(sign: Char) {
        val now = typed.orEmpty()
        if (now.length < MOST && !(sign == POINT && POINT in now)) typed = now + sign
        show()
    }

    /** The first step back takes off what stood there before. */
    private fun back() {
        typed = typed.orEmpty().dropLast(1)
        show()
    }

    private fun show() {
        val words = typed?.let { if (it.isEmpty()) NOTHING else "$it $unit" }
        val shown = words ?: measure.of(weighing, at).ifEmpty { NOTHING }
        value?.text = shown
        value?.contentDescription = if (shown == NOTHING) text(R.string.nothing_typed) else shown
    }

    private fun take() {
        val number = typed ?: return shell.back()
        val changed = measure.put(weighing, at, if (number.isEmpty()) "" else "$number $unit")
        changed.put(shell)
        if (ofPoint) shell.go(Place.WeighPoint(changed, at))
        else if (measure in Measure.OF_HEIGHT || measure in Measure.OF_RAISED)
            shell.go(Place.WeighHeight(changed))
    }

    private companion object {
        const val MOST = 9
        const val POINT = '.'
        const val NOTHING = "–"
    }
}

/**
 * What it weighs and where its centre of gravity is, within what the scales may be wrong by; how it hangs
 * then; and what of it goes into the plan.
 */
class WeighedScreen(shell: Shell, override val place: Place.Weighed) : Screen(shell, place) {
    private val result = place.result

    /** Whoever signs no tag tells the planner. */
    private val plans = Role.PLANNER in shell.attempt { shell.core.setUp() }?.roles.orEmpty()
    override val staysOn
        get() = true

    override val paneTitle: CharSequence
        get() = text(R.string.weighed)

    override val spoken
        get() = result.mass

    override fun build(): View {
        val ground = palette.panel
        val head =
            parts.panel(
                parts.column(
                    *listOfNotNull(
                            parts.signed(
                                if (result.good) Sign.TICK else Sign.WARN,
                                parts.words(result.mass, 30, bold = true, ground = ground),
                                ground,
                            ),
                            result.centre
                                .joinToString(" · ")
                                .ifEmpty { null }
                                ?.let {
                                    parts.words(
                                        text(R.string.weighed_centre, it),
                                        19,
                                        bold = true,
                                        ground = ground,
                                    )
                                },
                        )
                        .toTypedArray(),
                    space = 3,
                ),
                thick = true,
            )
        val lines = result.beside.map { parts.words(it, 18, bold = true) }
        val report =
            result.report.lines().filter(String::isNotBlank).map { parts.words(it, 17, ground = ground) }
        val taken = result.taken
        val picture = taken?.let { RiggingScreen.drawn(shell) { core -> core.checkDraft(it).picture } }
        val keys =
            if (plans && taken != null)
                listOf(key(Face.GOOD, text(R.string.weigh_take_over), Sign.NEXT) { takeOver(taken) })
            else emptyList()
        return page(
            text(R.string.weighed),
            body(
                head,
                parts.column(*lines.toTypedArray(), space = 8),
                if (plans) null else parts.words(text(R.string.weigh_tell_planner), 19, bold = true),
                parts.panel(parts.column(*report.toTypedArray(), space = 6)),
                picture,
            ),
            keys,
        )
    }

    private fun takeOver(taken: TagDraft) {
        Weighing.forget()
        shell.feel(Beat.GOOD)
        if (shell.lies(Place.PlanDraft::class)) return shell.draft(taken)
        shell.backTo(Place.Start::class)
        shell.go(Place.Plan)
        shell.go(Place.PlanDraft(taken))
    }
}
