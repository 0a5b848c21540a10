//! Many desks at once, each the real program on a home of its own, and one server; all of them are killed again and again. When
//! the dust has settled and each has pushed and pulled once more, everybody has the same account, nothing is lost, nothing lies
//! anywhere twice. Whatever the moments of the kills were: nothing here waits for one.
//!
//! `DESKS`, `ITEMS` of each desk, `KILLS` of each act of each desk, `SERVER_KILLS`, `SEED`, `PROGRAM`: without them a small day, so
//! that the tests stay quick. `tests/desks` plays a large one and keeps what it saw (`RESULTS`).

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test fails by panicking"
)]

mod desk;
mod lots;
#[path = "../../../../tests/support/many.rs"]
#[allow(dead_code, reason = "the measurements use all of it")]
mod many;
#[path = "../../../../tests/support/scripted.rs"]
#[allow(dead_code, reason = "the journeys use all of it")]
mod scripted;
#[path = "../../../../tests/exchange/server.rs"]
#[allow(dead_code, reason = "the exchange's tests use all of it")]
mod server;

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use serde_json::Value;

use desk::{Chance, Desk, Figures};
use lots::Everything;
use many::Many;
use server::Server;

fn asked(name: &str, usual: u32) -> u32 {
    std::env::var(name).map_or(usual, |text| text.parse().unwrap_or_else(|_| panic!("{name} is no number")))
}

/// Kills the server so often, the two ways by turns, and starts it again.
fn kill_server(server: &Server, kills: u32, gap: f64, outages: &AtomicU32, chance: &mut Chance) {
    for kill in 0..kills {
        std::thread::sleep(Duration::from_secs_f64(0.3 + gap * chance.draw()));
        outages.fetch_add(1, Ordering::SeqCst);
        if kill % 2 == 0 {
            server.kill()
        } else {
            server.kill_nine()
        }
        std::thread::sleep(Duration::from_secs_f64(0.2 * chance.draw()));
        server.start_again();
        outages.fetch_add(1, Ordering::SeqCst);
    }
}

#[test]
#[expect(clippy::disallowed_methods, reason = "the result says how long it took")]
fn desks_and_server_are_killed_and_everybody_has_the_same_account() {
    let (desks, items) = (asked("DESKS", 10).max(2), asked("ITEMS", 40));
    let (kills, server_kills, seed) = (asked("KILLS", 1), asked("SERVER_KILLS", 3), asked("SEED", 1));
    let program =
        std::env::var_os("PROGRAM").map_or_else(|| env!("CARGO_BIN_EXE_slingseal").into(), PathBuf::from);

    let folder = tempfile::tempdir().unwrap();
    let many = Many::new(folder.path()).of_own_devices();
    let loads = lots::loads(items);
    let mut all = Everything::default();
    let lots: Vec<Vec<PathBuf>> =
        (0..desks).map(|desk| lots::write(&many, folder.path(), desk, desks, loads, &mut all)).collect();
    assert_eq!(all.records.len() as u32, desks * loads);

    let server = Server::new();
    let address = format!("host={} user=lantern dbname=slingseal", server.socket().display());
    let (outages, server_done) = (AtomicU32::new(0), AtomicU32::new(0));
    let (card, fingerprint) = many.card();
    let desk = |name: &str, seed: u64| {
        let desk = Desk::new(folder.path().join(name), &program, &address, &outages, seed);
        desk.say(&["authority", "trust", &card, "--fingerprint", &fingerprint]);
        desk
    };
    let mut each: Vec<Desk<'_>> = (0..desks)
        .map(|number| desk(&format!("home-{number}"), u64::from(seed) << 32 | u64::from(number)))
        .collect();

    let begun = Instant::now();
    std::thread::scope(|scope| {
        for (desk, lots) in each.iter_mut().zip(&lots) {
            let done = &server_done;
            scope.spawn(move || desk.work(lots, [kills, 2 * kills, 2 * kills], done));
        }
        let mut chance = Chance(!u64::from(seed));
        kill_server(&server, server_kills, f64::from(items) / 200.0, &outages, &mut chance);
        server_done.store(1, Ordering::SeqCst);
    });
    let worked = begun.elapsed();
    let left: Vec<u64> = each.iter().map(|desk| desk.push()["pushed"]["words"].as_u64().unwrap()).collect();
    let came: Vec<u64> = each.iter().map(|desk| desk.pull()["pulled"]["new"].as_u64().unwrap()).collect();

    // By hand it comes to the same: a home that never saw the server.
    let by_hand = desk("by hand", 0);
    for lot in lots.iter().flatten() {
        by_hand.say(&["bundle", "read", lot.to_str().unwrap()]);
    }
    by_hand.say(&["records", "verify"]);
    let (have, export) = (by_hand.say(&["--json", "bundle", "have"]), exported(&by_hand, &all));
    for desk in &each {
        assert_eq!(desk.say(&["--json", "bundle", "have"]), have, "{:?}", desk.home);
        assert!(
            exported(desk, &all) == export,
            "{:?}: another account, or another judgement of it",
            desk.home
        );
        desk.say(&["records", "verify"]);
        // Nothing goes on moving.
        let (pushed, pulled) = (desk.push(), desk.pull());
        assert_eq!((&pushed["pushed"]["words"], &pulled["pulled"]["new"]), (&0.into(), &0.into()));
    }
    let there = at_the_server(&server, &all);

    let mut total = Figures::default();
    for figures in each.iter().map(|desk| desk.figures) {
        (0..3).for_each(|act| total.killed[act] += figures.killed[act]);
        total.away += figures.away;
        total.done += figures.done;
    }
    let wanted = desks * kills;
    assert!(total.killed[0] >= wanted && total.killed[1] >= 2 * wanted && total.killed[2] >= 2 * wanted);
    let mut table = String::new();
    let mut line = |what: &str, figure: String| writeln!(table, "| {what} | {figure} |").unwrap();
    line("desks, items that each of them brought in", format!("{desks}, {}", lots::loads(items) * 26 / 10));
    line("words at the server, of which records", format!("{there}, {}", all.records.len()));
    line("SIGKILL in the middle of bringing in, of a push, of a pull", {
        let [read, push, pull] = total.killed;
        format!("{read}, {push}, {pull}")
    });
    line("kills of the server, at once or with -9", server_kills.to_string());
    line("verbs that ended with one line since the server was away", total.away.to_string());
    line("verbs that came to their end", total.done.to_string());
    line(
        "words that the last push of all desks together still put there",
        left.iter().sum::<u64>().to_string(),
    );
    line(
        "words that the last pull of all desks together still brought",
        came.iter().sum::<u64>().to_string(),
    );
    line("from the first verb until all desks were done", format!("{:.0} s", worked.as_secs_f64()));
    line("homes whose account, judgements and chains are those of the home by hand", each.len().to_string());
    println!("{table}");
    if let Some(file) = std::env::var_os("RESULTS") {
        std::fs::write(file, table).unwrap();
    }
}

/// The account as it is handed out, with what each record is worth: it holds every record that was made, each once.
fn exported(desk: &Desk<'_>, all: &Everything) -> Vec<u8> {
    let file = desk.home.join("export.json");
    desk.say(&["records", "export", file.to_str().unwrap()]);
    let bytes = std::fs::read(&file).unwrap();
    std::fs::remove_file(&file).unwrap();
    let told: Value = serde_json::from_slice(&bytes).unwrap();
    let records: Vec<String> = told["records"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["record"].as_str().unwrap().to_owned())
        .collect();
    assert_eq!(records.len(), all.records.len(), "{:?}", desk.home);
    assert!(records.into_iter().collect::<BTreeSet<_>>() == all.records, "{:?}", desk.home);
    bytes
}

/// Every word lies at the server, once, under numbers without a gap; and nothing that nobody made but the ends of journals.
fn at_the_server(server: &Server, all: &Everything) -> u64 {
    let keys = server.sql("SELECT encode(key, 'hex') FROM slingseal.word WHERE kind <> 6");
    let lines: Vec<&str> = keys.lines().collect();
    let there: BTreeSet<String> = lines.iter().map(|line| (*line).to_owned()).collect();
    assert_eq!(lines.len(), there.len(), "a word lies there twice");
    let lost = all.keys.difference(&there).count();
    assert_eq!(lost, 0, "words that are not at the server");
    // The card, and the credentials that come with what they sign.
    let more = there.difference(&all.keys).count();
    assert!(more <= 4, "{more} words that nobody made");
    let gaps = "SELECT count(*) FROM (SELECT max(number) - count(*) AS gap FROM slingseal.word GROUP BY source) AS each WHERE gap > 0";
    assert_eq!(server.number(gaps), 0, "a number was left out");
    lines.len() as u64
}
