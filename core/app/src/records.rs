//! The account: every sealed record, its story, and the audit of all of it.

use serde::Serialize;

use super::sealing::{columns, entry_digest, walk_of_record};
use super::walk_view::FindingView;
use super::{App, AppError, Inner, Stamp, TagView};
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{ReceivedSeal, Record};
use slingseal_store::{NewRecord, Outcome, RecordFilter, RecordRow, Standing};
use slingseal_walk::walk::What;
use slingseal_words::{Digest, Time};

/// A record in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RecordLine {
    /// What it goes by.
    pub record: String,
    /// The load.
    pub load: String,
    /// Fit or not.
    pub fit: bool,
    /// `current`, `superseded` or `voided`.
    pub standing: String,
    /// Whether its validity is past.
    pub expired: bool,
    /// Who sealed it.
    pub inspector: String,
    /// Who rigged the load; empty where unknown.
    pub rigger: String,
    /// The procedure's id.
    pub procedure: String,
    /// The pickup zone; empty where unknown.
    pub place: String,
    /// The aircraft's type; empty where unknown.
    pub aircraft: String,
    /// Deficiencies found.
    pub found: u32,
    /// Deficiencies put right.
    pub corrected: u32,
    /// When it was sealed.
    pub issued: Stamp,
    /// Until when it holds.
    pub valid_until: Stamp,
    /// Whether the full record is here, or the seal alone.
    pub whole: bool,
}

/// A record's whole story.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RecordView {
    /// Its line.
    pub line: RecordLine,
    /// The text of its seal.
    pub seal: String,
    /// The tag, where the full record is here.
    pub tag: Option<TagView>,
    /// What was found.
    pub findings: Vec<FindingView>,
    /// What happened, in order.
    pub timeline: Vec<TimelineEntry>,
    /// The statics as the inspector saw them, as JSON.
    pub rigging_json: Option<String>,
    /// Digests of photographs.
    pub photos: Vec<String>,
    /// Voids that are known here.
    pub voids: Vec<String>,
}

/// One moment of a walk.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TimelineEntry {
    /// When, by the inspector's clock.
    pub at: Stamp,
    /// What, in one line.
    pub what: String,
}

/// The same inside a transaction.
pub(crate) fn restand_in(tx: &slingseal_store::Tx<'_>, load: &str) -> Result<(), AppError> {
    let rows = tx.records_of_load(load)?;
    let newest = rows.iter().max_by_key(|row| (row.issued, row.digest)).map(|row| row.digest);
    for row in &rows {
        let standing = if !tx.voids_of(row.digest)?.is_empty() {
            Standing::Voided
        } else if Some(row.digest) == newest {
            Standing::Current
        } else {
            Standing::Superseded
        };
        if row.standing != standing {
            tx.set_standing(row.digest, standing)?;
        }
    }
    Ok(())
}

/// The columns of a seal whose tag and record are not here.
pub(crate) fn bare_row(seal: &slingseal_message::seal::Seal, inspector: &str, now: Time) -> RecordRow {
    RecordRow {
        digest: seal.record,
        load: seal.load.to_string(),
        tag: None,
        procedure: seal.procedure.to_string(),
        outcome: match seal.outcome {
            slingseal_message::seal::Outcome::Fit => Outcome::Fit,
            slingseal_message::seal::Outcome::NotFit => Outcome::NotFit,
        },
        inspector: inspector.to_owned(),
        rigger: String::new(),
        place: String::new(),
        aircraft: String::new(),
        mass_g: None,
        found: seal.found.into(),
        corrected: seal.corrected.into(),
        issued: seal.issued,
        valid_until: seal.valid_until,
        standing: Standing::Current,
        device: None,
        received: now,
    }
}

impl App {
    /// Records, newest first: all, or those in which every word occurs.
    ///
    /// # Errors
    /// Storage.
    pub fn records(&self, words: Option<&str>, most: u32) -> Result<Vec<RecordLine>, AppError> {
        let inner = self.lock();
        let filter = RecordFilter { words: words.map(str::to_owned), ..RecordFilter::default() };
        let page = inner.store.read().records(&filter, None, most)?;
        Ok(page.rows.iter().map(|row| inner.line(row)).collect())
    }

    /// A record's story.
    ///
    /// # Errors
    /// No such record.
    pub fn record(&self, record: &str) -> Result<RecordView, AppError> {
        let inner = self.lock();
        let digest = inner.record_digest(record)?;
        inner.record_view(digest)
    }
}

impl Inner {
    pub(crate) fn line(&self, row: &RecordRow) -> RecordLine {
        RecordLine {
            record: row.digest.to_string(),
            load: row.load.clone(),
            fit: row.outcome == Outcome::Fit,
            standing: match row.standing {
                Standing::Current => "current",
                Standing::Superseded => "superseded",
                Standing::Voided => "voided",
            }
            .into(),
            expired: self.now() > row.valid_until,
            inspector: row.inspector.clone(),
            rigger: row.rigger.clone(),
            procedure: row.procedure.clone(),
            place: row.place.clone(),
            aircraft: row.aircraft.clone(),
            found: row.found,
            corrected: row.corrected,
            issued: row.issued.into(),
            valid_until: row.valid_until.into(),
            // The device is known from the full record alone.
            whole: row.device.is_some(),
        }
    }

    /// Keeps a seal that was scanned, with what the tag says where it was scanned too.
    pub(crate) fn put_seal(
        &mut self,
        bytes: &[u8],
        inspector: &str,
        tag: Option<&TagView>,
    ) -> Result<(), AppError> {
        let seal = ReceivedSeal::open(bytes)?.seal;
        let now = self.now();
        let known = self.tags_of(&seal.load)?;
        let tag_row =
            known.into_iter().find(|row| slingseal_message::seal::TagPrint::of(&row.digest) == seal.tag);
        let scanned = tag.and_then(|tag| {
            Digest::from_hex(&tag.digest).zip(slingseal_message::envelope::unwrap(&tag.text).ok())
        });
        let scanned = scanned.filter(|(digest, _)| slingseal_message::seal::TagPrint::of(digest) == seal.tag);
        let tag_bytes = tag_row.map(|row| row.bytes).or(scanned.map(|(_, (_, bytes))| bytes));
        let opened = tag_bytes.as_deref().map(slingseal_message::tag::ReceivedTag::open).transpose()?;
        let row = match &opened {
            Some(received) => {
                columns(&seal, &received.tag, &received.digest, inspector, seal.record, now, None)
            }
            None => bare_row(&seal, inspector, now),
        };
        self.store.write(|tx| -> Result<(), AppError> {
            tx.put_record(&NewRecord {
                row: &row,
                seal: bytes,
                body: None,
                deficiencies: &[],
                equipment: &[],
                words: "",
            })?;
            Ok(())
        })?;
        self.restand(seal.load.as_str())
    }

    /// Sets anew which record of a load is current, from what is known: the newest is, the others are superseded; a
    /// voided one stays so.
    pub(crate) fn restand(&mut self, load: &str) -> Result<(), AppError> {
        self.store.write(|tx| restand_in(tx, load))
    }

    pub(crate) fn record_view(&self, digest: Digest) -> Result<RecordView, AppError> {
        let none = || AppError::not_found("there is no such record here; see records list");
        let read = self.store.read();
        let row = read.record(digest)?.ok_or_else(none)?;
        let bytes = read.record_bytes(digest)?.ok_or_else(none)?;
        let mut view = RecordView {
            line: self.line(&row),
            seal: slingseal_message::envelope::wrap(Kind::Seal, &bytes.seal),
            tag: None,
            findings: Vec::new(),
            timeline: Vec::new(),
            rigging_json: None,
            photos: Vec::new(),
            voids: Vec::new(),
        };
        for row in read.voids_of(digest)? {
            let (void, _) = slingseal_message::seal::Void::open(&row.bytes)?;
            view.voids.push(format!("{} {}", void.issued.dtg(), void.cause.say(self.language())));
        }
        if let Some(body) = &bytes.body {
            let record = Record::parse(body, &entry_digest)?;
            view.tag = Some(self.tag_view(&record.tag)?);
            view.rigging_json = record.rigging.clone();
            view.photos = record.photos.iter().map(ToString::to_string).collect();
            let (walk, _) = walk_of_record(self, &record)?;
            let id = slingseal_journal::WalkId(record.walk);
            view.findings = self.walk_view(id, &walk, None)?.findings;
            let bodies = record.entries.iter().filter(|entry| entry.kind == super::walks::EVENT);
            for event in super::walks::events(bodies.map(|entry| entry.body.as_slice()))? {
                view.timeline.push(TimelineEntry { at: event.at.into(), what: event_text(&event.what) });
            }
        }
        view.timeline
            .push(TimelineEntry { at: row.issued.into(), what: format!("sealed by {}", row.inspector) });
        Ok(view)
    }
}

fn event_text(what: &What) -> String {
    match what {
        What::Begun { inspector, procedure, version, .. } => {
            format!("{inspector} began, procedure {procedure} {version}")
        }
        What::TagFaultFound { fault } => format!("on the tag: {fault}"),
        What::ClockJumped { from, to } => format!("the clock jumped from {} to {}", from.dtg(), to.dtg()),
        What::CardGood { card } => format!("card {card} good"),
        What::Answered { card, point, value, deficiency } => {
            let bad = deficiency.as_ref().map(|name| format!(", deficient: {name}")).unwrap_or_default();
            format!("card {card}, {point}: {value}{bad}")
        }
        What::DeficiencyFound { card, point, name, note, .. } => {
            let note = note.as_ref().map(|note| format!(" ({note})")).unwrap_or_default();
            format!("card {card}, {point}: DEFICIENT, {name}{note}")
        }
        What::PutRight { finding, by, .. } => {
            let by = by.as_ref().map(|by| format!(" by {by}")).unwrap_or_default();
            format!("finding {finding} put right{by}")
        }
        What::LookedAgain { finding, again, .. } => format!(
            "finding {finding} looked at again: {}",
            match again {
                slingseal_walk::walk::Again::Good => "good",
                slingseal_walk::walk::Again::StillDeficient => "still deficient",
            }
        ),
        What::Undone { answer } => format!("answer {answer} taken back"),
        What::WentTo { card } => format!("went to card {card}"),
        What::RiggingAssessed { finding } => format!("rigging: {}", finding.summary),
        What::Paused {} => "paused".into(),
        What::Resumed {} => "resumed".into(),
        What::Abandoned { reason } => format!("abandoned: {reason}"),
        What::Decided { outcome, reason } => {
            let reason = reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
            format!("decided {outcome}{reason}")
        }
        What::DecisionTakenBack {} => "decision taken back".into(),
    }
}

/// For exports: the time now, as this home sees it.
impl App {
    /// The time by this home's clock.
    pub fn now(&self) -> Time {
        self.lock().now()
    }
}
