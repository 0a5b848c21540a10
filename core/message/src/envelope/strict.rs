//! One pass over the raw bytes before anything else looks at them. General decoders accept several spellings of one
//! value (indefinite lengths, wide heads, repeated keys, bytes behind the end); each is a way to make two readers see
//! two messages under one signature, so all are refused here.

use slingseal_catalogue::{Saying, faults as words};

/// How much a message may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The most bytes.
    pub bytes: usize,
    /// How deep arrays and maps may nest.
    pub depth: u8,
}

impl Limits {
    /// For what must fit on a printed code: the largest code at level M holds 2,258 bytes of Base45.
    pub const CODE: Self = Self { bytes: 2_300, depth: 8 };
    /// For what travels as a file: a full record, a bundle.
    pub const FILE: Self = Self { bytes: 64 << 20, depth: 12 };
}

/// Why bytes are not deterministic CBOR as RFC 8949 §4.2.1 wants it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StrictError {
    /// Larger than any message of its kind.
    TooLarge {
        /// Its size.
        found: usize,
        /// The limit.
        most: usize,
    },
    /// Nested deeper than any message of its kind.
    TooDeep,
    /// It ends before its end.
    CutOff,
    /// Something stands behind its end.
    Trailing,
    /// A length or number written wider than needed.
    NotShortest,
    /// A length that is not told ahead.
    Indefinite,
    /// Tags, floats, undefined: nothing of ours has them.
    NotUsedHere,
    /// A key twice, or keys out of order.
    KeyOrder,
    /// A text that is not UTF-8.
    NotText,
}

impl StrictError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::TooLarge { found, most } => words::StrictErrorTooLarge { found, most }.into(),
            Self::TooDeep => words::StrictErrorTooDeep.into(),
            Self::CutOff => words::StrictErrorCutOff.into(),
            Self::Trailing => words::StrictErrorTrailing.into(),
            Self::NotShortest => words::StrictErrorNotShortest.into(),
            Self::Indefinite => words::StrictErrorIndefinite.into(),
            Self::NotUsedHere => words::StrictErrorNotUsedHere.into(),
            Self::KeyOrder => words::StrictErrorKeyOrder.into(),
            Self::NotText => words::StrictErrorNotText.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(StrictError);

/// Passes exactly one deterministic CBOR item: definite lengths, shortest heads, map keys in the order of their
/// encoded bytes and none twice, no tags, no floats, nothing behind the end.
pub fn check(bytes: &[u8], limits: Limits) -> Result<(), StrictError> {
    if bytes.len() > limits.bytes {
        return Err(StrictError::TooLarge { found: bytes.len(), most: limits.bytes });
    }
    let mut rest = bytes;
    item(&mut rest, limits.depth)?;
    if rest.is_empty() { Ok(()) } else { Err(StrictError::Trailing) }
}

fn item(rest: &mut &[u8], depth: u8) -> Result<(), StrictError> {
    let (major, argument) = head(rest)?;
    match major {
        0 | 1 => Ok(()),
        2 => take(rest, argument).map(drop),
        3 => match std::str::from_utf8(take(rest, argument)?) {
            Ok(_) => Ok(()),
            Err(_) => Err(StrictError::NotText),
        },
        4 => {
            let depth = depth.checked_sub(1).ok_or(StrictError::TooDeep)?;
            // Each item takes at least one byte, so a hostile count ends at the end of the bytes.
            for _ in 0..argument {
                item(rest, depth)?;
            }
            Ok(())
        }
        5 => {
            let depth = depth.checked_sub(1).ok_or(StrictError::TooDeep)?;
            let mut last: &[u8] = &[];
            for _ in 0..argument {
                let before = *rest;
                item(rest, depth)?;
                let key = before.get(..before.len() - rest.len()).ok_or(StrictError::CutOff)?;
                if key <= last {
                    return Err(StrictError::KeyOrder);
                }
                last = key;
                item(rest, depth)?;
            }
            Ok(())
        }
        // 7: false, true and null alone.
        7 if (20..=22).contains(&argument) => Ok(()),
        _ => Err(StrictError::NotUsedHere),
    }
}

/// The major type and the argument of a head in its shortest form.
fn head(rest: &mut &[u8]) -> Result<(u8, u64), StrictError> {
    let first = *take(rest, 1)?.first().ok_or(StrictError::CutOff)?;
    let (major, low) = (first >> 5, first & 0x1f);
    let width = match low {
        0..=23 => return Ok((major, u64::from(low))),
        // Simple values above 23 and floats.
        24..=27 if major == 7 => return Err(StrictError::NotUsedHere),
        24..=27 => 1u64 << (low - 24),
        31 => return Err(StrictError::Indefinite),
        _ => return Err(StrictError::NotUsedHere),
    };
    let argument = take(rest, width)?.iter().fold(0u64, |sum, byte| sum << 8 | u64::from(*byte));
    let shortest = match width {
        1 => argument > 23,
        2 => argument > 0xff,
        4 => argument > 0xffff,
        _ => argument > 0xffff_ffff,
    };
    if shortest { Ok((major, argument)) } else { Err(StrictError::NotShortest) }
}

fn take<'b>(rest: &mut &'b [u8], length: u64) -> Result<&'b [u8], StrictError> {
    let length = usize::try_from(length).map_err(|_| StrictError::CutOff)?;
    let (taken, left) = rest.split_at_checked(length).ok_or(StrictError::CutOff)?;
    *rest = left;
    Ok(taken)
}

#[cfg(test)]
mod tests {
    use super::{Limits, StrictError, check};

    fn hex(text: &str) -> Vec<u8> {
        text.as_bytes()
            .chunks(2)
            .map(|pair| u8::from_str_radix(std::str::from_utf8(pair).unwrap(), 16).unwrap())
            .collect()
    }

    fn verdict(text: &str) -> Result<(), StrictError> {
        check(&hex(text), Limits::CODE)
    }

    /// RFC 8949 Appendix A: the examples of what is used here pass, the others are refused.
    #[test]
    fn rfc_8949_appendix_a() {
        for good in [
            "00",
            "01",
            "0a",
            "17",
            "1818",
            "1819",
            "1864",
            "1903e8",
            "1a000f4240",
            "1b000000e8d4a51000",
            "20",
            "29",
            "3863",
            "3903e7",
            "f4",
            "f5",
            "f6",
            "40",
            "4401020304",
            "60",
            "6161",
            "6449455446",
            "62225c",
            "62c3bc",
            "63e6b0b4",
            "64f0908591",
            "80",
            "83010203",
            "8301820203820405",
            "98190102030405060708090a0b0c0d0e0f101112131415161718181819",
            "a0",
            "a201020304",
            "a26161016162820203",
            "826161a161626163",
            "a56161614161626142616361436164614461656145",
        ] {
            assert_eq!(verdict(good), Ok(()), "{good}");
        }
        for (bad, why) in [
            ("f90000", StrictError::NotUsedHere),
            ("fb3ff199999999999a", StrictError::NotUsedHere),
            ("f7", StrictError::NotUsedHere),
            ("f0", StrictError::NotUsedHere),
            ("f8ff", StrictError::NotUsedHere),
            ("c11a514b67b0", StrictError::NotUsedHere),
            ("5f42010243030405ff", StrictError::Indefinite),
            ("7f657374726561646d696e67ff", StrictError::Indefinite),
            ("9fff", StrictError::Indefinite),
            ("bf61610161629f0203ffff", StrictError::Indefinite),
        ] {
            assert_eq!(verdict(bad), Err(why), "{bad}");
        }
    }

    #[test]
    fn one_spelling_alone() {
        for (bad, why) in [
            ("", StrictError::CutOff),
            ("1817", StrictError::NotShortest),
            ("1900ff", StrictError::NotShortest),
            ("1a0000ffff", StrictError::NotShortest),
            ("1b00000000ffffffff", StrictError::NotShortest),
            ("5801ff", StrictError::NotShortest),
            ("0000", StrictError::Trailing),
            ("a2010203", StrictError::CutOff),
            ("a201020102", StrictError::KeyOrder),
            ("a203040102", StrictError::KeyOrder),
            ("61ff", StrictError::NotText),
            ("9bffffffffffffffff", StrictError::CutOff),
            ("5bffffffffffffffff", StrictError::CutOff),
            ("1c", StrictError::NotUsedHere),
            ("81818181818181818100", StrictError::TooDeep),
        ] {
            assert_eq!(verdict(bad), Err(why), "{bad}");
        }
        assert_eq!(
            check(&vec![0; 2_301], Limits::CODE),
            Err(StrictError::TooLarge { found: 2_301, most: 2_300 })
        );
    }
}
