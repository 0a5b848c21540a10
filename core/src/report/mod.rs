//! What a leader asks of the records.

mod wilson;

pub use wilson::{Interval, wilson_95};
