//! A unit's procedures as one item of a bundle: their texts together, deflated. Texts of one trade repeat themselves, so that a set
//! of them shrinks to a fifth, and a moving code that carries it is held up a fifth as long.

use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_with_limit};

use slingseal_catalogue::{Saying, audit as words, error_by_saying};
use slingseal_message::envelope::{Limits, Reader, ShapeError, StrictError, Writer, check};

/// The most bytes that a pack has once it is inflated: a few hundred bytes can claim to be gigabytes.
const MOST_INFLATED: usize = 4 << 20;
/// The most texts of one pack.
const MOST_TEXTS: usize = 256;
/// The most bytes of one text, as everywhere.
const MOST_TEXT: usize = 1 << 20;
/// Of DEFLATE's nine the one that is slowest and smallest: it is done once, and read by every frame that is not needed.
const EFFORT: u8 = 9;

/// Texts of procedures that travel together.
///
/// ```cddl
/// pack = bytes   ; DEFLATE (RFC 1951) of the deterministic encoding of texts, at most 4,194,304 bytes inflated
/// texts = [ 1*256 tstr ]                        ; each at most 1,048,576 bytes
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pack {
    /// The whole text of each.
    pub texts: Vec<String>,
}

/// Why bytes are no pack, or texts make none.
#[derive(Clone, Debug, PartialEq)]
pub enum PackError {
    /// Nothing to pack.
    Empty,
    /// More texts than one pack has.
    TooMany(usize),
    /// More text than one pack has.
    TooLong,
    /// It does not inflate.
    Damaged,
    /// It inflates to more than any pack of ours.
    Bomb,
    /// What comes out is not in the one form that it has.
    Form(StrictError),
    /// What comes out is built otherwise.
    Shape(ShapeError),
}

impl PackError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Empty => words::PackErrorEmpty.into(),
            Self::TooMany(count) => words::PackErrorTooMany { count, most: MOST_TEXTS }.into(),
            Self::TooLong => words::PackErrorTooLong.into(),
            Self::Damaged => words::PackErrorDamaged.into(),
            Self::Bomb => words::PackErrorBomb { most: MOST_INFLATED }.into(),
            Self::Form(error) => error.saying(),
            Self::Shape(error) => error.saying(),
        }
    }
}

error_by_saying!(PackError);

impl From<StrictError> for PackError {
    fn from(error: StrictError) -> Self {
        Self::Form(error)
    }
}

impl From<ShapeError> for PackError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl Pack {
    /// Its bytes. What a reader refuses is not written.
    ///
    /// # Errors
    /// No text, too many, too long.
    pub fn to_bytes(&self) -> Result<Vec<u8>, PackError> {
        if self.texts.is_empty() {
            return Err(PackError::Empty);
        }
        if self.texts.len() > MOST_TEXTS {
            return Err(PackError::TooMany(self.texts.len()));
        }
        let mut out = Writer::new();
        out.array(self.texts.len());
        for text in &self.texts {
            out.text(text);
        }
        let plain = out.into_bytes();
        if plain.len() > MOST_INFLATED || self.texts.iter().any(|text| text.len() > MOST_TEXT) {
            return Err(PackError::TooLong);
        }
        Ok(compress_to_vec(&plain, EFFORT))
    }

    /// Reads one, within bounds of memory whatever it claims.
    ///
    /// # Errors
    /// Bytes that are none.
    pub fn parse(bytes: &[u8]) -> Result<Self, PackError> {
        let plain =
            decompress_to_vec_with_limit(bytes, MOST_INFLATED).map_err(|error| match error.status {
                TINFLStatus::HasMoreOutput => PackError::Bomb,
                _ => PackError::Damaged,
            })?;
        check(&plain, Limits { bytes: MOST_INFLATED, depth: 2 })?;
        let mut reader = Reader::new(&plain);
        let texts = reader.list(MOST_TEXTS, "pack of procedures", |reader| {
            let text = reader.text("procedure")?;
            if text.len() > MOST_TEXT { Err(ShapeError("procedure")) } else { Ok(text.to_owned()) }
        })?;
        if texts.is_empty() { Err(PackError::Empty) } else { Ok(Self { texts }) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pack(texts: &[&str]) -> Pack {
        Pack { texts: texts.iter().map(|text| (*text).to_owned()).collect() }
    }

    #[test]
    fn what_is_packed_comes_out() {
        let long = "one strap, two straps; ".repeat(4_000);
        let pack = pack(&["", "id = \"bag\"", &long]);
        let bytes = pack.to_bytes().unwrap();
        assert!(bytes.len() < long.len() / 20, "{} bytes", bytes.len());
        assert_eq!(Pack::parse(&bytes).unwrap(), pack);
        for end in 0..bytes.len() {
            assert!(Pack::parse(&bytes[..end]).is_err(), "cut at {end}");
        }
    }

    /// A few kilobytes that inflate to gigabytes fill no memory.
    #[test]
    fn nothing_inflates_without_bound() {
        let bomb = compress_to_vec(&vec![0x60; 64 << 20], 9);
        assert!(bomb.len() < 100_000);
        assert_eq!(Pack::parse(&bomb), Err(PackError::Bomb));
        assert_eq!(Pack::parse(b"no deflate at all"), Err(PackError::Damaged));
        assert_eq!(Pack::parse(&[]), Err(PackError::Damaged));
        let count = compress_to_vec(&[0x9b, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff], 9);
        assert!(Pack::parse(&count).is_err(), "it counts 2^64 - 1 texts");
    }

    #[test]
    fn what_is_not_read_is_not_written() {
        assert_eq!(pack(&[]).to_bytes(), Err(PackError::Empty));
        assert_eq!(pack(&["x"; 257]).to_bytes(), Err(PackError::TooMany(257)));
        assert_eq!(pack(&[&"x".repeat((1 << 20) + 1)]).to_bytes(), Err(PackError::TooLong));
        let most = "x".repeat(1 << 20);
        assert_eq!(pack(&[&most, &most, &most, &most]).to_bytes(), Err(PackError::TooLong), "with the heads");
        assert!(pack(&[&most, &most, &most]).to_bytes().is_ok());
        // Written otherwise: an empty list, a text in chunks.
        for plain in [vec![0x80], vec![0x81, 0x7f, 0x61, 0x61, 0xff], vec![0x81, 0x41, 0x61]] {
            assert!(Pack::parse(&compress_to_vec(&plain, 9)).is_err(), "{plain:?}");
        }
    }
}
