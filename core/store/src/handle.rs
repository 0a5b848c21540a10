use std::cell::Cell;
use std::ops::Deref;
use std::path::{Path, PathBuf};

use rusqlite::{Connection, Params, Row, Statement, TransactionBehavior};

use super::hold::Held;
use super::table::Table;
use super::witness::Witness;
use super::{DeviceId, Head, MemoryRow, StoreError};

/// The log is brought into the database behind a thousand pages (4 MiB): a log that is written over again costs a commit less than one
/// that grows.
pub(super) const LOG_USUAL: &str = "PRAGMA wal_autocheckpoint = 1000; PRAGMA journal_size_limit = 8388608;";
/// By 16 MiB: a page of an index that thousands of records come into is then written into the database once for several commits.
pub(super) const LOG_OF_MANY: &str =
    "PRAGMA wal_autocheckpoint = 4096; PRAGMA journal_size_limit = 33554432;";

/// A home's database, held by this program alone for as long as this lives.
///
/// Every `write` is one transaction: durable when it returns `Ok`, without a trace when it returns `Err`.
pub struct Store {
    pub(super) conn: Connection,
    pub(super) path: PathBuf,
    pub(super) device: DeviceId,
    pub(super) head: Head,
    /// Writes that left no entry in the journal, as the last one counted them.
    pub(super) writes: u64,
    pub(super) witness: Witness,
    /// Why nothing is answered, between turns: the home was let go, or could not be opened again.
    pub(super) away: Option<StoreError>,
    /// Keeps the lock: another program may open the home once this is dropped. Stands last, so that it goes last.
    pub(super) held: Option<Held>,
}

impl Store {
    /// Reads. What it answers is what the last `write` left.
    pub fn read(&self) -> Reader<'_> {
        Reader {
            conn: &self.conn,
            device: self.device,
            witness: Some(&self.witness),
            away: self.away.as_ref(),
        }
    }

    /// Does all of `act` or nothing of it. On disk before it returns.
    pub fn write<T, E: From<StoreError>>(
        &mut self,
        act: impl FnOnce(&Tx<'_>) -> Result<T, E>,
    ) -> Result<T, E> {
        let (answer, head, memory) = self.transact(act)?;
        if head != self.head || memory.is_some() {
            self.head = head;
            self.writes = memory.map_or(self.writes, |memory| memory.writes);
            self.witness.saw(self.device, self.head, memory);
        }
        Ok(answer)
    }

    /// The answer, the journal's end, and the device's memory where the journal alone does not tell that something was
    /// written: an older copy of the file that is put back must be missed on a device that never writes a journal, too.
    fn transact<T, E: From<StoreError>>(
        &mut self,
        act: impl FnOnce(&Tx<'_>) -> Result<T, E>,
    ) -> Result<(T, Head, Option<MemoryRow>), E> {
        if let Some(away) = &self.away {
            return Err(away.clone().into());
        }
        let path = &self.path;
        let fault = |error| E::from(StoreError::from(error).at(path));
        let tx = self.conn.transaction_with_behavior(TransactionBehavior::Immediate).map_err(fault)?;
        let read = Reader { conn: &tx, device: self.device, witness: Some(&self.witness), away: None };
        let view = Tx { read, head: Cell::new(self.head), unindexed: Cell::new(None), last: Cell::new(None) };
        let before = tx.total_changes();
        let answer = act(&view)?;
        view.index_words()?;
        let head = view.head.get();
        let memory = if head == self.head && tx.total_changes() > before {
            view.count_write(self.writes)?;
            Some(view.memory()?)
        } else {
            None
        };
        tx.commit().map_err(fault)?;
        Ok((answer, head, memory))
    }

    /// Whether the commits that come are of thousands of words each: the log is then brought in less often. With `false` it is as usual
    /// again, and [`Store::settle`] brings in what has come.
    pub fn expect_many(&mut self, many: bool) -> Result<(), StoreError> {
        if let Some(away) = &self.away {
            return Err(away.clone());
        }
        let set = self.conn.execute_batch(if many { LOG_OF_MANY } else { LOG_USUAL });
        set.map_err(|error| StoreError::from(error).at(&self.path))
    }

    /// Brings the log into the database: one file then holds everything, and the next write begins the log anew. It is not cut off:
    /// the next write would have to lengthen it again. For a moment when nobody waits, as when the program is put in the background.
    /// Nothing depends on it.
    pub fn settle(&mut self) -> Result<(), StoreError> {
        if let Some(away) = &self.away {
            return Err(away.clone());
        }
        let settled = self.conn.query_row("PRAGMA wal_checkpoint(PASSIVE)", [], |_| Ok(()));
        settled.map_err(|error| StoreError::from(error).at(&self.path))
    }

    /// The database's file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What this device goes by in its journal.
    pub fn device(&self) -> DeviceId {
        self.device
    }

    /// The end of this device's journal.
    pub fn head(&self) -> Head {
        self.head
    }
}

impl std::fmt::Debug for Store {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Store").field("path", &self.path).field("head", &self.head).finish_non_exhaustive()
    }
}

/// Questions to the store.
#[derive(Clone, Copy)]
pub struct Reader<'c> {
    pub(super) conn: &'c Connection,
    pub(super) device: DeviceId,
    /// Is told of damage, so that the next opening looks at everything; none while the opening itself looks.
    pub(super) witness: Option<&'c Witness>,
    /// Why nothing is answered, while the home is let go.
    pub(super) away: Option<&'c StoreError>,
}

/// A row as the caller wants it.
pub(super) type Make<T> = fn(&Row<'_>) -> rusqlite::Result<T>;

impl Reader<'_> {
    /// Passes an answer on, and writes down that there is damage where it tells of some. What cannot even be asked may be a name in
    /// the file's schema that decayed.
    pub(super) fn noting<T>(&self, answer: Result<T, StoreError>) -> Result<T, StoreError> {
        if let (Err(StoreError::Damaged { .. } | StoreError::Mistake { .. }), Some(witness)) =
            (&answer, self.witness)
        {
            witness.suspect();
        }
        answer
    }

    /// Nothing is read between two turns.
    pub(super) fn here(&self) -> Result<(), StoreError> {
        self.away.map_or(Ok(()), |away| Err(away.clone()))
    }

    /// Prepares a statement and asks with it.
    pub(super) fn ask<T>(
        &self,
        sql: &str,
        with: impl FnOnce(&mut Statement<'_>) -> rusqlite::Result<T>,
    ) -> Result<T, StoreError> {
        self.here()?;
        let answer = self.conn.prepare_cached(sql).and_then(|mut statement| with(&mut statement));
        self.noting(answer.map_err(StoreError::from))
    }

    /// The rows of a table, each checked against its check sum.
    pub(super) fn rows<T>(
        &self,
        table: &Table,
        rest: &str,
        params: impl Params,
        make: Make<T>,
    ) -> Result<Vec<T>, StoreError> {
        let mut found = Vec::new();
        self.each(table, rest, params, make, |row| {
            found.push(row);
            Ok::<(), StoreError>(())
        })?;
        Ok(found)
    }

    /// As `rows`, one at a time, so that a hundred thousand need no memory.
    pub(super) fn each<T, E: From<StoreError>>(
        &self,
        table: &Table,
        rest: &str,
        params: impl Params,
        make: Make<T>,
        mut take: impl FnMut(T) -> Result<(), E>,
    ) -> Result<(), E> {
        let fault = |error: rusqlite::Error| self.noting::<()>(Err(error.into()));
        self.here()?;
        let mut statement = self.conn.prepare_cached(&table.select(rest)).map_err(StoreError::from)?;
        let mut rows = statement.query(params).map_err(StoreError::from)?;
        loop {
            let row = match rows.next() {
                Ok(Some(row)) => row,
                Ok(None) => return Ok(()),
                Err(error) => return Ok(fault(error)?),
            };
            self.noting(table.whole(row))?;
            match make(row) {
                Ok(made) => take(made)?,
                Err(error) => return Ok(fault(error)?),
            }
        }
    }

    /// The first row, where there is one.
    pub(super) fn row<T>(
        &self,
        table: &Table,
        rest: &str,
        params: impl Params,
        make: Make<T>,
    ) -> Result<Option<T>, StoreError> {
        let mut first = None;
        self.each(table, &format!("{rest} LIMIT 1"), params, make, |row| {
            first = Some(row);
            Ok::<(), StoreError>(())
        })?;
        Ok(first)
    }

    /// One number.
    pub(super) fn count(&self, sql: &str, params: impl Params) -> Result<u64, StoreError> {
        let number: i64 = self.ask(sql, |statement| statement.query_row(params, |row| row.get(0)))?;
        Ok(u64::try_from(number).unwrap_or(0))
    }
}

/// One transaction: it reads, and it writes. Comes from `Store::write`. By its words a record that it wrote is found only after it.
pub struct Tx<'c> {
    read: Reader<'c>,
    pub(super) head: Cell<Head>,
    /// The first and the last of the records whose words are not in the index yet; every one between waits too.
    pub(super) unindexed: Cell<Option<(i64, i64)>>,
    /// The last record's place in the file, once a record was added.
    pub(super) last: Cell<Option<i64>>,
}

impl Tx<'_> {
    /// Runs one statement; answers how many rows it changed.
    pub(super) fn run(&self, sql: &str, params: impl Params) -> Result<usize, StoreError> {
        self.ask(sql, |statement| statement.execute(params))
    }
}

impl<'c> Deref for Tx<'c> {
    type Target = Reader<'c>;

    fn deref(&self) -> &Reader<'c> {
        &self.read
    }
}
