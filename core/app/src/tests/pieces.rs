//! Inspections of what is no load: signed, carried, and what they make of the next load that names the piece.

use super::*;

const CHAIN: &str = r#"
load = "KM-030"
description = "Rations, webbing bag"
procedure = "bag"
gross = "1800 lb"
rigger = "Mason 5"
[aircraft]
type = "Heron M2"
allowable = "7000 lb"
[pickup]
name = "Kestrel Meadow"
[destination]
name = "Alder Bridge"
[[equipment]]
kind = "cargo bag"
serial = "CB-0932"
[[equipment]]
kind = "chain"
serial = "sl-0091"
[[link]]
leg = "1"
link = 3
"#;

fn none(_: &str) -> Result<String, String> {
    Err("there is no file".into())
}

fn zone() -> (Zone, App) {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    (zone, authority)
}

/// An inspection by its list, every point good but, where it is named, the one that ends so.
fn inspect(app: &App, list: &str, name: &str, bad: Option<(&str, &str)>) -> WalkView {
    let mut view = app.begin_inspection(list, name).unwrap();
    while let Some(card) = view.card.clone() {
        let found = bad.and_then(|(end, deficiency)| {
            let point = card
                .points
                .iter()
                .find(|point| point.id.ends_with(end) && point.state == PointState::Unanswered)?;
            Some(WalkRequest::Deficiency {
                card: card.number,
                point: point.id.clone(),
                name: deficiency.into(),
                note: None,
                photos: Vec::new(),
            })
        });
        let open =
            card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
        let request = found.unwrap_or_else(|| match open {
            None => WalkRequest::CardGood { card: card.number },
            Some(point) => {
                let value = match point.kind {
                    PointKind::Serial => name.to_owned(),
                    _ => crate::sound_answer(&view, point),
                };
                WalkRequest::Answer { card: card.number, point: point.id.clone(), value }
            }
        });
        view = app.do_walk(&view.walk, &request).unwrap();
        assert_eq!(view.refused, None);
    }
    let fit = bad.is_none();
    let view = app.do_walk(&view.walk, &WalkRequest::Decide { fit, reason: None }).unwrap();
    assert_eq!(view.refused, None);
    view
}

/// Everything of one home to another, as a bundle.
fn carry(from: &App, to: &App) -> BundleReport {
    let mut bundle = Vec::new();
    from.bundle_write(&BundleRequest { photos: true, ..BundleRequest::default() }, &mut bundle).unwrap();
    let report = to.bundle_read(&mut bundle.as_slice(), &mut |_| {}).unwrap();
    assert!(report.set_aside.is_empty(), "{report:?}");
    report
}

fn codes(verdict: &VerdictView) -> Vec<&str> {
    verdict.reasons.iter().map(|reason| reason.code.as_str()).collect()
}

#[test]
fn a_piece_is_withdrawn_for_whoever_hears_of_it_until_it_is_found_fit() {
    let (zone, authority) = zone();
    let store = zone.device(&authority, "store", "Anvil 3", "inspector");
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    let hook = zone.home("hook");
    meet(&hook, &authority);
    let made = desk.write_tag(CHAIN, &none, Some(PIN)).unwrap();

    let walked =
        inspect(&store, "gear-chain", "SL-0091", Some((".crack", "link is cracked, gouged or pitted")));
    assert!(store.seal(&walked.walk, PIN, None).is_err(), "it is no load's");
    let signed = store.sign_inspection(&walked.walk, PIN).unwrap();
    assert_eq!((signed.subject.word(), signed.fit, signed.whole), ("piece", false, true));
    assert_eq!(signed.why.as_deref(), Some("link is cracked, gouged or pitted"));
    assert!(
        signed.code.text.starts_with("PI1:") && signed.code.version <= 15,
        "version {}",
        signed.code.version
    );
    assert!(store.sign_inspection(&walked.walk, PIN).unwrap_err().to_string().contains("signed already"));

    // Nobody has told the desk and the hook yet. The desk hears of it by bundle, the hook by a scan.
    assert_eq!(codes(&hook.check(None, Some(&made.code.text)).unwrap()), ["no_inspection_known"]);
    carry(&store, &desk);
    let refused = desk.write_tag(&CHAIN.replace("KM-030", "KM-031"), &none, None).unwrap_err().to_string();
    assert!(
        refused.contains("piece sl-0091 was withdrawn")
            && refused.contains("link is cracked, gouged or pitted"),
        "{refused}"
    );
    let Received::Inspection { name, fit: false, new: true, .. } = hook.receive(&signed.code.text).unwrap()
    else {
        panic!("it is an inspection")
    };
    assert_eq!(name, "SL-0091");
    let verdict = hook.check(None, Some(&made.code.text)).unwrap();
    assert_eq!(codes(&verdict), ["equipment_withdrawn", "no_inspection_known"]);
    assert!(verdict.tag.unwrap().warnings.iter().any(|warning| warning.contains("withdrawn")));
    let kept = desk.kept_inspections().unwrap();
    assert_eq!((kept.len(), kept[0].signed.as_deref()), (1, Some(signed.digest.as_str())));
    assert!(
        desk.inspection(&signed.digest).unwrap().whole && !hook.inspection(&signed.digest).unwrap().whole
    );

    let standing = desk.piece("sl-0091", None).unwrap().standing.unwrap();
    assert!(standing.withdrawn && standing.why.as_deref() == Some("link is cracked, gouged or pitted"));

    // Mended and inspected again, later than any slack of clocks.
    zone.pass(3_600);
    let again = inspect(&store, "gear-chain", "SL-0091", None);
    let fit = store.sign_inspection(&again.walk, PIN).unwrap();
    let until = fit.fit_until.clone().unwrap();
    hook.receive(&fit.code.text).unwrap();
    assert_eq!(codes(&hook.check(None, Some(&made.code.text)).unwrap()), ["no_inspection_known"]);
    carry(&store, &desk);
    desk.write_tag(&CHAIN.replace("KM-030", "KM-032"), &none, None).unwrap();

    // Past the day that was written on its card.
    zone.pass(until.unix + 1 - Time::parse(START).unwrap().unix() - 3_600);
    let late = hook.check(None, Some(&made.code.text)).unwrap();
    assert!(codes(&late).contains(&"equipment_overdue"), "{:?}", codes(&late));
}

#[test]
fn what_a_loads_inspection_rejects_is_withdrawn_with_its_seal() {
    let (zone, authority) = zone();
    let device = zone.device(&authority, "device", "Anvil 3", "planner,inspector");
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    let made = device.write_tag(CHAIN, &none, Some(PIN)).unwrap();
    let mut view = device.begin_walk(&made.code.text).unwrap();
    let mut rejected = false;
    while let Some(card) = view.card.clone() {
        let piece = card.points.iter().find_map(|point| {
            let bad = point.deficiencies.iter().find(|known| known.fate == FateView::Reject)?;
            (!rejected && point.state == PointState::Unanswered).then(|| (point.id.clone(), bad.name.clone()))
        });
        let open =
            card.points.iter().find(|point| point.needs_value && point.state == PointState::Unanswered);
        let request = match (piece, open) {
            (Some((point, deficiency)), _) => {
                rejected = true;
                WalkRequest::Deficiency {
                    card: card.number,
                    point,
                    name: deficiency,
                    note: None,
                    photos: Vec::new(),
                }
            }
            (None, None) => WalkRequest::CardGood { card: card.number },
            (None, Some(point)) => WalkRequest::Answer {
                card: card.number,
                point: point.id.clone(),
                value: crate::sound_answer(&view, point),
            },
        };
        view = device.do_walk(&view.walk, &request).unwrap();
        assert_eq!(view.refused, None);
    }
    let finding = view.findings.iter().find(|finding| finding.state == FindingState::Open).unwrap().number;
    let request = WalkRequest::RejectPiece { finding, serial: "CB-0932".into() };
    view = device.do_walk(&view.walk, &request).unwrap();
    assert_eq!(view.refused, None);
    view = device.do_walk(&view.walk, &WalkRequest::Decide { fit: false, reason: None }).unwrap();
    assert_eq!(view.refused, None);
    device.seal(&view.walk, PIN, None).unwrap();
    carry(&device, &desk);
    let refused = desk.write_tag(&CHAIN.replace("KM-030", "KM-031"), &none, None).unwrap_err().to_string();
    assert!(refused.contains("piece CB-0932 was withdrawn"), "{refused}");
}

#[test]
fn a_zone_and_the_hooks_are_signed_and_carried_and_withdraw_nothing() {
    let (zone, authority) = zone();
    let device = zone.device(&authority, "device", "Anvil 3", "inspector");
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    for (list, name) in
        [("zone", "KESTREL"), ("daily-hooks", "SL-0091"), ("hookup", "KM-030"), ("derig", "KM-030")]
    {
        let view = inspect(&device, list, name, None);
        let signed = device.sign_inspection(&view.walk, PIN).unwrap();
        assert!(signed.fit && signed.fit_until.is_none(), "{list}");
        zone.pass(60);
    }
    carry(&device, &desk);
    let kept = desk.kept_inspections().unwrap();
    let told: Vec<(&str, &str)> = kept.iter().map(|one| (one.subject.word(), one.name.as_str())).collect();
    let wanted =
        [("handling", "KM-030"), ("handling", "KM-030"), ("aircraft", "SL-0091"), ("zone", "KESTREL")];
    assert_eq!(told, wanted);
    assert!(kept.iter().all(|one| one.inspector == "Anvil 3" && one.walk.is_empty()));
    desk.write_tag(CHAIN, &none, None).unwrap();
}

#[test]
fn who_is_no_inspector_withdraws_nothing_and_a_refusal_outlives_its_inspector() {
    let (zone, authority) = zone();
    let store = zone.device(&authority, "store", "Anvil 3", "inspector");
    let planner = zone.device(&authority, "planner", "Lantern 1", "planner");
    let view =
        inspect(&planner, "gear-chain", "SL-0091", Some((".crack", "link is cracked, gouged or pitted")));
    assert!(planner.sign_inspection(&view.walk, PIN).is_err());
    let view =
        inspect(&store, "gear-chain", "SL-0091", Some((".crack", "link is cracked, gouged or pitted")));
    let refusal = store.sign_inspection(&view.walk, PIN).unwrap().code.text;
    zone.pass(3_600);
    let view = inspect(&store, "gear-chain", "SL-0091", None);
    let fit = store.sign_inspection(&view.walk, PIN).unwrap().code.text;
    // Both are known, the later one is fit; then the inspector is revoked, and only the refusal keeps its force.
    let desk = zone.device(&authority, "desk", "Lantern 2", "planner");
    desk.receive(&fit).unwrap();
    desk.receive(&refusal).unwrap();
    let made = desk.write_tag(CHAIN, &none, Some(PIN)).unwrap();
    zone.pass(60);
    let issued = authority.issued().unwrap().issued;
    let anvil = issued.iter().find(|one| one.holder == "Anvil 3").unwrap().id.clone();
    let roster = authority.revoke(&[anvil], None, WORDS).unwrap().roster.text;
    desk.receive(&roster).unwrap();
    assert_eq!(codes(&desk.check(None, Some(&made.code.text)).unwrap())[0], "equipment_withdrawn");
}

/// A serial number has more letters than a load number, and a piece is inspected by the whole of it.
#[test]
fn a_piece_is_inspected_by_the_whole_of_its_serial_number() {
    let (zone, authority) = zone();
    let store = zone.device(&authority, "store", "Anvil 3", "inspector");
    let serial = "SL-0091/Lot 2026-03 b";
    assert!(serial.len() > slingseal_words::LoadNumber::MOST);
    let begun = store.begin_inspection("gear-chain", serial).unwrap();
    assert_eq!(begun.load, serial);
    assert_eq!(store.begin_inspection("gear-chain", &serial.to_uppercase()).unwrap().walk, begun.walk);
    let walked = inspect(&store, "gear-chain", serial, None);
    let signed = store.sign_inspection(&walked.walk, PIN).unwrap();
    assert_eq!((signed.name.as_str(), signed.fit), (serial, true));
    let long = "x".repeat(slingseal_words::Serial::MOST + 1);
    assert!(store.begin_inspection("gear-chain", &long).unwrap_err().to_string().contains("24"));
    // What is done with a load goes by the load's number, and by nothing longer.
    assert_eq!(store.begin_inspection("derig", "km-031").unwrap().load, "KM-031");
    assert!(store.begin_inspection("derig", "KM-031 of today at noon").is_err());
    assert!(store.audit().unwrap().faults.is_empty());
}

/// A list of one card that nobody approves makes no piece fit for the hook; the one that is approved does, as soon as that is known.
#[test]
fn a_piece_found_fit_by_a_list_that_nobody_approves_waits() {
    let (zone, authority) = zone();
    let list = "id = \"glance\"\nversion = 1\ntitle = \"A glance\"\nsource = \"user's own\"\nsubject = \"piece\"\n\
        [[station]]\nid = \"all\"\ntitle = \"All\"\n[[station.card]]\nid = \"look\"\ntitle = \"Look\"\nmotion = \"Look at it.\"\n\
        [[station.card.point]]\nid = \"good\"\nprompt = \"It is whole\"\nrerig = [\"it is broken\"]\n";
    let store = zone.device(&authority, "store", "Anvil 3", "inspector");
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    let made = desk.write_tag(CHAIN, &none, Some(PIN)).unwrap();
    store.add_procedure(list).unwrap();
    let walked = inspect(&store, "glance", "SL-0091", None);
    let signed = store.sign_inspection(&walked.walk, PIN).unwrap();
    let inspector = zone.device(&authority, "inspector", "Herald 2", "inspector");
    let mut view = inspector.begin_walk(&made.code.text).unwrap();
    while let Some(card) = view.card.clone() {
        let open = card.points.iter().find(|one| one.needs_value && one.state == PointState::Unanswered);
        let request = match open {
            None => WalkRequest::CardGood { card: card.number },
            Some(point) => WalkRequest::Answer {
                card: card.number,
                point: point.id.clone(),
                value: crate::sound_answer(&view, point),
            },
        };
        view = inspector.do_walk(&view.walk, &request).unwrap();
    }
    inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    let seal = inspector.seal(&view.walk, PIN, None).unwrap();

    let hook = zone.home("hook");
    meet(&hook, &authority);
    assert_eq!(hook.check(Some(&seal.code.text), Some(&made.code.text)).unwrap().word, "GO");
    hook.receive(&signed.code.text).unwrap();
    let wait = hook.check(Some(&seal.code.text), Some(&made.code.text)).unwrap();
    assert_eq!((wait.word.as_str(), codes(&wait)[0]), ("WAIT", "equipment_list_not_approved"));
    assert!(wait.first.contains("sl-0091") && wait.first.contains("glance version 1"), "{}", wait.first);

    zone.pass(60);
    authority.add_procedure(list).unwrap();
    authority.approve(&[crate::Approve::Id("glance".into())], None, WORDS).unwrap();
    hook.receive(&authority.authority().unwrap().roster.text).unwrap();
    let still = hook.check(Some(&seal.code.text), Some(&made.code.text)).unwrap();
    assert_eq!(
        codes(&still)[0],
        "equipment_list_not_approved",
        "it was walked before anybody approved the list"
    );
    zone.pass(300);
    let again = inspect(&store, "glance", "SL-0091", None);
    hook.receive(&store.sign_inspection(&again.walk, PIN).unwrap().code.text).unwrap();
    assert_eq!(hook.check(Some(&seal.code.text), Some(&made.code.text)).unwrap().word, "GO");
}

#[test]
fn a_leader_withdraws_a_piece_at_planning_walking_and_hook_and_an_inspector_alone_brings_it_back() {
    let (zone, authority) = zone();
    let leader = zone.device(&authority, "leader", "Rook 8", "leader");
    let desk = zone.device(&authority, "desk", "Lantern 1", "planner");
    let anvil = zone.device(&authority, "anvil", "Anvil 3", "inspector");
    let hook = zone.home("hook");
    meet(&hook, &authority);
    let made = desk.write_tag(CHAIN, &none, Some(PIN)).unwrap();
    zone.pass(60);

    assert!(desk.withdraw_piece("SL-0091", "dropped", PIN).is_err(), "a planner withdraws nothing");
    let bare = leader.withdraw_piece("SL-0091", "  ", PIN).unwrap_err().to_string();
    assert!(bare.contains("say why"), "{bare}");
    let said = leader.withdraw_piece("SL-0091", "dropped from a lorry", PIN).unwrap();
    assert_eq!((said.fit, said.whole, said.inspector.as_str()), (false, false, "Rook 8"));
    for device in [&desk, &anvil, &hook] {
        assert!(matches!(
            device.receive(&said.code.text).unwrap(),
            Received::Inspection { fit: false, new: true, .. }
        ));
    }
    // Planning, walking, hook.
    let again = CHAIN.replace("KM-030", "KM-031");
    let refused = desk.write_tag(&again, &none, None).unwrap_err().to_string();
    assert!(refused.contains("dropped from a lorry"), "{refused}");
    let read = anvil.read_tag(&made.code.text).unwrap();
    assert!(read.warnings.iter().any(|warning| warning.contains("dropped from a lorry")), "{read:?}");
    assert_eq!(codes(&hook.check(None, Some(&made.code.text)).unwrap())[0], "equipment_withdrawn");
    let standing = desk.piece("sl-0091", None).unwrap().standing.unwrap();
    assert_eq!((standing.withdrawn, standing.by.as_deref()), (true, Some("Rook 8")));

    // The bundle takes it along, without a record that there is none of.
    let far = zone.home("far");
    meet(&far, &authority);
    carry(&leader, &far);
    assert_eq!(codes(&far.check(None, Some(&made.code.text)).unwrap())[0], "equipment_withdrawn");

    zone.pass(3_600);
    let view = inspect(&anvil, "gear-chain", "SL-0091", None);
    let fit = anvil.sign_inspection(&view.walk, PIN).unwrap().code.text;
    hook.receive(&fit).unwrap();
    assert_eq!(codes(&hook.check(None, Some(&made.code.text)).unwrap()), ["no_inspection_known"]);
}

/// An order holds over all pages, whatever stood first without it; a piece without a value stands last either way.
#[test]
fn pieces_are_ordered_over_all_their_pages() {
    let (zone, authority) = zone();
    let store = zone.device(&authority, "store", "Anvil 3", "inspector");
    for (name, fit) in [("SL-3", true), ("SL-1", false), ("SL-5", true), ("SL-2", true), ("SL-4", false)] {
        let bad = (!fit).then_some((".crack", "link is cracked, gouged or pitted"));
        let walked = inspect(&store, "gear-chain", name, bad);
        store.sign_inspection(&walked.walk, PIN).unwrap();
        zone.pass(60);
    }
    let listed = |order: Option<Sorting<PieceOrder>>| {
        let mut all = Vec::new();
        for page in 0..3 {
            let filter = PieceFilter { order, page, most: 2, ..PieceFilter::default() };
            let view = store.pieces(&filter).unwrap();
            assert_eq!((view.count, view.pages), (5, 3));
            all.extend(view.lines.into_iter().map(|life| life.serial));
        }
        all
    };
    let by = |by, down| listed(Some(Sorting { by, down }));
    assert_eq!(listed(None)[..2], ["SL-1", "SL-4"], "withdrawn first");
    assert_eq!(by(PieceOrder::Serial, false), ["SL-1", "SL-2", "SL-3", "SL-4", "SL-5"]);
    assert_eq!(by(PieceOrder::Serial, true), ["SL-5", "SL-4", "SL-3", "SL-2", "SL-1"]);
    assert_eq!(by(PieceOrder::Due, false)[..3], ["SL-3", "SL-5", "SL-2"], "the first to run out");
    assert_eq!(by(PieceOrder::Due, true)[..3], ["SL-2", "SL-5", "SL-3"], "the last");
    assert_eq!(by(PieceOrder::Due, true)[3..], ["SL-1", "SL-4"], "no day, withdrawn");
}
