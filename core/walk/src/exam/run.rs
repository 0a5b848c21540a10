//! What may be done in a run, and how long it took.

use slingseal_catalogue::{exams as exam_words, faults as words};
use std::collections::BTreeMap;
use std::sync::Arc;

use super::{ExamError, Lock};
use crate::procedure::CardNo;
use crate::walk::{At, ClockJump, Command, Event, FindingNo, Ground, LONGEST_SILENCE, Stage, Walk, What};
use slingseal_words::{CallSign, Seconds, Time};

/// How far two devices' clocks may stand apart.
pub const CLOCK_SLACK: Seconds = Seconds(120);

/// What stands as the reason where a run ends with something found or not answered.
pub const END_OF_RUN: &str = "end of the run";

/// Whether a person may begin a run under a lock at `now`.
///
/// # Errors
/// The instructor; a clock that is before the lock.
pub fn may_begin(lock: &Lock, instructor: &CallSign, student: &CallSign, now: Time) -> Result<(), ExamError> {
    if slingseal_words::same_person(instructor, student) {
        return Err(ExamError::StudentIsInstructor { name: student.clone() });
    }
    let early = lock.locked.since(now);
    if early > CLOCK_SLACK {
        return Err(ExamError::BeforeTheLock { seconds: early.0 });
    }
    Ok(())
}

/// Whether a command has a place in a run: the clock cannot be paused, nothing is put right, nothing is decided.
///
/// # Errors
/// Why not.
pub fn allowed(command: &Command) -> Result<(), ExamError> {
    Err(ExamError::NotInARun(match command {
        Command::CardGood { .. }
        | Command::Answer { .. }
        | Command::FindDeficiency { .. }
        | Command::Undo { .. }
        | Command::GoTo { .. } => return Ok(()),
        Command::Pause | Command::Resume { .. } => exam_words::NotPaused.into(),
        Command::PutRight { .. } | Command::LookAgain { .. } | Command::RejectPiece { .. } => {
            exam_words::NothingCorrected.into()
        }
        Command::Abandon { .. } | Command::Decide { .. } | Command::TakeBackDecision { .. } => {
            exam_words::NotDecided.into()
        }
        Command::Begin | Command::AssessRigging { .. } | Command::KnowFault { .. } => {
            exam_words::NoPlaceInExamination.into()
        }
    }))
}

/// How long a run took, by the device's clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timing {
    /// When it began.
    pub began: Time,
    /// When the last thing happened.
    pub last: Time,
    /// Whether it is ended.
    pub ended: bool,
    /// From the beginning to the last event, without the stretches in which the clock jumped.
    pub seconds: Seconds,
    /// The jumps.
    pub jumps: Vec<ClockJump>,
    /// How long the run stood at each card.
    pub cards: BTreeMap<CardNo, Seconds>,
    /// When each finding was called, from the beginning.
    pub calls: BTreeMap<FindingNo, Seconds>,
}

impl Timing {
    /// Whether the clock has jumped, at `now` included.
    pub fn jumped_by(&self, now: Time) -> bool {
        let silent = now.since(self.last).0;
        !self.jumps.is_empty() || (!self.ended && !(0..=LONGEST_SILENCE.0).contains(&silent))
    }

    /// What the clock shows at `now`.
    pub fn shown(&self, now: Time) -> Seconds {
        let since = now.since(self.last);
        let runs = !self.ended && (0..=LONGEST_SILENCE.0).contains(&since.0);
        Seconds(self.seconds.0.saturating_add(if runs { since.0 } else { 0 }))
    }
}

/// Folds a run and times it. The time between two events belongs to the card that the run stood at. A stretch in which the
/// clock jumped, went back, or stood still for longer than any card takes counts for nothing and is told as a jump.
///
/// # Errors
/// Events that make no walk.
pub fn timing(ground: Arc<Ground>, events: &[Event]) -> Result<(Walk, Timing), ExamError> {
    let first = events.first().ok_or_else(|| ExamError::Run(words::RunHasNoBeginning.into()))?;
    let mut walk = Walk::new(ground);
    let mut timing = Timing {
        began: first.at,
        last: first.at,
        ended: false,
        seconds: Seconds(0),
        jumps: Vec::new(),
        cards: BTreeMap::new(),
        calls: BTreeMap::new(),
    };
    for event in events {
        let span = event.at.since(timing.last);
        let sound = (0..=LONGEST_SILENCE.0).contains(&span.0);
        match event.what {
            What::ClockJumped { from, to } => timing.jumps.push(ClockJump { from, to }),
            _ if sound => {
                timing.seconds.0 += span.0;
                if let At::Card(card) = walk.at() {
                    timing.cards.entry(card).or_default().0 += span.0;
                }
            }
            _ => timing.jumps.push(ClockJump { from: timing.last, to: event.at }),
        }
        timing.last = event.at;
        walk.apply(event).map_err(|error| ExamError::Run(error.into()))?;
        for finding in walk.findings() {
            timing.calls.entry(finding.number).or_insert(timing.seconds);
        }
    }
    timing.ended = matches!(walk.stage(), Stage::Decided { .. } | Stage::Abandoned { .. });
    Ok((walk, timing))
}
