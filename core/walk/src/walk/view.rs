//! What a screen asks a walk.

use std::sync::Arc;

use crate::procedure::{Card, CardNo, Kind, Point, Subject};
use slingseal_words::{PointId, Seconds, Serial, Time};

use super::event::{FindingNo, Rules, Value};
use super::facts::{Ground, RiggingFinding, TagFault};
use super::judge::{expected, plain_good};
use super::refusal::Block;
use super::state::{Answer, At, ClockJump, Finding, FindingState, Stage, Walk};

/// How a card stands, the worst first that holds of: deficient, awaits a second look, unanswered, partly, good.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardStatus {
    /// No point has an answer.
    Unanswered,
    /// Some points have one.
    Partly,
    /// Every point is good.
    Good,
    /// A deficiency is open on it.
    Deficient,
    /// What was open on it is put right and not looked at again.
    AwaitsSecondLook,
}

/// How a point stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PointStatus {
    /// No answer.
    Unanswered,
    /// Good.
    Good(Answer),
    /// A deficiency is open at it.
    Deficient(FindingNo),
    /// What was open at it is put right and not looked at again.
    AwaitsSecondLook(FindingNo),
}

/// How far the walk has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Cards whose every point has an answer or a deficiency.
    pub cards_done: usize,
    /// All cards.
    pub cards: usize,
    /// Points that have an answer or a deficiency.
    pub points_done: usize,
    /// All points.
    pub points: usize,
}

/// What was found and what became of it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Deficiencies found, on the load and on the tag.
    pub found: usize,
    /// Those put right, looked at again and good.
    pub corrected: usize,
    /// Those that are not.
    pub open: usize,
}

/// What does not stand in the way of fit, and should be known by whoever decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// The tag names no rigger, so that nobody can tell whether the inspector built the load.
    NoRiggerNamed,
    /// The tag has no allowable load, so that the mass was held against none.
    NoAllowable,
    /// The rigging's statics were not worked out.
    RiggingNotAssessed,
    /// The clock jumped during the walk.
    ClockJumped,
}

impl Walk {
    /// What the walk stands on.
    pub fn ground(&self) -> &Arc<Ground> {
        &self.ground
    }

    /// How far it has come.
    pub fn stage(&self) -> &Stage {
        &self.stage
    }

    /// Where it stands.
    pub fn at(&self) -> At {
        self.at
    }

    /// The card that it stands at; none at the decision.
    pub fn current_card(&self) -> Option<&Card> {
        match self.at {
            At::Card(card) => self.ground.plan.card(card),
            At::Decision => None,
        }
    }

    /// When it began.
    pub fn began(&self) -> Option<Time> {
        self.began
    }

    /// When the last thing happened.
    pub fn last_event(&self) -> Option<Time> {
        self.last
    }

    /// When it ended.
    pub fn ended(&self) -> Option<Time> {
        match self.stage {
            Stage::Decided { at, .. } | Stage::Abandoned { at, .. } => Some(at),
            _ => None,
        }
    }

    /// How a card stands; `Unanswered` for one that there is not.
    pub fn card_status(&self, card: CardNo) -> CardStatus {
        let on_card = |state| self.findings.iter().any(|known| known.card == card && known.state == state);
        if on_card(FindingState::Open) {
            return CardStatus::Deficient;
        }
        if on_card(FindingState::PutRight) {
            return CardStatus::AwaitsSecondLook;
        }
        let Some(shape) = self.ground.plan.card(card) else { return CardStatus::Unanswered };
        let points = self.counting(shape).count();
        match self.points_left(card).len() {
            0 => CardStatus::Good,
            left if left < points => CardStatus::Partly,
            _ => CardStatus::Unanswered,
        }
    }

    /// Whether every point of the card has an answer or a deficiency.
    pub fn card_done(&self, card: CardNo) -> bool {
        self.ground.plan.card(card).is_some() && self.points_left(card).is_empty()
    }

    /// How a point stands; `Unanswered` for one that there is not.
    pub fn point_status(&self, point: &PointId) -> PointStatus {
        if let Some(finding) = self.unclosed_at(point) {
            // An open finding comes before one that only awaits a look.
            let open = |known: &&Finding| known.point == *point && known.state == FindingState::Open;
            return match self.findings.iter().find(open) {
                Some(open) => PointStatus::Deficient(open.number),
                None => PointStatus::AwaitsSecondLook(finding.number),
            };
        }
        match self.answer_of(point) {
            Some(answer) => PointStatus::Good(answer.clone()),
            None => PointStatus::Unanswered,
        }
    }

    fn answer_of(&self, point: &PointId) -> Option<&Answer> {
        let (card, _) = self.ground.plan.point(point)?;
        let place = card.points.iter().position(|known| known.id == *point)?;
        self.cards.get(card.number.place())?.get(place)?.as_ref()
    }

    /// The points of a card that count for this load.
    pub fn counting<'c>(&'c self, card: &'c Card) -> impl Iterator<Item = &'c Point> {
        card.points.iter().filter(|point| self.ground.facts.counts(point))
    }

    /// For how long the piece that is inspected was said to be fit, where its procedure asks that.
    pub fn fit_for(&self) -> Option<Seconds> {
        let asked =
            self.ground.plan.cards.iter().flat_map(|card| &card.points).find(|point| point.rules.fit_for)?;
        let Kind::Measure { .. } = asked.kind else { return None };
        match self.answer_of(&asked.id)?.value {
            Some(Value::Measure(time)) => Some(Seconds(time.si() as i64)),
            _ => None,
        }
    }

    /// Every piece that this walk rejects, with the deficiency that says why.
    pub fn rejected_pieces(&self) -> impl Iterator<Item = (&Serial, &Finding)> {
        let open = self.findings.iter().filter(|known| known.state != FindingState::Closed);
        open.filter_map(|known| Some((known.piece.as_ref()?, known)))
    }

    /// The count that a point must have, from the procedure or the tag, if it is a count and one is known.
    pub fn expected_count(&self, point: &Point) -> Option<u32> {
        expected(point, &self.ground.facts)
    }

    /// The points of the current card that "whole card good" would be refused for: they need a value of their own.
    pub fn needing_values(&self) -> Vec<&Point> {
        let At::Card(card) = self.at else { return Vec::new() };
        let needs = |point: &&Point| plain_good(point, &self.ground.facts, Rules::NOW).is_err();
        self.points_left(card).into_iter().map(|(_, point)| point).filter(needs).collect()
    }

    /// How far the walk has come.
    pub fn progress(&self) -> Progress {
        let plan = &self.ground.plan;
        let points = plan.cards.iter().map(|card| self.counting(card).count()).sum();
        let mut progress = Progress { cards: plan.cards.len(), points, ..Progress::default() };
        for card in &plan.cards {
            let left = self.points_left(card.number).len();
            progress.points_done += self.counting(card).count().saturating_sub(left);
            progress.cards_done += usize::from(left == 0);
        }
        progress
    }

    /// Everything that was found on the load and not undone, in order.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// The finding of this number.
    pub fn finding(&self, number: FindingNo) -> Option<&Finding> {
        self.findings.iter().find(|finding| finding.number == number)
    }

    /// Findings that are open.
    pub fn open_findings(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.state == FindingState::Open)
    }

    /// Findings that are put right and not looked at again.
    pub fn awaiting_second_look(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.state == FindingState::PutRight)
    }

    /// What the tag itself shows, as it stands on the record.
    pub fn tag_faults(&self) -> &[TagFault] {
        &self.tag_faults
    }

    /// The last word on the rigging.
    pub fn rigging(&self) -> Option<&RiggingFinding> {
        self.rigging.as_ref()
    }

    /// The clock's jumps, in order.
    pub fn clock_jumps(&self) -> &[ClockJump] {
        &self.jumps
    }

    /// The number of the last answer that an undo would take back.
    pub fn last_answer(&self) -> Option<u32> {
        self.steps.last().map(|step| step.number)
    }

    /// What was found and what became of it.
    pub fn tally(&self) -> Tally {
        let closed = self.findings.iter().filter(|finding| finding.state == FindingState::Closed).count();
        let found = self.findings.len() + self.tag_faults.len();
        Tally { found, corrected: closed, open: found.saturating_sub(closed) }
    }

    /// What should be known before a decision.
    pub fn cautions(&self) -> Vec<Caution> {
        let facts = &self.ground.facts;
        let load = self.ground.plan.subject == Subject::Load;
        [
            (load && facts.rigger.is_none(), Caution::NoRiggerNamed),
            (load && facts.allowable.is_none(), Caution::NoAllowable),
            (load && self.rigging.is_none(), Caution::RiggingNotAssessed),
            (!self.jumps.is_empty(), Caution::ClockJumped),
        ]
        .into_iter()
        .filter_map(|(holds, caution)| holds.then_some(caution))
        .collect()
    }

    /// Everything that stands in the way of fit at `now`; empty when the load can be decided fit.
    pub fn blocks_fit(&self, now: Time) -> Vec<Block> {
        let mut blocks = Vec::new();
        let left = self.ground.plan.cards.iter().filter(|card| !self.points_left(card.number).is_empty());
        let left: Vec<CardNo> = left.map(|card| card.number).collect();
        if let Some(first) = left.first() {
            blocks.push(Block::Unanswered { cards: left.len(), first: *first });
        }
        for known in &self.findings {
            let (finding, card, name) = (known.number, known.card, known.name.clone());
            match known.state {
                FindingState::Open => blocks.push(Block::Open { finding, card, name }),
                FindingState::PutRight => blocks.push(Block::AwaitsSecondLook { finding, card, name }),
                FindingState::Closed => {}
            }
        }
        blocks.extend(self.faults_of_tag(now).into_iter().map(Block::Tag));
        if let Some(rigging) = self.rigging.as_ref().filter(|rigging| !rigging.within_limits) {
            blocks.push(Block::Rigging { summary: rigging.summary.to_string() });
        }
        blocks
    }

    /// What the tag shows at `now`, and all that it showed before. The latest time ever seen counts: a clock that is set
    /// back makes no inspection current again.
    pub(super) fn faults_of_tag(&self, now: Time) -> Vec<TagFault> {
        let now = self.latest.map_or(now, |latest| latest.max(now));
        let mut faults = self.tag_faults.clone();
        for fault in self.ground.facts.faults(now, &self.ground.plan) {
            if !faults.contains(&fault) {
                faults.push(fault);
            }
        }
        faults
    }

    /// Whether the record says why a load is not fit.
    pub(super) fn says_why_not(&self, now: Time) -> bool {
        self.blocks_fit(now).iter().any(|block| !matches!(block, Block::Unanswered { .. }))
    }
}
