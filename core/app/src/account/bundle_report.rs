//! What became of a bundle that was taken in.

use serde::Serialize;

use crate::ProcedureView;

/// Something of a bundle that was not taken in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SetAsideLine {
    /// Which item, counted from one, or where the damage is.
    pub place: String,
    /// What it is: `record`, `void`, …, or `damage`.
    pub kind: String,
    /// Why, and what to do.
    pub reason: String,
}

/// What became of a bundle.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct BundleReport {
    /// Records that are new here.
    pub new: u32,
    /// Records of which only the seal was here.
    pub completed: u32,
    /// Records that were here.
    pub known: u32,
    /// Tags, voids, credentials and rosters that are new here.
    pub papers: u32,
    /// Reports of what became of loads that are new here.
    pub movements: u32,
    /// Photographs that are new here.
    pub photos: u32,
    /// Editions of procedures that are new here; those that nobody trusted here approves are kept apart.
    pub procedures: Vec<ProcedureView>,
    /// What was set aside, in the order of the bundle; after the first thousand one line tells how many more.
    pub set_aside: Vec<SetAsideLine>,
    /// What the leader should look into, though nothing was refused.
    pub warnings: Vec<String>,
}
