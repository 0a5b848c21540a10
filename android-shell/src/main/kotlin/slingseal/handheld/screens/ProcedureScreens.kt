package slingseal.handheld.screens

import android.content.Intent
import android.view.View
import slingseal.core.EditionState
import slingseal.core.MovingOut
import slingseal.core.ProcedureView
import slingseal.handheld.KIND
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose

/** The sign of an edition's standing, the same on every page. */
private fun signOf(state: EditionState): Sign =
    when (state) {
        EditionState.APPROVED -> Sign.TICK
        EditionState.NOT_APPROVED -> Sign.WARN
        EditionState.WITHDRAWN -> Sign.CROSS
        EditionState.MISSING -> Sign.MINUS
    }

private fun named(shell: Shell, list: ProcedureView) =
    shell.activity.getString(R.string.procedure_version, list.id, list.version.toInt())

/** What came in, in a line: whether it is walked by from now on, or kept apart. */
internal fun came(shell: Shell, list: ProcedureView): String {
    val use =
        shell.activity.getString(if (list.inUse) R.string.procedure_in_use else R.string.procedure_apart)
    return "${named(shell, list)}: ${list.approval}. $use"
}

/**
 * Which lists count here: what is walked by, what is kept apart until somebody approves it, and what is
 * approved and not here. Nobody may take a list that merely lies on the phone for one that counts.
 */
class ProceduresScreen(shell: Shell, place: Place) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.procedures)

    private val all = shell.attempt { shell.core.procedureEditions() }

    override fun build(): View {
        val all = all ?: return page(text(R.string.procedures), body())
        val missing = all.filter { it.state == EditionState.MISSING }
        val (used, apart) = (all - missing.toSet()).partition { it.inUse }
        return page(
            text(R.string.procedures),
            body(
                *group(R.string.procedures_missing, missing),
                *group(R.string.procedures_used, used),
                *group(R.string.procedures_apart, apart),
                parts.eyebrow(text(R.string.procedures_by_file)),
                parts.column(
                    key(
                        Face.ROW,
                        text(R.string.procedures_file_in),
                        Sign.FILE,
                        text(R.string.bundle_in_about),
                    ) {
                        FileScreen.open(shell)
                    },
                    key(
                        Face.ROW,
                        text(R.string.procedures_file_out),
                        Sign.FILE,
                        text(R.string.procedures_out_about),
                    ) {
                        FileScreen.pick(
                            shell,
                            Intent(Intent.ACTION_CREATE_DOCUMENT)
                                .setType(KIND)
                                .putExtra(Intent.EXTRA_TITLE, FILE),
                            PICK_LISTS,
                        )
                    },
                    space = 16,
                ),
            ),
            listOf(
                key(Face.GOOD, text(R.string.procedures_in), Sign.CODE) {
                    shell.go(Place.Scan(Purpose.Moving))
                },
                key(Face.SIDE, text(R.string.procedures_out), Sign.SHOW) { shell.go(Place.ProceduresOut()) },
            ),
        )
    }

    private fun group(title: Int, lists: List<ProcedureView>): Array<View> {
        if (lists.isEmpty()) return emptyArray()
        val rows =
            lists.map { list ->
                val missing = list.state == EditionState.MISSING
                key(
                    Face.ROW,
                    if (missing) named(shell, list) else list.title,
                    signOf(list.state),
                    if (missing) list.approval else "${named(shell, list)} · ${list.approval}",
                ) {
                    shell.go(Place.Procedure(list.id, list.digest))
                }
            }
        return arrayOf(parts.eyebrow(text(title)), parts.column(*rows.toTypedArray(), space = 12))
    }

    private companion object {
        const val FILE = "slingseal-procedures.bundle"
    }
}

/** One edition: what it is, whose word stands behind it, and how it goes on. */
class ProcedureScreen(shell: Shell, override val place: Place.Procedure) : Screen(shell, place) {
    override val paneTitle: CharSequence
        get() = text(R.string.procedure)

    private val list =
        shell
            .attempt { shell.core.procedureEditions() }
            ?.firstOrNull { it.id == place.id && it.digest == place.digest }

    override fun build(): View {
        val list = list ?: return page(text(R.string.procedure), body())
        val missing = list.state == EditionState.MISSING
        val standing = parts.signedPanel(signOf(list.state), list.approval, 20)
        val told =
            when {
                missing -> text(R.string.procedure_missing_words, list.id, list.version.toInt())
                list.inUse && list.state == EditionState.APPROVED -> text(R.string.procedure_in_use)
                list.inUse -> text(R.string.procedure_waits)
                else -> text(R.string.procedure_apart)
            }
        val facts =
            parts.facts(
                listOfNotNull(
                        text(R.string.edition) to named(shell, list),
                        if (missing) null
                        else
                            text(R.string.procedure_length) to
                                text(R.string.procedure_size, list.cards.toInt(), list.points.toInt()),
                        text(R.string.thumbprint) to list.digest.take(PRINT).chunked(4).joinToString(" "),
                        text(R.string.procedure_from) to
                            text(if (list.own) R.string.procedure_own else R.string.procedure_built_in),
                    )
                    .filter { !missing || it.first != text(R.string.procedure_from) },
                18,
            )
        val next =
            when {
                missing ->
                    key(Face.GOOD, text(R.string.procedures_in), Sign.CODE) {
                        shell.go(Place.Scan(Purpose.Moving))
                    }
                list.inUse ->
                    key(Face.GOOD, text(R.string.procedure_send), Sign.SHOW) {
                        shell.go(Place.ProceduresOut(list.id))
                    }
                else -> null
            }
        return page(
            if (missing) named(shell, list) else list.title,
            body(
                standing,
                parts.words(told, 19),
                parts.panel(facts),
                parts.words(text(R.string.manual_rules), 15, quiet = true),
            ),
            listOfNotNull(next),
        )
    }

    private companion object {
        /** As much of a digest as an approval names. */
        const val PRINT = 32
    }
}

/** Lists as a moving code, with the rosters that approve them. */
class ProceduresOutScreen(shell: Shell, override val place: Place.ProceduresOut) :
    FramesScreen(shell, place) {
    override fun prepare(): MovingOut? =
        shell.attempt { shell.core.movingProcedures(listOfNotNull(place.id)) }

    override fun about(out: MovingOut): List<View> {
        val facts =
            parts.facts(
                listOf(
                    text(R.string.procedures) to out.procedures.toString(),
                    text(R.string.rosters) to out.papers.toString(),
                    text(R.string.move_frames) to out.enough.toString(),
                ),
                18,
            )
        val left = out.leftOut.map { parts.signed(Sign.CROSS, parts.words(it, 17)) }
        return listOf(parts.words(text(R.string.move_words), 18, bold = true), parts.panel(facts)) +
            left +
            parts.words(text(R.string.procedures_there), 16)
    }
}
