mod approvals;
mod closings;
mod credentials;
mod curve;
mod form;
mod hook;
mod movements;
mod parts;
mod pieces;
mod rosters;
mod rules;
mod second_tags;

pub use closings::all as closings;

use crate::vector::Vector;

/// Every vector with its path below `seal/`.
pub fn all() -> Vec<(String, Vector)> {
    let mut all = hook::all();
    all.extend(form::all());
    all.extend(credentials::all());
    all.extend(curve::all());
    all.extend(rosters::all());
    all.extend(rules::all());
    all.extend(second_tags::all());
    all.extend(pieces::all());
    all.extend(approvals::all());
    all.extend(movements::all());
    let mut names: Vec<&String> = all.iter().map(|(name, _)| name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all.len(), "two vectors have one name");
    all
}
