//! A sealed copy of an authority's key in two parts: either alone is as good as noise, both together still want the passphrase.
//!
//! ```cddl
//! sealed = [1, sequence: uint, vault: bstr]
//! ```
//!
//! A part is `SEALED-1:` or `SEALED-2:` and Base45 (RFC 9285) of eight bytes that both parts of a pair share and of its share: the
//! first one's is drawn at random, the second one's is the copy XOR that. It is no message: nobody signs it, no verdict knows it,
//! no bundle carries it.
//!
//! On paper it stands as rows too, for the day on which no camera reads the code: the number of the part, the eight bytes and the
//! share, each row with a check of its own.

use slingseal_words::Entropy;
use zeroize::Zeroizing;

use super::vault::Vault;
use super::written;
use crate::envelope::{Limits, Reader, ShapeError, Writer, check};

const FRONTS: [&str; 2] = ["SEALED-1:", "SEALED-2:"];
/// Bytes that tell a pair from another: two parts of two copies make nothing.
const PAIR: usize = 8;
/// The most characters that are looked at; a copy takes some 300.
const LONGEST: usize = 1_024;
/// The fewest that are taken for rows: a part takes some 300, and a name or a number that somebody types is none.
const SHORTEST: usize = 100;

/// Why two texts make no copy. Whoever shows it finds the words: a verifier, which carries this file, needs none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartError {
    /// It is no part of a copy, or a damaged one.
    NoPart,
    /// It is the same part twice.
    Twice,
    /// They are parts of two copies.
    OtherPair,
    /// What they make is none.
    Damaged,
    /// This row is not as it was written.
    Row(u32),
}

/// One part of a copy, in both its forms.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CopyPart {
    /// 1 or 2.
    pub number: u8,
    /// The text of its code.
    pub text: String,
    /// The rows that a person writes down, from row 1 on.
    pub rows: Vec<String>,
}

impl CopyPart {
    /// A part as it was scanned, or as its rows were typed.
    ///
    /// # Errors
    /// The text is no part; a row of it is not as it was written.
    pub fn typed(text: &str) -> Result<Self, PartError> {
        share_of(text).or_else(|_| share_of_rows(text)).map(|share| share.part())
    }
}

/// A copy of an authority's key under its passphrase, and the sequence of the newest roster when it was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SealedCopy {
    /// The key under the passphrase alone: no device secret is in it.
    pub vault: Vault,
    /// A roster of this sequence was signed: whoever goes on begins after it.
    pub sequence: u32,
}

impl SealedCopy {
    /// In two parts.
    pub fn split(&self, entropy: &dyn Entropy) -> [CopyPart; 2] {
        let mut writer = Writer::new();
        writer.array(3).int(1).int(self.sequence.into()).bytes(self.vault.as_bytes());
        let whole = Zeroizing::new(writer.into_bytes());
        let mut pair = [0; PAIR];
        entropy.fill(&mut pair);
        let mut first = vec![0; whole.len()];
        entropy.fill(&mut first);
        let second = first.iter().zip(whole.iter()).map(|(a, b)| a ^ b).collect();
        [(1, first), (2, second)]
            .map(|(number, bytes)| Share { number, pair, bytes: Zeroizing::new(bytes) }.part())
    }

    /// Out of its two parts, in either order.
    ///
    /// # Errors
    /// A text that is no part; one part twice; parts of two copies.
    pub fn join(one: &str, other: &str) -> Result<Self, PartError> {
        let (one, other) = (share_of(one)?, share_of(other)?);
        if one.number == other.number {
            return Err(PartError::Twice);
        }
        if one.pair != other.pair || one.bytes.len() != other.bytes.len() {
            return Err(PartError::OtherPair);
        }
        let whole: Zeroizing<Vec<u8>> =
            Zeroizing::new(one.bytes.iter().zip(other.bytes.iter()).map(|(a, b)| a ^ b).collect());
        let read = || -> Result<Self, ShapeError> {
            check(&whole, Limits::CODE).map_err(|_| ShapeError("copy"))?;
            let mut reader = Reader::new(&whole);
            reader.array(3, "copy")?;
            if reader.int("version")? != 1 {
                return Err(ShapeError("version"));
            }
            let sequence = reader.small("sequence")?;
            Ok(Self { sequence, vault: Vault::from_bytes(reader.bytes("vault")?.to_vec()) })
        };
        read().map_err(|_| PartError::Damaged)
    }

    /// Which part of a copy a text is, 1 or 2; none where it is something else or damaged.
    pub fn part(text: &str) -> Option<u8> {
        share_of(text).ok().map(|share| share.number)
    }
}

struct Share {
    number: u8,
    pair: [u8; PAIR],
    bytes: Zeroizing<Vec<u8>>,
}

impl Share {
    fn part(&self) -> CopyPart {
        let [first, second] = FRONTS;
        let front = if self.number == 1 { first } else { second };
        let text = format!("{front}{}", base45::encode([&self.pair, &self.bytes[..]].concat()));
        let rows = written::rows(&[&[self.number][..], &self.pair, &self.bytes].concat());
        CopyPart { number: self.number, text, rows }
    }
}

fn share_of(text: &str) -> Result<Share, PartError> {
    let text = text.trim_matches(['\r', '\n', '\t']);
    if text.len() > LONGEST {
        return Err(PartError::NoPart);
    }
    for (number, front) in (1..).zip(FRONTS) {
        let Some(body) = text.strip_prefix(front) else { continue };
        let bytes = base45::decode(body).map_err(|_| PartError::NoPart)?;
        let Some((pair, share)) = bytes.split_first_chunk() else { break };
        return Ok(Share { number, pair: *pair, bytes: Zeroizing::new(share.to_vec()) });
    }
    Err(PartError::NoPart)
}

/// What is not rows at all is told as that, and a row only where the text can be rows.
fn share_of_rows(text: &str) -> Result<Share, PartError> {
    let letter = |byte: u8| byte.is_ascii_alphanumeric() || byte.is_ascii_whitespace() || byte == b'.';
    if text.len() > LONGEST || text.len() < SHORTEST || !text.bytes().all(letter) {
        return Err(PartError::NoPart);
    }
    let bytes = Zeroizing::new(written::read(text).map_err(PartError::Row)?);
    match bytes.split_first() {
        Some((number @ (1 | 2), rest)) if rest.len() > PAIR => {
            let (pair, share) = rest.split_first_chunk().ok_or(PartError::NoPart)?;
            Ok(Share { number: *number, pair: *pair, bytes: Zeroizing::new(share.to_vec()) })
        }
        _ => Err(PartError::NoPart),
    }
}

#[cfg(test)]
mod tests {
    use super::{CopyPart, PartError, SealedCopy};
    use crate::trust::{Passphrase, SecretKey, Stretch, Vault};
    use slingseal_words::Entropy;
    use std::sync::atomic::{AtomicU8, Ordering};

    struct Counting(AtomicU8);

    impl Entropy for Counting {
        fn fill(&self, bytes: &mut [u8]) {
            for byte in bytes {
                let next = self.0.load(Ordering::Relaxed).wrapping_mul(5).wrapping_add(17);
                self.0.store(next, Ordering::Relaxed);
                *byte = next;
            }
        }
    }

    fn copy(start: u8) -> (SealedCopy, [String; 2]) {
        let (sealed, parts) = made(start);
        (sealed, parts.map(|part| part.text))
    }

    fn made(start: u8) -> (SealedCopy, [CopyPart; 2]) {
        let entropy = Counting(AtomicU8::new(start));
        let (key, words) = (SecretKey::make(&entropy), Passphrase::entered("a meadow by the river"));
        let vault = Vault::lock(&key, &words, &[], Stretch::weak_for_tests_only(), &entropy).unwrap();
        let sealed = SealedCopy { vault, sequence: 7 };
        let parts = sealed.split(&entropy);
        (sealed, parts)
    }

    #[test]
    fn both_parts_make_the_copy_and_nothing_else_does() {
        let (sealed, [first, second]) = copy(3);
        assert_eq!(SealedCopy::join(&first, &second), Ok(sealed.clone()));
        assert_eq!(SealedCopy::join(&second, &format!("{first}\r\n")), Ok(sealed));
        assert_eq!((SealedCopy::part(&first), SealedCopy::part(&second)), (Some(1), Some(2)));
        assert_eq!(SealedCopy::join(&first, &first), Err(PartError::Twice));
        let (_, [_, strange]) = copy(4);
        assert_eq!(SealedCopy::join(&first, &strange), Err(PartError::OtherPair));
        for none in ["", "SEALED-1:", "SEALED-3:BB8", "SEALED-1:b", "SL1:BB8", &"9".repeat(4_000)] {
            assert_eq!(SealedCopy::join(none, &second), Err(PartError::NoPart), "{none}");
        }
        // A letter of the share, past the eight bytes of the pair, that was written down wrong.
        let wrong = if second.ends_with('0') { "1" } else { "0" };
        let mut torn = second.clone();
        torn.pop();
        torn.push_str(wrong);
        let joined = SealedCopy::join(&first, &torn);
        assert!(
            joined
                .as_ref()
                .map_or(true, |copy| copy.vault != SealedCopy::join(&first, &second).unwrap().vault)
        );
    }

    /// Rows make the part again, whole; what is none is told as none, and a wrong row by its number.
    #[test]
    fn a_part_that_was_written_down_is_typed() {
        let (_, parts) = made(5);
        for (number, part) in (1..).zip(&parts) {
            assert_eq!(part.number, number);
            assert_eq!(CopyPart::typed(&part.text).as_ref(), Ok(part));
            assert_eq!(CopyPart::typed(&part.rows.join("\n")).as_ref(), Ok(part));
            let mut torn = part.rows.clone();
            torn[4] = torn[4].chars().rev().collect();
            assert_eq!(CopyPart::typed(&torn.join(" ")), Err(PartError::Row(5)));
            // the rows are for a person: no camera takes letters that somebody drew for a part
            assert_eq!(SealedCopy::part(&part.rows.join(" ")), None);
        }
        for none in ["", "KM-071", "a meadow by the river", &"9".repeat(4_000), &"é".repeat(200)] {
            assert_eq!(CopyPart::typed(none), Err(PartError::NoPart), "{none}");
        }
        assert_eq!(CopyPart::typed(&super::written::rows(&[3; 80]).concat()), Err(PartError::NoPart));
    }

    /// A part is drawn at random, or is the copy under it: neither holds eight bytes of the copy.
    #[test]
    fn neither_part_shows_anything_of_the_copy() {
        let (sealed, parts) = made(9);
        for part in &parts {
            let bytes = base45::decode(part.text.split_once(':').unwrap().1).unwrap();
            assert!(
                !sealed.vault.as_bytes().windows(8).any(|some| bytes.windows(8).any(|other| other == some))
            );
        }
    }
}
