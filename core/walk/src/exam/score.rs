use super::{ExamError, Lock, Outcome, Planted, PlantedList, Timing};
use crate::procedure::CardNo;
use crate::walk::{PointStatus, Walk};
use slingseal_words::{PointId, Seconds, Serial};

/// What became of one planted deficiency.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Call {
    /// Called at its point, by its name.
    Found,
    /// Called at its point, by another name: the eye was right. It counts as found.
    NamedOtherwise(String),
    /// Its point was passed as good.
    PassedAsGood,
    /// Its point had no answer when the run ended.
    NotReached,
}

impl Call {
    /// Whether it counts as found.
    pub fn found(&self) -> bool {
        matches!(self, Self::Found | Self::NamedOtherwise(_))
    }

    /// The word for views and exports.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Found => "found",
            Self::NamedOtherwise(_) => "named_otherwise",
            Self::PassedAsGood => "passed_as_good",
            Self::NotReached => "not_reached",
        }
    }
}

/// One planted deficiency, scored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ItemScore {
    /// Which.
    pub planted: Planted,
    /// Where it sat.
    pub card: CardNo,
    /// What became of it.
    pub call: Call,
    /// When it was called, from the beginning.
    pub after: Option<Seconds>,
}

/// A call where nothing was wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FalseCall {
    /// On which card.
    pub card: CardNo,
    /// At which point.
    pub point: PointId,
    /// What it was called.
    pub name: String,
    /// When, from the beginning.
    pub after: Option<Seconds>,
}

/// A run, scored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Score {
    /// Every planted deficiency, in the order of the load.
    pub items: Vec<ItemScore>,
    /// Every call where nothing was wrong, in the order in which they were made.
    pub false_calls: Vec<FalseCall>,
    /// What it comes to by the lock's standard.
    pub outcome: Outcome,
}

impl Score {
    /// How many were found.
    pub fn found(&self) -> usize {
        self.items.iter().filter(|item| item.call.found()).count()
    }
}

/// Scores a run that ended. A call that was taken back is none; a second call at a planted point is neither found twice nor
/// false, since something was wrong there.
///
/// # Errors
/// A list that was not locked, a procedure or tag that was not locked, a run that goes on.
pub fn score(
    lock: &Lock,
    list: &PlantedList,
    salt: &super::Salt,
    walk: &Walk,
    timing: &Timing,
) -> Result<Score, ExamError> {
    let ground = walk.ground();
    lock.is_for(&ground.plan)?;
    if ground.facts.tag != lock.tag || ground.facts.load != Serial::from(&lock.load) {
        return Err(ExamError::OtherTag { load: lock.load.clone() });
    }
    lock.opens_with(list, salt)?;
    let list = list.clone().fits(&ground.plan)?;
    if !timing.ended {
        return Err(ExamError::NotEnded);
    }
    let items: Vec<ItemScore> = list
        .in_order(&ground.plan)
        .into_iter()
        .map(|(planted, card, point)| {
            let mut calls = walk.findings().iter().filter(|finding| finding.point == point.id);
            let named = calls.clone().find(|finding| finding.name == planted.name);
            let call = named.or_else(|| calls.next());
            ItemScore {
                planted: planted.clone(),
                card: card.number,
                after: call.and_then(|finding| timing.calls.get(&finding.number)).copied(),
                call: match call {
                    Some(finding) if finding.name == planted.name => Call::Found,
                    Some(finding) => Call::NamedOtherwise(finding.name.clone()),
                    None if walk.point_status(&point.id) == PointStatus::Unanswered => Call::NotReached,
                    None => Call::PassedAsGood,
                },
            }
        })
        .collect();
    let false_calls: Vec<FalseCall> = walk
        .findings()
        .iter()
        .filter(|finding| !list.iter().any(|planted| planted.point == finding.point))
        .map(|finding| FalseCall {
            card: finding.card,
            point: finding.point.clone(),
            name: finding.name.clone(),
            after: timing.calls.get(&finding.number).copied(),
        })
        .collect();
    let found = items.iter().filter(|item| item.call.found()).count();
    let jumped = !timing.jumps.is_empty();
    let outcome = lock.standard.outcome(found, false_calls.len(), timing.seconds, jumped);
    Ok(Score { items, false_calls, outcome })
}
