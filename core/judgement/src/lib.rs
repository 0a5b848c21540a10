//! From what is known of a load to its verdict, and to where it stands. Pure: the same words and the same time give the
//! same answer on every machine.
#![forbid(unsafe_code)]

mod judge;
mod reason;
mod standing;

#[cfg(test)]
mod tests;

pub use judge::{CLOCK_SLACK, Known, Question, Report, TagSeen, TagSignature, Verdict, judge, same_person};
pub use reason::{Grade, Reason};
pub use standing::{LoadState, Sealed};
