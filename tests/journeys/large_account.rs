//! An account of more loads than lie in memory at a time: what is said of it is what its words say, reckoned here from the words
//! themselves.

use std::collections::{BTreeMap, BTreeSet};

use slingseal_app::{CloseRequest, PieceFilter, PieceLifeView, PieceOrder, Sorting};
use slingseal_message::closing::account_digest;
use slingseal_message::seal::Record;
use slingseal_tests::many::{Many, digest_of};
use slingseal_tests::scripted::open;
use slingseal_words::Digest;

/// A stretch holds about a thousand rows of a table: of these reports they are several, none of which ends where a load does.
const LOADS: u32 = 900;
/// Loads with equipment of their own.
const OWN: u32 = 50;

/// How many of the six reports of a load are here: none, lifted, up to the set-down, all.
fn reported(load: u32) -> usize {
    match load % 10 {
        3 => 0,
        5 => 1,
        7 => 3,
        _ => 6,
    }
}

#[test]
fn a_large_account_says_what_its_words_say() {
    let folder = tempfile::tempdir().unwrap();
    let many = Many::new(folder.path()).of_pieces(OWN);
    let (app, clock) = open(&folder.path().join("zone"), "zone desk").unwrap();
    clock.to(86_400);
    let (card, fingerprint) = many.card();
    app.trust(&card, &fingerprint).unwrap();
    let reports: Vec<Vec<u8>> =
        (0..LOADS).flat_map(|load| many.reports(load).into_iter().take(reported(load))).collect();
    // The last loads come first: the order of coming is not the order of the numbers.
    for (records, reports) in
        [(LOADS / 3..LOADS, &reports[reports.len() / 2..]), (0..LOADS / 3, &reports[..reports.len() / 2])]
    {
        let bundle = many.bundle_with(records, reports);
        let report = app.bundle_read(&mut bundle.as_slice(), &mut |_| {}).unwrap();
        assert!(report.set_aside.is_empty(), "{:?}", report.set_aside.first());
    }

    let records: Vec<_> = (0..LOADS).map(|load| many.record(load)).collect();
    let tags = records.iter().map(|one| {
        let record = Record::parse(one.record.as_ref().unwrap(), &digest_of).unwrap();
        Digest::of(&record.tag)
    });
    let seals = records.iter().map(|one| Digest::of(&one.seal));
    let (account, words) = account_digest(tags.chain(seals).chain(reports.iter().map(|one| Digest::of(one))));
    let view = app.close_account(&CloseRequest::default()).unwrap();
    assert_eq!((&view.account, view.words), (&account.to_string(), words));
    let having =
        |least: usize| u32::try_from((0..LOADS).filter(|load| reported(*load) >= least).count()).unwrap();
    assert_eq!(
        (view.loads, view.inspections, view.lifted, view.set_down),
        (LOADS, LOADS, having(1), having(3))
    );
    let of_kind = |word: &str| -> BTreeSet<String> {
        let points = view.points.iter().filter(|point| point.kind.word() == word);
        points.map(|point| point.load.clone()).collect()
    };
    let loads = |fits: &dyn Fn(u32) -> bool| -> BTreeSet<String> {
        (0..LOADS).filter(|load| fits(*load)).map(|load| format!("KM-{load:06}")).collect()
    };
    assert_eq!(of_kind("never_lifted"), loads(&|load| reported(load) == 0));
    assert_eq!(of_kind("never_set_down"), loads(&|load| reported(load) == 1));
    assert_eq!(of_kind("missing"), BTreeSet::new());
    // A piece is back from every load before the last one that it was inspected on.
    let stays_out = |load: u32| {
        let lift = if reported(load) == 1 { 600 } else { 660 };
        load + (lift / OWN + 1) * OWN >= LOADS
    };
    assert_eq!(of_kind("piece_out"), loads(&|load| reported(load) > 0 && stays_out(load)));

    // One load of them: the same words of it, and nothing of the others.
    let one = CloseRequest { loads: vec!["KM-000405".into()], ..CloseRequest::default() };
    let one = app.close_account(&one).unwrap();
    assert_eq!((one.loads, one.words, one.lifted), (1, 3, 1));

    let lives = app.piece_lives().unwrap();
    let lifts: BTreeMap<&str, u32> = lives.iter().map(|life| (life.serial.as_str(), life.lifts)).collect();
    assert_eq!(lives.len() as u32, 2 * OWN);
    for own in 0..OWN {
        let flown: u32 = (own..LOADS).step_by(OWN as usize).map(|load| reported(load).min(2) as u32).sum();
        assert_eq!(lifts[format!("SL-{own:05}").as_str()], flown, "{own}");
    }
    let every = |order: Option<Sorting<PieceOrder>>| -> Vec<PieceLifeView> {
        let mut all = Vec::new();
        for page in 0.. {
            let filter = PieceFilter { order, page, most: 37, ..PieceFilter::default() };
            let view = app.pieces(&filter).unwrap();
            assert_eq!((view.count, view.pages), (u64::from(2 * OWN), (2 * OWN).div_ceil(37)));
            if view.lines.is_empty() {
                break;
            }
            all.extend(view.lines);
        }
        all
    };
    assert_eq!(every(None), lives);
    for (by, down) in [(PieceOrder::Lifts, true), (PieceOrder::Since, false)] {
        let mut sorted = lives.clone();
        sorted.sort_by_key(|life| match by {
            PieceOrder::Lifts => -i64::from(life.lifts),
            _ => life.since.as_ref().unwrap().unix,
        });
        assert_eq!(every(Some(Sorting { by, down })), sorted, "{}", by.word());
    }

    let mut csv = Vec::new();
    app.piece_lives_csv(&mut csv).unwrap();
    let csv = String::from_utf8(csv).unwrap();
    let serials: Vec<&str> = csv.lines().skip(1).filter_map(|line| line.split('"').nth(1)).collect();
    assert!(serials.iter().copied().eq(lives.iter().map(|life| life.serial.as_str())));

    let mut sql = Vec::new();
    app.export_sql(&mut sql).unwrap();
    let sql = String::from_utf8(sql).unwrap();
    let rows = sql.split("COPY slingseal_account.loads").nth(1).unwrap().split("\\.\n").next().unwrap();
    let exported: Vec<&str> = rows.lines().skip(1).filter_map(|line| line.split('\t').next()).collect();
    assert!(exported.iter().copied().eq(loads(&|_| true).iter().map(String::as_str)));
}
