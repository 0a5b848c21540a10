//! Why a load does not hang: the first cause that explains it, with the leg and the length that would mend it.

use nalgebra::{Vector2, Vector3};

use slingseal_words::{Degrees, Quantity};

use super::assessment::{Infeasible, Side};
use super::model::{Model, Pose};
use super::settle::Rest;
use super::shown::shown;
use super::{Leg, RiggedLoad};

/// A load that leans further is not hanging as its rigger meant it. The project's own bound, not a standard's.
const MOST_LEAN: f64 = 45.0;
/// With three legs or more and the centre of gravity outside the lift points, a load that leans further is being rolled
/// off its ground. The project's own bound.
const MOST_LEAN_OUTSIDE: f64 = 10.0;
/// One or two legs find their own place over the centre of gravity: more lean is let pass.
const MOST_LEAN_OUTSIDE_FEW: f64 = 30.0;
/// Strain that no leg gives: the ends do not meet. Also several times its stretch at rated load.
const TORN: f64 = 0.05;
const TORN_STRETCHES: f64 = 4.0;

/// Why this is not hanging; `None` where it is.
pub(super) fn why_not(
    load: &RiggedLoad,
    model: &Model,
    start: &Pose,
    rest: Option<&Rest>,
) -> Option<Infeasible> {
    let why = Why { load, model, start };
    let Some(rest) = rest else {
        return Some(why.too_short(start).or_else(|| why.hook_below()).unwrap_or(Infeasible::NoBalance));
    };
    let lean = rest.pose.lean().to_degrees();
    if let Some(torn) = why.torn(rest) {
        return Some(torn);
    }
    let outside = why.outside();
    let most = if model.legs.len() >= 3 { MOST_LEAN_OUTSIDE } else { MOST_LEAN_OUTSIDE_FEW };
    if let Some(outside) = outside.filter(|_| lean > most) {
        return Some(why.cause_of_lean(lean, Some(outside)));
    }
    let below = model.hooks.iter().all(|hook| hook.z < rest.pose.centre.z);
    (lean > MOST_LEAN || below).then(|| why.cause_of_lean(lean, None))
}

struct Why<'a> {
    load: &'a RiggedLoad,
    model: &'a Model,
    start: &'a Pose,
}

impl Why<'_> {
    fn cause_of_lean(&self, lean: f64, outside: Option<Vector2<f64>>) -> Infeasible {
        let lean = Degrees::new(lean).unwrap_or_default();
        outside
            .map(|out| self.one_side(&out))
            .or_else(|| self.too_short(self.start))
            .or_else(|| self.hook_below())
            .or_else(|| self.outside().map(|out| self.one_side(&out)))
            .or_else(|| self.out_of_step(lean))
            .unwrap_or(Infeasible::TurnsOver { lean })
    }

    /// A leg stretched past what a leg gives: the ends do not meet.
    fn torn(&self, rest: &Rest) -> Option<Infeasible> {
        let legs = self.model.legs.iter().zip(&self.load.legs);
        let (_, leg, reach) = legs
            .map(|(leg, written)| {
                let reach = self.model.line(leg, &rest.pose).reach;
                let stretch = written.stretch.map_or(0.0, |stretch| stretch.si());
                let strain = reach / leg.length - 1.0;
                (strain / TORN.max(TORN_STRETCHES * stretch), written, reach)
            })
            .filter(|(share, ..)| *share > 1.0)
            .max_by(|a, b| a.0.total_cmp(&b.0))?;
        // A short leg shows at level already, with the length that lets the load hang; else what it is torn to.
        let short = self.too_short(self.start);
        Some(short.unwrap_or_else(|| Infeasible::TooShort {
            leg: leg.name.clone(),
            length: self.written(leg),
            closes: self.length(reach, leg),
        }))
    }

    /// How far a leg's lift point stands to the side of its hook and above the centre of gravity, the load level.
    fn level(&self, at: usize, pose: &Pose) -> Option<(f64, f64)> {
        let leg = self.model.legs.get(at)?;
        let arm = pose.turn * leg.arm;
        let centre = if self.model.turns_freely() { Vector3::zeros() } else { pose.centre };
        Some(((centre + arm - self.model.hook(leg)).xy().norm(), arm.z))
    }

    /// How high above the centre of gravity each leg would hold its hook, the load level; `None` where it does not
    /// reach as far as the hook's plumb line.
    fn heights(&self, pose: &Pose) -> Vec<Option<f64>> {
        let legs = self.model.legs.iter().enumerate();
        legs.map(|(at, leg)| {
            let (flat, high) = self.level(at, pose)?;
            (leg.length > flat).then(|| high + (leg.length * leg.length - flat * flat).sqrt())
        })
        .collect()
    }

    /// The height that most legs agree on.
    fn common_height(&self, pose: &Pose) -> Option<f64> {
        let mut heights: Vec<f64> = self.heights(pose).into_iter().flatten().collect();
        heights.sort_by(f64::total_cmp);
        heights.get(heights.len() / 2).copied()
    }

    fn too_short(&self, pose: &Pose) -> Option<Infeasible> {
        let heights = self.heights(pose);
        let legs = self.model.legs.iter().zip(&heights).zip(&self.load.legs).enumerate();
        let (at, flat, high, leg) = legs
            .filter(|(_, ((_, height), _))| height.is_none())
            .filter_map(|(at, (_, leg))| self.level(at, pose).map(|(flat, high)| (at, flat, high, leg)))
            .max_by(|a, b| {
                let short =
                    |at: usize, flat: f64| flat / self.model.legs.get(at).map_or(1.0, |leg| leg.length);
                short(a.0, a.1).total_cmp(&short(b.0, b.1))
            })?;
        let _ = at;
        // Where no other leg says how high the hook is, 45 degrees is a sound angle.
        let rise = self.common_height(pose).map_or(flat, |common| common - high).max(0.0);
        let closes = self.length(flat.hypot(rise), leg);
        Some(Infeasible::TooShort { leg: leg.name.clone(), length: self.written(leg), closes })
    }

    fn hook_below(&self) -> Option<Infeasible> {
        if !self.model.turns_freely() {
            return None;
        }
        let height = self.common_height(self.start).filter(|height| *height <= 0.0)?;
        let legs = self.model.legs.iter().zip(&self.load.legs).enumerate();
        let (at, (_, leg)) = legs.min_by(|a, b| a.1.0.length.total_cmp(&b.1.0.length))?;
        let (flat, high) = self.level(at, self.start)?;
        Some(Infeasible::HookBelow {
            below: self.length(-height, leg),
            leg: leg.name.clone(),
            length: self.written(leg),
            level: self.length(flat.hypot(high), leg),
        })
    }

    /// From the centre of gravity to the nearest place of the lift points' plan; `None` where it stands inside.
    fn outside(&self) -> Option<Vector2<f64>> {
        let points: Vec<Vector2<f64>> = self.model.legs.iter().map(|leg| leg.arm.xy()).collect();
        nearest_of_plan(&points).filter(|nearest| nearest.norm() > 1e-9)
    }

    fn one_side(&self, outside: &Vector2<f64>) -> Infeasible {
        let side = match (outside.x.abs() >= outside.y.abs(), outside.x > 0.0, outside.y > 0.0) {
            (true, true, _) => Side::Ahead,
            (true, false, _) => Side::Behind,
            (false, _, true) => Side::Left,
            (false, _, false) => Side::Right,
        };
        let [forward, ..] = self.load.centre;
        Infeasible::OneSide { side, outside: shown(outside.norm() * self.model.scale, forward.unit()) }
    }

    fn out_of_step(&self, lean: Degrees) -> Option<Infeasible> {
        if self.model.legs.len() < 3 || !self.model.turns_freely() {
            return None;
        }
        let common = self.common_height(self.start)?;
        let heights = self.heights(self.start);
        let (at, leg, odd) = heights
            .into_iter()
            .zip(&self.load.legs)
            .enumerate()
            .filter_map(|(at, (height, leg))| height.map(|height| (at, leg, (height - common).abs())))
            .max_by(|a, b| a.2.total_cmp(&b.2))?;
        let (flat, high) = self.level(at, self.start)?;
        (odd > 0.02).then(|| Infeasible::OutOfStep {
            lean,
            leg: leg.name.clone(),
            length: self.written(leg),
            closes: self.length(flat.hypot(common - high), leg),
        })
    }

    fn length(&self, length: f64, leg: &Leg) -> Quantity {
        shown(length * self.model.scale, leg.reach.shown().unit())
    }

    fn written(&self, leg: &Leg) -> Quantity {
        shown(leg.reach.length().value(), leg.reach.shown().unit())
    }
}

/// The place of the points' convex hull that is nearest to the origin; `None` where the origin is inside.
fn nearest_of_plan(points: &[Vector2<f64>]) -> Option<Vector2<f64>> {
    let mut angles: Vec<f64> = points.iter().map(|point| point.y.atan2(point.x)).collect();
    angles.sort_by(f64::total_cmp);
    let first = angles.first()? + std::f64::consts::TAU;
    let ends = angles.iter().skip(1).copied().chain([first]);
    let gap = angles.iter().zip(ends).map(|(from, to)| to - from).fold(0.0, f64::max);
    if gap <= std::f64::consts::PI {
        return None;
    }
    let pairs = points.iter().flat_map(|from| points.iter().map(move |to| (from, to)));
    let nearest = pairs.map(|(from, to)| {
        let way = to - from;
        let along = if way.norm_squared() > 0.0 {
            (-from.dot(&way) / way.norm_squared()).clamp(0.0, 1.0)
        } else {
            0.0
        };
        from + way * along
    });
    nearest.min_by(|a, b| a.norm_squared().total_cmp(&b.norm_squared()))
}
