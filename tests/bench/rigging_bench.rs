//! Four legs at every tap: the whole assessment beside the linear algebra that it cannot do without.
//!
//! `cargo bench -p slingseal-tests --bench rigging_bench`

use divan::{Bencher, black_box};
use nalgebra::{DMatrix, Matrix6, SymmetricEigen, Vector6};
use slingseal_rigging::{Options, RiggedLoad, assess, json, link_effects, png, read, svg};

fn main() {
    divan::main();
}

fn example() -> RiggedLoad {
    read(include_str!("../../core/rigging/examples/light-vehicle.toml")).expect("the example is valid")
}

#[divan::bench]
fn four_legs(bencher: Bencher) {
    let load = example();
    bencher.bench(|| assess(black_box(&load)));
}

#[divan::bench]
fn tandem_four_legs(bencher: Bencher) {
    let load =
        read(include_str!("../../core/rigging/examples/bridge-beam.toml")).expect("the example is valid");
    bencher.bench(|| assess(black_box(&load)));
}

#[divan::bench]
fn four_legs_with_every_link_change(bencher: Bencher) {
    let load = example();
    bencher.bench(|| link_effects(black_box(&load), &Options::default()));
}

#[divan::bench]
fn json_text(bencher: Bencher) {
    let assessment = assess(&example());
    bencher.bench(|| json(black_box(&assessment), &[]));
}

#[divan::bench]
fn picture_svg(bencher: Bencher) {
    let load = example();
    let assessment = assess(&load);
    bencher.bench(|| svg(black_box(&load), black_box(&assessment)));
}

#[divan::bench(sample_count = 10)]
fn picture_png(bencher: Bencher) {
    let load = example();
    let assessment = assess(&load);
    bencher.bench(|| png(black_box(&load), black_box(&assessment)).expect("it can be drawn"));
}

/// What a search of ten steps solves: ten systems of six, two sets of eigenvalues for the hold, one set of singular
/// values and the four corners of the worst case of four legs.
#[divan::bench]
fn linear_algebra_alone(bencher: Bencher) {
    let square =
        Matrix6::from_fn(|row, column| if row == column { 8.0 } else { 1.0 / (1 + row + column) as f64 });
    let right = Vector6::from_fn(|row, _| row as f64);
    let pulls = DMatrix::from_fn(6, 4, |row, column| ((row * 5 + column * 3) % 7) as f64 - 2.0);
    bencher.bench(|| {
        for _ in 0..10 {
            black_box(black_box(square).cholesky().map(|root| root.solve(&right)));
        }
        for _ in 0..2 {
            black_box(SymmetricEigen::new(black_box(square)));
        }
        black_box(black_box(pulls.clone()).svd(true, false));
        for _ in 0..4 {
            black_box(black_box(square).full_piv_lu().solve(&right));
        }
    });
}
