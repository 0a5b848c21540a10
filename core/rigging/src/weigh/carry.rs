//! What a weighing leaves open, carried on to how the load hangs and who carries what.

use slingseal_words::{Degrees, Name, Newtons, Quantity, Ratio};

use super::corners::{Corner, Span, Weighed};
use crate::{Assessment, HeldPart, Options, RiggedLoad, State, assess_with};

/// How a weighed load may hang.
#[derive(Clone, Debug, PartialEq)]
pub struct Carried {
    /// At what was read.
    pub read: Assessment,
    /// Nose up is positive; over all corners that hang.
    pub pitch: Option<Span<Degrees>>,
    /// Left side up is positive.
    pub roll: Option<Span<Degrees>>,
    /// Each leg, in the order of the input.
    pub legs: Vec<LegSpan>,
    /// The worst state over what was read and all corners.
    pub worst: State,
    /// The largest utilisation of any part at any corner, with the part.
    pub governing: Option<(HeldPart, Ratio)>,
    /// How many corners were assessed.
    pub corners: usize,
    /// How many of them do not hang.
    pub not_hanging: usize,
}

/// Between what a leg's tension lies.
#[derive(Clone, Debug, PartialEq)]
pub struct LegSpan {
    /// The leg.
    pub name: Name,
    /// Its tension at rest.
    pub tension: Span<Newtons>,
    /// Its largest utilisation.
    pub utilisation: Ratio,
    /// The largest tension that any way of sharing the load puts on it, at any corner; `None` where there is no largest.
    pub worst_case: Option<Newtons>,
}

/// Assesses the load at what was read and at every corner that the weighing leaves.
pub fn carry(load: &RiggedLoad, weighed: &Weighed, options: &Options) -> Carried {
    let read = assess_with(load, options);
    let mut carried = Carried {
        pitch: None,
        roll: None,
        legs: Vec::new(),
        worst: read.state(),
        governing: None,
        corners: weighed.corners.len(),
        not_hanging: 0,
        read: read.clone(),
    };
    carried.take(&read);
    for corner in &weighed.corners {
        let Some(load) = at_corner(load, corner) else { continue };
        let assessment = assess_with(&load, options);
        carried.not_hanging += usize::from(assessment.hang.is_none());
        carried.take(&assessment);
    }
    carried
}

/// The load as it may be; `None` where a corner is beyond what can be written.
fn at_corner(load: &RiggedLoad, corner: &Corner) -> Option<RiggedLoad> {
    let [x, y, z] = corner.centre;
    let [ux, uy, uz] = load.centre.map(|at| at.unit());
    let place = |at: slingseal_words::Metres, unit| Quantity::nearest(at.value(), unit);
    Some(RiggedLoad {
        mass: Quantity::nearest(corner.mass.value(), load.mass.unit())?,
        centre: [place(x, ux)?, place(y, uy)?, place(z, uz)?],
        ..load.clone()
    })
}

impl Carried {
    fn take(&mut self, assessment: &Assessment) {
        self.worst = worse(self.worst, assessment.state());
        let Some(hang) = &assessment.hang else { return };
        widen(&mut self.pitch, hang.pitch);
        widen(&mut self.roll, hang.roll);
        if let Some(held) = hang.held.first() {
            let more = self.governing.as_ref().is_none_or(|(_, most)| held.utilisation > *most);
            if more {
                self.governing = Some((held.part.clone(), held.utilisation));
            }
        }
        if self.legs.is_empty() {
            self.legs = hang
                .legs
                .iter()
                .map(|leg| LegSpan {
                    name: leg.name.clone(),
                    tension: Span { least: leg.tension, most: leg.tension },
                    utilisation: leg.utilisation,
                    worst_case: leg.worst_case,
                })
                .collect();
        }
        for (span, leg) in self.legs.iter_mut().zip(&hang.legs) {
            if leg.tension < span.tension.least {
                span.tension.least = leg.tension;
            }
            if leg.tension > span.tension.most {
                span.tension.most = leg.tension;
            }
            if leg.utilisation > span.utilisation {
                span.utilisation = leg.utilisation;
            }
            span.worst_case = match (span.worst_case, leg.worst_case) {
                (Some(most), Some(worst)) => Some(if worst > most { worst } else { most }),
                _ => None,
            };
        }
    }
}

fn widen(span: &mut Option<Span<Degrees>>, value: Degrees) {
    let span = span.get_or_insert(Span { least: value, most: value });
    if value < span.least {
        span.least = value;
    }
    if value > span.most {
        span.most = value;
    }
}

fn worse(one: State, other: State) -> State {
    let rank = |state: State| match state {
        State::WithinLimits => 0,
        State::AtRestOnly => 1,
        State::OverLimit => 2,
        State::Infeasible => 3,
    };
    if rank(other) > rank(one) { other } else { one }
}
