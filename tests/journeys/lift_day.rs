//! A lift from the scales to the seal: weighed at four corners, planned, solved level within half a link, drawn, printed as a file,
//! walked with the counted links beside the plan, sealed.

use slingseal_app::{
    FieldWeighing, Language, LiftRequest, NextStep, PointState, RiggingRequest, ScaleReading, SolveRequest,
    WalkRequest, WalkView, assess_fields, assess_rigging, drawing, fields_of_file, solve_lift, sound_answer,
    weigh_lift,
};
use slingseal_tests::scripted::PIN;

use crate::zone::{Device, WORDS, Zone};

const FILE: &str = include_str!("../../core/rigging/examples/planned-lift.toml");
const PLAN: &str = include_str!("../../bindings/desk/demo/vehicle.toml");

#[test]
fn weighed_solved_drawn_walked_and_sealed() {
    let lift = LiftRequest { text: FILE.into(), ..LiftRequest::default() };
    let weighed: serde_json::Value = serde_json::from_str(&weigh_lift(&lift).unwrap().json).unwrap();
    assert!(weighed["exact"].as_bool().unwrap() && weighed["corners"].as_u64().unwrap() >= 64);
    let mass = weighed["mass"].as_str().unwrap().to_owned();
    assert!(weighed["mass_kg_least"].as_f64() < weighed["mass_kg_most"].as_f64());

    // Level within half a link: no single link more or less hangs nearer.
    let solved = solve_lift(&SolveRequest { lift, most: Some(1), ..SolveRequest::default() }).unwrap();
    assert!(solved.good || solved.wait, "{}", solved.report);
    let found: serde_json::Value = serde_json::from_str(&solved.json).unwrap();
    let best = &found["proposals"][0];
    let lean = |pitch: &serde_json::Value, roll: &serde_json::Value| {
        pitch.as_f64().unwrap().hypot(roll.as_f64().unwrap())
    };
    let so = lean(&best["pitch_deg"], &best["roll_deg"]);
    for effect in best["one_link"].as_array().unwrap() {
        for change in [&effect["one_more"], &effect["one_less"]] {
            if change["feasible"] == true {
                assert!(so <= lean(&change["pitch_deg"], &change["roll_deg"]) + 0.1, "{effect}");
            }
        }
    }

    // The best is a file like any other, and is drawn.
    let sheet = solved.best.unwrap();
    let file = sheet.toml();
    let again = assess_rigging(&RiggingRequest { text: file.clone(), ..RiggingRequest::default() }).unwrap();
    assert_eq!(again.json, sheet.json);
    let drawn = drawing(&sheet.svg()).unwrap();
    // Side, front and top: three outlines, twelve legs, marks and names.
    assert!(drawn.shapes.len() > 30 && drawn.width > 500.0 && drawn.height > 500.0, "{drawn:?}");
    assert!(sheet.png().unwrap().starts_with(b"\x89PNG"));

    // Planned by its own links.
    let links: Vec<(String, u64)> = best["legs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|leg| (leg["leg"].as_str().unwrap().to_owned(), leg["link"].as_u64().unwrap()))
        .collect();
    let (head, _) = PLAN.split_once("[[link]]").unwrap();
    let mut plan = head.replace("5000 lb", &mass).replace("KM-014", "KM-071");
    for (leg, link) in &links {
        plan += &format!("[[link]]\nleg = \"{leg}\"\nlink = {link}\n\n");
    }
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let planner = zone.device("planner", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let made = planner.app.write_tag(&plan, &|_| Ok(file.clone()), Some(PIN)).unwrap();
    let paper = &made.tag.rigging.as_ref().unwrap().paper;
    assert_eq!(paper.legs.len(), 4);
    for (leg, (name, link)) in paper.legs.iter().zip(&links) {
        assert_eq!((&leg.leg, leg.link.map(u64::from)), (name, Some(*link)));
    }

    weighed_again(&anvil, &made.code.text);

    // Walked: the picture that is expected stands beside the card, and a count that differs is told with what it changes.
    let begun = anvil.app.begin_walk(&made.code.text).unwrap();
    let expected = anvil.app.walk_planned_picture(&begun.walk).unwrap();
    assert!(expected.as_ref().is_some_and(|picture| picture.starts_with(b"\x89PNG")));
    assert_eq!(anvil.app.walk_picture(&begun.walk).unwrap(), expected, "nothing is counted yet");
    let rows = anvil.app.walk_planned_cells(&begun.walk, 36).unwrap().unwrap();
    assert!(rows.len() > 5 && rows.iter().all(|row| row.chars().count() <= 36), "{rows:#?}");
    let view = walk(&zone, &anvil, begun, &links);
    let decided = anvil.app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    assert_eq!(decided.refused, None);
    assert_ne!(decided.next, NextStep::Nothing);
    let seal = anvil.app.seal(&view.walk, PIN, Some(6)).unwrap();
    assert_eq!(seal.verdict.word, "GO");
}

/// Weighed in the field, beside the tag: as planned it is good; a scale that shows more than the tag says is told.
fn weighed_again(device: &Device, tag: &str) {
    let scale = |forward: &str, left: &str, reads: &str| ScaleReading {
        forward: forward.into(),
        left: left.into(),
        up: "15 in".into(),
        reads: reads.into(),
        tolerance: "2 lb".into(),
        ..ScaleReading::default()
    };
    let front = ["1445 lb", "1395 lb"];
    let scales = |front: [&str; 2]| FieldWeighing {
        level: vec![
            scale("108 in", "29 in", front[0]),
            scale("108 in", "-29 in", front[1]),
            scale("0 in", "29 in", "1040 lb"),
            scale("0 in", "-29 in", "1010 lb"),
        ],
        ..FieldWeighing::default()
    };
    let good = device.app.weigh_tag(tag, &scales(front)).unwrap();
    assert!(good.faults.is_empty() && good.mass == "4890 lb", "{good:?}");
    assert!(good.beside_the_tag[0].contains("the tag says"), "{good:?}");
    assert!(good.beside_the_tag.iter().any(|line| line.contains("it is the plan's")), "{good:?}");
    assert!(good.report.contains("Pitch lies within"), "{}", good.report);
    let heavy = device.app.weigh_tag(tag, &scales(["1645 lb", "1595 lb"])).unwrap();
    assert!(!heavy.good && heavy.beside_the_tag[0].contains("MORE than"), "{heavy:?}");
    let mut wrong = scales(front);
    wrong.level[2].reads = "a lot".into();
    let told = device.app.weigh_tag(tag, &wrong).unwrap();
    assert_eq!(told.faults.iter().map(|fault| fault.field.as_str()).collect::<Vec<_>>(), ["weighed.2.reads"]);
    assert!(!told.good && told.mass.is_empty());
    assert!(device.app.weigh_tag("no tag", &wrong).is_err());
}

/// On two hooks the points of two hooks are walked, and a plan that leaves them out is not written.
#[test]
fn a_load_on_two_hooks_is_walked_by_the_points_of_two_hooks() {
    let mut fields = fields_of_file(include_str!("../../bindings/desk/demo/vehicle-rigging.toml")).unwrap();
    for (at, name, x) in [(0, "fore", "2 m"), (1, "aft", "-2 m")] {
        for (key, value) in [("name", name), ("x", x), ("y", "0 m"), ("z", "0 m")] {
            fields.insert(format!("hook.{at}.{key}"), value.into());
        }
    }
    for (leg, hook) in ["fore", "fore", "aft", "aft"].iter().enumerate() {
        fields.insert(format!("leg.{leg}.hook"), (*hook).into());
    }
    let sheet = assess_fields(&fields, Language::English).unwrap();
    assert!(sheet.within_limits, "{}", sheet.report);
    let (one, two) = (include_str!("../../bindings/desk/demo/vehicle-rigging.toml").to_owned(), sheet.toml());
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let planner = zone.device("planner", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let tag = |load: &str, when: &str, rigging: &str| {
        let plan = PLAN.replace("KM-014", load).replace("rigger =", &format!("when = {when}\nrigger ="));
        planner.app.write_tag(&plan, &|_| Ok(rigging.to_owned()), Some(PIN))
    };
    let refused = tag("KM-081", "[]", &two).unwrap_err().to_string();
    assert!(refused.contains("two-hooks"), "{refused}");
    let points = |text: &str| {
        let begun = anvil.app.begin_walk(text).unwrap();
        let mut found = Vec::new();
        for card in 1..=begun.progress.cards {
            let view = anvil.app.do_walk(&begun.walk, &WalkRequest::GoTo { card }).unwrap();
            found.extend(view.card.unwrap().points.into_iter().map(|point| point.id));
        }
        found
    };
    let of_two = ["apex.order.hooks", "apex.order.marked", "ready.look.apart"];
    let here = points(&tag("KM-082", "[\"two-hooks\"]", &two).unwrap().code.text);
    assert!(of_two.iter().all(|id| here.iter().any(|point| point == id)), "{here:?}");
    let there = points(&tag("KM-083", "[]", &one).unwrap().code.text);
    assert!(of_two.iter().all(|id| there.iter().all(|point| point != id)), "{there:?}");
}

/// Counts what is planned; of the first chain one link more at first, which is told and taken back.
fn walk(zone: &Zone, device: &Device, mut view: WalkView, links: &[(String, u64)]) -> WalkView {
    let mut differed = false;
    while let Some(card) = view.card.clone() {
        zone.pass(4);
        let open =
            card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
        let request = match open {
            Some(point) => {
                let leg = links.iter().find(|(leg, _)| card.title.starts_with(&format!("Leg {leg}:")));
                let counts = point.id.ends_with(".count.links");
                let value = leg.filter(|_| counts).map(|(_, link)| *link);
                if let Some(planned) = value.filter(|_| !differed) {
                    differed = true;
                    let answer = WalkRequest::Answer {
                        card: card.number,
                        point: point.id.clone(),
                        value: (planned + 1).to_string(),
                    };
                    view = device.app.do_walk(&view.walk, &answer).unwrap();
                    let change = view.link_change.clone().expect("what one link more does is told");
                    assert!(change.contains(&planned.to_string()), "{change}");
                    let beside = device.app.walk_links(&view.walk).unwrap();
                    let told =
                        beside.iter().find(|link| leg.is_some_and(|(leg, _)| *leg == link.leg)).unwrap();
                    assert_eq!(
                        (u64::from(told.planned), told.counted.map(u64::from)),
                        (planned, Some(planned + 1))
                    );
                    let pictures = [
                        device.app.walk_planned_picture(&view.walk).unwrap(),
                        device.app.walk_picture(&view.walk).unwrap(),
                    ];
                    assert_ne!(pictures[0], pictures[1], "as planned, and as counted");
                    let undo = WalkRequest::Undo { answer: view.undo.unwrap() };
                    view = device.app.do_walk(&view.walk, &undo).unwrap();
                    continue;
                }
                let value = value.map_or_else(|| sound_answer(&view, point), |link| link.to_string());
                WalkRequest::Answer { card: card.number, point: point.id.clone(), value }
            }
            None => WalkRequest::CardGood { card: card.number },
        };
        view = device.app.do_walk(&view.walk, &request).unwrap();
        assert_eq!(view.refused, None, "card {}", card.number);
    }
    assert!(differed, "a vehicle's list counts links");
    view
}
