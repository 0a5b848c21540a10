//! Weighing against published examples, the forward problem, and readings drawn at random within their tolerances.

use proptest::prelude::*;
use slingseal_rigging::{
    Item, Options, Reading, Tilt, TiltAbout, WeighError, Weighing, assess, carry, read, read_file, weigh,
};
use slingseal_words::{Name, Quantity, Unit};

use crate::support::{near, of};

fn name(text: &str) -> Name {
    Name::new(text).unwrap()
}

fn reading(label: &str, at: [Quantity; 3], reads: Quantity) -> Reading {
    Reading { name: name(label), at, reads, tare: None, tolerance: None }
}

fn pounds_at(label: &str, pounds: f64, inches: f64) -> Item {
    let at = [of(inches, Unit::In), of(0.0, Unit::In), of(0.0, Unit::In)];
    let mass = of(pounds, Unit::Lb);
    Item { name: name(label), mass, tolerance: None, at, place_tolerance: None, out: false }
}

fn inches(items: Vec<Item>) -> (f64, f64) {
    let weighed = weigh(&Weighing { items, ..Weighing::default() }).unwrap();
    (weighed.mass.si() / Unit::Lb.si(), weighed.centre[0].si() / Unit::In.si())
}

/// FAA-H-8083-1 (Aircraft Weight and Balance Handbook), use of an electronic calculator: nosewheel 340 lb, 78 in ahead of the main
/// wheels, 2,006 lb in all: the centre stands 13.2 in ahead of the main wheels. Arms there grow aft: forward is positive here.
#[test]
fn the_weight_and_balance_handbook_nosewheel() {
    let at = |x: f64| [of(x, Unit::In), of(0.0, Unit::In), of(0.0, Unit::In)];
    let weighing = Weighing {
        readings: vec![
            reading("nose", at(78.0), of(340.0, Unit::Lb)),
            reading("mains", at(0.0), of(2_006.0 - 340.0, Unit::Lb)),
        ],
        height: Some((of(0.0, Unit::In), None)),
        ..Weighing::default()
    };
    let weighed = weigh(&weighing).unwrap();
    near(weighed.mass.si() / Unit::Lb.si(), 2_006.0, 1e-9);
    assert!((weighed.centre[0].si() / Unit::In.si() - 13.2).abs() < 0.05, "{weighed:?}");
}

/// FAA-H-8083-1, law of the lever: 100 lb 50 in to one side and 200 lb 25 in to the other balance.
#[test]
fn the_weight_and_balance_handbook_lever() {
    let (_, centre) = inches(vec![pounds_at("A", 100.0, -50.0), pounds_at("B", 200.0, 25.0)]);
    assert!(centre.abs() < 1e-9);
}

/// FAA AC 43.13-1B, figure 10-10: the most forward extreme. 1,439 lb at 11.2 in.
#[test]
fn the_advisory_circular_forward_extreme() {
    let (mass, centre) = inches(vec![
        pounds_at("aircraft empty", 1_169.0, 10.6),
        pounds_at("oil", 17.0, -49.0),
        pounds_at("pilot", 170.0, 16.0),
        pounds_at("fuel", 83.0, 22.0),
    ]);
    near(mass, 1_439.0, 1e-9);
    assert!((centre - 11.2).abs() < 0.05, "{centre}");
}

/// FAA AC 43.13-1B, figure 10-11: the most rearward extreme. 2,036 lb, 43,428 lb in.
#[test]
fn the_advisory_circular_rearward_extreme() {
    let (mass, centre) = inches(vec![
        pounds_at("aircraft empty", 1_169.0, 10.6),
        pounds_at("oil", 17.0, -49.0),
        pounds_at("pilot", 170.0, 16.0),
        pounds_at("passengers", 340.0, 48.0),
        pounds_at("fuel", 240.0, 22.0),
        pounds_at("baggage", 100.0, 75.5),
    ]);
    near(mass, 2_036.0, 1e-9);
    assert!((centre - 43_428.0 / 2_036.0).abs() < 0.001, "{centre}");
}

/// The height by raising one end, as vehicle textbooks derive it: `(W' - W) L / (M tan(angle))` above the axles, from what one axle
/// gains. Common practice; the numbers are ours.
#[test]
fn the_height_by_raising_one_end() {
    let (total, rear_gains, base, angle) = (1_500.0, 60.0, 2.6, 12.0_f64);
    let at = |x: f64| [of(x, Unit::M), of(0.0, Unit::M), of(0.0, Unit::M)];
    let rear = 700.0;
    let weighing = |rest_at, readings| Weighing {
        readings: vec![
            reading("front", at(base), of(total - rear, Unit::Kg)),
            reading("rear", at(0.0), of(rear, Unit::Kg)),
        ],
        tilt: Some(Tilt {
            about: TiltAbout::Pitch,
            angle: of(angle, Unit::Deg),
            tolerance: None,
            readings,
            rest_at,
        }),
        ..Weighing::default()
    };
    let wanted = rear_gains * base / (total * angle.to_radians().tan());
    let both = vec![
        reading("front", at(base), of(total - rear - rear_gains, Unit::Kg)),
        reading("rear", at(0.0), of(rear + rear_gains, Unit::Kg)),
    ];
    let one = vec![reading("rear", at(0.0), of(rear + rear_gains, Unit::Kg))];
    for (rest_at, readings) in [(None, both), (Some(at(base)), one)] {
        let weighed = weigh(&weighing(rest_at, readings)).unwrap();
        assert!((weighed.centre_span[2].most.value() - wanted).abs() < 1e-9, "{weighed:?}, {wanted}");
    }
}

/// What four scales would read under a body, from statics: three of them by balance, the fourth at will.
fn pushes(mass: f64, centre: [f64; 3], points: &[[f64; 3]; 4], fourth: f64, pitch: f64) -> Option<[f64; 4]> {
    let (sin, cos) = pitch.to_radians().sin_cos();
    let flat = |p: [f64; 3]| [p[0] * cos - p[2] * sin, p[1]];
    let g = flat(centre);
    let q = points.map(flat);
    let mut rhs = [mass, mass * g[0], mass * g[1]];
    let last = [1.0, q[3][0], q[3][1]];
    for (right, last) in rhs.iter_mut().zip(last) {
        *right -= fourth * mass * last;
    }
    let m = [[1.0, 1.0, 1.0], [q[0][0], q[1][0], q[2][0]], [q[0][1], q[1][1], q[2][1]]];
    let det = |m: [[f64; 3]; 3]| {
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
            + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    };
    let whole = det(m);
    let mut found = [0.0; 4];
    for at in 0..3 {
        let mut changed = m;
        for row in 0..3 {
            changed[row][at] = rhs[row];
        }
        found[at] = det(changed) / whole;
    }
    found[3] = fourth * mass;
    found.iter().all(|push| *push > 0.0).then_some(found)
}

prop_compose! {
    fn body()(
        mass in 300.0_f64..9_000.0,
        x in 0.6_f64..2.0, y in -0.4_f64..0.4, z in 0.2_f64..1.8,
        long in 2.4_f64..5.0, wide in 1.2_f64..2.4, low in -0.3_f64..0.3,
        fourth in 0.1_f64..0.3, pitch in 4.0_f64..20.0,
    ) -> (f64, [f64; 3], [[f64; 3]; 4], f64, f64) {
        let points = [
            [long, wide / 2.0, low], [long, -wide / 2.0, 0.0], [0.0, wide / 2.0, 0.1], [0.0, -wide / 2.0, 0.0],
        ];
        (mass, [x, y, z], points, fourth, (pitch * 1_000.0).round() / 1_000.0)
    }
}

fn weighing_of(
    points: &[[f64; 3]; 4],
    level: [f64; 4],
    tilted: [f64; 4],
    pitch: f64,
    off: &[f64; 8],
) -> Weighing {
    let scale = |at: usize, kilograms: f64, off: f64| Reading {
        name: name(&format!("point {at}")),
        at: points[at].map(|value| of(value * 1e3, Unit::Mm)),
        reads: of(kilograms, Unit::Kg),
        tare: None,
        tolerance: (off > 0.0).then(|| of(off, Unit::Kg)),
    };
    Weighing {
        readings: (0..4).map(|at| scale(at, level[at], off[at])).collect(),
        tilt: Some(Tilt {
            about: TiltAbout::Pitch,
            angle: of(pitch, Unit::Deg),
            tolerance: None,
            readings: (0..4).map(|at| scale(at, tilted[at], off[4 + at])).collect(),
            rest_at: None,
        }),
        ..Weighing::default()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    /// The forward problem: what the scales would read gives back the body that stood on them.
    #[test]
    fn the_body_that_stood_on_the_scales_is_found(
        (mass, centre, points, fourth, pitch) in body()
    ) {
        let level = pushes(mass, centre, &points, fourth, 0.0);
        let tilted = pushes(mass, centre, &points, fourth, pitch);
        let (Some(level), Some(tilted)) = (level, tilted) else { return Ok(()) };
        let weighed = weigh(&weighing_of(&points, level, tilted, pitch, &[0.0; 8])).unwrap();
        // Readings and places are written to a thousandth of their unit.
        prop_assert!((weighed.mass.si() - mass).abs() < 0.003, "{weighed:?}");
        for axis in 0..3 {
            prop_assert!((weighed.centre[axis].si() - centre[axis]).abs() < 2e-4, "{axis}: {weighed:?} {centre:?}");
        }
    }

    /// Whatever the scales should have read within their tolerances, mass and centre lie in the spans; and each end is reached.
    #[test]
    fn no_reading_within_the_tolerances_is_outside_the_spans(
        (mass, centre, points, fourth, pitch) in body(),
        off in prop::array::uniform8(0.0_f64..15.0),
        draws in prop::collection::vec(prop::array::uniform8(-1.0_f64..=1.0), 20),
    ) {
        let level = pushes(mass, centre, &points, fourth, 0.0);
        let tilted = pushes(mass, centre, &points, fourth, pitch);
        let (Some(level), Some(tilted)) = (level, tilted) else { return Ok(()) };
        let weighed = weigh(&weighing_of(&points, level, tilted, pitch, &off)).unwrap();
        let inside = |value: f64, axis: usize| {
            let span = weighed.centre_span[axis];
            value >= span.least.value() - 1e-6 && value <= span.most.value() + 1e-6
        };
        for draw in draws {
            let level: [f64; 4] = std::array::from_fn(|at| (level[at] + draw[at] * off[at]).max(0.0));
            let tilted: [f64; 4] = std::array::from_fn(|at| (tilted[at] + draw[4 + at] * off[4 + at]).max(0.0));
            // By the textbook: moments about the datum, level and tilted.
            let sum: f64 = level.iter().sum();
            let mean = |axis: usize| (0..4).map(|at| level[at] * points[at][axis]).sum::<f64>() / sum;
            let (sin, cos) = pitch.to_radians().sin_cos();
            let tilted_sum: f64 = tilted.iter().sum();
            let across = (0..4).map(|at| tilted[at] * (points[at][0] * cos - points[at][2] * sin)).sum::<f64>() / tilted_sum;
            let (x, y) = (mean(0), mean(1));
            let z = (x * cos - across) / sin;
            prop_assert!(sum >= weighed.mass_span.least.value() - 1e-6 && sum <= weighed.mass_span.most.value() + 1e-6);
            prop_assert!(inside(x, 0) && inside(y, 1), "{weighed:?}");
            // What is written to a thousandth moves a height by the cotangent.
            let span = weighed.centre_span[2];
            prop_assert!(z >= span.least.value() - 3e-4 && z <= span.most.value() + 3e-4, "{z} {span:?}");
        }
        for axis in 0..3 {
            let values: Vec<f64> = weighed.corners.iter().map(|corner| corner.centre[axis].value()).collect();
            let (least, most) = (values.iter().copied().fold(f64::INFINITY, f64::min), values.iter().copied().fold(f64::NEG_INFINITY, f64::max));
            prop_assert!((least - weighed.centre_span[axis].least.value()).abs() < 1e-9);
            prop_assert!((most - weighed.centre_span[axis].most.value()).abs() < 1e-9);
        }
    }
}

const VEHICLE: &str = include_str!("../../core/rigging/examples/light-vehicle.toml");

/// The example vehicle on four scales, with this tolerance.
pub(crate) fn weighed_vehicle(tolerance: &str) -> String {
    let (_, rest) = VEHICLE.split_once("[[hook]]").unwrap();
    let scale = |label: &str, at: &str, reads: &str| {
        format!(
            "[[weighed]]\nname = \"{label}\"\nat = {at}\nreads = \"{reads}\"\ntolerance = \"{tolerance}\"\n"
        )
    };
    let four = [
        scale("front left", "[\"108 in\", \"29 in\", \"0 in\"]", "1460 lb"),
        scale("front right", "[\"108 in\", \"-29 in\", \"0 in\"]", "1410 lb"),
        scale("rear left", "[\"0 in\", \"29 in\", \"0 in\"]", "1080 lb"),
        scale("rear right", "[\"0 in\", \"-29 in\", \"0 in\"]", "1050 lb"),
    ];
    format!("[load]\nheight = \"30 in\"\nheight_tolerance = \"1 in\"\n\n{}\n[[hook]]{rest}", four.join("\n"))
}

/// No load between the corners hangs worse than the worst of them.
#[test]
fn the_worst_corner_is_the_worst() {
    let file = read_file(&weighed_vehicle("10 lb")).unwrap();
    let load = file.load.clone().unwrap();
    let (_, weighed) = file.weighing.as_ref().unwrap();
    assert!(weighed.exact);
    let carried = carry(&load, weighed, &Options::default());
    assert_eq!(carried.corners, 32);
    let (pitch, roll) = (carried.pitch.unwrap(), carried.roll.unwrap());
    assert!(pitch.least.value() < pitch.most.value() && roll.least.value() < roll.most.value());
    let mut draw = 1_u64;
    let mut random = || {
        // A linear congruential generator (Knuth's constants): the same readings in every run.
        draw = draw.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (draw >> 11) as f64 / (1_u64 << 53) as f64 * 2.0 - 1.0
    };
    for _ in 0..60 {
        let mut text = weighed_vehicle("10 lb");
        for reads in ["1460", "1410", "1080", "1050"] {
            let off = reads.parse::<f64>().unwrap() + 10.0 * random();
            text = text.replacen(&format!("\"{reads} lb\""), &format!("\"{off:.3} lb\""), 1);
        }
        text = text.replacen("\"30 in\"", &format!("\"{:.3} in\"", 30.0 + random()), 1);
        let hang = assess(&read(&text).unwrap()).hang.unwrap();
        assert!(
            hang.pitch.value() >= pitch.least.value() - 1e-6
                && hang.pitch.value() <= pitch.most.value() + 1e-6
        );
        assert!(
            hang.roll.value() >= roll.least.value() - 1e-6 && hang.roll.value() <= roll.most.value() + 1e-6
        );
        for (leg, span) in hang.legs.iter().zip(&carried.legs) {
            assert!(leg.tension.value() <= span.tension.most.value() * (1.0 + 1e-6), "{leg:?} {span:?}");
            assert!(leg.tension.value() >= span.tension.least.value() * (1.0 - 1e-6), "{leg:?} {span:?}");
        }
    }
}

#[test]
fn many_free_values_are_told_by_a_box_that_holds_them() {
    let items = (0..12).map(|at| Item {
        tolerance: Some(of(2.0, Unit::Percent)),
        place_tolerance: Some(of(1.0, Unit::In)),
        ..pounds_at(&format!("crate {at}"), 100.0 + f64::from(at), f64::from(at) * 10.0)
    });
    let weighed = weigh(&Weighing { items: items.collect(), ..Weighing::default() }).unwrap();
    assert!(!weighed.exact && weighed.corners.len() == 16);
    assert!(weighed.centre_span[0].most.value() - weighed.centre[0].si() > 0.025);
}

#[test]
fn what_cannot_be_weighed_is_told_in_one_line() {
    let scale = |reads: f64| {
        reading("a", [of(1.0, Unit::M), of(0.0, Unit::M), of(0.0, Unit::M)], of(reads, Unit::Kg))
    };
    let level = Weighing { readings: vec![scale(100.0), scale(50.0)], ..Weighing::default() };
    assert_eq!(weigh(&level), Err(WeighError::NoHeight));
    assert_eq!(weigh(&Weighing::default()), Err(WeighError::Nothing));
    let tilted = |angle, readings| Weighing {
        tilt: Some(Tilt {
            about: TiltAbout::Roll,
            angle: of(angle, Unit::Deg),
            tolerance: None,
            readings,
            rest_at: None,
        }),
        ..level.clone()
    };
    assert!(matches!(weigh(&tilted(0.5, vec![scale(150.0)])), Err(WeighError::Angle(_))));
    assert!(matches!(weigh(&tilted(8.0, vec![scale(140.0)])), Err(WeighError::Differ { .. })));
    let gone = Item { out: true, ..pounds_at("gone", 400.0, 0.0) };
    let less = Weighing { items: vec![gone], height: Some((of(0.0, Unit::M), None)), ..level.clone() };
    assert_eq!(weigh(&less), Err(WeighError::NotPositive));
    for (wrong, told) in [
        (
            "[load]\nmass = \"5 t\"\n[[weighed]]\nname = \"a\"\nat = [\"0 m\",\"0 m\",\"0 m\"]\nreads = \"5 t\"\n",
            "mass is given and weighed",
        ),
        (
            "[[weighed]]\nname = \"a\"\nat = [\"0 m\",\"0 m\",\"0 m\"]\nreads = \"5 t\"\ntolerance = \"5 m\"\n",
            "is no tolerance",
        ),
        ("[[item]]\nname = \"a\"\nat = [\"0 m\",\"0 m\",\"0 m\"]\n[tilted]\n", "how far"),
        (
            "[[weighed]]\nname = \"a\"\nat = [\"0 m\",\"0 m\",\"0 m\"]\nreads = \"5 t\"\n",
            "height of the load is not known",
        ),
    ] {
        let faults = read_file(wrong).unwrap_err().to_string();
        assert!(faults.contains(told), "{told}: {faults}");
    }
    let only = read_file(
        "[load]\nheight = \"1 m\"\n[[weighed]]\nname = \"a\"\nat = [\"0 m\",\"0 m\",\"0 m\"]\nreads = \"5 t\"\n",
    );
    assert!(only.unwrap().load.is_none());
}
