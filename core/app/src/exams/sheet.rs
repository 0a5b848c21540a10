//! Examinations, between the two: the runs that are known here, and the sheet of one as it travels.

use serde::Serialize;
use slingseal_catalogue::{exams as exam_words, refusals as words};

use crate::exams::papers::judge_sheet;
use crate::exams::{one_of, short};
use crate::procedures::comes_with_the_program;
use crate::walks::entries::{id_text, walk_id};
use crate::{App, AppError, Inner, MovingCode, Stamp};
use slingseal_account::sync::{BundleWriter, ItemKind};
use slingseal_store::{ExamPaper, ExamPaperRow, RunState};
use slingseal_walk::exam::JudgedSheet;
use slingseal_walk::exam::{ExamError, ExamResult, Lock, Sheet};
use slingseal_words::Digest;

/// A run in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RunLine {
    /// What to name it by: the run while it is open, its sheet once it is ended.
    pub run: String,
    /// The key's first digits.
    pub key: String,
    /// Who is examined.
    pub student: String,
    /// The load.
    pub load: String,
    /// The procedure's id.
    pub procedure: String,
    /// How far it is.
    pub state: ExamRunState,
    /// When it began.
    pub begun: Stamp,
    /// Whether what is planted is known here, so that it can be scored here.
    pub can_score: bool,
}

/// How far a run is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ExamRunState {
    /// The clock runs.
    Open,
    /// Its sheet is here, and nobody scored it here.
    Ended,
    /// Its result is here.
    Scored,
    /// Its events were lost with a damaged journal.
    Lost,
}

impl ExamRunState {
    /// A stable word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Ended => "ended",
            Self::Scored => "scored",
            Self::Lost => "lost",
        }
    }
}

impl App {
    /// Every run that is known here, the last begun first.
    ///
    /// # Errors
    /// Storage.
    pub fn exam_runs(&self) -> Result<Vec<RunLine>, AppError> {
        self.lock().exam_runs()
    }

    /// The sheet of an ended run as a bundle: a file for the instructor's device.
    ///
    /// # Errors
    /// No such run, or one that is not ended.
    pub fn exam_sheet(&self, run: &str) -> Result<Vec<u8>, AppError> {
        let inner = self.lock();
        let row = inner.sheet_row(run)?;
        inner.sheet_bundle(&row)
    }

    /// The same as a moving code, from screen to camera.
    ///
    /// # Errors
    /// As `exam_sheet`.
    pub fn exam_sheet_code(&self, run: &str) -> Result<MovingCode, AppError> {
        let bytes = self.exam_sheet(run)?;
        MovingCode::of_bundle(&bytes, 1)
    }
}

impl Inner {
    fn exam_runs(&self) -> Result<Vec<RunLine>, AppError> {
        let read = self.store.read();
        let mut lines = Vec::new();
        for row in read.exam_runs()?.into_iter().filter(|row| row.state != RunState::Ended) {
            lines.push(RunLine {
                run: id_text(row.walk),
                key: short(&row.key),
                student: row.student,
                load: row.load,
                procedure: row.procedure,
                state: match row.state {
                    RunState::Open => ExamRunState::Open,
                    RunState::Ended => ExamRunState::Ended,
                    RunState::Lost => ExamRunState::Lost,
                },
                begun: row.begun.into(),
                can_score: false,
            });
        }
        let results = read.exam_papers(ExamPaper::Result)?;
        let scored: Vec<Digest> = results
            .iter()
            .filter_map(|row| ExamResult::open(&row.bytes).ok().map(|(result, _)| result.sheet))
            .collect();
        for row in read.exam_papers(ExamPaper::Sheet)? {
            let lock = read.exam_paper(row.key)?;
            let lock = lock.and_then(|row| Lock::open(&row.bytes).ok().map(|(lock, _)| lock));
            let here = match &lock {
                Some(lock) => self.exam_secret(&row.key, lock).is_ok_and(|secret| secret.is_some()),
                None => false,
            };
            let done = scored.contains(&row.digest);
            lines.push(RunLine {
                run: row.digest.to_string(),
                key: short(&row.key),
                student: row.student,
                load: row.load,
                procedure: row.procedure,
                state: if done { ExamRunState::Scored } else { ExamRunState::Ended },
                begun: row.made.into(),
                can_score: here && !done,
            });
        }
        lines.sort_by(|a, b| b.begun.unix.cmp(&a.begun.unix).then(a.run.cmp(&b.run)));
        Ok(lines)
    }

    /// The sheet of a run of this device, or of the first digits of a sheet.
    pub(crate) fn sheet_row(&self, run: &str) -> Result<ExamPaperRow, AppError> {
        let read = self.store.read();
        if let Ok(id) = walk_id(run)
            && let Some(row) = read.exam_run(id)?
        {
            if row.state == RunState::Open {
                return Err(ExamError::NotEnded.into());
            }
            let sheets = read.exam_papers_of(row.key, ExamPaper::Sheet)?;
            let of_run =
                |sheet: &ExamPaperRow| Sheet::parse(&sheet.bytes).is_ok_and(|sheet| sheet.walk == id.0);
            let none = || AppError::not_found(words::SheetRunSeeExamRuns);
            return sheets.into_iter().find(of_run).ok_or_else(none);
        }
        one_of(read.exam_papers(ExamPaper::Sheet)?, run, exam_words::RunThatEnded.into())
    }

    fn sheet_bundle(&self, row: &ExamPaperRow) -> Result<Vec<u8>, AppError> {
        let failed = |error: std::io::Error| AppError::internal(error);
        let mut writer = BundleWriter::begin(Vec::new()).map_err(failed)?;
        for (kind, body) in self.sheet_items(row)? {
            writer.add(kind, &body).map_err(failed)?.map_err(AppError::bad_input)?;
        }
        writer.finish().map_err(failed)
    }

    /// A sheet, behind the text of its procedure where not every device has it.
    pub(crate) fn sheet_items(&self, row: &ExamPaperRow) -> Result<Vec<(ItemKind, Vec<u8>)>, AppError> {
        let (lock, _) = Lock::open(&Sheet::parse(&row.bytes)?.lock).map(|(lock, _)| (lock, ()))?;
        let mut items = Vec::new();
        if !comes_with_the_program(&lock.procedure_digest)
            && let Some(row) = self.store.read().procedure_text(lock.procedure_digest)?
        {
            items.push((ItemKind::Procedure, row.text.into_bytes()));
        }
        items.push((ItemKind::ExamSheet, row.bytes.clone()));
        Ok(items)
    }

    pub(crate) fn judged_sheet(&self, row: &ExamPaperRow) -> Result<JudgedSheet, AppError> {
        judge_sheet(&self.trusted()?, &self.store.read(), &row.bytes, self.language())
    }
}
