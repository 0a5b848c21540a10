//! A rigging solve, beside its linear algebra alone.

use std::hint::black_box;

use nalgebra::{SMatrix, SVector};
use slingseal_rigging::{assess, read};

use crate::lines::{Line, at, pair};

const VEHICLE: &str = include_str!("../../../core/rigging/examples/light-vehicle.toml");

pub(crate) fn measure() -> Vec<Line> {
    let load = read(VEHICLE).expect("the example holds");
    let solve = || {
        black_box(assess(black_box(&load)));
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
    let (ours, floor) = pair(500, solve, algebra);
    vec![Line::new(
        "statics of four chain legs",
        "us",
        at(&ours, 0.5),
        "ten 6 x 6 solves",
        at(&floor, 0.5),
        None,
    )]
}
