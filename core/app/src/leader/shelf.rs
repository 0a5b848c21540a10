//! A page of a board's state: counted whole, kept no further than the page goes.

use std::collections::{BTreeMap, BinaryHeap};

use super::sorting::{Rank, Sorting, as_sorted, columns};
use slingseal_judgement::FlowState;
use slingseal_message::movement::MovementKind;
use slingseal_store::FlowFacts;
use slingseal_words::Time;

columns! {
    /// By which column the loads of a state are ordered: what the board knows of every load without reading its inspection.
    BoardOrder {
        /// The load number.
        Load = "load",
        /// The aircraft's type.
        Aircraft = "aircraft",
        /// The pickup zone.
        From = "from",
        /// The destination.
        To = "to",
    }
}

/// A load's place in its column: the smallest first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Place {
    /// By the column that was chosen.
    rank: Option<Rank<String>>,
    /// What runs out next, is longest in the air, or is newest.
    key: i64,
    load: String,
}

/// The loads of one state.
pub(super) struct Shelf {
    /// So many of the first are kept.
    most: usize,
    kept: BinaryHeap<Place>,
    pub(super) count: u64,
    /// Of how many of them reports that nobody known signed tell of more, by what they tell.
    pub(super) reported: BTreeMap<MovementKind, u64>,
}

impl Shelf {
    pub(super) fn of(most: usize) -> Self {
        Self { most, kept: BinaryHeap::new(), count: 0, reported: BTreeMap::new() }
    }

    pub(super) fn take(
        &mut self,
        facts: &FlowFacts<'_>,
        state: FlowState,
        order: Option<Sorting<BoardOrder>>,
    ) {
        self.count += 1;
        // A word that is none is answered by a sentence: not asked of the many that have none.
        if !facts.hint.is_empty()
            && let Ok(kind) = facts.hint.parse::<MovementKind>()
        {
            *self.reported.entry(kind).or_default() += 1;
        }
        let key = key(facts, state);
        let rank = order.map(|Sorting { by, down }| Rank::of(column(facts, by), down));
        if self.kept.len() >= self.most {
            let last = self.kept.peek();
            // Compared before anything is copied: of ten thousand loads a page shows two dozen.
            if last.is_none_or(|last| (&rank, key, facts.load) >= (&last.rank, last.key, &last.load)) {
                return;
            }
            self.kept.pop();
        }
        self.kept.push(Place { rank, key, load: facts.load.to_owned() });
    }

    /// The load numbers behind so many, in order.
    pub(super) fn page(self, behind: usize) -> impl Iterator<Item = String> {
        self.kept.into_sorted_vec().into_iter().skip(behind).map(|place| place.load)
    }
}

fn key(facts: &FlowFacts<'_>, state: FlowState) -> i64 {
    let valid_until = facts.inspected.map_or(0, |inspected| inspected.valid_until.unix());
    match state {
        FlowState::Fit | FlowState::Waits => valid_until,
        FlowState::Expired => -valid_until,
        FlowState::Lifted => facts.happened.max(facts.hinted).map_or(0, Time::unix),
        _ => -facts.touched.unix(),
    }
}

fn column(facts: &FlowFacts<'_>, by: BoardOrder) -> Option<String> {
    as_sorted(match by {
        BoardOrder::Load => facts.load,
        BoardOrder::Aircraft => facts.aircraft,
        BoardOrder::From => facts.zone,
        BoardOrder::To => facts.destination,
    })
}
