//! The ends of other devices' journals, as records vouch for them and bundles hint at them.

use rusqlite::Row;

use slingseal_words::Digest;

use super::table::Table;
use super::values::{count_in, count_out};
use super::{DeviceId, Reader, StoreError, Tx};

pub(super) static HEADS: Table =
    Table::new("journal_heads", "at", &["at", "device", "seq", "digest", "record"]);

/// The end of another device's journal at some time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct HeadRow {
    /// Whose.
    pub device: DeviceId,
    /// The number of the entry.
    pub seq: u64,
    /// Its digest.
    pub digest: Digest,
    /// The signed record that tells it; none where nobody signed it.
    pub record: Option<Digest>,
}

fn make(row: &Row<'_>) -> rusqlite::Result<HeadRow> {
    Ok(HeadRow { device: row.get(1)?, seq: count_out(row, 2)?, digest: row.get(3)?, record: row.get(4)? })
}

impl Tx<'_> {
    /// Puts these ends, in this order, in the place of all that were kept.
    pub fn put_heads(&self, heads: &[HeadRow]) -> Result<(), StoreError> {
        if self.heads()? == heads {
            return Ok(());
        }
        self.run("DELETE FROM journal_heads", [])?;
        for (at, head) in (0i64..).zip(heads) {
            let HeadRow { device, seq, digest, record } = head;
            self.run(&HEADS.insert(""), (at, device, count_in(*seq)?, digest, record))?;
        }
        Ok(())
    }
}

impl Reader<'_> {
    /// What is known of the ends of all other devices' journals, in the order in which it was put.
    pub fn heads(&self) -> Result<Vec<HeadRow>, StoreError> {
        self.rows(&HEADS, "ORDER BY at", [], make)
    }
}
