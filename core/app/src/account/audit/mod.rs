//! The audit: this device's journal, every record's chain and signature, every paper; and what does not hold, by name.
//!
//! A home is a file on a device that its holder can open with other programs. So nothing here relies on a column that the
//! signed bytes do not say: columns are compared with them.

mod journals;
mod papers;
mod records;
mod standings;
mod trust;

use slingseal_catalogue::audit as audit_words;

use serde::Serialize;

use crate::account::strays::{MOST_STRAY_BYTES, MOST_STRAYS};
use crate::{App, AppError, Inner};
use slingseal_account::audit::Finding;
use slingseal_store::{RecordRow, StoreError};
use slingseal_words::{Language, Saying};

/// What the audit found.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct AuditView {
    /// Records looked at.
    pub records: u32,
    /// Journal entries of this device looked at.
    pub entries: u64,
    /// Rosters, credentials, voids, tags and cards looked at.
    pub papers: u32,
    /// What is wrong, the first first: this device's journal, then the records by the time of their seals, then papers.
    /// Empty where all holds.
    pub faults: Vec<String>,
    /// What cannot be told from here, though nothing is wrong on its face.
    pub notes: Vec<String>,
}

impl AuditView {
    /// Takes what was found, each to its kind.
    fn find(&mut self, found: Vec<Finding>, language: Language) {
        for finding in found {
            let list = if finding.is_fault() { &mut self.faults } else { &mut self.notes };
            list.push(finding.saying().say(language));
        }
    }
}

impl App {
    /// Walks this device's journal and every record's chain and signature, and names what is missing, rewritten, moved or
    /// from a forked device.
    ///
    /// # Errors
    /// Storage that cannot be read at all.
    pub fn audit(&self) -> Result<AuditView, AppError> {
        self.lock().audit(&mut |_| true)
    }

    /// The same, telling how far it is; it ends where the answer is `false`, and then says nothing of what it saw.
    ///
    /// # Errors
    /// Storage; it was stopped.
    pub fn audit_while(&self, goes_on: &mut dyn FnMut(AuditProgress) -> bool) -> Result<AuditView, AppError> {
        self.lock().audit(goes_on)
    }
}

/// How far an audit is: every record is laid in the order of its journal, then looked at for itself, then every load with seals as
/// a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct AuditProgress {
    /// Records laid in their order, records and loads looked at.
    pub done: u64,
    /// Of so many.
    pub of: u64,
}

/// Counts what an audit looks at.
struct Counted<'g> {
    goes_on: &'g mut dyn FnMut(AuditProgress) -> bool,
    progress: AuditProgress,
}

impl Counted<'_> {
    fn one(&mut self) -> Result<(), AppError> {
        self.progress.done += 1;
        let told = !self.progress.done.is_multiple_of(16) || (self.goes_on)(self.progress);
        if told { Ok(()) } else { Err(AppError::refused(audit_words::AuditStopped)) }
    }
}

/// How much of a record a message tells: enough to find it.
fn name(row: &RecordRow) -> Saying {
    audit_words::RecordOfLoad { record: row.digest.short(), load: &row.load }.into()
}

impl Inner {
    fn audit(&self, goes_on: &mut dyn FnMut(AuditProgress) -> bool) -> Result<AuditView, AppError> {
        let mut view = AuditView::default();
        let read = self.store.read();
        let known = 2 * read.records_known()?.len() + read.loads_with_seals()?.len();
        let of = u64::try_from(known).unwrap_or(u64::MAX);
        let mut counted = Counted { goes_on, progress: AuditProgress { done: 0, of } };
        if !(counted.goes_on)(counted.progress) {
            return Err(AppError::refused(audit_words::AuditStopped));
        }
        view.faults.extend(self.opened.set_aside.as_ref().map(ToString::to_string));
        view.faults.extend(self.opened.lost.as_ref().map(ToString::to_string));
        let in_journal = match read.verify_journal()? {
            Ok(head) => {
                view.entries = head.seq;
                None
            }
            Err(fault) => {
                view.entries = fault.seq();
                view.faults.push(audit_words::OwnJournal { fault: &fault }.say(self.language()));
                Some(fault.to_string())
            }
        };
        view.faults.extend(read.check()?.into_iter().filter(|fault| Some(fault) != in_journal.as_ref()));
        let trusted = self.trusted_for_audit(&mut view)?;
        self.audit_own_seals(&mut view)?;
        let faulty = self.audit_records(&trusted, &mut view, &mut counted)?;
        self.audit_papers(&trusted, &mut view)?;
        self.audit_standings(&trusted, &faulty, &mut view, &mut counted)?;
        let (looked, faults) = self.exam_faults(&trusted)?;
        view.papers += looked;
        view.faults.extend(faults);
        view.faults.dedup();
        let (strays, bytes) = read.strays_size()?;
        if strays >= MOST_STRAYS / 2 || bytes >= MOST_STRAY_BYTES / 2 {
            let (size, most, most_size) = (bytes >> 20, MOST_STRAYS, MOST_STRAY_BYTES >> 20);
            view.notes.push(audit_words::StraysKept { strays, size, most, most_size }.say(self.language()));
        }
        Ok(view)
    }
}

/// Damage is what an audit is there to find: it goes on, and the store's own check names the row.
fn decayed<T>(answer: Result<T, StoreError>) -> Result<Result<T, String>, AppError> {
    match answer {
        Ok(answer) => Ok(Ok(answer)),
        Err(StoreError::Damaged { what }) => Ok(Err(what)),
        Err(error) => Err(error.into()),
    }
}
