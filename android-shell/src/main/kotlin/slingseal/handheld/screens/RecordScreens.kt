package slingseal.handheld.screens

import android.view.View
import slingseal.core.RecordLine
import slingseal.core.RecordStanding
import slingseal.handheld.R
import slingseal.handheld.Screen
import slingseal.handheld.Shell
import slingseal.handheld.look.Face
import slingseal.handheld.look.Sign
import slingseal.handheld.places.Place

/** Records that this device holds, the newest first, or those in which words are found. */
class RecordsScreen(shell: Shell, override val place: Place.Records) : Screen(shell, place) {
    private val sought = place.sought

    private val records = shell.attempt { shell.core.records(sought.ifEmpty { null }, 200u) }.orEmpty()

    override fun build(): View {
        val rows =
            records.map { record ->
                val state =
                    listOfNotNull(
                            text(if (record.fit) R.string.fit else R.string.not_fit),
                            stands(record)?.let(::text),
                            record.issued.dtg,
                            record.inspector,
                        )
                        .joinToString(" · ")
                key(Face.ROW, record.load, signOf(record), state) { shell.go(Place.Record(record.record)) }
            }
        val about =
            if (sought.isEmpty()) null
            else parts.words(text(R.string.found_for, sought, records.size), 19, bold = true)
        val none = if (rows.isEmpty()) parts.words(text(R.string.no_records), 18) else null
        val find = key(Face.SIDE, text(R.string.find), Sign.FIND) { shell.go(Place.Find) }
        return page(
            text(R.string.records),
            body(about, none, parts.column(*rows.toTypedArray(), space = 16)),
            listOf(find),
        )
    }
}

/** Words that are looked for in every record. */
class FindScreen(shell: Shell, place: Place) : WritingScreen(shell, place) {
    override val title
        get() = text(R.string.find)

    override val guide
        get() = text(R.string.find_guide)

    override val done
        get() = text(R.string.find)

    override fun take(words: String) {
        shell.back()
        shell.swap(Place.Records(words.trim()))
    }
}

/** One record's story. */
class RecordScreen(shell: Shell, override val place: Place.Record) : Screen(shell, place) {
    private val record = shell.attempt { shell.core.record(place.record) }
    private val moves = record?.let { shell.attempt { shell.core.movements(it.line.load) } }.orEmpty()

    override fun build(): View {
        val record = record ?: return page(text(R.string.records), body())
        val line = record.line
        val core = shell.core
        val facts =
            parts.facts(
                listOf<Pair<CharSequence, CharSequence>>(
                    text(R.string.outcome) to text(if (line.fit) R.string.fit else R.string.not_fit),
                    text(R.string.inspector) to line.inspector,
                    text(R.string.sealed_at) to line.issued.dtg,
                    text(R.string.valid_until) to line.validUntil.dtg,
                    text(R.string.findings) to
                        text(R.string.found_corrected, line.found.toInt(), line.corrected.toInt()),
                ) + listOfNotNull(record.tag?.let { text(R.string.mass) to "${it.gross} · ${it.aircraft}" })
            )
        val found =
            record.findings.flatMap { finding ->
                listOf(parts.words("${finding.shown} · ${finding.prompt}", 18, bold = true)) +
                    finding.story.map { parts.words(it, 16) }
            }
        val story = record.timeline.map { parts.words("${it.at.dtg}  ${it.what}", 16) }
        return page(
            line.load,
            body(
                *record.voids.map { parts.signedPanel(Sign.CROSS, it) }.toTypedArray(),
                // a void is told with who took it back and why
                stands(line)
                    ?.takeIf { line.standing != RecordStanding.VOIDED }
                    ?.let { parts.signedPanel(signOf(line), text(it)) },
                parts.panel(facts),
                *storyOf(shell, moves).toTypedArray(),
                if (found.isEmpty()) null else parts.eyebrow(text(R.string.findings)),
                *found.toTypedArray(),
                if (story.isEmpty()) null else parts.eyebrow(text(R.string.story)),
                *story.toTypedArray(),
                printKey(shell, line.load) { letter -> core.recordPdf(line.record, letter) },
                space = 10,
            ),
            listOfNotNull(
                key(Face.GOOD, text(R.string.show_code), Sign.SHOW) { shell.go(Place.Seal(line.record)) },
                key(Face.BAD, text(R.string.void_it), Sign.CROSS) { shell.go(Place.Void(line.record)) }
                    .takeIf { line.standing != RecordStanding.VOIDED },
            ),
        )
    }
}

/** Why a record may not be relied on, whatever its inspector decided; none where nothing is against it. */
private fun stands(line: RecordLine): Int? =
    when (line.standing) {
        RecordStanding.CURRENT -> R.string.expired.takeIf { line.expired }
        RecordStanding.SUPERSEDED -> R.string.superseded
        RecordStanding.VOIDED -> R.string.voided
        RecordStanding.REFUSED -> R.string.record_refused
        RecordStanding.WAITING -> R.string.record_waits
        RecordStanding.NO_INSPECTION -> R.string.record_no_inspection
    }

private fun signOf(line: RecordLine): Sign =
    when {
        line.standing == RecordStanding.WAITING -> Sign.WARN
        line.fit && stands(line) == null -> Sign.TICK
        else -> Sign.CROSS
    }
