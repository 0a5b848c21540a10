//! What the slings at hand leave open: for each set and each choice of ropes, the links that each leg may have.

use slingseal_words::Quantity;

use super::noun::{Asked, SolveError};
use super::stock::Stock;
use crate::RiggedLoad;
use crate::load::Reach;

/// Ways to choose ropes.
const MOST_ROPES: usize = 64;

/// The slings of the file, or one set.
pub(super) struct Group {
    pub(super) set: Option<slingseal_words::Name>,
    pub(super) weakest: f64,
    pub(super) enough: bool,
    pub(super) grounds: Vec<Ground>,
}

/// One choice of ropes, with every link open.
pub(super) struct Ground {
    pub(super) load: RiggedLoad,
    pub(super) ropes: Vec<Option<Quantity>>,
    /// For each leg the links that it may have; empty without a chain.
    pub(super) links: Vec<Vec<u16>>,
}

impl Ground {
    pub(super) fn ways(&self) -> f64 {
        self.links.iter().map(|links| links.len().max(1) as f64).product()
    }

    /// The load with these links.
    pub(super) fn with(&self, links: &[u16]) -> RiggedLoad {
        let mut load = self.load.clone();
        for (leg, link) in load.legs.iter_mut().zip(links) {
            if let Some(chain) = leg.reach.chain_mut() {
                chain.seated = *link;
            }
        }
        load
    }
}

pub(super) fn groups(load: &RiggedLoad, stock: &Stock, asked: &Asked) -> Result<Vec<Group>, SolveError> {
    for between in &asked.between {
        let leg = load.legs.iter().find(|leg| leg.name == between.leg);
        let has_chain = leg.is_some_and(|leg| leg.reach.chain().is_some())
            || leg.is_some() && stock.sets.iter().any(|set| set.chain.is_some());
        if !has_chain {
            return Err(SolveError::NoChain { leg: between.leg.clone() });
        }
    }
    let own = own_grounds(load, stock, asked)?;
    let open = own.len() > 1 || own.iter().any(|ground| ground.ways() > 1.0);
    if !open && stock.sets.is_empty() && load.legs.iter().all(|leg| leg.reach.chain().is_none()) {
        return Err(SolveError::NothingToChoose);
    }
    let weakest = |load: &RiggedLoad| {
        let ratings = load.legs.iter().filter_map(|leg| leg.weakest());
        ratings.map(|(_, rating)| rating.newtons().value()).fold(f64::INFINITY, f64::min)
    };
    let mut groups = vec![Group { set: None, weakest: weakest(load), enough: true, grounds: own }];
    for set in &stock.sets {
        let enough = set.legs >= load.legs.len();
        let made = |reach: &Reach| {
            let load = set.on(load, reach);
            let rope = match reach {
                Reach::Length(rope) | Reach::RopeAndChain(rope, _) => Some(*rope),
                Reach::Chain(_) => None,
            };
            let links = links_of(&load, asked);
            Ground { ropes: vec![rope; load.legs.len()], load, links }
        };
        let grounds = if enough { set.reaches().iter().map(made).collect() } else { Vec::new() };
        groups.push(Group { set: Some(set.name.clone()), weakest: set.weakest(), enough, grounds });
    }
    Ok(groups)
}

/// The file's own slings, with every choice of the ropes that its legs could have.
fn own_grounds(load: &RiggedLoad, stock: &Stock, asked: &Asked) -> Result<Vec<Ground>, SolveError> {
    let mut choices: Vec<Vec<Option<Quantity>>> = vec![Vec::new()];
    for at in 0..load.legs.len() {
        let ropes = stock.ropes.get(at).map(Vec::as_slice).unwrap_or_default();
        let mut of_leg: Vec<Option<Quantity>> = ropes.iter().copied().map(Some).collect();
        if of_leg.is_empty() {
            of_leg.push(None);
        }
        let longer = choices.iter().flat_map(|chosen| {
            of_leg.iter().map(|rope| chosen.iter().copied().chain([*rope]).collect::<Vec<_>>())
        });
        choices = longer.collect();
        if choices.len() > MOST_ROPES {
            return Err(SolveError::TooManyRopes { ways: choices.len(), most: MOST_ROPES });
        }
    }
    let made = choices.into_iter().map(|ropes| {
        let mut load = load.clone();
        for (leg, rope) in load.legs.iter_mut().zip(&ropes) {
            let Some(rope) = rope else { continue };
            leg.reach = match &leg.reach {
                Reach::Length(_) => Reach::Length(*rope),
                Reach::RopeAndChain(_, chain) | Reach::Chain(chain) => {
                    Reach::RopeAndChain(*rope, chain.clone())
                }
            };
        }
        let links = links_of(&load, asked);
        Ground { load, ropes, links }
    });
    Ok(made.collect())
}

fn links_of(load: &RiggedLoad, asked: &Asked) -> Vec<Vec<u16>> {
    let legs = load.legs.iter().map(|leg| {
        let Some(chain) = leg.reach.chain() else { return Vec::new() };
        let held = asked.between.iter().find(|between| between.leg == leg.name);
        let (first, last) = held.map_or((1, u16::MAX), |held| (held.first, held.last));
        (first..=last.min(chain.links.saturating_sub(1))).collect()
    });
    legs.collect()
}

/// The next choice of a link for each leg, in their order; `false` after the last.
pub(super) fn next(places: &mut [usize], links: &[Vec<u16>]) -> bool {
    for (place, links) in places.iter_mut().zip(links).rev() {
        *place += 1;
        if *place < links.len() {
            return true;
        }
        *place = 0;
    }
    false
}
