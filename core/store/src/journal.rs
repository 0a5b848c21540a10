use rusqlite::{OptionalExtension, Row};

use slingseal_words::{Digest, Time};

use super::values::{count_in, count_out};
use super::walks::WALKS;
use super::{ChainCheck, ChainFault, DeviceId, Entry, Head, NewEntry, Reader, StoreError, Tx, WalkId};

pub(super) const COLUMNS: &str = "seq, time, kind, walk, body, prev, digest";

fn make(row: &Row<'_>) -> rusqlite::Result<Entry> {
    Ok(Entry {
        seq: count_out(row, 0)?,
        time: row.get(1)?,
        kind: row.get(2)?,
        walk: row.get(3)?,
        body: row.get(4)?,
        prev: row.get(5)?,
        digest: row.get(6)?,
    })
}

/// Its own digest is an entry's check sum.
fn whole(entry: Entry) -> Result<Entry, StoreError> {
    if entry.derive_digest() == entry.digest {
        Ok(entry)
    } else {
        let what = format!("journal entry {} does not match its digest", entry.seq);
        Err(StoreError::Damaged { what })
    }
}

impl Tx<'_> {
    /// Adds an entry to this device's journal.
    pub fn append(&self, new: NewEntry<'_>) -> Result<Entry, StoreError> {
        if new.kind.is_empty() || new.kind.len() > 32 || !new.kind.is_ascii() {
            return Err(StoreError::Unfit { what: format!("a journal entry of the kind \"{}\"", new.kind) });
        }
        let entry = Entry::after(self.head.get(), new);
        self.run(
            "INSERT INTO journal (seq, time, kind, walk, body, prev, digest) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
            (
                count_in(entry.seq)?,
                entry.time,
                &entry.kind,
                entry.walk,
                &entry.body,
                entry.prev,
                entry.digest,
            ),
        )?;
        self.head.set(Head { seq: entry.seq, digest: entry.digest });
        Ok(entry)
    }

    /// Adds entries in their order.
    pub fn append_many(&self, new: &[NewEntry<'_>]) -> Result<Vec<Entry>, StoreError> {
        new.iter().map(|entry| self.append(*entry)).collect()
    }

    /// The end of this device's journal, with what this transaction added.
    pub fn head(&self) -> Head {
        self.head.get()
    }

    /// Keeps an entry of another device's journal; `false` where it was known. Two digests for one number both stay.
    pub fn put_foreign_entry(&self, device: DeviceId, entry: &Entry) -> Result<bool, StoreError> {
        let changed = self.run(
            "INSERT OR IGNORE INTO foreign_journal (seq, time, kind, walk, body, prev, digest, device)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
            (
                count_in(entry.seq)?,
                entry.time,
                &entry.kind,
                entry.walk,
                &entry.body,
                entry.prev,
                entry.digest,
                device,
            ),
        )?;
        Ok(changed > 0)
    }
}

impl Reader<'_> {
    /// The entry of a number.
    pub fn entry(&self, seq: u64) -> Result<Option<Entry>, StoreError> {
        Ok(self.entries(seq, 1)?.pop().filter(|entry| entry.seq == seq))
    }

    /// When the last entry was written.
    pub fn journal_time(&self) -> Result<Option<Time>, StoreError> {
        let last = "SELECT time FROM journal ORDER BY seq DESC LIMIT 1";
        self.ask(last, |statement| statement.query_row([], |row| row.get(0)).optional())
    }

    /// At most `most` entries from the number `from` on.
    pub fn entries(&self, from: u64, most: usize) -> Result<Vec<Entry>, StoreError> {
        let sql = format!("SELECT {COLUMNS} FROM journal WHERE seq >= ?1 ORDER BY seq LIMIT ?2");
        let params = (count_in(from)?, count_in(most as u64)?);
        let entries: Vec<Entry> = self.ask(&sql, |statement| statement.query_map(params, make)?.collect())?;
        self.noting(entries.into_iter().map(whole).collect())
    }

    /// The last entry of a kind.
    pub fn last_entry(&self, kind: &str) -> Result<Option<Entry>, StoreError> {
        let sql = format!("SELECT {COLUMNS} FROM journal WHERE kind = ?1 ORDER BY seq DESC LIMIT 1");
        let entries: Vec<Entry> = self.ask(&sql, |statement| statement.query_map([kind], make)?.collect())?;
        self.noting(entries.into_iter().next().map(whole).transpose())
    }

    /// All entries of a kind, in order, as they stand: an audit looks at what does not match, too.
    pub fn entries_of_kind(&self, kind: &str) -> Result<Vec<Entry>, StoreError> {
        let sql = format!("SELECT {COLUMNS} FROM journal WHERE kind = ?1 ORDER BY seq");
        self.ask(&sql, |statement| statement.query_map([kind], make)?.collect())
    }

    /// All entries of a walk, in order. Fewer than its row counts is damage: the one that is missing could be the
    /// deficiency.
    pub fn entries_of(&self, walk: WalkId) -> Result<Vec<Entry>, StoreError> {
        let sql = format!("SELECT {COLUMNS} FROM journal WHERE walk = ?1 ORDER BY seq");
        let entries: Vec<Entry> = self.ask(&sql, |statement| statement.query_map([walk], make)?.collect())?;
        let of_walk = self.row(&WALKS, "WHERE id = ?1", [walk], |row| count_out(row, 7))?;
        let at_least = match of_walk {
            Some(entries) => entries,
            None => self.exam_run_entries(walk)?.unwrap_or(0),
        };
        let theirs = entries.iter().filter(|entry| entry.walk == Some(walk)).count();
        if (theirs as u64) < at_least || !entries.is_sorted_by(|one, next| one.seq < next.seq) {
            let what = format!("{at_least} journal entries of a walk are known and {theirs} are found");
            return self.noting(Err(StoreError::Damaged { what }));
        }
        self.noting(entries.into_iter().map(whole).collect())
    }

    /// Checks this device's whole journal: its head, or the first entry that is missing, rewritten, moved or forked.
    /// Needs no more memory than its longest entry.
    pub fn verify_journal(&self) -> Result<Result<Head, ChainFault>, StoreError> {
        let sql = format!("SELECT {COLUMNS} FROM journal ORDER BY seq");
        self.here()?;
        let mut statement = self.conn.prepare_cached(&sql)?;
        let mut rows = statement.query([])?;
        let mut check = ChainCheck::new(self.device);
        while let Some(row) = rows.next()? {
            if let Err(fault) = check.push(&make(row)?) {
                return Ok(Err(fault));
            }
        }
        Ok(Ok(check.head()))
    }

    /// The devices whose journals are kept here for audit, with how many entries of each.
    pub fn foreign_devices(&self) -> Result<Vec<(DeviceId, u64)>, StoreError> {
        let sql = "SELECT device, count(*) FROM foreign_journal GROUP BY device ORDER BY device";
        self.ask(sql, |statement| {
            statement.query_map([], |row| Ok((row.get(0)?, count_out(row, 1)?)))?.collect()
        })
    }

    /// What is kept of another device's journal, as it came: to be given to `verify_chain`.
    pub fn foreign_entries(&self, device: DeviceId) -> Result<Vec<Entry>, StoreError> {
        self.first_links_belong()?;
        let sql = format!("SELECT {COLUMNS} FROM foreign_journal WHERE device = ?1 ORDER BY seq, digest");
        self.ask(&sql, |statement| statement.query_map([device], make)?.collect())
    }

    /// The device stands in no digest but the first entry's link: where that is another's, the column decayed, and what is asked for
    /// would not be found.
    fn first_links_belong(&self) -> Result<(), StoreError> {
        let sql = "SELECT device, prev FROM foreign_journal WHERE seq = 1";
        let firsts: Vec<(DeviceId, Digest)> = self
            .ask(sql, |statement| statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?.collect())?;
        match firsts.into_iter().find(|(device, prev)| Head::empty(*device).digest != *prev) {
            Some((device, _)) => {
                let what = format!("the journal kept of device {device} begins as another device's does");
                self.noting(Err(StoreError::Damaged { what }))
            }
            None => Ok(()),
        }
    }

    /// The newest number kept of another device's journal.
    pub fn foreign_head(&self, device: DeviceId) -> Result<Option<u64>, StoreError> {
        let sql = "SELECT coalesce(max(seq), 0) FROM foreign_journal WHERE device = ?1";
        Ok(Some(self.count(sql, [device])?).filter(|seq| *seq > 0))
    }
}
