package slingseal.handheld.support

import java.time.Instant
import slingseal.core.Handheld
import slingseal.core.MovementKind
import slingseal.core.PieceReport
import slingseal.core.PointKind
import slingseal.core.RefusalCause
import slingseal.core.ReportRequest
import slingseal.core.VoidCause
import slingseal.core.WalkRequest
import slingseal.handheld.places.DeficiencyDraft
import slingseal.handheld.places.Draft
import slingseal.handheld.places.Place
import slingseal.handheld.places.Purpose
import slingseal.handheld.places.Said
import slingseal.handheld.places.WalkRef
import slingseal.handheld.places.Why

/**
 * Places of a day on an inspector's phone: a walk in its middle, decided and sealed loads, reports, records,
 * trust.
 */
class DayScenes(private val zone: Zone, private val core: Handheld) {
    fun places(): Map<String, Place> {
        val sealedTag = zone.tag("KM-012")
        val seal = Zone.sealed(core, sealedTag)
        val unsigned = zone.tag("KM-013", signed = false)
        val sealOfUnsigned = Zone.sealed(core, unsigned)
        val tag = zone.tag()
        val vehicle = zone.vehicleTag()

        // a walk in its middle, with one deficiency open on the card before
        var walk = core.beginWalk(tag.text)
        val id = walk.walk
        repeat(5) { walk = core.doWalk(id, Zone.answer(walk)) }
        val bad = walk.card!!
        val point = bad.points.first { it.deficiencies.isNotEmpty() }
        val name = point.deficiencies.first().name
        walk = core.doWalk(id, WalkRequest.Deficiency(bad.number, point.id, name, null, emptyList()))
        val open = walk.findings.single().number.toInt()
        while (walk.card!!.number.toInt() < 12) walk = core.doWalk(id, Zone.answer(walk))

        // one that asks for a count, and one that cannot be answered as a whole: a choice, a serial number
        var counted = core.beginWalk(zone.tag("KM-018").text)
        while (counted.card!!.points.none { it.kind is PointKind.Count }) counted =
            core.doWalk(counted.walk, Zone.answer(counted))
        val count = counted.card!!.points.first { it.kind is PointKind.Count }
        var asked = core.beginWalk(zone.tag("KM-021", procedure = "longline").text)
        while (asked.card!!.goodEnabled) asked = core.doWalk(asked.walk, Zone.answer(asked))
        val choice = asked.card!!.points.first { it.needsValue }

        // one to be decided, and one decided
        val deciding = walkedThrough(zone.tag("KM-019").text)
        val decided = walkedThrough(zone.tag("KM-020").text)
        core.doWalk(decided, WalkRequest.Decide(true, null))

        val card = core.walk(id).card!!
        val known = card.points.first { it.deficiencies.isNotEmpty() }
        val on = WalkRef.Inspection(id)
        val noted = DeficiencyDraft(on, card.number.toInt(), known.id, known.deficiencies.first().name)
        val authority = zone.desk.authority()
        val twin =
            zone
                .core("twin")
                .also { it.authorityInit("Sela Relief", Zone.PASSPHRASE, emptyList()) }
                .authority()
        val rejected = rejectedWalk(zone.tag("KM-024", bag = "CB-0040").text)
        val corrected = correctedWalk(zone.tag("KM-022").text)
        val riggedWalk = core.beginWalk(vehicle.text).walk
        val voided =
            core.void(Zone.sealed(core, zone.tag("KM-023")).record, VoidCause.LOAD_MOVED, null, Zone.PIN)
        return linkedMapOf(
            "start" to Place.Start,
            "scan" to Place.Scan(Purpose.Inspect),
            "type" to Place.Type(Purpose.Inspect),
            "tag" to Place.Tag(vehicle.text),
            "card" to Place.Walk(on),
            "card-value" to Place.Walk(WalkRef.Inspection(asked.walk)),
            "choice" to Place.Value(WalkRef.Inspection(asked.walk), asked.card!!.number.toInt(), choice.id),
            "count" to Place.Value(WalkRef.Inspection(counted.walk), counted.card!!.number.toInt(), count.id),
            "more" to Place.More(on),
            "cards" to Place.Cards(on),
            "pick" to Place.Pick(on),
            "deficiency" to Place.Deficiency(noted),
            "note" to Place.Write(Why.Note(noted)),
            "findings" to Place.Findings(on),
            "finding" to Place.Finding(on, open),
            "decide" to Place.Walk(WalkRef.Inspection(deciding)),
            "decide-last" to Place.Walk(WalkRef.Inspection(deciding), core.walk(deciding).stations.size),
            "decide-found" to Place.Walk(WalkRef.Inspection(corrected)),
            "not-fit" to Place.NotFit(WalkRef.Inspection(deciding)),
            "rigging" to Place.Rigging(WalkRef.Inspection(riggedWalk)),
            "else" to Place.Else,
            "pin" to Place.Walk(WalkRef.Inspection(decided)),
            "seal" to Place.Seal(seal.record),
            "sticker" to Place.Sticker(listOf(seal.code.text, sealedTag.text)),
            "files" to Place.Files,
            "several" to Place.Hook(several = listOf(seal.code.text, sealOfUnsigned.code.text)),
            "hook" to Place.Hook(),
            "hook-tag" to Place.Hook(tag = zone.tag("KM-061").text),
            "go" to Place.Hook(seal.code.text, sealedTag.text),
            "go-seal" to Place.Hook(seal.code.text),
            "wait" to Place.Hook(sealOfUnsigned.code.text, unsigned.text),
            "no-go" to Place.Hook(seal.code.text, tag.text),
            "move" to Place.Move,
            "move-out" to Place.MoveOut(core.movingBegin(null)),
            "have" to Place.Have,
            "moved" to
                Place.Moved(
                    "Records taken in: 2 new, 0 completed, 1 already here. Other papers: 4 new.",
                    listOf(
                        "record, item 3: the record is not the one that its seal names; ask the sender for the bundle again"
                    ),
                ),
            "taking" to Place.Scan(Purpose.Moving),
            "records" to Place.Records(),
            "found" to Place.Records("rations"),
            "record" to Place.Record(seal.record),
            "void" to Place.Void(seal.record),
            "void-pin" to Place.VoidPin(seal.record, VoidCause.LOAD_MOVED),
            "voided" to Place.Voided(voided.text),
            "set-up" to Place.SetUp,
            "trust" to Place.Trust(authority.card.text, authority.name),
            "trust-digits" to
                Place.Trust(
                    authority.card.text,
                    authority.name,
                    authority.fingerprint.filter { it != ' ' }.take(9),
                ),
            "trust-beside" to Place.TrustBeside(twin.card.text, twin.name, ""),
            "not-applicable" to Place.NotApplicable(on, card.number.toInt(), known.id),
            "finding-reject" to
                Place.Finding(WalkRef.Inspection(rejected.walk), rejected.findings.single().number.toInt()),
            "reject" to
                Place.Write(
                    Why.Reject(WalkRef.Inspection(rejected.walk), rejected.findings.single().number.toInt())
                ),
            "request" to Place.Request,
            "name" to Place.Name,
            "new-pin" to Place.NewPin("Thistle 7"),
            "settings" to Place.Settings(),
        ) + movements()
    }

    /** What becomes of loads: at the hook, on the way, where they are taken down. */
    private fun movements(): Map<String, Place> {
        fun report(
            load: String,
            event: MovementKind,
            cause: RefusalCause? = null,
            ago: Long? = null,
            note: String? = null,
            pieces: List<PieceReport> = emptyList(),
        ) =
            core
                .report(
                    ReportRequest(
                        load,
                        event,
                        cause,
                        ago?.let { Instant.now().epochSecond - it },
                        "Heron 2",
                        null,
                        emptyList(),
                        pieces,
                        note,
                    ),
                    null,
                )
                .report
        val tag = zone.tag("KM-025")
        val pieces = core.arrival(tag.text).pieces
        val lifted = report("KM-025", MovementKind.LIFTED, ago = 1500)
        report(
            "KM-025",
            MovementKind.SET_DOWN,
            pieces = listOf(PieceReport(pieces.first().serial, true, true)),
        )
        // lifted against a NO-GO, and then lost
        val against = zone.tag("KM-026")
        core.check(Zone.sealed(core, against, fit = false).code.text, against.text)
        val stood = report("KM-026", MovementKind.LIFTED, note = "the crew could not wait")
        report("KM-026", MovementKind.LOST)
        val draft = Draft("KM-025")
        return linkedMapOf(
            "arrival" to Place.Arrival(zone.tag("KM-027").text),
            "arrival-story" to Place.Arrival(tag.text),
            "arrival-unknown" to Place.Arrival("KM-026"),
            "what" to Place.What(draft),
            "what-later" to
                Place.What(
                    draft.copy(at = Instant.now().epochSecond - 1800, note = "strap torn", sign = true)
                ),
            "when" to Place.When(draft),
            "when-time" to Place.WhenTime(draft),
            "gear" to Place.Gear(draft),
            "gear-marked" to
                Place.Gear(
                    draft.copy(
                        pieces = pieces.take(2).map { PieceReport(it.serial, true, it == pieces.first()) }
                    )
                ),
            "refuse" to Place.Refuse(draft.copy(event = MovementKind.REFUSED)),
            "report-note" to
                Place.ReportNote(
                    draft.copy(event = MovementKind.REFUSED, cause = RefusalCause.OTHER),
                    Said.NOTE,
                ),
            "report-pin" to Place.ReportPin(draft.copy(event = MovementKind.SET_DOWN)),
            "report" to Place.Report("KM-025", lifted.digest),
            "report-sign" to Place.ReportSign("KM-025", lifted.digest),
            "report-against" to Place.Report("KM-026", stood.digest),
            "receive" to Place.Scan(Purpose.Arrival),
        )
    }

    private fun walkedThrough(tag: String): String {
        var walk = core.beginWalk(tag)
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        return walk.walk
    }

    /** At a deficiency that rejects its piece. */
    private fun rejectedWalk(tag: String): slingseal.core.WalkView {
        fun rejects(of: slingseal.core.DeficiencyView) = of.fate == slingseal.core.FateView.REJECT
        var walk = core.beginWalk(tag)
        while (walk.card!!.points.none { point -> point.deficiencies.any(::rejects) }) walk =
            core.doWalk(walk.walk, Zone.answer(walk))
        val point = walk.card!!.points.first { point -> point.deficiencies.any(::rejects) }
        return core.doWalk(
            walk.walk,
            WalkRequest.Deficiency(
                walk.card!!.number,
                point.id,
                point.deficiencies.first(::rejects).name,
                null,
                emptyList(),
            ),
        )
    }

    /** Walked through with a deficiency that was corrected. */
    private fun correctedWalk(tag: String): String {
        var walk = core.beginWalk(tag)
        while (walk.card!!.points.none { point -> point.deficiencies.any { it.inPlace } }) walk =
            core.doWalk(walk.walk, Zone.answer(walk))
        val card = walk.card!!
        val point = card.points.first { point -> point.deficiencies.any { it.inPlace } }
        walk =
            core.doWalk(
                walk.walk,
                WalkRequest.Deficiency(
                    card.number,
                    point.id,
                    point.deficiencies.first { it.inPlace }.name,
                    "left of the patch",
                    emptyList(),
                ),
            )
        val found = walk.findings.single().number
        core.doWalk(walk.walk, WalkRequest.PutRight(found, null, null, emptyList()))
        walk = core.doWalk(walk.walk, WalkRequest.LookAgain(found, true, null, null, emptyList()))
        while (walk.card != null) walk = core.doWalk(walk.walk, Zone.answer(walk))
        return walk.walk
    }
}
