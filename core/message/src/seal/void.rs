use crate::envelope::{Claims, Kind, Limits, Reader, ShapeError, Sign1, Sign1Error, Unsigned, Writer};
use std::str::FromStr;

use slingseal_catalogue::{Language, Saying, judgement as words, refusals};
use slingseal_words::{Digest, LoadNumber, Note, Time};

/// Why a seal no longer holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum VoidCause {
    /// Someone touched or opened the rigging.
    RiggingDisturbed,
    /// The load was moved, dropped or dragged.
    LoadMoved,
    /// A hookup was begun and broken off.
    HookupAborted,
    /// Equipment on it was withdrawn.
    EquipmentWithdrawn,
    /// Another reason, in the note.
    Other,
}

impl VoidCause {
    /// Every cause.
    pub const ALL: [Self; 5] =
        [Self::RiggingDisturbed, Self::LoadMoved, Self::HookupAborted, Self::EquipmentWithdrawn, Self::Other];

    /// The word for commands and exports.
    pub fn word(self) -> &'static str {
        match self {
            Self::RiggingDisturbed => "rigging-disturbed",
            Self::LoadMoved => "load-moved",
            Self::HookupAborted => "hookup-aborted",
            Self::EquipmentWithdrawn => "equipment-withdrawn",
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
            Self::RiggingDisturbed => words::VoidRiggingDisturbed.into(),
            Self::LoadMoved => words::VoidLoadMoved.into(),
            Self::HookupAborted => words::VoidHookupAborted.into(),
            Self::EquipmentWithdrawn => words::VoidEquipmentWithdrawn.into(),
            Self::Other => words::VoidOther.into(),
        }
    }

    fn code(self) -> i64 {
        match self {
            Self::Other => 0,
            Self::RiggingDisturbed => 1,
            Self::LoadMoved => 2,
            Self::HookupAborted => 3,
            Self::EquipmentWithdrawn => 4,
        }
    }
}

impl FromStr for VoidCause {
    type Err = Saying;

    /// The cause of a word. Another word: what the words are.
    fn from_str(word: &str) -> Result<Self, Saying> {
        let cause = word.trim();
        Self::ALL.into_iter().find(|known| known.word() == cause).ok_or_else(|| {
            refusals::NoSuchCause { cause: &cause, list: Self::ALL.map(Self::word).join(", ") }.into()
        })
    }
}

/// The signed word of someone credentialed that a seal no longer holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Void {
    /// The load.
    pub load: LoadNumber,
    /// When it was signed.
    pub issued: Time,
    /// The record whose seal it takes back.
    pub record: Digest,
    /// Why.
    pub cause: VoidCause,
    /// More, in a person's words.
    pub note: Option<Note>,
}

/// Why bytes are not a void.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VoidError {
    /// Not a signed message.
    Form(Sign1Error),
    /// Not built as a void.
    Shape(ShapeError),
}

impl VoidError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Form(error) => error.saying(),
            Self::Shape(error) => error.saying(),
        }
    }
}

slingseal_catalogue::error_by_saying!(VoidError);

impl From<Sign1Error> for VoidError {
    fn from(error: Sign1Error) -> Self {
        Self::Form(error)
    }
}

impl From<ShapeError> for VoidError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl Void {
    /// Prepares the void under its signer's credential, to be signed and finished.
    ///
    /// ```cddl
    /// void    = message  ; header { 1: -19, 13: the signer's credential }
    ///                    ; claims { 2: load number, 6: issued, -65537: content }
    /// content = [record: bstr .size 32, cause: uint, note: tstr / null]
    /// ```
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        let mut out = Writer::new();
        out.array(3).bytes(self.record.as_bytes()).int(self.cause.code());
        out.maybe(self.note.as_ref(), |out, note| out.text(note.as_str()));
        let content = out.into_bytes();
        let claims = Claims::statement(self.load.as_str(), self.issued, &content);
        Unsigned::prepare(Kind::Void, credential, &claims)
    }

    /// Reads a void; believe nothing of it before the signer is known.
    ///
    /// # Errors
    /// Bytes that are not a void in its only spelling.
    pub fn open(bytes: &[u8]) -> Result<(Self, Sign1<'_>), VoidError> {
        let message = Sign1::parse(bytes, Limits::CODE)?;
        let (load, issued, content) = Claims::parse(message.payload)?.read_statement("claims of a void")?;
        let mut reader = Reader::new(content);
        reader.array(3, "content of a void")?;
        let record = Digest::from_bytes(reader.fixed("record")?);
        let code = reader.int("cause")?;
        let void = Self {
            load: Reader::line_of(load, "load number", LoadNumber::new)?,
            issued,
            record,
            cause: VoidCause::ALL
                .into_iter()
                .find(|cause| cause.code() == code)
                .ok_or(ShapeError("cause"))?,
            note: reader.maybe("note", |reader| reader.line("note", Note::received))?,
        };
        Ok((void, message))
    }
}
