//! How each load stands by its latest inspection: what the judgement said, kept so that a board answers fast.

use rusqlite::Row;
use rusqlite::types::{FromSql, FromSqlResult};

use slingseal_words::{Digest, Time};

use super::table::Table;
use super::{Reader, StoreError, Tx};

pub(super) static LOADS: Table = Table::new(
    "loads",
    "load",
    &["load", "latest", "state", "issued", "valid_until", "turns", "authorities", "judged"],
);

/// How a load stands, whatever the time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LoadRow {
    /// The load number.
    pub load: String,
    /// The seal of its latest inspection, by the digest of its own bytes.
    pub latest: Digest,
    /// The stable word of its state, whatever the time.
    pub state: String,
    /// When that inspection was sealed.
    pub issued: Time,
    /// Until when it holds.
    pub valid_until: Time,
    /// Past this it is to be looked into.
    pub turns: Option<Time>,
    /// The authorities whose rosters it rests on.
    pub authorities: Vec<[u8; 32]>,
    /// The version of the function that said so.
    pub version: u32,
}

/// How a load stood by its latest inspection, for as long as its row is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InspectedFacts<'r> {
    /// The stable word of its state, whatever the time.
    pub state: &'r str,
    /// When that inspection was sealed.
    pub issued: Time,
    /// Until when it holds.
    pub valid_until: Time,
    /// Past this it is to be looked into.
    pub turns: Option<Time>,
    /// The authorities whose rosters it rests on.
    pub authorities: &'r [[u8; 32]],
}

impl LoadRow {
    /// What decides its state at a time.
    pub fn facts(&self) -> InspectedFacts<'_> {
        InspectedFacts {
            state: &self.state,
            issued: self.issued,
            valid_until: self.valid_until,
            turns: self.turns,
            authorities: &self.authorities,
        }
    }
}

/// The facts of a row whose columns begin at this one.
pub(super) fn inspected<'r>(row: &'r Row<'_>, first: usize) -> Result<InspectedFacts<'r>, StoreError> {
    let [_load, _latest, state, issued, valid_until, turns, authorities, _judged] =
        LOADS.values::<8>(row, first)?;
    let facts = || -> FromSqlResult<InspectedFacts<'r>> {
        Ok(InspectedFacts {
            state: state.as_str()?,
            issued: FromSql::column_result(issued)?,
            valid_until: FromSql::column_result(valid_until)?,
            turns: FromSql::column_result(turns)?,
            authorities: authorities.as_blob()?.as_chunks().0,
        })
    };
    Ok(facts().map_err(rusqlite::Error::from)?)
}

pub(super) fn make(row: &Row<'_>) -> rusqlite::Result<LoadRow> {
    Ok(LoadRow {
        load: row.get(0)?,
        latest: row.get(1)?,
        state: row.get(2)?,
        issued: row.get(3)?,
        valid_until: row.get(4)?,
        turns: row.get(5)?,
        authorities: row.get_ref(6)?.as_blob()?.as_chunks().0.to_vec(),
        version: row.get(7)?,
    })
}

impl Tx<'_> {
    /// Keeps how a load stands.
    pub fn put_load(&self, row: &LoadRow) -> Result<(), StoreError> {
        let LoadRow { load, latest, state, issued, valid_until, turns, authorities, version } = row;
        let keys = authorities.concat();
        let row = (load, latest, state, issued, valid_until, turns, keys, version);
        self.run(&LOADS.insert("OR REPLACE"), row)?;
        Ok(())
    }

    /// No inspection of a load is known.
    pub fn remove_load(&self, load: &str) -> Result<(), StoreError> {
        self.run("DELETE FROM loads WHERE load = ?1", [load])?;
        Ok(())
    }
}

impl Reader<'_> {
    /// Whether nothing of a load is here, voids aside: those are looked up without an index.
    pub fn is_blank(&self, load: &str) -> Result<bool, StoreError> {
        let sql = "SELECT NOT (EXISTS (SELECT 1 FROM records WHERE load = ?1)
            OR EXISTS (SELECT 1 FROM tags WHERE load = ?1) OR EXISTS (SELECT 1 FROM movements WHERE load = ?1)
            OR EXISTS (SELECT 1 FROM loads WHERE load = ?1) OR EXISTS (SELECT 1 FROM flow WHERE load = ?1))";
        self.ask(sql, |statement| statement.query_row([load], |row| row.get(0)))
    }

    /// How a load stood when it was judged last.
    pub fn load(&self, load: &str) -> Result<Option<LoadRow>, StoreError> {
        self.row(&LOADS, "WHERE load = ?1", [load], make)
    }
}
