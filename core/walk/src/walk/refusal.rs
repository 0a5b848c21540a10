use std::fmt;

use crate::procedure::{CardNo, Fate};
use slingseal_words::{CallSign, PointId, ProcedureId};

use super::event::FindingNo;
use super::facts::TagFault;
use super::state::At;

/// Why a command is not done. Each is one line: what is wrong; what to do.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// Nothing can be answered before the walk has begun.
    #[error("the walk has not begun; begin it")]
    NotBegun,
    /// A walk begins once.
    #[error("the walk has begun already; go on where it stands")]
    BegunAlready,
    /// The walk is paused.
    #[error("the walk is paused; resume it first")]
    Paused,
    /// The walk is not paused.
    #[error("the walk is not paused; go on")]
    NotPaused,
    /// There is no decision that could be taken back.
    #[error("nothing is decided; go on")]
    NotDecided,
    /// The walk is decided or abandoned.
    #[error("this walk is ended: {how}; inspect the load again in a new walk")]
    Ended {
        /// How it ended.
        how: String,
    },
    /// Nobody inspects a load that they built.
    #[error("{inspector} is the rigger named on the tag; another inspector must walk this load")]
    InspectorIsRigger {
        /// Who.
        inspector: CallSign,
    },
    /// The procedure is not the one on the tag.
    #[error("the tag asks for procedure {tag} and this one is {procedure}; take {tag}")]
    OtherProcedure {
        /// What the tag asks for.
        tag: ProcedureId,
        /// What was taken.
        procedure: ProcedureId,
    },
    /// Someone else than the walk's inspector.
    #[error("{by} is not the inspector of this walk; {inspector} must do this, or abandon it and begin anew")]
    NotTheInspector {
        /// Who tried.
        by: CallSign,
        /// Whose walk it is.
        inspector: CallSign,
    },
    /// The key was pressed for a card that is not current any more.
    #[error(
        "that answer was for card {pressed} and the walk is at {current}; read the screen and press again"
    )]
    NotThisCard {
        /// The card that the command names.
        pressed: CardNo,
        /// Where the walk is.
        current: At,
    },
    /// There is no such card.
    #[error("there is no card {card}; go to 1 to {last}")]
    NoSuchCard {
        /// What was asked for.
        card: CardNo,
        /// The last card.
        last: CardNo,
    },
    /// The point is not on the card.
    #[error("{point} is not on card {card}; name a point of the card")]
    NotOnThisCard {
        /// The card.
        card: CardNo,
        /// The point.
        point: PointId,
    },
    /// The procedure does not name the deficiency at this point.
    #[error("\"{name}\" is not a deficiency of {point}; use one of its names, or \"other\" with a note")]
    NoSuchDeficiency {
        /// The point.
        point: PointId,
        /// What was named.
        name: String,
    },
    /// A deficiency without a name needs words.
    #[error("a deficiency called \"other\" needs a note; say what is wrong")]
    NoteNeeded,
    /// Too many photos at once.
    #[error("{photos} photos are too many for one entry; keep the best {most}")]
    TooManyPhotos {
        /// How many there are.
        photos: usize,
        /// How many there may be.
        most: usize,
    },
    /// The very deficiency is open at the point already.
    #[error("that deficiency is open already as number {finding}; have it corrected")]
    OpenAlready {
        /// Its number.
        finding: FindingNo,
    },
    /// The point cannot be good without its value.
    #[error("{point} needs its own answer first; enter its {wanted}")]
    ValueNeeded {
        /// The point.
        point: PointId,
        /// What to enter.
        wanted: &'static str,
    },
    /// The procedure does not let the point be left out.
    #[error("{point} applies to every load of this procedure; answer it, or name what is wrong")]
    Applies {
        /// The point.
        point: PointId,
    },
    /// The finding is not one that rejects a piece.
    #[error("finding {finding} rejects no piece; name the serial of a piece that is rejected")]
    RejectsNothing {
        /// Which finding.
        finding: FindingNo,
    },
    /// A count was entered where a choice is wanted, or the like.
    #[error("{point} is not answered like that; enter its {wanted}")]
    WrongKind {
        /// The point.
        point: PointId,
        /// What to enter.
        wanted: &'static str,
    },
    /// The measure has a unit of another kind.
    #[error("{point} is not measured in that unit; use {units}")]
    WrongUnit {
        /// The point.
        point: PointId,
        /// The units that can be used.
        units: &'static str,
    },
    /// The choice has no such option.
    #[error("{point} has no option \"{name}\"; choose one of its options")]
    NoSuchOption {
        /// The point.
        point: PointId,
        /// What was chosen.
        name: String,
    },
    /// The point has a deficiency that is not closed, so an answer cannot make it good.
    #[error("finding {finding} is open at this point; correct it and reinspect, or undo")]
    OpenHere {
        /// The finding.
        finding: FindingNo,
    },
    /// There is no such finding.
    #[error("there is no finding {finding}; see the list of findings")]
    NoSuchFinding {
        /// What was asked for.
        finding: FindingNo,
    },
    /// What is wrong cannot be put right where the load stands.
    #[error("\"{name}\" cannot be corrected in place; decide not fit, then {}", after(*fate))]
    NotInPlace {
        /// What is wrong.
        name: String,
        /// What becomes of it.
        fate: Fate,
    },
    /// It was put right already and waits for the second look.
    #[error("finding {finding} is corrected already; the inspector must reinspect it")]
    PutRightAlready {
        /// Which.
        finding: FindingNo,
    },
    /// Nobody has put it right yet.
    #[error("finding {finding} has not been corrected; have it corrected, then reinspect")]
    NotPutRight {
        /// Which.
        finding: FindingNo,
    },
    /// It is closed.
    #[error("finding {finding} is closed; nothing more to do")]
    ClosedAlready {
        /// Which.
        finding: FindingNo,
    },
    /// The new value still shows the deficiency.
    #[error("that value is still deficient; answer still deficient, or enter it again")]
    StillDeficient,
    /// There is nothing to take back.
    #[error("there is nothing to undo; go on")]
    NothingToUndo,
    /// The key was pressed for an answer that is not the last any more.
    #[error("answer {pressed} is not the last one; read the screen and press again")]
    NotTheLastAnswer {
        /// The answer that the command names.
        pressed: u32,
        /// The last answer.
        last: u32,
    },
    /// The load cannot be decided fit.
    #[error("the load cannot be decided fit: {}; clear it, or decide not fit", told(blocks))]
    NotFit {
        /// Everything that stands in the way; never empty.
        blocks: Vec<Block>,
    },
    /// Not fit, and nothing on the record says why.
    #[error("nothing on the record says why the load is not fit; give a reason")]
    ReasonNeeded,
}

/// What stands in the way of fit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// Cards without an answer.
    Unanswered {
        /// How many.
        cards: usize,
        /// The first of them.
        first: CardNo,
    },
    /// A deficiency that is open.
    Open {
        /// Which.
        finding: FindingNo,
        /// On which card.
        card: CardNo,
        /// What it is called.
        name: String,
    },
    /// A deficiency that was put right and not looked at again.
    AwaitsSecondLook {
        /// Which.
        finding: FindingNo,
        /// On which card.
        card: CardNo,
        /// What it is called.
        name: String,
    },
    /// What the tag itself shows.
    Tag(TagFault),
    /// The rigging is over a limit or cannot hang so.
    Rigging {
        /// What governs, in one line.
        summary: String,
    },
}

impl fmt::Display for Block {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unanswered { cards: 1, first } => write!(f, "card {first} has no answer"),
            Self::Unanswered { cards, first } => {
                write!(f, "{cards} cards have no answer, the first is card {first}")
            }
            Self::Open { finding, card, name } => {
                write!(f, "finding {finding} on card {card} is open: {name}")
            }
            Self::AwaitsSecondLook { finding, card, name } => {
                write!(f, "finding {finding} on card {card} awaits the second look: {name}")
            }
            Self::Tag(fault) => write!(f, "{fault}"),
            Self::Rigging { summary } => write!(f, "rigging: {summary}"),
        }
    }
}

/// What is done after "not fit".
fn after(fate: Fate) -> &'static str {
    match fate {
        Fate::InPlace => "correct and reinspect it",
        Fate::Rerig => "rerig the load and inspect it anew",
        Fate::NewTag => "make a new tag and inspect the load under it",
        Fate::Reject => "take the piece out of service, rerig the load with another, inspect it anew",
    }
}

fn told(blocks: &[Block]) -> String {
    let first = blocks.first().map(ToString::to_string).unwrap_or_default();
    match blocks.len().saturating_sub(1) {
        0 => first,
        more => format!("{first}, and {more} more"),
    }
}
