//! Sync end to end: two handhelds, a hookup phone and two desks end a day with the same account.

use super::*;
use slingseal_account::sync::{BundleReader, BundleWriter, ItemKind, Piece, RecordItem};

pub(super) struct Day {
    pub(super) zone: Zone,
    pub(super) authority: App,
    pub(super) one: App,
    pub(super) two: App,
    pub(super) hookup: App,
    pub(super) seals: Vec<SealView>,
}

/// Two handhelds seal a load each; the hookup phone scans one, sees it moved, and takes its seal back.
pub(super) fn day() -> Day {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let one = zone.device(&authority, "one", "Anvil 3", "inspector,planner");
    let two = zone.device(&authority, "two", "Anvil 4", "inspector,planner");
    let hookup = zone.device(&authority, "hookup", "Thistle 7", "hookup");
    let mut seals = Vec::new();
    for (app, load) in [(&one, "KM-014"), (&two, "KM-015"), (&two, "KM-016")] {
        let plan = PLAN.replace("KM-014", load);
        let tag = app.write_tag(&plan, &no_file, Some(PIN)).unwrap().code.text;
        let view = walk_all(app, app.begin_walk(&tag).unwrap());
        app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
        seals.push(app.seal(&view.walk, PIN, Some(6)).unwrap());
        zone.pass(60);
    }
    hookup.check(Some(&seals[0].code.text), None).unwrap();
    hookup.void(&seals[0].record, crate::VoidCause::LoadMoved, None, PIN).unwrap();
    Day { zone, authority, one, two, hookup, seals }
}

pub(super) fn desk(day: &Day, name: &'static str) -> App {
    let desk = day.zone.home(name);
    meet(&desk, &day.authority);
    desk
}

pub(super) fn bundle(from: &App, have: Option<String>) -> Vec<u8> {
    let mut bytes = Vec::new();
    from.bundle_write(&BundleRequest { have, photos: true, ..BundleRequest::default() }, &mut bytes).unwrap();
    bytes
}

pub(super) fn take(desk: &App, bytes: &[u8]) -> BundleReport {
    desk.bundle_read(&mut &bytes[..], &mut |_| {}).unwrap()
}

/// What a leader counts by.
fn account(desk: &App) -> Vec<(String, String, bool, u32)> {
    let mut lines: Vec<_> = desk
        .records(None, 100)
        .unwrap()
        .into_iter()
        .map(|line| (line.record, line.standing.word().to_owned(), line.whole, line.found))
        .collect();
    lines.sort();
    lines
}

#[test]
fn a_day_ends_with_the_same_account_at_two_desks() {
    let day = day();
    let (first, second) = (desk(&day, "first"), desk(&day, "second"));

    // The first handheld by file; the second by a moving code of which every third frame is lost.
    let report = take(&first, &bundle(&day.one, Some(first.have_code().unwrap().text)));
    assert_eq!((report.new, report.set_aside.clone()), (1, vec![]));
    let moving = day.two.moving_code(Some(&second.have_code().unwrap().text)).unwrap();
    let mut reader = MovingReader::new();
    let whole = (5..2_000u32).filter(|number| !number.is_multiple_of(3)).find_map(|number| {
        match reader.take(&moving.frame(number).unwrap().text).unwrap() {
            FrameTaken::Whole(bytes) => Some(bytes),
            FrameTaken::More { .. } => None,
        }
    });
    assert_eq!(take(&second, &whole.unwrap()).new, 2);
    // The hookup phone has the seal alone, and the void of it.
    let report = take(&second, &bundle(&day.hookup, None));
    assert_eq!((report.new, report.set_aside), (1, vec![]));

    // The desks exchange what the other lacks, each way.
    let to_second = bundle(&first, Some(second.have_code().unwrap().text));
    let to_first = bundle(&second, Some(first.have_code().unwrap().text));
    assert_eq!(take(&second, &to_second).completed, 1, "the seal gets its record");
    assert_eq!(take(&first, &to_first).new, 2);
    assert_eq!(account(&first), account(&second));
    let standing: Vec<_> = account(&first).into_iter().map(|line| (line.0, line.1, line.2)).collect();
    let mut want: Vec<_> = day
        .seals
        .iter()
        .zip(["voided", "current", "current"])
        .map(|(seal, standing)| (seal.record.clone(), standing.to_owned(), true))
        .collect();
    want.sort();
    assert_eq!(standing, want);

    // Once and only once: the same again changes nothing, and nothing is lacking any more.
    let again = take(&first, &to_first);
    assert_eq!((again.new, again.completed, again.papers), (0, 0, 0));
    let mut nothing = Vec::new();
    let request = BundleRequest {
        have: Some(second.have_code().unwrap().text),
        photos: true,
        ..BundleRequest::default()
    };
    let made = first.bundle_write(&request, &mut nothing).unwrap();
    assert_eq!((made.records, made.papers), (0, 0));
    assert_eq!(first.audit().unwrap().faults, [""; 0]);
}

/// Commutative and idempotent: every order of three bundles, with repeats, gives the same account.
#[test]
fn the_order_of_bundles_does_not_matter() {
    let day = day();
    let bundles = [bundle(&day.one, None), bundle(&day.two, None), bundle(&day.hookup, None)];
    let mut accounts = Vec::new();
    for (name, order) in [
        ("d0", [0, 1, 2, 0]),
        ("d1", [0, 2, 1, 1]),
        ("d2", [1, 0, 2, 2]),
        ("d3", [1, 2, 0, 1]),
        ("d4", [2, 0, 1, 0]),
        ("d5", [2, 1, 0, 2]),
    ] {
        let desk = desk(&day, name);
        for at in order {
            assert_eq!(take(&desk, &bundles[at]).set_aside, []);
        }
        accounts.push(account(&desk));
    }
    assert_eq!(accounts[0].len(), 3);
    assert!(accounts.windows(2).all(|pair| pair[0] == pair[1]), "{accounts:#?}");
}

/// Damage, a record changed behind its seal, and a seal of a stranger: each is named, and every good record is in.
#[test]
fn what_is_bad_is_named_and_what_is_good_is_in() {
    let day = day();
    let mut bytes = bundle(&day.two, None);
    let desk = desk(&day, "desk");

    // The first record's bytes are changed, and the check made anew, as a forger would.
    let mut reader = BundleReader::begin(&bytes[..]).unwrap().unwrap();
    let mut forged = BundleWriter::begin(Vec::new()).unwrap();
    let mut records = 0;
    while let Some(Piece::Item(item)) = reader.next_piece().unwrap() {
        let mut body = item.body;
        if item.kind == ItemKind::Record {
            records += 1;
            if records == 1 {
                let mut inside = RecordItem::parse(&body).unwrap();
                let record = inside.record.as_mut().unwrap();
                let last = record.len() - 1;
                record[last] ^= 1;
                body = inside.to_bytes();
            }
        }
        forged.add(item.kind, &body).unwrap().unwrap();
    }
    assert_eq!(records, 2);
    let report = take(&desk, &forged.finish().unwrap());
    assert_eq!((report.new, report.set_aside.len()), (1, 1));
    assert!(report.set_aside[0].reason.contains("was changed after it was sealed"), "{report:?}");

    // One byte in the middle is damaged: one item is lost, and it is said where.
    let middle = bytes.len() / 2;
    bytes[middle] ^= 0x20;
    let other = day.zone.home("other");
    meet(&other, &day.authority);
    let report = take(&other, &bytes);
    assert_eq!((report.new, report.set_aside.len()), (1, 1), "{report:?}");
    assert_eq!(report.set_aside[0].kind, "damage");
    bytes[middle] ^= 0x20;
    assert_eq!(take(&other, &bytes).new, 1, "the whole bundle mends it");

    // A desk that does not know the authority keeps nothing of it, and says what to do.
    let stranger = day.zone.home("stranger");
    let report = take(&stranger, &bytes);
    assert_eq!(report.new, 0);
    assert!(report.set_aside.iter().any(|line| line.kind == "record"), "{report:?}");
    meet(&stranger, &day.authority);
    assert_eq!(take(&stranger, &bytes).new, 2);

    let error = desk.bundle_read(&mut &b"hello"[..], &mut |_| {}).unwrap_err();
    assert!(error.to_string().contains("no bundle"), "{error}");
}
