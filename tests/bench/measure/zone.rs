//! A desk after a long operation: ten thousand loads with sixty thousand reports, all taken in as they come. What a leader waits for,
//! beside the least that SQLite does for the same words. Processor time of the asking thread: the pages wait for nothing else, and
//! others build on this machine.

use std::time::Instant;

use rusqlite::Connection;
use slingseal_app::{BoardRequest, CloseRequest};
use slingseal_tests::many::{Many, REPORTS};
use slingseal_tests::scripted::open;

use crate::lines::{Line, at, pair_busy};

/// Loads of the operation.
const LOADS: u32 = 10_000;
/// The longest that a leader may wait for the board, in milliseconds.
const BOARD: f64 = 100.0;
/// The longest for what does not add up, in milliseconds.
const CLOSE: f64 = 2_000.0;

pub(crate) fn measure() -> Vec<Line> {
    let folder = tempfile::tempdir().expect("a folder");
    let many = Many::new(folder.path());
    let (app, clock) = open(&folder.path().join("zone"), "zone desk").expect("a home");
    clock.to(86_400);
    let (card, fingerprint) = many.card();
    app.trust(&card, &fingerprint).expect("trusted");
    let words: Vec<Vec<u8>> = (0..LOADS).flat_map(|number| many.reports(number)).collect();
    let start = Instant::now();
    for (records, reports) in
        [(0..LOADS / 2, &words[..words.len() / 2]), (LOADS / 2..LOADS, &words[words.len() / 2..])]
    {
        let bundle = many.bundle_with(records, reports);
        let report = app.bundle_read(&mut bundle.as_slice(), &mut |_| {}).expect("a report");
        assert!(report.set_aside.is_empty(), "{:?}", report.set_aside.first());
    }
    let brought = start.elapsed().as_secs_f64() * 1e6 / words.len() as f64;

    let mut bare = Connection::open(folder.path().join("bare.db")).expect("a database");
    bare.execute_batch("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE rows (id INTEGER PRIMARY KEY, body BLOB)")
        .expect("SQLite takes its settings");
    let tx = bare.transaction().expect("a transaction");
    for word in &words {
        tx.prepare_cached("INSERT INTO rows (body) VALUES (?1)")
            .and_then(|mut row| row.execute([word]))
            .expect("a row");
    }
    tx.commit().expect("it commits");
    let read = |most: usize| {
        let mut statement = bare.prepare_cached("SELECT id, body FROM rows LIMIT ?1").expect("it prepares");
        let wanted = i64::try_from(most).expect("so many rows");
        let rows = statement.query_map([wanted], |row| row.get::<_, Vec<u8>>(1)).expect("it asks");
        assert_eq!(rows.map(|row| row.expect("a row").len()).filter(|length| *length > 0).count(), most);
    };

    let key = ed25519_dalek::SigningKey::from_bytes(&[2; 32]);
    let signature = ed25519_dalek::Signer::sign(&key, &[7; 300]);
    let public = key.verifying_key();
    let start = Instant::now();
    let good = (0..2_000)
        .filter(|_| std::hint::black_box(public.verify_strict(&[7; 300], &signature)).is_ok())
        .count();
    let verify = 2e6 * start.elapsed().as_secs_f64() / good as f64;

    let mut lines = vec![Line::new(
        format!("{} reports and {LOADS} records brought in, a report", words.len()),
        "us",
        brought,
        "two verify_strict",
        verify,
        None,
    )];
    let mut line = |name: &str, rounds: usize, most: f64, rows: usize, ours: &mut dyn FnMut()| {
        let (ours, floor) = pair_busy(rounds, ours, || read(rows));
        let floor_is = if rows == words.len() { "60,000 bare rows" } else { "10,000 bare rows" };
        let (ours, floor) = (at(&ours, 0.95) / 1e3, at(&floor, 0.95) / 1e3);
        lines.push(
            Line::new(format!("10,000 loads: {name}, processor, p95"), "ms", ours, floor_is, floor, None)
                .within(most),
        );
    };
    let some = LOADS as usize;
    line("the board", 40, BOARD, some, &mut || {
        let board = app.board(7, 24).expect("a board");
        assert_eq!(board.columns.iter().map(|column| column.count).sum::<u64>(), u64::from(LOADS));
    });
    let derigged = BoardRequest {
        days: 7,
        zone: Some("Kestrel Meadow".into()),
        state: Some(slingseal_app::FlowState::SetDown),
        page: 300,
        most: 24,
        ..BoardRequest::default()
    };
    line("the board, a page of a state at a zone", 40, BOARD, some, &mut || {
        let board = app.board_of(&derigged).expect("a board");
        assert!(board.columns.iter().any(|column| column.loads.len() == 24));
    });
    line("the account closed", 10, CLOSE, words.len(), &mut || {
        let view = app.close_account(&CloseRequest::default()).expect("an account");
        assert_eq!((view.loads, view.lifted, view.unsigned), (LOADS, LOADS, 0));
        assert_eq!(view.words, LOADS * (REPORTS + 2));
    });
    lines
}
