use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, OptionalExtension};

use crate::words::{Entropy, Time};

use super::table::{Table, add_row_sum};
use super::witness::{Seen, Witness};
use super::{DeviceId, Head, Store, StoreError, schema};

/// A database up to this size is checked whole at every opening, a larger one after an unclean end or on suspicion.
const SMALL: u64 = 32 << 20;

pub(super) const DEVICE: Table = Table::new("device", "one", &["one", "id"]);

/// What the opening met. Everything that is not plain belongs before the user's eyes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Opened {
    /// There was no database: this is a new home.
    pub new: bool,
    /// The program did not end cleanly the last time; everything acknowledged was taken from the log.
    pub unclean: bool,
    /// The schema that it was stepped up from, where it was older.
    pub stepped_from: Option<u32>,
    /// A damaged file was put aside.
    pub set_aside: Option<SetAside>,
    /// Entries that were acknowledged are not there any more.
    pub lost: Option<Lost>,
}

/// A damaged database, kept under a new name.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the stored data was damaged ({why}); it is kept as {} and a new home was begun: sync from another device", path.display())]
pub struct SetAside {
    /// Where it is now.
    pub path: PathBuf,
    /// What was wrong with it.
    pub why: String,
}

/// The journal is shorter than it was, or another one: its files were deleted or replaced from outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "the journal had {acknowledged} entries and {found} are left: its files were removed or replaced; walk again what is missing"
)]
pub struct Lost {
    /// How many entries had been acknowledged.
    pub acknowledged: u64,
    /// How many are there.
    pub found: u64,
}

/// The lock on a home; the system lets go of it when the program ends, however it ends.
pub(super) struct Held(#[expect(dead_code, reason = "held for its lock")] File);

impl Store {
    /// Opens a home's database, or begins one. `now` names a file that is set aside; `entropy` makes the device's id.
    ///
    /// Errors: `Busy`, `ReadOnly`, `Full`, `TooNew`, `Foreign`, `Io`. A damaged file is no error: it is set aside, and
    /// `Opened` says so.
    pub fn open(path: &Path, now: Time, entropy: &dyn Entropy) -> Result<(Self, Opened), StoreError> {
        if let Some(home) = path.parent() {
            std::fs::create_dir_all(home).map_err(|error| StoreError::from_io(home, &error))?;
        }
        let held = hold(path)?;
        let witness = Witness::beside(path);
        let seen = witness.seen();
        let mut opened = Opened { unclean: size(&beside(path, "-wal")) > 0, ..Opened::default() };
        let check = opened.unclean || seen.is_some_and(|seen| seen.suspect) || size(path) <= SMALL;
        if size(path) == 0 && opened.unclean {
            // SQLite would delete the log of an empty database, and the last evidence with it.
            opened.set_aside = Some(set_aside(path, now, "the database is gone and its log is left".into())?);
        }
        let conn = match connect(path, check, &mut opened, entropy) {
            Err(StoreError::Damaged { what }) => {
                opened.set_aside = Some(set_aside(path, now, what)?);
                connect(path, true, &mut opened, entropy)
            }
            other => other,
        };
        let conn = conn.map_err(|error| error.at(path))?;
        let device = device_of(&conn)?;
        let head = head_of(&conn, device)?;
        let mut store = Self { conn, path: path.to_owned(), device, head, witness, _held: held };
        opened.lost = lost(&store, seen)?;
        store.witness.saw(device, head);
        Ok((store, opened))
    }
}

fn hold(path: &Path) -> Result<Held, StoreError> {
    let lock = beside(path, "-lock");
    let file = File::options()
        .write(true)
        .create(true)
        .truncate(false)
        .open(&lock)
        .map_err(|error| StoreError::from_io(&lock, &error))?;
    match file.try_lock() {
        Ok(()) => Ok(Held(file)),
        Err(TryLockError::WouldBlock) => Err(StoreError::Busy { path: path.to_owned() }),
        Err(TryLockError::Error(error)) => Err(StoreError::from_io(&lock, &error)),
    }
}

/// A connection to a sound database of the newest schema.
fn connect(
    path: &Path,
    check: bool,
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
        quick_check(&conn)?;
    }
    // FULL: a commit is on the disk before it returns (sqlite.org/pragma.html#pragma_synchronous). This is evidence.
    conn.execute_batch(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA fullfsync = ON;
         PRAGMA checkpoint_fullfsync = ON; PRAGMA journal_size_limit = 8388608; PRAGMA cache_size = -16384;
         PRAGMA temp_store = MEMORY;",
    )?;
    add_row_sum(&conn)?;
    opened.new = said.version == 0;
    if said.version < schema::KNOWN {
        opened.stepped_from = (said.version > 0).then_some(said.version);
        schema::step_up(&mut conn, said.version)?;
    }
    // After the steps and not in them: a kill between the two leaves a home that only lacks its id.
    let known: i64 = conn.query_row("SELECT count(*) FROM device", [], |row| row.get(0))?;
    if known == 0 {
        let mut id = [0; 16];
        entropy.fill(&mut id);
        conn.execute(&DEVICE.insert(""), (1, DeviceId(id)))?;
    }
    Ok(conn)
}

fn quick_check(conn: &Connection) -> Result<(), StoreError> {
    let said: String = conn.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
    if said == "ok" { Ok(()) } else { Err(StoreError::Damaged { what: said.replace('\n', " ") }) }
}

fn device_of(conn: &Connection) -> Result<DeviceId, StoreError> {
    conn.query_row(&DEVICE.select(""), [], |row| Ok(DEVICE.whole(row).and_then(|()| Ok(row.get(1)?))))?
}

fn head_of(conn: &Connection, device: DeviceId) -> Result<Head, StoreError> {
    let last = conn
        .query_row("SELECT seq, digest FROM journal ORDER BY seq DESC LIMIT 1", [], |row| {
            Ok(Head { seq: super::values::count_out(row, 0)?, digest: row.get(1)? })
        })
        .optional()?;
    Ok(last.unwrap_or(Head::empty(device)))
}

fn lost(store: &Store, seen: Option<Seen>) -> Result<Option<Lost>, StoreError> {
    let Some(seen) = seen.filter(|seen| seen.head.seq > 0) else { return Ok(None) };
    let same = store.read().entry(seen.head.seq)?.map(|entry| entry.digest) == Some(seen.head.digest);
    let found = if seen.device == store.device { store.head.seq } else { 0 };
    Ok((!same).then_some(Lost { acknowledged: seen.head.seq, found }))
}

/// Gives the database and what belongs to it a new name. Nothing is deleted or overwritten.
fn set_aside(path: &Path, now: Time, why: String) -> Result<SetAside, StoreError> {
    let stamp = now.rfc3339().replace([':', '-'], "");
    let free = (0u32..).map(|n| {
        let count = if n == 0 { String::new() } else { format!("-{n}") };
        beside(path, &format!(".damaged-{stamp}{count}"))
    });
    let endings = ["", "-wal", "-journal"];
    let taken = |name: &PathBuf| endings.iter().any(|ending| beside(name, ending).exists());
    let aside = free.into_iter().find(|name| !taken(name)).unwrap_or_else(|| beside(path, ".damaged"));
    for ending in endings {
        let from = beside(path, ending);
        if from.exists() {
            std::fs::rename(&from, beside(&aside, ending))
                .map_err(|error| StoreError::from_io(&from, &error))?;
        }
    }
    Ok(SetAside { path: aside, why })
}

/// The file that belongs to the database under this ending.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    name.into()
}

fn size(path: &Path) -> u64 {
    std::fs::metadata(path).map_or(0, |found| found.len())
}
