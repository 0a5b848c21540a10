//! What the store costs, beside a bare SQLite doing the least that could be done, measured in the same run.
//!
//! `cargo run --release -p slingseal-tests --bin measure_store [-- [RECORDS] [--json]]`; 100,000 records unless said.

#![expect(clippy::disallowed_methods, reason = "a measurement reads the clock")]

use std::path::Path;
use std::time::{Duration, Instant};

use rusqlite::Connection;
use slingseal_journal::{NewEntry, WalkId};
use slingseal_store::{
    DeficiencyRow, EquipmentRow, NewRecord, Outcome, RecordFilter, RecordRow, Standing, Store, StoreError,
    WalkRow, WalkState,
};
use slingseal_tests::full_home::{at, open, record, walked};
use slingseal_words::Digest;

/// What a record's seal and its full record weigh: a typical seal, and a bag's walk of about a hundred points.
const SEAL: usize = 314;
const BODY: usize = 6_000;
const ANSWERS: usize = 2_000;

struct Line {
    name: String,
    ours: f64,
    floor: Option<f64>,
    unit: &'static str,
    target: &'static str,
}

#[derive(Default)]
struct Lines(Vec<Line>);

impl Lines {
    fn add(
        &mut self,
        name: impl Into<String>,
        ours: f64,
        floor: Option<f64>,
        unit: &'static str,
        target: &'static str,
    ) {
        let line = Line { name: name.into(), ours, floor, unit, target };
        eprintln!("{}: {:.1} {unit}", line.name, line.ours);
        self.0.push(line);
    }

    fn print(&self, json: bool) {
        if json {
            let lines: Vec<_> = self
                .0
                .iter()
                .map(|line| {
                    serde_json::json!({ "name": line.name, "ours": line.ours, "floor": line.floor, "unit": line.unit,
                        "ratio": line.floor.map(|floor| line.ours / floor), "target": line.target })
                })
                .collect();
            println!("{}", serde_json::Value::from(lines));
            return;
        }
        println!("| what | ours | floor | ratio | target |\n|---|---:|---:|---:|---|");
        for line in &self.0 {
            let floor = line.floor.map_or("".into(), |floor| format!("{floor:.1} {}", line.unit));
            let ratio = line.floor.map_or("".into(), |floor| format!("{:.2}", line.ours / floor));
            println!(
                "| {} | {:.1} {} | {floor} | {ratio} | {} |",
                line.name, line.ours, line.unit, line.target
            );
        }
    }
}

/// The middle and the 99th of a hundred, in microseconds.
fn spread(mut times: Vec<Duration>) -> (f64, f64) {
    times.sort();
    let pick = |share: f64| times[((times.len() - 1) as f64 * share) as usize].as_secs_f64() * 1e6;
    (pick(0.5), pick(0.99))
}

fn timed<T>(act: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let answer = act();
    (start.elapsed(), answer)
}

fn answer(store: &mut Store, number: u64) -> Result<(), StoreError> {
    let walk = WalkId((number / 100).to_be_bytes().repeat(2).try_into().expect("twice eight bytes"));
    let row = WalkRow {
        id: walk,
        load: "KM-014".into(),
        procedure: "bag".into(),
        inspector: "Anvil 3".into(),
        state: WalkState::Open,
        begun: at(0),
        updated: at(number as i64),
    };
    store.write(|tx| {
        tx.append(NewEntry { kind: "event", walk: Some(walk), body: &[5; 60], time: at(number as i64) })?;
        tx.put_walk(&row)
    })
}

fn bare(path: &Path) -> Connection {
    let conn = Connection::open(path).expect("a database opens");
    conn.execute_batch(
        "PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;",
    )
    .expect("SQLite takes its settings");
    conn
}

/// One answered card against one row in a bare database, taking turns so that both see the same disk.
fn answers(lines: &mut Lines, store: &mut Store, folder: &Path, what: &str) {
    let conn = bare(&folder.join(format!("bare-{}.db", what.replace(' ', "-"))));
    conn.execute_batch("CREATE TABLE entry (seq INTEGER PRIMARY KEY, body BLOB)").expect("a table is made");
    let (mut ours, mut floor) = (Vec::new(), Vec::new());
    for number in 0..ANSWERS {
        ours.push(timed(|| answer(store, number as u64).expect("an answer is written")).0);
        let mut insert = conn.prepare_cached("INSERT INTO entry (body) VALUES (?1)").expect("it prepares");
        floor.push(timed(|| insert.execute([[5u8; 160]]).expect("a row is written")).0);
    }
    let ((ours_half, ours_most), (half, most)) = (spread(ours), spread(floor));
    lines.add(format!("one answered card, {what}, p50"), ours_half, Some(half), "us", "1.5");
    lines.add(format!("one answered card, {what}, p99"), ours_most, Some(most), "us", "1.5");
}

fn new_row(number: u32) -> (RecordRow, [DeficiencyRow; 1], [EquipmentRow; 2]) {
    let row = RecordRow {
        load: format!("KM-{number:06}"),
        inspector: format!("Anvil {}", number % 40),
        rigger: format!("Mason {}", number % 60),
        ..record(number)
    };
    let deficiency = DeficiencyRow {
        procedure: row.procedure.clone(),
        point: format!("side-{}.lateral-{}.twist", number % 4 + 1, number % 3 + 1),
        name: ["twisted", "loose", "cut"][number as usize % 3].into(),
        rigger: row.rigger.clone(),
        corrected: true,
    };
    let piece = |kind: &str, serial: u32| EquipmentRow { serial: format!("{serial:05}"), kind: kind.into() };
    (row, [deficiency], [piece("chain leg", number % 900), piece("bag", 5_000 + number % 2_000)])
}

/// Memory that this program holds, in MiB.
fn memory() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmRSS")).unwrap_or_default();
    line.split_whitespace().nth(1).and_then(|text| text.parse::<f64>().ok()).unwrap_or(0.0) / 1024.0
}

fn import(lines: &mut Lines, store: &mut Store, folder: &Path, records: u32) {
    let mut body = vec![4u8; BODY];
    let before = memory();
    let (ours, ()) = timed(|| {
        store
            .write(|tx| {
                for number in 0..records {
                    let (mut row, deficiencies, equipment) = new_row(number);
                    let mut seal = [3; SEAL];
                    // Each is its own: equal bytes would be kept once.
                    seal.iter_mut().zip(number.to_be_bytes()).for_each(|(to, from)| *to = from);
                    body.iter_mut().zip(number.to_be_bytes()).for_each(|(to, from)| *to = from);
                    (row.seal, row.digest) = (Digest::of(&seal), Digest::of(&body));
                    tx.put_record(&NewRecord {
                        row: &row,
                        seal: &seal,
                        body: Some(&body),
                        deficiencies: &deficiencies,
                        equipment: &equipment,
                        facts: Some(&walked(number, row.seal)),
                        words: "drinking water",
                    })?;
                }
                Ok::<(), StoreError>(())
            })
            .expect("the import is written");
    });
    let grown = memory() - before;
    let conn = bare(&folder.join("bare-import.db"));
    conn.execute_batch("CREATE TABLE record (id INTEGER PRIMARY KEY, seal BLOB, body BLOB); BEGIN")
        .expect("a table is made");
    let (floor, ()) = timed(|| {
        for _ in 0..records {
            let mut insert =
                conn.prepare_cached("INSERT INTO record (seal, body) VALUES (?1, ?2)").expect("it prepares");
            insert.execute(([3u8; SEAL], &body)).expect("a row is written");
        }
        conn.execute_batch("COMMIT").expect("it is written");
    });
    let each = |time: Duration| time.as_secs_f64() * 1e6 / f64::from(records);
    lines.add(format!("import, {records} records in one go, each"), each(ours), Some(each(floor)), "us", "");
    lines.add("import, memory gained", grown, None, "MiB", "flat");
}

fn questions(lines: &mut Lines, store: &Store, records: u32) {
    let all = RecordFilter::default;
    let words = |words: &str| RecordFilter { words: Some(words.into()), ..all() };
    let last = format!("km-{:06}", records - 1);
    let filters = [
        ("first page", all()),
        ("page of the current", RecordFilter { standing: Some(Standing::Fit), ..all() }),
        ("page of an inspector", RecordFilter { inspector: Some("Anvil 7".into()), ..all() }),
        (
            "page of a rigger, not fit",
            RecordFilter { rigger: Some("Mason 7".into()), outcome: Some(Outcome::NotFit), ..all() },
        ),
        ("page of a serial number", RecordFilter { serial: Some("00123".into()), ..all() }),
        ("page of what never is", RecordFilter { place: Some("Nowhere".into()), ..all() }),
        ("search of one word in all", words("drinking")),
        ("search of a beginning in all", words("k")),
        ("search of a load", words(&last)),
        ("search of half a load's number", words("km-0012")),
        ("search of two words", words("anvil twisted")),
        ("search of three rare words", words("anvil 7 mason 47 05123")),
        ("search of what never is together", words("heron drover")),
    ];
    for (name, filter) in filters {
        let times =
            (0..20).map(|_| timed(|| store.read().records(&filter, None, 50).expect("a page is read")).0);
        let (half, _) = spread(times.collect());
        let target = if name.starts_with("search") { "50 ms" } else { "100 ms" };
        lines.add(name, half / 1e3, None, "ms", target);
    }
    let ms = |time: Duration| time.as_secs_f64() * 1e3;
    let middle = store.read().records(&all(), None, 1).expect("a page is read").next;
    lines.add("a later page", ms(timed(|| store.read().records(&all(), middle, 50)).0), None, "ms", "100 ms");
    lines.add("deficiencies counted", ms(timed(|| store.read().deficiency_counts()).0), None, "ms", "");
    lines.add("inspections counted", ms(timed(|| store.read().inspection_counts()).0), None, "ms", "");
    lines.add("equipment, a page", ms(timed(|| store.read().equipment_uses("00100", 50)).0), None, "ms", "");
    lines.add("all digests", ms(timed(|| store.read().record_digests()).0), None, "ms", "");
    let load = store.read().record_digests().expect("digests")[7];
    lines.add("a record's bytes", ms(timed(|| store.read().record_bytes(load)).0), None, "ms", "");
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let records: u32 = words.iter().find_map(|word| word.parse().ok()).unwrap_or(100_000);
    let folder = tempfile::Builder::new().prefix("measure").tempdir().expect("a folder is made");
    let mut lines = Lines::default();
    let small = folder.path().join("small");
    let (mut store, _) = open(&small, 1).expect("a home opens");
    answers(&mut lines, &mut store, folder.path(), "10 records");
    drop(store);
    let large = folder.path().join("large");
    let (mut store, _) = open(&large, 1).expect("a home opens");
    import(&mut lines, &mut store, folder.path(), records);
    answers(&mut lines, &mut store, folder.path(), &format!("{records} records"));
    questions(&mut lines, &store, records);
    store.settle().expect("the log is brought in");
    drop(store);
    let size = std::fs::metadata(large.join("home.db")).expect("the home is there").len();
    lines.add(
        "the home on the disk, a record",
        size as f64 / f64::from(records),
        Some((SEAL + BODY) as f64),
        "bytes",
        "",
    );
    let ms = |time: Duration| time.as_secs_f64() * 1e3;
    let before = memory();
    let (time, opened) = timed(|| open(&large, 1));
    lines.add(format!("open {records} records"), ms(time), None, "ms", "");
    lines.add(format!("open {records} records, memory gained"), memory() - before, None, "MiB", "");
    let store = opened.expect("the home opens").0;
    let (time, faults) = timed(|| store.read().check());
    assert!(faults.is_ok_and(|faults| faults.is_empty()), "the home is sound");
    lines.add(format!("check of everything, {records} records"), ms(time), None, "ms", "");
    drop(store);
    let conn = Connection::open(large.join("home.db")).expect("the home opens");
    for pragma in ["quick_check", "integrity_check"] {
        let (time, _) =
            timed(|| conn.query_row(&format!("PRAGMA {pragma}"), [], |row| row.get::<_, String>(0)));
        lines.add(format!("{pragma} by itself"), ms(time), None, "ms", "");
    }
    lines.print(words.iter().any(|word| word == "--json"));
}
