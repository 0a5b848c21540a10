//! Closed forms that textbooks on statics derive; the books are named from memory, the forms are derived here anew.

use slingseal_rigging::{RiggedLoad, assess};
use slingseal_words::Name;

use crate::support::{cross, hang, hook, leg, less, load, near, norm, out_of_balance, pulls, vector};

const G: f64 = 9.806_65;

/// Lami's theorem for two legs of unequal length (any statics text, for one Meriam and Kraige, Statics, chapter 3): each
/// tension is the weight times the sine of the other leg's angle from the vertical over the sine of both together.
#[test]
fn two_unequal_legs_by_lami() {
    let load = load(
        1_200.0,
        [0.0, 0.0, -300.0],
        vec![leg("1", [1_500.0, 0.0, 0.0], 3_000.0, 0.001), leg("2", [-900.0, 0.0, 0.0], 2_400.0, 0.001)],
    );
    let hang = hang(&load);
    let from_vertical: Vec<f64> =
        hang.legs.iter().map(|leg| (90.0 - leg.from_horizontal.value()).to_radians()).collect();
    let weight = 1_200.0 * G;
    let both = (from_vertical[0] + from_vertical[1]).sin();
    near(hang.legs[0].tension.value(), weight * from_vertical[1].sin() / both, 1e-9);
    near(hang.legs[1].tension.value(), weight * from_vertical[0].sin() / both, 1e-9);
    // The triangle of the legs and the base is rigid: its corner at the hook stands by the law of cosines.
    let apex = (3.0_f64.powi(2) + 2.4_f64.powi(2) - 2.4_f64.powi(2)) / (2.0 * 3.0 * 2.4);
    near((from_vertical[0] + from_vertical[1]).cos(), apex, 1e-4);
}

/// A tripod with unequal legs (concurrent forces in space; for one Beer and Johnston, Statics, chapter 2): three
/// equations by Cramer's rule at the place where the legs meet, found by trilateration.
#[test]
fn an_uneven_tripod_by_cramer() {
    let points = [[1.4, 0.2, 0.1], [-0.8, 1.1, 0.0], [-0.7, -1.2, 0.2]];
    let lengths: [f64; 3] = [3.1, 3.0, 3.2];
    let legs =
        points.iter().zip(lengths).enumerate().map(|(at, (point, length))| {
            leg(&at.to_string(), point.map(|part| part * 1e3), length * 1e3, 0.001)
        });
    let load = load(900.0, [0.0, 0.0, -400.0], legs.collect());
    let hang = hang(&load);
    let hook = trilaterate(points, lengths);
    // The load hangs with its centre under the hook: up, in its own axes, points from the centre to the hook.
    let way = less(hook, [0.0, 0.0, -0.4]);
    let up = way.map(|part| part / norm(way));
    near(hang.pitch.value().to_radians().sin(), up[0], 2e-4);
    near(hang.roll.value().to_radians().tan(), up[1] / up[2], 2e-4);
    let ways = points.map(|point| {
        let way = less(hook, point);
        way.map(|part| part / norm(way))
    });
    let whole = dot(ways[0], cross(ways[1], ways[2]));
    let wanted = [
        dot(up, cross(ways[1], ways[2])) / whole,
        dot(ways[0], cross(up, ways[2])) / whole,
        dot(ways[0], cross(ways[1], up)) / whole,
    ];
    for (leg, wanted) in hang.legs.iter().zip(wanted) {
        near(leg.tension.value(), 900.0 * G * wanted, 2e-4);
    }
}

/// An even tripod: each leg carries a third of the weight over the sine of its angle from the horizontal.
#[test]
fn an_even_tripod() {
    let legs = (0..3).map(|at| {
        let turn = std::f64::consts::TAU * f64::from(at) / 3.0;
        leg(&at.to_string(), [1_000.0 * turn.cos(), 1_000.0 * turn.sin(), 0.0], 2_000.0, 2.0)
    });
    let hang = hang(&load(600.0, [0.0, 0.0, -200.0], legs.collect()));
    for leg in &hang.legs {
        near(leg.tension.value(), 600.0 * G / 3.0 / leg.from_horizontal.value().to_radians().sin(), 1e-6);
    }
    assert!(hang.pitch.value().abs() < 1e-4 && hang.roll.value().abs() < 1e-4);
}

/// A beam on two upright hangers: the law of the lever (Archimedes, On the Equilibrium of Planes).
#[test]
fn a_beam_under_two_hooks_by_the_lever() {
    let mut beam = load(
        2_000.0,
        [500.0, 0.0, -200.0],
        vec![
            leg("fore", [2_000.0, 0.0, 0.0], 4_000.0, 0.001),
            leg("aft", [-2_000.0, 0.0, 0.0], 4_000.0, 0.001),
        ],
    );
    beam.hooks = vec![hook("fore", [2_000.0, 0.0, 0.0]), hook("aft", [-2_000.0, 0.0, 0.0])];
    for leg in &mut beam.legs {
        leg.hook = Some(leg.name.clone());
    }
    let assessment = assess(&beam);
    assert!(out_of_balance(&beam, &assessment) < 1e-9);
    let hang = assessment.hang.unwrap();
    near(hang.hooks[0].load.value(), 2_000.0 * G * 2.5 / 4.0, 1e-4);
    near(hang.hooks[1].load.value(), 2_000.0 * G * 1.5 / 4.0, 1e-4);
}

/// One leg: the load turns until its centre hangs under the lift point.
#[test]
fn a_single_point_hangs_plumb() {
    let hang = hang(&load(800.0, [50.0, -30.0, 0.0], vec![leg("1", [0.0, 0.0, 1_000.0], 3_000.0, 2.0)]));
    near(hang.pitch.value().to_radians().sin(), -0.05 / norm([0.05, 0.03, 1.0]), 1e-9);
    near(hang.roll.value().to_radians().tan(), 0.03, 1e-9);
    near(hang.legs[0].tension.value(), 800.0 * G, 1e-9);
    near(hang.legs[0].from_horizontal.value(), 90.0, 1e-9);
}

/// Two springs side by side share as their stiffness (series and parallel springs, any text on strength of materials):
/// four upright legs under a stiff platform, two of them twice as stiff.
#[test]
fn stiffer_legs_carry_more() {
    let mut load = load(
        1_000.0,
        [0.0, 0.0, -500.0],
        vec![
            leg("stiff 1", [300.0, 0.0, 0.0], 8_000.0, 1.0),
            leg("soft 1", [0.0, 300.0, 0.0], 8_000.0, 2.0),
            leg("stiff 2", [-300.0, 0.0, 0.0], 8_000.0, 1.0),
            leg("soft 2", [0.0, -300.0, 0.0], 8_000.0, 2.0),
        ],
    );
    load.legs.swap(1, 3);
    let hang = hang(&load);
    let stiff: f64 = hang
        .legs
        .iter()
        .filter(|leg| leg.name.as_str().starts_with("stiff"))
        .map(|leg| leg.tension.value())
        .sum();
    let soft: f64 = hang
        .legs
        .iter()
        .filter(|leg| leg.name.as_str().starts_with("soft"))
        .map(|leg| leg.tension.value())
        .sum();
    near(stiff / soft, 2.0, 1e-6);
}

/// A leg far too long hangs slack, and the diagonal of the others carries.
#[test]
fn a_long_leg_goes_slack() {
    let mut legs: Vec<_> = [[1.0, 1.0], [1.0, -1.0], [-1.0, -1.0], [-1.0, 1.0]]
        .iter()
        .enumerate()
        .map(|(at, [x, y])| leg(&at.to_string(), [x * 1e3, y * 1e3, 0.0], 3_000.0, 1.0))
        .collect();
    legs[0].reach = slingseal_rigging::Reach::Length(crate::support::of(3_200.0, slingseal_words::Unit::Mm));
    let load = load(1_000.0, [0.0, 0.0, -500.0], legs);
    let assessment = assess(&load);
    assert!(out_of_balance(&load, &assessment) < 1e-9);
    let hang = assessment.hang.unwrap();
    assert!(hang.legs[0].slack && hang.legs[0].tension.value() == 0.0);
    assert!(hang.legs[1].tension.value() > 4.0 * hang.legs[2].tension.value());
    assert!(
        assessment
            .warnings
            .iter()
            .any(|warning| warning.to_string().starts_with("leg \"0\" is slack at 3200 mm"))
    );
}

/// What an assessment tells of places fits its tensions: a leg's stretch gives its tension by Hooke's law.
#[test]
fn tensions_follow_hooke() {
    let load: RiggedLoad = load(
        1_500.0,
        [100.0, 50.0, -300.0],
        vec![
            leg("1", [1_000.0, 600.0, 0.0], 3_000.0, 2.0),
            leg("2", [1_000.0, -600.0, 0.0], 3_050.0, 1.0),
            leg("3", [-1_000.0, 600.0, 0.0], 3_000.0, 3.0),
            leg("4", [-1_000.0, -600.0, 0.0], 2_980.0, 2.0),
        ],
    );
    let hang = hang(&load);
    for ((leg, written), lift) in hang.legs.iter().zip(&load.legs).zip(&hang.place.lift_points) {
        let reach = norm(less(vector(&hang.place.hooks[0]), vector(lift)));
        let length = written.reach.length().value();
        let strain = (reach / length - 1.0).max(0.0);
        near(leg.tension.value(), 2_000.0 * G * strain / written.stretch.unwrap().si(), 1e-6);
    }
    assert_eq!(pulls(&load, &hang).len(), 4);
    assert_eq!(hang.legs[0].name, Name::new("1").unwrap());
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The upper of the two points at given distances from three others.
fn trilaterate([a, b, c]: [[f64; 3]; 3], [ra, rb, rc]: [f64; 3]) -> [f64; 3] {
    let scaled = |v: [f64; 3], by: f64| v.map(|part| part * by);
    let plus = |a: [f64; 3], b: [f64; 3]| [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
    let ab = less(b, a);
    let d = norm(ab);
    let ex = scaled(ab, 1.0 / d);
    let ac = less(c, a);
    let i = dot(ex, ac);
    let across = less(ac, scaled(ex, i));
    let ey = scaled(across, 1.0 / norm(across));
    let ez = cross(ex, ey);
    let j = dot(ey, ac);
    let x = (ra * ra - rb * rb + d * d) / (2.0 * d);
    let y = (ra * ra - rc * rc + i * i + j * j) / (2.0 * j) - i / j * x;
    let z = (ra * ra - x * x - y * y).sqrt();
    let at = |z: f64| plus(a, plus(scaled(ex, x), plus(scaled(ey, y), scaled(ez, z))));
    let (one, other) = (at(z), at(-z));
    if one[2] > other[2] { one } else { other }
}
