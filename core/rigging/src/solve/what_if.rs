//! What a hang is worth against a slip: one link off, a leg that carries nothing, a lift point that is not where it was measured.

use slingseal_words::{Degrees, Name, Quantity, Ratio, Unit};

use crate::links::{LinkEffect, link_effects};
use crate::{Options, RiggedLoad, State, assess_with};

/// What small faults would do.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIf {
    /// One link more and one less, for each leg with a chain.
    pub links: Vec<LinkEffect>,
    /// Each leg gone: slack, or parted.
    pub without: Vec<Without>,
    /// Each lift point moved, by the same way along each axis, to and fro.
    pub moved: Vec<Moved>,
    /// By how much.
    pub by: Quantity,
}

/// The load without one of its legs, at rest again.
#[derive(Clone, Debug, PartialEq)]
pub struct Without {
    /// The leg.
    pub leg: Name,
    /// Whether it may hang so.
    pub state: State,
    /// How it hangs: pitch, roll, the largest utilisation; none where it does not.
    pub hang: Option<(Degrees, Degrees, Ratio)>,
}

/// The load with a lift point moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// The leg whose point is moved.
    pub leg: Name,
    /// The most that the load tilts by it; none where it does not hang so.
    pub tilts: Option<Degrees>,
}

/// Looks at each slip, one at a time.
pub fn what_if(load: &RiggedLoad, options: &Options) -> WhatIf {
    let by = step_of(load);
    let start = assess_with(load, options).hang.map(|hang| (hang.pitch, hang.roll));
    WhatIf {
        links: link_effects(load, options),
        without: load.legs.iter().map(|leg| without(load, &leg.name, options)).collect(),
        moved: load.legs.iter().map(|leg| moved(load, &leg.name, by, start, options)).collect(),
        by,
    }
}

/// An inch, or 25 mm: what a tape in gloves may be off by. The project's own measure.
fn step_of(load: &RiggedLoad) -> Quantity {
    let unit = load.legs.first().map_or(Unit::M, |leg| {
        let [x, ..] = leg.lift_point;
        x.unit()
    });
    let (thousandths, unit) =
        if matches!(unit, Unit::In | Unit::Ft) { (1_000, Unit::In) } else { (25_000, Unit::Mm) };
    Quantity::from_thousandths(thousandths, unit).unwrap_or_else(|| unreachable!("an inch is a quantity"))
}

fn without(load: &RiggedLoad, name: &Name, options: &Options) -> Without {
    let mut fewer = load.clone();
    fewer.legs.retain(|leg| leg.name != *name);
    let assessment = assess_with(&fewer, options);
    let hang = assessment.hang.as_ref().map(|hang| {
        let most = hang.held.first().map(|held| held.utilisation).unwrap_or_default();
        (hang.pitch, hang.roll, most)
    });
    Without { leg: name.clone(), state: assessment.state(), hang }
}

fn moved(
    load: &RiggedLoad,
    name: &Name,
    by: Quantity,
    start: Option<(Degrees, Degrees)>,
    options: &Options,
) -> Moved {
    let mut most: Option<f64> = start.map(|_| 0.0);
    for axis in 0..3 {
        for sign in [1.0, -1.0] {
            let mut changed = load.clone();
            for leg in changed.legs.iter_mut().filter(|leg| leg.name == *name) {
                if let Some(at) = leg.lift_point.get_mut(axis) {
                    *at = Quantity::nearest(at.si() + sign * by.si(), at.unit()).unwrap_or(*at);
                }
            }
            let hang = assess_with(&changed, options).hang;
            most = most.zip(hang).zip(start).map(|((most, hang), (pitch, roll))| {
                let tilt = (hang.pitch.value() - pitch.value()).hypot(hang.roll.value() - roll.value());
                most.max(tilt)
            });
        }
    }
    Moved { leg: name.clone(), tilts: most.and_then(|most| Degrees::new(most).ok()) }
}
