//! One judgement: from every signed word known of a load to which words count, which is the latest, how each stands, and the
//! verdict. Pure: no clock, no storage, no language. Every question of this sort in the program is asked here; the rules stand
//! in chapter 9 of the specification, `core/message/SPECIFICATION.md`.
#![forbid(unsafe_code)]

mod evidence;
mod facts;
mod flow;
mod known;
mod load_state;
mod movement;
mod order;
mod outline;
mod piece;
mod reason;
mod say;
mod scan;
mod standing;
mod tag;
mod time;
mod verdict;
mod void;
mod word;

#[cfg(test)]
mod cast;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod tests;

pub use evidence::Evidence;
pub use facts::{Asked, Fact, Facts};
pub use flow::{FlowState, LastReports, movements_since_latest};
pub use load_state::LoadState;
pub use movement::ReportWeight;
pub use order::{Inspection, takes_over};
pub use outline::Outline;
pub use piece::{InspectionWord, ListStanding, PieceState, pieces_of, same_serial, state_of_piece};
pub use reason::{Grade, Reason};
pub use say::{cautions, first_line, spoken};
pub use scan::{Judged, Scan, ShownCode, ShownError, is_of_a_load, plausible, seals};
pub use standing::{LoadFacts, LoadJudgement, SealFacts, Standing, facts_of_load, standing_of_load};
pub use tag::TagSignature;
pub use time::{LatestTrusted, Memory, Speaker};
pub use verdict::{Judgement, Shown, Verdict, gravest, judge_seal, judge_seals, judge_tag};
pub use word::{Author, LoadWord, Said, WordError};

use slingseal_words::Seconds;

/// Clocks of two devices may differ by this much before anyone minds: phones without a network drift by seconds a day.
pub const CLOCK_SLACK: Seconds = Seconds(120);
/// A seal that holds for less than this is said to run out soon: a flight may outlast it.
pub const SOON: Seconds = Seconds(30 * 60);
/// Which rules a kept standing was made by. A change of any rule counts it up, and every kept standing is made anew.
pub const RULES: u32 = 4;
