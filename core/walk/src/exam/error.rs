use slingseal_catalogue::{Saying, faults as words};
use slingseal_message::envelope::{ShapeError, Sign1Error, StrictError};
use slingseal_message::tag::TagError;
use slingseal_message::trust::TrustError;
use slingseal_words::{CallSign, LineError, LoadNumber, PointId, ProcedureId};

/// Why something of an examination is refused. Each is one line: what is wrong; what to do.
#[derive(Clone, Debug, PartialEq)]
pub enum ExamError {
    /// Not a signed message.
    Form(Sign1Error),
    /// Not built as it must be.
    Shape(ShapeError),
    /// Not deterministic CBOR.
    Strict(StrictError),
    /// A text that cannot stand in its place.
    Line(LineError),
    /// A signature that does not hold, or of nobody trusted here.
    Trust(TrustError),
    /// No tag.
    Tag(TagError),
    /// Nothing is planted.
    NothingPlanted,
    /// More than a code carries.
    TooMany {
        /// How many were wanted.
        found: usize,
        /// How many there may be.
        most: usize,
    },
    /// More than the load has room for.
    NoRoom {
        /// How many were wanted.
        wanted: usize,
        /// How many there is room for.
        room: usize,
        /// Of which procedure.
        procedure: ProcedureId,
    },
    /// The procedure has no such point.
    NoSuchPoint {
        /// The point.
        point: PointId,
        /// The procedure.
        procedure: ProcedureId,
    },
    /// The point knows no such deficiency.
    NoSuchDeficiency {
        /// The point.
        point: PointId,
        /// The name that was given.
        name: String,
        /// Those that it has.
        known: String,
    },
    /// Two on one card: one look would find both, or one would hide the other.
    TwoOnACard {
        /// The card.
        card: u32,
    },
    /// A standard that cannot be met or means nothing.
    Standard(Saying),
    /// The tag in hand is not the locked load's.
    OtherTag {
        /// The key's load.
        load: LoadNumber,
    },
    /// The procedure in hand is not the locked one.
    OtherProcedure {
        /// The key's procedure and version.
        locked: String,
        /// What there is.
        found: String,
    },
    /// The list is not the one that was locked.
    KeyChanged,
    /// Of another key.
    OtherKey {
        /// `result` or `run`.
        what: &'static str,
    },
    /// The student is the instructor.
    StudentIsInstructor {
        /// Who.
        name: CallSign,
    },
    /// Signed by somebody who may not.
    NotAnInstructor {
        /// Who.
        name: CallSign,
    },
    /// Signed after the credential had run out.
    CredentialRanOut {
        /// Who.
        name: CallSign,
    },
    /// The run begins before the lock.
    BeforeTheLock {
        /// How long before.
        seconds: i64,
    },
    /// A command that has no place in a run.
    NotInARun(Saying),
    /// The events do not make a run.
    Run(Saying),
    /// The run is not ended.
    NotEnded,
    /// What the result says is not what the sheet shows.
    Disagrees {
        /// About what.
        about: Saying,
    },
}

impl ExamError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Form(error) => error.saying(),
            Self::Shape(error) => error.saying(),
            Self::Strict(error) => error.saying(),
            Self::Line(error) => error.saying(),
            Self::Trust(error) => error.saying(),
            Self::Tag(error) => error.saying(),
            Self::NothingPlanted => words::ExamErrorNothingPlanted.into(),
            Self::TooMany { found, most } => words::ExamErrorTooMany { found, most }.into(),
            Self::NoRoom { wanted, room, procedure } => {
                words::ExamErrorNoRoom { wanted, procedure, room }.into()
            }
            Self::NoSuchPoint { point, procedure } => words::ExamErrorNoSuchPoint { procedure, point }.into(),
            Self::NoSuchDeficiency { point, name, known } => {
                words::ExamErrorNoSuchDeficiency { point, name, known }.into()
            }
            Self::TwoOnACard { card } => words::ExamErrorTwoOnACard { card }.into(),
            Self::Standard(what) => what.clone(),
            Self::OtherTag { load } => words::ExamErrorOtherTag { load }.into(),
            Self::OtherProcedure { locked, found } => words::ExamErrorOtherProcedure { locked, found }.into(),
            Self::KeyChanged => words::ExamErrorKeyChanged.into(),
            Self::OtherKey { what } => words::ExamErrorOtherKey { what }.into(),
            Self::StudentIsInstructor { name } => words::ExamErrorStudentIsInstructor { name }.into(),
            Self::NotAnInstructor { name } => words::ExamErrorNotAnInstructor { name }.into(),
            Self::CredentialRanOut { name } => words::ExamErrorCredentialRanOut { name }.into(),
            Self::BeforeTheLock { seconds } => words::ExamErrorBeforeTheLock { seconds }.into(),
            Self::NotInARun(what) => what.clone(),
            Self::Run(text) => words::ExamErrorRun { text }.into(),
            Self::NotEnded => words::ExamErrorNotEnded.into(),
            Self::Disagrees { about } => words::ExamErrorDisagrees { about }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(ExamError);

impl From<Sign1Error> for ExamError {
    fn from(error: Sign1Error) -> Self {
        Self::Form(error)
    }
}

impl From<ShapeError> for ExamError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl From<StrictError> for ExamError {
    fn from(error: StrictError) -> Self {
        Self::Strict(error)
    }
}

impl From<LineError> for ExamError {
    fn from(error: LineError) -> Self {
        Self::Line(error)
    }
}

impl From<TrustError> for ExamError {
    fn from(error: TrustError) -> Self {
        Self::Trust(error)
    }
}

impl From<TagError> for ExamError {
    fn from(error: TagError) -> Self {
        Self::Tag(error)
    }
}
