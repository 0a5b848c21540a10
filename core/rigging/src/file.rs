use super::flight::Flight;
use super::solve::Stock;
use super::weigh::{Weighed, Weighing};
use super::{RiggedLoad, RiggingError};

/// A rigging file with everything that it may hold.
#[derive(Clone, Debug, PartialEq)]
pub struct RiggingFile {
    /// The rigged load; none where the file only weighs.
    pub load: Option<RiggedLoad>,
    /// What was weighed, with what it gives.
    pub weighing: Option<(Weighing, Weighed)>,
    /// Other slings and ropes that are at hand.
    pub stock: Stock,
    /// What is known of the flight.
    pub flight: Option<Flight>,
}

impl RiggingFile {
    /// The rigged load.
    ///
    /// # Errors
    /// A file that only weighs.
    pub fn rigged(&self) -> Result<&RiggedLoad, RiggingError> {
        self.load.as_ref().ok_or(RiggingError::NoRigging)
    }

    /// The weighing.
    ///
    /// # Errors
    /// A file that gives mass and centre without one.
    pub fn weighed(&self) -> Result<&(Weighing, Weighed), RiggingError> {
        self.weighing.as_ref().ok_or(RiggingError::NotWeighed)
    }
}
