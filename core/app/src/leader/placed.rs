//! Where each load is now: what the judgement said is kept, what the clock makes of it is asked for each.

use std::collections::BTreeSet;

use crate::account::Knowledge;
use crate::movements::arrival::event_of_word;
use crate::{AppError, Inner};
use slingseal_judgement::{Asked, FlowState};
use slingseal_store::{FlowFacts, FlowRow, FlowsOf, LoadRow};
use slingseal_words::Time;

/// A load in its place.
pub(super) struct Placed {
    pub(super) flow: FlowRow,
    pub(super) sealed: Option<LoadRow>,
    pub(super) state: FlowState,
}

/// What decides where loads are, at one moment.
pub(super) struct Places<'k> {
    knowledge: &'k Knowledge,
    asked: Asked<'k>,
    /// Loads that somebody walks here.
    walking: BTreeSet<String>,
}

impl Places<'_> {
    /// Where a load is; none where it was never given here, and is no plan of this desk: a tag that was scanned, and no more.
    pub(super) fn state(&self, facts: &FlowFacts<'_>) -> Option<FlowState> {
        if self.walking.contains(facts.load) {
            return Some(FlowState::Walking);
        }
        let judged = facts.inspected.and_then(|inspected| self.knowledge.state(&inspected, &self.asked));
        let state = FlowState::of(judged, event_of_word(facts.event));
        (state != FlowState::Planned || facts.planned.is_some()).then_some(state)
    }
}

/// Whether a load of a state stands on a board that goes back to some time.
pub(super) fn is_on_board(facts: &FlowFacts<'_>, state: FlowState, since: Time) -> bool {
    let recent = facts.touched >= since;
    match state {
        FlowState::Walking | FlowState::Lifted => true,
        FlowState::Planned
        | FlowState::NotFit
        | FlowState::Voided
        | FlowState::Refused
        | FlowState::Lost
        | FlowState::SetDown => recent,
        FlowState::Fit | FlowState::Waits | FlowState::Expired => {
            recent || facts.inspected.is_some_and(|inspected| inspected.valid_until >= since)
        }
    }
}

impl Inner {
    /// What decides where loads are now.
    pub(super) fn places<'k>(&self, knowledge: &'k Knowledge) -> Result<Places<'k>, AppError> {
        let walks = self.store.read().walks_in_hand()?;
        let walking = walks.into_iter().map(|walk| walk.load).collect();
        Ok(Places { knowledge, asked: knowledge.asked(), walking })
    }

    /// A load in its place, with all that is kept of it.
    pub(super) fn placed(&self, load: &str, state: FlowState) -> Result<Option<Placed>, AppError> {
        let read = self.store.read();
        let Some(flow) = read.flow(load)? else { return Ok(None) };
        Ok(Some(Placed { flow, sealed: read.load(load)?, state }))
    }

    /// The loads of a day, and those that are named: where each is now.
    pub(super) fn placed_within(
        &self,
        (from, until): (Time, Time),
        named: &[String],
        knowledge: &Knowledge,
    ) -> Result<Vec<Placed>, AppError> {
        let (read, places) = (self.store.read(), self.places(knowledge)?);
        let mut found: Vec<(String, FlowState)> = Vec::new();
        let mut take = |facts: FlowFacts<'_>| -> Result<(), AppError> {
            found.extend(places.state(&facts).map(|state| (facts.load.to_owned(), state)));
            Ok(())
        };
        read.each_flow(FlowsOf::Within(from, until), &mut take)?;
        for load in named {
            read.each_flow(FlowsOf::Load(load), &mut take)?;
        }
        found.sort_unstable_by(|one, other| one.0.cmp(&other.0));
        found.dedup_by(|one, other| one.0 == other.0);
        found.into_iter().filter_map(|(load, state)| self.placed(&load, state).transpose()).collect()
    }
}
