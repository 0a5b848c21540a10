//! Examination of students: deficiencies are planted on a real load, locked under a signature, found or missed in a run
//! against a clock, and scored by the school's own standard. No I/O; nothing here makes a seal.
//!
//! ```text
//! instructor   plant or draw ── lock ──> XK1 code        the list and its salt stay here
//! student                       run ───> sheet           the walk's events under the lock, and nothing of the list
//! instructor   sheet + list ── score ──> XR1 result      signed; reveals list and salt, checked against the lock
//! desk         results ──────── class ─> who, what, which card
//! ```
//! A result is the instructor's word and is signed with the instructor's key: whoever planted and stood beside the load
//! answers for it, and a student needs no credential. The run's sheet is plain; the result names its SHA-256, so that
//! anyone who has lock, sheet and result can score again.

mod class;
mod draw;
mod error;
mod items;
mod judge;
mod lock;
mod plant;
mod result;
mod run;
mod score;
mod sheet;
mod standard;
#[cfg(test)]
mod tests;

pub use class::{
    Attempt, CardTime, MissedCount, StudentLine, attempts, by_student, card_times, missed_counts,
};
pub use draw::draw;
pub use error::ExamError;
pub use items::{GROUP, ItemName, ItemStat, Observation, item_stats};
pub use judge::{JudgedSheet, OpenedSheet, judge_lock, judge_result};
pub use lock::Lock;
pub use plant::{MOST_PLANTED, Planted, PlantedList, SALT, Salt};
pub use result::{ExamResult, Tally};
pub use run::{CLOCK_SLACK, END_OF_RUN, Timing, allowed, may_begin, timing};
pub use score::{Call, FalseCall, ItemScore, Score, score};
pub use sheet::Sheet;
pub use standard::{Outcome, Standard};
