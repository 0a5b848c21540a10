//! Examinations: keys, sheets and results as they came, and the runs of this device.

use rusqlite::Row;

use slingseal_words::{Digest, Time};

use super::table::Table;
use super::values::{count_in, count_out, word_column};
use super::{Reader, StoreError, Tx, WalkId};

pub(super) static EXAM_PAPERS: Table = Table::new(
    "exam_papers",
    "digest",
    &["digest", "kind", "key", "load", "procedure", "student", "made", "received", "bytes"],
);
pub(super) static EXAM_RUNS: Table = Table::new(
    "exam_runs",
    "walk",
    &["walk", "key", "load", "procedure", "student", "state", "begun", "updated", "entries"],
);

/// What a paper of an examination is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ExamPaper {
    /// An instructor's lock.
    Key,
    /// A run that ended.
    Sheet,
    /// A signed result.
    Result,
}
word_column!(ExamPaper { Key = "key", Sheet = "sheet", Result = "result" });

/// A paper of an examination.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExamPaperRow {
    /// The digest of its bytes.
    pub digest: Digest,
    /// What it is.
    pub kind: ExamPaper,
    /// The digest of the lock that it belongs to; its own for a lock.
    pub key: Digest,
    /// The load number.
    pub load: String,
    /// The procedure's id.
    pub procedure: String,
    /// The student; empty for a lock.
    pub student: String,
    /// When it was locked, begun or signed.
    pub made: Time,
    /// When it came here.
    pub received: Time,
    /// The paper.
    pub bytes: Vec<u8>,
}

/// How far a run is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunState {
    /// The clock runs.
    Open,
    /// Ended: its sheet stands among the papers.
    Ended,
    /// Its events were lost with a damaged journal.
    Lost,
}
word_column!(RunState { Open = "open", Ended = "ended", Lost = "lost" });

/// A run of this device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExamRunRow {
    /// What it goes by.
    pub walk: WalkId,
    /// The digest of its lock.
    pub key: Digest,
    /// The load number.
    pub load: String,
    /// The procedure's id.
    pub procedure: String,
    /// Who runs.
    pub student: String,
    /// How far it is.
    pub state: RunState,
    /// When it began.
    pub begun: Time,
    /// When it was last touched.
    pub updated: Time,
}

fn make_paper(row: &Row<'_>) -> rusqlite::Result<ExamPaperRow> {
    Ok(ExamPaperRow {
        digest: row.get(0)?,
        kind: row.get(1)?,
        key: row.get(2)?,
        load: row.get(3)?,
        procedure: row.get(4)?,
        student: row.get(5)?,
        made: row.get(6)?,
        received: row.get(7)?,
        bytes: row.get(8)?,
    })
}

fn make_run(row: &Row<'_>) -> rusqlite::Result<ExamRunRow> {
    Ok(ExamRunRow {
        walk: row.get(0)?,
        key: row.get(1)?,
        load: row.get(2)?,
        procedure: row.get(3)?,
        student: row.get(4)?,
        state: row.get(5)?,
        begun: row.get(6)?,
        updated: row.get(7)?,
    })
}

impl Tx<'_> {
    /// Keeps a paper; `false` where it was known.
    pub fn put_exam_paper(&self, paper: &ExamPaperRow) -> Result<bool, StoreError> {
        let ExamPaperRow { digest, kind, key, load, procedure, student, made, received, bytes } = paper;
        let row = (digest, kind, key, load, procedure, student, made, received, bytes);
        Ok(self.run(&EXAM_PAPERS.insert("OR IGNORE"), row)? > 0)
    }

    /// Writes a run's row, new or changed. To be called after the run's entries are appended: it counts them.
    pub fn put_exam_run(&self, run: &ExamRunRow) -> Result<(), StoreError> {
        let entries = self.count("SELECT count(*) FROM journal WHERE walk = ?1", [run.walk])?;
        let ExamRunRow { walk, key, load, procedure, student, state, begun, updated } = run;
        let row = (walk, key, load, procedure, student, state, begun, updated, count_in(entries)?);
        self.run(&EXAM_RUNS.insert("OR REPLACE"), row)?;
        Ok(())
    }
}

impl Reader<'_> {
    /// A paper.
    pub fn exam_paper(&self, digest: Digest) -> Result<Option<ExamPaperRow>, StoreError> {
        self.row(&EXAM_PAPERS, "WHERE digest = ?1", [digest], make_paper)
    }

    /// All papers of a kind, the first made first.
    pub fn exam_papers(&self, kind: ExamPaper) -> Result<Vec<ExamPaperRow>, StoreError> {
        self.rows(&EXAM_PAPERS, "WHERE kind = ?1 ORDER BY made, digest", [kind], make_paper)
    }

    /// The papers of a kind that belong to a lock, the first made first.
    pub fn exam_papers_of(&self, key: Digest, kind: ExamPaper) -> Result<Vec<ExamPaperRow>, StoreError> {
        self.rows(&EXAM_PAPERS, "WHERE key = ?1 AND kind = ?2 ORDER BY made, digest", (key, kind), make_paper)
    }

    /// A run.
    pub fn exam_run(&self, walk: WalkId) -> Result<Option<ExamRunRow>, StoreError> {
        self.row(&EXAM_RUNS, "WHERE walk = ?1", [walk], make_run)
    }

    /// All runs of this device, the last begun first.
    pub fn exam_runs(&self) -> Result<Vec<ExamRunRow>, StoreError> {
        self.rows(&EXAM_RUNS, "ORDER BY begun DESC, walk", [], make_run)
    }

    /// How many journal entries a run has at least; none for what is no run.
    pub(super) fn exam_run_entries(&self, walk: WalkId) -> Result<Option<u64>, StoreError> {
        self.row(&EXAM_RUNS, "WHERE walk = ?1", [walk], |row| count_out(row, 8))
    }
}
