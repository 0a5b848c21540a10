//! A desk that holds a hundred thousand records: what a leader waits for, and what bringing records in costs.

use std::time::Instant;

use rusqlite::Connection;
use slingseal_app::{ExportTable, ListRequest, RecordOrder, Sorting};
use slingseal_judgement::RULES;
use slingseal_store::{FlowRow, LoadRow, NewRecord, Store, StoreError};
use slingseal_tests::full_home::{at as time_at, record, walked};
use slingseal_tests::many::Many;
use slingseal_tests::scripted::open;
use slingseal_words::Entropy;

use crate::lines::{Line, at, pair, pair_busy};

/// The longest that a leader may wait for a board of seven days, whatever the account holds, in milliseconds.
const BOARD: f64 = 50.0;

/// Records of the desk that is asked, and of the bundle that is brought in, whole walks, each signed: `RECORDS`, or 100,000.
fn records() -> u32 {
    let told = std::env::var("RECORDS").ok().and_then(|text| text.parse().ok());
    told.unwrap_or(100_000)
}

struct Plain;

impl Entropy for Plain {
    fn fill(&self, bytes: &mut [u8]) {
        bytes.fill(7);
    }
}

/// Memory that this program holds, in MiB.
fn memory() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmRSS")).unwrap_or_default();
    line.split_whitespace().nth(1).and_then(|text| text.parse::<f64>().ok()).unwrap_or(0.0) / 1024.0
}

pub(crate) fn measure() -> Vec<Line> {
    let folder = tempfile::tempdir().expect("a folder");
    let mut lines = asked(folder.path());
    lines.extend(brought(folder.path()));
    lines
}

/// What the pages ask of a full home, beside the least that SQLite would do for it.
fn asked(folder: &std::path::Path) -> Vec<Line> {
    let held = records();
    let home = folder.join("desk");
    let (mut store, _) = Store::open(&home.join("slingseal.db"), time_at(0), &Plain).expect("a home");
    let filled: Result<(), StoreError> = store.write(|tx| {
        for number in 0..held {
            let mut row = record(number);
            row.load = format!("KM-{number:06}");
            // One a minute, the last one now.
            row.issued = slingseal_words::Time::from_unix(1_796_000_000 + 60 * i64::from(number));
            row.valid_until = row.issued.plus(slingseal_words::Seconds::days(1));
            let deficiency = slingseal_store::DeficiencyRow {
                procedure: row.procedure.clone(),
                point: format!("side-{}.lateral-{}.twist", number % 4 + 1, number % 3 + 1),
                name: ["twisted", "loose", "cut"][number as usize % 3].into(),
                rigger: row.rigger.clone(),
                corrected: true,
            };
            let piece = slingseal_store::EquipmentRow {
                serial: format!("{:05}", number % 900),
                kind: "chain leg".into(),
            };
            let seal = [&number.to_be_bytes()[..], &[3; 310]].concat();
            let body = [&number.to_be_bytes()[..], &[5; 5_996]].concat();
            row.seal = slingseal_words::Digest::of(&seal);
            row.judged.version = RULES;
            row.digest = slingseal_words::Digest::of(&body);
            tx.put_record(&NewRecord {
                row: &row,
                seal: &seal,
                body: Some(&body),
                deficiencies: &[deficiency],
                equipment: &[piece],
                facts: Some(&walked(number, row.seal)),
                words: "drinking water",
            })?;
            // As the judgement would have said it: the seals are made up, and nobody could judge them.
            tx.put_load(&LoadRow {
                load: row.load.clone(),
                latest: row.seal,
                state: row.judged.standing.word().to_owned(),
                issued: row.issued,
                valid_until: row.valid_until,
                turns: None,
                authorities: Vec::new(),
                version: RULES,
            })?;
            tx.put_flow(&FlowRow {
                load: row.load.clone(),
                event: String::new(),
                happened: None,
                who: String::new(),
                verdict: String::new(),
                hint: String::new(),
                hinted: None,
                zone: "Marsh".into(),
                grid: String::new(),
                destination: "Ridge".into(),
                destination_grid: String::new(),
                aircraft: "AC-2".into(),
                description: "drinking water".into(),
                gross: String::new(),
                planner: "Heron".into(),
                rigger: row.rigger.clone(),
                planned: Some(row.issued),
                touched: row.issued,
                version: RULES,
            })?;
        }
        Ok(())
    });
    filled.expect("the home is filled");
    drop(store);
    let (app, clock) = open(&home, "desk").expect("the home opens");
    clock.to(60 * u64::from(held));
    let bare = Connection::open(folder.join("bare.db")).expect("a database");
    bare.execute_batch("CREATE TABLE rows (id INTEGER PRIMARY KEY, body BLOB)").expect("a table");
    for _ in 0..50 {
        bare.execute("INSERT INTO rows (body) VALUES (?1)", [[7u8; 200].as_slice()]).expect("a row");
    }
    let floor = || {
        let mut statement = bare.prepare_cached("SELECT id, body FROM rows LIMIT 50").expect("it prepares");
        let rows = statement.query_map([], |row| row.get::<_, Vec<u8>>(1)).expect("it asks");
        assert_eq!(rows.count(), 50);
    };
    let words = |words: &str| ListRequest { words: Some(words.into()), most: 50, ..ListRequest::default() };
    let all = || ListRequest { most: 50, ..ListRequest::default() };
    let mut lines = Vec::new();
    let (busy, idle) = pair_busy(40, || drop(app.board(7, 24).expect("a board")), floor);
    let (busy, idle) = (at(&busy, 0.95) / 1e3, at(&idle, 0.95) / 1e3);
    let name = format!("{held} records: the board, 7 days, processor, p95");
    lines.push(Line::new(name, "ms", busy, "50 bare rows", idle, None).within(BOARD));
    let mut line = |name: &str, rounds: usize, ours: &mut dyn FnMut()| {
        let (ours, floor) = pair(rounds, ours, floor);
        let name = format!("{held} records: {name}, p95");
        lines.push(Line::new(
            name,
            "ms",
            at(&ours, 0.95) / 1e3,
            "50 bare rows",
            at(&floor, 0.95) / 1e3,
            None,
        ));
    };
    line("the board, 7 days", 40, &mut || {
        let board = app.board(7, 24).expect("a board");
        // One a minute, and what was fit and held when the week began.
        let shown = board.columns.iter().map(|column| column.count).sum::<u64>();
        let week = (7 * 24 * 60).min(u64::from(held));
        assert!((week..=8 * 24 * 60 + 1).contains(&shown), "{shown}");
    });
    line("the board, ever", 20, &mut || drop(app.board(3_650, 24).expect("a board")));
    line("a page of records", 40, &mut || drop(app.list(&all()).expect("a page")));
    let ordered =
        |by, after: Option<String>| ListRequest { order: Some(Sorting { by, down: false }), after, ..all() };
    for (by, name) in
        [(RecordOrder::Load, "load"), (RecordOrder::Rigger, "rigger"), (RecordOrder::Place, "place")]
    {
        // Twenty pages on, most of them within one rigger and one place.
        let mut after = None;
        for _ in 0..20 {
            after = app.list(&ordered(by, after)).expect("a page").next;
        }
        line(&format!("records by {name}, a page further on"), 40, &mut || {
            drop(app.list(&ordered(by, after.clone())).expect("a page"));
        });
    }
    line("search, a load", 40, &mut || {
        assert_eq!(app.list(&words(&format!("KM-{:06}", held / 9 * 7))).expect("a page").lines.len(), 1)
    });
    line("search, two words in half of all", 40, &mut || {
        assert_eq!(app.list(&words("heron kestrel")).expect("a page").lines.len(), 50);
    });
    line("deficiencies, 30 days", 10, &mut || drop(app.deficiencies(Some(30)).expect("counts")));
    line("deficiencies, all", 10, &mut || drop(app.deficiencies(None).expect("counts")));
    line("people", 10, &mut || drop(app.people().expect("people")));
    line("equipment, first page", 20, &mut || drop(app.equipment("", 51).expect("equipment")));
    lines
}

/// A bundle of whole records, one in a hundred damaged, beside two signature checks a record and beside bare rows.
fn brought(folder: &std::path::Path) -> Vec<Line> {
    // The bundle is made in memory: of a million it would be four gigabytes.
    let brought = records().min(100_000);
    let many = Many::new(folder);
    let (app, clock) = open(&folder.join("second"), "second desk").expect("a home");
    clock.to(86_400);
    let (card, fingerprint) = many.card();
    app.trust(&card, &fingerprint).expect("trusted");
    let bundle = many.bundle(brought, |number, body| {
        if number % 100 == 57 {
            let at = body.len() * 2 / 3;
            body[at] ^= 1;
        }
    });
    let before = memory();
    let start = Instant::now();
    let report = app.bundle_read(&mut bundle.as_slice(), &mut |_| {}).expect("a report");
    let ours = start.elapsed().as_secs_f64() * 1e6 / f64::from(brought);
    let grown = memory() - before;
    assert_eq!((report.new, report.set_aside.len()), (brought / 100 * 99, brought as usize / 100));

    let key = ed25519_dalek::SigningKey::from_bytes(&[2; 32]);
    let signature = ed25519_dalek::Signer::sign(&key, &[7; 300]);
    let (mut checks, public) = (0, key.verifying_key());
    let start = Instant::now();
    for _ in 0..2_000 {
        checks += u32::from(std::hint::black_box(public.verify_strict(&[7; 300], &signature)).is_ok());
    }
    let verify = start.elapsed().as_secs_f64() * 1e6 / f64::from(checks);
    let mut conn = Connection::open(folder.join("rows.db")).expect("a database");
    conn.execute_batch("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE rows (id INTEGER PRIMARY KEY, body BLOB)")
        .expect("SQLite takes its settings");
    let body = vec![7u8; bundle.len() / brought as usize];
    let start = Instant::now();
    let tx = conn.transaction().expect("a transaction");
    for _ in 0..brought {
        tx.prepare_cached("INSERT INTO rows (body) VALUES (?1)")
            .and_then(|mut row| row.execute([&body]))
            .expect("a row");
    }
    tx.commit().expect("it commits");
    let insert = start.elapsed().as_secs_f64() * 1e6 / f64::from(brought);
    let size = bundle.len() as f64 / 1e6;
    drop(bundle);

    let mut account = std::io::sink();
    let start = Instant::now();
    let rows = app.export_csv(ExportTable::Records, &mut account).expect("an export");
    let export = start.elapsed().as_secs_f64() * 1e6 / rows as f64;
    vec![
        Line::new(
            format!("{brought} records brought in, each"),
            "us",
            ours,
            "two verify_strict",
            2.0 * verify,
            None,
        ),
        Line::new("the same", "us", ours, "one bare row of its size", insert, None),
        Line::new("memory grown by it", "MiB", grown, "MB of the bundle", size, None),
        Line::new("a record exported as CSV", "us", export, "one bare row of its size written", insert, None),
    ]
}
