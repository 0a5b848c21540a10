//! Which inspection is the later one. The only place of the program that orders inspections.

use slingseal_message::seal::{Outcome, Seal};
use slingseal_message::trust::Signer;
use slingseal_words::{Digest, Time};

use super::CLOCK_SLACK;

/// What of a seal decides its place among the inspections of its load.
///
/// The order of the type is the order of inspections: by time, at one time a refusal behind a fit one, then by own digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Inspection {
    /// When it was sealed, by its author's clock.
    pub issued: Time,
    /// Whether it found the load not fit.
    pub refusal: bool,
    /// SHA-256 of the seal's own bytes.
    pub digest: Digest,
    /// The author's key: one key is one clock.
    pub key: [u8; 32],
}

impl Inspection {
    pub(super) fn of(seal: &Seal, signer: &Signer, digest: Digest) -> Self {
        Self {
            issued: seal.issued,
            refusal: seal.outcome == Outcome::NotFit,
            digest,
            key: signer.credential.key.to_bytes(),
        }
    }
}

/// Whether `other` is the later word on the load that `seal` is of. Two clocks within their slack do not say which inspection came
/// first: the one that found the load not fit is then taken for the later, or a faster clock would lift what was just refused.
/// Not transitive, on purpose: who is taken over by *any* other is superseded.
pub fn takes_over(other: &Inspection, seal: &Inspection) -> bool {
    if other.digest == seal.digest {
        return false;
    }
    let apart = other.issued.since(seal.issued).0.unsigned_abs();
    let two_clocks = other.key != seal.key && apart <= CLOCK_SLACK.0.unsigned_abs();
    if two_clocks && other.refusal != seal.refusal { other.refusal } else { other > seal }
}
