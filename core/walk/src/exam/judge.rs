//! What of an examination may be believed: keys, sheets and results, whether they come by code, by bundle or from the store.

use std::sync::Arc;

use super::{ExamError, ExamResult, Lock, Sheet, Timing, may_begin, timing};
use crate::procedure::Expanded;
use crate::walk::{Ground, LoadFacts, Walk};
use slingseal_message::envelope::Kind;
use slingseal_message::tag::ReceivedTag;
use slingseal_message::trust::{Role, Signer, Trusted};
use slingseal_words::{Digest, Time, same_person};

/// A lock with its signer: an instructor, credentialed when it was signed. Whether the credential was revoked since is another
/// question: the account keeps those too.
///
/// # Errors
/// No lock; nobody trusted signed it, or somebody who might not.
pub fn judge_lock(trusted: &Trusted, bytes: &[u8]) -> Result<(Lock, Signer), ExamError> {
    let (lock, message) = Lock::open(bytes)?;
    let signer = trusted.signer(Kind::ExamKey, &message)?;
    instructor(&signer, lock.locked)?;
    Ok((lock, signer))
}

fn instructor(signer: &Signer, signed: Time) -> Result<(), ExamError> {
    let credential = &signer.credential;
    if !credential.roles.has(Role::Instructor) {
        return Err(ExamError::NotAnInstructor { name: credential.holder.clone() });
    }
    if signed > credential.expires {
        return Err(ExamError::CredentialRanOut { name: credential.holder.clone() });
    }
    Ok(())
}

/// A result with its lock and their signer, who must be one person: whoever locked the key knows what was planted.
///
/// # Errors
/// As [`judge_lock`], of either; the two do not belong together; the student is the instructor.
pub fn judge_result(
    trusted: &Trusted,
    lock_bytes: &[u8],
    bytes: &[u8],
) -> Result<(ExamResult, Lock, Signer), ExamError> {
    let (lock, locker) = judge_lock(trusted, lock_bytes)?;
    let (result, message) = ExamResult::open(bytes)?;
    let signer = trusted.signer(Kind::ExamResult, &message)?;
    instructor(&signer, result.issued)?;
    result.is_under(&lock, &Digest::of(lock_bytes))?;
    let (one, other) = (&signer.credential.holder, &locker.credential.holder);
    if !same_person(one, other) || signer.authority != locker.authority {
        return Err(ExamError::OtherKey { what: "result" });
    }
    if same_person(one, &result.student) {
        return Err(ExamError::StudentIsInstructor { name: result.student.clone() });
    }
    Ok((result, lock, signer))
}

/// A sheet, folded and timed.
#[derive(Clone, Debug)]
pub struct JudgedSheet {
    /// The sheet.
    pub sheet: Sheet,
    /// The lock that it carries.
    pub lock: Lock,
    /// The run, folded.
    pub walk: Walk,
    /// How long it took.
    pub timing: Timing,
}

/// A sheet whose lock, tag and student belong together, before its run is folded: that wants the procedure of
/// [`Lock::procedure_digest`].
#[derive(Clone, Debug)]
pub struct OpenedSheet {
    /// The sheet.
    pub sheet: Sheet,
    /// The lock that it carries.
    pub lock: Lock,
    locker: Signer,
    facts: LoadFacts,
}

impl OpenedSheet {
    /// Opens a sheet: its lock is an instructor's, and its tag is the locked one.
    ///
    /// # Errors
    /// No sheet; as [`judge_lock`]; another tag.
    pub fn open(trusted: &Trusted, bytes: &[u8]) -> Result<Self, ExamError> {
        let sheet = Sheet::parse(bytes)?;
        let (lock, locker) = judge_lock(trusted, &sheet.lock)?;
        let received = ReceivedTag::open(&sheet.tag)?;
        if received.digest != lock.tag {
            return Err(ExamError::OtherTag { load: lock.load.clone() });
        }
        let facts = LoadFacts::of(&received.tag, received.digest);
        Ok(Self { sheet, lock, locker, facts })
    }

    /// Folds the run on the procedure that was locked: it ended, was walked by somebody who is not the instructor, and began not
    /// before the lock.
    ///
    /// # Errors
    /// The events do not make a run; the run is not ended, or might not begin.
    pub fn judge(self, plan: Expanded) -> Result<JudgedSheet, ExamError> {
        let Self { sheet, lock, locker, facts } = self;
        let ground = Ground { plan: Arc::new(plan), facts, inspector: sheet.student.clone() };
        let (walk, timing) = timing(Arc::new(ground), &sheet.read_events()?)?;
        may_begin(&lock, &locker.credential.holder, &sheet.student, timing.began)?;
        if !timing.ended {
            return Err(ExamError::NotEnded);
        }
        Ok(JudgedSheet { sheet, lock, walk, timing })
    }
}
