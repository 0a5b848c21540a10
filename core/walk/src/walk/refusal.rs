use slingseal_catalogue::{Language, Saying, walk as words};
use std::fmt;

use crate::procedure::{CardNo, Fate};
use slingseal_words::{CallSign, Dimension, PointId, ProcedureId};

use super::event::FindingNo;
use super::facts::TagFault;
use super::state::At;

/// Why a command is not done. Each is one line: what is wrong; what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Nothing can be answered before the walk has begun.
    NotBegun,
    /// A walk begins once.
    BegunAlready,
    /// The walk is paused.
    Paused,
    /// The walk is not paused.
    NotPaused,
    /// There is no decision that could be taken back.
    NotDecided,
    /// The walk is decided or abandoned.
    Ended {
        /// How it ended.
        how: Saying,
    },
    /// Nobody inspects a load that they built.
    InspectorIsRigger {
        /// Who.
        inspector: CallSign,
    },
    /// The procedure is not the one on the tag.
    OtherProcedure {
        /// What the tag asks for.
        tag: ProcedureId,
        /// What was taken.
        procedure: ProcedureId,
    },
    /// Someone else than the walk's inspector.
    NotTheInspector {
        /// Who tried.
        by: CallSign,
        /// Whose walk it is.
        inspector: CallSign,
    },
    /// The key was pressed for a card that is not current any more.
    NotThisCard {
        /// The card that the command names.
        pressed: CardNo,
        /// Where the walk is.
        current: At,
    },
    /// There is no such card.
    NoSuchCard {
        /// What was asked for.
        card: CardNo,
        /// The last card.
        last: CardNo,
    },
    /// The point is not on the card.
    NotOnThisCard {
        /// The card.
        card: CardNo,
        /// The point.
        point: PointId,
    },
    /// The procedure does not name the deficiency at this point.
    NoSuchDeficiency {
        /// The point.
        point: PointId,
        /// What was named.
        name: String,
    },
    /// A deficiency without a name needs words.
    NoteNeeded,
    /// Too many photos at once.
    TooManyPhotos {
        /// How many there are.
        photos: usize,
        /// How many there may be.
        most: usize,
    },
    /// The very deficiency is open at the point already.
    OpenAlready {
        /// Its number.
        finding: FindingNo,
    },
    /// The point cannot be good without its value.
    ValueNeeded {
        /// The point.
        point: PointId,
        /// What to enter.
        wanted: &'static str,
    },
    /// The procedure does not let the point be left out.
    Applies {
        /// The point.
        point: PointId,
    },
    /// The finding is not one that rejects a piece.
    RejectsNothing {
        /// Which finding.
        finding: FindingNo,
    },
    /// A count was entered where a choice is wanted, or the like.
    WrongKind {
        /// The point.
        point: PointId,
        /// What to enter.
        wanted: &'static str,
    },
    /// The measure has a unit of another kind.
    WrongUnit {
        /// The point.
        point: PointId,
        /// What is wanted, with its units.
        wanted: Dimension,
    },
    /// The choice has no such option.
    NoSuchOption {
        /// The point.
        point: PointId,
        /// What was chosen.
        name: String,
    },
    /// The point has a deficiency that is not closed, so an answer cannot make it good.
    OpenHere {
        /// The finding.
        finding: FindingNo,
    },
    /// There is no such finding.
    NoSuchFinding {
        /// What was asked for.
        finding: FindingNo,
    },
    /// What is wrong cannot be put right where the load stands.
    NotInPlace {
        /// What is wrong.
        name: String,
        /// What becomes of it.
        fate: Fate,
    },
    /// It was put right already and waits for the second look.
    PutRightAlready {
        /// Which.
        finding: FindingNo,
    },
    /// Nobody has put it right yet.
    NotPutRight {
        /// Which.
        finding: FindingNo,
    },
    /// It is closed.
    ClosedAlready {
        /// Which.
        finding: FindingNo,
    },
    /// The new value still shows the deficiency.
    StillDeficient,
    /// There is nothing to take back.
    NothingToUndo,
    /// The key was pressed for an answer that is not the last any more.
    NotTheLastAnswer {
        /// The answer that the command names.
        pressed: u32,
        /// The last answer.
        last: u32,
    },
    /// The load cannot be decided fit.
    NotFit {
        /// Everything that stands in the way; never empty.
        blocks: Vec<Block>,
    },
    /// Not fit, and nothing on the record says why.
    ReasonNeeded,
}

impl Refusal {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::NotBegun => words::RefusalNotBegun.into(),
            Self::BegunAlready => words::RefusalBegunAlready.into(),
            Self::Paused => words::RefusalPaused.into(),
            Self::NotPaused => words::RefusalNotPaused.into(),
            Self::NotDecided => words::RefusalNotDecided.into(),
            Self::Ended { how } => words::RefusalEnded { how }.into(),
            Self::InspectorIsRigger { inspector } => words::RefusalInspectorIsRigger { inspector }.into(),
            Self::OtherProcedure { tag, procedure } => words::RefusalOtherProcedure { tag, procedure }.into(),
            Self::NotTheInspector { by, inspector } => words::RefusalNotTheInspector { by, inspector }.into(),
            Self::NotThisCard { pressed, current } => {
                words::RefusalNotThisCard { pressed, current: current.saying() }.into()
            }
            Self::NoSuchCard { card, last } => words::RefusalNoSuchCard { card, last }.into(),
            Self::NotOnThisCard { card, point } => words::RefusalNotOnThisCard { point, card }.into(),
            Self::NoSuchDeficiency { point, name } => words::RefusalNoSuchDeficiency { name, point }.into(),
            Self::NoteNeeded => words::RefusalNoteNeeded.into(),
            Self::TooManyPhotos { photos, most } => words::RefusalTooManyPhotos { photos, most }.into(),
            Self::OpenAlready { finding } => words::RefusalOpenAlready { finding }.into(),
            Self::ValueNeeded { point, wanted } => {
                words::RefusalValueNeeded { point, wanted: wanted_of(wanted) }.into()
            }
            Self::Applies { point } => words::RefusalApplies { point }.into(),
            Self::RejectsNothing { finding } => words::RefusalRejectsNothing { finding }.into(),
            Self::WrongKind { point, wanted } => {
                words::RefusalWrongKind { point, wanted: wanted_of(wanted) }.into()
            }
            Self::WrongUnit { point, wanted } => {
                words::RefusalWrongUnit { point, units: wanted.units_saying() }.into()
            }
            Self::NoSuchOption { point, name } => words::RefusalNoSuchOption { point, name }.into(),
            Self::OpenHere { finding } => words::RefusalOpenHere { finding }.into(),
            Self::NoSuchFinding { finding } => words::RefusalNoSuchFinding { finding }.into(),
            Self::NotInPlace { name, fate } => words::RefusalNotInPlace { name, after: after(*fate) }.into(),
            Self::PutRightAlready { finding } => words::RefusalPutRightAlready { finding }.into(),
            Self::NotPutRight { finding } => words::RefusalNotPutRight { finding }.into(),
            Self::ClosedAlready { finding } => words::RefusalClosedAlready { finding }.into(),
            Self::StillDeficient => words::RefusalStillDeficient.into(),
            Self::NothingToUndo => words::RefusalNothingToUndo.into(),
            Self::NotTheLastAnswer { pressed, .. } => words::RefusalNotTheLastAnswer { pressed }.into(),
            Self::NotFit { blocks } => not_fit(blocks),
            Self::ReasonNeeded => words::RefusalReasonNeeded.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(Refusal);

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

impl Refusal {
    /// One line: what is wrong; what to do.
    pub fn say(&self, language: Language) -> String {
        self.saying().say(language)
    }
}

impl Block {
    /// What stands in the way of fit, in one line.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Unanswered { cards, first } => words::BlockUnanswered { cards, first }.into(),
            Self::Open { finding, card, name } => words::BlockOpen { finding, card, name }.into(),
            Self::AwaitsSecondLook { finding, card, name } => {
                words::BlockAwaitsSecondLook { finding, card, name }.into()
            }
            Self::Tag(fault) => fault.saying(),
            Self::Rigging { summary } => words::BlockRigging { summary }.into(),
        }
    }

    /// The same in a language.
    pub fn say(&self, language: Language) -> String {
        self.saying().say(language)
    }
}

impl fmt::Display for Block {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
    }
}

/// What an answer needs, as the reader calls it.
fn wanted_of(wanted: &'static str) -> Saying {
    match wanted {
        "count" => words::WantedCount.into(),
        "choice" => words::WantedChoice.into(),
        "measure" => words::WantedMeasure.into(),
        "serial number" => words::WantedSerial.into(),
        "text" => words::WantedText.into(),
        _ => words::WantedMark.into(),
    }
}

/// What is done after "not fit".
fn after(fate: Fate) -> Saying {
    match fate {
        Fate::InPlace => words::AfterInPlace.into(),
        Fate::Rerig => words::AfterRerig.into(),
        Fate::NewTag => words::AfterNewTag.into(),
        Fate::Reject => words::AfterReject.into(),
    }
}

fn not_fit(blocks: &[Block]) -> Saying {
    let first = blocks.first().map_or_else(|| Saying::verbatim(""), Block::saying);
    match blocks.len().saturating_sub(1) {
        0 => words::RefusalNotFit { first }.into(),
        more => words::RefusalNotFitMany { first, more }.into(),
    }
}
