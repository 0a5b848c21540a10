//! Procedures as data: a file's shape, its check, its expansion into stations, cards and points.
//!
//! A file is written once for a kind of load; rounds (each side, each leg) are expanded here. The shape is told in
//! `core/walk/procedures/README.md`. Nothing here judges a load: that is the walk's.

mod built_in;
mod check;
mod check_point;
mod expand;
mod fill;
mod points;
mod shape;
mod show;
mod table;
#[cfg(test)]
mod tests;

pub use built_in::{BUILT_IN, BuiltIn, RELEASED, built_in};
pub use check::check;
pub use expand::{
    Card, CardNo, Choice, Deficiency, Expanded, Expected, GOVERNING_MANUAL, Kind, NoCardZero, Point, Station,
};
pub use points::points_document;
pub use shape::{Fate, Mark, PointRules, Procedure, Subject};

pub use slingseal_words::Language;
