//! Papers of examinations as they are kept and carried: keys, sheets and results, by code, by bundle, from the store. What may be
//! believed of them is the examination's own to say.

use slingseal_catalogue::exams as exam_words;
use slingseal_catalogue::refusals as words;
use std::collections::BTreeSet;

use crate::procedures::expanded_of;
use crate::{App, AppError, Inner};
use slingseal_account::sync::ItemKind;
use slingseal_message::envelope::{Kind, Reader as Cbor, Writer};
use slingseal_message::trust::Trusted;
use slingseal_store::{ExamPaper, ExamPaperRow, Reader, Tx};
use slingseal_walk::exam::{ExamError, ExamResult, JudgedSheet, Lock, OpenedSheet, judge_lock, judge_result};
use slingseal_words::{CallSign, Digest, Language, LoadNumber, Time};

impl From<ExamError> for AppError {
    fn from(error: ExamError) -> Self {
        let message = error.saying();
        match error {
            ExamError::TwoOnACard { .. }
            | ExamError::KeyChanged
            | ExamError::OtherTag { .. }
            | ExamError::OtherProcedure { .. }
            | ExamError::OtherKey { .. }
            | ExamError::StudentIsInstructor { .. }
            | ExamError::NotAnInstructor { .. }
            | ExamError::CredentialRanOut { .. }
            | ExamError::BeforeTheLock { .. }
            | ExamError::NotInARun(_)
            | ExamError::NotEnded
            | ExamError::Disagrees { .. } => Self::Refused { message },
            _ => Self::bad_input(message),
        }
    }
}

/// A sheet that may be kept, on the procedure that its lock names.
pub(crate) fn judge_sheet(
    trusted: &Trusted,
    read: &Reader<'_>,
    bytes: &[u8],
    language: Language,
) -> Result<JudgedSheet, AppError> {
    let opened = OpenedSheet::open(trusted, bytes)?;
    let plan = expanded_of(read, &opened.lock.procedure_digest, language)?;
    Ok(opened.judge(plan)?)
}

pub(crate) fn put_lock(tx: &Tx<'_>, lock: &Lock, bytes: &[u8], now: Time) -> Result<bool, AppError> {
    let digest = Digest::of(bytes);
    tx.put_named(lock.procedure_digest)?;
    Ok(tx.put_exam_paper(&ExamPaperRow {
        digest,
        kind: ExamPaper::Key,
        key: digest,
        load: lock.load.to_string(),
        procedure: lock.procedure.to_string(),
        student: String::new(),
        made: lock.locked,
        received: now,
        bytes: bytes.to_vec(),
    })?)
}

pub(crate) fn put_sheet(
    tx: &Tx<'_>,
    judged: &JudgedSheet,
    bytes: &[u8],
    now: Time,
) -> Result<bool, AppError> {
    let JudgedSheet { sheet, lock, timing, .. } = judged;
    put_lock(tx, lock, &sheet.lock, now)?;
    Ok(tx.put_exam_paper(&ExamPaperRow {
        digest: Digest::of(bytes),
        kind: ExamPaper::Sheet,
        key: Digest::of(&sheet.lock),
        load: lock.load.to_string(),
        procedure: lock.procedure.to_string(),
        student: sheet.student.to_string(),
        made: timing.began,
        received: now,
        bytes: bytes.to_vec(),
    })?)
}

pub(crate) fn put_result(
    tx: &Tx<'_>,
    result: &ExamResult,
    bytes: &[u8],
    now: Time,
) -> Result<bool, AppError> {
    tx.put_named(result.sheet)?;
    Ok(tx.put_exam_paper(&ExamPaperRow {
        digest: Digest::of(bytes),
        kind: ExamPaper::Result,
        key: result.key,
        load: result.load.to_string(),
        procedure: result.procedure.to_string(),
        student: result.student.to_string(),
        made: result.issued,
        received: now,
        bytes: bytes.to_vec(),
    })?)
}

/// What the locks and results that are kept name.
pub(crate) fn names_of_papers(read: &Reader<'_>) -> Result<Vec<Digest>, AppError> {
    let locks = read.exam_papers(ExamPaper::Key)?;
    let locks =
        locks.iter().filter_map(|row| Lock::open(&row.bytes).ok()).map(|(lock, _)| lock.procedure_digest);
    let results = read.exam_papers(ExamPaper::Result)?;
    let results =
        results.iter().filter_map(|row| ExamResult::open(&row.bytes).ok()).map(|(result, _)| result.sheet);
    Ok(locks.chain(results).collect())
}

/// A result as a bundle carries it: with its lock, so that it can be judged alone and in any order.
///
/// ```cddl
/// exam-result-item = [lock: bstr, result: bstr]
/// ```
pub(crate) fn result_item(lock: &[u8], result: &[u8]) -> Vec<u8> {
    let mut out = Writer::new();
    out.array(2).bytes(lock).bytes(result);
    out.into_bytes()
}

pub(crate) fn result_parts(item: &[u8]) -> Result<(&[u8], &[u8]), AppError> {
    slingseal_message::envelope::check(item, slingseal_message::envelope::Limits::FILE)?;
    let mut reader = Cbor::new(item);
    reader.array(2, "examination result of a bundle")?;
    Ok((reader.bytes("examination key")?, reader.bytes("examination result")?))
}

impl Inner {
    /// Everything of examinations, as a bundle carries it: the text of a unit's own procedure goes before what needs it.
    pub(crate) fn exam_items(
        &self,
        texts: &mut BTreeSet<Digest>,
    ) -> Result<Vec<(ItemKind, Vec<u8>)>, AppError> {
        let read = self.store.read();
        let mut items = Vec::new();
        for row in read.exam_papers(ExamPaper::Key)? {
            items.push((ItemKind::ExamKey, row.bytes));
        }
        for row in read.exam_papers(ExamPaper::Sheet)? {
            for (kind, bytes) in self.sheet_items(&row)? {
                if kind != ItemKind::Procedure || texts.insert(Digest::of(&bytes)) {
                    items.push((kind, bytes));
                }
            }
        }
        for row in read.exam_papers(ExamPaper::Result)? {
            let Some(lock) = read.exam_paper(row.key)? else { continue };
            items.push((ItemKind::ExamResult, result_item(&lock.bytes, &row.bytes)));
        }
        Ok(items)
    }

    /// What does not hold of the papers of examinations, one line each: for the audit.
    pub(crate) fn exam_faults(&self, trusted: &Trusted) -> Result<(u32, Vec<String>), AppError> {
        let read = self.store.read();
        let (mut looked, mut faults) = (0, Vec::new());
        for kind in [ExamPaper::Key, ExamPaper::Sheet, ExamPaper::Result] {
            for row in read.exam_papers(kind)? {
                looked += 1;
                let found = match kind {
                    _ if Digest::of(&row.bytes) != row.digest => {
                        Err(AppError::internal("its bytes are not those of its row"))
                    }
                    ExamPaper::Key => judge_lock(trusted, &row.bytes).map(drop).map_err(AppError::from),
                    ExamPaper::Sheet => judge_sheet(trusted, &read, &row.bytes, self.language()).map(drop),
                    ExamPaper::Result => match read.exam_paper(row.key)? {
                        Some(lock) => {
                            judge_result(trusted, &lock.bytes, &row.bytes).map(drop).map_err(AppError::from)
                        }
                        None => Err(AppError::not_found(words::ExamKeyNotHere)),
                    },
                };
                if let Err(error) = found {
                    let (paper, load) = (row.digest.short(), &row.load);
                    let said = match kind {
                        ExamPaper::Key => exam_words::KeyFault { paper, load, error }.saying(),
                        ExamPaper::Sheet => exam_words::SheetFault { paper, load, error }.into(),
                        ExamPaper::Result => exam_words::ResultFault { paper, load, error }.into(),
                    };
                    faults.push(said.say(self.language()));
                }
            }
        }
        Ok((looked, faults))
    }
}

/// A lock or a result that was taken in.
pub(crate) struct ReceivedPaper {
    pub(crate) id: Digest,
    pub(crate) load: LoadNumber,
    /// Who signed it.
    pub(crate) by: CallSign,
    pub(crate) new: bool,
}

/// Kept for [`App::receive`]: a lock or a result that came as a code.
impl App {
    pub(crate) fn receive_exam(&self, kind: Kind, bytes: &[u8]) -> Result<ReceivedPaper, AppError> {
        let mut inner = self.lock();
        let now = inner.now();
        let trusted = inner.trusted()?;
        if kind == Kind::ExamKey {
            let (lock, signer) = judge_lock(&trusted, bytes)?;
            let new = inner.store.write(|tx| put_lock(tx, &lock, bytes, now))?;
            return Ok(ReceivedPaper {
                id: Digest::of(bytes),
                load: lock.load,
                by: signer.credential.holder,
                new,
            });
        }
        let (said, _) = ExamResult::open(bytes)?;
        let lock = inner.store.read().exam_paper(said.key)?.filter(|row| row.kind == ExamPaper::Key);
        let lock = lock.ok_or_else(|| AppError::not_found(words::KeyExaminationResultKnownScan))?;
        let (result, _, signer) = judge_result(&trusted, &lock.bytes, bytes)?;
        let new = inner.store.write(|tx| put_result(tx, &result, bytes, now))?;
        Ok(ReceivedPaper { id: Digest::of(bytes), load: result.load, by: signer.credential.holder, new })
    }
}
