//! Examinations, the student's side: a walk under a lock, against a clock that nothing stops. Nothing here reads what is
//! planted; a run has no entry that a seal could be made from.

use std::sync::Arc;

use serde::Serialize;

use super::exam::short;
use super::exam_judge::{JudgedSheet, judge_lock, judge_sheet, put_sheet};
use super::procedures::{comes_with_the_program, expanded_of, text_name};
use super::tags::tag_bytes;
use super::walk_view::RefusedView;
use super::walks::{command, events, facts, id_text, walk_id};
use super::{App, AppError, Inner, MovingCode, NextStep, Stamp, WalkRequest, WalkStage, WalkView};
use crate::envelope::{Limits, Reader, Writer, check};
use crate::exam::{self, END_OF_RUN, ExamResult, Lock, Outcome, Sheet, Timing};
use crate::store::{ExamPaper, ExamPaperRow, ExamRunRow, NewEntry, RunState, WalkId};
use crate::sync::{BundleWriter, ItemKind};
use crate::tag::ReceivedTag;
use crate::walk::{Command, Event, Ground, Walk, What, same_person};
use crate::words::{CallSign, Digest, Note, Time};

/// The journal's entry that a run stands on; an inspection's is another, so that neither passes for the other.
pub(crate) const RUN: &str = "exam-run";
/// The journal's entry of one event of a run.
const RUN_EVENT: &str = "exam-event";

/// What a student begins.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ExamBegin {
    /// The key: its code's text, or the first digits of one that is known here.
    pub key: String,
    /// The text of the tag on the load; not needed where the tag is known here.
    pub tag: Option<String>,
    /// Who is examined.
    pub student: String,
}

/// A run: the walk, the clock, and nothing of what is planted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RunView {
    /// What it goes by.
    pub run: String,
    /// The key's first digits, to be held against the instructor's clipboard.
    pub key: String,
    /// Who is examined.
    pub student: String,
    /// When it began.
    pub began: Stamp,
    /// What the clock shows; it is not paused by anything, a restart included.
    pub elapsed_s: u32,
    /// The time that the standard gives.
    pub within_s: u32,
    /// Both, to be shown: `1:05 of 2:00`.
    pub clock: String,
    /// Whether the time is over. The run goes on until it is ended.
    pub over: bool,
    /// Whether the device's clock jumped: the result will say so.
    pub clock_jumped: bool,
    /// Whether it is ended.
    pub ended: bool,
    /// What the ended run's sheet goes by.
    pub sheet: Option<String>,
    /// The walk where it stands, without statics, cautions or decision.
    pub walk: WalkView,
}

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
    /// `open`, `ended`, `scored` or `lost`.
    pub state: String,
    /// When it began.
    pub begun: Stamp,
    /// Whether what is planted is known here, so that it can be scored here.
    pub can_score: bool,
}

impl App {
    /// Begins a run, or goes on with the one in hand of that student under that key. The clock starts here.
    ///
    /// # Errors
    /// A key of no instructor who is trusted, of another tag or procedure; the student is the instructor; a clock before the
    /// lock; a student who has run under this key.
    pub fn exam_begin(&self, begin: &ExamBegin) -> Result<RunView, AppError> {
        self.lock().exam_begin(begin)
    }

    /// A run as it stands; also moves its clock. A shell asks once a second.
    ///
    /// # Errors
    /// No such run.
    pub fn exam_run(&self, run: &str) -> Result<RunView, AppError> {
        let mut inner = self.lock();
        let id = walk_id(run)?;
        inner.run_view(id, None)
    }

    /// Does what a student did. A refusal stands in the view of the walk; nothing of it is kept.
    ///
    /// # Errors
    /// No such run; a value that cannot be read; storage.
    pub fn exam_do(&self, run: &str, request: &WalkRequest) -> Result<RunView, AppError> {
        let mut inner = self.lock();
        let id = walk_id(run)?;
        let refused = inner.exam_do(id, request)?;
        inner.run_view(id, refused)
    }

    /// Ends a run, however far it is: the clock stops and its sheet is written.
    ///
    /// # Errors
    /// No such run; storage.
    pub fn exam_end(&self, run: &str) -> Result<RunView, AppError> {
        let mut inner = self.lock();
        let id = walk_id(run)?;
        inner.exam_end(id)?;
        inner.run_view(id, None)
    }

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

/// A run out of the journal.
struct Loaded {
    row: ExamRunRow,
    lock: Lock,
    lock_bytes: Vec<u8>,
    tag: Vec<u8>,
    student: CallSign,
    bodies: Vec<Vec<u8>>,
    walk: Walk,
    timing: Timing,
}

impl Inner {
    fn exam_begin(&mut self, begin: &ExamBegin) -> Result<RunView, AppError> {
        let student = CallSign::new(&begin.student)?;
        let key = self.exam_key_row(&begin.key)?;
        let trusted = self.trusted()?;
        let (lock, signer) = judge_lock(&trusted, &key.bytes)?;
        if trusted.revoked(&signer) {
            return Err(AppError::refused(format!(
                "the credential of {} is revoked; another instructor must lock a key",
                signer.credential.holder
            )));
        }
        let now = self.now();
        exam::may_begin(&lock, &signer.credential.holder, &student, now)?;
        for row in self.store.read().exam_runs()? {
            let theirs = row.key == key.digest && same_person(&CallSign::new(&row.student)?, &student);
            if theirs && row.state == RunState::Open {
                return self.run_view(row.walk, None);
            }
        }
        self.not_run_before(&key.digest, &student)?;
        let tag = match &begin.tag {
            Some(text) => tag_bytes(text)?,
            None => {
                let known = self.store.read().tag(lock.tag)?.map(|row| row.bytes);
                known.ok_or_else(|| {
                    AppError::not_found(format!("the tag of load {} is not known here; scan it", lock.load))
                })?
            }
        };
        let received = ReceivedTag::open(&tag)?;
        if received.digest != lock.tag {
            return Err(exam::ExamError::OtherTag { load: lock.load.clone() }.into());
        }
        let text = self.procedure_text(&lock.procedure)?;
        let plan = match expanded_of(&self.store.read(), &lock.procedure_digest, self.language()) {
            Ok(plan) => plan,
            Err(_) => crate::procedure::check(&text)?.expand(self.language()),
        };
        lock.is_for(&plan)?;
        let own_text = (Digest::of(text.as_bytes()) == plan.digest).then_some(text);
        let mut id = [0; 16];
        self.outside.entropy.fill(&mut id);
        let id = WalkId(id);
        let mut body = Writer::new();
        body.array(4).bytes(&tag).bytes(plan.digest.as_bytes()).text(student.as_str()).bytes(&key.bytes);
        let body = body.into_bytes();
        let ground =
            Ground { facts: facts(&received.tag, received.digest), inspector: student.clone(), plan };
        let digest = ground.plan.digest;
        let walk = Walk::new(Arc::new(ground));
        let events = walk.decide(Command::Begin, now).map_err(|no| AppError::refused(no.to_string()))?;
        let bodies = bodies(&events)?;
        let row = ExamRunRow {
            walk: id,
            key: key.digest,
            load: lock.load.to_string(),
            procedure: lock.procedure.to_string(),
            student: student.to_string(),
            state: RunState::Open,
            begun: now,
            updated: now,
        };
        self.keep_tag(&received.tag, &tag, false)?;
        self.store.write(|tx| -> Result<(), AppError> {
            if let Some(text) = &own_text {
                tx.put_setting(&text_name(&digest), text.as_bytes())?;
            }
            tx.append(NewEntry { kind: RUN, walk: Some(id), body: &body, time: now })?;
            for body in &bodies {
                tx.append(NewEntry { kind: RUN_EVENT, walk: Some(id), body, time: now })?;
            }
            tx.put_exam_run(&row)?;
            Ok(())
        })?;
        self.run_view(id, None)
    }

    /// A student who has run under a key has heard what was planted. A run whose clock jumped may be run again.
    fn not_run_before(&self, key: &Digest, student: &CallSign) -> Result<(), AppError> {
        let read = self.store.read();
        let theirs =
            |row: &ExamPaperRow| CallSign::new(&row.student).is_ok_and(|name| same_person(&name, student));
        let results = read.exam_papers_of(*key, ExamPaper::Result)?;
        let results: Vec<ExamResult> = results
            .iter()
            .filter(|row| theirs(row))
            .filter_map(|row| ExamResult::open(&row.bytes).ok().map(|(result, _)| result))
            .collect();
        let unclear = |sheet: &Digest| {
            results.iter().any(|result| result.sheet == *sheet && result.tally.outcome == Outcome::Unclear)
        };
        let sheets = read.exam_papers_of(*key, ExamPaper::Sheet)?;
        let counted = sheets.iter().any(|row| theirs(row) && !unclear(&row.digest))
            || results.iter().any(|result| result.tally.outcome != Outcome::Unclear);
        if counted {
            return Err(AppError::refused(format!(
                "{student} has run under this key already; lock a new one, with other deficiencies, for the retest"
            )));
        }
        Ok(())
    }

    fn load_run(&self, id: WalkId) -> Result<Loaded, AppError> {
        let none = || AppError::not_found("there is no such run here; see exam runs");
        let row = self.store.read().exam_run(id)?.ok_or_else(none)?;
        if row.state == RunState::Lost {
            return Err(AppError::not_found(
                "the events of this run were lost with a damaged journal; run again under a new key",
            ));
        }
        let entries = self.store.read().entries_of(id)?;
        let ground = entries.iter().find(|entry| entry.kind == RUN).ok_or_else(none)?;
        let (tag, digest, student, lock_bytes) = run_parts(&ground.body)?;
        let (lock, _) = Lock::open(lock_bytes)?;
        let received = ReceivedTag::open(tag)?;
        let ground = Ground {
            plan: expanded_of(&self.store.read(), &digest, self.language())?,
            facts: facts(&received.tag, received.digest),
            inspector: student.clone(),
        };
        let bodies: Vec<Vec<u8>> =
            entries.iter().filter(|entry| entry.kind == RUN_EVENT).map(|entry| entry.body.clone()).collect();
        let events = events(bodies.iter().map(Vec::as_slice))?;
        let (walk, timing) = exam::timing(Arc::new(ground), &events)
            .map_err(|error| AppError::StorageDamaged { message: error.to_string() })?;
        Ok(Loaded {
            row,
            lock,
            lock_bytes: lock_bytes.to_vec(),
            tag: tag.to_vec(),
            student,
            bodies,
            walk,
            timing,
        })
    }

    /// The time now, and a jump where this program has seen a later time in this run: between two answers the walk itself
    /// would not notice a clock that is set back.
    fn run_clock(&mut self, id: WalkId, last: Time) -> (Time, Option<Event>) {
        let now = self.now();
        let seen = self.seen.insert(id, now).unwrap_or(last);
        let jump = (now < seen && now >= last)
            .then_some(Event { at: now, what: What::ClockJumped { from: seen, to: now } });
        (now, jump)
    }

    fn exam_do(&mut self, id: WalkId, request: &WalkRequest) -> Result<Option<RefusedView>, AppError> {
        let mut run = self.load_run(id)?;
        if run.row.state != RunState::Open {
            return Ok(Some(refused("this run is ended; its clock has stopped")));
        }
        let command = command(request, &run.walk)?;
        if let Err(no) = exam::allowed(&command) {
            return Ok(Some(refused(&no.to_string())));
        }
        let (now, jump) = self.run_clock(id, run.timing.last);
        if let Some(jump) = &jump {
            run.walk.apply(jump).map_err(AppError::internal)?;
        }
        let decided = run.walk.decide(command, now);
        let (more, no) = match decided {
            Ok(events) => (events, None),
            Err(no) => (Vec::new(), Some(RefusedView::of(&no))),
        };
        // A jump is kept even where the answer is refused: the clock was set all the same.
        let events: Vec<Event> = jump.into_iter().chain(more).collect();
        self.append_run(&run.row, &events, now, RunState::Open, None)?;
        Ok(no)
    }

    fn exam_end(&mut self, id: WalkId) -> Result<(), AppError> {
        let mut run = self.load_run(id)?;
        if run.row.state != RunState::Open {
            return Ok(());
        }
        let (now, jump) = self.run_clock(id, run.timing.last);
        if let Some(jump) = &jump {
            run.walk.apply(jump).map_err(AppError::internal)?;
        }
        let good = run.walk.blocks_fit(now).is_empty();
        let (outcome, reason) = if good {
            (crate::walk::Outcome::Fit, None)
        } else {
            (crate::walk::Outcome::NotFit, Some(Note::new(END_OF_RUN)?))
        };
        let decide = Command::Decide { by: run.student.clone(), outcome, reason };
        let more = run.walk.decide(decide, now).map_err(|no| AppError::refused(no.to_string()))?;
        let events: Vec<Event> = jump.into_iter().chain(more).collect();
        self.append_run(&run.row, &events, now, RunState::Ended, Some(&run))?;
        self.seen.remove(&id);
        Ok(())
    }

    /// Keeps events, and with `sheet` the sheet of the run, in one transaction.
    fn append_run(
        &mut self,
        row: &ExamRunRow,
        events: &[Event],
        now: Time,
        state: RunState,
        sheet: Option<&Loaded>,
    ) -> Result<(), AppError> {
        if events.is_empty() {
            return Ok(());
        }
        let new = bodies(events)?;
        let row = ExamRunRow { state, updated: now, ..row.clone() };
        let (trusted, language, device) = (self.trusted()?, self.language(), self.store.device().0);
        self.store.write(|tx| -> Result<(), AppError> {
            for body in &new {
                tx.append(NewEntry { kind: RUN_EVENT, walk: Some(row.walk), body, time: now })?;
            }
            tx.put_exam_run(&row)?;
            let Some(run) = sheet else { return Ok(()) };
            let head = tx.head();
            let sheet = Sheet {
                lock: run.lock_bytes.clone(),
                tag: run.tag.clone(),
                student: run.student.clone(),
                device,
                walk: row.walk.0,
                head: (head.seq, head.digest),
                events: run.bodies.iter().chain(&new).cloned().collect(),
            };
            let bytes = sheet.to_bytes();
            let judged = judge_sheet(&trusted, tx, &bytes, language)?;
            put_sheet(tx, &judged, &bytes, now)?;
            Ok(())
        })
    }

    pub(crate) fn run_view(&mut self, id: WalkId, refused: Option<RefusedView>) -> Result<RunView, AppError> {
        let run = self.load_run(id)?;
        let ended = run.row.state != RunState::Open;
        if !ended {
            let (now, jump) = self.run_clock(id, run.timing.last);
            if let Some(jump) = jump {
                self.append_run(&run.row, &[jump], now, RunState::Open, None)?;
                return self.run_view(id, refused);
            }
        }
        let now = self.now();
        let elapsed = run.timing.shown(now);
        let within = run.lock.standard.within();
        let sheet = if ended {
            let rows = self.store.read().exam_papers_of(run.row.key, ExamPaper::Sheet)?;
            rows.into_iter()
                .find(|row| Sheet::parse(&row.bytes).is_ok_and(|sheet| sheet.walk == id.0))
                .map(|row| row.digest.to_string())
        } else {
            None
        };
        let small = |seconds: i64| u32::try_from(seconds).unwrap_or(0);
        Ok(RunView {
            run: id_text(id),
            key: short(&run.row.key),
            student: run.student.to_string(),
            began: run.timing.began.into(),
            elapsed_s: small(elapsed.0),
            within_s: small(within.0),
            clock: format!("{} of {}", super::exam::clock(elapsed.0), super::exam::clock(within.0)),
            over: elapsed > within,
            clock_jumped: run.timing.jumped_by(now),
            ended,
            sheet,
            walk: self.plain_walk(id, &run, ended, refused)?,
        })
    }

    /// The walk without what an inspector would be told beside the cards: the statics of the count that was just entered, what
    /// stands in the way of fit, what can be put right.
    fn plain_walk(
        &self,
        id: WalkId,
        run: &Loaded,
        ended: bool,
        refused: Option<RefusedView>,
    ) -> Result<WalkView, AppError> {
        let mut view = self.walk_view(id, &run.walk, refused)?;
        view.rigging = None;
        view.rigging_within_limits = true;
        view.link_change = None;
        view.tag_faults.clear();
        view.cautions.clear();
        view.blocks_fit.clear();
        for finding in &mut view.findings {
            finding.in_place = false;
            finding.needs_value = false;
            finding.story.clear();
        }
        view.next = match (ended, &view.card) {
            (true, _) => NextStep::Nothing,
            (false, Some(_)) => NextStep::AnswerCard,
            (false, None) => NextStep::Decide,
        };
        if ended {
            view.stage = WalkStage::Decided { fit: false };
        }
        Ok(view)
    }

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
                state: row.state.word().into(),
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
                state: if done { "scored" } else { "ended" }.into(),
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
                return Err(exam::ExamError::NotEnded.into());
            }
            let sheets = read.exam_papers_of(row.key, ExamPaper::Sheet)?;
            let of_run =
                |sheet: &ExamPaperRow| Sheet::parse(&sheet.bytes).is_ok_and(|sheet| sheet.walk == id.0);
            let none = || AppError::not_found("the sheet of this run is not here; see exam runs");
            return sheets.into_iter().find(of_run).ok_or_else(none);
        }
        super::exam::one_of(read.exam_papers(ExamPaper::Sheet)?, run, "ended run")
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
            && let Some(text) = self.store.read().setting(&text_name(&lock.procedure_digest))?
        {
            items.push((ItemKind::Procedure, text));
        }
        items.push((ItemKind::ExamSheet, row.bytes.clone()));
        Ok(items)
    }

    pub(crate) fn judged_sheet(&self, row: &ExamPaperRow) -> Result<JudgedSheet, AppError> {
        judge_sheet(&self.trusted()?, &self.store.read(), &row.bytes, self.language())
    }
}

fn run_parts(body: &[u8]) -> Result<(&[u8], Digest, CallSign, &[u8]), AppError> {
    check(body, Limits::FILE)?;
    let mut reader = Reader::new(body);
    reader.array(4, "ground of a run")?;
    let tag = reader.bytes("tag")?;
    let procedure = Digest::from_bytes(reader.fixed("procedure")?);
    let student = reader.line("student", CallSign::new)?;
    Ok((tag, procedure, student, reader.bytes("examination key")?))
}

fn bodies(events: &[Event]) -> Result<Vec<Vec<u8>>, AppError> {
    events.iter().map(|event| serde_json::to_vec(event).map_err(AppError::internal)).collect()
}

fn refused(message: &str) -> RefusedView {
    let mut letters = message.chars();
    let first = letters.next().map(|first| first.to_uppercase().chain(letters).collect());
    RefusedView { message: first.unwrap_or_default() }
}
