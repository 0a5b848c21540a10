//! Rules that every answer keeps to, on loads that nobody chose.

use proptest::prelude::*;
use slingseal_rigging::{RiggedLoad, Verdict, assess, json};
use slingseal_words::{Name, Quantity, Unit};

use crate::support::{hang, hook, leg, load, of, out_of_balance, pulls};

/// Lift points round the centre of gravity, a hook that the legs nearly agree on.
fn sound() -> impl Strategy<Value = RiggedLoad> {
    sound_of(3..=8)
}

fn sound_of(legs: std::ops::RangeInclusive<usize>) -> impl Strategy<Value = RiggedLoad> {
    let leg_of = (0.4_f64..1.6, -0.12_f64..0.12, 0.0_f64..0.8, -0.012_f64..0.012, 0.5_f64..4.0);
    (200.0_f64..8_000.0, 2.5_f64..7.0, prop::collection::vec(leg_of, legs), -0.15_f64..0.15, -0.15_f64..0.15)
        .prop_map(|(mass, high, legs, off_x, off_y)| {
            let count = legs.len() as f64;
            let legs = legs.iter().enumerate().map(|(at, (out, aside, up, odd, stretch))| {
                let angle = (at as f64 + aside) / count * std::f64::consts::TAU;
                let (x, y, z) = (out * angle.cos(), out * angle.sin(), *up);
                let length = (x * x + y * y + (high - z) * (high - z)).sqrt() * (1.0 + odd);
                leg(
                    &at.to_string(),
                    [x * 1e3, y * 1e3, z * 1e3],
                    length * 1e3,
                    (stretch * 10.0).round() / 10.0,
                )
            });
            load(mass, [off_x * 300.0, off_y * 300.0, 0.0], legs.collect())
        })
}

/// A beam or platform under two hooks, two to four legs each.
fn tandem() -> impl Strategy<Value = RiggedLoad> {
    let leg_of = (0.2_f64..1.0, 0.1_f64..0.6, -0.02_f64..0.02, 0.5_f64..4.0);
    (
        500.0_f64..9_000.0,
        1.0_f64..4.0,
        -0.4_f64..0.4,
        2.5_f64..6.0,
        prop::collection::vec((leg_of.clone(), leg_of), 1..=2),
        -0.3_f64..0.3,
    )
        .prop_map(|(mass, apart, drop, high, pairs, off)| {
            let mut legs = Vec::new();
            for (at, pair) in pairs.iter().enumerate() {
                for (end, sign, (out, up, odd, stretch)) in [("fore", 1.0, pair.0), ("aft", -1.0, pair.1)] {
                    for side in [1.0, -1.0] {
                        let x = sign * (apart / 2.0 + out + 0.3 * at as f64);
                        let (y, z) = (side * (0.4 + 0.2 * at as f64), up);
                        let flat = x - sign * apart / 2.0;
                        let length =
                            (flat * flat + y * y + (high - z) * (high - z)).sqrt() * (1.0 + odd * side);
                        let name = format!("{end} {at} {}", if side > 0.0 { "left" } else { "right" });
                        let mut leg = leg(
                            &name,
                            [x * 1e3, y * 1e3, z * 1e3],
                            length * 1e3,
                            (stretch * 10.0).round() / 10.0,
                        );
                        leg.hook = Some(Name::new(end).unwrap());
                        legs.push(leg);
                    }
                }
            }
            let mut load = load(mass, [off * 1e3, 0.0, 0.0], legs);
            load.hooks =
                vec![hook("fore", [apart * 500.0, 0.0, drop * 1e3]), hook("aft", [apart * -500.0, 0.0, 0.0])];
            load
        })
}

/// Anything that can be written, sense or not.
fn wild() -> impl Strategy<Value = RiggedLoad> {
    let place = prop::array::uniform3(-5_000.0_f64..5_000.0);
    let leg_of = (place.clone(), 1.0_f64..20_000.0, 0.001_f64..50.0, any::<bool>());
    (0.01_f64..50_000.0, place.clone(), place, prop::collection::vec(leg_of, 1..=8), any::<bool>()).prop_map(
        |(mass, centre, second, legs, two)| {
            let legs = legs.into_iter().enumerate().map(|(at, (point, length, stretch, fore))| {
                let mut leg = leg(&at.to_string(), point, length, stretch);
                leg.stretch = Some(of(stretch.max(0.001), Unit::Percent));
                leg.hook = two.then(|| Name::new(if fore { "fore" } else { "aft" }).unwrap());
                leg
            });
            let mut load = load(mass, centre, legs.collect());
            if two {
                load.hooks = vec![hook("fore", second), hook("aft", [0.0; 3])];
            }
            load
        },
    )
}

/// Each leg with its tension, pitch, roll.
type Told = (Vec<(Name, f64)>, f64, f64);

/// The tensions in order of the legs' names, and pitch and roll.
fn told(load: &RiggedLoad) -> Option<Told> {
    let hang = assess(load).hang?;
    let mut tensions: Vec<_> = hang.legs.iter().map(|leg| (leg.name.clone(), leg.tension.value())).collect();
    tensions.sort_by(|a, b| a.0.cmp(&b.0));
    Some((tensions, hang.pitch.value(), hang.roll.value()))
}

fn same_tensions(a: &[(Name, f64)], b: &[(Name, f64)], weight: f64, share: f64) {
    assert_eq!(a.len(), b.len());
    for ((name, a), (other, b)) in a.iter().zip(b) {
        assert_eq!(name, other);
        assert!((a - b).abs() <= share * weight, "leg {name}: {a} and {b}");
    }
}

fn less(quantity: Quantity) -> Quantity {
    Quantity::from_thousandths(-quantity.thousandths(), quantity.unit()).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn forces_and_moments_balance(load in prop_oneof![sound(), tandem()]) {
        let assessment = assess(&load);
        prop_assume!(assessment.hang.is_some());
        let left = out_of_balance(&load, &assessment);
        prop_assert!(left < 1e-9, "{left}");
    }

    /// Most sound loads hang: else the other properties would speak of nothing.
    #[test]
    fn sound_loads_hang(load in sound()) {
        let assessment = assess(&load);
        prop_assert!(assessment.hang.is_some(), "{:?}", assessment.reason);
    }

    /// A simplex solver that knows nothing of ours finds the same worst case.
    #[test]
    fn the_worst_case_is_that_of_another_solver(load in prop_oneof![sound(), tandem()]) {
        let assessment = assess(&load);
        prop_assume!(assessment.hang.is_some());
        let hang = assessment.hang.as_ref().unwrap();
        let weight = assessment.weight.value();
        let pulls = pulls(&load, hang);
        for (at, leg) in hang.legs.iter().enumerate() {
            let found = leg.worst_case.unwrap().value() / weight;
            prop_assert!(found >= leg.tension.value() / weight - 1e-12);
            let wanted = simplex(&pulls, at);
            prop_assert!((found - wanted).abs() < 2e-5, "leg {at}: {found} and {wanted}");
        }
    }

    #[test]
    fn a_quarter_turn_and_a_new_datum_change_nothing(load in sound(), far in prop::array::uniform3(-9_000_000_i64..9_000_000)) {
        let mut turned = load.clone();
        let moved = |place: [Quantity; 3]| {
            let [x, y, z] = [place[1], place[0], place[2]];
            let turned = [less(x), y, z];
            let mut far = far.iter();
            turned.map(|value| Quantity::from_thousandths(value.thousandths() + far.next().unwrap(), value.unit()).unwrap())
        };
        turned.centre = moved(turned.centre);
        for leg in &mut turned.legs {
            leg.lift_point = moved(leg.lift_point);
        }
        let weight = assess(&load).weight.value();
        let (before, after) = (told(&load).unwrap(), told(&turned).unwrap());
        same_tensions(&before.0, &after.0, weight, 1e-9);
        // What leaned forward now leans to the left: the load's new left is its old forward.
        let up = |pitch: f64, roll: f64| {
            let (pitch, roll) = (pitch.to_radians(), roll.to_radians());
            (pitch.sin(), pitch.cos() * roll.sin())
        };
        let ((x, y), (turned_x, turned_y)) = (up(before.1, before.2), up(after.1, after.2));
        prop_assert!((turned_x + y).abs() < 1e-9 && (turned_y - x).abs() < 1e-9);
    }

    #[test]
    fn a_mirror_changes_only_the_side(load in prop_oneof![sound(), tandem()]) {
        let mut mirrored = load.clone();
        mirrored.centre[1] = less(mirrored.centre[1]);
        for leg in &mut mirrored.legs {
            leg.lift_point[1] = less(leg.lift_point[1]);
        }
        let weight = assess(&load).weight.value();
        let (Some(before), Some(after)) = (told(&load), told(&mirrored)) else {
            prop_assert_eq!(told(&load).is_some(), told(&mirrored).is_some());
            return Ok(());
        };
        same_tensions(&before.0, &after.0, weight, 1e-8);
        prop_assert!((before.1 - after.1).abs() < 1e-6 && (before.2 + after.2).abs() < 1e-6);
    }

    #[test]
    fn the_order_of_legs_does_not_matter(load in prop_oneof![sound(), tandem()], by in 1_usize..8) {
        let mut turned = load.clone();
        let by = by % turned.legs.len();
        turned.legs.rotate_left(by);
        let weight = assess(&load).weight.value();
        let (Some(before), Some(after)) = (told(&load), told(&turned)) else {
            prop_assert_eq!(told(&load).is_some(), told(&turned).is_some());
            return Ok(());
        };
        same_tensions(&before.0, &after.0, weight, 1e-9);
    }

    /// One inch is 25.4 mm exactly and one foot twelve inches, so the same load can be written in both.
    #[test]
    fn units_do_not_matter(load in sound()) {
        let mut inches = load.clone();
        let whole = |quantity: Quantity| of((quantity.si() / 0.0254).round(), Unit::In);
        inches.centre = inches.centre.map(whole);
        for leg in &mut inches.legs {
            leg.lift_point = leg.lift_point.map(whole);
            leg.reach = slingseal_rigging::Reach::Length(whole(of(leg.reach.length().value(), Unit::M)));
        }
        let mut millimetres = inches.clone();
        let exact = |quantity: Quantity| Quantity::from_thousandths(quantity.thousandths() / 10 * 254, Unit::Mm).unwrap();
        millimetres.centre = millimetres.centre.map(exact);
        for leg in &mut millimetres.legs {
            leg.lift_point = leg.lift_point.map(exact);
            let inches = (leg.reach.length().value() / 0.0254).round();
            leg.reach = slingseal_rigging::Reach::Length(of(inches * 25.4, Unit::Mm));
        }
        let weight = assess(&load).weight.value();
        let (Some(before), Some(after)) = (told(&inches), told(&millimetres)) else {
            prop_assert_eq!(told(&inches).is_some(), told(&millimetres).is_some());
            return Ok(());
        };
        same_tensions(&before.0, &after.0, weight, 1e-9);
    }

    /// As the legs get stiffer the answer comes to rest: each tenth of the stretch changes it by about a tenth.
    #[test]
    fn stiffness_converges(load in sound_of(3..=3)) {
        let at = |stretch: f64| {
            let mut load = load.clone();
            for leg in &mut load.legs {
                leg.stretch = Some(of(stretch, Unit::Percent));
            }
            told(&load).unwrap().0
        };
        let change = |a: &[(Name, f64)], b: &[(Name, f64)]| {
            a.iter().zip(b).map(|(a, b)| (a.1 - b.1).abs()).fold(0.0, f64::max)
        };
        let weight = assess(&load).weight.value();
        let (soft, firm, hard) = (at(1.0), at(0.1), at(0.01));
        let (first, second) = (change(&soft, &firm), change(&firm, &hard));
        prop_assert!(second <= 0.2 * first + 1e-7 * weight, "{first} then {second}");
    }

    /// Whatever is written, the answer is a reason or a balance, and every number of it is one.
    #[test]
    fn nothing_wild_leaves(load in wild()) {
        let assessment = assess(&load);
        let text = json(&assessment, &[]);
        prop_assert!(!text.contains("NaN") && !text.contains("inf,"));
        match assessment.verdict {
            Verdict::Infeasible => {
                prop_assert!(assessment.hang.is_none());
                prop_assert!(!assessment.reason.as_ref().unwrap().to_string().contains('\n'));
            }
            _ => {
                let left = out_of_balance(&load, &assessment);
                prop_assert!(left < 1e-8, "{left}");
                let hang = hang(&load);
                let up = hang.place.axes[2][2].value();
                prop_assert!(up > 0.7, "leans too far: {up}");
                prop_assert!(hang.legs.iter().all(|leg| leg.tension.value() >= 0.0));
            }
        }
    }
}

/// The largest share of the weight in one leg, by the crate microlp.
fn simplex(pulls: &[([f64; 3], [f64; 3])], leg: usize) -> f64 {
    use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOutcome};
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let tensions: Vec<_> = (0..pulls.len())
        .map(|at| problem.add_var(if at == leg { 1.0 } else { 0.0 }, (0.0, f64::INFINITY)))
        .collect();
    let columns: Vec<[f64; 6]> = pulls
        .iter()
        .map(|(way, arm)| {
            let turn = crate::support::cross(*arm, *way);
            [way[0], way[1], way[2], turn[0], turn[1], turn[2]]
        })
        .collect();
    // Each balance within a billionth, so that rounding cannot shut the solver out.
    for (row, wanted) in [0.0, 0.0, 1.0, 0.0, 0.0, 0.0].into_iter().enumerate() {
        let terms: Vec<_> = tensions.iter().zip(&columns).map(|(var, column)| (*var, column[row])).collect();
        problem.add_constraint(terms.as_slice(), ComparisonOp::Le, wanted + 1e-9);
        problem.add_constraint(terms.as_slice(), ComparisonOp::Ge, wanted - 1e-9);
    }
    let solution = match problem.solve().expect("the tensions at rest balance the load") {
        SolveOutcome::Solution(solution) => solution,
        SolveOutcome::Interrupted(interrupted) => panic!("{interrupted:?}"),
    };
    let found: Vec<f64> = tensions.iter().map(|var| solution[*var]).collect();
    exactly(&columns, &found, leg)
}

/// The tension that the solver's corner means. Where the legs nearly lie in a plane, the billionth that each balance is given is
/// worth some hundred-thousandths of the weight: it is taken back by the smallest change of the tensions that pull.
fn exactly(columns: &[[f64; 6]], found: &[f64], leg: usize) -> f64 {
    use nalgebra::{DMatrix, DVector};
    let pulling: Vec<usize> = (0..found.len()).filter(|at| found[*at] > 1e-7).collect();
    let matrix = DMatrix::from_fn(6, pulling.len(), |row, at| columns[pulling[at]][row]);
    let tensions = DVector::from_iterator(pulling.len(), pulling.iter().map(|at| found[*at]));
    let wanted = DVector::from_column_slice(&[0.0, 0.0, 1.0, 0.0, 0.0, 0.0]);
    let change = matrix
        .clone()
        .svd(true, true)
        .solve(&(wanted - &matrix * tensions), 1e-8)
        .expect("both sides were asked for");
    found[leg] + pulling.iter().position(|at| *at == leg).map_or(0.0, |at| change[at])
}
