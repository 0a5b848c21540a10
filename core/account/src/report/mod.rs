//! What a leader asks of the records. Pure: rows and moments in, answers out.

mod closing;
mod pieces;
mod share;
mod story;
mod table;
mod wilson;

pub use closing::{
    Counts, DeviceRow, InspectionRow, LoadRows, OpenPoint, PointKind, ReportRow, counts, open_points,
};
pub use pieces::{PieceLife, piece_lives};
pub use share::Share;
pub use story::{Moment, MomentKind, condense};
pub use table::{Cell, guarded, line};
pub use wilson::{Interval, wilson_95};
