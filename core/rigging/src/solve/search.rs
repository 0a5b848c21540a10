//! The search: by angles that widen, until enough is found.

use nalgebra::Vector3;

use slingseal_words::{Degrees, Quantity, Ratio};

use super::grid::{GridLeg, Heights, walk};
use super::ground::{Ground, Group, groups, next};
use super::noun::{Asked, SolveError};
use super::one_hook::{OneLeg, rest};
use super::proposal::{Proposal, Proposals, SetAnswer};
use super::stock::Stock;
use crate::load::Reach;
use crate::model::UNKNOWN_STRETCH;
use crate::rule::Rule;
use crate::{Assessment, Options, RiggedLoad, State, assess_with};

/// Hangs that are worked out at most, over all sets.
const MOST_TRIES: u64 = 2_000_000;
/// Ways that are gone through one by one, where two hooks forbid the bound.
const MOST_WAYS: u64 = 100_000;
/// Nearness is ranked in steps of this, degrees: nobody rigs finer.
const STEP: f64 = 0.1;
/// Utilisation is ranked in steps of this.
const FINE: f64 = 1e-4;

/// The hangs nearest to the one that is wanted.
///
/// # Errors
/// What cannot be sought.
pub fn solve(
    load: &RiggedLoad,
    stock: &Stock,
    asked: &Asked,
    options: &Options,
) -> Result<Proposals, SolveError> {
    let groups = groups(load, stock, asked)?;
    let share = MOST_TRIES / groups.len().max(1) as u64;
    let mut all: Vec<(Key, Proposal)> = Vec::new();
    let mut sets = Vec::new();
    let (mut tried, mut ways, mut reached) = (0, 0.0, asked.within);
    let mut smallest: Option<(f64, slingseal_words::Name)> = None;
    for (number, group) in groups.iter().enumerate() {
        let mut seeker = Seeker { number, group, asked, options, tried: 0, most_tries: share };
        let (mut found, searched) = seeker.seek()?;
        tried += seeker.tried;
        ways += group.grounds.iter().map(|ground| ground.ways()).sum::<f64>();
        reached = reached.min(searched);
        let best = found.first().map(|(_, best)| (best.off, best.utilisation));
        sets.push(SetAnswer {
            set: group.set.clone(),
            off: best.map(|(off, _)| off),
            utilisation: best.map(|(_, share)| share),
            legs_enough: group.enough,
        });
        if let (Some(name), Some(_)) = (&group.set, best)
            && smallest.as_ref().is_none_or(|(weakest, _)| group.weakest < *weakest)
        {
            smallest = Some((group.weakest, name.clone()));
        }
        all.append(&mut found);
    }
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all.truncate(asked.most);
    Ok(Proposals {
        best: all.into_iter().map(|(_, proposal)| proposal).collect(),
        sets: if stock.sets.is_empty() { Vec::new() } else { sets },
        smallest: smallest.map(|(_, name)| name),
        searched_to: Degrees::new(reached).unwrap_or_default(),
        whole: reached >= asked.within,
        tried,
        ways,
    })
}

/// How proposals are ranked: nearness, utilisation, then which set, which ropes, which links.
type Key = (u32, u32, usize, usize, Vec<u16>);

struct Seeker<'a> {
    number: usize,
    group: &'a Group,
    asked: &'a Asked,
    options: &'a Options,
    tried: u64,
    most_tries: u64,
}

/// A hang that may be proposed, as the quick search sees it.
struct Candidate {
    near: u32,
    /// The largest share of a rating at rest: no rule gives less.
    least: u32,
    ground: usize,
    links: Vec<u16>,
}

impl Seeker<'_> {
    /// What the group has to propose, and how far was looked, degrees.
    fn seek(&mut self) -> Result<(Vec<(Key, Proposal)>, f64), SolveError> {
        // A chain that is held to links that it has not can be seated nowhere.
        let grounds: Vec<usize> = (0..self.group.grounds.len()).filter(|at| self.open(*at)).collect();
        let two = self.group.grounds.iter().any(|ground| ground.load.hooks.len() > 1);
        if two {
            return self.one_by_one(&grounds);
        }
        let grids: Vec<(usize, OneHook)> = grounds
            .iter()
            .filter_map(|at| {
                Some((*at, OneHook::new(self.group.grounds.get(*at)?, self.asked, self.options)?))
            })
            .collect();
        let mut found = Vec::new();
        let (mut from, mut angle) = (0_u32, STEP.min(self.asked.within));
        let mut searched = 0.0;
        loop {
            let upto = whole_steps(angle, self.asked.within);
            let mut candidates = Vec::new();
            let mut whole = true;
            for (at, grid) in &grids {
                whole &= self.gather(*at, grid, angle, from..upto, &mut candidates);
            }
            if !whole {
                break;
            }
            self.propose(candidates, &mut found);
            searched = angle;
            if found.len() >= self.asked.most || angle >= self.asked.within {
                // Whatever lies further ranks after what is found.
                searched = self.asked.within;
                break;
            }
            from = upto;
            angle = (angle * 2.0).min(self.asked.within);
        }
        Ok((found, searched))
    }

    fn open(&self, ground: usize) -> bool {
        self.group.grounds.get(ground).is_some_and(|ground| {
            let legs = ground.load.legs.iter().zip(&ground.links);
            legs.into_iter().all(|(leg, links)| leg.reach.chain().is_none() || !links.is_empty())
        })
    }

    /// The hangs of one ground within an angle whose nearness is one of `wanted`. Answers whether all were looked at.
    fn gather(
        &mut self,
        at: usize,
        grid: &OneHook,
        angle: f64,
        wanted: std::ops::Range<u32>,
        into: &mut Vec<Candidate>,
    ) -> bool {
        let (mut tried, most) = (self.tried, self.most_tries);
        let Some(ground) = self.group.grounds.get(at) else { return true };
        let mut legs = grid.legs.clone();
        let whole = walk(&grid.grid, angle.to_radians(), &mut |chosen, heights| {
            tried += 1;
            if let Some((near, least)) = grid.hang(&mut legs, chosen, heights, ground, self)
                && wanted.contains(&near)
            {
                into.push(Candidate { near, least, ground: at, links: grid.links(chosen) });
            }
            tried < most
        });
        self.tried = tried;
        whole
    }

    /// Assesses candidates in their order, until no later one can rank before what is found.
    fn propose(&self, mut candidates: Vec<Candidate>, found: &mut Vec<(Key, Proposal)>) {
        candidates.sort_by(|a, b| {
            (a.near, a.least, a.ground, &a.links).cmp(&(b.near, b.least, b.ground, &b.links))
        });
        for candidate in candidates {
            let key =
                (candidate.near, candidate.least, self.number, candidate.ground, candidate.links.clone());
            let last = self.asked.most.checked_sub(1).and_then(|last| found.get(last));
            if last.is_some_and(|(last, _)| *last <= key) {
                break;
            }
            self.take(candidate.ground, candidate.links, found);
        }
    }

    /// Assesses one, and keeps it in its place where it may be proposed.
    fn take(&self, ground: usize, links: Vec<u16>, found: &mut Vec<(Key, Proposal)>) {
        let Some(of) = self.group.grounds.get(ground) else { return };
        let load = of.with(&links);
        let assessment = assess_with(&load, self.options);
        let Some((off, utilisation)) = judged(&load, &assessment, self.asked, self.options) else { return };
        if off > self.asked.within {
            return;
        }
        let names = load.legs.iter().zip(&links);
        let links_of = names.map(|(leg, link)| (leg.name.clone(), leg.reach.chain().map(|_| *link)));
        let proposal = Proposal {
            set: self.group.set.clone(),
            links: links_of.collect(),
            ropes: of.ropes.clone(),
            off: Degrees::new(off).unwrap_or_default(),
            utilisation: Ratio::new(utilisation).unwrap_or_default(),
            load,
            assessment,
        };
        let key = (steps(off, STEP), steps(utilisation, FINE), self.number, ground, links);
        let place = found.partition_point(|(other, _)| *other < key);
        found.insert(place, (key, proposal));
    }

    fn one_by_one(&mut self, grounds: &[usize]) -> Result<(Vec<(Key, Proposal)>, f64), SolveError> {
        let chosen = grounds.iter().filter_map(|at| self.group.grounds.get(*at));
        let ways: f64 = chosen.map(Ground::ways).sum();
        if ways > MOST_WAYS as f64 {
            let grounds = grounds.iter().filter_map(|at| self.group.grounds.get(*at));
            let chains = grounds.map(|ground| ground.links.iter().filter(|links| links.len() > 1).count());
            let chains = chains.max().unwrap_or(1).max(1);
            // Over all grounds together. A whole number of links, and one at least: the cast keeps it.
            let share = MOST_WAYS as f64 / self.group.grounds.len().max(1) as f64;
            let each = share.powf(1.0 / chains as f64).floor().max(1.0) as u64;
            return Err(SolveError::TooMany { ways: format!("{ways:.0}"), most: MOST_WAYS, each });
        }
        let mut found = Vec::new();
        for at in grounds {
            let Some(ground) = self.group.grounds.get(*at) else { continue };
            let mut places = vec![0_usize; ground.links.len()];
            loop {
                let at_places = ground.links.iter().zip(&places);
                let links = at_places.map(|(links, at)| links.get(*at).copied().unwrap_or(1)).collect();
                self.tried += 1;
                self.take(*at, links, &mut found);
                if !next(&mut places, &ground.links) {
                    break;
                }
            }
        }
        Ok((found, self.asked.within))
    }
}

fn steps(value: f64, step: f64) -> u32 {
    // The bound keeps the cast exact; a hair below a step counts as on it, so that rounding does not part like from like.
    (value / step + 1e-6).floor().clamp(0.0, 1e9) as u32
}

/// How many steps lie wholly within an angle; at the end of what was asked, the last one too.
fn whole_steps(angle: f64, within: f64) -> u32 {
    if angle >= within { u32::MAX } else { steps(angle, STEP) }
}

/// How far a hang is from what is wanted, degrees, and the largest utilisation of its legs; `None` where it is not proposed.
fn judged(
    load: &RiggedLoad,
    assessment: &Assessment,
    asked: &Asked,
    options: &Options,
) -> Option<(f64, f64)> {
    let hang = assessment.hang.as_ref()?;
    let keeps = match assessment.state() {
        State::WithinLimits => true,
        State::AtRestOnly => load.rule.is_none(),
        State::OverLimit | State::Infeasible => false,
    };
    let carried = hang.legs.iter().all(|leg| !leg.slack && leg.from_horizontal.value() > 0.0);
    let (pitch, roll) = (hang.pitch.value(), hang.roll.value());
    let nose_down = asked.wanted.nose_down_at_least.is_none_or(|down| pitch <= -down + 1e-9);
    (keeps && carried && nose_down).then_some(())?;
    let up = super::noun::Wanted { pitch, roll, nose_down_at_least: None }.up();
    let off = angle_between(&Vector3::from(up), &Vector3::from(asked.wanted.up()));
    // What carries the whole weight is the same in every hang: the legs tell them apart.
    let rest = hang.legs.iter().map(|leg| leg.utilisation.value()).fold(0.0, f64::max);
    let by_rule = match load.rule {
        None | Some(Rule::Rest) => 0.0,
        Some(Rule::ThreeLegs) => hang.rules.three_leg.value(),
        Some(Rule::TwoLegs) => hang.rules.two_leg.value(),
        Some(Rule::WorstCase) => hang.worst(options.factor()).map_or(0.0, |(_, share)| share.value()),
    };
    Some((off, rest.max(by_rule)))
}

fn angle_between(one: &Vector3<f64>, other: &Vector3<f64>) -> f64 {
    one.cross(other).norm().atan2(one.dot(other)).to_degrees()
}

/// A ground under one hook, ready for the bound and for the quick rest.
struct OneHook {
    /// Legs without a chain first: they narrow the hook's height at once.
    order: Vec<usize>,
    grid: Vec<GridLeg>,
    legs: Vec<OneLeg>,
    links: Vec<Vec<u16>>,
    /// Rating over weight and load factor, by leg.
    ratings: Vec<f64>,
    /// Stiffness times length, by leg.
    firmness: Vec<f64>,
    wanted: Vector3<f64>,
}

impl OneHook {
    /// `None` where no hang of it can be proposed.
    fn new(ground: &Ground, asked: &Asked, options: &Options) -> Option<Self> {
        let load = &ground.load;
        let weight = load.mass.newtons()?.value() * options.factor();
        let wanted = Vector3::from(asked.wanted.up());
        let centre = Vector3::from(load.centre.map(Quantity::si));
        let hook = load.hooks.first()?;
        let over_all =
            load.allowable.iter().chain(&hook.limit).chain(load.parts.iter().map(|part| &part.rating));
        let whole = over_all.map(|rating| weight / rating.newtons().value()).fold(0.0, f64::max);
        let lengths: Vec<Vec<f64>> = load
            .legs
            .iter()
            .zip(&ground.links)
            .map(|(leg, links)| {
                let mut reach = leg.reach.clone();
                let of = |reach: &Reach| reach.length().value();
                match reach.chain_mut() {
                    None => vec![of(&reach)],
                    Some(_) => links
                        .iter()
                        .map(|link| {
                            if let Some(chain) = reach.chain_mut() {
                                chain.seated = *link;
                            }
                            of(&reach)
                        })
                        .collect(),
                }
            })
            .collect();
        let scale = lengths.iter().flatten().copied().fold(0.0, f64::max);
        (scale > 0.0 && whole <= 1.0 + 1e-9).then_some(())?;
        let mut order: Vec<usize> = (0..load.legs.len()).collect();
        order.sort_by_key(|at| lengths.get(*at).map_or(0, Vec::len));
        let (mut grid, mut legs, mut links, mut ratings, mut firmness) =
            (Vec::new(), Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for at in &order {
            let leg = load.legs.get(*at)?;
            let point = (Vector3::from(leg.lift_point.map(Quantity::si)) - centre) / scale;
            let along = point.dot(&wanted);
            let rating = leg.weakest()?.1.newtons().value() / weight;
            let stretch = leg.stretch.map_or(UNKNOWN_STRETCH, |stretch| stretch.si());
            let lengths: Vec<f64> = lengths.get(*at)?.iter().map(|length| length / scale).collect();
            grid.push(GridLeg {
                along,
                across: (point - wanted * along).norm(),
                lengths,
                most_strain: stretch / options.factor() * (1.0 + 1e-9),
                firmness: rating * options.factor() / stretch,
            });
            legs.push(OneLeg { point, length: 1.0, stiffness: 1.0 });
            links.push(ground.links.get(*at)?.clone());
            ratings.push(rating);
            firmness.push(rating * options.factor() / stretch);
        }
        // All legs at their ratings straight up would not hold it.
        (ratings.iter().sum::<f64>() >= 1.0 - 1e-9).then_some(())?;
        Some(Self { order, grid, legs, links, ratings, firmness, wanted })
    }

    /// The links of a choice, in the order of the load's legs.
    fn links(&self, chosen: &[usize]) -> Vec<u16> {
        let mut links = vec![1; self.order.len()];
        for ((leg, of_leg), at) in self.order.iter().zip(&self.links).zip(chosen) {
            if let (Some(link), Some(chosen)) = (links.get_mut(*leg), of_leg.get(*at)) {
                *link = *chosen;
            }
        }
        links
    }

    /// How near a choice hangs and its largest share of a rating at rest, in steps; `None` where it is not proposed.
    fn hang(
        &self,
        legs: &mut [OneLeg],
        chosen: &[usize],
        heights: Heights,
        ground: &Ground,
        seeker: &Seeker<'_>,
    ) -> Option<(u32, u32)> {
        for (((leg, grid), firmness), at) in legs.iter_mut().zip(&self.grid).zip(&self.firmness).zip(chosen) {
            leg.length = *grid.lengths.get(*at)?;
            leg.stiffness = firmness / leg.length;
        }
        let start = self.wanted * ((heights.low + heights.high) / 2.0);
        let Some(hook) = rest(legs, start) else {
            // Not found at once: the whole search has the word.
            let load = ground.with(&self.links(chosen));
            let assessment = assess_with(&load, seeker.options);
            let (off, share) = judged(&load, &assessment, seeker.asked, seeker.options)?;
            return Some((steps(off, STEP), steps(share, FINE)));
        };
        let mut most: f64 = 0.0;
        for (leg, rating) in legs.iter().zip(&self.ratings) {
            let stretch = (hook - leg.point).norm() - leg.length;
            let tension = leg.stiffness * stretch;
            (stretch > 0.0 && tension <= rating * (1.0 + 1e-8)).then_some(())?;
            most = most.max(tension / rating);
        }
        let off = angle_between(&hook, &self.wanted);
        Some((steps(off, STEP), steps(most, FINE)))
    }
}
