//! Out of a damaged database into a new one: everything that can still be read and is sound.

use std::path::Path;

use rusqlite::types::Value;
use rusqlite::{Connection, OpenFlags, OptionalExtension, params_from_iter};

use slingseal_words::Digest;

use super::check::tables_of;
use super::exams::EXAM_RUNS;
use super::journal;
use super::memory::MEMORY;
use super::records::{BYTES, INDEX_WORDS, RECORDS};
use super::table::{DEVICE, add_functions};
use super::walks::WALKS;
use super::witness::Seen;
use super::{ChainCheck, DeviceId, Entry, StoreError};

/// What was saved of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Saved {
    /// The table.
    pub table: &'static str,
    /// How many of its rows are in the new database.
    pub rows: u64,
    /// Whether nothing was met that could not be read. A table cut short at its end can look whole.
    pub whole: bool,
}

/// What was saved of a database.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Salvage {
    pub(super) saved: Vec<Saved>,
    /// The journal has a gap or its end is unknown, so it was closed: the device begins a new one under a new id.
    pub(super) new_device: bool,
    /// Loads whose walks were given up, because answers of theirs may be gone.
    pub(super) walk_again: Vec<String>,
}

/// Reads the damaged `source` and fills `target`, a new and empty database of the same schema, in one transaction. The damaged
/// file is only read.
pub(super) fn salvage(
    source: &Connection,
    version: u32,
    target: &mut Connection,
    seen: Option<Seen>,
) -> Result<Salvage, StoreError> {
    let tx = target.transaction()?;
    let mut salvage = Salvage::default();
    if version >= 3 {
        // The new database begins with one of its own.
        tx.execute(&format!("DELETE FROM {}", MEMORY.name), [])?;
        salvage.saved.push(copy(source, &tx, "bodies", "digest, bytes", "1", sound_body)?);
    }
    for table in tables_of(version).into_iter().filter(|table| table.name != DEVICE.name) {
        if younger(source, table.name) {
            continue;
        }
        let columns = [table.columns.join(", "), "sum".into()].join(", ");
        let whole = format!("sum IS row_sum({})", table.columns.join(", "));
        salvage.saved.push(copy(source, &tx, table.name, &columns, &whole, sound_as_told)?);
    }
    salvage.saved.push(copy(source, &tx, "photos", "digest, received, bytes", "1", sound_photo)?);
    let columns = format!("{}, device", journal::COLUMNS);
    salvage.saved.push(copy(source, &tx, "foreign_journal", &columns, "1", sound_entry)?);
    salvage.journal(source, version, &tx, seen)?;
    drop_bare_records(&tx, version, &mut salvage)?;
    if version >= 3 {
        let empty = MEMORY.insert("OR IGNORE");
        tx.execute(&empty, (1, 0, None::<i64>, None::<i64>))?;
    }
    tx.execute(INDEX_WORDS, [])?;
    tx.commit()?;
    Ok(salvage)
}

/// Read-only, and with the log's index in its own file: in exclusive mode SQLite would want to write.
pub(super) fn source(path: &Path) -> Option<Connection> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let conn = Connection::open_with_flags(path, flags).ok()?;
    conn.execute_batch("PRAGMA query_only = ON; PRAGMA cell_size_check = ON;").ok()?;
    add_functions(&conn).ok()?;
    Some(conn)
}

/// The schema that a damaged file says it has; the newest where it cannot say.
pub(super) fn version_of(source: &Connection) -> u32 {
    let version = source.pragma_query_value(None, "user_version", |row| row.get::<_, u32>(0));
    version
        .ok()
        .filter(|version| (1..=super::schema::KNOWN).contains(version))
        .unwrap_or(super::schema::KNOWN)
}

/// Whether a table was added by a later schema than the file's: nothing of it can be lost.
fn younger(source: &Connection, table: &str) -> bool {
    let there =
        source.query_row("SELECT count(*) FROM sqlite_schema WHERE name = ?1", [table], |row| row.get(0));
    version_of(source) < super::schema::KNOWN && matches!(there, Ok(0i64))
}

type Sound = fn(&[Value], bool) -> bool;

fn sound_as_told(_: &[Value], whole: bool) -> bool {
    whole
}

fn sound_body(row: &[Value], _: bool) -> bool {
    match row {
        [Value::Blob(digest), Value::Blob(bytes)] => Digest::of(bytes).as_bytes() == digest.as_slice(),
        _ => false,
    }
}

fn sound_photo(row: &[Value], _: bool) -> bool {
    match row {
        [Value::Blob(digest), _, Value::Blob(bytes)] => Digest::of(bytes).as_bytes() == digest.as_slice(),
        _ => false,
    }
}

fn sound_entry(row: &[Value], _: bool) -> bool {
    entry_of(row).is_some_and(|entry| entry.derive_digest() == entry.digest)
}

fn entry_of(row: &[Value]) -> Option<Entry> {
    let [seq, time, kind, walk, body, prev, digest, ..] = row else { return None };
    let Value::Integer(seq) = seq else { return None };
    let Value::Integer(time) = time else { return None };
    let Value::Text(kind) = kind else { return None };
    let Value::Blob(body) = body else { return None };
    let Value::Blob(prev) = prev else { return None };
    let Value::Blob(digest) = digest else { return None };
    let walk = match walk {
        Value::Blob(walk) => Some(super::WalkId(walk.as_slice().try_into().ok()?)),
        _ => None,
    };
    Some(Entry {
        seq: u64::try_from(*seq).ok()?,
        time: slingseal_words::Time::from_unix(*time),
        kind: kind.clone(),
        walk,
        body: body.clone(),
        prev: Digest::from_slice(prev)?,
        digest: Digest::from_slice(digest)?,
    })
}

/// Copies the sound rows of a table.
fn copy(
    source: &Connection,
    target: &Connection,
    table: &'static str,
    columns: &str,
    whole: &str,
    sound: Sound,
) -> Result<Saved, StoreError> {
    let places = (1..=columns.split(", ").count()).map(|n| format!("?{n}")).collect::<Vec<_>>().join(", ");
    let mut insert =
        target.prepare(&format!("INSERT OR IGNORE INTO {table} ({columns}) VALUES ({places})"))?;
    let mut all = true;
    let read_all = each_row(source, table, columns, whole, |row, told| {
        if !sound(&row, told) {
            all = false;
            return Ok(());
        }
        match insert.execute(params_from_iter(row)).map_err(StoreError::from) {
            // A row that points to a row that is lost.
            Err(StoreError::Unfit { .. }) => all = false,
            Err(error) => return Err(error),
            Ok(_) => {}
        }
        Ok(())
    })?;
    let rows = rows_in(target, table)?;
    Ok(Saved { table, rows, whole: all && read_all })
}

fn rows_in(conn: &Connection, table: &str) -> Result<u64, StoreError> {
    let rows: i64 = conn.query_row(&format!("SELECT count(*) FROM {table}"), [], |row| row.get(0))?;
    Ok(u64::try_from(rows).unwrap_or(0))
}

/// Gives every row that can be read, and says whether that were all. Where a page cannot be read, it goes on behind it:
/// by row number in ever larger steps, or, in a table without, from the other end.
fn each_row(
    source: &Connection,
    table: &str,
    columns: &str,
    whole: &str,
    mut take: impl FnMut(Vec<Value>, bool) -> Result<(), StoreError>,
) -> Result<bool, StoreError> {
    let count = columns.split(", ").count();
    let by_number = format!("SELECT {columns}, {whole}, rowid FROM {table} WHERE rowid > ?1 ORDER BY rowid");
    let numbered = source.prepare(&by_number).is_ok();
    if !numbered {
        let plain = format!("SELECT {columns}, {whole}, 0 FROM {table} WHERE ?1 = ?1");
        if run(source, &plain, count, 0, &mut take)?.is_none() {
            return Ok(true);
        }
        let key = columns.split(", ").last().filter(|last| *last == "device");
        let key = key.or(columns.split(", ").next()).unwrap_or_default();
        run(source, &format!("{plain} ORDER BY {key} DESC"), count, 0, &mut take)?;
        return Ok(false);
    }
    let last: Option<i64> = source
        .query_row(&format!("SELECT max(rowid) FROM {table}"), [], |row| row.get(0))
        .optional()
        .ok()
        .flatten()
        .flatten();
    let last = last.unwrap_or(1 << 32);
    let (mut from, mut step, mut all) = (0i64, 1i64, true);
    while let Some(reached) = run(source, &by_number, count, from, &mut take)? {
        all = false;
        step = if reached > from { 1 } else { step.saturating_mul(2) };
        from = reached.saturating_add(step);
        if from > last {
            break;
        }
    }
    Ok(all)
}

/// Runs a query to its end (`None`) or to its first fault (the number of the last row that was read).
fn run(
    source: &Connection,
    sql: &str,
    count: usize,
    from: i64,
    take: &mut impl FnMut(Vec<Value>, bool) -> Result<(), StoreError>,
) -> Result<Option<i64>, StoreError> {
    let mut reached = from;
    let Ok(mut statement) = source.prepare(sql) else { return Ok(Some(i64::MAX)) };
    let Ok(mut rows) = statement.query([from]) else { return Ok(Some(reached)) };
    loop {
        match rows.next() {
            Ok(None) => return Ok(None),
            Err(_) => return Ok(Some(reached)),
            Ok(Some(row)) => {
                let values: Result<Vec<Value>, _> = (0..count).map(|at| row.get(at)).collect();
                let told = row.get(count).unwrap_or(false);
                reached = row.get(count + 1).unwrap_or(reached);
                take(values.unwrap_or_default(), told)?;
            }
        }
    }
}

impl Salvage {
    fn less(&mut self, table: &str, rows: u64) {
        if rows > 0
            && let Some(saved) = self.saved.iter_mut().find(|saved| saved.table == table)
        {
            saved.rows = saved.rows.saturating_sub(rows);
            saved.whole = false;
        }
    }

    /// Takes the journal over. It goes on only where it is whole and reaches at least to what was acknowledged; a chain
    /// that went on from an earlier place would look like a forked device to everyone who knows its old end.
    fn journal(
        &mut self,
        source: &Connection,
        version: u32,
        target: &Connection,
        seen: Option<Seen>,
    ) -> Result<(), StoreError> {
        let told =
            source.query_row(&DEVICE.select(""), [], |row| Ok((row.get(1)?, DEVICE.whole(row).is_ok())));
        let told: Option<DeviceId> = told.ok().filter(|(_, whole): &(_, bool)| *whole).map(|(id, _)| id);
        let device = told.or(seen.map(|seen| seen.device));
        let mut whole = device.is_some();
        let device = device.unwrap_or(DeviceId([0; 16]));
        let mut check = ChainCheck::new(device);
        let mut reaches = seen.is_some_and(|seen| seen.device == device && seen.head == check.head());
        let sql = "INSERT OR IGNORE INTO foreign_journal (seq, time, kind, walk, body, prev, digest, device)
                   VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)";
        let mut insert = target.prepare(sql)?;
        let mut rows = 0;
        let read_all = each_row(source, "journal", journal::COLUMNS, "1", |mut row, _| {
            let Some(entry) = entry_of(&row).filter(|entry| entry.derive_digest() == entry.digest) else {
                whole = false;
                return Ok(());
            };
            whole &= check.push(&entry).is_ok();
            reaches |= seen.is_some_and(|seen| seen.device == device && seen.head == check.head());
            row.push(Value::Blob(device.0.to_vec()));
            insert.execute(params_from_iter(row))?;
            rows += 1;
            Ok(())
        })?;
        whole &= read_all && reaches;
        self.saved.push(Saved { table: "journal", rows, whole });
        if whole {
            let (ours, columns) = ([device], journal::COLUMNS);
            target.execute(
                &format!(
                    "INSERT INTO journal ({columns}) SELECT {columns} FROM foreign_journal
                     WHERE device = ?1 ORDER BY seq"
                ),
                ours,
            )?;
            target.execute("DELETE FROM foreign_journal WHERE device = ?1", ours)?;
            target.execute("UPDATE device SET id = ?1", ours)?;
            target.execute(&DEVICE.reseal(""), [])?;
        } else {
            self.new_device = true;
            self.give_up_walks(version, target)?;
        }
        Ok(())
    }

    /// A walk whose answers may be missing is not resumed: the missing one could be the deficiency.
    fn give_up_walks(&mut self, version: u32, target: &Connection) -> Result<(), StoreError> {
        let in_hand = "state IN ('open', 'paused', 'decided')";
        let mut statement =
            target.prepare(&format!("SELECT DISTINCT load FROM walks WHERE {in_hand} ORDER BY load"))?;
        let loads = statement.query_map([], |row| row.get(0))?;
        self.walk_again = loads.collect::<Result<_, _>>()?;
        target.execute(&format!("UPDATE walks SET state = 'abandoned' WHERE {in_hand}"), [])?;
        target.execute("UPDATE walks SET entries = 0", [])?;
        target.execute(&WALKS.reseal(""), [])?;
        if version >= 2 {
            target.execute("UPDATE exam_runs SET state = 'lost' WHERE state = 'open'", [])?;
            target.execute("UPDATE exam_runs SET entries = 0", [])?;
            target.execute(&EXAM_RUNS.reseal(""), [])?;
        }
        Ok(())
    }
}

/// A seal whose bytes are lost is no evidence: left out, it counts as missing and comes again with the next sync. One whose
/// full record is lost is the seal alone.
fn drop_bare_records(target: &Connection, version: u32, salvage: &mut Salvage) -> Result<(), StoreError> {
    let bare = "NOT IN (SELECT record FROM record_bytes)";
    // Before schema 7 the facts of walks went by the seal; the step leaves out those that no record has.
    let facts = (version >= 7).then_some("walk_facts");
    for table in ["deficiencies", "equipment"].into_iter().chain(facts) {
        target.execute(&format!("DELETE FROM {table} WHERE record {bare}"), [])?;
    }
    let dropped = target.execute(&format!("DELETE FROM records WHERE id {bare}"), [])?;
    salvage.less("records", dropped as u64);
    if version >= 3 {
        let gone = "body IS NOT NULL AND body NOT IN (SELECT digest FROM bodies)";
        let orphans = target.execute(&format!("UPDATE record_bytes SET body = NULL WHERE {gone}"), [])?;
        if orphans > 0 {
            target.execute(&BYTES.reseal("WHERE body IS NULL"), [])?;
            // The device is known from the full record alone: its seal is completed when the record comes again.
            target.execute(
                "UPDATE records SET device = NULL WHERE device IS NOT NULL
                 AND id IN (SELECT record FROM record_bytes WHERE body IS NULL)",
                [],
            )?;
            target.execute(&RECORDS.reseal("WHERE device IS NULL"), [])?;
        }
    }
    Ok(())
}
