//! Examinations, the student's side: a walk under a lock, against a clock that nothing stops. Nothing here reads what is
//! planted; a run has no entry that a seal could be made from.

use slingseal_catalogue::exams as exam_words;
use slingseal_catalogue::refusals as words;
use std::sync::Arc;

use serde::Serialize;

use crate::exams::papers::{judge_sheet, put_sheet};
use crate::exams::short;
use crate::procedures::{expanded_of, keep_own_text};
use crate::tags::tag_bytes;
use crate::walks::entries::{events, id_text, walk_id};
use crate::walks::request::command;
use crate::walks::view::RefusedView;
use crate::{App, AppError, Inner, NextStep, Stamp, WalkRequest, WalkStage, WalkView};
use slingseal_journal::{NewEntry, WalkId};
use slingseal_message::envelope::{Limits, Reader, Writer, check};
use slingseal_message::tag::ReceivedTag;
use slingseal_store::{ExamPaper, ExamPaperRow, ExamRunRow, RunState};
use slingseal_walk::exam::judge_lock;
use slingseal_walk::exam::{self, END_OF_RUN, ExamResult, Lock, Outcome, Sheet, Timing};
use slingseal_walk::walk::{Command, Event, Ground, LoadFacts, Walk, What};
use slingseal_words::{CallSign, Digest, Note, Time, same_person};

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
    /// The walk of a run, as far as the student has come.
    pub(crate) fn walk_of_run(&self, id: WalkId) -> Result<Walk, AppError> {
        Ok(self.load_run(id)?.walk)
    }

    fn exam_begin(&mut self, begin: &ExamBegin) -> Result<RunView, AppError> {
        let student = CallSign::new(&begin.student)?;
        let key = self.exam_key_row(&begin.key)?;
        let trusted = self.trusted()?;
        let (lock, signer) = judge_lock(&trusted, &key.bytes)?;
        if trusted.revoked(&signer) {
            return Err(AppError::refused(words::CredentialRevokedAnotherInstructorMust {
                holder: &signer.credential.holder,
            }));
        }
        let now = self.now();
        exam::may_begin(&lock, &signer.credential.holder, &student, now)?;
        for row in self.store.read().exam_runs()? {
            let theirs = row.key == key.digest && same_person(&CallSign::received(&row.student)?, &student);
            if theirs && row.state == RunState::Open {
                return self.run_view(row.walk, None);
            }
        }
        self.not_run_before(&key.digest, &student)?;
        let tag = match &begin.tag {
            Some(text) => tag_bytes(text)?,
            None => {
                let known = self.store.read().tag(lock.tag)?.map(|row| row.bytes);
                known.ok_or_else(|| AppError::not_found(words::TagLoadKnownScan { load: &lock.load }))?
            }
        };
        let received = ReceivedTag::open(&tag)?;
        if received.digest != lock.tag {
            return Err(exam::ExamError::OtherTag { load: lock.load.clone() }.into());
        }
        let text = self.procedure_text(&lock.procedure)?;
        let plan = match expanded_of(&self.store.read(), &lock.procedure_digest, self.language()) {
            Ok(plan) => plan,
            Err(_) => slingseal_walk::procedure::check(&text)?.expand(self.language()),
        };
        lock.is_for(&plan)?;
        let own_text = (Digest::of(text.as_bytes()) == plan.digest).then_some(text);
        let mut id = [0; 16];
        self.outside.entropy.fill(&mut id);
        let id = WalkId(id);
        let mut body = Writer::new();
        body.array(4).bytes(&tag).bytes(plan.digest.as_bytes()).text(student.as_str()).bytes(&key.bytes);
        let body = body.into_bytes();
        let ground = Ground {
            facts: LoadFacts::of(&received.tag, received.digest),
            inspector: student.clone(),
            plan: Arc::new(plan),
        };
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
        self.keep_tag(&tag)?;
        self.store.write(|tx| -> Result<(), AppError> {
            if let Some(text) = &own_text {
                keep_own_text(tx, text)?;
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
        let theirs = |row: &ExamPaperRow| {
            CallSign::received(&row.student).is_ok_and(|name| same_person(&name, student))
        };
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
            return Err(AppError::refused(words::StudentHasRunAlready { student: &student }));
        }
        Ok(())
    }

    fn load_run(&self, id: WalkId) -> Result<Loaded, AppError> {
        let none = || AppError::not_found(words::SuchRunSeeExamRuns);
        let row = self.store.read().exam_run(id)?.ok_or_else(none)?;
        if row.state == RunState::Lost {
            return Err(AppError::not_found(words::EventsRunLostDamagedJournal));
        }
        let entries = self.store.read().entries_of(id)?;
        let ground = entries.iter().find(|entry| entry.kind == RUN).ok_or_else(none)?;
        let RunGround { tag, procedure: digest, student, lock: lock_bytes } = run_ground(&ground.body)?;
        let (lock, _) = Lock::open(lock_bytes)?;
        let received = ReceivedTag::open(tag)?;
        let ground = Ground {
            plan: Arc::new(expanded_of(&self.store.read(), &digest, self.language())?),
            facts: LoadFacts::of(&received.tag, received.digest),
            inspector: student.clone(),
        };
        let bodies: Vec<Vec<u8>> =
            entries.iter().filter(|entry| entry.kind == RUN_EVENT).map(|entry| entry.body.clone()).collect();
        let events = events(bodies.iter().map(Vec::as_slice))?;
        let (walk, timing) = exam::timing(Arc::new(ground), &events)
            .map_err(|error| AppError::StorageDamaged { message: error.saying() })?;
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
            return Ok(Some(refused(&exam_words::RunIsEnded.say(self.language()))));
        }
        let command = command(request, &run.walk)?;
        if let Err(no) = exam::allowed(&command) {
            return Ok(Some(refused(&no.saying().say(self.language()))));
        }
        let (now, jump) = self.run_clock(id, run.timing.last);
        if let Some(jump) = &jump {
            run.walk.apply(jump).map_err(AppError::internal)?;
        }
        let decided = run.walk.decide(command, now);
        let (more, no) = match decided {
            Ok(events) => (events, None),
            Err(no) => (Vec::new(), Some(RefusedView::of(&no, self.language()))),
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
            (slingseal_walk::walk::Outcome::Fit, None)
        } else {
            (slingseal_walk::walk::Outcome::NotFit, Some(Note::new(END_OF_RUN)?))
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
            tx.remove_stray(Digest::of(&bytes))?;
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
            clock: {
                let (shown, given) = (crate::clock(elapsed.0), crate::clock(within.0));
                let (english, spanish) = (format!("{shown} of {given}"), format!("{shown} de {given}"));
                self.language().pick(english, spanish)
            },
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
}

/// What a run stands on.
struct RunGround<'b> {
    tag: &'b [u8],
    procedure: Digest,
    student: CallSign,
    lock: &'b [u8],
}

/// ```cddl
/// exam-run = [tag: bstr, procedure: bstr .size 32, student: tstr, lock: bstr]
/// ```
fn run_ground(body: &[u8]) -> Result<RunGround<'_>, AppError> {
    check(body, Limits::FILE)?;
    let mut reader = Reader::new(body);
    reader.array(4, "ground of a run")?;
    Ok(RunGround {
        tag: reader.bytes("tag")?,
        procedure: Digest::from_bytes(reader.fixed("procedure")?),
        student: reader.line("student", CallSign::received)?,
        lock: reader.bytes("examination key")?,
    })
}

fn bodies(events: &[Event]) -> Result<Vec<Vec<u8>>, AppError> {
    events.iter().map(|event| serde_json::to_vec(event).map_err(AppError::internal)).collect()
}

fn refused(message: &str) -> RefusedView {
    let mut letters = message.chars();
    let first = letters.next().map(|first| first.to_uppercase().chain(letters).collect());
    RefusedView { message: first.unwrap_or_default() }
}
