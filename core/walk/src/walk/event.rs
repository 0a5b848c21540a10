use std::fmt;

use serde::{Deserialize, Serialize};

use crate::procedure::CardNo;
use slingseal_words::{CallSign, Digest, Note, PointId, ProcedureId, Quantity, Serial, Time};

use super::facts::{RiggingFinding, TagFault};
use super::wire;

/// The number of a finding in its walk, from one; never given twice, not even after an undo.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct FindingNo(pub u32);

impl fmt::Display for FindingNo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// Something that happened, and when by the device's clock.
///
/// Stored through serde with the field names as they stand here; a later version may add fields and kinds of event, and
/// never renames or removes one. Unknown fields are passed over, missing ones that are optional are empty.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Event {
    /// When, by the device's clock.
    #[serde(with = "wire::line")]
    pub at: Time,
    /// What.
    pub what: What,
}

/// What happened.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// The walk began.
    Begun {
        /// Of which load; of what is no load, its name.
        #[serde(with = "wire::line")]
        load: Serial,
        /// By which tag: SHA-256 of its bytes.
        #[serde(with = "wire::line")]
        tag: Digest,
        /// By which procedure.
        #[serde(with = "wire::line")]
        procedure: ProcedureId,
        /// In which edition.
        version: u32,
        /// SHA-256 of the procedure's file.
        #[serde(with = "wire::line")]
        procedure_digest: Digest,
        /// Who inspects.
        #[serde(with = "wire::line")]
        inspector: CallSign,
        /// By which rules the walk is folded; none in what was written before there were two.
        #[serde(default, skip_serializing_if = "Rules::first")]
        rules: Rules,
    },
    /// The tag itself shows a deficiency.
    TagFaultFound {
        /// Which.
        fault: TagFault,
    },
    /// The clock went back, or went on by more than `LONGEST_SILENCE` without a pause, before what follows.
    ClockJumped {
        /// What it showed at the last event.
        #[serde(with = "wire::line")]
        from: Time,
        /// What it shows now.
        #[serde(with = "wire::line")]
        to: Time,
    },
    /// Every point of the card that had no answer and no deficiency is good.
    CardGood {
        /// Which card.
        card: CardNo,
    },
    /// One point was answered.
    Answered {
        /// On which card.
        card: CardNo,
        /// Which point.
        #[serde(with = "wire::line")]
        point: PointId,
        /// With what.
        value: Value,
        /// The deficiency that the answer shows, by name; none if it is good.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        deficiency: Option<String>,
    },
    /// A deficiency was found and named.
    DeficiencyFound {
        /// On which card.
        card: CardNo,
        /// At which point.
        #[serde(with = "wire::line")]
        point: PointId,
        /// What it is called in the procedure, or `other`.
        name: String,
        /// What the inspector says about it.
        #[serde(default, with = "wire::maybe", skip_serializing_if = "Option::is_none")]
        note: Option<Note>,
        /// SHA-256 of each photo.
        #[serde(default, with = "wire::list", skip_serializing_if = "Vec::is_empty")]
        photos: Vec<Digest>,
    },
    /// The piece at which a deficiency was found is rejected by its serial number.
    PieceRejected {
        /// Which finding says why.
        finding: FindingNo,
        /// Which piece.
        #[serde(with = "wire::line")]
        serial: Serial,
    },
    /// The riggers say that they corrected it.
    PutRight {
        /// Which finding.
        finding: FindingNo,
        /// Who put it right, if told.
        #[serde(default, with = "wire::maybe", skip_serializing_if = "Option::is_none")]
        by: Option<CallSign>,
        /// What they did.
        #[serde(default, with = "wire::maybe", skip_serializing_if = "Option::is_none")]
        note: Option<Note>,
        /// SHA-256 of each photo.
        #[serde(default, with = "wire::list", skip_serializing_if = "Vec::is_empty")]
        photos: Vec<Digest>,
    },
    /// The inspector looked at it again.
    LookedAgain {
        /// Which finding.
        finding: FindingNo,
        /// What was seen.
        again: Again,
        /// The new count, choice, measure or serial, if the point has one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        value: Option<Value>,
        /// What the inspector says about it.
        #[serde(default, with = "wire::maybe", skip_serializing_if = "Option::is_none")]
        note: Option<Note>,
        /// SHA-256 of each photo.
        #[serde(default, with = "wire::list", skip_serializing_if = "Vec::is_empty")]
        photos: Vec<Digest>,
    },
    /// An answer was taken back: whole card good, answer, finding, put right or looked again.
    Undone {
        /// The number of the answer, counted from one over the whole walk.
        answer: u32,
    },
    /// The inspector went to a card.
    WentTo {
        /// Which.
        card: CardNo,
    },
    /// The statics of the rigging were worked out.
    RiggingAssessed {
        /// What they said.
        finding: RiggingFinding,
    },
    /// The walk was paused.
    Paused {},
    /// The walk went on.
    Resumed {},
    /// The walk ended without a decision.
    Abandoned {
        /// Why.
        #[serde(with = "wire::line")]
        reason: Note,
    },
    /// The inspector decided.
    Decided {
        /// What.
        outcome: Outcome,
        /// Why, in the inspector's words.
        #[serde(default, with = "wire::maybe", skip_serializing_if = "Option::is_none")]
        reason: Option<Note>,
    },
    /// The inspector took the decision back before it was sealed: the walk stands where it stood.
    DecisionTakenBack {},
}

/// An answer to one point.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Value {
    /// Good, as the procedure expects it.
    Good,
    /// A number that was counted.
    Count(u32),
    /// The name of an option, in the file's English words.
    Choice(String),
    /// A quantity that was measured.
    Measure(#[serde(with = "wire::line")] Quantity),
    /// A serial number that was read.
    Serial(#[serde(with = "wire::line")] Serial),
    /// A text.
    Text(#[serde(with = "wire::line")] Note),
    /// The point does not apply to this load, and why.
    NotApplicable(#[serde(with = "wire::line")] Note),
}

/// By which rules a walk is folded: a record of an older build is read by the rules of its time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rules {
    /// "Whole card good" took a count as expected.
    #[default]
    CountsConfirmed,
    /// Every count is entered before its wanted number is told. Accident: a hand that presses "good" on every card has
    /// counted nothing, and the record says that it has.
    CountsEntered,
}

impl Rules {
    /// The rules by which this build decides.
    pub const NOW: Self = Self::CountsEntered;

    fn first(&self) -> bool {
        *self == Self::CountsConfirmed
    }
}

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Good => f.write_str("good"),
            Self::Count(number) => write!(f, "{number}"),
            Self::Choice(name) => f.write_str(name),
            Self::Measure(quantity) => write!(f, "{quantity}"),
            Self::Serial(serial) => write!(f, "{serial}"),
            Self::Text(text) => write!(f, "{text}"),
            Self::NotApplicable(why) => write!(f, "not applicable: {why}"),
        }
    }
}

/// What a second look showed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Again {
    /// It is put right.
    Good,
    /// It is not.
    StillDeficient,
}

/// What the inspector decided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// The load may be hung on the hook.
    Fit,
    /// It may not.
    NotFit,
}

impl fmt::Display for Outcome {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Fit => "fit",
            Self::NotFit => "not fit",
        })
    }
}
