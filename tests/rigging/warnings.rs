//! What an assessment warns of, and that it is silent where there is nothing to warn of.

use slingseal_rigging::{Leg, RiggedLoad, Warning, assess};

use crate::support::{leg, load};

fn warnings(load: &RiggedLoad) -> Vec<Warning> {
    assess(load).warnings
}

fn two_legs() -> Vec<Leg> {
    vec![leg("left", [1_000.0, 0.0, 0.0], 3_000.0, 1.0), leg("right", [-1_000.0, 0.0, 0.0], 3_000.0, 1.0)]
}

/// The line through both lift points is an axle: nothing turns the load upright where its centre of gravity lies on it.
#[test]
fn a_load_on_an_axle_through_its_middle_is_held_by_nothing() {
    let neutral = |centre| warnings(&load(1_000.0, centre, two_legs())).contains(&Warning::Neutral);
    assert!(neutral([0.0, 0.0, 0.0]));
    assert!(!neutral([0.0, 0.0, -500.0]));
}

/// Each part without a source is named once, the legs in the order of the file.
#[test]
fn a_part_without_a_source_is_named_once() {
    let found = warnings(&load(1_000.0, [0.0, 0.0, -500.0], two_legs()));
    let unsourced: Vec<_> = found
        .iter()
        .filter_map(|warning| match warning {
            Warning::NoSource { parts } => Some(parts.as_slice()),
            _ => None,
        })
        .collect();
    let [parts] = unsourced.as_slice() else { panic!("{found:?}") };
    assert_eq!(parts.len(), 2, "{parts:?}");
    assert!(parts[0].to_string().contains("left") && parts[1].to_string().contains("right"), "{parts:?}");
}

/// Two tonnes a leg for a load of one: no tension that can be is over a limit, and nothing is said of one.
#[test]
fn a_light_load_warns_of_no_limit() {
    let four = [[1.0, 1.0], [1.0, -1.0], [-1.0, -1.0], [-1.0, 1.0]];
    let legs = four.iter().zip(["1", "2", "3", "4"]);
    let legs = legs.map(|([x, y], name)| leg(name, [x * 1e3, y * 1e3, 0.0], 3_000.0, 1.0)).collect();
    for warning in warnings(&load(1_000.0, [0.0, 0.0, -500.0], legs)) {
        assert!(matches!(warning, Warning::NoSource { .. }), "{warning}");
    }
}

/// A leg that is slack is told at which length it begins to carry; where both lengths read alike it is told to be just slack.
#[test]
fn a_slack_leg_is_never_told_one_length_twice() {
    let four = [[1.0, 1.0], [1.0, -1.0], [-1.0, -1.0], [-1.0, 1.0]];
    let mut just = 0;
    for tenth in 0..2_000 {
        let legs = four.iter().zip(["0", "1", "2", "3"]).map(|([x, y], name)| {
            let long = if name == "0" { 3_000.0 + f64::from(tenth) / 10.0 } else { 3_000.0 };
            leg(name, [x * 1e3, y * 1e3, 0.0], long, 1.0)
        });
        for warning in warnings(&load(1_000.0, [0.0, 0.0, -500.0], legs.collect())) {
            let said = warning.to_string();
            let Some((_, behind)) = said.split_once("is slack at ") else {
                just += u32::from(said.contains("is just slack at "));
                continue;
            };
            let (at, carries) = behind.split_once("; it begins to carry at ").unwrap();
            assert_ne!(at, carries.trim_end_matches('.'), "{said}");
        }
    }
    assert!(just > 0, "no leg was just slack");
}
