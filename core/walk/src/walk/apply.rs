//! Events in, the next state out. What `decide` could not have given is refused: a kept record is evidence.

use crate::procedure::{CardNo, Fate};
use slingseal_words::{PointId, Time};

use super::OTHER;
use super::event::{Again, Event, Outcome, What};
use super::judge::{judge, plain_good};
use super::state::{
    Answer, At, ClockJump, Finding, FindingBefore, FindingState, FoldError, Look, Stage, Step, Walk,
};

/// Told as the number of the event by `fold`.
const OUT_OF_PLACE: FoldError = FoldError::OutOfPlace { number: 1 };

impl Walk {
    /// Takes in one event. On an error the walk is as it was.
    ///
    /// # Errors
    /// An event of another load, or one that cannot follow.
    pub fn apply(&mut self, event: &Event) -> Result<(), FoldError> {
        let at = event.at;
        self.take(&event.what, at)?;
        self.last = Some(at);
        self.latest = Some(self.latest.map_or(at, |latest| latest.max(at)));
        Ok(())
    }

    fn take(&mut self, what: &What, at: Time) -> Result<(), FoldError> {
        match (&self.stage, what) {
            (Stage::Ready, What::Begun { .. }) => return self.took_begun(what, at),
            (Stage::Paused { .. }, What::Resumed {}) => self.stage = Stage::Walking,
            (Stage::Walking | Stage::Paused { .. }, What::ClockJumped { from, to }) => {
                self.jumps.push(ClockJump { from: *from, to: *to });
            }
            (Stage::Walking | Stage::Paused { .. }, What::Abandoned { reason }) => {
                self.stage = Stage::Abandoned { reason: reason.clone(), at };
            }
            (Stage::Walking, What::TagFaultFound { fault }) => self.tag_faults.push(fault.clone()),
            (Stage::Walking, What::CardGood { card }) => return self.took_card_good(*card, at),
            (Stage::Walking, What::Answered { .. }) => return self.took_answered(what, at),
            (Stage::Walking, What::DeficiencyFound { .. }) => return self.took_deficiency(what, at),
            (Stage::Walking, What::PieceRejected { finding, serial }) => {
                let known = self.finding_mut(*finding).ok_or(OUT_OF_PLACE)?;
                if known.fate != Fate::Reject {
                    return Err(OUT_OF_PLACE);
                }
                known.piece = Some(serial.clone());
            }
            (Stage::Walking, What::PutRight { .. }) => return self.took_put_right(what, at),
            (Stage::Walking, What::LookedAgain { .. }) => return self.took_looked_again(what, at),
            (Stage::Walking, What::Undone { answer }) => return self.took_undone(*answer),
            (Stage::Walking, What::WentTo { card }) => {
                self.ground.plan.card(*card).ok_or(OUT_OF_PLACE)?;
                self.at = At::Card(*card);
            }
            (Stage::Walking, What::RiggingAssessed { finding }) => self.rigging = Some(finding.clone()),
            (Stage::Walking, What::Paused {}) => self.stage = Stage::Paused { since: at },
            (Stage::Walking, What::Decided { outcome, reason }) => {
                if *outcome == Outcome::Fit && !self.blocks_fit(at).is_empty() {
                    return Err(OUT_OF_PLACE);
                }
                self.stage = Stage::Decided { outcome: *outcome, reason: reason.clone(), at };
            }
            (Stage::Decided { .. }, What::DecisionTakenBack {}) => self.stage = Stage::Walking,
            // The clock may have jumped while the decision waited for its PIN.
            (Stage::Decided { .. }, What::ClockJumped { from, to }) => {
                self.jumps.push(ClockJump { from: *from, to: *to });
            }
            _ => return Err(OUT_OF_PLACE),
        }
        Ok(())
    }

    fn took_begun(&mut self, what: &What, at: Time) -> Result<(), FoldError> {
        let What::Begun { load, tag, procedure, version, procedure_digest, inspector, rules } = what else {
            return Err(OUT_OF_PLACE);
        };
        let (plan, facts) = (&self.ground.plan, &self.ground.facts);
        for (same, what) in [
            (*load == facts.load, "load"),
            (*tag == facts.tag, "tag"),
            (*procedure == plan.id && facts.procedure == plan.id, "procedure"),
            (*version == plan.version && *procedure_digest == plan.digest, "edition of the procedure"),
            (*inspector == self.ground.inspector, "inspector"),
        ] {
            if !same {
                return Err(FoldError::OtherGround { what });
            }
        }
        if facts.rigged_by(inspector) {
            return Err(OUT_OF_PLACE);
        }
        self.rules = *rules;
        self.stage = Stage::Walking;
        self.began = Some(at);
        Ok(())
    }

    fn took_card_good(&mut self, card: CardNo, at: Time) -> Result<(), FoldError> {
        self.stands_at(card)?;
        let mut good = Vec::new();
        for (place, point) in self.points_left(card) {
            let value = plain_good(point, &self.ground.facts, self.rules).map_err(|_| OUT_OF_PLACE)?;
            good.push((place, Answer { value, at }));
        }
        self.step(card, FindingBefore::Untouched)?;
        for (place, answer) in good {
            self.put_answer(card, place, Some(answer));
        }
        self.at = self.next_after(card);
        Ok(())
    }

    fn took_answered(&mut self, what: &What, at: Time) -> Result<(), FoldError> {
        let What::Answered { card, point, value, deficiency } = what else { return Err(OUT_OF_PLACE) };
        self.stands_at(*card)?;
        let (place, shape) = self.place_of(*card, point)?;
        let judged = judge(shape, value, &self.ground.facts, self.rules).map_err(|_| OUT_OF_PLACE)?;
        if self.unclosed_at(point).is_some() || judged != *deficiency {
            return Err(OUT_OF_PLACE);
        }
        match deficiency {
            None => {
                self.step(*card, FindingBefore::Untouched)?;
                self.put_answer(*card, place, Some(Answer { value: Some(value.clone()), at }));
            }
            Some(name) => {
                let mut found = self.new_finding(*card, point, name, at)?;
                found.value = Some(value.clone());
                self.add_finding(place, found)?;
            }
        }
        Ok(())
    }

    fn took_deficiency(&mut self, what: &What, at: Time) -> Result<(), FoldError> {
        let What::DeficiencyFound { card, point, name, note, photos } = what else {
            return Err(OUT_OF_PLACE);
        };
        self.stands_at(*card)?;
        let (place, _) = self.place_of(*card, point)?;
        let mut found = self.new_finding(*card, point, name, at)?;
        found.note = note.clone();
        found.photos = photos.clone();
        self.add_finding(place, found)
    }

    fn new_finding(&self, card: CardNo, point: &PointId, name: &str, at: Time) -> Result<Finding, FoldError> {
        let (_, shape) = self.place_of(card, point)?;
        let fate = match shape.deficiencies.iter().find(|known| known.name == name) {
            Some(known) => known.fate,
            None if name == OTHER => Fate::InPlace,
            None => return Err(OUT_OF_PLACE),
        };
        Ok(Finding {
            number: super::FindingNo(self.findings_given.saturating_add(1)),
            card,
            point: point.clone(),
            name: name.to_owned(),
            fate,
            piece: None,
            value: None,
            note: None,
            photos: Vec::new(),
            found: at,
            looks: Vec::new(),
            state: FindingState::Open,
        })
    }

    fn add_finding(&mut self, place: usize, found: Finding) -> Result<(), FoldError> {
        self.step(found.card, FindingBefore::Added)?;
        self.findings_given = found.number.0;
        // A point that was good is not good any more.
        self.put_answer(found.card, place, None);
        self.findings.push(found);
        Ok(())
    }

    fn took_put_right(&mut self, what: &What, at: Time) -> Result<(), FoldError> {
        let What::PutRight { finding, by, note, photos } = what else { return Err(OUT_OF_PLACE) };
        let before = self.finding(*finding).cloned().ok_or(OUT_OF_PLACE)?;
        if before.state != FindingState::Open || !before.in_place() {
            return Err(OUT_OF_PLACE);
        }
        let (card, point) = (before.card, before.point.clone());
        let (place, shape) = self.place_of(card, &point)?;
        let again_card = shape.rules.again_card;
        self.step(before.card, FindingBefore::Was(Box::new(before)))?;
        let known = self.finding_mut(*finding).ok_or(OUT_OF_PLACE)?;
        known.state = FindingState::PutRight;
        known.looks.push(Look::PutRight { at, by: by.clone(), note: note.clone(), photos: photos.clone() });
        if again_card {
            // Hands were on the whole card: what was good before the correction is not known to be good any more.
            let points = self.cards.get(card.place()).map_or(0, Vec::len);
            (0..points).filter(|other| *other != place).for_each(|other| self.put_answer(card, other, None));
        }
        Ok(())
    }

    fn took_looked_again(&mut self, what: &What, at: Time) -> Result<(), FoldError> {
        let What::LookedAgain { finding, again, value, note, photos } = what else {
            return Err(OUT_OF_PLACE);
        };
        let before = self.finding(*finding).cloned().ok_or(OUT_OF_PLACE)?;
        if before.state != FindingState::PutRight {
            return Err(OUT_OF_PLACE);
        }
        let card = before.card;
        let (place, shape) = self.place_of(card, &before.point)?;
        let again_card = shape.rules.again_card;
        let answer = match (again, value) {
            (Again::StillDeficient, _) => None,
            (Again::Good, Some(value)) => match judge(shape, value, &self.ground.facts, self.rules) {
                Ok(None) => Some(Some(value.clone())),
                _ => return Err(OUT_OF_PLACE),
            },
            (Again::Good, None) => {
                Some(plain_good(shape, &self.ground.facts, self.rules).map_err(|_| OUT_OF_PLACE)?)
            }
        };
        self.step(card, FindingBefore::Was(Box::new(before)))?;
        let known = self.finding_mut(*finding).ok_or(OUT_OF_PLACE)?;
        known.looks.push(Look::Again {
            at,
            again: *again,
            value: value.clone(),
            note: note.clone(),
            photos: photos.clone(),
        });
        known.state = match again {
            Again::Good => FindingState::Closed,
            Again::StillDeficient => FindingState::Open,
        };
        if let Some(value) = answer {
            self.put_answer(card, place, Some(Answer { value, at }));
        }
        if again_card && !self.points_left(card).is_empty() {
            self.at = At::Card(card);
        }
        Ok(())
    }

    fn took_undone(&mut self, answer: u32) -> Result<(), FoldError> {
        let step = self.steps.pop_if(|step| step.number == answer).ok_or(OUT_OF_PLACE)?;
        if let Some(answers) = self.cards.get_mut(step.place) {
            *answers = step.answers;
        }
        match step.finding {
            FindingBefore::Untouched => {}
            FindingBefore::Added => {
                self.findings.pop();
            }
            FindingBefore::Was(before) => {
                if let Some(known) = self.finding_mut(before.number) {
                    *known = *before;
                }
            }
        }
        self.at = step.at;
        Ok(())
    }

    fn stands_at(&self, card: CardNo) -> Result<(), FoldError> {
        if self.at == At::Card(card) && self.ground.plan.card(card).is_some() {
            Ok(())
        } else {
            Err(OUT_OF_PLACE)
        }
    }

    fn place_of(
        &self,
        card: CardNo,
        point: &PointId,
    ) -> Result<(usize, &crate::procedure::Point), FoldError> {
        let card = self.ground.plan.card(card).ok_or(OUT_OF_PLACE)?;
        let here = |(_, known): &(usize, &crate::procedure::Point)| {
            known.id == *point && self.ground.facts.counts(known)
        };
        card.points.iter().enumerate().find(here).ok_or(OUT_OF_PLACE)
    }

    /// Keeps what an undo of the coming answer brings back.
    fn step(&mut self, card: CardNo, finding: FindingBefore) -> Result<(), FoldError> {
        let answers = self.cards.get(card.place()).cloned().ok_or(OUT_OF_PLACE)?;
        self.answers_given = self.answers_given.saturating_add(1);
        self.steps.push(Step {
            number: self.answers_given,
            at: self.at,
            place: card.place(),
            answers,
            finding,
        });
        Ok(())
    }

    fn put_answer(&mut self, card: CardNo, place: usize, answer: Option<Answer>) {
        if let Some(slot) = self.cards.get_mut(card.place()).and_then(|answers| answers.get_mut(place)) {
            *slot = answer;
        }
    }
}
