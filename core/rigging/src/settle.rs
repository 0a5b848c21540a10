//! Where the load comes to rest: the pose of least energy, weight against stretch, found by Newton's method with the
//! exact second derivative. Legs carry tension only. Least energy, not mere balance: a pose that would roll over is a
//! saddle, and the search leaves it.

use nalgebra::{Matrix3, Matrix6, SymmetricEigen, UnitQuaternion, Vector3, Vector6};

use super::model::{Model, Pose};

/// A pose at rest.
#[derive(Clone, Debug)]
pub(super) struct Rest {
    pub pose: Pose,
    /// The tension of each leg, a share of the weight.
    pub tensions: Vec<f64>,
    /// How many ways of moving cost no energy, beyond a free turn about the vertical.
    pub neutral: usize,
}

/// Energy with its first and second derivative by a small move and a small turn.
struct Slope {
    energy: f64,
    first: Vector6<f64>,
    second: Matrix6<f64>,
}

const MOST_STEPS: usize = 400;
/// A second derivative below this is no hold at all (the pendulum's own is about one).
const NO_HOLD: f64 = 1e-6;
/// Stiffness that the search starts from: a soft sling finds its place from far away.
const SOFT: f64 = 60.0;
/// Balance is asked to this share of the weight, where the arithmetic can give it.
const BALANCE: f64 = 1e-12;

/// Seeks rest from `start`; `None` where none is found.
pub(super) fn settle(model: &Model, start: Pose) -> Option<Rest> {
    let stiffest = model.legs.iter().map(|leg| leg.stiffness).fold(0.0, f64::max);
    let mut pose = start;
    let mut soften = (SOFT / stiffest).min(1.0);
    while soften < 1.0 {
        pose = descend(model, soften, pose)?;
        soften *= 30.0;
    }
    pose = descend(model, 1.0, pose)?;
    let (_, values) = spread_of_hold(&slope(model, 1.0, &pose).second);
    let free = usize::from(model.turns_freely());
    let neutral = values.iter().filter(|value| value.abs() <= no_hold(model)).count().saturating_sub(free);
    let tensions: Vec<f64> = model.legs.iter().map(|leg| model.line(leg, &pose).tension).collect();
    tensions.iter().all(|tension| tension.is_finite()).then_some(())?;
    Some(Rest { pose, tensions, neutral })
}

fn no_hold(model: &Model) -> f64 {
    NO_HOLD + 1e-13 * model.legs.iter().map(|leg| leg.stiffness).sum::<f64>()
}

fn spread_of_hold(second: &Matrix6<f64>) -> (Matrix6<f64>, Vector6<f64>) {
    let eigen = SymmetricEigen::new(*second);
    (eigen.eigenvectors, eigen.eigenvalues)
}

/// Goes down to a point of least energy, leaving saddles on the way.
fn descend(model: &Model, soften: f64, start: Pose) -> Option<Pose> {
    let mut pose = start;
    for _ in 0..8 {
        pose = newton(model, soften, pose)?;
        let (ways, values) = spread_of_hold(&slope(model, soften, &pose).second);
        let (at, least) = values.argmin();
        if least >= -no_hold(model) {
            return Some(pose);
        }
        // A saddle: a push along the way down, always to the same side.
        let way = ways.column(at).into_owned();
        let side = if way.iter().find(|part| part.abs() > 1e-6).is_some_and(|part| *part < 0.0) {
            -1.0
        } else {
            1.0
        };
        pose = moved(&pose, &(way * (0.05 * side)));
    }
    None
}

fn newton(model: &Model, soften: f64, start: Pose) -> Option<Pose> {
    let stiffest = soften * model.legs.iter().map(|leg| leg.stiffness).fold(0.0, f64::max);
    let wanted = BALANCE.max(4.0 * f64::EPSILON * stiffest);
    let (mut pose, mut here) = (start, slope(model, soften, &start));
    let mut damping = 1e-3;
    for _ in 0..MOST_STEPS {
        let miss = here.first.norm();
        if miss <= wanted {
            return Some(pose);
        }
        let damped = here.second + Matrix6::identity() * damping;
        let step = damped.cholesky().map(|root| -root.solve(&here.first));
        let Some(step) = step.filter(|step| step.norm() <= 0.5) else {
            damping = (damping * 4.0).max(1e-6);
            if damping > 1e12 {
                return None;
            }
            continue;
        };
        let next = moved(&pose, &step);
        let there = slope(model, soften, &next);
        // Near rest the energy is flat to the last bit, and the pull alone tells the way.
        let flat = (there.energy - here.energy).abs() <= 1e-12;
        if there.energy < here.energy && !flat || flat && there.first.norm() < miss {
            (pose, here) = (next, there);
            damping = if damping < 1e-12 { 0.0 } else { damping * 0.1 };
            continue;
        }
        if flat && miss <= 1e3 * wanted {
            return Some(pose);
        }
        damping = (damping * 8.0).max(1e-9);
        if damping > 1e12 {
            return None;
        }
    }
    None
}

fn moved(pose: &Pose, step: &Vector6<f64>) -> Pose {
    let turn = UnitQuaternion::from_scaled_axis(step.fixed_rows::<3>(3).into_owned());
    Pose { centre: pose.centre + step.fixed_rows::<3>(0), turn: turn * pose.turn }
}

/// Weight pulls the centre down; a stretched leg holds ½ k e². With `d` the leg's direction, `s` the lift point's arm
/// and `t` the tension, a small move `x` and turn `w` shift the lift point by `x + w × s + ½ w × (w × s)`.
fn slope(model: &Model, soften: f64, pose: &Pose) -> Slope {
    let mut first = Vector6::new(0.0, 0.0, 1.0, 0.0, 0.0, 0.0);
    let mut second = Matrix6::zeros();
    let mut energy = pose.centre.z;
    if model.push != Vector3::zeros() {
        energy += pushed(model, pose, &mut first, &mut second);
    }
    for leg in &model.legs {
        let line = model.line(leg, pose);
        if line.tension <= 0.0 {
            continue;
        }
        let (stiffness, tension) = (soften * leg.stiffness, soften * line.tension);
        energy += 0.5 * tension * (line.reach - leg.length);
        let (down, arm) = (line.down, line.arm);
        let pull = down * tension;
        let moment = arm.cross(&pull);
        let mut both = first.fixed_rows_mut::<3>(0);
        both += pull;
        let mut both = first.fixed_rows_mut::<3>(3);
        both += moment;

        let along = down * down.transpose();
        let hold = along * stiffness + (Matrix3::identity() - along) * (tension / line.reach);
        let across = arm.cross_matrix();
        let lever = hold * across;
        let twist =
            (down * arm.transpose() + arm * down.transpose()) * 0.5 - Matrix3::identity() * down.dot(&arm);
        let mut block = second.fixed_view_mut::<3, 3>(0, 0);
        block += hold;
        let mut block = second.fixed_view_mut::<3, 3>(0, 3);
        block -= lever;
        let mut block = second.fixed_view_mut::<3, 3>(3, 0);
        block -= lever.transpose();
        let mut block = second.fixed_view_mut::<3, 3>(3, 3);
        block += across.transpose() * lever + twist * tension;
    }
    Slope { energy, first, second }
}

/// What a steady push adds to the slope; answers its energy. It is a leg's pull of fixed size and way.
fn pushed(model: &Model, pose: &Pose, first: &mut Vector6<f64>, second: &mut Matrix6<f64>) -> f64 {
    let (pull, arm) = (-model.push, pose.turn * model.push_at);
    let mut both = first.fixed_rows_mut::<3>(0);
    both += pull;
    let mut both = first.fixed_rows_mut::<3>(3);
    both += arm.cross(&pull);
    let twist =
        (pull * arm.transpose() + arm * pull.transpose()) * 0.5 - Matrix3::identity() * pull.dot(&arm);
    let mut block = second.fixed_view_mut::<3, 3>(3, 3);
    block += twist;
    pull.dot(&(pose.centre + arm))
}

/// Level under the hooks, at the height that the legs give it: where the rigger means it to hang.
pub(super) fn level_start(model: &Model) -> Pose {
    let plan = |hook: usize| {
        let arms: Vec<_> = model.legs.iter().filter(|leg| leg.hook == hook).map(|leg| leg.arm).collect();
        arms.iter().sum::<Vector3<f64>>() / (arms.len().max(1) as f64)
    };
    let turn = match (model.hooks.as_slice(), model.turns_freely()) {
        ([first, second], false) => {
            let (hooks, load) = ((second - first).xy(), (plan(1) - plan(0)).xy());
            let turn = hooks.y.atan2(hooks.x) - load.y.atan2(load.x);
            UnitQuaternion::from_axis_angle(&Vector3::z_axis(), if load.norm() > 1e-9 { turn } else { 0.0 })
        }
        _ => UnitQuaternion::identity(),
    };
    let below = Pose { centre: Vector3::zeros(), turn };
    let mut heights: Vec<f64> = model
        .legs
        .iter()
        .map(|leg| {
            let span = model.line(leg, &below);
            let flat = (span.arm - model.hook(leg)).xy().norm();
            let rise = (leg.length * leg.length - flat * flat).max(0.04 * leg.length * leg.length).sqrt();
            model.hook(leg).z - rise - span.arm.z
        })
        .collect();
    heights.sort_by(f64::total_cmp);
    let middle = heights.get(heights.len() / 2).copied().unwrap_or(-1.0);
    Pose { centre: Vector3::new(0.0, 0.0, middle), turn }
}
