//! How each full record was walked: what a closing asks, without reading ten thousand records.

use rusqlite::Row;

use slingseal_words::{Digest, Seconds};

use super::table::Table;
use super::values::{count_in, count_out};
use super::{DeviceId, Reader, StoreError, Tx};

pub(super) static WALK_FACTS: Table =
    Table::new("walk_facts", "record", &["record", "device", "seconds", "cards", "head", "before"]);
/// The same as schemas 4 to 6 had it, for saving what can be read of such a file.
pub(super) static WALK_FACTS_6: Table =
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
    /// The record that the device sealed before.
    pub before: Option<Digest>,
}

/// What a device wrote before a full record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RecordLink {
    /// The device.
    pub device: DeviceId,
    /// Where its journal ended when the record was made.
    pub head: u64,
    /// The record that it sealed before.
    pub before: Option<Digest>,
}

/// Whose full record is here, in the order of the records' digests: the index of those is walked from one on, and no other.
pub(super) const WALKED: &str =
    "SELECT digest FROM records CROSS JOIN walk_facts ON walk_facts.record = records.id
    WHERE digest >= ?1 ORDER BY digest";

/// Walks the bytes in their order and looks each up among the facts.
pub(super) const UNWALKED: &str =
    "SELECT records.seal FROM record_bytes CROSS JOIN records ON records.id = record_bytes.record
    WHERE record_bytes.body IS NOT NULL AND record_bytes.record NOT IN (SELECT record FROM walk_facts)
    ORDER BY record_bytes.record";

fn link(row: &Row<'_>) -> rusqlite::Result<RecordLink> {
    Ok(RecordLink { device: row.get(1)?, head: count_out(row, 4)?, before: row.get(5)? })
}

impl Tx<'_> {
    /// Keeps how the record of a seal that is here was walked; of another seal nothing.
    pub fn put_walk_facts(&self, row: &WalkFactsRow) -> Result<(), StoreError> {
        self.record_id(row.seal)?.map_or(Ok(()), |record| self.put_facts_of(record, row))
    }

    pub(super) fn put_facts_of(&self, record: i64, row: &WalkFactsRow) -> Result<(), StoreError> {
        let WalkFactsRow { seal: _, device, took, cards, head, before } = row;
        let values = (record, device, took.0, cards, count_in(*head)?, before);
        self.run(&WALK_FACTS.insert("OR REPLACE"), values)?;
        Ok(())
    }
}

impl Reader<'_> {
    /// How the full record of a seal was walked; none where it is not here.
    pub fn walk_facts_of(&self, seal: Digest) -> Result<Option<WalkFactsRow>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE seal = ?1)";
        let found =
            self.row(&WALK_FACTS, rest, [seal], |row| Ok((link(row)?, Seconds(row.get(2)?), row.get(3)?)))?;
        Ok(found.map(|(RecordLink { device, head, before }, took, cards)| WalkFactsRow {
            seal,
            device,
            took,
            cards,
            head,
            before,
        }))
    }

    /// Seals whose full record is here and of which it is not kept how they were walked: of a home of an older schema.
    pub fn seals_without_walk_facts(&self) -> Result<Vec<Digest>, StoreError> {
        self.ask(UNWALKED, |statement| statement.query_map([], |row| row.get(0))?.collect())
    }

    /// What each full record is in its device's chain, in the order in which they came.
    pub fn each_record_link(&self, mut take: impl FnMut(RecordLink)) -> Result<(), StoreError> {
        self.each(&WALK_FACTS, "ORDER BY record", [], link, |link| {
            take(link);
            Ok(())
        })
    }

    /// The digests from one on of the full records that are here, in their order, as long as they are wanted: `take` says whether the
    /// next one is.
    pub fn digests_of_walked(
        &self,
        from: Digest,
        mut take: impl FnMut(Digest) -> bool,
    ) -> Result<(), StoreError> {
        self.ask(WALKED, |statement| {
            let mut rows = statement.query([from])?;
            while let Some(row) = rows.next()? {
                if !take(row.get(0)?) {
                    break;
                }
            }
            Ok(())
        })
    }
}
