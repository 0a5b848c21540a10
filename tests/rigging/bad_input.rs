//! What cannot be meant is told in one line, with its place; what cannot hang says why, with the leg and the length.

use slingseal_rigging::{Infeasible, RiggedLoad, RiggingError, SeatedLink, Verdict, assess, read};

const GOOD: &str = include_str!("../../core/rigging/examples/light-vehicle.toml");

fn faults(text: &str) -> Vec<String> {
    match read(text) {
        Ok(load) => panic!("read as {load:?}"),
        Err(faults) => faults.iter().map(ToString::to_string).collect(),
    }
}

/// The example with one text put for another, which must be there.
fn with(old: &str, new: &str) -> String {
    assert!(GOOD.contains(old), "{old}");
    GOOD.replacen(old, new, 1)
}

fn reason(load: &RiggedLoad) -> String {
    let assessment = assess(load);
    assert_eq!(assessment.verdict, Verdict::Infeasible, "{assessment:?}");
    assert!(assessment.hang.is_none());
    assessment.reason.unwrap().to_string()
}

fn four(legs: [(&str, [i32; 3], &str); 4], centre: [i32; 3]) -> RiggedLoad {
    let mut text = format!(
        "[load]\nmass = \"5000 lb\"\ncentre = [\"{} in\", \"{} in\", \"{} in\"]\n[[hook]]\nname = \"main\"\nat = [\"0 m\", \"0 m\", \"0 m\"]\n",
        centre[0], centre[1], centre[2]
    );
    for (name, [x, y, z], length) in legs {
        text += &format!(
            "[[leg]]\nname = \"{name}\"\nlift_point = [\"{x} in\", \"{y} in\", \"{z} in\"]\nlength = \"{length}\"\nstretch = \"2 %\"\nrated = \"2500 lb\"\n"
        );
    }
    read(&text).unwrap()
}

fn square(lengths: [&str; 4]) -> RiggedLoad {
    let [a, b, c, d] = lengths;
    four(
        [("1", [48, 30, 40], a), ("2", [48, -30, 40], b), ("3", [-48, 30, 40], c), ("4", [-48, -30, 40], d)],
        [0, 0, 20],
    )
}

#[test]
fn each_fault_has_its_place_and_its_mend() {
    for (text, wanted) in [
        (with("5000 lb", "0 lb"), "5:8: mass of the load is 0 lb; it must be more than zero"),
        (with("5000 lb", "-2 lb"), "5:8: mass of the load is -2 lb; it must be more than zero"),
        (with("5000 lb", "5000"), "5:8: mass: \"5000\" has no unit; write the unit: kg, lb or t"),
        (
            with("5000 lb", "5000 stone"),
            "5:8: mass: \"stone\" is not a unit that is known here; use kg, lb or t",
        ),
        (with("mass = \"5000 lb\"", "# none"), "4:1: mass is missing; add mass = \"5000 lb\""),
        (
            with("seated = 3", "seated = 110"),
            "27:9: the chain of leg \"1\" is seated at link 110 and has 110 links; seat it at a link from 1 to 109",
        ),
        (
            with("seated = 3", "seated = 400"),
            "27:9: the chain of leg \"1\" is seated at link 400 and has 110 links; seat it at a link from 1 to 109",
        ),
        (with("seated = 3", "seated = -1"), "27:33: seated is -1; write a whole number from 1 to 2000"),
        (with("name = \"2\"", "name = \"1\""), "two legs are called \"1\"; give each leg a name of its own"),
        (
            with("name = \"2\"", "name = \"2\"\nhook = \"aft\""),
            "leg \"2\" is on hook \"aft\", which is not there; write one of \"main\"",
        ),
        (
            with("stretch = \"2 %\"", "stretch = \"0 %\""),
            "the stretch of leg \"1\" is 0 %; write more than 0 % and at most 50 %, at the rated load",
        ),
        (with("stretch", "strech"), "\"strech\" is not known in leg; did you mean \"stretch\"?"),
        (
            with("\"loop\"", "\"twice\""),
            "\"twice\" is no way to reeve a chain; write reeved = \"loop\" or \"single\"",
        ),
        (
            with("rope = \"12 ft\"\n", "rope = \"12 ft\"\nlength = \"12 ft\"\n"),
            "the leg has both a length and a rope or chain; write length alone, or rope and chain",
        ),
    ] {
        let faults = faults(&text);
        assert!(faults.iter().any(|fault| fault.contains(wanted)), "wanted {wanted}, found {faults:?}");
        assert!(faults.iter().all(|fault| !fault.contains('\n')));
    }
}

#[test]
fn all_faults_are_told_at_once() {
    let text = GOOD
        .replacen("5000 lb", "0 lb", 1)
        .replacen("seated = 3", "seated = 200", 1)
        .replacen("12 ft", "12", 1);
    assert_eq!(faults(&text).len(), 2, "{:?}", faults(&text));
    let text = GOOD.replacen("5000 lb", "0 lb", 1).replacen("seated = 3", "seated = 200", 1);
    assert_eq!(faults(&text).len(), 2, "{:?}", faults(&text));
}

#[test]
fn a_load_needs_legs_hooks_and_ratings() {
    let text = "[load]\nmass = \"1 t\"\ncentre = [\"0 m\", \"0 m\", \"0 m\"]\n";
    let found = faults(text);
    assert!(
        found.iter().any(|fault| fault.contains("the load has 0 hooks; write one [[hook]]")),
        "{found:?}"
    );
    assert!(
        found.iter().any(|fault| fault.contains("the load has 0 legs; write one to eight [[leg]]")),
        "{found:?}"
    );
    let text = format!(
        "{text}[[hook]]\nname = \"a\"\nat = [\"0 m\", \"0 m\", \"0 m\"]\n[[leg]]\nname = \"1\"\nlift_point = [\"0 m\", \"0 m\", \"1 m\"]\nlength = \"3 m\"\n"
    );
    assert_eq!(
        faults(&text),
        ["7:1: leg \"1\" has no rating; add rated = \"…\" from the data plate, or a [[leg.part]] with one"]
    );
}

/// A load that came in a message is checked by the same rules.
#[test]
fn a_built_load_is_checked() {
    let mut load = read(GOOD).unwrap();
    load.legs[0].reach.chain_mut().unwrap().seated = 500;
    assert!(matches!(load.check(), Err(RiggingError::Seated { .. })));
    assert!(matches!(assess(&load).reason, Some(Infeasible::NotValid(_))));
}

#[test]
fn links_are_read_and_refused() {
    let load = read(GOOD).unwrap();
    for (text, wanted) in [
        ("1", "\"1\" is not a link count; write LEG=N, such as 1=5"),
        ("1=x", "\"1=x\" is not a link count; write LEG=N, such as 1=5"),
        ("=3", "\"=3\" is not a link count; write LEG=N, such as 1=5"),
    ] {
        assert_eq!(SeatedLink::parse(text).unwrap_err().to_string(), wanted);
    }
    let refused = |text: &str| load.with_links(&[SeatedLink::parse(text).unwrap()]).unwrap_err().to_string();
    assert_eq!(refused("9=3"), "there is no leg \"9\"; write one of \"1\", \"2\", \"3\", \"4\"");
    assert!(refused("1=110").starts_with("the chain of leg \"1\" is seated at link 110"));
    let bag = square(["12 ft", "12 ft", "12 ft", "12 ft"]);
    assert_eq!(
        bag.with_links(&[SeatedLink::parse("1=3").unwrap()]).unwrap_err().to_string(),
        "leg \"1\" has no chain; give links only for a leg with one"
    );
}

#[test]
fn lengths_that_cannot_close_name_the_leg_and_the_length() {
    assert_eq!(assess(&square(["12 ft", "12 ft", "12 ft", "12 ft"])).verdict, Verdict::WithinLimits);
    // The lift points stand 4.72 ft from the plumb line of the centre: two feet reach nowhere.
    let one = reason(&square(["12 ft", "12 ft", "2 ft", "12 ft"]));
    assert!(one.contains("leg \"3\" is 2 ft long") && one.contains("12 ft"), "{one}");
    let all = reason(&square(["2 ft", "2 ft", "2 ft", "2 ft"]));
    assert!(all.contains("is 2 ft long and does not reach the hook; make it at least"), "{all}");
}

#[test]
fn one_leg_far_out_of_step_is_named() {
    let said = reason(&square(["12 ft", "12 ft", "5 ft", "12 ft"]));
    assert!(said.contains("leg \"3\" is 5 ft long; 12 ft would let it hang level"), "{said}");
}

#[test]
fn a_hook_below_the_centre_of_gravity() {
    let low = four(
        [
            ("1", [48, 30, 0], "60 in"),
            ("2", [48, -30, 0], "60 in"),
            ("3", [-48, 30, 0], "60 in"),
            ("4", [-48, -30, 0], "60 in"),
        ],
        [0, 0, 60],
    );
    let said = reason(&low);
    assert!(said.starts_with("the hook would stand 40.1 in below the centre of gravity"), "{said}");
}

#[test]
fn all_legs_on_one_side() {
    for (shift, side) in [
        ([100, 0, 20], "behind"),
        ([-100, 0, 20], "ahead of"),
        ([0, 60, 20], "right of"),
        ([0, -60, 20], "left of"),
    ] {
        let mut load = square(["12 ft", "12 ft", "12 ft", "12 ft"]);
        load.centre = shift.map(|inches| slingseal_words::Quantity::parse(&format!("{inches} in")).unwrap());
        let said = reason(&load);
        assert!(said.starts_with(&format!("all lift points lie {side} the centre of gravity")), "{said}");
    }
}

/// Two lift points below the centre of gravity: the load would roll over about their line.
#[test]
fn a_load_that_would_roll_over_does_not_hang() {
    let text = "[load]\nmass = \"1 t\"\ncentre = [\"0 m\", \"0 m\", \"1 m\"]\n[[hook]]\nname = \"a\"\nat = [\"0 m\", \"0 m\", \"0 m\"]\n".to_owned()
        + &["1", "-1"].map(|x| format!("[[leg]]\nname = \"{x}\"\nlift_point = [\"{x} m\", \"0 m\", \"0 m\"]\nlength = \"4 m\"\nstretch = \"2 %\"\nrated = \"2 t\"\n")).join("");
    let said = reason(&read(&text).unwrap());
    assert!(said.starts_with("the load would lean 180 degrees"), "{said}");
    // The same with the centre below the line hangs.
    let sound = read(&text.replace("\"1 m\"]\n[[hook]]", "\"-1 m\"]\n[[hook]]")).unwrap();
    assert_eq!(assess(&sound).verdict, Verdict::WithinLimits);
}

/// Two hooks too far apart for the legs.
#[test]
fn hooks_too_far_apart() {
    let text = include_str!("../../core/rigging/examples/bridge-beam.toml")
        .replace("\"2 m\", \"0 m\", \"0 m\"", "\"20 m\", \"0 m\", \"0 m\"");
    let said = reason(&read(&text).unwrap());
    assert!(said.contains("is 5 m long and does not reach the hook; make it at least"), "{said}");
}
