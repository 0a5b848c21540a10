//! A whole day of a unit: briefing, the hooks with the crew, gear, three loads, hookup, derigging. What is found at a piece
//! in the morning is told to the load that names it at noon.

use slingseal_app::{App, NextStep, PointState, WalkRequest, WalkStage, WalkView, sound_answer};
use slingseal_tests::scripted::{PIN, PLAN};

use crate::zone::{Device, WORDS, Zone};

/// Answers every card of an inspection as a sound one, but for these deficiencies.
fn walk(zone: &Zone, app: &App, mut view: WalkView, bad: &[(&str, &str)]) -> WalkView {
    while let Some(card) = view.card.clone() {
        zone.pass(4);
        let known = |view: &WalkView, id: &str| view.findings.iter().any(|finding| finding.point == id);
        let found = card.points.iter().find_map(|point| {
            let (_, name) = bad.iter().find(|(id, _)| *id == point.id && !known(&view, id))?;
            Some((point, *name))
        });
        let open =
            card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
        let request = match (found, open) {
            (Some((point, name)), _) => WalkRequest::Deficiency {
                card: card.number,
                point: point.id.clone(),
                name: name.into(),
                note: None,
                photos: Vec::new(),
            },
            (None, Some(point)) => {
                let value = match &point.kind {
                    slingseal_app::PointKind::Serial => view.load.clone(),
                    _ => sound_answer(&view, point),
                };
                WalkRequest::Answer { card: card.number, point: point.id.clone(), value }
            }
            (None, None) => WalkRequest::CardGood { card: card.number },
        };
        view = app.do_walk(&view.walk, &request).unwrap();
        assert_eq!(view.refused, None, "card {}", card.number);
    }
    view
}

fn decide(app: &App, view: &WalkView, fit: bool) -> WalkView {
    let view = app.do_walk(&view.walk, &WalkRequest::Decide { fit, reason: None }).unwrap();
    assert_eq!(view.refused, None);
    view
}

/// An inspection of what is no load, found sound.
fn kept(zone: &Zone, device: &Device, list: &str, of: &str) {
    let view = walk(zone, &device.app, device.app.begin_inspection(list, of).unwrap(), &[]);
    let view = decide(&device.app, &view, true);
    assert_eq!((view.next, view.stage), (NextStep::Nothing, WalkStage::Decided { fit: true }));
    assert_eq!(device.app.seal(&view.walk, PIN, None).unwrap_err().code(), "refused", "no load, no seal");
}

#[test]
fn briefing_hooks_gear_three_loads_hookup_derig() {
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let planner = zone.device("planner", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let app = &anvil.app;

    kept(&zone, &anvil, "zone", "KESTREL");
    kept(&zone, &anvil, "daily-hooks", "HERON-2");
    kept(&zone, &anvil, "gear-chain", "CH-4");

    // A net with a cut mesh: not fit, and rejected by its serial number.
    let begun = app.begin_inspection("gear-net", "N-0077").unwrap();
    let cut = ("mesh.strip-2.bend", "more than two strands break when bent");
    let view = walk(&zone, app, begun, &[cut]);
    assert_eq!(view.findings[0].piece.as_deref(), Some("N-0077"), "the piece itself, unasked");
    let refused = app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    assert!(refused.refused.is_some());
    decide(app, &view, false);

    let plan = |load: &str, list: &str, net: &str| {
        let links: String = (2..=4).map(|leg| format!("\n[[link]]\nleg = \"{leg}\"\nlink = 3\n")).collect();
        let piece = format!("\n[[equipment]]\nkind = \"net\"\nserial = \"{net}\"\n");
        let text = PLAN.replace("KM-014", load).replace("\"bag\"", &format!("\"{list}\"")) + &links + &piece;
        planner.app.write_tag(&text, &|_| Err("none".into()), Some(PIN)).unwrap().code.text
    };
    // Three loads: a vehicle and a bag that are fit, and a net load that names the rejected net.
    for (load, list) in [("KM-031", "vehicle"), ("KM-032", "bag")] {
        let view = walk(&zone, app, app.begin_walk(&plan(load, list, "N-0050")).unwrap(), &[]);
        decide(app, &view, true);
        assert_eq!(app.seal(&view.walk, PIN, Some(6)).unwrap().verdict.word, "GO");
    }
    let begun = app.begin_walk(&plan("KM-033", "net", "n-0077")).unwrap();
    assert!(begun.tag_faults[0].contains("n-0077 was rejected"), "{:?}", begun.tag_faults);
    let view = walk(&zone, app, begun, &[]);
    let refused = app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    assert!(refused.refused.unwrap().message.contains("was rejected"));
    decide(app, &view, false);
    app.seal(&view.walk, PIN, None).unwrap();

    kept(&zone, &anvil, "hookup", "KM-031");
    kept(&zone, &anvil, "derig", "KM-031");

    // Everything is kept over a restart, the journal is sound, and nothing is in hand.
    let anvil = zone.restart(anvil, "anvil again");
    let lines: Vec<String> = anvil
        .app
        .kept_inspections()
        .unwrap()
        .iter()
        .map(|one| format!("{} {} {}", one.procedure, one.name, if one.fit { "fit" } else { "not fit" }))
        .collect();
    assert_eq!(
        lines,
        [
            "derig KM-031 fit",
            "hookup KM-031 fit",
            "gear-net N-0077 not fit",
            "gear-chain CH-4 fit",
            "daily-hooks HERON-2 fit",
            "zone KESTREL fit",
        ]
    );
    let chain = anvil.app.kept_inspections().unwrap().remove(3);
    let days = |stamp: &slingseal_app::Stamp| stamp.unix / 86_400;
    assert_eq!(days(&chain.fit_until.clone().unwrap()) - days(&chain.at), 366);
    anvil.sound();
    assert_eq!(anvil.app.start().unwrap().in_hand, []);

    // The net is repaired, inspected and found fit: it is back in service; over its date it is not.
    kept(&zone, &anvil, "gear-net", "N-0077");
    let view = anvil.app.begin_walk(&plan("KM-034", "net", "N-0077")).unwrap();
    assert_eq!(view.tag_faults, [""; 0]);
    zone.pass(31 * 86_400);
    let view = anvil.app.begin_walk(&plan("KM-035", "net", "N-0077")).unwrap();
    assert!(view.tag_faults[0].contains("its next inspection was due"), "{:?}", view.tag_faults);
}
