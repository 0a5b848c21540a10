//! A sealed copy of an authority's key in two parts: either alone is as good as noise, both together still want the passphrase.
//!
//! ```cddl
//! sealed = [1, sequence: uint, vault: bstr]
//! ```
//!
//! A part is `SEALED-1:` or `SEALED-2:` and Base45 (RFC 9285) of eight bytes that both parts of a pair share and of its share: the
//! first one's is drawn at random, the second one's is the copy XOR that. It is no message: nobody signs it, no verdict knows it,
//! no bundle carries it.

use slingseal_words::Entropy;
use zeroize::Zeroizing;

use super::vault::Vault;
use crate::envelope::{Limits, Reader, ShapeError, Writer, check};

const FRONTS: [&str; 2] = ["SEALED-1:", "SEALED-2:"];
/// Bytes that tell a pair from another: two parts of two copies make nothing.
const PAIR: usize = 8;
/// The most characters that are looked at; a copy takes some 300.
const LONGEST: usize = 1_024;

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
    /// As two texts for codes.
    pub fn split(&self, entropy: &dyn Entropy) -> [String; 2] {
        let mut writer = Writer::new();
        writer.array(3).int(1).int(self.sequence.into()).bytes(self.vault.as_bytes());
        let whole = Zeroizing::new(writer.into_bytes());
        let mut drawn = Zeroizing::new(vec![0; PAIR + whole.len()]);
        entropy.fill(&mut drawn);
        let (pair, first) = drawn.split_at(PAIR);
        let second: Vec<u8> = first.iter().zip(whole.iter()).map(|(a, b)| a ^ b).collect();
        let [one, two] = FRONTS;
        [(one, first), (two, &second)]
            .map(|(front, share)| format!("{front}{}", base45::encode([pair, share].concat())))
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

#[cfg(test)]
mod tests {
    use super::{PartError, SealedCopy};
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

    /// A part is drawn at random, or is the copy under it: neither holds eight bytes of the copy.
    #[test]
    fn neither_part_shows_anything_of_the_copy() {
        let (sealed, parts) = copy(9);
        for part in &parts {
            let bytes = base45::decode(part.split_once(':').unwrap().1).unwrap();
            assert!(
                !sealed.vault.as_bytes().windows(8).any(|some| bytes.windows(8).any(|other| other == some))
            );
        }
    }
}
