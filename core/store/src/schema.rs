use rusqlite::{Connection, TransactionBehavior};

use super::StoreError;

/// What stands in `application_id` of our files, so that another program's database is never taken for ours: "SLNG".
const APPLICATION: i32 = 0x534C_4E47;

/// The steps from nothing to now. A released step is never changed; a database of each is frozen in `tests/upgrades`.
const STEPS: &[&str] = &[
    include_str!("schema/0001_first.sql"),
    include_str!("schema/0002_exams.sql"),
    include_str!("schema/0003_words.sql"),
    include_str!("schema/0004_strays.sql"),
    include_str!("schema/0005_since.sql"),
    include_str!("schema/0006_counts.sql"),
    include_str!("schema/0007_walk_facts_by_record.sql"),
];

/// The newest schema that this program knows.
pub(super) const KNOWN: u32 = STEPS.len() as u32;

/// What the file says of itself: its schema, and whether it is another program's.
pub(super) struct Said {
    pub(super) version: u32,
    pub(super) foreign: bool,
}

pub(super) fn said(conn: &Connection) -> Result<Said, StoreError> {
    let version: u32 = conn.pragma_query_value(None, "user_version", |row| row.get(0))?;
    let application: i32 = conn.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let objects: i64 = conn.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    Ok(Said { version, foreign: application != APPLICATION && (version != 0 || objects != 0) })
}

/// Brings the database to the schema `upto`. Each step and its number are one transaction: a kill leaves the one or the
/// other, never half.
pub(super) fn step_up(conn: &mut Connection, from: u32, upto: u32) -> Result<(), StoreError> {
    // A step makes tables anew that others point to. SQLite takes the switch between transactions alone.
    conn.execute_batch("PRAGMA foreign_keys = OFF;")?;
    for (version, step) in (1u32..).zip(STEPS).filter(|(version, _)| (from + 1..=upto).contains(version)) {
        let tx = conn.transaction_with_behavior(TransactionBehavior::Immediate)?;
        tx.execute_batch(step)?;
        tx.pragma_update(None, "application_id", APPLICATION)?;
        tx.pragma_update(None, "user_version", version)?;
        tx.commit()?;
    }
    conn.execute_batch("PRAGMA foreign_keys = ON;")?;
    Ok(())
}
