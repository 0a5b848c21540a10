//! Procedures as data: a file's shape, its check, its expansion into stations, cards and points.
//!
//! A file is written once for a kind of load; rounds (each side, each leg) are expanded here. The shape is told in
//! `core/walk/procedures/README.md`. Nothing here judges a load: that is the walk's.

mod around;
mod built_in;
mod check;
mod check_point;
mod expand;
mod fill;
mod points;
mod schema;
mod shape;
mod show;
mod table;
mod template;
#[cfg(test)]
mod tests;
mod tongue;
mod untold;

pub use built_in::{BUILT_IN, BuiltIn, RELEASED, built_in};
pub use check::{check, name_of};
pub use expand::{
    Card, CardNo, Choice, Deficiency, Expanded, Expected, Kind, NoCardZero, Point, Station, governing_manual,
};
pub use points::points_document;
pub use schema::schema;
pub use shape::{Fate, Mark, PointRules, Procedure, Subject};
pub use template::{Changes, template};
pub use tongue::Tongue;

pub use slingseal_words::Language;
