//! Signed inspections of what is no load.

use slingseal_words::{Digest, Time};

use super::author::{Author, author_of, columns};
use super::table::Table;
use super::values::word_column;
use super::{Reader, StoreError, Tx};

pub(super) static INSPECTIONS: Table = Table::new(
    "inspections",
    "digest",
    &[
        "digest",
        "subject",
        "name",
        "procedure",
        "version",
        "inspector",
        "fit",
        "issued",
        "fit_until",
        "record",
        "received",
        "authority",
        "signer",
        "credential",
        "in_time",
        "bytes",
    ],
);

/// What an inspection is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SubjectKind {
    /// A piece of gear.
    Piece,
    /// An aircraft's hooks.
    Aircraft,
    /// A zone.
    Zone,
    /// What was done with a load.
    Handling,
}
word_column!(SubjectKind { Piece = "piece", Aircraft = "aircraft", Zone = "zone", Handling = "handling" });

/// A signed inspection of what is no load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InspectionRow {
    /// The digest of its bytes.
    pub digest: Digest,
    /// What it is of.
    pub subject: SubjectKind,
    /// Serial number in capitals, aircraft, zone or load number.
    pub name: String,
    /// The procedure's id.
    pub procedure: String,
    /// Its edition.
    pub version: u32,
    /// Who inspected.
    pub inspector: String,
    /// Whether it was found fit.
    pub fit: bool,
    /// When it was signed.
    pub issued: Time,
    /// Until when it is fit.
    pub fit_until: Option<Time>,
    /// The digest of its full record.
    pub record: Digest,
    /// When it came here.
    pub received: Time,
    /// Who signed it.
    pub author: Option<Author>,
    /// The message.
    pub bytes: Vec<u8>,
}

fn make(row: &rusqlite::Row<'_>) -> rusqlite::Result<InspectionRow> {
    Ok(InspectionRow {
        digest: row.get(0)?,
        subject: row.get(1)?,
        name: row.get(2)?,
        procedure: row.get(3)?,
        version: row.get(4)?,
        inspector: row.get(5)?,
        fit: row.get(6)?,
        issued: row.get(7)?,
        fit_until: row.get(8)?,
        record: row.get(9)?,
        received: row.get(10)?,
        author: author_of(row, 11)?,
        bytes: row.get(15)?,
    })
}

impl Tx<'_> {
    /// Keeps an inspection, and its full record where that came along; `false` where the inspection was known.
    pub fn put_inspection(&self, row: &InspectionRow, body: Option<&[u8]>) -> Result<bool, StoreError> {
        self.put_body(body)?;
        let (authority, key, credential, in_time) = columns(row.author.as_ref());
        let values = rusqlite::params![
            row.digest,
            row.subject,
            row.name,
            row.procedure,
            row.version,
            row.inspector,
            row.fit,
            row.issued,
            row.fit_until,
            row.record,
            row.received,
            authority,
            key,
            credential,
            in_time,
            row.bytes,
        ];
        Ok(self.run(&INSPECTIONS.insert("OR IGNORE"), values)? > 0)
    }
}

impl Reader<'_> {
    /// All inspections, sorted by digest: their order in time is for others to say.
    pub fn inspections(&self) -> Result<Vec<InspectionRow>, StoreError> {
        self.rows(&INSPECTIONS, "NOT INDEXED ORDER BY digest", [], make)
    }

    /// One inspection.
    pub fn inspection(&self, digest: Digest) -> Result<Option<InspectionRow>, StoreError> {
        self.row(&INSPECTIONS, "WHERE digest = ?1", [digest], make)
    }

    /// The inspections of a piece, by its serial number in capitals, sorted by digest.
    pub fn inspections_of_piece(&self, serial: &str) -> Result<Vec<InspectionRow>, StoreError> {
        let rest = "NOT INDEXED WHERE subject = 'piece' AND name = ?1 ORDER BY digest";
        self.rows(&INSPECTIONS, rest, [serial], make)
    }

    /// The inspection at a place of the table.
    pub(super) fn inspection_at(&self, place: i64) -> Result<Option<InspectionRow>, StoreError> {
        self.row(&INSPECTIONS, "WHERE rowid = ?1", [place], make)
    }

    /// One inspection of a piece of each credential that signed any.
    pub fn piece_inspectors(&self) -> Result<Vec<InspectionRow>, StoreError> {
        let rest =
            "NOT INDEXED WHERE subject = 'piece' AND credential IS NOT NULL ORDER BY credential, digest";
        let mut rows = self.rows(&INSPECTIONS, rest, [], make)?;
        rows.dedup_by_key(|row| row.author.map(|author| author.credential));
        Ok(rows)
    }

    /// The serial numbers, in capitals, of the pieces that a credential's holder inspected.
    pub fn pieces_of_credential(&self, credential: [u8; 8]) -> Result<Vec<String>, StoreError> {
        let sql =
            "SELECT DISTINCT name FROM inspections NOT INDEXED WHERE subject = 'piece' AND credential = ?1";
        self.ask(sql, |statement| statement.query_map([credential], |row| row.get(0))?.collect())
    }

    /// Loads whose full record names a piece of this serial number, in capitals.
    pub fn loads_of_piece(&self, serial: &str) -> Result<Vec<String>, StoreError> {
        let sql = "SELECT DISTINCT load FROM records JOIN equipment ON records.id = record WHERE upper(serial) = ?1";
        self.ask(sql, |statement| statement.query_map([serial], |row| row.get(0))?.collect())
    }
}
