//! The worst case of each leg: the largest tension over every non-negative distribution that balances the load.
//!
//! The distributions form a polytope, `A t = b, t >= 0`, and the largest value of one tension stands at a corner of it.
//! With at most eight legs there are at most seventy corners to look at, so they are all looked at: the answer is exact.

use nalgebra::{DMatrix, DVector, Matrix6, Vector6};

use super::model::{Model, Pose};

/// Directions of balance weaker than this are none: the legs lie in one plane, or in one line.
const NO_DIRECTION: f64 = 1e-8;
/// Tension below zero by no more than this share of the weight is rounding.
const ROUNDING: f64 = 1e-9;

/// The largest tension of each leg, a share of the weight, at a pose of balance; `None` where the legs can pull against
/// each other, so that no distribution is the largest.
pub(super) fn worst_cases(model: &Model, pose: &Pose, elastic: &[f64]) -> Vec<Option<f64>> {
    let legs = model.legs.len();
    let mut pulls = DMatrix::zeros(6, legs);
    for (at, leg) in model.legs.iter().enumerate() {
        let line = model.line(leg, pose);
        let (force, moment) = (-line.down, line.arm.cross(&-line.down));
        pulls.column_mut(at).copy_from_slice(&[force.x, force.y, force.z, moment.x, moment.y, moment.z]);
    }
    let wanted = DVector::from_column_slice(&[0.0, 0.0, 1.0, 0.0, 0.0, 0.0]);
    let svd = pulls.clone().svd(true, false);
    let strongest = svd.singular_values.max();
    let rank = svd.singular_values.iter().filter(|value| **value > NO_DIRECTION * strongest).count();
    let Some(ways) = svd.u.filter(|_| rank > 0) else { return elastic.iter().copied().map(Some).collect() };
    // The singular values come in falling order.
    let ways = ways.columns(0, rank).transpose();
    let (pulls, wanted) = (&ways * pulls, &ways * wanted);

    let mut most: Vec<f64> = elastic.to_vec();
    for corner in 0_u32..(1 << legs) {
        if corner.count_ones() as usize != rank {
            continue;
        }
        let chosen: Vec<usize> = (0..legs).filter(|leg| corner & (1 << leg) != 0).collect();
        let Some(tensions) = solve(&pulls, &wanted, &chosen) else { continue };
        if tensions.iter().take(rank).any(|tension| *tension < -ROUNDING) {
            continue;
        }
        for (tension, leg) in tensions.iter().zip(&chosen) {
            if let Some(most) = most.get_mut(*leg) {
                *most = most.max(*tension);
            }
        }
    }
    if legs_pull_against_each_other(model, pose) {
        return elastic.iter().map(|_| None).collect();
    }
    most.into_iter().map(Some).collect()
}

/// A leg that pulls down can be balanced by more tension elsewhere, without end. Under hooks that all stand above the
/// lift points every leg pulls up, and the weight bounds them all.
fn legs_pull_against_each_other(model: &Model, pose: &Pose) -> bool {
    model.legs.iter().any(|leg| model.line(leg, pose).down.z >= 0.0)
}

fn solve(pulls: &DMatrix<f64>, wanted: &DVector<f64>, chosen: &[usize]) -> Option<Vector6<f64>> {
    // Beyond the rank the square is filled up with ones: unknowns that nobody asks for.
    let square = Matrix6::from_fn(|row, column| match chosen.get(column) {
        Some(leg) => pulls.get((row, *leg)).copied().unwrap_or(0.0),
        None => f64::from(u8::from(row == column)),
    });
    let right = Vector6::from_fn(|row, _| wanted.get(row).copied().unwrap_or(0.0));
    let lu = square.full_piv_lu();
    let smallest = lu.u().diagonal().iter().fold(f64::INFINITY, |least, value| least.min(value.abs()));
    if smallest < ROUNDING {
        return None;
    }
    lu.solve(&right)
}
