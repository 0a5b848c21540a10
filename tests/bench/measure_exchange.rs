//! What the exchange costs: import, push and pull of signed records beside COPY of the same bytes and the signature checks alone,
//! measured in the same run.
//!
//! `cargo run --release -p slingseal-tests --bin measure_exchange [-- [RECORDS] [import]]`; 10,000 records unless said.
//! Needs Debian's postgresql; `import` measures the import alone, which does not.

#![expect(clippy::disallowed_methods, reason = "a measurement reads the clock")]

use std::process::Command;
use std::time::{Duration, Instant};

use slingseal_app::App;
use slingseal_tests::many::Many;
use slingseal_tests::scripted::open;

#[path = "../exchange/server.rs"]
#[allow(dead_code, reason = "the tests use all of it")]
mod server;

use server::Server;

fn timed<T>(act: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let answer = act();
    (start.elapsed(), answer)
}

/// Memory that this program ever held, in MiB.
fn peak() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM")).unwrap_or_default();
    line.split_whitespace().nth(1).and_then(|text| text.parse::<f64>().ok()).unwrap_or(0.0) / 1024.0
}

/// What all cores worked for this program, in user and system time, to a hundredth of a second: on a machine that is shared it says
/// more than the clock.
fn worked() -> Duration {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let fields = stat.rsplit(')').next().unwrap_or_default().split_whitespace().skip(11).take(2);
    Duration::from_millis(10 * fields.filter_map(|ticks| ticks.parse::<u64>().ok()).sum::<u64>())
}

/// What acting costs by the clock, and what the cores worked for it.
fn costs<T>(act: impl FnOnce() -> T) -> (Duration, Duration, T) {
    let before = worked();
    let (time, answer) = timed(act);
    (time, worked().saturating_sub(before), answer)
}

fn line(name: &str, records: u32, ours: Duration, floor: Option<Duration>, target: &str) {
    let each = |time: Duration| time.as_secs_f64() * 1e6 / f64::from(records);
    let floor = floor.map(each);
    let shown = floor.map_or(String::new(), |floor| format!("{floor:.1} us"));
    let ratio = floor.map_or(String::new(), |floor| format!("{:.2}", each(ours) / floor));
    println!("| {name} | {:.1} us | {shown} | {ratio} | {target} |", each(ours));
}

/// The least that keeping the same bytes costs: one row a record in a bare database, one transaction, on the disk behind it.
fn bare_rows(path: &std::path::Path, bundle: &[u8], records: u32) -> Duration {
    let conn = rusqlite::Connection::open(path).expect("a database opens");
    conn.execute_batch(
        "PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
         CREATE TABLE record (id INTEGER PRIMARY KEY, body BLOB); BEGIN",
    )
    .expect("a table is made");
    let (time, ()) = timed(|| {
        for body in bundle.chunks(bundle.len() / records as usize) {
            let mut insert =
                conn.prepare_cached("INSERT INTO record (body) VALUES (?1)").expect("it prepares");
            insert.execute([body]).expect("a row is written");
        }
        conn.execute_batch("COMMIT").expect("it is written");
    });
    time
}

fn home(folder: &std::path::Path, name: &'static str, many: &Many) -> App {
    let home = folder.join(name);
    std::fs::create_dir_all(&home).expect("a folder is made");
    let (app, _) = open(&home, name).expect("a home opens");
    let (card, fingerprint) = many.card();
    app.trust(&card, &fingerprint).expect("the authority is trusted");
    app
}

/// A program of psql's on the whole of the words, through a pipe.
fn copy(server: &Server, sql: &str) -> Duration {
    let done = timed(|| {
        Command::new("sh")
            .args(["-c", sql])
            .env("PGHOST", server.socket())
            .env("PGUSER", "keeper")
            .env("PGDATABASE", "slingseal")
            .output()
            .expect("psql runs")
    });
    assert!(done.1.status.success(), "{}", String::from_utf8_lossy(&done.1.stderr));
    done.0
}

fn main() {
    let records: u32 = std::env::args().skip(1).find_map(|word| word.parse().ok()).unwrap_or(10_000);
    let folder = tempfile::Builder::new().prefix("measure").tempdir().expect("a folder is made");
    let many = Many::new(folder.path());
    let bundle = many.bundle(records, |_, _| {});
    println!("| what, {records} records, each | ours | floor | ratio | target |\n|---|---:|---:|---:|---|");

    // Two signatures a record: the authority's on the credential, the inspector's on the seal.
    let key = ed25519_dalek::SigningKey::from_bytes(&[3; 32]);
    let (public, signature) = (key.verifying_key(), ed25519_dalek::Signer::sign(&key, &[7; 300]));
    let (checks, good) = timed(|| {
        let check = |_: &u32| std::hint::black_box(public.verify_strict(&[7; 300], &signature)).is_ok();
        (0..2 * records).filter(check).count()
    });
    assert_eq!(good, 2 * records as usize);
    let bare = bare_rows(&folder.path().join("bare.db"), &bundle, records);
    let first = home(folder.path(), "first", &many);
    let before = peak();
    let (import, import_worked, report) =
        costs(|| first.bundle_read(&mut bundle.as_slice(), &mut |_| {}).expect("it is read"));
    assert_eq!(report.new, records);
    line("import, beside its signature checks on one core", records, import, Some(checks), "");
    line("the same, work of all cores", records, import_worked, Some(checks), "");
    let cores = std::thread::available_parallelism().map_or(1, usize::from) as u32;
    let least = checks / cores + bare;
    line("import, beside its checks on all cores and a bare row", records, import, Some(least), "2");
    println!("| import, memory gained | {:.0} MiB | | | 100 |", peak() - before);

    if std::env::args().any(|word| word == "import") {
        return;
    }
    let server = Server::new();
    let (push, push_worked, pushed) =
        costs(|| server.connect().expect("it is up").push(&first, false, &mut |_| {}).expect("it is pushed"));
    assert!(pushed.words > u64::from(records));
    let out = copy(
        &server,
        "psql -X -q -c 'COPY slingseal.word TO STDOUT (FORMAT binary)' > /tmp/measure-exchange.copy",
    );
    server.sql("CREATE TABLE slingseal.bare (LIKE slingseal.word INCLUDING ALL)");
    let into = copy(
        &server,
        "psql -X -q -c 'COPY slingseal.bare FROM STDIN (FORMAT binary)' < /tmp/measure-exchange.copy",
    );
    let _ = std::fs::remove_file("/tmp/measure-exchange.copy");
    line("push, beside COPY in of the same bytes", records, push, Some(into), "1.5");
    line("the same, work of all cores on this side", records, push_worked, None, "");

    let second = home(folder.path(), "second", &many);
    let (pull, pull_worked, pulled) = costs(|| {
        server.connect().expect("it is up").pull(&second, false, &mut |_| {}).expect("it is pulled")
    });
    assert_eq!(pulled.report.new, records);
    line(
        "pull, beside COPY out and the signature checks on one core",
        records,
        pull,
        Some(out + checks),
        "1.5",
    );
    line("the same, work of all cores on this side", records, pull_worked, None, "");
    line("pull, beside the import of the same as a bundle", records, pull, Some(import), "");
    let (again, ()) = timed(|| {
        server.connect().expect("it is up").pull(&second, false, &mut |_| {}).expect("it is pulled");
    });
    println!("| a pull where nothing is new, whole | {:.1} ms | | | |", again.as_secs_f64() * 1e3);
    println!("| memory that was ever held | {:.0} MiB | | | |", peak());
}
