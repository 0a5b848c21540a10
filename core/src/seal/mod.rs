//! The record of a walk, the seal that attests it, the void that takes it back, and the verdict at the hook.
//!
//! A seal is made in three steps, so that the key is needed for one of them alone: prepare, sign, finish.

mod claims;
mod judge;
mod reason;
mod record;
mod void;

#[cfg(test)]
mod tests;

pub use claims::{Outcome, ReceivedSeal, Seal, SealError, TagPrint};
pub use judge::{CLOCK_SLACK, Known, Question, Report, TagSeen, TagSignature, Verdict, judge};
pub use reason::{Grade, Reason};
pub use record::{DigestOf, JournalEntry, Record, RecordError};
pub use void::{Void, VoidCause, VoidError};
