//! What every signed message of this room does: make, open, verify.

use super::keys::{KeyError, PublicKey, SecretKey};
use crate::envelope::{Claims, Header, Kind, Limits, ShapeError, Sign1, Sign1Error, assemble, to_be_signed};
use slingseal_catalogue::{Saying, faults as words};
use slingseal_words::KeyId;

/// Why a message of trust is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrustError {
    /// It is not a signed message.
    Form(Sign1Error),
    /// It holds a bad key.
    Key(KeyError),
    /// The signature does not match.
    BadSignature(Kind),
    /// It names an authority that this device does not trust.
    UnknownAuthority {
        /// What it is.
        kind: Kind,
        /// Whose key it names.
        key: KeyId,
    },
}

impl TrustError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Form(error) => error.saying(),
            Self::Key(error) => error.saying(),
            Self::BadSignature(kind) => words::TrustErrorBadSignature { kind }.into(),
            Self::UnknownAuthority { kind, key } => words::TrustErrorUnknownAuthority { kind, key }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(TrustError);

impl From<Sign1Error> for TrustError {
    fn from(error: Sign1Error) -> Self {
        Self::Form(error)
    }
}

impl From<KeyError> for TrustError {
    fn from(error: KeyError) -> Self {
        Self::Key(error)
    }
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
