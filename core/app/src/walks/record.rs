//! A sealed walk as evidence: the full record folded again, and the rows that it is found by.

use std::sync::Arc;

use slingseal_catalogue::{Language, closing as closing_words, refusals as words};

use super::entries::{EVENT, GROUND, events, ground_parts};
use crate::{AppError, Inner};
use slingseal_journal::{DeviceId, EntryParts, WalkId};
use slingseal_judgement::pieces_of;
use slingseal_message::seal::{InspectedSubject, JournalEntry, Outcome, Record, Seal};
use slingseal_message::tag::{ReceivedTag, Tag};
use slingseal_store::{DeficiencyRow, EquipmentRow, Judged, RecordRow, SubjectKind, WalkFactsRow};
use slingseal_walk::procedure::{Expanded, Subject};
use slingseal_walk::walk::{self, LoadFacts, Walk};
use slingseal_words::{Digest, Quantity, Serial, Time};

/// The digest of a journal entry that stands in a record, by the journal's own rule.
pub(crate) fn entry_digest(entry: &JournalEntry, walk: &[u8; 16]) -> Digest {
    let JournalEntry { seq, prev, time, kind, body } = entry;
    let walk = Some(WalkId(*walk));
    EntryParts { seq: *seq, time: *time, kind, walk, body, prev: *prev }.derive_digest()
}

/// A walk folded from a record, with its tag: the record's own entries, nothing of this device's journal.
pub(crate) fn walk_of_record(inner: &Inner, record: &Record) -> Result<(Walk, Tag), AppError> {
    let plan = inner.procedure_of_digest(&record.procedure_digest, inner.language())?;
    walk_from(record, Arc::new(plan))
}

/// The same by the procedure that it names: for who reads many, or from a transaction of its own.
pub(crate) fn walk_from(record: &Record, plan: Arc<Expanded>) -> Result<(Walk, Tag), AppError> {
    let entries = &record.entries;
    let missing = || AppError::bad_input(words::RecordDoesSayWhichTag);
    let ground = entries.iter().find(|entry| entry.kind == GROUND).ok_or_else(missing)?;
    let (tag, digest, inspector) = ground_parts(&ground.body)?;
    if tag != record.tag || digest != record.procedure_digest {
        return Err(AppError::bad_input(words::RecordWalksAnotherTagProcedure));
    }
    let received = ReceivedTag::open(tag)?;
    let ground = walk::Ground { plan, facts: LoadFacts::of(&received.tag, received.digest), inspector };
    let bodies = entries.iter().filter(|entry| entry.kind == EVENT);
    let told = events(bodies.map(|entry| entry.body.as_slice()))?;
    let walk = Walk::fold(Arc::new(ground), &told).map_err(AppError::bad_input)?;
    Ok((walk, received.tag))
}

pub(super) fn to_outcome(outcome: walk::Outcome) -> Outcome {
    match outcome {
        walk::Outcome::Fit => Outcome::Fit,
        walk::Outcome::NotFit => Outcome::NotFit,
    }
}

/// The columns that a record is found by.
pub(crate) fn columns(
    seal: &Seal,
    own: Digest,
    tag: &Tag,
    tag_digest: &Digest,
    inspector: &str,
    received: Time,
    device: Option<[u8; 16]>,
) -> RecordRow {
    RecordRow {
        tag: Some(*tag_digest),
        rigger: tag.rigger.as_ref().map(ToString::to_string).unwrap_or_default(),
        place: tag.pickup.name.to_string(),
        aircraft: tag.aircraft.to_string(),
        device: device.map(DeviceId),
        ..bare_columns(seal, own, inspector, received)
    }
}

/// The columns of a seal whose tag and record are not here.
pub(crate) fn bare_columns(seal: &Seal, own: Digest, inspector: &str, received: Time) -> RecordRow {
    let outcome = match seal.outcome {
        Outcome::Fit => slingseal_store::Outcome::Fit,
        Outcome::NotFit => slingseal_store::Outcome::NotFit,
    };
    RecordRow {
        seal: own,
        digest: seal.record,
        load: seal.load.to_string(),
        tag: None,
        procedure: seal.procedure.to_string(),
        outcome,
        inspector: inspector.to_owned(),
        rigger: String::new(),
        place: String::new(),
        aircraft: String::new(),
        mass_g: grams(seal.mass),
        found: seal.found.into(),
        corrected: seal.corrected.into(),
        issued: seal.issued,
        valid_until: seal.valid_until,
        judged: Judged::not_yet(outcome),
        author: None,
        device: None,
        received,
    }
}

fn grams(mass: Quantity) -> Option<i64> {
    // A mass on a tag is below 10^9 units, so that the cast is exact enough for a column that is only listed.
    mass.kilograms().map(|mass| (mass.value() * 1_000.0).round() as i64)
}

pub(crate) fn deficiencies(walk: &Walk) -> Vec<DeficiencyRow> {
    let ground = walk.ground();
    let rigger = ground.facts.rigger.as_ref().map(ToString::to_string).unwrap_or_default();
    let mut rows: Vec<DeficiencyRow> = walk
        .findings()
        .iter()
        .map(|finding| DeficiencyRow {
            procedure: ground.plan.id.to_string(),
            point: finding.point.to_string(),
            name: finding.name.clone(),
            rigger: rigger.clone(),
            corrected: finding.state == walk::FindingState::Closed,
        })
        .collect();
    rows.sort();
    rows.dedup();
    rows
}

/// The pieces that a tag names by serial number: its equipment, and the sling legs that stand apart from it.
pub(crate) fn equipment(tag: &Tag) -> Vec<EquipmentRow> {
    let named = |serial: &Serial| tag.equipment.iter().any(|piece| piece.serial == *serial);
    let mut rows: Vec<EquipmentRow> = pieces_of(tag)
        .into_iter()
        .map(|(kind, serial)| EquipmentRow {
            kind: match named(&serial) {
                true => kind.to_string(),
                // In English, whatever the reader's language: two desks keep the same.
                false => closing_words::KindOfLeg { leg: kind.as_str() }.say(Language::English),
            },
            serial: serial.to_string(),
        })
        .collect();
    rows.sort();
    rows.dedup();
    rows
}

/// What a closing asks of a full record.
pub(crate) fn walk_facts(seal: Digest, record: &Record, walk: &Walk) -> WalkFactsRow {
    let began = record.entries.first().map_or(record.decided, |entry| entry.time);
    WalkFactsRow {
        seal,
        device: DeviceId(record.device),
        took: record.decided.since(began),
        cards: u32::try_from(walk.ground().plan.cards.len()).unwrap_or(u32::MAX),
        head: record.head.0,
        before: record.before,
    }
}

/// What an inspection that is kept is of.
pub(crate) fn subject_of_kind(kind: SubjectKind) -> Subject {
    match kind {
        SubjectKind::Piece => Subject::Piece,
        SubjectKind::Aircraft => Subject::Aircraft,
        SubjectKind::Zone => Subject::Zone,
        SubjectKind::Handling => Subject::Handling,
    }
}

pub(crate) fn subject_kind(subject: InspectedSubject) -> SubjectKind {
    match subject {
        InspectedSubject::Piece => SubjectKind::Piece,
        InspectedSubject::Aircraft => SubjectKind::Aircraft,
        InspectedSubject::Zone => SubjectKind::Zone,
        InspectedSubject::Handling => SubjectKind::Handling,
    }
}
