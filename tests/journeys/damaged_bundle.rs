//! A large bundle of which one record in a hundred is damaged: every good one comes in, every bad one is named.

use slingseal_app::ListRequest;
use slingseal_tests::many::Many;
use slingseal_words::Digest;

use crate::zone::Zone;

/// A tenth of what a desk takes in one evening at the most; `measure desk` plays ten thousand.
const RECORDS: u32 = 1_000;

#[test]
fn every_good_record_comes_in_and_every_bad_one_is_named() {
    let zone = Zone::new();
    let folder = tempfile::tempdir().unwrap();
    let many = Many::new(folder.path());
    let desk = zone.device("desk", 0);
    zone.pass(86_400);
    let (card, fingerprint) = many.card();
    desk.app.trust(&card, &fingerprint).unwrap();
    // One bit of every hundredth record, somewhere else in each: in the seal, the tag, the walk, the framing of it.
    let bad = |number: u32| number % 100 == 57;
    let flip = |number: u32, body: &mut Vec<u8>| {
        if bad(number) {
            let at =
                Digest::of(&number.to_be_bytes()).as_bytes()[..4].try_into().map(u32::from_be_bytes).unwrap();
            let length = body.len();
            body[at as usize % length] ^= 1 << (at % 8);
        }
    };
    let mut bundle = many.bundle(RECORDS, flip);
    // And the medium itself lost some bytes of one more.
    // Well inside an item: all are about as long, and the very middle is where two meet.
    let middle = bundle.len() / 2 + 1_000;
    bundle[middle..middle + 40].fill(0);
    let report = desk.take(&bundle);
    assert_eq!(report.new, RECORDS - RECORDS / 100 - 1, "{:?}", report.set_aside.first());
    let items = report.set_aside.iter().filter(|line| line.kind == "record").count() as u32;
    let damage = report.set_aside.iter().filter(|line| line.kind == "damage").count() as u32;
    assert_eq!((items, damage), (RECORDS / 100, 1), "{:?}", report.set_aside);
    assert!(report.set_aside.iter().all(|line| !line.reason.is_empty() && !line.place.is_empty()));
    // Those that are missing are the very ones that were damaged, and the one that the medium lost.
    let (mut missing, mut by_seal) = (Vec::new(), Vec::new());
    for number in 0..RECORDS {
        // Where the seal was whole and its walk was not, the seal is known: a refusal counts, whatever became of its walk.
        let known = desk.app.load(&format!("KM-{number:06}"));
        if known.is_ok_and(|load| load.inspections.iter().all(|record| !record.line.whole)) {
            by_seal.push(number);
        } else if desk.app.load(&format!("KM-{number:06}")).is_err() {
            missing.push(number);
        }
    }
    assert!(
        (0..RECORDS)
            .filter(|number| bad(*number))
            .all(|number| missing.contains(&number) || by_seal.contains(&number)),
        "{missing:?}"
    );
    assert_eq!((missing.len() + by_seal.len()) as u32, RECORDS / 100 + 1, "{missing:?} {by_seal:?}");
    assert!(!by_seal.is_empty());
    // Asked for again, the good bundle brings the rest and clears what was set aside of the records.
    let again = desk.take(&many.bundle(RECORDS, |_, _| {}));
    assert_eq!((again.new, again.set_aside.len()), (missing.len() as u32, 0));
    assert_eq!(again.completed, by_seal.len() as u32);
    let page =
        desk.app.list(&ListRequest { words: Some("km-000057".into()), most: 10, ..Default::default() });
    assert_eq!(page.unwrap().lines.len(), 1);
}
