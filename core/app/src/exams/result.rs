//! Examinations, the result: a run held against what was planted, signed, and told in the order of the load.

use slingseal_catalogue::exams as exam_words;
use slingseal_catalogue::refusals as words;

use crate::exams::debrief::{ExamResultLine, ExamResultView, debrief_view, reasons, small};
use crate::exams::papers::put_result;
use crate::exams::{elsewhere, one_of, planted_views, short};
use crate::procedures::expanded_of;
use crate::trust::vault::DEVICE_VAULT;
use crate::{App, AppError, Inner};
use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::trust::{Role, SecretKey};
use slingseal_store::{ExamPaper, ExamPaperRow};
use slingseal_walk::exam::{self, ExamResult, Outcome, Score, Tally, Timing};
use slingseal_walk::exam::{judge_lock, judge_result};
use slingseal_words::{Digest, same_person};

/// A result that holds, with what its sheet shows.
pub(crate) struct Held {
    pub(crate) row: ExamPaperRow,
    pub(crate) result: ExamResult,
    pub(crate) instructor: String,
    pub(crate) revoked: bool,
    pub(crate) authority: String,
    pub(crate) scored: Option<(Score, Timing)>,
    /// Why the sheet cannot be relied on, where it is here and cannot.
    pub(crate) doubt: Option<String>,
}

impl App {
    /// Scores an ended run by what was planted, and signs the result as the instructor who locked the key.
    ///
    /// # Errors
    /// What is planted is known elsewhere, or was changed since it was locked; another instructor; the student is the
    /// instructor; a run that was scored; a wrong PIN.
    pub fn exam_score(&self, run: &str, pin: &str) -> Result<ExamResultView, AppError> {
        // What can be told without the PIN is told first: it costs no try.
        if let Scoring::Known(view) = self.lock().exam_to_score(run)? {
            return Ok(*view);
        }
        let key = self.open_key(DEVICE_VAULT, pin)?;
        self.lock().exam_score(run, &key)
    }

    /// Every result that is known here, the last begun first.
    ///
    /// # Errors
    /// Storage.
    pub fn exam_results(&self) -> Result<Vec<ExamResultLine>, AppError> {
        let inner = self.lock();
        let (held, _) = inner.held_results()?;
        let mut lines = result_lines(&held);
        lines.sort_by(|a, b| b.began.unix.cmp(&a.began.unix).then(a.result.cmp(&b.result)));
        Ok(lines)
    }

    /// A result, by the first digits of its digest.
    ///
    /// # Errors
    /// No such result, or one that does not hold.
    pub fn exam_result(&self, result: &str) -> Result<ExamResultView, AppError> {
        let inner = self.lock();
        let row =
            one_of(inner.store.read().exam_papers(ExamPaper::Result)?, result, Kind::ExamResult.saying())?;
        inner.result_view(&row)
    }
}

/// A run that is to be scored: what would be signed, or the result that stands already.
enum Scoring {
    ToBeSigned { result: Box<ExamResult>, credential: Vec<u8>, lock: Vec<u8> },
    Known(Box<ExamResultView>),
}

impl Inner {
    fn exam_to_score(&mut self, run: &str) -> Result<Scoring, AppError> {
        let row = self.sheet_row(run)?;
        let judged = self.judged_sheet(&row)?;
        let (lock, locker) = judge_lock(&self.trusted()?, &judged.sheet.lock)?;
        let instructor = locker.credential.holder.to_string();
        let secret = self.exam_secret(&row.key, &lock)?.ok_or_else(|| elsewhere(&instructor))?;
        for known in self.store.read().exam_papers_of(row.key, ExamPaper::Result)? {
            let (known_result, _) = ExamResult::open(&known.bytes)?;
            if known_result.sheet == row.digest {
                return Ok(Scoring::Known(Box::new(self.result_view(&known)?)));
            }
            if same_person(&known_result.student, &judged.sheet.student)
                && known_result.tally.outcome != Outcome::Unclear
            {
                return Err(AppError::refused(words::ResultKeySecondRunAfter {
                    student: &judged.sheet.student,
                }));
            }
        }
        let score = exam::score(&lock, &secret.list, &secret.salt, &judged.walk, &judged.timing)?;
        let (signer, credential) = self.credential_for(Some(Role::Instructor))?;
        if !same_person(&signer.credential.holder, &locker.credential.holder) {
            return Err(AppError::refused(words::LockedKeyHoldsCredentialOne {
                instructor: &instructor,
                holder: &signer.credential.holder,
            }));
        }
        let now = self.now();
        let result = ExamResult {
            student: judged.sheet.student.clone(),
            issued: now,
            load: lock.load.clone(),
            procedure: lock.procedure.clone(),
            version: lock.version,
            key: row.key,
            sheet: row.digest,
            began: judged.timing.began,
            standard: lock.standard,
            tally: Tally::of(&score, &judged.timing),
            salt: secret.salt,
            planted: secret.list,
        };
        Ok(Scoring::ToBeSigned { result: Box::new(result), credential, lock: judged.sheet.lock })
    }

    /// Everything is judged again: time passed while the PIN was stretched.
    fn exam_score(&mut self, run: &str, key: &SecretKey) -> Result<ExamResultView, AppError> {
        let (result, credential, lock) = match self.exam_to_score(run)? {
            Scoring::Known(view) => return Ok(*view),
            Scoring::ToBeSigned { result, credential, lock } => (result, credential, lock),
        };
        let now = result.issued;
        let unsigned = result.prepare(&credential);
        let bytes = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        // Reads its own writing back: what another device would refuse must not stand in the account.
        let (result, ..) = judge_result(&self.trusted()?, &lock, &bytes)?;
        self.store.write(|tx| put_result(tx, &result, &bytes, now).map(drop))?;
        let row = self.store.read().exam_paper(Digest::of(&bytes))?;
        self.result_view(&row.ok_or_else(|| AppError::internal("a result that was kept is there"))?)
    }

    /// A result with what its sheet shows.
    pub(crate) fn held(&self, row: &ExamPaperRow) -> Result<Held, AppError> {
        let read = self.store.read();
        let trusted = self.trusted()?;
        let lock = read.exam_paper(row.key)?.filter(|lock| lock.kind == ExamPaper::Key);
        let lock = lock.ok_or_else(|| AppError::not_found(words::KeyExaminationResultKnownScan))?;
        let (result, lock, signer) = judge_result(&trusted, &lock.bytes, &row.bytes)?;
        let authority = trusted.authority(&signer.authority).map(|authority| authority.name.to_string());
        let (mut scored, mut doubt) = (None, None);
        if let Some(sheet) = read.exam_paper(result.sheet)? {
            let shown = self.judged_sheet(&sheet).and_then(|judged| {
                if Digest::of(&judged.sheet.lock) != result.key {
                    return Err(exam::ExamError::OtherKey { what: "run" }.into());
                }
                let score = exam::score(&lock, &result.planted, &result.salt, &judged.walk, &judged.timing)?;
                result.agrees(&judged.sheet.student, &score, &judged.timing)?;
                Ok((score, judged.timing))
            });
            match shown {
                Ok(shown) => scored = Some(shown),
                Err(error) => doubt = Some(error.say(self.language())),
            }
        }
        Ok(Held {
            row: row.clone(),
            instructor: signer.credential.holder.to_string(),
            revoked: trusted.revoked(&signer),
            authority: authority.unwrap_or_default(),
            result,
            scored,
            doubt,
        })
    }

    /// Every result that holds, and what does not, one line each.
    pub(crate) fn held_results(&self) -> Result<(Vec<Held>, Vec<String>), AppError> {
        let (mut held, mut warnings) = (Vec::new(), Vec::new());
        for row in self.store.read().exam_papers(ExamPaper::Result)? {
            match self.held(&row) {
                Ok(one) => held.push(one),
                Err(error) => {
                    let (result, student, load) = (row.digest.short(), &row.student, &row.load);
                    let said = exam_words::ResultDoesNotCount { result, student, load, error };
                    warnings.push(said.say(self.language()));
                }
            }
        }
        Ok((held, warnings))
    }

    /// The how-manieth of its student on its load a result is.
    fn attempt_of(&self, result: &ExamResult) -> Result<u32, AppError> {
        let all = self.store.read().exam_papers(ExamPaper::Result)?;
        let theirs: Vec<ExamResult> = all
            .iter()
            .filter_map(|row| ExamResult::open(&row.bytes).ok().map(|(result, _)| result))
            .filter(|other| same_person(&other.student, &result.student) && other.load == result.load)
            .collect();
        let place = theirs.iter().position(|other| other == result);
        let attempt = exam::attempts(&theirs).into_iter().find(|attempt| Some(attempt.place) == place);
        Ok(attempt.map_or(1, |attempt| attempt.number))
    }

    fn result_view(&self, row: &ExamPaperRow) -> Result<ExamResultView, AppError> {
        let held = self.held(row)?;
        let line = line_of(&held, self.attempt_of(&held.result)?);
        let lock = self.store.read().exam_paper(held.result.key)?;
        let trusted = self.trusted()?;
        let lock = lock.map(|row| judge_lock(&trusted, &row.bytes)).transpose()?;
        let plan = lock.and_then(|(lock, _)| {
            expanded_of(&self.store.read(), &lock.procedure_digest, self.language()).ok()
        });
        let mut warnings = Vec::new();
        warnings.extend(held.doubt.clone());
        if held.revoked {
            warnings.push(exam_words::InstructorRevoked { holder: &held.instructor }.say(self.language()));
        }
        if held.result.tally.jumps > 0 {
            let said = exam_words::ClockJumpedInRun { count: held.result.tally.jumps };
            warnings.push(said.say(self.language()));
        }
        if held.scored.is_none() && held.doubt.is_none() {
            warnings.push(exam_words::NoDebriefWithoutSheet.say(self.language()));
        }
        let debrief = held.scored.as_ref().zip(plan.as_ref());
        Ok(ExamResultView {
            what: exam_words::ResultIsTraining.say(self.language()),
            line,
            text: wrap(Kind::ExamResult, &row.bytes),
            title: plan.as_ref().map(|plan| plan.title.clone()),
            authority: held.authority.clone(),
            standard: self.standard_view(held.result.standard),
            reasons: reasons(&held.result, self.language()),
            planted: planted_views(&held.result.planted, plan.as_ref()),
            debrief: debrief.map(|((score, timing), plan)| {
                debrief_view(score, timing, plan, &held.result, self.language())
            }),
            warnings,
        })
    }
}

/// One line a result, in the order of students, loads and attempts.
pub(crate) fn result_lines(held: &[Held]) -> Vec<ExamResultLine> {
    let results: Vec<ExamResult> = held.iter().map(|one| one.result.clone()).collect();
    exam::attempts(&results)
        .into_iter()
        .filter_map(|attempt| held.get(attempt.place).map(|one| line_of(one, attempt.number)))
        .collect()
}

fn line_of(held: &Held, attempt: u32) -> ExamResultLine {
    let (result, tally) = (&held.result, &held.result.tally);
    ExamResultLine {
        result: held.row.digest.to_string(),
        key: short(&result.key),
        student: result.student.to_string(),
        instructor: held.instructor.clone(),
        load: result.load.to_string(),
        procedure: format!("{} {}", result.procedure, result.version),
        attempt,
        outcome: tally.outcome,
        found: tally.found.into(),
        of: result.standard.planted().into(),
        false_calls: tally.false_calls.into(),
        seconds: small(tally.seconds),
        clock_jumps: tally.jumps.into(),
        began: result.began.into(),
    }
}
