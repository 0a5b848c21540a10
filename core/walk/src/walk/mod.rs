//! The inspection as events: `decide` turns a command into events or a refusal, `fold` turns events into a state.
//! Nothing here reads a clock, a file or a screen; the same events give the same state on every machine.
//!
//! ```text
//! Ready ── Begin ──> Walking <── Resume ── Paused
//!                    │  └────── Pause ──────> │
//!                    ├── Decide ───> Decided (fit or not fit)
//!                    │ <── take back ──┘ (until it is sealed)
//!                    └── Abandon ──> Abandoned <── Abandon ──┘
//! ```
//! Both ends are final: a load that is moved, opened, rigged again or dropped is inspected again, in a walk of its own.

mod apply;
mod command;
mod decide;
mod event;
mod facts;
mod judge;
mod refusal;
mod state;
#[cfg(test)]
mod tests;
mod view;
mod wire;

pub use command::{Command, Sighting};
pub use event::{Again, Event, FindingNo, Outcome, Rules, Value, What};
pub use facts::{EquipmentFact, Ground, LoadFacts, RiggingFinding, TagFault};
pub use refusal::{Block, Refusal};
pub use state::{Answer, At, ClockJump, Finding, FindingState, FoldError, Look, Stage, Walk};
pub use view::{CardStatus, Caution, PointStatus, Progress, Tally};

use slingseal_words::Seconds;

/// The longest time between two answers, without a pause, that is not put on the record as a jump of the clock: longer
/// than any card takes, shorter than a change of the day.
pub const LONGEST_SILENCE: Seconds = Seconds(30 * 60);

/// The most photos that one finding, correction or second look may carry.
pub const MOST_PHOTOS: usize = 8;

/// The name of a deficiency that the procedure does not name; it needs a note.
pub const OTHER: &str = "other";
