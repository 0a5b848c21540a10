use slingseal_catalogue::{Language, judgement as words};

use super::reason::{Grade, Reason};
use slingseal_message::movement::MovementEvent;

/// Where a load stands on its zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LoadState {
    /// It has a tag, and nobody has walked it.
    Planned,
    /// Someone is at it.
    Walking,
    /// Inspected, and the hook would say GO.
    Fit,
    /// Inspected, and the hook would say WAIT.
    Waits,
    /// Found not fit.
    NotFit,
    /// Found fit, and the hook would say NO-GO for another reason.
    Refused,
    /// Found fit, and past its validity.
    Expired,
    /// Its latest inspection was taken back.
    Voided,
}

impl LoadState {
    /// Every state, in the order of a load's day.
    pub const ALL: [Self; 8] = [
        Self::Planned,
        Self::Walking,
        Self::Fit,
        Self::Waits,
        Self::NotFit,
        Self::Refused,
        Self::Expired,
        Self::Voided,
    ];

    /// Of what the hook would say of the latest inspection. That it is a refusal, or that one takes it over, comes first: a void
    /// makes nothing fit.
    pub fn of(reasons: &[Reason]) -> Self {
        let has = |wanted: fn(&Reason) -> bool| reasons.iter().any(wanted);
        if has(|reason| matches!(reason, Reason::NotFit | Reason::Superseded { .. })) {
            Self::NotFit
        } else if has(|reason| {
            // A refusal at the hook is a void.
            matches!(reason, Reason::Voided { .. } | Reason::Moved { event: MovementEvent::Refused(_), .. })
        }) {
            Self::Voided
        } else if has(|reason| matches!(reason, Reason::Expired { .. })) {
            Self::Expired
        } else if has(|reason| reason.grade() == Grade::NoGo) {
            Self::Refused
        } else if has(|reason| reason.grade() == Grade::Wait) {
            Self::Waits
        } else {
            Self::Fit
        }
    }

    /// A stable word for machines.
    pub fn word(self) -> &'static str {
        match self {
            Self::Planned => "planned",
            Self::Walking => "walking",
            Self::Fit => "fit",
            Self::Waits => "wait",
            Self::NotFit => "not_fit",
            Self::Refused => "refused",
            Self::Expired => "expired",
            Self::Voided => "voided",
        }
    }

    /// What a person reads.
    pub fn say(self, language: Language) -> String {
        match self {
            Self::Planned => words::StatePlanned.say(language),
            Self::Walking => words::StateWalking.say(language),
            Self::Fit => words::StateFit.say(language),
            Self::Waits => words::StateWaits.say(language),
            Self::NotFit => words::StateNotFit.say(language),
            Self::Refused => words::StateRefused.say(language),
            Self::Expired => words::StateExpired.say(language),
            Self::Voided => words::StateVoided.say(language),
        }
    }
}
