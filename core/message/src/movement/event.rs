use std::str::FromStr;

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

impl FromStr for RefusalCause {
    type Err = Saying;

    /// The cause of a word. Another word: what the words are.
    fn from_str(word: &str) -> Result<Self, Saying> {
        let text = word.trim();
        Self::ALL
            .into_iter()
            .find(|cause| cause.word() == text)
            .ok_or_else(|| words::NoSuchCause { text, causes: Self::ALL.map(Self::word).join(", ") }.into())
    }
}

/// What sort of thing became of a load, whatever its cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MovementKind {
    /// Hooked up, and off the ground.
    Lifted,
    /// The hookup team did not lift it.
    Refused,
    /// It fell, was jettisoned, or nobody knows where it is.
    Lost,
    /// It stands on the ground where it was flown to.
    SetDown,
    /// Its slings and nets were taken off.
    Derigged,
    /// Pieces of its equipment are back.
    Returned,
}

impl MovementKind {
    /// Every kind, in the order of a load's way.
    pub const ALL: [Self; 6] =
        [Self::Lifted, Self::Refused, Self::Lost, Self::SetDown, Self::Derigged, Self::Returned];

    /// The word for commands and exports.
    pub fn word(self) -> &'static str {
        match self {
            Self::Lifted => "lifted",
            Self::Refused => "refused",
            Self::Lost => "lost",
            Self::SetDown => "set-down",
            Self::Derigged => "derigged",
            Self::Returned => "returned",
        }
    }

    /// The event of this kind, with the cause that a refusal has and nothing else.
    pub fn because(self, cause: Option<RefusalCause>) -> Option<MovementEvent> {
        match (self, cause) {
            (Self::Lifted, None) => Some(MovementEvent::Lifted),
            (Self::Refused, Some(cause)) => Some(MovementEvent::Refused(cause)),
            (Self::Lost, None) => Some(MovementEvent::Lost),
            (Self::SetDown, None) => Some(MovementEvent::SetDown),
            (Self::Derigged, None) => Some(MovementEvent::Derigged),
            (Self::Returned, None) => Some(MovementEvent::Returned),
            _ => None,
        }
    }
}

impl FromStr for MovementKind {
    type Err = Saying;

    /// The kind of a word. Another word: what the words are.
    fn from_str(word: &str) -> Result<Self, Saying> {
        let text = word.trim();
        Self::ALL
            .into_iter()
            .find(|kind| kind.word() == text)
            .ok_or_else(|| words::NoSuchEvent { text, events: Self::ALL.map(Self::word).join(", ") }.into())
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
    /// What sort it is.
    pub fn kind(self) -> MovementKind {
        match self {
            Self::Lifted => MovementKind::Lifted,
            Self::Refused(_) => MovementKind::Refused,
            Self::Lost => MovementKind::Lost,
            Self::SetDown => MovementKind::SetDown,
            Self::Derigged => MovementKind::Derigged,
            Self::Returned => MovementKind::Returned,
        }
    }

    /// The word for commands and exports.
    pub fn word(self) -> &'static str {
        self.kind().word()
    }

    /// The event of a word, and of a cause where it is a refusal.
    pub fn of(word: &str, cause: Option<RefusalCause>) -> Option<Self> {
        word.parse::<MovementKind>().ok()?.because(cause)
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
