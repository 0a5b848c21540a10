//! Statics beside their linear algebra alone: a load at rest, the search for its links, a weighing carried to every corner.

use std::hint::black_box;

use nalgebra::{Matrix3, SMatrix, SVector, Vector3};
use slingseal_rigging::{Asked, Options, RiggedLoad, Stock, assess, carry, read, read_file, solve};

use crate::lines::{Line, at, pair, pair_of_processor};

const VEHICLE: &str = include_str!("../../../core/rigging/examples/light-vehicle.toml");
const WEIGHED: &str = include_str!("../../../core/rigging/examples/planned-lift.toml");

pub(crate) fn measure() -> Vec<Line> {
    let load = read(VEHICLE).expect("the example holds");
    vec![at_rest(&load), links_for_level(&load), corners()]
}

fn at_rest(load: &RiggedLoad) -> Line {
    let rest = || {
        black_box(assess(black_box(load)));
    };
    // One step of the solver is one symmetric 6 x 6 system; a settled pose takes a handful.
    let matrix: SMatrix<f64, 6, 6> =
        SMatrix::from_fn(
            |row, column| if row == column { 9.0 } else { 1.0 / (1.0 + row as f64 + column as f64) },
        );
    let right = SVector::<f64, 6>::from_element(1.0);
    let algebra = || {
        for _ in 0..10 {
            black_box(black_box(matrix).cholesky().expect("positive definite").solve(black_box(&right)));
        }
    };
    let (ours, floor) = pair(500, rest, algebra);
    Line::new("statics of four chain legs", "us", at(&ours, 0.5), "ten 6 x 6 solves", at(&floor, 0.5), None)
}

/// Four chains of 110 links: 141 million ways. Beside it what it cannot do without: rest with three unknowns, five steps each,
/// for as many hangs as it works out. Processor time, as for the corners below.
fn links_for_level(load: &RiggedLoad) -> Line {
    let seek = || solve(black_box(load), &Stock::default(), &Asked::default(), &Options::default());
    let found = seek().expect("it can be sought");
    assert!(found.whole && !found.best.is_empty(), "a search that finds nothing is no measure");
    let (square, right) = (Matrix3::from_diagonal_element(8.0), Vector3::new(1.0, 2.0, 3.0));
    let algebra = || {
        for _ in 0..found.tried * 5 {
            black_box(black_box(square).cholesky().map(|root| root.solve(&right)));
        }
    };
    let (ours, floor) = pair_of_processor(20, || drop(black_box(seek())), algebra);
    Line::new(
        "links of four chain legs for level, of 141 million ways",
        "us",
        at(&ours, 0.5),
        "3 x 3 solves, five a hang that is worked out",
        at(&floor, 0.5),
        None,
    )
}

/// A weighing whose tolerances are carried to tilt and tension: beside it the load at rest, once for each corner.
fn corners() -> Line {
    let file = read_file(WEIGHED).expect("the example holds");
    let (load, weighed) = (file.load.expect("it is rigged"), file.weighing.expect("it is weighed").1);
    let count = weighed.corners.len();
    let ours = || drop(black_box(carry(black_box(&load), black_box(&weighed), &Options::default())));
    let rest = || {
        for _ in 0..count {
            black_box(assess(black_box(&load)));
        }
    };
    let (ours, floor) = pair_of_processor(10, ours, rest);
    let what = format!("a weighing carried to its {count} corners");
    Line::new(&what, "us", at(&ours, 0.5), "as many loads at rest", at(&floor, 0.5), None)
}
