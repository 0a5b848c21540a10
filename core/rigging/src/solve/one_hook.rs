//! Rest under one hook with three unknowns: where the hook stands, seen from the load. The load hangs with its centre of gravity
//! below the hook, so that the hook's place tells the attitude; the pose of least energy is where the stretch of the legs less
//! the weight times the hook's distance from the centre is least.

use nalgebra::{Matrix3, Vector3};

/// A leg, seen from the centre of gravity; lengths and forces as in the model.
#[derive(Clone, Copy, Debug)]
pub(super) struct OneLeg {
    pub point: Vector3<f64>,
    pub length: f64,
    pub stiffness: f64,
}

const MOST_STEPS: usize = 40;
const BALANCE: f64 = 1e-12;

/// Where the hook stands with the load at rest, from near `start`; `None` where it is not found at once.
pub(super) fn rest(legs: &[OneLeg], start: Vector3<f64>) -> Option<Vector3<f64>> {
    let stiffest = legs.iter().map(|leg| leg.stiffness).fold(0.0, f64::max);
    let wanted = BALANCE.max(8.0 * f64::EPSILON * stiffest);
    let mut hook = start;
    let (mut pull, mut hold) = slope(legs, &hook);
    let mut miss = pull.norm();
    for _ in 0..MOST_STEPS {
        if miss <= wanted {
            // Least energy, and not a saddle.
            return hold.cholesky().map(|_| hook);
        }
        let step = -hold.cholesky()?.solve(&pull);
        let mut share = 1.0;
        loop {
            let next = hook + step * share;
            let (there, held) = slope(legs, &next);
            if there.norm() < miss {
                (hook, pull, hold) = (next, there, held);
                miss = pull.norm();
                break;
            }
            if miss <= 1e3 * wanted {
                return Some(hook);
            }
            share *= 0.5;
            if share < 1e-3 {
                return None;
            }
        }
    }
    None
}

fn slope(legs: &[OneLeg], hook: &Vector3<f64>) -> (Vector3<f64>, Matrix3<f64>) {
    let high = hook.norm().max(1e-9);
    let up = hook / high;
    let mut pull = -up;
    let mut hold = (up * up.transpose() - Matrix3::identity()) / high;
    for leg in legs {
        let span = hook - leg.point;
        let reach = span.norm().max(1e-12);
        let stretch = reach - leg.length;
        if stretch <= 0.0 {
            continue;
        }
        let way = span / reach;
        let along = way * way.transpose();
        let tension = leg.stiffness * stretch;
        pull += way * tension;
        hold += along * leg.stiffness + (Matrix3::identity() - along) * (tension / reach);
    }
    (pull, hold)
}
