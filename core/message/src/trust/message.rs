//! What every signed message of this room does: make, open, verify.

use super::keys::{KeyError, PublicKey, SecretKey};
use crate::envelope::{Claims, Header, Kind, Limits, ShapeError, Sign1, Sign1Error, assemble, to_be_signed};
use slingseal_words::KeyId;

/// Why a message of trust is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TrustError {
    /// It is not a signed message.
    #[error(transparent)]
    Form(#[from] Sign1Error),
    /// It holds a bad key.
    #[error(transparent)]
    Key(#[from] KeyError),
    /// The signature does not match.
    #[error("the signature on this {0} does not match; it was altered or forged: do not rely on it")]
    BadSignature(Kind),
    /// It names an authority that this device does not trust.
    #[error("this {kind} comes from an authority that this device does not trust (key {key})")]
    UnknownAuthority {
        /// What it is.
        kind: Kind,
        /// Whose key it names.
        key: KeyId,
    },
}

impl From<ShapeError> for TrustError {
    fn from(error: ShapeError) -> Self {
        Self::Form(Sign1Error::Shape(error))
    }
}

/// Signs claims.
pub(super) fn make(kind: Kind, header: Header<'_>, claims: &Claims<'_>, key: &SecretKey) -> Vec<u8> {
    let payload = claims.to_bytes();
    let signature = key.sign(&to_be_signed(kind, header, &payload));
    assemble(header, &payload, &signature)
}

/// Takes a message apart. Nothing in it is to be believed before `verify` passed.
pub(super) fn open(bytes: &[u8], limits: Limits) -> Result<(Sign1<'_>, Claims<'_>), TrustError> {
    let message = Sign1::parse(bytes, limits)?;
    let claims = Claims::parse(message.payload)?;
    Ok((message, claims))
}

pub(super) fn verify(kind: Kind, message: &Sign1<'_>, key: &PublicKey) -> Result<(), TrustError> {
    if key.signed(&message.to_be_signed(kind), &message.signature) {
        Ok(())
    } else {
        Err(TrustError::BadSignature(kind))
    }
}
