//! What a leader asks of the records. Pure: rows and moments in, answers out.

mod share;
mod story;
mod table;
mod wilson;

pub use share::Share;
pub use story::{Moment, MomentKind, condense};
pub use table::{Cell, guarded, line};
pub use wilson::{Interval, wilson_95};
