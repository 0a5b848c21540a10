//! The record of a walk, the seal that attests it, the void that takes it back.
//!
//! A seal is made in three steps, so that the key is needed for one of them alone: prepare, sign, finish.

mod claims;
mod inspection;
mod record;
mod void;

#[cfg(test)]
mod tests;

pub use claims::{Outcome, ReceivedSeal, Seal, SealError, TagPrint};
pub use inspection::{InspectedSubject, ReceivedInspection, SignedInspection};
pub use record::{DigestOf, JournalEntry, Record, RecordError};
pub use void::{Void, VoidCause, VoidError};
