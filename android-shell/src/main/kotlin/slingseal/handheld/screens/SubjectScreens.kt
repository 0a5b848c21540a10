package slingseal.handheld.screens

import android.view.View
import slingseal.core.KeptInspection
import slingseal.core.ProcedureView
import slingseal.core.Subject
import slingseal.core.WalkRequest
import slingseal.core.WalkStage
import slingseal.core.WalkView
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.ref
import slingseal.handheld.sense.Beat

private fun subjectOf(subject: Subject): Int =
    when (subject) {
        Subject.PIECE -> R.string.subject_piece
        Subject.AIRCRAFT -> R.string.subject_aircraft
        Subject.ZONE -> R.string.subject_zone
        Subject.HANDLING,
        Subject.LOAD -> R.string.subject_handling
    }

/**
 * What to inspect that is no load: the day's order, from the zone to the derigging, and gear by its serial
 * number.
 */
class SubjectsScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.subjects)

    private val lists =
        shell.attempt { shell.core.procedures() }.orEmpty().filter { it.subject != Subject.LOAD }
    private val kept = shell.attempt { shell.core.keptInspections() }.orEmpty()

    override fun build(): View {
        val open = kept.count { it.signed == null && it.walk.isNotEmpty() }
        val groups =
            listOf(Subject.ZONE, Subject.AIRCRAFT, Subject.HANDLING, Subject.PIECE).flatMap { subject ->
                group(subject, lists.filter { it.subject == subject })
            }
        return page(
            text(R.string.subjects),
            body(
                key(
                    Face.ROW,
                    text(R.string.inspections),
                    if (open > 0) Sign.WARN else Sign.LIST,
                    if (open > 0) text(R.string.inspections_open, open)
                    else text(R.string.records_count, kept.size),
                ) {
                    shell.go(Place.Inspections)
                },
                *groups.toTypedArray(),
            ),
        )
    }

    private fun group(subject: Subject, lists: List<ProcedureView>): List<View> {
        if (lists.isEmpty()) return emptyList()
        val rows =
            lists.map { list ->
                key(Face.ROW, list.title, Sign.NEXT, list.approval) { shell.go(Place.SubjectName(list.id)) }
            }
        return listOf(parts.eyebrow(text(subjectOf(subject))), parts.column(*rows.toTypedArray(), space = 12))
    }
}

/** What it goes by: typed, read off its own code or sticker, or one that was inspected before. */
class SubjectNameScreen(shell: Shell, override val place: Place.SubjectName) : WritingScreen(shell, place) {
    private val list = shell.attempt { shell.core.procedures() }?.firstOrNull { it.id == place.procedure }
    private val subject
        get() = list?.subject ?: Subject.PIECE

    private val names = names()

    override val title
        get() = list?.title ?: place.procedure

    override val guide: String
        get() =
            text(
                when (subject) {
                    Subject.PIECE -> R.string.name_of_piece
                    Subject.AIRCRAFT -> R.string.name_of_aircraft
                    Subject.ZONE -> R.string.name_of_zone
                    Subject.HANDLING,
                    Subject.LOAD -> R.string.name_of_handling
                }
            )

    override val done
        get() = text(R.string.begin_walk)

    override val before
        get() = place.name

    override fun extra(): List<View> {
        val scan =
            key(Face.ROW, text(R.string.scan_piece), Sign.CODE, text(R.string.scan_piece_about)) {
                shell.swap(Place.Scan(Purpose.Piece(place.procedure)))
            }
        val known = names.map { name -> key(Face.ROW, name, Sign.NEXT) { take(name) } }
        return listOfNotNull(
            scan.takeIf { subject == Subject.PIECE },
            parts.eyebrow(text(R.string.names_known)).takeIf { known.isNotEmpty() },
            parts.column(*known.toTypedArray(), space = 12).takeIf { known.isNotEmpty() },
        )
    }

    /** The newest names of the kind: of what was inspected by this list, or of loads that were sealed. */
    private fun names(): List<String> {
        val kept =
            shell
                .attempt { shell.core.keptInspections() }
                .orEmpty()
                .filter {
                    if (subject == Subject.PIECE) it.procedure == place.procedure else it.subject == subject
                }
                .map { it.name }
        val loads =
            if (subject == Subject.HANDLING)
                shell.attempt { shell.core.records(null, MOST.toUInt()) }.orEmpty().map { it.load }
            else emptyList()
        return (loads + kept).distinct().take(MOST)
    }

    override fun take(words: String) {
        val list = place.procedure
        shell.ask({ beginInspection(list, words.trim()) }) { swap(Place.Walk(it.ref)) }
    }

    private companion object {
        const val MOST = 5
    }
}

/** The page of a decided inspection of what is no load: its PIN, or, where it is signed, its code. */
internal fun decidedSubject(shell: Shell, place: Place, walk: WalkView): Screen {
    val signed = shell.attempt { shell.core.keptInspections() }?.firstOrNull { it.walk == walk.walk }?.signed
    return if (signed == null) SignScreen(shell, place, walk)
    else InspectionScreen(shell, Place.Inspection(signed))
}

/**
 * The PIN that signs it; until then the decision can be taken back. Unsigned it stays on this phone, and
 * nobody else hears of it.
 */
class SignScreen(shell: Shell, place: Place, private val walk: WalkView) : PinPage(shell, place) {
    private val fit
        get() = (walk.stage as? WalkStage.Decided)?.fit == true

    override val staysOn
        get() = true

    override val title
        get() = text(R.string.sign_inspection)

    override val words
        get() =
            text(
                if (fit) R.string.sign_fit
                else if (walk.subject == Subject.PIECE) R.string.sign_withdrawn else R.string.sign_not_fit,
                walk.load,
            )

    override val saysLoad
        get() = true

    override val done
        get() = text(R.string.sign_short)

    override val spoken
        get() = words

    override fun otherKey() =
        key(Face.SIDE, text(R.string.undo_small), Sign.UNDO, text(R.string.take_back_decision)) {
            shell.answer(walk.ref, WalkRequest.TakeBack, Beat.UNDONE) { redraw() }
        }

    override fun take(pin: String) {
        val core = shell.core
        val id = walk.walk
        shell.work({ core.signInspection(id, pin) }) {
            feel(Beat.GOOD)
            swap(Place.Inspection(it.digest))
        }
    }
}

/** What was inspected and is no load; what is not signed yet comes first, for nobody else knows of it. */
class InspectionsScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.inspections)

    private val kept = shell.attempt { shell.core.keptInspections() }.orEmpty()

    override fun build(): View {
        val rows = kept.sortedBy { it.signed != null }.map(::row)
        val none = if (rows.isEmpty()) parts.words(text(R.string.no_records), 18) else null
        return page(text(R.string.inspections), body(none, parts.column(*rows.toTypedArray(), space = 14)))
    }

    private fun row(one: KeptInspection): View {
        val signed = one.signed
        val state =
            listOfNotNull(
                    shell.outcome(one.subject, one.fit),
                    one.fitUntil?.let { text(R.string.until, it.dtg) },
                    if (signed == null) text(R.string.not_signed) else null,
                    one.at.dtg,
                    one.inspector,
                )
                .joinToString(" · ")
        return key(Face.ROW, one.name, if (one.fit) Sign.TICK else Sign.CROSS, state) {
            shell.go(
                if (signed == null) Place.Walk(WalkRef.Inspection(one.walk)) else Place.Inspection(signed)
            )
        }
    }
}

/** Fit or not in the trade's word: a piece that is not is withdrawn. */
private fun Shell.outcome(subject: Subject, fit: Boolean): String =
    activity.getString(
        if (fit) R.string.fit else if (subject == Subject.PIECE) R.string.withdrawn else R.string.not_fit
    )

/**
 * A signed inspection, as a code that any phone scans, for the piece's own sticker, and in every bundle from
 * here on.
 */
class InspectionScreen(shell: Shell, override val place: Place.Inspection) : Screen(shell, place) {
    override val staysOn
        get() = true

    override val shines
        get() = true

    override val spoken
        get() = text(R.string.inspection_spoken)

    private val one = shell.attempt { shell.core.inspection(place.digest) }
    private val title =
        one?.let { shell.attempt { shell.core.procedures() } }?.firstOrNull { it.id == one.procedure }?.title

    override fun build(): View {
        val one = one ?: return page(text(R.string.inspections), body())
        val code = codeView(shell, one.code, text(R.string.code_of_inspection))
        val ground = palette.panel
        val read =
            parts.panel(
                parts.column(
                    *listOfNotNull(
                            parts.words(
                                "${one.name} · ${shell.outcome(one.subject, one.fit)}",
                                22,
                                bold = true,
                                ground = ground,
                            ),
                            one.why?.let { parts.words(it, 18, bold = true, ground = ground) },
                            one.fitUntil?.let {
                                parts.words(text(R.string.until, it.dtg), 18, bold = true, ground = ground)
                            },
                            parts.words("${one.inspector} · ${one.issued.dtg}", 18, ground = ground),
                            parts.words(
                                "${title ?: one.procedure} · ${text(R.string.procedure_version, one.procedure, one.version.toInt())}",
                                16,
                                ground = ground,
                            ),
                        )
                        .toTypedArray(),
                    space = 3,
                )
            )
        val done = key(Face.GOOD, text(R.string.done), Sign.TICK) { shell.backTo(Place.Start::class) }
        val words =
            body(
                read,
                parts.words(text(R.string.inspection_goes), 16),
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            )
        return codePage(shell, onItsSide, code, underCode(words, done, stickerKey(shell, one.code.text)))
    }
}
