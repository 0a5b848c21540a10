package slingseal.handheld.screens

import android.view.Gravity
import android.view.View
import android.widget.LinearLayout
import slingseal.core.ExamKeyView
import slingseal.core.ExamPick
import slingseal.core.ExamPlan
import slingseal.core.ExamStandard
import slingseal.core.Handheld
import slingseal.core.PlantedView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.look.dp
import slingseal.handheld.places.Place
import slingseal.handheld.places.Planting
import slingseal.handheld.places.Standard
import slingseal.handheld.sense.Beat

/**
 * Draws so many deficiencies for the load of a tag; the place keeps what they were drawn from, so that a turn
 * changes nothing.
 */
internal fun Handheld.drawn(tag: String, count: Int): Place {
    val plan = examPlan(ExamPlan(tag, emptyList(), count.toUInt(), null))
    return Place.ExamPlan(Planting(tag, count, plan.seed.orEmpty()))
}

/** What was planted or is to be, in the order of the load: for the instructor's eyes. */
private fun Screen.planted(shell: Shell, list: List<PlantedView>): List<View> =
    list.map {
        val parts = shell.parts
        val ground = shell.palette.panel
        val where = shell.activity.getString(R.string.exam_card_of, it.card.toInt(), it.cardTitle, it.station)
        parts.panel(
            parts.column(
                parts.words(where, 15, quiet = true, ground = ground),
                parts.words(it.shown, 20, bold = true, ground = ground),
                parts.words(it.prompt, 17, ground = ground),
                space = 2,
            )
        )
    }

/** No examined load flies by itself. */
private fun Screen.safety(shell: Shell): View {
    val ground = shell.palette.panel
    return shell.parts.panel(
        shell.parts.signed(
            Sign.CROSS,
            shell.parts.words(
                shell.activity.getString(R.string.exam_safety),
                18,
                bold = true,
                ground = ground,
            ),
            ground,
        ),
        thick = true,
    )
}

/** A number with a key less and a key more. */
private fun Screen.stepper(shell: Shell, name: String, value: String, less: View, more: View): View =
    LinearLayout(shell.activity).apply {
        gravity = Gravity.CENTER_VERTICAL
        val side = LinearLayout.LayoutParams(dp(96), dp(84))
        val words =
            shell.parts.column(shell.parts.fitted(name, 16, 11), shell.parts.fitted(value, 30, 14), space = 0)
        words.getChildAt(0).layoutParams.height = dp(32)
        words.getChildAt(1).layoutParams.height = dp(48)
        addView(less, side)
        addView(
            shell.parts.spokenAs(words, "$name: $value"),
            LinearLayout.LayoutParams(0, LinearLayout.LayoutParams.WRAP_CONTENT, 1f),
        )
        addView(more, LinearLayout.LayoutParams(side))
    }

/** What to rig. */
class ExamPlanScreen(shell: Shell, override val place: Place.ExamPlan) : Screen(shell, place) {
    override val secret
        get() = true

    private val planting = place.planting
    private val count
        get() = planting.count

    private val plan = shell.attempt { shell.core.examPlan(planting.plan) }

    override fun build(): View {
        val plan = plan ?: return page(text(R.string.exam_plan), body())
        val number =
            if (planting.picks.isNotEmpty()) null
            else
                stepper(
                    shell,
                    text(R.string.exam_count),
                    count.toString(),
                    key(Face.SIDE, text(R.string.exam_fewer), Sign.MINUS) { again(count - 1) }
                        .apply { contentDescription = "${text(R.string.exam_count)}: $label" },
                    key(Face.SIDE, text(R.string.more), Sign.PLUS) { again(count + 1) }
                        .apply { contentDescription = "${text(R.string.exam_count)}: $label" },
                )
        return page(
            text(R.string.exam_plan),
            body(
                parts.words(text(R.string.exam_plan_words, plan.load), 19, bold = true),
                safety(shell),
                number,
                key(Face.ROW, text(R.string.exam_pick), Sign.LIST, text(R.string.exam_pick_about)) {
                    pick(plan.planted)
                },
                *planted(shell, plan.planted).toTypedArray(),
                parts.words(text(R.string.exam_plan_secret), 16, quiet = true),
            ),
            listOf(
                key(Face.GOOD, text(R.string.exam_standard), Sign.TICK) {
                    shell.go(Place.ExamStandard(planting, Standard()))
                },
                key(Face.SIDE, text(R.string.exam_draw_again), Sign.AGAIN) { again(count) },
            ),
        )
    }

    private fun again(count: Int) = shell.ask({ drawn(planting.tag, count) }) { swap(it) }

    /** Picking begins with what was drawn. */
    private fun pick(planted: List<PlantedView>) =
        shell.go(Place.ExamCards(planting.picking(planted.map { ExamPick(it.point, it.name) })))
}

/** What a student has to reach: the school's own, asked part by part; it locks once all is said. */
class ExamStandardScreen(shell: Shell, override val place: Place.ExamStandard) : Screen(shell, place) {
    override val secret
        get() = true

    private val of
        get() = place.planting.count

    override fun build(): View {
        val standard = place.standard
        val (least, within, calls) = standard
        val unset = if (standard.asked == null) parts.words(text(R.string.exam_standard_unset), 19) else null
        return page(
            text(R.string.exam_standard),
            body(
                number(
                    text(R.string.exam_least),
                    least?.let { text(R.string.exam_n_of, it, of) },
                    least,
                    1,
                    1..of,
                ) {
                    standard.copy(least = it)
                },
                number(
                    text(R.string.exam_within),
                    within?.let { clock(it.toUInt()) },
                    within,
                    30,
                    30..14400,
                ) {
                    standard.copy(within = it)
                },
                number(text(R.string.exam_let_pass), calls?.toString(), calls, 1, 0..99) {
                    standard.copy(calls = it)
                },
                unset,
                parts.words(text(R.string.exam_standard_words), 17, quiet = true),
            ),
            listOfNotNull(
                if (unset != null) null
                else
                    key(Face.GOOD, text(R.string.exam_lock), Sign.KEY) {
                        shell.go(Place.ExamLock(place.planting, standard))
                    }
            ),
        )
    }

    /** The first press of either key says the least that can be asked. */
    private fun number(
        name: String,
        value: String?,
        now: Int?,
        step: Int,
        within: IntRange,
        with: (Int) -> Standard,
    ): View {
        fun to(next: Int?) = shell.swap(place.copy(standard = with(next?.coerceIn(within) ?: within.first)))
        return stepper(
            shell,
            name,
            value ?: "–",
            key(Face.SIDE, text(R.string.exam_fewer), Sign.MINUS) { to(now?.minus(step)) }
                .apply { contentDescription = "$name: $label" },
            key(Face.SIDE, text(R.string.more), Sign.PLUS) { to(now?.plus(step)) }
                .apply { contentDescription = "$name: $label" },
        )
    }
}

/** The PIN that locks what is planted. */
class ExamLockScreen(shell: Shell, override val place: Place.ExamLock) : PinPage(shell, place) {
    override val title
        get() = text(R.string.exam_lock)

    override val words
        get() = text(R.string.exam_lock_words)

    override val done
        get() = text(R.string.exam_lock)

    override fun take(pin: String) {
        val (planting, standard) = place
        val asked = standard.asked ?: return
        shell.work({ shell.core.examLock(planting.plan, asked, pin) }) {
            feel(Beat.GOOD)
            // what was drawn goes from the way back: the next hand may be a student's
            backTo(Place.Exams::class)
            go(Place.ExamKey(it.key))
        }
    }
}

/** Keys that are known here, the newest first, without what they hide. */
class ExamKeysScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val keys = shell.attempt { shell.core.examKeys() }.orEmpty()

    override fun build(): View {
        val rows =
            keys.map { known ->
                val counts = text(R.string.exam_key_counts, known.runs.toInt(), known.results.toInt())
                key(
                    Face.ROW,
                    "${known.load} · ${known.short}",
                    Sign.KEY,
                    "${known.locked.dtg} · ${known.instructor} · $counts",
                ) {
                    shell.go(Place.ExamKey(known.key))
                }
            }
        val none = if (rows.isEmpty()) parts.words(text(R.string.exam_no_keys), 18) else null
        return page(text(R.string.exam_keys), body(none, parts.column(*rows.toTypedArray(), space = 16)))
    }
}

/** A key's code for the student to scan, with the digits to be said aloud and written down. */
class ExamKeyScreen(shell: Shell, override val place: Place.ExamKey) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(R.string.exam_key_words)

    private val known = shell.attempt { shell.core.examKey(place.key) }

    override fun build(): View {
        val known = known ?: return page(text(R.string.exam_key), body())
        val code = codeView(shell, known.code, text(R.string.exam_code_of_key))
        return codePage(
            shell,
            onItsSide,
            code,
            underCode(
                body(facts(known), *steps(known).toTypedArray(), safety(shell), training(shell)),
                key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(Place.Exams::class) },
            ),
        )
    }

    private fun facts(known: ExamKeyView): View {
        val ground = palette.panel
        return parts.panel(
            parts.column(
                parts.words("${known.short} · ${known.load}", 24, bold = true, ground = ground),
                parts.words(known.standard.words, 18, bold = true, ground = ground),
                parts.words(
                    "${known.locked.dtg} · ${known.instructor} · ${known.procedure}",
                    16,
                    ground = ground,
                ),
                parts.words(text(R.string.exam_key_words), 17, ground = ground),
                space = 3,
            )
        )
    }

    private fun steps(known: ExamKeyView) =
        listOfNotNull(
            key(Face.ROW, text(R.string.exam_begin_here), Sign.TICK) { shell.go(Place.ExamName(known.key)) },
            if (known.listHere)
                key(Face.ROW, text(R.string.exam_reveal), Sign.EYE, text(R.string.exam_reveal_about)) {
                    shell.go(Place.ExamReveal(known.key))
                }
            else null,
        )
}

/** What a key hides, under the PIN. It is kept in no place and gone when the page is left. */
class ExamRevealScreen(shell: Shell, override val place: Place.ExamReveal) : PinPage(shell, place) {
    private var list: List<PlantedView>? = null
    private var wiped = false
    override val title
        get() = text(R.string.exam_reveal)

    override val words
        get() = text(R.string.exam_reveal_words)

    override val done
        get() = text(R.string.exam_reveal)

    override fun build(): View =
        list?.let { page(title, body(safety(shell), *planted(shell, it).toTypedArray())) } ?: super.build()

    override fun take(pin: String) =
        shell.work({ shell.core.examReveal(place.key, pin) }) {
            list = it.planted
            redrawSame()
        }

    override fun hidden() {
        wiped = list != null
        list = null
    }

    override fun shown() {
        if (wiped && !shell.busy) shell.redrawSame()
        wiped = false
    }
}
