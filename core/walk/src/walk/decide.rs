//! Commands in, events or a refusal out.

use crate::procedure::{Card, CardNo, Fate, Kind, Point};
use slingseal_catalogue::{Saying, walk as words};
use slingseal_words::{CallSign, PointId, Time, same_person};

use super::command::{Command, Sighting};
use super::event::{Again, Event, FindingNo, Outcome, Rules, Value, What};
use super::judge::{judge, plain_good};
use super::refusal::Refusal;
use super::state::{At, Finding, FindingState, Stage, Walk};
use super::{LONGEST_SILENCE, MOST_PHOTOS, OTHER};

impl Walk {
    /// What a command does at `now`: one or more events, to be kept and then applied in order; or why it is not done.
    ///
    /// # Errors
    /// A refusal changes nothing.
    pub fn decide(&self, command: Command, now: Time) -> Result<Vec<Event>, Refusal> {
        let done = self.allowed(command, now)?;
        let jump = self.clock_jump(now);
        Ok(jump.into_iter().chain(done).map(|what| Event { at: now, what }).collect())
    }

    fn allowed(&self, command: Command, now: Time) -> Result<Vec<What>, Refusal> {
        match (&self.stage, &command) {
            (Stage::Ready, Command::Begin) => return self.begin(now),
            (Stage::Ready, _) => return Err(Refusal::NotBegun),
            (Stage::Decided { .. }, Command::TakeBackDecision { by }) => {
                self.inspector_only(by)?;
                return Ok(vec![What::DecisionTakenBack {}]);
            }
            (Stage::Decided { outcome, at, .. }, _) => {
                return Err(Refusal::Ended { how: ended(*outcome, *at) });
            }
            (Stage::Abandoned { at, .. }, _) => {
                return Err(Refusal::Ended { how: words::EndedStopped { at: at.dtg() }.into() });
            }
            (_, Command::Begin) => return Err(Refusal::BegunAlready),
            (Stage::Paused { .. }, Command::Resume { by }) => {
                self.inspector_only(by)?;
                return Ok(vec![What::Resumed {}]);
            }
            (Stage::Paused { .. }, Command::Abandon { .. }) => {}
            (Stage::Paused { .. }, _) => return Err(Refusal::Paused),
            (Stage::Walking, Command::Resume { .. }) => return Err(Refusal::NotPaused),
            (Stage::Walking, _) => {}
        }
        let mut rejected = None;
        let one = match command {
            // Both are answered above for every stage.
            Command::Begin | Command::Resume { .. } => return Err(Refusal::NotPaused),
            Command::CardGood { card } => self.card_good(card)?,
            Command::Answer { card, point, value } => {
                let answered = self.answer(card, point, value)?;
                if let What::Answered { card, point, deficiency: Some(name), .. } = &answered {
                    rejected = self.piece_rejected(*card, point, name);
                }
                answered
            }
            Command::FindDeficiency { card, point, name, sighting } => {
                rejected = self.piece_rejected(card, &point, &name);
                self.find(card, point, name, sighting)?
            }
            Command::RejectPiece { finding, serial } => {
                let known = self.finding_of(finding)?;
                if known.fate != Fate::Reject || known.state == FindingState::Closed {
                    return Err(Refusal::RejectsNothing { finding });
                }
                What::PieceRejected { finding, serial }
            }
            Command::KnowFault { fault } => What::TagFaultFound { fault },
            Command::PutRight { finding, by, sighting } => self.put_right(finding, by, sighting)?,
            Command::LookAgain { finding, by, again, value, sighting } => {
                self.inspector_only(&by)?;
                self.look_again(finding, again, value, sighting)?
            }
            Command::Undo { answer } => self.undo(answer)?,
            Command::GoTo { card } => {
                self.shape_of(card)?;
                What::WentTo { card }
            }
            Command::AssessRigging { finding } => What::RiggingAssessed { finding },
            Command::Pause => What::Paused {},
            Command::Abandon { reason } => What::Abandoned { reason },
            Command::Decide { by, outcome, reason } => {
                self.inspector_only(&by)?;
                return self.decision(outcome, reason, now);
            }
            Command::TakeBackDecision { .. } => return Err(Refusal::NotDecided),
        };
        Ok(std::iter::once(one).chain(rejected).collect())
    }

    /// The piece that a deficiency rejects, where it is plain: the one that was read in this walk, or the only one of its
    /// kind on the tag. Otherwise it is asked for.
    fn piece_rejected(&self, card: CardNo, point: &PointId, name: &str) -> Option<What> {
        let shape = self.ground.plan.card(card)?.point(point)?;
        let known = shape.deficiencies.iter().find(|known| known.name == name)?;
        let kind = shape.rules.piece.as_deref().filter(|_| known.fate == Fate::Reject)?;
        let read = self.serial_read(kind);
        let (facts, subject) = (&self.ground.facts, self.ground.plan.subject);
        let serial = read.or_else(|| facts.only_piece_of(kind, subject)).cloned()?;
        let finding = FindingNo(self.findings_given.saturating_add(1));
        Some(What::PieceRejected { finding, serial })
    }

    /// The serial number that was read for a kind of equipment, the last one.
    fn serial_read(&self, wanted: &str) -> Option<&slingseal_words::Serial> {
        let answers = self.ground.plan.cards.iter().zip(&self.cards);
        let answers = answers.flat_map(|(card, answers)| card.points.iter().zip(answers));
        let mut read =
            answers.filter_map(|(point, answer)| match (&point.kind, answer.as_ref()?.value.as_ref()?) {
                (Kind::Serial { equipment: Some(kind), .. }, Value::Serial(serial)) if kind == wanted => {
                    Some(serial)
                }
                _ => None,
            });
        read.next_back()
    }

    /// A jump is told once: what follows is measured from where the clock jumped to.
    fn clock_jump(&self, now: Time) -> Option<What> {
        let last = self.last?;
        let paused = matches!(self.stage, Stage::Paused { .. });
        let back = now < last;
        let forward = !paused && now.since(last) > LONGEST_SILENCE;
        (back || forward).then_some(What::ClockJumped { from: last, to: now })
    }

    fn begin(&self, now: Time) -> Result<Vec<What>, Refusal> {
        let (plan, facts) = (&self.ground.plan, &self.ground.facts);
        if facts.procedure != plan.id {
            return Err(Refusal::OtherProcedure { tag: facts.procedure.clone(), procedure: plan.id.clone() });
        }
        if facts.rigged_by(&self.ground.inspector) {
            return Err(Refusal::InspectorIsRigger { inspector: self.ground.inspector.clone() });
        }
        let begun = What::Begun {
            load: facts.load.clone(),
            tag: facts.tag,
            procedure: plan.id.clone(),
            version: plan.version,
            procedure_digest: plan.digest,
            inspector: self.ground.inspector.clone(),
            rules: Rules::NOW,
        };
        let faults = facts.faults(now, plan).into_iter().map(|fault| What::TagFaultFound { fault });
        Ok(std::iter::once(begun).chain(faults).collect())
    }

    fn inspector_only(&self, by: &CallSign) -> Result<(), Refusal> {
        if same_person(by, &self.ground.inspector) {
            return Ok(());
        }
        Err(Refusal::NotTheInspector { by: by.clone(), inspector: self.ground.inspector.clone() })
    }

    fn shape_of(&self, card: CardNo) -> Result<&Card, Refusal> {
        let last = CardNo::at_place(self.ground.plan.cards.len().saturating_sub(1));
        self.ground.plan.card(card).ok_or(Refusal::NoSuchCard { card, last })
    }

    /// The card, if it is the one that the walk stands at.
    fn current(&self, card: CardNo) -> Result<&Card, Refusal> {
        if self.at != At::Card(card) {
            return Err(Refusal::NotThisCard { pressed: card, current: self.at });
        }
        self.shape_of(card)
    }

    fn point_of<'c>(&self, card: &'c Card, point: &PointId) -> Result<&'c Point, Refusal> {
        let counts = |point: &&Point| self.ground.facts.counts(point);
        card.point(point)
            .filter(counts)
            .ok_or_else(|| Refusal::NotOnThisCard { card: card.number, point: point.clone() })
    }

    fn finding_of(&self, number: FindingNo) -> Result<&Finding, Refusal> {
        self.finding(number).ok_or(Refusal::NoSuchFinding { finding: number })
    }

    fn card_good(&self, card: CardNo) -> Result<What, Refusal> {
        self.current(card)?;
        for (_, point) in self.points_left(card) {
            plain_good(point, &self.ground.facts, Rules::NOW)?;
        }
        Ok(What::CardGood { card })
    }

    fn answer(&self, card: CardNo, point: PointId, value: Value) -> Result<What, Refusal> {
        let shape = self.point_of(self.current(card)?, &point)?;
        if let Some(open) = self.unclosed_at(&point) {
            return Err(Refusal::OpenHere { finding: open.number });
        }
        let deficiency = judge(shape, &value, &self.ground.facts, Rules::NOW)?;
        Ok(What::Answered { card, point, value, deficiency })
    }

    fn find(&self, card: CardNo, point: PointId, name: String, sighting: Sighting) -> Result<What, Refusal> {
        let shape = self.point_of(self.current(card)?, &point)?;
        if name == OTHER {
            if sighting.note.is_none() {
                return Err(Refusal::NoteNeeded);
            }
        } else if !shape.deficiencies.iter().any(|known| known.name == name) {
            return Err(Refusal::NoSuchDeficiency { point, name });
        }
        let same = |known: &&Finding| {
            known.point == point && known.name == name && known.state != FindingState::Closed
        };
        if let Some(open) = self.findings.iter().find(same).filter(|_| name != OTHER) {
            return Err(Refusal::OpenAlready { finding: open.number });
        }
        few_photos(&sighting)?;
        Ok(What::DeficiencyFound { card, point, name, note: sighting.note, photos: sighting.photos })
    }

    fn put_right(
        &self,
        number: FindingNo,
        by: Option<CallSign>,
        sighting: Sighting,
    ) -> Result<What, Refusal> {
        let finding = self.finding_of(number)?;
        match finding.state {
            FindingState::Closed => return Err(Refusal::ClosedAlready { finding: number }),
            FindingState::PutRight => return Err(Refusal::PutRightAlready { finding: number }),
            FindingState::Open if !finding.in_place() => {
                return Err(Refusal::NotInPlace { name: finding.name.clone(), fate: finding.fate });
            }
            FindingState::Open => {}
        }
        few_photos(&sighting)?;
        Ok(What::PutRight { finding: number, by, note: sighting.note, photos: sighting.photos })
    }

    fn look_again(
        &self,
        number: FindingNo,
        again: Again,
        value: Option<Value>,
        sighting: Sighting,
    ) -> Result<What, Refusal> {
        let finding = self.finding_of(number)?;
        match finding.state {
            FindingState::Closed => return Err(Refusal::ClosedAlready { finding: number }),
            FindingState::Open => return Err(Refusal::NotPutRight { finding: number }),
            FindingState::PutRight => {}
        }
        let shape = self.point_of(self.shape_of(finding.card)?, &finding.point)?;
        let shown = match &value {
            Some(value) => judge(shape, value, &self.ground.facts, Rules::NOW)?,
            None => None,
        };
        if again == Again::Good {
            if shown.is_some() {
                return Err(Refusal::StillDeficient);
            }
            if value.is_none() {
                plain_good(shape, &self.ground.facts, Rules::NOW)?;
            }
        }
        few_photos(&sighting)?;
        let Sighting { note, photos } = sighting;
        Ok(What::LookedAgain { finding: number, again, value, note, photos })
    }

    fn undo(&self, answer: u32) -> Result<What, Refusal> {
        match self.last_answer() {
            None => Err(Refusal::NothingToUndo),
            Some(last) if last != answer => Err(Refusal::NotTheLastAnswer { pressed: answer, last }),
            Some(_) => Ok(What::Undone { answer }),
        }
    }

    fn decision(
        &self,
        outcome: Outcome,
        reason: Option<slingseal_words::Note>,
        now: Time,
    ) -> Result<Vec<What>, Refusal> {
        let blocks = self.blocks_fit(now);
        match outcome {
            Outcome::Fit if !blocks.is_empty() => return Err(Refusal::NotFit { blocks }),
            Outcome::NotFit if reason.is_none() && !self.says_why_not(now) => {
                return Err(Refusal::ReasonNeeded);
            }
            _ => {}
        }
        // What fell due on the way goes on the record before the decision that it explains.
        let new = self.faults_of_tag(now).into_iter().filter(|fault| !self.tag_faults.contains(fault));
        let faults = new.map(|fault| What::TagFaultFound { fault });
        Ok(faults.chain([What::Decided { outcome, reason }]).collect())
    }
}

fn few_photos(sighting: &Sighting) -> Result<(), Refusal> {
    let photos = sighting.photos.len();
    if photos > MOST_PHOTOS {
        return Err(Refusal::TooManyPhotos { photos, most: MOST_PHOTOS });
    }
    Ok(())
}

fn ended(outcome: Outcome, at: Time) -> Saying {
    match outcome {
        Outcome::Fit => words::EndedFit { at: at.dtg() }.into(),
        Outcome::NotFit => words::EndedNotFit { at: at.dtg() }.into(),
    }
}
