//! Four legs at every tap: the whole assessment beside the linear algebra that it cannot do without.
//!
//! `cargo bench -p slingseal-tests --bench rigging_bench`

use divan::{Bencher, black_box};
use nalgebra::{DMatrix, Matrix3, Matrix6, SymmetricEigen, Vector3, Vector6};
use slingseal_rigging::{
    Asked, Options, RiggedLoad, Stock, assess, carry, json, link_effects, png, read, read_file, solve, svg,
};
use slingseal_words::Language;

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
    bencher.bench(|| svg(black_box(&load), black_box(&assessment), Language::English));
}

#[divan::bench(sample_count = 10)]
fn picture_png(bencher: Bencher) {
    let load = example();
    let assessment = assess(&load);
    bencher
        .bench(|| png(black_box(&load), black_box(&assessment), Language::English).expect("it can be drawn"));
}

/// Four chains of 110 links, 141 million ways.
#[divan::bench(sample_count = 10)]
fn links_for_level(bencher: Bencher) {
    let (load, stock) = (example(), Stock::default());
    bencher.bench(|| solve(black_box(&load), &stock, &Asked::default(), &Options::default()));
}

/// What that search cannot do without: rest with three unknowns, five steps each, for as many hangs as it works out.
#[divan::bench(sample_count = 10)]
fn rest_with_three_unknowns_alone(bencher: Bencher) {
    let found = solve(&example(), &Stock::default(), &Asked::default(), &Options::default())
        .expect("it can be sought");
    let (square, right) = (Matrix3::from_diagonal_element(8.0), Vector3::new(1.0, 2.0, 3.0));
    bencher.bench(|| {
        for _ in 0..found.tried * 5 {
            black_box(black_box(square).cholesky().map(|root| root.solve(&right)));
        }
    });
}

/// Every corner of eleven free values.
#[divan::bench(sample_count = 10)]
fn weighing_carried_to_every_corner(bencher: Bencher) {
    let text = include_str!("../../core/rigging/examples/planned-lift.toml");
    let file = read_file(text).expect("the example is valid");
    let (load, weighed) = (file.load.expect("it is rigged"), file.weighing.expect("it is weighed").1);
    bencher.bench(|| carry(black_box(&load), black_box(&weighed), &Options::default()));
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
