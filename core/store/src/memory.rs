use slingseal_words::Time;

use super::table::Table;
use super::values::{count_in, count_out};
use super::{MemoryRow, Reader, StoreError, Tx};

pub(super) static MEMORY: Table = Table::new("memory", "one", &["one", "writes", "judged", "put_back"]);

impl Tx<'_> {
    /// Leaves the trace of a judgement: this clock was not before `now`.
    pub fn judged_at(&self, now: Time) -> Result<(), StoreError> {
        self.run("UPDATE memory SET judged = max(coalesce(judged, ?1), ?1)", [now])?;
        self.run(&MEMORY.reseal(""), [])?;
        Ok(())
    }

    /// Forgets that an older copy was put back: everyone trusted has spoken since.
    pub fn memory_is_whole(&self) -> Result<(), StoreError> {
        self.run("UPDATE memory SET put_back = NULL", [])?;
        self.run(&MEMORY.reseal(""), [])?;
        Ok(())
    }

    /// Counts one more write, and more than any that was seen before.
    pub(super) fn count_write(&self, at_least: u64) -> Result<u64, StoreError> {
        let next = self.memory()?.writes.max(at_least).saturating_add(1);
        self.run("UPDATE memory SET writes = ?1", [count_in(next)?])?;
        self.run(&MEMORY.reseal(""), [])?;
        Ok(next)
    }

    pub(super) fn note_put_back(&self, since: Time) -> Result<(), StoreError> {
        self.run("UPDATE memory SET put_back = max(coalesce(put_back, ?1), ?1)", [since])?;
        self.run(&MEMORY.reseal(""), [])?;
        Ok(())
    }
}

impl Reader<'_> {
    /// What this device remembers of itself.
    pub fn memory(&self) -> Result<MemoryRow, StoreError> {
        let row = self.row(&MEMORY, "", [], |row| {
            Ok(MemoryRow { writes: count_out(row, 1)?, judged: row.get(2)?, put_back: row.get(3)? })
        })?;
        match row {
            Some(row) => Ok(row),
            None => self.noting(Err(StoreError::Damaged { what: "the device's memory is gone".into() })),
        }
    }
}
