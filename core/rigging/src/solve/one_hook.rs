//! Rest under one hook with three unknowns: where the hook stands, seen from the load. The load hangs with its centre of gravity
//! below the hook, so that the hook's place tells the attitude; the pose of least energy is where the stretch of the legs less
//! the weight times the hook's distance from the centre is least.

use nalgebra::Vector3;

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
            return hold.solve(&pull).map(|_| hook);
        }
        let step = -hold.solve(&pull)?;
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

/// How the pull changes with the hook's place: symmetric, by its six parts. A search works out half a million of them.
#[derive(Clone, Copy, Debug, Default)]
struct Hold {
    xx: f64,
    yy: f64,
    zz: f64,
    xy: f64,
    xz: f64,
    yz: f64,
}

impl Hold {
    /// Adds `all` in every direction, and `along` times `way` by `way`.
    fn add(&mut self, all: f64, along: f64, way: &Vector3<f64>) {
        let scaled = way * along;
        self.xx += all + scaled.x * way.x;
        self.yy += all + scaled.y * way.y;
        self.zz += all + scaled.z * way.z;
        self.xy += scaled.x * way.y;
        self.xz += scaled.x * way.z;
        self.yz += scaled.y * way.z;
    }

    /// The step that such a pull asks for, by Cholesky's way without roots; `None` where this is not positive definite.
    fn solve(&self, pull: &Vector3<f64>) -> Option<Vector3<f64>> {
        let first = self.xx;
        let (xy, xz) = (self.xy / first, self.xz / first);
        let second = self.yy - xy * self.xy;
        let yz_left = self.yz - xz * self.xy;
        let yz = yz_left / second;
        let third = self.zz - xz * self.xz - yz * yz_left;
        (first > 0.0 && second > 0.0 && third > 0.0).then(|| {
            let y = pull.y - xy * pull.x;
            let z = (pull.z - xz * pull.x - yz * y) / third;
            let y = y / second - yz * z;
            Vector3::new(pull.x / first - xy * y - xz * z, y, z)
        })
    }
}

fn slope(legs: &[OneLeg], hook: &Vector3<f64>) -> (Vector3<f64>, Hold) {
    let high = hook.norm().max(1e-9);
    let up = hook / high;
    let mut pull = -up;
    let mut hold = Hold::default();
    hold.add(-1.0 / high, 1.0 / high, &up);
    for leg in legs {
        let span = hook - leg.point;
        let reach = span.norm().max(1e-12);
        let stretch = reach - leg.length;
        if stretch <= 0.0 {
            continue;
        }
        let way = span / reach;
        let tension = leg.stiffness * stretch;
        pull += way * tension;
        hold.add(tension / reach, leg.stiffness - tension / reach, &way);
    }
    (pull, hold)
}

#[cfg(test)]
mod tests {
    use nalgebra::{Matrix3, Vector3};

    use super::Hold;

    /// Against the library's own Cholesky: the same step where it is positive definite, none where it is not.
    #[test]
    fn a_step_is_that_of_the_library() {
        let mut seed = 7_u64;
        let mut next = || {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 11) as f64 / (1_u64 << 53) as f64 * 2.0 - 1.0
        };
        let (mut some, mut none) = (0, 0);
        for _ in 0..2_000 {
            let mut hold = Hold::default();
            for _ in 0..3 {
                hold.add(next() * 0.3, next() + 0.6, &Vector3::new(next(), next(), next()));
            }
            let Hold { xx, yy, zz, xy, xz, yz } = hold;
            let pull = Vector3::new(next(), next(), next());
            let theirs = Matrix3::new(xx, xy, xz, xy, yy, yz, xz, yz, zz).cholesky();
            match (hold.solve(&pull), theirs.map(|root| root.solve(&pull))) {
                (Some(ours), Some(theirs)) => {
                    assert!((ours - theirs).norm() <= 1e-8 * theirs.norm().max(1.0), "{ours} {theirs}");
                    some += 1;
                }
                (None, None) => none += 1,
                both => panic!("{both:?}"),
            }
        }
        assert!(some > 100 && none > 100, "{some} {none}");
    }
}
