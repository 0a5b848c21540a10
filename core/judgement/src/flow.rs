//! Where a load is on its way from the plan to the ground, for a leader's board: the state of its latest inspection, or what was done
//! to it since.

use std::str::FromStr;

use slingseal_catalogue::{Language, Saying, board as board_words, judgement as words};
use slingseal_message::movement::MovementEvent;
use slingseal_words::LoadNumber;

use super::evidence::Evidence;
use super::known::Known;
use super::load_state::LoadState;
use super::movement::{ReportWeight, is_after};
use super::word::LoadWord;

/// Where a load is on its way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FlowState {
    /// It has a tag, and nobody has walked it.
    Planned,
    /// Someone is at it.
    Walking,
    /// Inspected, and the hook would say GO.
    Fit,
    /// Inspected, and the hook would say WAIT.
    Waits,
    /// In the air.
    Lifted,
    /// On the ground where it was flown to, with its rigging or without.
    SetDown,
    /// Found not fit.
    NotFit,
    /// Found fit, and the hook would say NO-GO for another reason; or the hookup team did not lift it.
    Refused,
    /// Found fit, and past its validity.
    Expired,
    /// Its latest inspection was taken back.
    Voided,
    /// It fell, was jettisoned, or nobody knows where it is.
    Lost,
}

impl FromStr for FlowState {
    type Err = Saying;

    /// The state of a stable word. Another word: what the words are.
    fn from_str(word: &str) -> Result<Self, Saying> {
        let word = word.trim();
        Self::ALL.into_iter().find(|state| state.word() == word).ok_or_else(|| {
            let states = Self::ALL.map(Self::word).join(", ");
            board_words::NoSuchState { state: &word, states: &states }.into()
        })
    }
}

impl FlowState {
    /// Every state, in the order of a load's way; what is aside behind it.
    pub const ALL: [Self; 11] = [
        Self::Planned,
        Self::Walking,
        Self::Fit,
        Self::Waits,
        Self::Lifted,
        Self::SetDown,
        Self::NotFit,
        Self::Refused,
        Self::Expired,
        Self::Voided,
        Self::Lost,
    ];

    /// Where a load is, of how it is judged (none where nobody has inspected it) and of the last event that counts since. What counts
    /// for nothing is told beside it and moves nothing: hook, board, account and page say one thing.
    pub fn of(judged: Option<LoadState>, counts: Option<MovementEvent>) -> Self {
        match (counts, judged) {
            (Some(MovementEvent::Lifted), _) => Self::Lifted,
            (Some(MovementEvent::Lost), _) => Self::Lost,
            (Some(MovementEvent::SetDown | MovementEvent::Derigged | MovementEvent::Returned), _) => {
                Self::SetDown
            }
            (Some(MovementEvent::Refused(_)), _) => Self::Refused,
            (None, None | Some(LoadState::Planned)) => Self::Planned,
            (None, Some(LoadState::Walking)) => Self::Walking,
            (None, Some(LoadState::Fit)) => Self::Fit,
            (None, Some(LoadState::Waits)) => Self::Waits,
            (None, Some(LoadState::NotFit)) => Self::NotFit,
            (None, Some(LoadState::Refused)) => Self::Refused,
            (None, Some(LoadState::Expired)) => Self::Expired,
            (None, Some(LoadState::Voided)) => Self::Voided,
        }
    }

    /// A stable word for machines.
    pub fn word(self) -> &'static str {
        match self {
            Self::Planned => "planned",
            Self::Walking => "walking",
            Self::Fit => "fit",
            Self::Waits => "wait",
            Self::Lifted => "lifted",
            Self::SetDown => "set_down",
            Self::NotFit => "not_fit",
            Self::Refused => "refused",
            Self::Expired => "expired",
            Self::Voided => "voided",
            Self::Lost => "lost",
        }
    }

    /// What a person reads.
    pub fn say(self, language: Language) -> String {
        match self {
            Self::Planned => words::StatePlanned.say(language),
            Self::Walking => words::StateWalking.say(language),
            Self::Fit => words::StateFit.say(language),
            Self::Waits => words::StateWaits.say(language),
            Self::Lifted => words::StateLifted.say(language),
            Self::SetDown => words::StateSetDown.say(language),
            Self::NotFit => words::StateNotFit.say(language),
            Self::Refused => words::StateRefused.say(language),
            Self::Expired => words::StateExpired.say(language),
            Self::Voided => words::StateVoided.say(language),
            Self::Lost => words::StateLost.say(language),
        }
    }

    /// Whether it stands aside of the way: somebody must look into it.
    pub fn is_aside(self) -> bool {
        self >= Self::NotFit
    }
}

/// The reports of what was done to a load since its latest inspection, all of them where it has none: the first that happened first.
/// What each is worth it says itself ([`LoadWord::weight`]).
pub fn movements_since_latest<'e>(load: &LoadNumber, evidence: &Evidence<'e>) -> Vec<&'e LoadWord> {
    let known = Known::of(evidence, load);
    let latest = known.latest().and_then(|word| Some((word, word.seal()?)));
    let since = |report: &&LoadWord| match (report.movement(), latest) {
        (Some(movement), Some((word, seal))) => is_after(report, movement, word, seal),
        _ => true,
    };
    let mut reports: Vec<&LoadWord> = known.movements().filter(since).collect();
    reports.sort_by_key(|word| word.movement().map(|movement| movement.place(word.digest())));
    reports.dedup_by_key(|word| word.digest());
    reports
}

/// The last that was said to have been done to a load since its latest inspection.
#[derive(Clone, Copy, Debug, Default)]
pub struct LastReports<'e> {
    /// The last report that counts.
    pub counts: Option<&'e LoadWord>,
    /// The last one that counts for nothing, where it tells of what happened behind that: it is shown as what it is.
    pub hint: Option<&'e LoadWord>,
}

impl<'e> LastReports<'e> {
    /// Of everything that is known of a load.
    pub fn of(load: &LoadNumber, evidence: &Evidence<'e>) -> Self {
        let mut last = Self::default();
        for report in movements_since_latest(load, evidence) {
            match report.weight() {
                Some(ReportWeight::Counts { .. }) => last = Self { counts: Some(report), hint: None },
                Some(ReportWeight::Hint) => last.hint = Some(report),
                Some(ReportWeight::Nothing) | None => {}
            }
        }
        last
    }

    /// What happened by the one that counts.
    pub fn event(&self) -> Option<MovementEvent> {
        self.counts.and_then(LoadWord::movement).map(|movement| movement.event)
    }
}
