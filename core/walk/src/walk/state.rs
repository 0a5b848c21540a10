use slingseal_catalogue::{Saying, faults, walk as words};
use std::fmt;
use std::sync::Arc;

use crate::procedure::{CardNo, Fate, Point};
use slingseal_words::{CallSign, Digest, Note, PointId, Serial, Time};

use super::event::{Again, Event, FindingNo, Outcome, Rules, Value};
use super::facts::{Ground, RiggingFinding, TagFault};

/// One inspection, as its events made it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walk {
    pub(super) ground: Arc<Ground>,
    pub(super) stage: Stage,
    pub(super) at: At,
    /// A card's answers, one a point; none where there is no answer or a deficiency took its place.
    pub(super) cards: Vec<Vec<Option<Answer>>>,
    pub(super) findings: Vec<Finding>,
    pub(super) findings_given: u32,
    pub(super) answers_given: u32,
    pub(super) steps: Vec<Step>,
    pub(super) tag_faults: Vec<TagFault>,
    pub(super) rigging: Option<RiggingFinding>,
    pub(super) jumps: Vec<ClockJump>,
    pub(super) rules: Rules,
    pub(super) began: Option<Time>,
    pub(super) last: Option<Time>,
    pub(super) latest: Option<Time>,
}

/// How far the walk has come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Not begun.
    Ready,
    /// On the way.
    Walking,
    /// Stopped for a while.
    Paused {
        /// Since when.
        since: Time,
    },
    /// Ended with a decision.
    Decided {
        /// What was decided.
        outcome: Outcome,
        /// Why, in the inspector's words.
        reason: Option<Note>,
        /// When.
        at: Time,
    },
    /// Ended without one.
    Abandoned {
        /// Why.
        reason: Note,
        /// When.
        at: Time,
    },
}

/// Where the walk stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// At a card.
    Card(CardNo),
    /// Behind the last card: every card has its answer, the decision is next.
    Decision,
}

impl At {
    /// What a person calls the place.
    pub fn saying(self) -> Saying {
        match self {
            Self::Card(card) => words::AtCard { card }.into(),
            Self::Decision => words::AtDecision.into(),
        }
    }
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
    }
}

/// A point that is good.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// With what; none where an optional value was left out.
    pub value: Option<Value>,
    /// Since when.
    pub at: Time,
}

/// A deficiency that was found, and all that became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Its number.
    pub number: FindingNo,
    /// On which card.
    pub card: CardNo,
    /// At which point.
    pub point: PointId,
    /// What it is called in the procedure (English words), or `other`.
    pub name: String,
    /// What becomes of the load, or of the piece.
    pub fate: Fate,
    /// The piece that it rejects, where it is known.
    pub piece: Option<Serial>,
    /// The count, choice, measure or serial that showed it.
    pub value: Option<Value>,
    /// What the inspector said about it.
    pub note: Option<Note>,
    /// SHA-256 of each photo.
    pub photos: Vec<Digest>,
    /// When it was found.
    pub found: Time,
    /// Corrections and second looks, in order.
    pub looks: Vec<Look>,
    /// What it is now.
    pub state: FindingState,
}

impl Finding {
    /// Whether it can be corrected where the load stands.
    pub fn in_place(&self) -> bool {
        self.fate == Fate::InPlace
    }
}

/// What became of a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Look {
    /// The riggers say that it is put right.
    PutRight {
        /// When.
        at: Time,
        /// Who, if told.
        by: Option<CallSign>,
        /// What they did.
        note: Option<Note>,
        /// SHA-256 of each photo.
        photos: Vec<Digest>,
    },
    /// The inspector looked again.
    Again {
        /// When.
        at: Time,
        /// What was seen.
        again: Again,
        /// The new value.
        value: Option<Value>,
        /// In words.
        note: Option<Note>,
        /// SHA-256 of each photo.
        photos: Vec<Digest>,
    },
}

/// What a finding is now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FindingState {
    /// Found, and not put right.
    Open,
    /// Put right, and not looked at again.
    PutRight,
    /// Looked at again and good.
    Closed,
}

/// A jump of the device's clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClockJump {
    /// What it showed before.
    pub from: Time,
    /// What it showed after.
    pub to: Time,
}

/// What an undo brings back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Step {
    pub(super) number: u32,
    pub(super) at: At,
    pub(super) place: usize,
    pub(super) answers: Vec<Option<Answer>>,
    pub(super) finding: FindingBefore,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum FindingBefore {
    Untouched,
    Added,
    Was(Box<Finding>),
}

/// Why events do not make a walk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FoldError {
    /// They are of another load, tag, procedure or inspector.
    OtherGround {
        /// What differs.
        what: &'static str,
    },
    /// An event that no walk could have come to; counted from one.
    OutOfPlace {
        /// Which event.
        number: usize,
    },
}

impl FoldError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::OtherGround { what } => faults::FoldErrorOtherGround { what }.into(),
            Self::OutOfPlace { number } => faults::FoldErrorOutOfPlace { number }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(FoldError);

impl Walk {
    /// A walk that has not begun.
    pub fn new(ground: Arc<Ground>) -> Self {
        let cards = ground.plan.cards.iter().map(|card| vec![None; card.points.len()]).collect();
        Self {
            ground,
            stage: Stage::Ready,
            at: At::Card(CardNo::FIRST),
            cards,
            findings: Vec::new(),
            findings_given: 0,
            answers_given: 0,
            steps: Vec::new(),
            tag_faults: Vec::new(),
            rigging: None,
            jumps: Vec::new(),
            rules: Rules::NOW,
            began: None,
            last: None,
            latest: None,
        }
    }

    /// The walk that these events make.
    ///
    /// # Errors
    /// Events of another load, or that `decide` could not have given: kept events are evidence, not to be believed.
    pub fn fold<'e>(
        ground: Arc<Ground>,
        events: impl IntoIterator<Item = &'e Event>,
    ) -> Result<Self, FoldError> {
        let mut walk = Self::new(ground);
        for (place, event) in events.into_iter().enumerate() {
            walk.apply(event).map_err(|error| match error {
                FoldError::OutOfPlace { .. } => FoldError::OutOfPlace { number: place + 1 },
                other => other,
            })?;
        }
        Ok(walk)
    }

    pub(super) fn finding_mut(&mut self, number: FindingNo) -> Option<&mut Finding> {
        self.findings.iter_mut().find(|finding| finding.number == number)
    }

    /// The finding of the point that is not closed, if there is one.
    pub(super) fn unclosed_at(&self, point: &PointId) -> Option<&Finding> {
        self.findings.iter().find(|known| known.point == *point && known.state != FindingState::Closed)
    }

    /// The points of a card that have no answer and no deficiency.
    pub(super) fn points_left(&self, card: CardNo) -> Vec<(usize, &Point)> {
        let (Some(shape), Some(answers)) = (self.ground.plan.card(card), self.cards.get(card.place())) else {
            return Vec::new();
        };
        let left = |(_, (point, answer)): &(usize, (&Point, &Option<Answer>))| {
            answer.is_none() && self.ground.facts.counts(point) && self.unclosed_at(&point.id).is_none()
        };
        let points = shape.points.iter().zip(answers).enumerate();
        points.filter(left).map(|(place, (point, _))| (place, point)).collect()
    }

    /// The next card without an answer: behind this one first, then from the start.
    pub(super) fn next_after(&self, card: CardNo) -> At {
        let count = self.ground.plan.cards.len();
        let order = (card.place() + 1..count).chain(0..=card.place().min(count.saturating_sub(1)));
        order
            .map(CardNo::at_place)
            .find(|card| !self.points_left(*card).is_empty())
            .map_or(At::Decision, At::Card)
    }
}
