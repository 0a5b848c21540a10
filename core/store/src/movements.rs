//! What became of loads: the reports as they came.

use rusqlite::Row;

use slingseal_words::{Digest, Time};

use super::author::{Author, author_of, columns};
use super::table::Table;
use super::{DeviceId, Reader, StoreError, Tx};

pub(super) static MOVEMENTS: Table = Table::new(
    "movements",
    "digest",
    &[
        "load",
        "digest",
        "event",
        "happened",
        "issued",
        "device",
        "before",
        "seal",
        "own",
        "signed",
        "received",
        "authority",
        "signer",
        "credential",
        "in_time",
        "bytes",
    ],
);
/// Which column holds the bytes of a report.
pub(super) const MOVEMENT_BYTES: usize = 15;

/// A report of what became of a load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MovementRow {
    /// The load number.
    pub load: String,
    /// The digest of its bytes.
    pub digest: Digest,
    /// The word of the event.
    pub event: String,
    /// When it happened, by the reporter's clock.
    pub happened: Time,
    /// When it was written.
    pub issued: Time,
    /// The device on which it was written, as it says.
    pub device: DeviceId,
    /// The report that the same device wrote before.
    pub before: Option<Digest>,
    /// The seal that it names.
    pub seal: Option<Digest>,
    /// Whether this device wrote it: its journal names it.
    pub own: bool,
    /// Whether somebody signed it.
    pub signed: bool,
    /// When it came here.
    pub received: Time,
    /// Who signed it.
    pub author: Option<Author>,
    /// The report.
    pub bytes: Vec<u8>,
}

pub(super) fn make(row: &Row<'_>) -> rusqlite::Result<MovementRow> {
    Ok(MovementRow {
        load: row.get(0)?,
        digest: row.get(1)?,
        event: row.get(2)?,
        happened: row.get(3)?,
        issued: row.get(4)?,
        device: row.get(5)?,
        before: row.get(6)?,
        seal: row.get(7)?,
        own: row.get(8)?,
        signed: row.get(9)?,
        received: row.get(10)?,
        author: author_of(row, 11)?,
        bytes: row.get(MOVEMENT_BYTES)?,
    })
}

impl Tx<'_> {
    /// Keeps a report; `false` where it was known.
    pub fn put_movement(&self, row: &MovementRow) -> Result<bool, StoreError> {
        let (authority, key, credential, in_time) = columns(row.author.as_ref());
        let values = rusqlite::params![
            row.load,
            row.digest,
            row.event,
            row.happened,
            row.issued,
            row.device,
            row.before,
            row.seal,
            row.own,
            row.signed,
            row.received,
            authority,
            key,
            credential,
            in_time,
            row.bytes,
        ];
        Ok(self.run(&MOVEMENTS.insert("OR IGNORE"), values)? > 0)
    }

    /// Drops a report that nobody known signed and that was not written here.
    pub fn remove_unknown_movement(&self, load: &str, digest: Digest) -> Result<(), StoreError> {
        let sql = "DELETE FROM movements WHERE load = ?1 AND digest = ?2 AND authority IS NULL AND own = 0";
        self.run(sql, (load, digest))?;
        Ok(())
    }

    /// Keeps who signed a report, where that is verified anew.
    pub fn set_movement_author(&self, row: &MovementRow, author: Option<&Author>) -> Result<(), StoreError> {
        let (authority, key, credential, in_time) = columns(author);
        let changed = ["authority", "signer", "credential", "in_time"];
        let sql = MOVEMENTS.update(&changed, "WHERE load = ?5 AND digest = ?6");
        self.run(&sql, (authority, key, credential, in_time, &row.load, row.digest))?;
        Ok(())
    }
}

impl Reader<'_> {
    /// The reports of a load, by digest: their order is the message's to say.
    pub fn movements_of(&self, load: &str) -> Result<Vec<MovementRow>, StoreError> {
        self.rows(&MOVEMENTS, "WHERE load = ?1 ORDER BY digest", [load], make)
    }

    /// A report of a load.
    pub fn movement(&self, load: &str, digest: Digest) -> Result<Option<MovementRow>, StoreError> {
        self.row(&MOVEMENTS, "WHERE load = ?1 AND digest = ?2", (load, digest), make)
    }

    /// All reports, by load and digest.
    pub fn movements(&self) -> Result<Vec<MovementRow>, StoreError> {
        self.rows(&MOVEMENTS, "ORDER BY load, digest", [], make)
    }

    /// How many reports are here that nobody known signed and that were not written here.
    pub fn unknown_movements(&self) -> Result<u64, StoreError> {
        self.count("SELECT count(*) FROM movements WHERE authority IS NULL AND own = 0", [])
    }
}
