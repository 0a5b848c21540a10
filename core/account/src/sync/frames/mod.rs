//! The moving code: one bundle as an endless sequence of frames, any sufficient part of which gives it back.
//!
//! RaptorQ (RFC 6330) with every object parameter fixed here or derived from the length, so that no frame can choose
//! how much is allocated: one source block, one sub-block, symbols of [`SYMBOL`] bytes.
//!
//! ```text
//! frame  = id:8  length:4  esi:3  check:4  symbol:300      big-endian, 319 bytes
//! object = sha256:32  content
//! id     = the first eight bytes of sha256(content);  length = of the object
//! check  = CRC-32 (ISO-HDLC) of id, length, esi and symbol
//! ```
//!
//! 319 bytes are 479 characters of Base45; with the four of the kind they fill a code of version 13 at level M (483) exactly.
//! The check sum finds damage, not malice: what decides is the digest over the whole, and after that the signatures inside.

mod reader;
#[cfg(test)]
mod tests;
mod writer;

pub use reader::{FrameReader, Heard, Progress};
pub use writer::FrameWriter;

use raptorq::ObjectTransmissionInformation;
use slingseal_catalogue::{Saying, faults as words};

use slingseal_message::envelope::{Kind, TextError};
use slingseal_words::Digest;

/// Bytes of one symbol.
const SYMBOL: usize = 300;
const DIGEST: usize = 32;
/// Bytes of one frame.
const FRAME: usize = 8 + 4 + 3 + 4 + SYMBOL;
/// The most bytes that a moving code carries: at ten frames a second this is six minutes, and nobody holds a device for longer.
const MOST: usize = 1 << 20;
/// Symbol numbers have 24 bits.
const NUMBERS: u32 = 1 << 24;

/// Why a frame or a bundle is refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FrameError {
    /// Nothing to send.
    Empty,
    /// Too much for a moving code.
    TooLong {
        /// How long it is.
        bytes: usize,
        /// How long it may be.
        most: usize,
    },
    /// Not a text of ours.
    Text(TextError),
    /// A code, but of another kind.
    OtherKind(Kind),
    /// Another length than every frame has.
    WrongLength(usize),
    /// The check sum does not fit.
    Damaged,
    /// It says that the whole is empty or longer than a moving code carries.
    WrongSize(u32),
    /// Its length is not that of the other frames with its id.
    Contradicts,
    /// All came together, and the digest is another.
    WrongDigest,
}

impl FrameError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Empty => words::FrameErrorEmpty.into(),
            Self::TooLong { bytes, most } => words::FrameErrorTooLong { bytes, most }.into(),
            Self::Text(error) => error.saying(),
            Self::OtherKind(kind) => words::FrameErrorOtherKind { kind }.into(),
            Self::WrongLength(count) => words::FrameErrorWrongLength { count }.into(),
            Self::Damaged => words::FrameErrorDamaged.into(),
            Self::WrongSize(count) => words::FrameErrorWrongSize { count }.into(),
            Self::Contradicts => words::FrameErrorContradicts.into(),
            Self::WrongDigest => words::FrameErrorWrongDigest.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(FrameError);

impl From<TextError> for FrameError {
    fn from(error: TextError) -> Self {
        Self::Text(error)
    }
}

/// The parameters of an object of `length` bytes, which has been checked against the bounds.
fn parameters(length: usize) -> ObjectTransmissionInformation {
    ObjectTransmissionInformation::new(length as u64, SYMBOL as u16, 1, 1, 1)
}

/// How many symbols an object of `length` bytes has.
fn symbols(length: usize) -> u32 {
    u32::try_from(length.div_ceil(SYMBOL)).unwrap_or(u32::MAX)
}

fn id_of(digest: &Digest) -> [u8; 8] {
    digest.as_bytes().first_chunk().copied().unwrap_or_default()
}

fn check_sum(id: &[u8; 8], length: u32, number: u32, symbol: &[u8]) -> u32 {
    let mut hasher = crc32fast::Hasher::new();
    for part in [id.as_slice(), &length.to_be_bytes(), &number.to_be_bytes(), symbol] {
        hasher.update(part);
    }
    hasher.finalize()
}
