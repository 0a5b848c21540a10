//! How each full record was walked: what a closing asks, without reading ten thousand records.

use rusqlite::Row;

use slingseal_words::{Digest, Seconds};

use super::table::Table;
use super::values::{count_in, count_out};
use super::{DeviceId, Reader, StoreError, Tx};

pub(super) static WALK_FACTS: Table =
    Table::new("walk_facts", "seal", &["seal", "device", "seconds", "cards", "head", "record", "before"]);

/// How a full record was walked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WalkFactsRow {
    /// The digest of its seal.
    pub seal: Digest,
    /// The device.
    pub device: DeviceId,
    /// From the first entry to the decision.
    pub took: Seconds,
    /// How many cards the procedure has.
    pub cards: u32,
    /// Where the device's journal ended when the record was made.
    pub head: u64,
    /// The record's digest.
    pub record: Digest,
    /// The record that the device sealed before.
    pub before: Option<Digest>,
}

fn make_facts(row: &Row<'_>) -> rusqlite::Result<WalkFactsRow> {
    Ok(WalkFactsRow {
        seal: row.get(0)?,
        device: row.get(1)?,
        took: Seconds(row.get(2)?),
        cards: row.get(3)?,
        head: count_out(row, 4)?,
        record: row.get(5)?,
        before: row.get(6)?,
    })
}

impl Tx<'_> {
    /// Keeps how a record was walked.
    pub fn put_walk_facts(&self, row: &WalkFactsRow) -> Result<(), StoreError> {
        let WalkFactsRow { seal, device, took, cards, head, record, before } = row;
        let values = (seal, device, took.0, cards, count_in(*head)?, record, before);
        self.run(&WALK_FACTS.insert("OR REPLACE"), values)?;
        Ok(())
    }
}

impl Reader<'_> {
    /// How every full record was walked, by seal.
    pub fn walk_facts(&self) -> Result<Vec<WalkFactsRow>, StoreError> {
        self.rows(&WALK_FACTS, "ORDER BY seal", [], make_facts)
    }

    /// How the full record of a seal was walked; none where it is not here.
    pub fn walk_facts_of(&self, seal: Digest) -> Result<Option<WalkFactsRow>, StoreError> {
        self.row(&WALK_FACTS, "WHERE seal = ?1", [seal], make_facts)
    }

    /// Seals whose full record is here and of which it is not kept how they were walked: of a home of an older schema.
    pub fn seals_without_walk_facts(&self) -> Result<Vec<Digest>, StoreError> {
        let sql = "SELECT records.seal FROM records JOIN record_bytes ON record_bytes.record = records.id
            WHERE body IS NOT NULL AND records.seal NOT IN (SELECT seal FROM walk_facts) ORDER BY records.id";
        self.ask(sql, |statement| statement.query_map([], |row| row.get(0))?.collect())
    }
}
