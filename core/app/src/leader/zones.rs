//! The zones of the loads that a board counts.

use std::collections::BTreeMap;

use serde::Serialize;
use slingseal_judgement::FlowState;
use slingseal_store::FlowFacts;
use slingseal_words::{Degrees, GridRef};

/// How many loads of each state are at a zone, or go to it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ZoneCount {
    /// What it is called.
    pub name: String,
    /// Its grid reference; empty where none is given.
    pub grid: String,
    /// Degrees north, in millionths, where it has a grid reference.
    pub latitude: Option<i64>,
    /// Degrees east, in millionths.
    pub longitude: Option<i64>,
    /// Loads whose pickup zone it is, by their state.
    #[serde(serialize_with = "crate::view::counted")]
    pub here: BTreeMap<FlowState, u64>,
    /// Loads that go there, by their state.
    #[serde(serialize_with = "crate::view::counted")]
    pub bound: BTreeMap<FlowState, u64>,
}

/// How many loads of each state are at each zone and go to it, by its name and grid reference.
#[derive(Default)]
pub(super) struct Zones(BTreeMap<String, BTreeMap<String, ZoneCount>>);

impl Zones {
    pub(super) fn count(&mut self, facts: &FlowFacts<'_>, state: FlowState) {
        if let Some(zone) = self.zone(facts.zone, facts.grid) {
            *zone.here.entry(state).or_default() += 1;
        }
        if let Some(zone) = self.zone(facts.destination, facts.destination_grid) {
            *zone.bound.entry(state).or_default() += 1;
        }
    }

    /// In the order of their names.
    pub(super) fn counted(self) -> Vec<ZoneCount> {
        self.0.into_values().flat_map(BTreeMap::into_values).collect()
    }

    /// None where it has no name. A zone that is known is found without copying its name: that is asked of every load.
    fn zone(&mut self, name: &str, grid: &str) -> Option<&mut ZoneCount> {
        if name.is_empty() {
            return None;
        }
        if !self.0.get(name).is_some_and(|grids| grids.contains_key(grid)) {
            self.0.entry(name.to_owned()).or_default().insert(grid.to_owned(), nothing_at(name, grid));
        }
        self.0.get_mut(name)?.get_mut(grid)
    }
}

fn nothing_at(name: &str, grid: &str) -> ZoneCount {
    let point = GridRef::new(grid).ok().map(|grid| grid.middle());
    let millionths = |degrees: Degrees| (degrees.value() * 1e6).round() as i64;
    ZoneCount {
        name: name.to_owned(),
        grid: grid.to_owned(),
        latitude: point.map(|(latitude, _)| millionths(latitude)),
        longitude: point.map(|(_, longitude)| millionths(longitude)),
        here: BTreeMap::new(),
        bound: BTreeMap::new(),
    }
}
