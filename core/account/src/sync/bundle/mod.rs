//! The bundle: what one device brings another, as one file or as the content of a moving code.
//!
//! ```text
//! bundle = "SLINGSEAL BUNDLE 1\n"  item*
//! item   = mark:4  kind:1  length:4  check:8  body        big-endian; mark = A5 53 42 1A
//! check  = the first eight bytes of SHA-256 over kind, length and body
//! ```
//!
//! Every item stands alone and in any order: a bundle is a set, and merging is a union. A damaged stretch costs the items that
//! it touches and no other, since reading goes on at the next mark whose check fits. The check finds damage; what an item is
//! worth is decided by the signatures inside.

mod examine;
mod reader;
#[cfg(test)]
mod tests;
mod writer;

pub use examine::{Examined, Unfit, examine_body, examine_record};
pub use reader::{BundleReader, Piece};
use slingseal_catalogue::{Saying, faults as words};
pub use writer::BundleWriter;

use slingseal_message::envelope::{Reader, ShapeError, Writer};
use slingseal_words::Digest;

const FRONT: &[u8] = b"SLINGSEAL BUNDLE 1\n";
const MARK: [u8; 4] = [0xA5, b'S', b'B', 0x1A];
const HEAD: usize = 4 + 1 + 4 + 8;

macro_rules! item_kinds {
    ($($(#[$doc:meta])* $variant:ident $code:literal $english:literal,)*) => {
        /// What an item of a bundle is.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum ItemKind {
            $($(#[$doc])* $variant,)*
        }

        impl ItemKind {
            /// Every kind that this program knows.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// The number that stands for it wherever it travels.
            pub fn code(self) -> u8 {
                match self { $(Self::$variant => $code,)* }
            }

            /// The kind of a number; none where a newer program wrote it.
            pub fn from_code(code: u8) -> Option<Self> {
                match code { $($code => Some(Self::$variant),)* _ => None }
            }

            /// What a person calls it.
            pub fn english(self) -> &'static str {
                match self { $(Self::$variant => $english,)* }
            }
        }
    };
}

impl ItemKind {
    /// What a person calls it, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Credential => words::KindCredential.into(),
            Self::Roster => words::KindRoster.into(),
            Self::Tag => words::KindTag.into(),
            Self::Void => words::KindVoid.into(),
            Self::Record => words::KindRecord.into(),
            Self::Head => words::KindHead.into(),
            Self::Photo => words::KindPhoto.into(),
            Self::Procedure => words::KindProcedure.into(),
            Self::ExamKey => words::KindExamKey.into(),
            Self::ExamSheet => words::KindExamSheet.into(),
            Self::ExamResult => words::KindExamResult.into(),
            Self::Movement => words::KindMovement.into(),
            Self::Closing => words::KindClosing.into(),
            Self::Inspection => words::KindInspection.into(),
            Self::Pack => words::KindPack.into(),
        }
    }
}

item_kinds! {
    /// A credential, as the authority signed it.
    Credential 1 "credential",
    /// A roster, as the authority signed it.
    Roster 2 "roster",
    /// A load tag.
    Tag 3 "load tag",
    /// A void.
    Void 4 "void",
    /// A seal with its full record, if the sender has it: [`RecordItem`].
    Record 5 "record",
    /// The end of a device's journal as the sender knows it: [`HeadItem`].
    Head 6 "journal head",
    /// A photograph.
    Photo 7 "photograph",
    /// The text of a procedure that a record was walked by.
    Procedure 8 "procedure",
    /// An instructor's lock on what is planted for an examination, as it was signed.
    ExamKey 9 "examination key",
    /// A run of an examination that ended: plain, to be scored by whoever knows what was planted.
    ExamSheet 10 "sheet of an examination",
    /// A signed result of an examination, with its lock.
    ExamResult 11 "examination result",
    /// An inspection of what is no load, with its full record, if the sender has it: [`RecordItem`].
    Inspection 12 "inspection",
    /// A report of what became of a load, signed or bare.
    Movement 13 "movement report",
    /// What a leader handed up.
    Closing 14 "closing statement",
    /// Procedures that travel as one: [`Pack`](crate::sync::Pack).
    Pack 15 "pack of procedures",
}

impl ItemKind {
    /// The most bytes of its body.
    pub fn most(self) -> usize {
        match self {
            Self::Credential
            | Self::Roster
            | Self::Tag
            | Self::Void
            | Self::Head
            | Self::ExamKey
            | Self::ExamResult
            | Self::Movement
            | Self::Closing => 64 << 10,
            Self::Procedure => 1 << 20,
            Self::Record | Self::ExamSheet | Self::Pack | Self::Inspection => 4 << 20,
            Self::Photo => 16 << 20,
        }
    }
}

/// One item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// What it is.
    pub kind: ItemKind,
    /// Its bytes.
    pub body: Vec<u8>,
}

/// Why an item cannot be packed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// What it is.
    pub kind: ItemKind,
    /// How long it is.
    pub bytes: usize,
    /// How long it may be.
    pub most: usize,
}

impl TooLong {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        words::TooLong { kind: self.kind.saying(), bytes: self.bytes, most: self.most }.into()
    }
}

slingseal_catalogue::error_by_saying!(TooLong);

/// A seal, and the record that it attests.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordItem {
    /// The seal's bytes.
    pub seal: Vec<u8>,
    /// The record's bytes; `None` where the sender has the seal alone.
    pub record: Option<Vec<u8>>,
}

impl RecordItem {
    /// Its bytes.
    ///
    /// ```cddl
    /// record-item = [seal: bstr, record: bstr / null]
    /// ```
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Writer::new();
        out.array(2).bytes(&self.seal).maybe(self.record.as_deref(), |out, record| out.bytes(record));
        out.into_bytes()
    }

    /// Reads one.
    ///
    /// # Errors
    /// Another shape.
    pub fn parse(bytes: &[u8]) -> Result<Self, ShapeError> {
        let (seal, record) = Self::parts(bytes)?;
        Ok(Self { seal: seal.to_vec(), record: record.map(<[u8]>::to_vec) })
    }

    /// The seal's bytes and the record's, where they lie.
    ///
    /// # Errors
    /// Another shape.
    pub fn parts(bytes: &[u8]) -> Result<(&[u8], Option<&[u8]>), ShapeError> {
        let mut reader = Reader::new(bytes);
        reader.array(2, "record of a bundle")?;
        Ok((reader.bytes("seal")?, reader.maybe("record", |reader| reader.bytes("record"))?))
    }
}

/// The end of a device's journal: a record that tells the same number otherwise shows a copied or rewritten journal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct HeadItem {
    /// The device.
    pub device: [u8; 16],
    /// The number of its last entry.
    pub seq: u64,
    /// That entry's digest.
    pub digest: Digest,
}

impl HeadItem {
    /// Its bytes.
    ///
    /// ```cddl
    /// head-item = [device: bstr .size 16, seq: uint, digest: bstr .size 32]
    /// ```
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Writer::new();
        out.array(3).bytes(&self.device).int(i64::try_from(self.seq).unwrap_or(i64::MAX));
        out.bytes(self.digest.as_bytes());
        out.into_bytes()
    }

    /// Reads one.
    ///
    /// # Errors
    /// Another shape.
    pub fn parse(bytes: &[u8]) -> Result<Self, ShapeError> {
        let mut reader = Reader::new(bytes);
        reader.array(3, "journal head")?;
        Ok(Self {
            device: reader.fixed("device")?,
            seq: reader.small("number of an entry")?,
            digest: Digest::from_bytes(reader.fixed("digest")?),
        })
    }
}

fn check_of(kind: u8, length: u32, body: &[u8]) -> [u8; 8] {
    let digest = Digest::of_parts(&[&[kind], &length.to_be_bytes(), body]);
    digest.as_bytes().first_chunk().copied().unwrap_or_default()
}
