package slingseal.handheld.screens

import android.view.View
import slingseal.core.ExamBegin
import slingseal.core.ExamOutcome
import slingseal.core.ExamResultLine
import slingseal.core.ExamRunState
import slingseal.core.Handheld
import slingseal.core.RunLine
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Key
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.WalkRef
import slingseal.handheld.sense.Beat

/** Seconds as a stopwatch shows them. */
internal fun clock(seconds: UInt) = "%d:%02d".format((seconds / 60u).toInt(), (seconds % 60u).toInt())

internal fun Handheld.openRuns(): List<RunLine> = examRuns().filter { it.state == ExamRunState.OPEN }

/** Says that nothing here is an inspection. */
internal fun Screen.training(shell: Shell): View =
    shell.parts.panel(
        shell.parts.words(
            shell.activity.getString(R.string.exam_training),
            18,
            bold = true,
            ground = shell.palette.panel,
        ),
        thick = true,
    )

/** Examinations: the student's door and the instructor's. While a run goes on, nothing but the run. */
class ExamsScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val open = shell.attempt { shell.core.openRuns() }.orEmpty()

    override fun build(): View {
        val rows = if (open.isEmpty()) doors() else open.map(::run)
        val shut = if (open.isEmpty()) null else parts.words(text(R.string.exam_shut), 18)
        return page(
            text(R.string.exams),
            body(training(shell), shut, parts.column(*rows.toTypedArray(), space = 16)),
        )
    }

    private fun run(line: RunLine): Key =
        key(Face.ROW, line.student, Sign.EXAM, text(R.string.exam_goes_on, line.load)) {
            shell.go(Place.Walk(WalkRef.Run(line.run)))
        }

    private fun doors() =
        listOf(
            key(Face.ROW, text(R.string.exam_begin), Sign.TICK, text(R.string.exam_begin_about)) {
                shell.go(Place.Scan(Purpose.ExamKey))
            },
            key(Face.ROW, text(R.string.exam_plant), Sign.PLUS, text(R.string.exam_plant_about)) {
                shell.go(Place.Scan(Purpose.ExamTag))
            },
            key(Face.ROW, text(R.string.exam_keys), Sign.KEY, text(R.string.exam_keys_about)) {
                shell.go(Place.ExamKeys)
            },
            key(Face.ROW, text(R.string.exam_results), Sign.LIST, text(R.string.exam_results_about)) {
                shell.go(Place.ExamResults)
            },
            key(Face.ROW, text(R.string.exam_take_sheet), Sign.CODE, text(R.string.move_gather_about)) {
                shell.go(Place.Scan(Purpose.Moving))
            },
            key(Face.ROW, text(R.string.exam_class), Sign.LIST, text(R.string.exam_class_about)) {
                shell.go(Place.ExamClass)
            },
        )
}

/** Who is examined: typed, or one who was examined here before. */
class ExamNameScreen(shell: Shell, override val place: Place.ExamName) : WritingScreen(shell, place) {
    override val title
        get() = text(R.string.exam_student)

    override val guide
        get() = text(R.string.exam_student_guide)

    override val done
        get() = text(R.string.take_it)

    private val runs = shell.attempt { shell.core.examRuns() }.orEmpty().map { it.student }
    private val results = shell.attempt { shell.core.examResults() }.orEmpty().map { it.student }

    override fun extra(): List<View> {
        return (runs + results).distinct().take(MOST).map { name ->
            key(Face.ROW, name, Sign.TICK) { take(name) }
        }
    }

    override fun take(words: String) {
        if (words.isBlank()) {
            shell.notice = text(R.string.nothing_typed)
            return shell.redraw()
        }
        shell.swap(Place.ExamReady(place.key, words.trim().replace('\n', ' ')))
    }

    private companion object {
        const val MOST = 12
    }
}

/** Before the clock starts: which key, which load, who. */
class ExamReadyScreen(shell: Shell, override val place: Place.ExamReady) : Screen(shell, place) {
    private val key
        get() = place.key

    private val student
        get() = place.student

    private val tag
        get() = place.tag

    override val staysOn
        get() = true

    override val spoken
        get() = text(R.string.exam_ready_words)

    private val known = shell.attempt { shell.core.examKey(key) }

    override fun build(): View {
        val known = known ?: return page(text(R.string.exam_ready), body())
        val facts =
            parts.facts(
                listOf(
                    text(R.string.exam_student) to student,
                    text(R.string.exam_key) to known.short,
                    text(R.string.load) to known.load,
                    text(R.string.exam_standard) to known.standard.words,
                    text(R.string.exam_instructor) to known.instructor,
                )
            )
        val scan =
            key(
                Face.ROW,
                text(R.string.scan_tag),
                if (tag == null) Sign.CODE else Sign.TICK,
                text(if (tag == null) R.string.exam_tag_unknown else R.string.exam_tag_scanned),
            ) {
                shell.go(Place.Scan(Purpose.ExamRunTag(key, student)))
            }
        return page(
            text(R.string.exam_ready),
            body(
                parts.words(text(R.string.exam_ready_words), 19, bold = true),
                scan,
                parts.panel(facts),
                training(shell),
            ),
            listOf(key(Face.GOOD, text(R.string.exam_start), Sign.TICK) { begin() }),
        )
    }

    private fun begin() {
        val asked = ExamBegin(key, tag, student)
        shell.ask({ examBegin(asked) }) { run ->
            feel(Beat.GOOD)
            backTo(Place.Exams::class)
            go(Place.Walk(WalkRef.Run(run.run)))
        }
    }
}

/** Runs that ended and wait, then results, the last begun first. */
class ExamResultsScreen(shell: Shell, place: Place) : Screen(shell, place) {
    private val runs =
        shell
            .attempt { shell.core.examRuns() }
            .orEmpty()
            .filter { it.state == ExamRunState.ENDED || it.state == ExamRunState.LOST }
    private val results = shell.attempt { shell.core.examResults() }.orEmpty()

    override fun build(): View {
        val none =
            if (runs.isEmpty() && results.isEmpty()) parts.words(text(R.string.exam_no_results), 18) else null
        return page(
            text(R.string.exam_results),
            body(
                none,
                if (runs.isEmpty()) null else parts.eyebrow(text(R.string.exam_waiting)),
                parts.column(*runs.map(::run).toTypedArray(), space = 16),
                if (results.isEmpty()) null else parts.eyebrow(text(R.string.exam_results_only)),
                parts.column(*results.map(::result).toTypedArray(), space = 16),
            ),
            listOf(
                key(Face.SIDE, text(R.string.exam_scan_result), Sign.CODE) {
                    shell.go(Place.Scan(Purpose.ExamResult))
                }
            ),
        )
    }

    private fun run(line: RunLine): Key {
        val next =
            when {
                line.state == ExamRunState.LOST -> R.string.exam_lost
                line.canScore -> R.string.exam_to_score
                else -> R.string.exam_to_bring
            }
        return key(Face.ROW, line.student, Sign.EXAM, "${line.load} · ${line.begun.dtg} · ${text(next)}") {
            when {
                line.state == ExamRunState.LOST -> {}
                line.canScore -> shell.go(Place.ExamScore(line.run))
                else -> shell.go(Place.ExamSheet(line.run))
            }
        }
    }

    private fun result(line: ExamResultLine): Key {
        val (sign, word) = outcome(line)
        val detail =
            "${text(word)} · ${line.load} · ${text(R.string.exam_found_of, line.found.toInt(), line.of.toInt())} · ${clock(line.seconds)} · ${text(R.string.exam_attempt, line.attempt.toInt())}"
        return key(Face.ROW, line.student, sign, detail) { shell.go(Place.ExamResult(line.result)) }
    }
}

/** The sign and the word of an outcome. */
internal fun outcome(line: ExamResultLine): Pair<Sign, Int> =
    when (line.outcome) {
        ExamOutcome.PASSED -> Sign.TICK to R.string.exam_passed
        ExamOutcome.FAILED -> Sign.CROSS to R.string.exam_failed
        ExamOutcome.UNCLEAR -> Sign.BARS to R.string.exam_unclear
    }
