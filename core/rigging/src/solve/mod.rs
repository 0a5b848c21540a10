//! Which link in which hook: the hangs nearest to the one that is wanted, over every link count that the chains allow, and over
//! the slings and ropes that the file lists.
//!
//! A hang is proposed where every part is within its rating at rest, the rule that the file names is kept, every leg carries, and
//! every leg rises to its hook. Hangs are ranked by how far they are from the wanted one, in whole tenths of a degree, for nobody
//! rigs finer; within a tenth by the largest utilisation of a leg; then by their counts. Every rating is one that the file has.
//!
//! Under one hook the whole grid is searched by a proved bound (`grid`). Two hooks are searched one by one, as far as that goes.

mod grid;
mod ground;
mod json;
mod noun;
mod one_hook;
mod proposal;
mod report;
mod search;
mod stock;
mod what_if;

pub use json::solve_json;
pub use noun::{Asked, Between, SolveError, Wanted};
pub use proposal::{Proposal, Proposals, SetAnswer};
pub use report::solve_report;
pub use search::solve;
pub use stock::{SlingSet, Stock};
pub(super) use stock::{read_ropes, read_set};
pub use what_if::{Moved, WhatIf, Without, what_if};
