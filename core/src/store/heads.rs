//! The ends of other devices' journals, as records prove them and bundles hint at them.

use rusqlite::Row;

use crate::words::Digest;

use super::table::Table;
use super::values::{count_in, count_out};
use super::{DeviceId, Reader, StoreError, Tx};

pub(super) const HEADS: Table = Table::new("journal_heads", "device", &["device", "seq", "digest", "proved"]);

/// So many unproved ends are kept of one device: they are hints, and a stranger makes any number of them.
pub const MOST_HINTS: u64 = 4;

/// The end of another device's journal at some time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct HeadRow {
    /// Whose.
    pub device: DeviceId,
    /// The number of the entry.
    pub seq: u64,
    /// Its digest.
    pub digest: Digest,
    /// Whether a signed record told it.
    pub proved: bool,
}

fn make(row: &Row<'_>) -> rusqlite::Result<HeadRow> {
    Ok(HeadRow { device: row.get(0)?, seq: count_out(row, 1)?, digest: row.get(2)?, proved: row.get(3)? })
}

impl Tx<'_> {
    /// Keeps the end of a journal. Of proved ones the furthest of a device stays; of hints the first few, and only where a
    /// proved end of that device is here, so that nothing unsigned grows the account or hides what is signed.
    pub fn put_head(&self, head: &HeadRow) -> Result<(), StoreError> {
        let HeadRow { device, seq, digest, proved } = head;
        let known = self.heads_of(*device)?;
        if known.iter().any(|known| (known.seq, known.digest) == (*seq, *digest) && known.proved >= *proved) {
            return Ok(());
        }
        let best = known.iter().filter(|known| known.proved).map(|known| known.seq).max();
        if *proved {
            if best.is_some_and(|best| best > *seq) {
                return Ok(());
            }
            self.run(
                "DELETE FROM journal_heads WHERE device = ?1 AND proved = 1 AND seq < ?2",
                (device, count_in(*seq)?),
            )?;
        } else {
            let hints = known.iter().filter(|known| !known.proved).count() as u64;
            if best.is_none() || hints >= MOST_HINTS {
                return Ok(());
            }
        }
        self.run(&HEADS.insert("OR REPLACE"), (device, count_in(*seq)?, digest, proved))?;
        Ok(())
    }
}

impl Reader<'_> {
    /// What is known of the end of a device's journal.
    pub fn heads_of(&self, device: DeviceId) -> Result<Vec<HeadRow>, StoreError> {
        self.rows(&HEADS, "WHERE device = ?1 ORDER BY seq, digest", [device], make)
    }

    /// What is known of the ends of all other devices' journals.
    pub fn heads(&self) -> Result<Vec<HeadRow>, StoreError> {
        self.rows(&HEADS, "ORDER BY device, seq, digest", [], make)
    }
}
