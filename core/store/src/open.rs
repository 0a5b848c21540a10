use slingseal_catalogue::{Saying, faults as words};
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, OptionalExtension};

use slingseal_words::{Entropy, Time};

use super::files::{beside, remove, rename, size, sync_folder};
use super::hold::{Patience, hold, is_wanted};
use super::mend::{Salvage, Saved, salvage, source, version_of};
use super::table::{DEVICE, add_functions};
use super::witness::{Seen, Witness};
use super::{DeviceId, Head, MemoryRow, Reader, Store, StoreError, schema};

/// A database up to this size is checked whole at every opening, a larger one after an unclean end or on suspicion.
const SMALL: u64 = 32 << 20;

/// What the opening met. Everything that is not plain belongs before the user's eyes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Opened {
    /// There was no database: this is a new home.
    pub new: bool,
    /// The program did not end cleanly the last time; everything acknowledged was taken from the log.
    pub unclean: bool,
    /// The schema that it was stepped up from, where it was older.
    pub stepped_from: Option<u32>,
    /// The database was damaged: it was put aside, and what could be read of it was taken over.
    pub set_aside: Option<SetAside>,
    /// Entries that were acknowledged are not there any more.
    pub lost: Option<Lost>,
    /// Since when an older copy of the database is known to have been put back, or what was received to be gone.
    pub put_back: Option<Time>,
}

/// A damaged database, kept under a new name, and what was taken over from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetAside {
    /// Where it is now.
    pub path: PathBuf,
    /// What was wrong with it.
    pub why: String,
    /// What was taken over, table by table; empty where nothing could be read or the count is not known.
    pub saved: Vec<Saved>,
    /// The journal could not be taken over whole: it is kept for audit, and the device begins a new one under a new id.
    pub new_device: bool,
    /// Loads whose walks were given up, because answers of theirs may be gone.
    pub walk_again: Vec<String>,
}

impl std::fmt::Display for SetAside {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "the stored data was damaged ({}) and is kept as {}", self.why, self.path.display())?;
        let broken: Vec<&str> =
            self.saved.iter().filter(|saved| !saved.whole).map(|saved| saved.table).collect();
        match (self.saved.is_empty(), broken.is_empty()) {
            (true, _) => write!(f, "; look at what is left, and sync from another device")?,
            (false, true) => write!(f, "; everything in it was read and taken over")?,
            (false, false) => {
                write!(f, "; taken over but for parts of {}: sync from another device", broken.join(", "))?;
            }
        }
        if !self.walk_again.is_empty() {
            write!(f, "; walk again {}", self.walk_again.join(", "))?;
        }
        Ok(())
    }
}

/// The journal is shorter than it was, or another one: its files were deleted or replaced from outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lost {
    /// How many entries had been acknowledged.
    pub acknowledged: u64,
    /// How many are there.
    pub found: u64,
}

impl Lost {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        words::JournalLost { acknowledged: self.acknowledged, found: self.found }.into()
    }
}

slingseal_catalogue::error_by_saying!(Lost);

impl Store {
    /// Opens a home's database, or begins one. `now` names a file that is set aside; `entropy` makes the device's id.
    ///
    /// Errors: `Busy`, `ReadOnly`, `Full`, `TooNew`, `Foreign`, `Io`. A damaged file is no error: it is set aside, and
    /// `Opened` says so.
    pub fn open(path: &Path, now: Time, entropy: &dyn Entropy) -> Result<(Self, Opened), StoreError> {
        Self::open_in_turn(path, now, entropy, Patience::None)
    }

    /// The same, waiting while another program has its turn.
    ///
    /// Errors: as `open`.
    pub fn open_in_turn(
        path: &Path,
        now: Time,
        entropy: &dyn Entropy,
        patience: Patience,
    ) -> Result<(Self, Opened), StoreError> {
        if let Some(home) = path.parent() {
            std::fs::create_dir_all(home).map_err(|error| StoreError::from_io(home, &error))?;
        }
        let held = hold(path, patience)?;
        let taken_up = finish_mending(path, now)?;
        let witness = Witness::beside(path);
        let seen = witness.seen();
        let unclean = size(&beside(path, "-wal")) > 0;
        let mut opened = Opened { unclean, set_aside: taken_up, ..Opened::default() };
        let check = opened.unclean || seen.is_some_and(|seen| seen.suspect) || size(path) <= SMALL;
        let suspect = seen.is_some_and(|seen| seen.suspect);
        let at = |error: StoreError| error.at(path);
        let mend = |why, opened: &mut Opened| {
            opened.set_aside = Some(mend(path, now, why, seen, entropy)?);
            connect(path, true, schema::KNOWN, &mut Opened::default(), entropy)
        };
        let conn = if size(path) == 0 && opened.unclean {
            // SQLite would delete the log of an empty database, and the last evidence with it.
            mend("the database is gone and its log is left".into(), &mut opened)
        } else {
            let found = connect(path, check, schema::KNOWN, &mut opened, entropy)
                .and_then(|conn| vet(conn, suspect))
                .and_then(|conn| Ok((lost(&conn, seen)?, conn)))
                .map_err(as_damage);
            match found {
                Err(StoreError::Damaged { what }) => mend(what, &mut opened),
                Ok((Some(lost), conn)) if opened.set_aside.is_none() && !opened.new => {
                    opened.lost = Some(lost);
                    drop(conn);
                    mend(lost.to_string(), &mut opened)
                }
                other => other.map(|(_, conn)| conn),
            }
        }
        .map_err(at)?;
        if opened.lost.is_none() {
            opened.lost = lost(&conn, seen).map_err(at)?;
        }
        conn.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)?;
        let device = device_of(&conn)?;
        let head = head_of(&conn, device)?;
        let mut store = Self {
            conn,
            path: path.to_owned(),
            device,
            head,
            writes: 0,
            witness,
            away: None,
            held: Some(held),
        };
        let memory = store.remember(seen, now, &opened)?;
        opened.put_back = memory.put_back;
        store.writes = memory.writes;
        store.witness.saw(device, head, Some(memory));
        Ok((store, opened))
    }

    /// Whether another program waits for the home.
    pub fn is_wanted(&self) -> bool {
        self.away.is_none() && is_wanted(&self.path)
    }

    /// Closes the home and lets other programs have it. Until `take_up`, whatever is asked is answered with `Busy`.
    ///
    /// The whole database is closed, and the next turn begins as every opening does: what the witness and the checks guard,
    /// they guard between turns as between programs.
    pub fn let_go(&mut self) -> Result<(), StoreError> {
        if self.away.is_some() {
            return Ok(());
        }
        let nothing = Connection::open_in_memory()?;
        self.away = Some(StoreError::Busy { path: self.path.clone() });
        drop(std::mem::replace(&mut self.conn, nothing));
        self.witness = Witness::beside(&self.path);
        self.held = None;
        Ok(())
    }

    /// Opens again what was let go; none where nothing was. What cannot be opened stays away, and says why to whoever asks.
    pub fn take_up(&mut self, now: Time, entropy: &dyn Entropy) -> Result<Option<Opened>, StoreError> {
        if self.away.is_none() {
            return Ok(None);
        }
        match Self::open_in_turn(&self.path, now, entropy, Patience::OfTurns) {
            Ok((store, opened)) => {
                *self = store;
                Ok(Some(opened))
            }
            Err(error) => {
                self.away = Some(error.clone());
                Err(error)
            }
        }
    }

    /// What this device remembers of itself. Where the witness saw more than the database tells, or what was received is
    /// partly gone, that is written down: a revocation or a void may have been among it.
    fn remember(&mut self, seen: Option<Seen>, now: Time, opened: &Opened) -> Result<MemoryRow, StoreError> {
        let memory = self.read().memory()?;
        let (writes, judged) = seen.map_or((0, None), |seen| (seen.writes, seen.judged));
        let forgotten = opened.set_aside.as_ref().is_some_and(SetAside::forgot);
        if memory.writes >= writes && memory.judged >= judged && opened.lost.is_none() && !forgotten {
            return Ok(memory);
        }
        let latest = memory.judged.max(judged);
        self.writes = writes;
        self.write(|tx| {
            if let Some(judged) = judged {
                tx.judged_at(judged)?;
            }
            tx.note_put_back(now.max(latest.unwrap_or(now)))
        })?;
        self.read().memory()
    }
}

/// What a verdict rests on: where part of one of these is gone, a word that keeps a load down may be gone with it.
const REMEMBERED: [&str; 8] =
    ["records", "record_bytes", "tags", "voids", "rosters", "authorities", "credentials", "memory"];

impl Opened {
    /// Whether a person must know something of it.
    pub fn is_told(&self) -> bool {
        self.set_aside.is_some() || self.lost.is_some()
    }
}

impl SetAside {
    /// Whether something that was received may be gone.
    fn forgot(&self) -> bool {
        self.saved.is_empty()
            || self.saved.iter().any(|saved| !saved.whole && REMEMBERED.contains(&saved.table))
    }
}

/// On suspicion everything is looked at: a decayed row does not show in the file's structure.
fn vet(conn: Connection, suspect: bool) -> Result<Connection, StoreError> {
    let device = device_of(&conn)?;
    let read = Reader { conn: &conn, device, witness: None, away: None };
    // What every opening asks: where a name in the file's own schema decayed, it cannot even be asked.
    read.memory()?;
    head_of(&conn, device)?;
    if suspect {
        let faults = read.check()?;
        if let Some(what) = faults.into_iter().next() {
            return Err(StoreError::Damaged { what });
        }
    }
    Ok(conn)
}

/// What the program asks is asked of every home in the tests: where this file does not know it, its schema decayed.
fn as_damage(error: StoreError) -> StoreError {
    match error {
        StoreError::Mistake { what } => StoreError::Damaged { what },
        other => other,
    }
}

/// A connection to a sound database of the schema `upto` or a newer one.
pub(super) fn connect(
    path: &Path,
    check: bool,
    upto: u32,
    opened: &mut Opened,
    entropy: &dyn Entropy,
) -> Result<Connection, StoreError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
        | OpenFlags::SQLITE_OPEN_CREATE
        | OpenFlags::SQLITE_OPEN_NO_MUTEX
        | OpenFlags::SQLITE_OPEN_EXRESCODE;
    let mut conn = Connection::open_with_flags(path, flags)?;
    // Our own lock keeps other homes' programs out; this is for a backup tool that looks in for a moment.
    conn.busy_timeout(Duration::from_millis(250))?;
    conn.set_prepared_statement_cache_capacity(128);
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    // A plan never depends on what is bound: otherwise a kept statement is prepared anew at each look.
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_QPSG, true)?;
    // Until it is known to be sound, closing leaves the file and its log as they were found: a damaged one is evidence.
    conn.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)?;
    // Exclusive before the first access: the log's index then lies in memory, and no `-shm` file is needed
    // (sqlite.org/wal.html, "Use of WAL Without Shared-Memory").
    conn.execute_batch("PRAGMA locking_mode = EXCLUSIVE; PRAGMA cell_size_check = ON;")?;
    if conn.is_readonly("main")? {
        return Err(StoreError::ReadOnly { path: path.to_owned() });
    }
    let said = schema::said(&conn)?;
    if said.foreign {
        return Err(StoreError::Foreign { path: path.to_owned() });
    }
    if said.version > schema::KNOWN {
        return Err(StoreError::TooNew { found: said.version, known: schema::KNOWN });
    }
    if check {
        look(&conn, size(path) <= SMALL)?;
    }
    // FULL: a commit is on the disk before it returns (sqlite.org/pragma.html#pragma_synchronous). This is evidence.
    conn.execute_batch(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA fullfsync = ON;
         PRAGMA checkpoint_fullfsync = ON; PRAGMA cache_size = -16384; PRAGMA temp_store = MEMORY;",
    )?;
    conn.execute_batch(super::handle::LOG_USUAL)?;
    add_functions(&conn)?;
    opened.new = said.version == 0;
    if said.version < schema::KNOWN {
        opened.stepped_from = (said.version > 0).then_some(said.version);
        schema::step_up(&mut conn, said.version, upto)?;
    }
    conn.execute_batch(super::search::TERMS)?;
    // After the steps and not in them: a kill between the two leaves a home that only lacks its id.
    let known: i64 = conn.query_row("SELECT count(*) FROM device", [], |row| row.get(0))?;
    if known == 0 {
        let mut id = [0; 16];
        entropy.fill(&mut id);
        conn.execute(&DEVICE.insert(""), (1, DeviceId(id)))?;
    }
    Ok(conn)
}

/// With the indexes where the home is small: an index that lost an entry hides what stands in the table.
pub(super) fn look(conn: &Connection, with_indexes: bool) -> Result<(), StoreError> {
    let check = if with_indexes { "PRAGMA integrity_check(1)" } else { "PRAGMA quick_check(1)" };
    let said = conn.query_row(check, [], |row| row.get::<_, String>(0)).map_err(StoreError::from);
    // A check that cannot even be asked for: the search index no longer knows itself.
    let said = said.map_err(as_damage)?;
    if said == "ok" { Ok(()) } else { Err(StoreError::Damaged { what: said.replace('\n', " ") }) }
}

pub(super) fn device_of(conn: &Connection) -> Result<DeviceId, StoreError> {
    conn.query_row(&DEVICE.select(""), [], |row| Ok(DEVICE.whole(row).and_then(|()| Ok(row.get(1)?))))?
}

pub(super) fn head_of(conn: &Connection, device: DeviceId) -> Result<Head, StoreError> {
    let last = conn
        .query_row("SELECT seq, digest FROM journal ORDER BY seq DESC LIMIT 1", [], |row| {
            Ok(Head { seq: super::values::count_out(row, 0)?, digest: row.get(1)? })
        })
        .optional()?;
    Ok(last.unwrap_or(Head::empty(device)))
}

fn lost(conn: &Connection, seen: Option<Seen>) -> Result<Option<Lost>, StoreError> {
    let Some(seen) = seen.filter(|seen| seen.head.seq > 0) else { return Ok(None) };
    let device = device_of(conn)?;
    let at_seen = Reader { conn, device, witness: None, away: None }.entry(seen.head.seq)?;
    if at_seen.is_some_and(|entry| entry.digest == seen.head.digest) {
        return Ok(None);
    }
    let known = conn.query_row(
        "SELECT coalesce(max(seq), 0) FROM foreign_journal WHERE device = ?1",
        [seen.device],
        |row| super::values::count_out(row, 0),
    )?;
    let found = if seen.device == device { head_of(conn, device)?.seq } else { known };
    Ok((found < seen.head.seq || seen.device == device)
        .then_some(Lost { acknowledged: seen.head.seq, found }))
}

/// Makes a new database out of what can be read of the damaged one, gives the damaged one a new name, and puts the new one
/// in its place. A kill on the way loses nothing: up to the first rename the damaged one is untouched and the next opening
/// begins again, from there on the new one is complete and the next opening goes on.
fn mend(
    path: &Path,
    now: Time,
    why: String,
    seen: Option<Seen>,
    entropy: &dyn Entropy,
) -> Result<SetAside, StoreError> {
    let mending = beside(path, MENDING);
    // Of an empty database with a log nothing can be read, and trying would delete the log.
    let source = if size(path) > 0 { source(path) } else { None };
    // Rows are taken over into tables as they were, and then go up the steps that every home goes.
    let version = source.as_ref().map_or(schema::KNOWN, version_of);
    let mut target = connect(&mending, false, version, &mut Opened::default(), entropy)?;
    let salvage = source.map(|source| salvage(&source, version, &mut target, seen)).transpose()?;
    schema::step_up(&mut target, version, schema::KNOWN)?;
    let salvage = salvage.unwrap_or_default();
    target.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)?;
    target.close().map_err(|(_, error)| error)?;
    remove(&beside(path, "-shm"))?;
    rename(&mending, &beside(path, MENDED))?;
    sync_folder(path);
    let aside = swap(path, now)?;
    let Salvage { saved, new_device, walk_again } = salvage;
    Ok(SetAside { path: aside, why, saved, new_device, walk_again })
}

/// A new database that is being filled.
const MENDING: &str = "-mending";
/// A new database that is complete and waits for its place.
const MENDED: &str = "-mended";

/// Takes up a mending that a kill broke off.
fn finish_mending(path: &Path, now: Time) -> Result<Option<SetAside>, StoreError> {
    for ending in ["", "-wal", "-journal", "-shm"] {
        remove(&beside(&beside(path, MENDING), ending))?;
    }
    if !beside(path, MENDED).exists() {
        return Ok(None);
    }
    let why = "found by a program that ended before it had told".into();
    let path = swap(path, now)?;
    Ok(Some(SetAside { path, why, saved: Vec::new(), new_device: false, walk_again: Vec::new() }))
}

/// Gives the database and what belongs to it a new name, and the mended one its place. Nothing is deleted or overwritten.
fn swap(path: &Path, now: Time) -> Result<PathBuf, StoreError> {
    let stamp = now.rfc3339().replace([':', '-'], "");
    let names = (0u32..).map(|n| {
        let count = if n == 0 { String::new() } else { format!("-{n}") };
        beside(path, &format!(".damaged-{stamp}{count}"))
    });
    let endings = ["", "-wal", "-journal"];
    let taken = |name: &PathBuf| endings.iter().any(|ending| beside(name, ending).exists());
    let mut free = names.filter(|name| !taken(name));
    let aside = free.next().unwrap_or_else(|| beside(path, ".damaged"));
    for ending in endings {
        let from = beside(path, ending);
        if from.exists() {
            rename(&from, &beside(&aside, ending))?;
        }
    }
    rename(&beside(path, MENDED), path)?;
    sync_folder(path);
    Ok(aside)
}
