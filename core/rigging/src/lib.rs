//! Statics of a rigged load: how it hangs, who carries what, and what governs.
//!
//! A [`RiggedLoad`] is read from TOML ([`read`]) or built field by field; [`assess`] answers with an [`Assessment`].
//! The load is rigid and hangs from one hook or two by one to eight legs that stretch and may go slack. The answer is
//! the pose of least energy; a pose that would roll over is never reported as hanging. Ratings come from the input
//! alone: no equipment is known here. The file's shape stands in `FORMAT.md` beside this file.
//!
//! It assists a qualified inspector. The governing manual rules.
#![forbid(unsafe_code)]

mod assess;
mod assessment;
mod error;
mod file;
mod flight;
mod json;
mod keys;
mod limits;
mod links;
mod load;
mod model;
mod picture;
mod read;
mod report;
mod rule;
mod settle;
mod shown;
mod solve;
mod tongue;
mod weigh;
mod why;
mod worst;
mod write;

#[cfg(test)]
mod tests;

pub use assess::{Options, assess, assess_with};
pub use assessment::{
    Assessment, Hang, Held, HeldPart, HookLoad, Infeasible, LegLoad, Place, Rules, Side, Warning,
};
pub use error::RiggingError;
pub use file::RiggingFile;
pub use flight::{
    AtSpeed, Drag, DragCurve, Event, Factored, FailedHook, Flight, FlightSheet, What, flight_json,
    flight_report, fly,
};
pub use json::json;
pub use limits::{Beyond, State, Verdict};
pub use links::{LinkChange, LinkEffect, SeatedLink, link_effects};
pub use load::{Chain, CommonPart, Hook, Leg, LegPart, Rating, Reach, Reeved, RiggedLoad};
pub use picture::{Drawing, Pen, PictureError, Shape, Step, drawing, png, side_cells, svg};
pub use read::{read, read_file};
pub use report::{caution, report};
pub use rule::Rule;
pub use shown::{force_in, force_unit, percent};
pub use solve::{
    Asked, Between, Moved, Proposal, Proposals, SetAnswer, SlingSet, SolveError, Stock, Wanted, WhatIf,
    Without, solve, solve_json, solve_report, what_if,
};
pub use tongue::{attitude as attitude_saying, beyond as beyond_saying, state as state_saying};
pub use weigh::{
    Carried, Corner, Item, LegSpan, Reading, Span, Tilt, TiltAbout, WeighError, Weighed, WeighedPlace,
    Weighing, carry, raised_angle, weigh, weigh_json, weigh_report,
};
pub use write::{chain_table, write};
