//! Weighing: mass and centre of gravity from scale readings and from items, with what the tolerances leave open.
//!
//! Level, the readings give the mass and where it stands in plan. Tilted by a known angle, they give the height: with `x` the
//! way that the load was tilted in, `(x - x') cot(angle) + z'`, where `x'` and `z'` are the means of the points, weighted by what
//! they read tilted. For a wheel a point is its axle: whatever the wheel turns by, the push goes through it.
//!
//! Every reading lies within its tolerance of what the scale showed. Mass times centre is linear in each reading, so that every
//! extreme of mass or centre stands at a corner of the readings: the corners are looked at, and not a guess.

mod carry;
mod corners;
mod json;
mod noun;
mod read;
mod report;

pub use carry::{Carried, LegSpan, carry};
pub use corners::{Corner, Span, Weighed, weigh};
pub use json::weigh_json;
pub use noun::{Item, Reading, Tilt, TiltAbout, WeighError, Weighing};
pub use read::raised_angle;
pub(super) use read::{read_weighing, written};
pub use report::{WeighedPlace, weigh_report};
