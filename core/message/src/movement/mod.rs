//! The movement report: what became of a load after its seal was shown. Signed with a credential, or, where a device has none
//! (or nobody has time for a PIN under a hovering aircraft), chained in the device's journal and marked unsigned by being bare.

mod event;
mod report;
#[cfg(test)]
mod tests;
mod wire;

pub use event::{MovementEvent, MovementKind, RefusalCause};
pub use report::{
    JournalEnd, MOST_PHOTOS, MOST_PIECES, Movement, PieceState, ShownReason, ShownVerdict, VerdictShown,
    place_of_report,
};
pub use wire::{MovementError, ReceivedMovement};
