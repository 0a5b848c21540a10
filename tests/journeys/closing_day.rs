//! A day of twelve loads with three devices that never meet: an inspector's, a hookup team's without a key, one at the destination
//! without a key. The leader closes it: exactly what went wrong is named, by whatever order the bundles come in.

use std::collections::{BTreeMap, BTreeSet};

use slingseal_app::{
    CloseRequest, CloseView, MovementKind, PieceReport, Received, RefusalCause, ReportRequest, VerdictWord,
};
use slingseal_tests::scripted::PIN;

use crate::zone::{Ends, WORDS, Zone};

const LIST: &str = "load,description,procedure,gross,aircraft,allowable,pickup,pickup_grid,destination,rigger,equipment,links\n";

fn line(load: u32) -> String {
    format!(
        "KM-{load},Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,45.0 7.0,Alder Bridge,Mason 5,sling set | SS-{load} | 5 t | data plate | 2030-01-01,1:3\n"
    )
}

fn event(word: &str) -> ReportRequest {
    ReportRequest::of(word.parse().unwrap())
}

fn of(load: &str, word: &str) -> ReportRequest {
    ReportRequest { load: Some(load.into()), ..event(word) }
}

fn told(view: &CloseView) -> BTreeSet<(String, String)> {
    view.points.iter().map(|point| (point.kind.word().to_owned(), point.subject.clone())).collect()
}

#[test]
fn a_day_of_twelve_loads_is_closed_by_what_went_wrong_and_nothing_else() {
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let desk = zone.device("desk", 0).credentialed(&relief, "Lantern 1", "planner,leader");
    let second = zone.device("second desk", 40).credentialed(&relief, "Lantern 2", "leader");
    let anvil = zone.device("anvil", 3).credentialed(&relief, "Anvil 3", "inspector");
    let (hook, far) = (zone.device("hook", 7), zone.device("far", 1));
    hook.meet(&relief);
    far.meet(&relief);

    let none = |_: &str| Err("none".into());
    let list: String = std::iter::once(LIST.to_owned()).chain((201..=212).map(line)).collect();
    let mut tags: Vec<String> = desk
        .app
        .write_tags(&list, &none, Some(PIN))
        .unwrap()
        .into_iter()
        .map(|made| made.code.text)
        .collect();
    // Nobody signs the third: the hook will say WAIT.
    let alone = format!("{LIST}{}", line(203));
    tags[2] = desk.app.write_tags(&alone, &none, None).unwrap().remove(0).code.text;

    zone.pass(60);
    let seals: Vec<_> = tags.iter().map(|tag| zone.inspect(&anvil, tag, Ends::Fit)).collect();
    zone.pass(600);
    for (number, (seal, tag)) in (201..).zip(seals.iter().zip(&tags)) {
        let (word, reasons) = hook.told(Some(seal), Some(tag));
        assert_eq!(word, if number == 203 { "WAIT" } else { "GO" }, "{number}: {reasons:?}");
        let request = match number {
            201 => ReportRequest { cause: Some(RefusalCause::Rigging), ..event("refused") },
            _ => event("lifted"),
        };
        let made = hook.app.report(&request, None).unwrap();
        assert_eq!((made.report.load, made.report.by), (format!("KM-{number}"), None));
        zone.pass(30);
    }
    zone.pass(300);
    hook.app.report(&of("KM-204", "lost"), None).unwrap();

    // The far side: no key, and nothing known of any load before its tag is scanned.
    zone.pass(900);
    for (number, tag) in (201..).zip(&tags).filter(|(number, _)| !matches!(number, 201 | 204)) {
        assert_eq!(far.app.arrival(tag).unwrap().load, format!("KM-{number}"));
        far.app.report(&of(tag, "set-down"), None).unwrap();
        zone.pass(20);
        if number == 205 {
            let (word, reasons) = far.told(Some(&seals[4]), Some(tag));
            assert_eq!((word.as_str(), reasons[0].as_str()), ("NO-GO", "set_down"));
            let against = far.app.report(&event("lifted"), None).unwrap().report;
            assert_eq!(against.verdict, Some(VerdictWord::NoGo));
            zone.pass(400);
            far.app.report(&of(tag, "set-down"), None).unwrap();
        }
        far.app.report(&of(tag, "derigged"), None).unwrap();
        if !matches!(number, 207 | 208) {
            let piece = PieceReport { serial: format!("SS-{number}"), back: true, damaged: number == 210 };
            far.app.report(&ReportRequest { pieces: vec![piece], ..of(tag, "returned") }, None).unwrap();
        }
        zone.pass(20);
    }

    let bundles: Vec<Vec<u8>> = [&anvil, &hook, &far].iter().map(|device| device.bundle(None)).collect();
    let plans = desk.bundle(None);
    bundles.iter().for_each(|bundle| assert_eq!(desk.take(bundle).set_aside, []));
    second.take(&bundles[2]);
    second.take(&desk.bundle(None));
    bundles.iter().for_each(|bundle| assert_eq!(second.take(bundle).set_aside, []));

    let everything = CloseRequest { name: Some("Kestrel".into()), ..CloseRequest::default() };
    let view = desk.app.close_account(&everything).unwrap();
    let wanted = [
        ("refused_at_hook", "load KM-201"),
        ("lifted_without_go", "load KM-203"),
        ("lifted_without_go", "load KM-205"),
        ("lost", "load KM-204"),
        ("piece_out", "piece SS-207"),
        ("piece_out", "piece SS-208"),
    ];
    let wanted: BTreeSet<(String, String)> =
        wanted.into_iter().map(|(kind, subject)| (kind.to_owned(), subject.to_owned())).collect();
    assert_eq!(told(&view), wanted, "{view:#?}");
    assert_eq!(view.points.len(), wanted.len());
    assert_eq!((view.loads, view.inspections, view.lifted, view.set_down, view.lost), (12, 12, 11, 10, 1));
    assert_eq!(second.app.close_account(&everything).unwrap(), view, "by another order of bundles");
    // Every order, the plans before, between or behind: another desk for each, that knows nothing before.
    for (at, order) in [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]].iter().enumerate() {
        let other = zone.named(&format!("other-{at}"), "other desk");
        other.meet(&relief);
        for (turn, from) in order.iter().enumerate() {
            if turn == at % 3 {
                other.take(&plans);
            }
            assert_eq!(other.take(&bundles[*from]).set_aside, []);
            other.take(&bundles[*from]);
        }
        assert_eq!(other.app.close_account(&everything).unwrap(), view, "{order:?}");
    }
    let known = |subject: &str| {
        let point = view.points.iter().find(|point| point.subject == subject).unwrap();
        point.known.clone()
    };
    assert!(known("load KM-203").contains("shown WAIT: tag_unsigned"), "{}", known("load KM-203"));
    assert!(known("load KM-205").contains("shown NO-GO: set_down"), "{}", known("load KM-205"));
    assert!(known("load KM-201").contains("rigging"), "{}", known("load KM-201"));

    // The board shows the flow.
    let board = desk.app.board(7, 24).unwrap();
    let counted: Vec<(&str, u64)> = board
        .columns
        .iter()
        .filter(|column| column.count > 0)
        .map(|column| (column.state.word(), column.count))
        .collect();
    // Nothing of it was signed: every load stands where the hook would say, and what was reported stands beside it.
    assert_eq!(counted, [("fit", 11), ("wait", 1)], "{counted:?}");
    let mut reported: BTreeMap<MovementKind, u64> = BTreeMap::new();
    for (event, count) in board.columns.iter().flat_map(|column| &column.reported) {
        *reported.entry(*event).or_default() += count;
    }
    assert_eq!(
        reported.into_iter().map(|(event, count)| (event.word(), count)).collect::<Vec<_>>(),
        [("refused", 1), ("lost", 1), ("derigged", 2), ("returned", 8)]
    );
    let lost = desk.app.load("KM-204").unwrap();
    assert!(lost.state.word() == "fit" && lost.reported.contains("lost"), "{}", lost.reported);

    // Each point is explained, the leader signs, and the other desk reads it.
    let early = desk.app.sign_closing(&everything, PIN).unwrap_err();
    assert!(early.to_string().contains("6 of 6 open points are not explained"), "{early}");
    for point in &view.points {
        desk.app.explain(&point.id, "asked, and answered").unwrap();
    }
    let made = desk.app.sign_closing(&everything, PIN).unwrap();
    assert_eq!(
        (made.statement.by.as_str(), made.statement.account.as_str()),
        ("Lantern 1", view.account.as_str())
    );
    assert_eq!(made.statement.explained.len(), 6);
    let Received::Closing { statement, new: true } = second.app.receive(&made.text).unwrap() else {
        panic!()
    };
    assert_eq!(*statement, made.statement);
    let refused = anvil.app.sign_closing(&CloseRequest::default(), PIN).unwrap_err();
    assert!(!refused.to_string().is_empty(), "an inspector closes nothing");
    // One word more, and the account is another.
    let more = hook.app.report(&of("KM-212", "lost"), None).unwrap();
    desk.app.receive(&more.code.text).unwrap();
    assert_ne!(desk.app.close_account(&everything).unwrap().account, view.account);
    for device in [&desk, &second, &anvil, &hook, &far] {
        device.sound();
    }
}
