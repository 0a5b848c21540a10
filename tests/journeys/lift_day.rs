//! A lift from the scales to the seal: weighed at four corners, planned, solved level within half a link, drawn, printed, walked
//! with the counted links beside the plan, sealed.

use std::io::Write as _;
use std::process::{Command, Stdio};

use slingseal_app::{
    FieldWeighing, Language, LiftRequest, NextStep, PointState, RiggingRequest, ScaleReading, SolveRequest,
    TagDraft, TagMade, WalkRequest, WalkView, assess_fields, assess_rigging, drawing, fields_of_file,
    solve_lift, sound_answer, weigh_lift,
};
use slingseal_paper::{Head, Paper, aircrew_pdf, rigging_pdf, sheets_pdf};
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

    printed(&made, &links);
    weighed_again(&anvil, &planner, &made.code.text);

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

/// On paper: the load sheet with the drawing behind it, the riggers' sheet with each link, the aircrew's sheet.
fn printed(made: &TagMade, links: &[(String, u64)]) {
    let rigging = made.tag.rigging.as_ref().unwrap();
    let head = Head { load: "KM-071", description: &made.tag.description, dated: None };
    let (paper, language) = (Paper::A4, Language::English);
    let sheets = [
        sheets_pdf(&[(&made.tag, &made.code)], paper, language).unwrap(),
        rigging_pdf(rigging, head, paper, language).unwrap(),
        aircrew_pdf(rigging, None, head, paper, language).unwrap(),
    ];
    let read = |pdf: &[u8]| {
        let mut reader = Command::new("pdftotext")
            .args(["-layout", "-", "-"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("pdftotext is needed (Debian package poppler-utils)");
        reader.stdin.take().unwrap().write_all(pdf).unwrap();
        String::from_utf8(reader.wait_with_output().unwrap().stdout).unwrap()
    };
    let [load, riggers, aircrew] = sheets.map(|pdf| read(&pdf));
    assert!(load.contains("KM-071") && load.matches('\u{c}').count() >= 2, "a page for the drawing: {load}");
    for (leg, link) in links {
        let row = riggers.lines().find(|line| line.split_whitespace().next() == Some(leg.as_str()));
        assert!(row.is_some_and(|row| row.contains(&format!("{link} of "))), "leg {leg}, {link}: {riggers}");
    }
    assert!(aircrew.contains("AIRCREW DATA SHEET") && aircrew.contains(&made.tag.gross), "{aircrew}");
}

/// Weighed in the field, beside the plan: as planned it is good; a scale that shows more than was planned is told. What is taken over
/// into a draft is signed as weighed.
fn weighed_again(device: &Device, planner: &Device, tag: &str) {
    let draft = device.app.draft_like(tag).unwrap();
    let begun = device.app.begin_weighing(&draft).unwrap();
    let names: Vec<_> = begun.points.iter().map(|point| point.name.clone()).collect();
    assert_eq!(names, ["Front left", "Front right", "Rear left", "Rear right"]);
    assert_eq!((begun.length_unit.as_str(), begun.mass_unit.as_str()), ("in", "lb"));
    let places = [("108 in", "29 in"), ("108 in", "-29 in"), ("0 in", "29 in"), ("0 in", "-29 in")];
    let scales = |front: [&str; 2]| {
        let reads = [front[0], front[1], "1040 lb", "1010 lb"];
        let point = |((point, (forward, left)), reads): ((&ScaleReading, (&str, &str)), &str)| ScaleReading {
            forward: forward.into(),
            left: left.into(),
            reads: reads.into(),
            ..point.clone()
        };
        FieldWeighing {
            points: begun.points.iter().zip(places).zip(reads).map(point).collect(),
            tolerance: "2 lb".into(),
            ..begun.clone()
        }
    };
    let front = ["1445 lb", "1395 lb"];
    let good = device.app.weigh_draft(&draft, &scales(front)).unwrap();
    assert!(good.faults.is_empty() && good.mass == "4890 lb", "{good:?}");
    assert!(good.beside[0].contains("Nobody says which scales"), "{good:?}");
    assert!(good.beside[1].contains("was planned"), "{good:?}");
    assert!(good.beside.iter().any(|line| line.contains("it is the plan's")), "{good:?}");
    assert!(good.report.contains("Pitch lies within"), "{}", good.report);
    let heavy = device.app.weigh_draft(&draft, &scales(["1645 lb", "1595 lb"])).unwrap();
    assert!(!heavy.good && heavy.beside[1].contains("MORE than"), "{heavy:?}");
    let mut wrong = scales(front);
    wrong.points[2].reads = "a lot".into();
    wrong.points[3].left = String::new();
    let told = device.app.weigh_draft(&draft, &wrong).unwrap();
    let fields: Vec<_> = told.faults.iter().map(|fault| fault.field.as_str()).collect();
    assert_eq!(fields, ["point.2.reads", "point.3.left"]);
    assert!(told.faults[1].words.starts_with("Rear right, left: still open"), "{told:?}");
    assert!(!told.good && told.mass.is_empty() && told.taken.is_none());
    assert!(device.app.draft_like("no tag").is_err());

    // Raised at the front: the rear scales show more, and the height is weighed. h = (x - x') cot(a) + z', by hand:
    // x = 2840 * 108 / 4890 = 62.7239; the front is held at 108, so x' = (4890 - 2178) * 108 / 4890 = 59.8969; sin(a) = 20 / 108,
    // cot(a) = 5.3067; z' = 15; h = 2.8270 * 5.3067 + 15 = 30.002 in.
    let mut raised = scales(front);
    raised.scales = "two pairs of wheel scales, certificate of the maker".into();
    (raised.raised, raised.over) = ("20 in".into(), "108 in".into());
    for (point, tilted) in raised.points.iter_mut().zip(["", "", "1104 lb", "1074 lb"]) {
        (point.up, point.tilted) = ("15 in".into(), tilted.into());
    }
    let whole = device.app.weigh_draft(&draft, &raised).unwrap();
    assert!(whole.faults.is_empty(), "{whole:?}");
    let inches = |at: &str| at.strip_suffix(" in").unwrap().parse::<f64>().unwrap();
    assert!((inches(&whole.centre[0]) - 62.724).abs() < 0.001, "{whole:?}");
    assert!((inches(&whole.centre[2]) - 30.002).abs() < 0.002, "{whole:?}");
    assert!(whole.beside.iter().all(|line| !line.contains("it is the plan's")), "{whole:?}");

    // Taken over: never less than it may weigh, its source, its centre; a scale alone gives the mass and leaves the plan's centre.
    let taken = whole.taken.unwrap();
    assert_eq!((taken.gross.as_str(), taken.weight_source.as_str()), ("4898 lb", "weighed"));
    let mut signed = TagDraft { load: "KM-072".into(), centre: whole.centre.clone(), ..taken };
    signed.equipment.clear();
    let made = planner.app.write_draft(&signed, PIN).unwrap();
    assert_eq!(made.tag.gross, "4898 lb");
    let again = device.app.weigh_draft(&device.app.draft_like(&made.code.text).unwrap(), &scales(front));
    assert!(again.unwrap().beside.iter().any(|line| line.contains("planned 62.724 in")));
    let mut alone = begun.clone();
    alone.points.truncate(1);
    alone.points[0].reads = "4880 lb".into();
    let mass = device.app.weigh_draft(&draft, &alone).unwrap();
    assert_eq!((mass.mass.as_str(), mass.centre.len()), ("4880 lb", 0), "{mass:?}");
    assert!(mass.taken.unwrap().centre.is_empty() && !mass.report.contains("Centre of gravity"));
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
