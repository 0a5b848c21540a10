use slingseal_catalogue::{Language, Saying, movement as words};

/// Why a hookup team did not lift.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RefusalCause {
    /// The verdict was WAIT or NO-GO, and the team kept to it.
    Verdict,
    /// The rigging is not as it should be.
    Rigging,
    /// The load has shifted, or it or its equipment is damaged.
    Damage,
    /// It is another load than the one that was called for.
    WrongLoad,
    /// It is too heavy for the aircraft as it is today.
    TooHeavy,
    /// It hung or swung badly when it came off the ground.
    Unstable,
    /// The aircrew broke off.
    Aircrew,
    /// Weather, dust, light, people: the zone was not safe.
    Zone,
    /// Another reason, in the note.
    Other,
}

impl RefusalCause {
    /// Every cause, the likeliest first.
    pub const ALL: [Self; 9] = [
        Self::Verdict,
        Self::Rigging,
        Self::Damage,
        Self::WrongLoad,
        Self::TooHeavy,
        Self::Unstable,
        Self::Aircrew,
        Self::Zone,
        Self::Other,
    ];

    /// Whether it says nothing without words of a person's own.
    pub fn needs_note(self) -> bool {
        self == Self::Other
    }

    /// The cause of a word.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|cause| cause.word() == word)
    }

    /// The word for commands and exports.
    pub fn word(self) -> &'static str {
        match self {
            Self::Verdict => "verdict",
            Self::Rigging => "rigging",
            Self::Damage => "damage",
            Self::WrongLoad => "wrong-load",
            Self::TooHeavy => "too-heavy",
            Self::Unstable => "unstable",
            Self::Aircrew => "aircrew",
            Self::Zone => "zone",
            Self::Other => "other",
        }
    }

    /// What a person reads.
    pub fn say(self, language: Language) -> String {
        self.saying().say(language)
    }

    /// The same, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Verdict => words::RefusalVerdict.into(),
            Self::Rigging => words::RefusalRigging.into(),
            Self::Damage => words::RefusalDamage.into(),
            Self::WrongLoad => words::RefusalWrongLoad.into(),
            Self::TooHeavy => words::RefusalTooHeavy.into(),
            Self::Unstable => words::RefusalUnstable.into(),
            Self::Aircrew => words::RefusalAircrew.into(),
            Self::Zone => words::RefusalZone.into(),
            Self::Other => words::RefusalOther.into(),
        }
    }

    pub(super) fn code(self) -> i64 {
        match self {
            Self::Other => 0,
            Self::Verdict => 1,
            Self::Rigging => 2,
            Self::Damage => 3,
            Self::WrongLoad => 4,
            Self::TooHeavy => 5,
            Self::Unstable => 6,
            Self::Aircrew => 7,
            Self::Zone => 8,
        }
    }
}

/// What became of the load. In the order of a load's way: of two reports of one second the later word is the greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MovementEvent {
    /// Hooked up, and off the ground.
    Lifted,
    /// The hookup team did not lift it.
    Refused(RefusalCause),
    /// It fell, was jettisoned, or nobody knows where it is.
    Lost,
    /// It stands on the ground where it was flown to.
    SetDown,
    /// Its slings and nets were taken off.
    Derigged,
    /// Pieces of its equipment are back.
    Returned,
}

impl MovementEvent {
    /// The words of every event; a refusal has a cause beside it.
    pub const WORDS: [&'static str; 6] = ["lifted", "refused", "lost", "set-down", "derigged", "returned"];

    /// The word for commands and exports.
    pub fn word(self) -> &'static str {
        match self {
            Self::Lifted => "lifted",
            Self::Refused(_) => "refused",
            Self::Lost => "lost",
            Self::SetDown => "set-down",
            Self::Derigged => "derigged",
            Self::Returned => "returned",
        }
    }

    /// The event of a word, and of a cause where it is a refusal.
    pub fn of(word: &str, cause: Option<RefusalCause>) -> Option<Self> {
        match (word, cause) {
            ("lifted", None) => Some(Self::Lifted),
            ("refused", Some(cause)) => Some(Self::Refused(cause)),
            ("lost", None) => Some(Self::Lost),
            ("set-down", None) => Some(Self::SetDown),
            ("derigged", None) => Some(Self::Derigged),
            ("returned", None) => Some(Self::Returned),
            _ => None,
        }
    }

    /// What a person reads.
    pub fn say(self, language: Language) -> String {
        self.saying().say(language)
    }

    /// The same, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Lifted => words::MovementLifted.into(),
            Self::Refused(cause) => words::MovementRefused { cause: cause.saying() }.into(),
            Self::Lost => words::MovementLost.into(),
            Self::SetDown => words::MovementSetDown.into(),
            Self::Derigged => words::MovementDerigged.into(),
            Self::Returned => words::MovementReturned.into(),
        }
    }

    pub(super) fn code(self) -> i64 {
        match self {
            Self::Lifted => 1,
            Self::Refused(_) => 2,
            Self::Lost => 3,
            Self::SetDown => 4,
            Self::Derigged => 5,
            Self::Returned => 6,
        }
    }

    /// Why it was refused, where it was.
    pub fn cause(self) -> Option<RefusalCause> {
        match self {
            Self::Refused(cause) => Some(cause),
            _ => None,
        }
    }

    pub(super) fn from_codes(event: i64, cause: Option<i64>) -> Option<Self> {
        let cause = match cause {
            None => None,
            Some(code) => Some(RefusalCause::ALL.into_iter().find(|cause| cause.code() == code)?),
        };
        match (event, cause) {
            (1, None) => Some(Self::Lifted),
            (2, Some(cause)) => Some(Self::Refused(cause)),
            (3, None) => Some(Self::Lost),
            (4, None) => Some(Self::SetDown),
            (5, None) => Some(Self::Derigged),
            (6, None) => Some(Self::Returned),
            _ => None,
        }
    }
}
