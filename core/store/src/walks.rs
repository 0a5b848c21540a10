use rusqlite::Row;

use slingseal_words::Time;

use super::table::Table;
use super::values::{count_in, word_column};
use super::{Reader, StoreError, Tx, WalkId};

pub(super) static WALKS: Table = Table::new(
    "walks",
    "id",
    &["id", "load", "procedure", "inspector", "state", "begun", "updated", "entries"],
);

/// How far a walk is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WalkState {
    /// Being walked.
    Open,
    /// Put down, to be taken up again.
    Paused,
    /// Decided, not sealed.
    Decided,
    /// Sealed: its record stands among the records.
    Sealed,
    /// Given up.
    Abandoned,
}
word_column!(WalkState {
    Open = "open",
    Paused = "paused",
    Decided = "decided",
    Sealed = "sealed",
    Abandoned = "abandoned",
});

impl WalkState {
    /// Whether there is still something to do.
    pub fn in_hand(self) -> bool {
        matches!(self, Self::Open | Self::Paused | Self::Decided)
    }
}

/// A walk as the list of walks shows it. What happened in it stands in the journal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WalkRow {
    /// What it goes by.
    pub id: WalkId,
    /// The load number.
    pub load: String,
    /// The procedure's id.
    pub procedure: String,
    /// Who walks.
    pub inspector: String,
    /// How far it is.
    pub state: WalkState,
    /// When it was begun.
    pub begun: Time,
    /// When it was last touched.
    pub updated: Time,
}

fn make(row: &Row<'_>) -> rusqlite::Result<WalkRow> {
    Ok(WalkRow {
        id: row.get(0)?,
        load: row.get(1)?,
        procedure: row.get(2)?,
        inspector: row.get(3)?,
        state: row.get(4)?,
        begun: row.get(5)?,
        updated: row.get(6)?,
    })
}

impl Tx<'_> {
    /// Writes a walk's row, new or changed. To be called after the walk's entries are appended: it counts them.
    pub fn put_walk(&self, walk: &WalkRow) -> Result<(), StoreError> {
        let entries = self.count("SELECT count(*) FROM journal WHERE walk = ?1", [walk.id])?;
        let WalkRow { id, load, procedure, inspector, state, begun, updated } = walk;
        let row = (id, load, procedure, inspector, state, begun, updated, count_in(entries)?);
        self.run(&WALKS.insert("OR REPLACE"), row)?;
        Ok(())
    }
}

impl Reader<'_> {
    /// A walk.
    pub fn walk(&self, id: WalkId) -> Result<Option<WalkRow>, StoreError> {
        self.row(&WALKS, "WHERE id = ?1", [id], make)
    }

    /// The walks with something left to do, the last touched first: the first is the one to resume.
    pub fn walks_in_hand(&self) -> Result<Vec<WalkRow>, StoreError> {
        let rest = "WHERE state IN ('open', 'paused', 'decided') ORDER BY updated DESC, id";
        self.rows(&WALKS, rest, [], make)
    }

    /// All walks of a load, the last touched first.
    pub fn walks_of(&self, load: &str) -> Result<Vec<WalkRow>, StoreError> {
        self.rows(&WALKS, "WHERE load = ?1 ORDER BY updated DESC, id", [load], make)
    }
}
