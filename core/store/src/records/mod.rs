mod put;
mod read;

use rusqlite::Row;

use slingseal_words::{Digest, Time};

use super::DeviceId;
use super::author::{Author, author_of};
use super::table::Table;
use super::values::word_column;

pub use put::{NewRecord, Put};

pub(super) static RECORDS: Table = Table::new(
    "records",
    "id",
    &[
        "id",
        "seal",
        "digest",
        "load",
        "tag",
        "procedure",
        "outcome",
        "inspector",
        "rigger",
        "place",
        "aircraft",
        "mass_g",
        "found",
        "corrected",
        "issued",
        "valid_until",
        "standing",
        "reason",
        "successor",
        "judged",
        "authority",
        "signer",
        "credential",
        "in_time",
        "device",
        "received",
        "words",
    ],
);
pub(super) static BYTES: Table = Table::new("record_bytes", "record", &["record", "seal", "body"]);
pub(super) static DEFICIENCIES: Table = Table::new(
    "deficiencies",
    "record",
    &["record", "at", "procedure", "point", "name", "rigger", "corrected"],
);
pub(super) static EQUIPMENT: Table = Table::new("equipment", "record", &["record", "at", "serial", "kind"]);

/// Makes the searched words of all records; which of them may follow.
pub(super) const INDEX_WORDS: &str = "
    INSERT INTO record_words (rowid, words)
    SELECT id, concat_ws(' ', load, procedure, inspector, rigger, place, aircraft, words,
        (SELECT group_concat(name, ' ') FROM deficiencies WHERE record = id),
        (SELECT group_concat(serial || ' ' || kind, ' ') FROM equipment WHERE record = id))
    FROM records";

/// What a record says of its load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Fit to fly.
    Fit,
    /// Not fit.
    NotFit,
}
word_column!(Outcome { Fit = "fit", NotFit = "not_fit" });

/// How a seal stands. The judgement decides; the store keeps what it said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// The load's latest inspection, and it found the load fit.
    Fit,
    /// An inspection that found the load not fit.
    NotFit,
    /// A later inspection of the same load took its place.
    Superseded,
    /// Someone credentialed withdrew it.
    Voided,
    /// An inspection that nobody may rely on: revoked, valid too long, with an open deficiency.
    Refused,
    /// An inspection that nobody may rely on before someone has looked into it.
    Waits,
    /// The seal of somebody who might not inspect: evidence of that, and no inspection of the load.
    NoInspection,
}
word_column!(Standing {
    Fit = "fit",
    NotFit = "not_fit",
    Superseded = "superseded",
    Voided = "voided",
    Refused = "refused",
    Waits = "wait",
    NoInspection = "no_inspection",
});

/// What the judgement said of one seal, whatever the time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// How it stands.
    pub standing: Standing,
    /// The stable word of the reason; empty where it stands.
    pub reason: String,
    /// The seal that took its place.
    pub successor: Option<Digest>,
    /// The version of the function that said so; 0 where none has.
    pub version: u32,
}

impl Judged {
    /// Nothing was said yet of a seal with this outcome.
    pub fn not_yet(outcome: Outcome) -> Self {
        let standing = match outcome {
            Outcome::Fit => Standing::Fit,
            Outcome::NotFit => Standing::NotFit,
        };
        Self { standing, reason: String::new(), successor: None, version: 0 }
    }
}

/// The columns by which records are listed and found: one row a seal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordRow {
    /// The digest of the seal's own bytes: what the row goes by.
    pub seal: Digest,
    /// The record that the seal names. Another seal may name the same.
    pub digest: Digest,
    /// The load number.
    pub load: String,
    /// The digest of the tag that was sealed.
    pub tag: Option<Digest>,
    /// The procedure's id.
    pub procedure: String,
    /// What was decided.
    pub outcome: Outcome,
    /// Who decided.
    pub inspector: String,
    /// Who built the load; empty where unknown.
    pub rigger: String,
    /// The pickup zone; empty where unknown.
    pub place: String,
    /// The aircraft type; empty where unknown.
    pub aircraft: String,
    /// The gross mass in grams.
    pub mass_g: Option<i64>,
    /// How many deficiencies were found.
    pub found: u32,
    /// How many of them were put right.
    pub corrected: u32,
    /// When it was sealed, by the sealing device's clock.
    pub issued: Time,
    /// Until when it may be relied on.
    pub valid_until: Time,
    /// How it stands.
    pub judged: Judged,
    /// Who signed it.
    pub author: Option<Author>,
    /// The device that made it, where its journal is known.
    pub device: Option<DeviceId>,
    /// When it came here, by this device's clock.
    pub received: Time,
}

impl RecordRow {
    /// How it stands.
    pub fn standing(&self) -> Standing {
        self.judged.standing
    }
}

/// A seal's bytes and its record's, as they came.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordBytes {
    /// The seal.
    pub seal: Vec<u8>,
    /// The full record; `None` where only the seal was seen.
    pub body: Option<Vec<u8>>,
}

/// A deficiency of a record, for counting.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DeficiencyRow {
    /// The procedure's id.
    pub procedure: String,
    /// The point's id.
    pub point: String,
    /// The deficiency's name.
    pub name: String,
    /// Who built the load.
    pub rigger: String,
    /// Whether it was put right and looked at again.
    pub corrected: bool,
}

/// A piece of equipment that a record names.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct EquipmentRow {
    /// The serial number.
    pub serial: String,
    /// What it is.
    pub kind: String,
}

/// What `RecordRow` needs, without the searched words.
pub(super) fn make(row: &Row<'_>) -> rusqlite::Result<RecordRow> {
    Ok(RecordRow {
        seal: row.get(1)?,
        digest: row.get(2)?,
        load: row.get(3)?,
        tag: row.get(4)?,
        procedure: row.get(5)?,
        outcome: row.get(6)?,
        inspector: row.get(7)?,
        rigger: row.get(8)?,
        place: row.get(9)?,
        aircraft: row.get(10)?,
        mass_g: row.get(11)?,
        found: row.get(12)?,
        corrected: row.get(13)?,
        issued: row.get(14)?,
        valid_until: row.get(15)?,
        judged: Judged {
            standing: row.get(16)?,
            reason: row.get(17)?,
            successor: row.get(18)?,
            version: row.get(19)?,
        },
        author: author_of(row, 20)?,
        device: row.get(24)?,
        received: row.get(25)?,
    })
}

/// The column of the searched words.
pub(super) const WORDS: usize = 26;

pub(super) fn make_with_id(row: &Row<'_>) -> rusqlite::Result<(i64, RecordRow)> {
    Ok((row.get(0)?, make(row)?))
}
