use slingseal_message::envelope::{ShapeError, Sign1Error, StrictError};
use slingseal_message::tag::TagError;
use slingseal_message::trust::TrustError;
use slingseal_words::{CallSign, LineError, LoadNumber, PointId, ProcedureId};

/// Why something of an examination is refused. Each is one line: what is wrong; what to do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ExamError {
    /// Not a signed message.
    #[error(transparent)]
    Form(#[from] Sign1Error),
    /// Not built as it must be.
    #[error(transparent)]
    Shape(#[from] ShapeError),
    /// Not deterministic CBOR.
    #[error(transparent)]
    Strict(#[from] StrictError),
    /// A text that cannot stand in its place.
    #[error(transparent)]
    Line(#[from] LineError),
    /// A signature that does not hold, or of nobody trusted here.
    #[error(transparent)]
    Trust(#[from] TrustError),
    /// No tag.
    #[error(transparent)]
    Tag(#[from] TagError),
    /// Nothing is planted.
    #[error("nothing is planted; pick at least one deficiency, or have some drawn")]
    NothingPlanted,
    /// More than a code carries.
    #[error("{found} deficiencies are more than a key carries; plant at most {most}")]
    TooMany {
        /// How many were wanted.
        found: usize,
        /// How many there may be.
        most: usize,
    },
    /// More than the load has room for.
    #[error(
        "{wanted} deficiencies cannot be drawn: {procedure} has {room} cards with one that can be put right in place; ask for fewer"
    )]
    NoRoom {
        /// How many were wanted.
        wanted: usize,
        /// How many there is room for.
        room: usize,
        /// Of which procedure.
        procedure: ProcedureId,
    },
    /// The procedure has no such point.
    #[error("procedure {procedure} has no point {point}; see procedure show {procedure}")]
    NoSuchPoint {
        /// The point.
        point: PointId,
        /// The procedure.
        procedure: ProcedureId,
    },
    /// The point knows no such deficiency.
    #[error("point {point} has no deficiency \"{name}\"; it has: {known}")]
    NoSuchDeficiency {
        /// The point.
        point: PointId,
        /// The name that was given.
        name: String,
        /// Those that it has.
        known: String,
    },
    /// Two on one card: one look would find both, or one would hide the other.
    #[error("card {card} would have two deficiencies, and one can hide the other; plant one a card")]
    TwoOnACard {
        /// The card.
        card: u32,
    },
    /// A standard that cannot be met or means nothing.
    #[error("{0}")]
    Standard(&'static str),
    /// The tag in hand is not the locked load's.
    #[error(
        "the key is locked on load {load} and its tag, and this is another tag; scan the tag on that load"
    )]
    OtherTag {
        /// The key's load.
        load: LoadNumber,
    },
    /// The procedure in hand is not the locked one.
    #[error(
        "the key is for procedure {locked} and this is {found}; lock a key for this procedure, or take the file that the key names"
    )]
    OtherProcedure {
        /// The key's procedure and version.
        locked: String,
        /// What there is.
        found: String,
    },
    /// The list is not the one that was locked.
    #[error(
        "the planted list is not the one that was locked: it was changed afterwards; the result cannot count"
    )]
    KeyChanged,
    /// Of another key.
    #[error("this {what} belongs to another key; bring the one of the key in hand")]
    OtherKey {
        /// `result` or `run`.
        what: &'static str,
    },
    /// The student is the instructor.
    #[error("{name} locked this key and cannot be examined under it; another instructor must lock one")]
    StudentIsInstructor {
        /// Who.
        name: CallSign,
    },
    /// Signed by somebody who may not.
    #[error("{name} is not credentialed as an instructor; an instructor must sign this")]
    NotAnInstructor {
        /// Who.
        name: CallSign,
    },
    /// Signed after the credential had run out.
    #[error("the credential of {name} had run out when this was signed; it does not count")]
    CredentialRanOut {
        /// Who.
        name: CallSign,
    },
    /// The run begins before the lock.
    #[error(
        "by this device's clock the key is locked {seconds} s from now; set the clock of this device or of the instructor's"
    )]
    BeforeTheLock {
        /// How long before.
        seconds: i64,
    },
    /// A command that has no place in a run.
    #[error("{0}")]
    NotInARun(&'static str),
    /// The events do not make a run.
    #[error("the run cannot be read: {0}; bring its sheet again")]
    Run(String),
    /// The run is not ended.
    #[error("the run is not ended; end it first")]
    NotEnded,
    /// What the result says is not what the sheet shows.
    #[error("the result says other than the run's sheet shows about the {about}; it does not count")]
    Disagrees {
        /// About what.
        about: &'static str,
    },
}
