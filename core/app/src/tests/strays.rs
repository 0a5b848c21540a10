//! What nobody signed and comes from elsewhere: so much of it is kept and no more, and a thing that a record names is kept for good.

use super::bundles::{bundle, day, desk, take};
use super::*;
use crate::account::strays::{MOST_STRAY_BYTES, MOST_STRAYS};
use slingseal_account::sync::{BundleReader, BundleWriter, ItemKind, Piece};
use slingseal_message::envelope::{unwrap, wrap};
use slingseal_message::tag::{Equipment, EquipmentRating, MOST_EQUIPMENT, ReceivedTag, Tag, kind_of_tag};
use slingseal_store::StrayKind;
use slingseal_walk::exam::Sheet;
use slingseal_words::{LoadNumber, Name, Quantity, Serial, Source};

const PHOTO: &[u8] = b"\x89PNG\r\n\x1a\n";

fn of(kind: ItemKind, bodies: impl IntoIterator<Item = Vec<u8>>) -> Vec<u8> {
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    for body in bodies {
        writer.add(kind, &body).unwrap().unwrap();
    }
    writer.finish().unwrap()
}

/// A tag that nobody signed, of a load that nobody has.
fn unsigned(like: &str, number: u32) -> Vec<u8> {
    let (_, bytes) = unwrap(like).unwrap();
    let load = LoadNumber::new(&format!("ZZ-{number}")).unwrap();

    let piece = |at| Equipment {
        kind: Name::new(&"k".repeat(32)).unwrap(),
        serial: Serial::new(&format!("S-{at:022}")).unwrap(),
        rating: Some(EquipmentRating {
            value: Quantity::parse("9 t").unwrap(),
            source: Source::new(&"s".repeat(48)).unwrap(),
        }),
        next_inspection: None,
    };
    let equipment = (0..MOST_EQUIPMENT).map(piece).collect();
    let tag = Tag { load, equipment, ..ReceivedTag::open(&bytes).unwrap().tag };
    let content = tag.content();
    tag.claims(&content).to_bytes()
}

fn wrapped(tag: &[u8]) -> String {
    wrap(kind_of_tag(tag), tag)
}

fn photo(number: u32, length: usize) -> Vec<u8> {
    let mut bytes = PHOTO.to_vec();
    bytes.extend_from_slice(&number.to_be_bytes());
    bytes.resize(length, 0);
    bytes
}

fn strays(app: &App) -> (u64, u64) {
    app.lock().store.read().strays_size().unwrap()
}

fn told(report: &BundleReport) -> bool {
    report.warnings.iter().any(|line| line.contains("the oldest gave way"))
}

/// The items of a kind in a bundle.
fn items(bundle: &[u8], kind: ItemKind) -> Vec<Vec<u8>> {
    let mut reader = BundleReader::begin(bundle).unwrap().unwrap();
    let mut found = Vec::new();
    while let Some(piece) = reader.next_piece().unwrap() {
        match piece {
            Piece::Item(item) if item.kind == kind => found.push(item.body),
            _ => {}
        }
    }
    found
}

#[test]
fn unsigned_tags_give_way_and_never_those_that_count() {
    let day = day();
    let desk = desk(&day, "desk");
    let own = desk.write_tag(&PLAN.replace("KM-014", "KM-900"), &no_file, None).unwrap().code.text;
    // One that is unsigned, came by bundle, and is sealed afterwards.
    let late = desk.write_tag(&PLAN.replace("KM-014", "KM-901"), &no_file, None).unwrap().code.text;
    let (_, late_bytes) = unwrap(&late).unwrap();
    let hookup = super::bundles::desk(&day, "other");
    take(&hookup, &of(ItemKind::Tag, [late_bytes.clone()]));
    assert_eq!(strays(&hookup).0, 1);
    let view = walk_all(&day.one, day.one.begin_walk(&late).unwrap());
    day.one.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    day.one.seal(&view.walk, PIN, Some(6)).unwrap();
    take(&hookup, &bundle(&day.one, None));
    assert_eq!(strays(&hookup).0, 0, "a seal names it now");

    let most = u32::try_from(MOST_STRAYS).unwrap();
    for app in [&desk, &hookup] {
        for round in 0..2 {
            let tags = (0..most + 500).map(|at| unsigned(&own, round * 10_000 + at));
            let report = take(app, &of(ItemKind::Tag, tags));
            assert!(told(&report) && report.set_aside.is_empty(), "{:?}", report.warnings);
            assert_eq!(strays(app).0, MOST_STRAYS);
        }
        assert!(app.lock().store.read().tags().unwrap().len() <= MOST_STRAYS as usize + 10);
    }
    let held = |app: &App, text: &str| {
        let (_, bytes) = unwrap(text).unwrap();
        app.lock().store.read().tag(Digest::of(&bytes)).unwrap().is_some()
    };
    assert!(held(&desk, &own) && held(&desk, &late), "what was made here stays");
    assert!(held(&hookup, &late), "what a seal names stays");

    // By scan, one at a time: the oldest gives way to each.
    let first = desk.lock().store.read().strays().unwrap()[0].digest;
    desk.receive(&wrapped(&unsigned(&own, 99_999))).unwrap();
    assert_eq!(strays(&desk).0, MOST_STRAYS);
    assert!(desk.lock().store.read().tag(first).unwrap().is_none());
    // Shown again here it is worked by, and stays.
    let picked = unsigned(&own, 99_999);
    desk.begin_walk(&wrapped(&picked)).unwrap_err();
    day.one.receive(&wrapped(&picked)).unwrap();
    assert_eq!(strays(&day.one).0, 1);
    day.one.begin_walk(&wrapped(&picked)).unwrap();
    assert_eq!(strays(&day.one).0, 0);

    // Full to the brim, everything goes on.
    let report = take(&desk, &bundle(&day.two, None));
    assert_eq!((report.new, report.set_aside.len()), (2, 0));
    let audit = desk.audit().unwrap();
    assert_eq!(audit.faults, [""; 0]);
    assert!(audit.notes.iter().any(|note| note.contains("nobody signed")), "{:?}", audit.notes);
    let written = bundle(&desk, None);
    assert_eq!(items(&written, ItemKind::Record).len(), 2);
    let third = super::bundles::desk(&day, "third");
    assert_eq!(take(&third, &written).new, 2);
    // A moving code has less room than strangers could fill: what people signed goes all the same.
    let moving = desk.moving_code(None).unwrap();
    assert!(moving.made().records == 2 && !moving.made().left_out.is_empty(), "{:?}", moving.made());
}

#[test]
fn photographs_give_way_and_never_those_of_a_record() {
    let day = day();
    let named = photo(0, 5_000);
    let digest = day.one.add_photo(&named).unwrap();
    let tag = day.one.write_tag(&PLAN.replace("KM-014", "KM-800"), &no_file, Some(PIN)).unwrap().code.text;
    let view = day.one.begin_walk(&tag).unwrap();
    let point = view.card.as_ref().unwrap().points[0].clone();
    let found = WalkRequest::Deficiency {
        card: 1,
        point: point.id,
        name: point.deficiencies[0].name.clone(),
        note: None,
        photos: vec![digest.clone()],
    };
    assert_eq!(day.one.do_walk(&view.walk, &found).unwrap().refused, None);
    day.one.do_walk(&view.walk, &WalkRequest::Decide { fit: false, reason: None }).unwrap();
    day.one.seal(&view.walk, PIN, None).unwrap();
    let whole = bundle(&day.one, None);
    assert_eq!(items(&whole, ItemKind::Photo), std::slice::from_ref(&named));
    let bare = of(ItemKind::Record, items(&whole, ItemKind::Record));

    // The photograph before its record, with it, and long after it.
    let (before, with, after) = (desk(&day, "before"), desk(&day, "with"), desk(&day, "after"));
    take(&before, &of(ItemKind::Photo, [named.clone()]));
    assert_eq!(strays(&before).0, 1);
    take(&before, &bare);
    take(&with, &whole);
    take(&after, &bare);
    take(&after, &of(ItemKind::Photo, [named.clone()]));
    for app in [&with, &after] {
        assert_eq!(strays(app).0, 0);
        assert_eq!(app.lock().store.read().photo_digests().unwrap(), [Digest::of(&named)]);
    }
    {
        let app = &before;
        assert_eq!(strays(app).0, 0);
        let report = take(app, &of(ItemKind::Photo, (1..18).map(|number| photo(number, 4 << 20))));
        assert!(told(&report), "{:?}", report.warnings);
        let (number, bytes) = strays(app);
        assert!(number > 10 && bytes <= MOST_STRAY_BYTES, "{number} {bytes}");
        let held = app.lock().store.read().photo_digests().unwrap();
        assert_eq!(held.len() as u64, number + 1);
        assert!(held.contains(&Digest::of(&named)), "what a record names stays");
        assert_eq!(app.audit().unwrap().faults, [""; 0]);
        assert_eq!(items(&bundle(app, None), ItemKind::Photo), std::slice::from_ref(&named));
    }
    // What is no photograph is set aside, and what is set aside has its own end.
    let report = take(&with, &of(ItemKind::Photo, [b"no picture".to_vec()]));
    assert_eq!((report.photos, report.set_aside.len()), (0, 1));
    // Taken here it is this person's.
    let last = photo(17, 4 << 20);
    let (number, _) = strays(&before);
    before.add_photo(&last).unwrap();
    assert_eq!(strays(&before).0, number - 1);
}

#[test]
fn texts_of_procedures_give_way_and_never_those_that_are_walked_by() {
    let day = day();
    let desk = desk(&day, "desk");
    let text = |number: u32| {
        let zone = include_str!("../../../walk/procedures/zone.toml");
        zone.replace("title = \"Zone and briefing\"", &format!("title = \"Zone {number}\""))
    };
    let own = text(0);
    take(&desk, &of(ItemKind::Procedure, [own.clone().into_bytes()]));
    assert_eq!(strays(&desk).0, 1);
    desk.add_procedure(&own).unwrap();
    assert_eq!(strays(&desk).0, 0);
    // So few that the test is short: a long bundle goes the way that tags go.
    let report = take(&desk, &of(ItemKind::Procedure, (0..20).map(|number| text(number).into_bytes())));
    assert!(report.set_aside.is_empty(), "{:?}", report.set_aside);
    assert_eq!(strays(&desk).0, 19);
    let own_tag = desk.write_tag(PLAN, &no_file, None).unwrap().code.text;
    let tags = (0..u32::try_from(MOST_STRAYS).unwrap()).map(|at| unsigned(&own_tag, at));
    assert!(told(&take(&desk, &of(ItemKind::Tag, tags))));
    let read = desk.lock();
    let read = read.store.read();
    assert!(read.strays().unwrap().iter().all(|stray| stray.kind == StrayKind::Tag));
    assert!(read.procedure_text(Digest::of(own.as_bytes())).unwrap().is_some());
    assert!(read.procedure_text(Digest::of(text(7).as_bytes())).unwrap().is_none());
}

#[test]
fn sheets_that_nobody_scored_give_way() {
    let (school, sheets, scored) = super::exam::scored_and_forged(30);
    let app = &school.instructor;
    let report = take(app, &of(ItemKind::ExamSheet, sheets.iter().map(Sheet::to_bytes)));
    assert!(report.set_aside.is_empty(), "{:?}", report.set_aside);
    assert_eq!(strays(app).0, 30);
    let own_tag = app.write_tag(PLAN, &no_file, None).unwrap().code.text;
    let tags = (0..u32::try_from(MOST_STRAYS).unwrap()).map(|at| unsigned(&own_tag, at));
    assert!(told(&take(app, &of(ItemKind::Tag, tags))));
    let held = |digest: Digest| app.lock().store.read().exam_paper(digest).unwrap().is_some();
    assert!(held(scored), "a result names it");
    assert!(sheets.iter().all(|sheet| !held(Digest::of(&sheet.to_bytes()))));
    assert_eq!(app.audit().unwrap().faults, [""; 0]);
}
