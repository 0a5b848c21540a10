use slingseal_words::Time;

/// Where a load stands on its zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LoadState {
    /// It has a tag, and nobody has walked it.
    Planned,
    /// Someone is at it.
    Walking,
    /// Found fit, and valid.
    Fit,
    /// Found not fit.
    NotFit,
    /// Found fit, and past its validity.
    Expired,
    /// Its last seal was taken back.
    Voided,
}

/// What the last seal of a load says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sealed {
    /// Fit or not.
    pub fit: bool,
    /// Until when it holds.
    pub valid_until: Time,
    /// Whether it was taken back.
    pub voided: bool,
}

impl LoadState {
    /// Every state, in the order of a load's day.
    pub const ALL: [Self; 6] =
        [Self::Planned, Self::Walking, Self::Fit, Self::NotFit, Self::Expired, Self::Voided];

    /// Of a load whose walk is or is not in hand, by its last seal.
    pub fn of(walking: bool, last: Option<Sealed>, now: Time) -> Self {
        match (walking, last) {
            (true, _) => Self::Walking,
            (false, None) => Self::Planned,
            (false, Some(Sealed { voided: true, .. })) => Self::Voided,
            (false, Some(Sealed { fit: false, .. })) => Self::NotFit,
            (false, Some(sealed)) if now > sealed.valid_until => Self::Expired,
            (false, Some(_)) => Self::Fit,
        }
    }

    /// A stable word for machines.
    pub fn word(self) -> &'static str {
        match self {
            Self::Planned => "planned",
            Self::Walking => "walking",
            Self::Fit => "fit",
            Self::NotFit => "not_fit",
            Self::Expired => "expired",
            Self::Voided => "voided",
        }
    }

    /// What a person reads.
    pub fn say(self) -> &'static str {
        match self {
            Self::Planned => "Planned",
            Self::Walking => "Being walked",
            Self::Fit => "Fit",
            Self::NotFit => "Not fit",
            Self::Expired => "Expired",
            Self::Voided => "Voided",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{LoadState, Sealed};
    use slingseal_words::Time;

    #[test]
    fn one_state_a_load() {
        let at = Time::from_unix;
        let fit = Sealed { fit: true, valid_until: at(100), voided: false };
        let voided = Sealed { voided: true, ..fit };
        let refused = Sealed { fit: false, ..fit };
        for (walking, last, now, want) in [
            (false, None, 0, LoadState::Planned),
            (true, None, 0, LoadState::Walking),
            (true, Some(fit), 0, LoadState::Walking),
            (false, Some(fit), 100, LoadState::Fit),
            (false, Some(fit), 101, LoadState::Expired),
            (false, Some(refused), 101, LoadState::NotFit),
            (false, Some(voided), 0, LoadState::Voided),
            (false, Some(Sealed { fit: false, ..voided }), 0, LoadState::Voided),
        ] {
            assert_eq!(LoadState::of(walking, last, at(now)), want, "{walking} {last:?} {now}");
        }
    }
}
