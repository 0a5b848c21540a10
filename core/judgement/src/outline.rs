use slingseal_message::trust::PublicKey;
use slingseal_words::Time;

use super::facts::{Asked, Fact, Facts};
use super::load_state::LoadState;
use super::reason::Reason;

/// As much of the facts of a load's latest inspection as decides its state at any time: what a database keeps of a load, so that a
/// board of ten thousand is drawn without opening one word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outline {
    /// The state that no clock changes.
    pub lasting: LoadState,
    /// When the inspection was sealed.
    pub issued: Time,
    /// Until when it may be relied on.
    pub valid_until: Time,
    /// The last second before a piece of equipment is overdue or the planner's signature ends; none where neither can be.
    pub turns: Option<Time>,
    /// The authorities whose rosters it rests on, each once.
    pub authorities: Vec<PublicKey>,
}

impl Outline {
    /// The outline of an inspection's facts; none where they are of no seal.
    pub fn of(facts: &Facts) -> Option<Self> {
        let (mut issued, mut valid_until, mut turns) = (None, None, None);
        let mut authorities: Vec<PublicKey> = Vec::new();
        for fact in &facts.0 {
            match fact {
                Fact::Fixed(_) => {}
                Fact::Validity { until } => valid_until = Some(*until),
                Fact::Issued(time) => issued = Some(*time),
                Fact::Roster(key) if authorities.contains(key) => {}
                Fact::Roster(key) => authorities.push(*key),
                Fact::Equipment { good_until: until, .. } | Fact::Planner { until, .. } => {
                    turns = Some(turns.map_or(*until, |turns: Time| turns.min(*until)));
                }
            }
        }
        authorities.sort_by_key(PublicKey::to_bytes);
        let fixed: Vec<Reason> = facts.fixed().cloned().collect();
        Some(Self {
            lasting: LoadState::of(&fixed),
            issued: issued?,
            valid_until: valid_until?,
            turns,
            authorities,
        })
    }

    /// The state at the time of asking: the same that all facts give.
    pub fn at(&self, asked: &Asked<'_>) -> LoadState {
        let timed = [Fact::Validity { until: self.valid_until }, Fact::Issued(self.issued)];
        let rosters = self.authorities.iter().map(|key| Fact::Roster(*key));
        let reasons: Vec<Reason> = timed.into_iter().chain(rosters).flat_map(|fact| fact.at(asked)).collect();
        let mut state = LoadState::of(&reasons);
        if state == LoadState::Fit && self.turns.is_some_and(|turns| asked.now > turns) {
            state = LoadState::Waits;
        }
        graver(self.lasting, state)
    }
}

/// Of two states the one that [`LoadState::of`] gives for the reasons of both.
fn graver(one: LoadState, other: LoadState) -> LoadState {
    let first =
        [LoadState::NotFit, LoadState::Voided, LoadState::Expired, LoadState::Refused, LoadState::Waits];
    first.into_iter().find(|state| one == *state || other == *state).unwrap_or(LoadState::Fit)
}
