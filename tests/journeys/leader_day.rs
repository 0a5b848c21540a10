//! A leader's day: loads planned as a list, two handhelds, a hookup phone and two desks; in the evening both desks hold the
//! same account, one by files, one by moving codes.

use slingseal_app::{
    BoardView, DeficienciesView, ExportTable, FrameTaken, MovingReader, VoidCause, WalkRequest,
};

use crate::flood_day::by_moving_code;
use crate::zone::{Device, Ends, WORDS, Zone};
use slingseal_tests::scripted::PIN;

/// One description is a formula, as somebody might write it who wants a leader's spreadsheet to run it.
const LIST: &str = "load,description,procedure,gross,aircraft,allowable,pickup,pickup_grid,destination,rigger,equipment,links\n\
    KM-101,Rations,bag,1800 lb,Heron M2,7000 lb,Kestrel Meadow,45.0 7.0,Alder Bridge,Mason 5,bag | CB-7 | 5 t | data plate | 2030-01-01,1:3\n\
    KM-102,\"=HYPERLINK(\"\"http://x\"\",\"\"y\"\")\",bag,900 kg,Heron M2,7000 lb,Kestrel Meadow,,Alder Bridge,Mason 6,bag | CB-7 | 5 t | data plate,1:3\n\
    KM-103,\"Tents, dry\",bag,1200 lb,Heron M2,7000 lb,Kestrel Meadow,,Low Weir,Mason 5,,1:3\n\
    KM-104,Blankets,bag,1100 lb,Heron M2,7000 lb,Kestrel Meadow,,Low Weir,Mason 5,,1:3\n";

fn csv(desk: &Device, table: ExportTable) -> Vec<u8> {
    let mut bytes = Vec::new();
    desk.app.export_csv(table, &mut bytes).unwrap();
    bytes
}

fn json(desk: &Device) -> Vec<u8> {
    let mut bytes = Vec::new();
    desk.app.export_json(&mut bytes).unwrap();
    bytes
}

/// The CSV as another library reads it: the head, then each line by its columns.
fn rows(bytes: &[u8]) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::ReaderBuilder::new().from_reader(bytes);
    let heads = reader.headers().unwrap().clone();
    let row = |record: csv::StringRecord| {
        heads.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect()
    };
    reader.records().map(|record| row(record.unwrap())).collect()
}

fn stands(board: &BoardView) -> Vec<(String, u64, Vec<String>)> {
    let columns = board.columns.iter().filter(|column| column.count > 0);
    columns
        .map(|column| {
            let mut loads: Vec<String> = column.loads.iter().map(|load| load.load.clone()).collect();
            loads.sort();
            (column.state.word().to_owned(), column.count, loads)
        })
        .collect()
}

#[test]
fn two_handhelds_a_hookup_phone_and_two_desks_end_the_day_with_one_account() {
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let desk = zone.device("desk", 0).credentialed(&relief, "Lantern 1", "planner,leader");
    let second = zone.device("second desk", 40).credentialed(&relief, "Lantern 2", "leader");
    let anvil = zone.device("anvil", 3).credentialed(&relief, "Anvil 3", "inspector");
    let drover = zone.device("drover", 7).credentialed(&relief, "Drover 7", "inspector");
    let hookup = zone.device("hookup", 1).credentialed(&relief, "Thistle 7", "hookup");

    // Planned as a list, signed with one PIN.
    let none = |_: &str| Err("none".into());
    let made = desk.app.write_tags(LIST, &none, Some(PIN)).unwrap();
    assert!(made.iter().all(|made| made.tag.signature.word() == "signed"));
    assert_eq!(stands(&desk.app.board(7, 24).unwrap()).len(), 1, "four planned");
    let tag = |at: usize| made[at].code.text.as_str();

    // Walked by two, one deficiency put right, one load refused; the hookup phone sees each seal, and one load is dropped.
    zone.pass(60);
    let first = zone.inspect(&anvil, tag(0), Ends::FitOnceCorrected);
    let other = zone.inspect(&drover, tag(1), Ends::Fit);
    let third = zone.inspect(&anvil, tag(2), Ends::NotFit);
    for (seal, tag) in [(&first, tag(0)), (&other, tag(1)), (&third, tag(2))] {
        hookup.told(Some(seal), Some(tag));
    }
    zone.pass(60);
    hookup.app.void(&other.record, VoidCause::LoadMoved, Some("dropped from a hand's height"), PIN).unwrap();

    // One desk by files, the other by moving codes, in another order, one twice.
    for from in [&anvil, &drover, &hookup] {
        assert_eq!(desk.take(&from.bundle(None)).set_aside, []);
    }
    for from in [&hookup, &drover, &anvil, &hookup, &desk] {
        assert_eq!(second.take(&by_moving_code(from)).set_aside, []);
    }
    zone.pass(30);

    // The same bytes, whenever and wherever.
    assert_eq!(String::from_utf8(json(&desk)).unwrap(), String::from_utf8(json(&second)).unwrap());
    for table in [ExportTable::Records, ExportTable::Deficiencies, ExportTable::Equipment] {
        assert_eq!(csv(&desk, table), csv(&second, table), "{table:?}");
    }
    let counted = |desk: &Device| -> DeficienciesView { desk.app.deficiencies(None).unwrap() };
    assert_eq!(counted(&desk), counted(&second));
    let want = [("planned", "KM-104"), ("fit", "KM-101"), ("not_fit", "KM-103"), ("voided", "KM-102")];
    let want = want.map(|(state, load)| (state.to_owned(), 1, vec![load.to_owned()]));
    assert_eq!(stands(&desk.app.board(7, 24).unwrap()), want);
    assert_eq!(stands(&second.app.board(7, 24).unwrap()), want);
    for device in [&desk, &second, &anvil, &drover, &hookup] {
        device.sound();
    }

    look_at_the_tables(&desk);
    look_at_the_views(&desk);
    // The day after, what was fit has run out.
    zone.pass(86_400);
    let board = desk.app.board(7, 24).unwrap();
    assert!(stands(&board).contains(&("expired".into(), 1, vec!["KM-101".into()])), "{board:?}");
}

fn look_at_the_tables(desk: &Device) {
    let records = rows(&csv(desk, ExportTable::Records));
    let loads: Vec<(&str, &str, &str)> = records
        .iter()
        .map(|row| (row["load"].as_str(), row["outcome"].as_str(), row["standing"].as_str()))
        .collect();
    let want = [("KM-101", "fit", "current"), ("KM-102", "fit", "voided"), ("KM-103", "not_fit", "current")];
    assert_eq!(loads, want);
    let [first, other, third] = records.as_slice() else { panic!("three records") };
    // No field begins with what a spreadsheet runs; one apostrophe off gives the text back.
    for value in records.iter().flat_map(std::collections::BTreeMap::values) {
        assert!(!value.starts_with(['=', '+', '@', '\t', '\r']), "{value}");
    }
    assert_eq!(other["description"], "'=HYPERLINK(\"http://x\",\"y\")");
    assert_eq!(third["description"], "Tents, dry");
    // 1 lb is 0.45359237 kg (international yard and pound agreement, 1959).
    assert_eq!(
        (first["gross"].as_str(), first["gross_kg"].as_str(), first["gross_lb"].as_str()),
        ("1800 lb", "816.466", "1800.000")
    );
    assert_eq!((other["gross_kg"].as_str(), other["gross_lb"].as_str()), ("900.000", "1984.160"));
    // 45 N 7 E. GeographicLib's GeoConvert: 45.000002989 7.000001682 is the middle of 32TLQ4236984896; that of the square of
    // ten metres lies 4.5 m west and 1.5 m south of it.
    assert_eq!(first["pickup_mgrs"], "32TLQ42368489");
    let degrees = |column: &str| first[column].parse::<f64>().unwrap();
    assert!((degrees("pickup_latitude") - 44.999_989).abs() < 1.1e-5, "{first:?}");
    assert!((degrees("pickup_longitude") - 6.999_945).abs() < 1.1e-5, "{first:?}");
    assert!(first["issued_utc"].ends_with('Z') && first["issued_dtg"].contains("Z "), "{first:?}");
    assert_eq!(
        (first["found"].as_str(), first["corrected"].as_str(), first["whole"].as_str()),
        ("1", "1", "true")
    );
    assert!(first["seal"].starts_with("SL1:"));

    let deficiencies = rows(&csv(desk, ExportTable::Deficiencies));
    assert_eq!(deficiencies.len(), 1);
    assert_eq!((deficiencies[0]["load"].as_str(), deficiencies[0]["corrected"].as_str()), ("KM-101", "true"));
    let equipment = rows(&csv(desk, ExportTable::Equipment));
    assert_eq!(equipment.len(), 2);
    // 5 t under standard gravity.
    assert_eq!(
        (equipment[0]["serial"].as_str(), equipment[0]["rating_newtons"].as_str()),
        ("CB-7", "49033.3")
    );

    let account: serde_json::Value = serde_json::from_slice(&json(desk)).unwrap();
    assert_eq!(account["schema"], "slingseal.account/1");
    assert_eq!(account["records"].as_array().unwrap().len(), 3);
    assert_eq!(account["records"][0]["deficiencies"].as_array().unwrap().len(), 1);
    assert_eq!(account["records"][1]["standing"], "voided");
}

fn look_at_the_views(desk: &Device) {
    let kinds = |load: &str| -> Vec<String> {
        desk.app.load(load).unwrap().moments.into_iter().map(|moment| moment.kind.word().to_owned()).collect()
    };
    let first = desk.app.load("km-101").unwrap();
    assert_eq!((first.state.word(), first.inspections.len()), ("fit", 1));
    for kind in ["planned", "walk", "found", "put_right", "again_good", "good", "decided", "sealed"] {
        assert!(kinds("KM-101").iter().any(|known| known == kind), "{kind}: {first:#?}");
    }
    assert_eq!(kinds("KM-102").last().map(String::as_str), Some("voided"));
    let voided = desk.app.load("KM-102").unwrap();
    let last = &voided.moments.last().unwrap().what;
    assert_eq!(last, "Taken back by Thistle 7: the load was moved (dropped from a hand's height)");
    assert_eq!(desk.app.load("KM-104").unwrap().state.word(), "planned");
    assert_eq!(desk.app.load("KM-999").unwrap_err().code(), "not_found");

    let view = desk.app.deficiencies(Some(1)).unwrap();
    assert_eq!(view.inspections, 3);
    let [point] = view.points.as_slice() else { panic!("one point: {view:?}") };
    // Wilson, 1 of 3: SciPy 1.17.1 `binomtest(1, 3).proportion_ci(method="wilson")` gives 0.06149 to 0.79235.
    assert_eq!((point.share.found, point.share.of), (1, 3));
    assert!((point.share.low_percent.unwrap() - 6.149).abs() < 1e-3, "{point:?}");
    assert!((point.share.high_percent.unwrap() - 79.235).abs() < 1e-2, "{point:?}");
    assert!(!point.prompt.contains('.') && !point.card.is_empty(), "words, not codes: {point:?}");
    assert_eq!(view.riggers[0].key, "Mason 5");

    let people = desk.app.people().unwrap().people;
    let anvil = people.iter().find(|person| person.holder == "Anvil 3").unwrap();
    assert_eq!(
        (anvil.sealed, anvil.fit, anvil.found, anvil.standing),
        (2, 1, 1, slingseal_app::PersonStanding::Good)
    );
    assert_eq!(people.len(), 4, "{people:#?}");

    let pieces = desk.app.equipment("", 10).unwrap();
    assert_eq!((pieces.len(), pieces[0].serial.as_str(), pieces[0].records), (1, "CB-7", 2));
    let piece = desk.app.piece("CB-7", None).unwrap();
    assert_eq!(piece.uses.iter().map(|line| line.load.as_str()).collect::<Vec<_>>(), ["KM-102", "KM-101"]);
    assert_eq!(piece.newest[0].source.as_deref(), Some("data plate"));

    let found = |words: &str| {
        let request =
            slingseal_app::ListRequest { words: Some(words.into()), most: 10, ..Default::default() };
        desk.app.list(&request).unwrap().lines.into_iter().map(|line| line.load).collect::<Vec<_>>()
    };
    assert_eq!(found("tents"), ["KM-103"]);
    assert_eq!(found("mason kestrel").len(), 3);
    assert!(found("nowhere").is_empty());
}

/// A moving code is a file that is shown: what one desk holds, a third takes from its screen alone.
#[test]
fn a_frame_that_is_shown_twice_or_late_changes_nothing() {
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let desk = zone.device("desk", 0).credentialed(&relief, "Lantern 1", "planner,leader");
    desk.plan("KM-201");
    let moving = desk.app.moving_code(None).unwrap();
    let mut reader = MovingReader::new();
    let mut whole = None;
    for number in (0..moving.enough() + 4).flat_map(|number| [number, number, number / 2]) {
        if let FrameTaken::Whole(bytes) = reader.take(&moving.frame(number).unwrap().text).unwrap() {
            whole.get_or_insert(bytes);
        }
    }
    let third = zone.device("third desk", 0);
    third.meet(&relief);
    assert_eq!(third.take(&whole.unwrap()).set_aside, []);
    assert_eq!(third.app.load("KM-201").unwrap().state.word(), "planned");
}

/// A bundle's file brings photographs; a moving code their digests alone, and a file brings them later.
#[test]
fn a_photograph_travels_by_file_and_its_digest_by_moving_code() {
    let zone = Zone::new();
    let relief = zone.device("relief", 0);
    relief.app.authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let planner = zone.device("planner", 0).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let tag = planner.plan("KM-401");
    let walk = anvil.app.begin_walk(&tag).unwrap();
    let photo = anvil.app.add_photo(&PICTURE).unwrap();
    let card = walk.card.unwrap();
    let request = WalkRequest::Deficiency {
        card: card.number,
        point: card.points[0].id.clone(),
        name: "other".into(),
        note: Some("soaked".into()),
        photos: vec![photo.clone()],
    };
    assert_eq!(anvil.app.do_walk(&walk.walk, &request).unwrap().refused, None);
    let refused = WalkRequest::Decide { fit: false, reason: Some("soaked".into()) };
    assert_eq!(anvil.app.do_walk(&walk.walk, &refused).unwrap().refused, None);
    anvil.app.seal(&walk.walk, PIN, None).unwrap();

    let (desk, second) = (zone.device("desk", 0), zone.device("second desk", 0));
    desk.meet(&relief);
    second.meet(&relief);
    let by_file = desk.take(&anvil.bundle(None));
    assert_eq!((by_file.new, by_file.photos, by_file.set_aside), (1, 1, vec![]));
    let by_code = second.take(&by_moving_code(&anvil));
    assert_eq!((by_code.new, by_code.photos, by_code.set_aside), (1, 0, vec![]));
    // The account names the photograph on both, and is the same.
    assert_eq!(json(&desk), json(&second));
    assert!(String::from_utf8(json(&second)).unwrap().contains(&photo));
    assert_eq!(second.take(&desk.bundle(None)).photos, 1);
    assert_eq!(second.take(&desk.bundle(None)).photos, 0, "it is here");
}

/// The smallest picture in PNG: one grey point.
const PICTURE: [u8; 67] = [
    137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13, 73, 72, 68, 82, 0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0, 58,
    126, 155, 85, 0, 0, 0, 10, 73, 68, 65, 84, 8, 215, 99, 96, 0, 0, 0, 2, 0, 1, 226, 33, 188, 51, 0, 0, 0,
    0, 73, 69, 78, 68, 174, 66, 96, 130,
];
