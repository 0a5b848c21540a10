use crate::procedure::CardNo;
use slingseal_words::{CallSign, Digest, Note, PointId, Serial};

use super::event::{Again, FindingNo, Outcome, Value};
use super::facts::{RiggingFinding, TagFault};

/// What a person adds to a finding, a correction or a second look.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sighting {
    /// In words.
    pub note: Option<Note>,
    /// SHA-256 of each photo.
    pub photos: Vec<Digest>,
}

/// What a person wants to do.
///
/// A command that answers names the card that was on the screen when the key was pressed. If another card is current by
/// then, it is refused: a second press, or the brush of a sleeve, must not answer a card that nobody has read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Command {
    /// Begin the walk.
    Begin,
    /// The whole card is good, or what is left of it; the next card that has no answer comes up.
    CardGood {
        /// The card on the screen.
        card: CardNo,
    },
    /// Answer one point of the card.
    Answer {
        /// The card on the screen.
        card: CardNo,
        /// Which point.
        point: PointId,
        /// With what; judged against the procedure and the tag.
        value: Value,
    },
    /// A point of the card is deficient.
    FindDeficiency {
        /// The card on the screen.
        card: CardNo,
        /// Which point.
        point: PointId,
        /// What it is called in the procedure (its English words), or `OTHER` with a note.
        name: String,
        /// Note and photos.
        sighting: Sighting,
    },
    /// Name the piece that a finding rejects, where the tag and the answers do not.
    RejectPiece {
        /// Which finding.
        finding: FindingNo,
        /// The piece's serial number.
        serial: Serial,
    },
    /// The tag names a piece that is rejected elsewhere.
    KnowFault {
        /// What is known.
        fault: TagFault,
    },
    /// The riggers say that a finding is put right.
    PutRight {
        /// Which.
        finding: FindingNo,
        /// Who did it, if told.
        by: Option<CallSign>,
        /// Note and photos.
        sighting: Sighting,
    },
    /// The inspector has looked again at a finding that was put right.
    LookAgain {
        /// Which.
        finding: FindingNo,
        /// Who looks: none but the walk's inspector may.
        by: CallSign,
        /// What is seen.
        again: Again,
        /// The new count, choice, measure or serial; judged, and needed where the point cannot be good without one.
        value: Option<Value>,
        /// Note and photos.
        sighting: Sighting,
    },
    /// Take back the last answer.
    Undo {
        /// Its number, as the screen shows it (`Walk::last_answer`): a second press takes nothing more back.
        answer: u32,
    },
    /// Go to a card, answered or not.
    GoTo {
        /// Which.
        card: CardNo,
    },
    /// Put down what the statics of the rigging say; the last word counts.
    AssessRigging {
        /// What they say.
        finding: RiggingFinding,
    },
    /// Stop for a while.
    Pause,
    /// Go on.
    Resume {
        /// Who goes on: none but the walk's inspector may.
        by: CallSign,
    },
    /// End the walk without a decision.
    Abandon {
        /// Why.
        reason: Note,
    },
    /// Decide.
    Decide {
        /// Who decides: none but the walk's inspector may.
        by: CallSign,
        /// What.
        outcome: Outcome,
        /// Why; needed for not fit where nothing on the record says why.
        reason: Option<Note>,
    },
    /// Take the decision back. Whoever calls this sees to it that nothing was sealed: a seal is taken back by a void.
    TakeBackDecision {
        /// Who takes it back: none but the walk's inspector may.
        by: CallSign,
    },
}
