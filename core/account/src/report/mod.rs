//! What a leader asks of the records. Pure: rows and moments in, answers out.

mod closing;
mod columns;
mod pieces;
mod second_look;
mod share;
mod sql;
mod story;
mod table;
mod wilson;

pub use closing::{
    Counts, DeviceRow, InspectionRow, LoadRows, OpenPoint, OpenPoints, PointKind, ReportRow, walked_too_fast,
};
pub use columns::{AccountCell, AccountTable, ColumnType, TableWriter};
pub use pieces::{PieceLife, PieceLives};
pub use second_look::{InAll, LookRow, Looks, SAME_LOOK, SecondLooks, chapman_95, second_looks};
pub use share::Share;
pub use sql::{SQL_END, SQL_ROWS_END, copy_line, sql_begin, sql_head};
pub use story::{Moment, MomentKind, condense};
pub use table::{Cell, guarded, line};
pub use wilson::{Interval, wilson_95};
