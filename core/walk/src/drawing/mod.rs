//! A line drawing of a load, with the part that a card is about marked. One model, drawn by every shell in its own way: lines on a
//! screen, dots in a terminal, SVG on paper. It shows where to look; it is no measure and no substitute for the manual's figures.

mod bag;
mod draw;
mod drums;
mod lines;
mod longline;
mod net;
mod svg;
mod text;
mod vehicle;

use slingseal_words::ProcedureId;

pub use lines::{Dot, Drawing, Line, Stroke};
pub use text::Cell;

impl Drawing {
    /// The load of a procedure that comes with the program; none of another, and none where there is no load.
    pub fn of(procedure: &ProcedureId) -> Option<Self> {
        match procedure.as_str() {
            "bag" => Some(bag::drawing()),
            "net" => Some(net::drawing()),
            "vehicle" => Some(vehicle::drawing()),
            "drums" => Some(drums::drawing()),
            "longline" => Some(longline::drawing()),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests;
