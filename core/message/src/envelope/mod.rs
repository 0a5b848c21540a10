//! How any message is wrapped: strict canonical CBOR (RFC 8949 §4.2.1), COSE_Sign1 (RFC 9052) with a namespace a kind,
//! Base45 text (RFC 9285) with the kind in front, records of an NFC sticker. Knows nothing of what the messages say.

mod cbor;
mod claims;
mod kind;
mod measured;
mod ndef;
mod sign1;
mod strict;
mod text;

pub use cbor::{Reader, ShapeError, Writer};
pub use claims::Claims;
pub use kind::Kind;
pub use ndef::{Ndef, NdefError, from_ndef, to_ndef};
pub use sign1::{Header, Sign1, Sign1Error, Unsigned, assemble, to_be_signed};
pub use strict::{Limits, StrictError, check};
pub use text::{TextError, unwrap, wrap};

/// The private claim of RFC 8392 §9.1 (below -65536) that holds what is ours in a message.
pub const OURS: i64 = -65_537;
