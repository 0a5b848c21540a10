//! Flight, as far as statics go: a load factor at an angle of the sling, a steady drag, a hook of two that fails. Nothing here knows
//! swing, gusts, downwash, lift, yaw that builds up, or what the aircraft does: flight tests and the manual rule, and every
//! report says so.

mod drag;
mod failed;
mod json;
mod noun;
mod read;
mod report;

use super::{Options, RiggedLoad, RiggingError};

pub use drag::{AtSpeed, DragCurve, Event, What};
pub use failed::FailedHook;
pub use json::flight_json;
pub use noun::{Drag, Factored, Flight};
pub(super) use read::read_flight;
pub use report::flight_report;

/// What statics say of a flight.
#[derive(Clone, Debug, PartialEq)]
pub struct FlightSheet {
    /// At the load factor and sling angle of the file.
    pub factored: Option<Factored>,
    /// Under steady drag.
    pub drag: Option<DragCurve>,
    /// Each hook of two failed.
    pub failed: Vec<FailedHook>,
}

/// Looks at everything that the file tells of the flight.
///
/// # Errors
/// A load factor outside its range.
pub fn fly(load: &RiggedLoad, flight: &Flight) -> Result<FlightSheet, RiggingError> {
    let factored = match flight.factor {
        Some(factor) => {
            let options = Options::default().with_factor(factor)?;
            Some(Factored::of(load, flight, factor, &options))
        }
        None => None,
    };
    let drag = flight.drag.as_ref().and_then(|drag| DragCurve::of(load, drag, flight));
    Ok(FlightSheet { factored, drag, failed: failed::failed_hooks(load) })
}
