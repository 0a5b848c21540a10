//! Statics of a flight, against what a page of statics says.

use slingseal_rigging::{State, What, fly, read, read_file};

use crate::support::near;

const BAG: &str = include_str!("../../core/rigging/examples/cargo-bag.toml");
const BEAM: &str = include_str!("../../core/rigging/examples/bridge-beam.toml");
const PLANNED: &str = include_str!("../../core/rigging/examples/planned-lift.toml");

/// A bag on one leg is a pendulum: it trails by the arc tangent of drag over weight, and the drag is half the density times
/// drag area times the square of the speed.
#[test]
fn one_leg_trails_as_a_pendulum() {
    let flight = "\n[flight]\ndrag_area = \"3 m2\"\ndensity = \"1.225 kg/m3\"\ndrag_source = \"example\"\nspeed_to = \"60 kt\"\n";
    let file = read_file(&format!("{BAG}{flight}")).unwrap();
    let load = file.load.unwrap();
    let sheet = fly(&load, &file.flight.unwrap()).unwrap();
    let curve = sheet.drag.unwrap();
    let weight = load.mass.newtons().unwrap().value();
    assert_eq!(curve.speeds.len(), 7);
    for at in &curve.speeds {
        let speed = at.knots * 1_852.0 / 3_600.0;
        let drag = 0.5 * 1.225 * 3.0 * speed * speed;
        near(at.drag.value(), drag / weight, 1e-9);
        // A hair of stretch moves the hook's line by less than a thousandth of a degree.
        assert!((at.trail.value() - (drag / weight).atan().to_degrees()).abs() < 0.01, "{at:?}");
    }
    assert!(curve.events.is_empty() && sheet.factored.is_none() && sheet.failed.is_empty());
}

/// With the drag at the centre of gravity the load and its sling lean as one: tensions grow by the root of one plus the square of
/// drag over weight, and shares do not change.
#[test]
fn drag_at_the_centre_leans_load_and_sling_as_one() {
    let file = read_file(PLANNED).unwrap();
    let load = file.load.unwrap();
    let mut flight = file.flight.unwrap();
    flight.drag.as_mut().unwrap().at = None;
    let curve = fly(&load, &flight).unwrap().drag.unwrap();
    let (first, last) = (&curve.speeds[0], curve.speeds.last().unwrap());
    near(
        last.utilisation.value() / first.utilisation.value(),
        (1.0 + last.drag.value().powi(2)).sqrt(),
        1e-3,
    );
    let leans = last.drag.value().atan().to_degrees();
    assert!((first.pitch.value() - last.pitch.value() - leans).abs() < 0.05, "{first:?} {last:?}");
}

/// Above the lift points, drag takes the load off the front legs: at some speed one goes slack, and just below it none is.
#[test]
fn the_speed_at_which_a_leg_goes_slack_or_the_lean_passes_is_found() {
    let text = PLANNED.replace("drag_area = \"28 ft2\"", "drag_area = \"300 ft2\"");
    let file = read_file(&text).unwrap();
    let load = file.load.unwrap();
    let curve = fly(&load, &file.flight.unwrap()).unwrap().drag.unwrap();
    let leans =
        curve.events.iter().find(|event| event.what == What::Leans).expect("it leans past 15 degrees");
    assert!(leans.knots > 10.0 && leans.knots < 90.0);
    let before: Vec<_> = curve.speeds.iter().filter(|at| at.knots < leans.knots).collect();
    assert!(before.iter().all(|at| at.lean.value() <= 15.0));
    assert!(curve.speeds.iter().filter(|at| at.knots > leans.knots + 0.2).all(|at| at.lean.value() > 15.0));
    let mut sorted = curve.events.clone();
    sorted.sort_by(|a, b| a.knots.total_cmp(&b.knots));
    assert_eq!(sorted, curve.events);
}

#[test]
fn a_failed_hook_leaves_all_to_the_other() {
    let load = read(BEAM).unwrap();
    let sheet = fly(&load, &slingseal_rigging::Flight::nothing()).unwrap();
    assert_eq!(sheet.failed.len(), 2);
    for one in &sheet.failed {
        near(one.carries.value(), load.mass.newtons().unwrap().value(), 1e-12);
        assert_eq!(one.left.legs.len(), 2);
        assert_ne!(one.assessment.state(), State::WithinLimits, "two legs at one end hold no beam level");
    }
}

#[test]
fn a_load_factor_acts_along_the_sling() {
    let file = read_file(PLANNED).unwrap();
    let load = file.load.unwrap();
    let one = fly(&load, &file.flight.unwrap()).unwrap().factored.unwrap();
    let weight = load.mass.newtons().unwrap().value();
    near(one.along.value(), 2.5 * weight, 1e-12);
    // 14 CFR 29.865(a): at least 30 degrees; the sine of it is a half.
    near(one.aside.value(), 1.25 * weight, 1e-9);
}

#[test]
fn nothing_is_assumed_of_a_flight() {
    for (flight, told) in [
        ("drag_area = \"3 m2\"\n", "wants its area"),
        ("drag_area = \"3 m\"\ndensity = \"1 kg/m3\"\ndrag_source = \"x\"\n", "one of m2, ft2"),
        ("drag_area = \"0 m2\"\ndensity = \"1 kg/m3\"\ndrag_source = \"x\"\n", "one of m2, ft2"),
        ("load_factor = \"25\"\n", "load factor"),
        ("sling_angle = \"80 deg\"\n", "no sling trails"),
        ("lean_limit = \"80 deg\"\n", "no limit of lean"),
        ("speed_to = \"400 kt\"\n", "such a speed"),
        ("drag = \"1\"\n", "is not known"),
    ] {
        let faults = read_file(&format!("{BAG}\n[flight]\n{flight}")).unwrap_err().to_string();
        assert!(faults.contains(told), "{told}: {faults}");
    }
}
