//! The module under Node answers as the native build does, to the byte of its JSON: every frozen vector, and random histories; and
//! what a verdict costs beside the native one.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::disallowed_methods,
    reason = "a test fails by panicking, and measures"
)]

#[allow(dead_code, reason = "each test asks for a part of it")]
#[path = "support/cast.rs"]
mod cast;
#[allow(dead_code, reason = "each test asks for a part of it")]
mod support;
#[allow(dead_code, reason = "the laws ask more of a word")]
#[path = "../../../tests/laws/words.rs"]
mod words;

#[path = "../../../tests/laws/gear.rs"]
mod gear;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;

use gear::{Look, look};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use serde_json::{Value, json};
use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::trust::{Authority, Roster};
use slingseal_web::Surface;
use slingseal_words::Name;
use support::{calls, native, read};
use words::{Draft, SELA, Signed, TAG, at, draft, key, newest, roster, tag};

/// Histories in every run; more by the environment.
const HISTORIES: usize = 1_000;

fn built() -> PathBuf {
    let module = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/web/slingseal.wasm");
    assert!(module.exists(), "{} is not there; run bindings/web/build", module.display());
    module
}

/// One history: what is held, and every seal of it judged beside the tag, alone, and the tag alone.
fn history(drafts: &[Draft], looks: &[Look], bits: u8, now: i64) -> Vec<Value> {
    let name = Name::new("Sela Relief").expect("a name");
    let (rosters, signed): (Vec<Signed>, Vec<Signed>) = drafts
        .iter()
        .map(|draft| draft.clone().under(bits).sign())
        .partition(|word| word.kind == Kind::RosterOfKeys);
    let roster = roster(newest(&rosters), bits).sign(&key(SELA));
    let card = wrap(Kind::Authority, &Authority::sign(&name, at(-90_000), &key(SELA)));
    let roster = wrap(Roster::kind(&roster).expect("a roster"), &roster);
    let held: Vec<(Kind, String)> =
        signed.iter().map(|word| (word.kind, wrap(word.kind, &word.bytes))).collect();
    let now = at(now).unix();
    let looks: Vec<String> = looks.iter().map(|look| wrap(Kind::Inspection, &look.sign())).collect();
    let texts: Vec<&String> = held.iter().map(|(_, text)| text).chain(&looks).collect();
    let device = json!({
        "call": "device", "authorities": [{ "card": card, "rosters": [roster] }], "holds": texts, "now": now,
    });
    let scanned = wrap(TAG, &tag(false));
    let judge = |shown: &[&String]| json!({ "call": "judge", "shown": shown, "now": now, "language": "es" });
    // What is judged is held already, so that one device answers all.
    let mut calls = vec![device, judge(&[&scanned])];
    for (_, seal) in held.iter().filter(|(kind, _)| *kind == Kind::Seal) {
        calls.push(judge(&[seal, &scanned]));
        calls.push(judge(&[seal]));
    }
    calls
}

/// Every frozen page: begun, and what it is shown judged.
fn pages() -> Vec<Vec<Value>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors/page");
    let entries = std::fs::read_dir(folder).expect("the pages are there");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    files.retain(|file| file.extension().is_some_and(|extension| extension == "toml"));
    files.sort();
    let read = |file: &PathBuf| {
        let text = std::fs::read_to_string(file).expect("a vector is text");
        let page: toml::Table = toml::from_str(&text).expect("a table");
        let now = page["at"].as_str().and_then(|at| slingseal_words::Time::parse(at).ok()).expect("a time");
        vec![
            json!({ "call": "known", "language": "es" }),
            json!({ "begin": page["page"] }),
            json!({ "call": "judge", "shown": page["shown"], "now": now.unix(), "language": "es" }),
        ]
    };
    let pages: Vec<Vec<Value>> = files.iter().map(read).collect();
    assert!(pages.len() >= 12, "{} pages were found", pages.len());
    pages
}

fn questions() -> Vec<Vec<Value>> {
    let vectors = ["valid", "approved", "invalid"].into_iter().flat_map(read);
    let mut all: Vec<Vec<Value>> = vectors.map(|(_, vector)| calls(&vector).to_vec()).collect();
    all.extend(pages());
    let count = std::env::var("HISTORIES").ok().and_then(|text| text.parse().ok()).unwrap_or(HISTORIES);
    let mut runner = TestRunner::deterministic();
    let drawn =
        (prop::collection::vec(draft(), 0..9), prop::collection::vec(look(), 0..5), 0u8..8, -300i64..3_000);
    for _ in 0..count {
        let (drafts, looks, bits, now) = drawn.new_tree(&mut runner).expect("a history").current();
        all.push(history(&drafts, &looks, bits, now));
    }
    all
}

/// What Node answers: a line a question, and at the end the seconds that it took.
fn node(module: &Path, questions: &[Vec<Value>]) -> (Vec<Value>, f64) {
    let driver = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/module.mjs");
    let mut child = Command::new("node")
        .arg(driver)
        .arg(module)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("node runs; tests/all installs it");
    let lines: String = questions.iter().map(|calls| json!(calls).to_string() + "\n").collect();
    let mut input = child.stdin.take().expect("it was piped");
    let writer = std::thread::spawn(move || input.write_all(lines.as_bytes()).expect("it reads"));
    let output = child.wait_with_output().expect("it ends");
    writer.join().expect("it was written");
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).expect("JSON is text");
    let mut answers: Vec<Value> =
        text.lines().map(|line| serde_json::from_str(line).expect("an answer is JSON")).collect();
    let took = answers.pop().and_then(|last| last["seconds"].as_f64()).expect("the last line is the time");
    (answers, took)
}

#[test]
fn the_module_answers_as_the_native_build() {
    let questions = questions();
    let (answers, module) = node(&built(), &questions);
    assert_eq!(answers.len(), questions.len());
    let from = Instant::now();
    let native: Vec<Value> =
        questions.iter().map(|calls| json!(native(&mut Surface::default(), calls))).collect();
    let took = from.elapsed().as_secs_f64();
    let wrong: Vec<String> = answers
        .iter()
        .zip(&native)
        .enumerate()
        .filter(|(_, (module, native))| module != native)
        .map(|(at, (module, native))| format!("{at}: {module}\n   native: {native}"))
        .collect();
    assert!(
        wrong.is_empty(),
        "{} of {}:\n{}",
        wrong.len(),
        questions.len(),
        wrong[..wrong.len().min(3)].join("\n")
    );
    let verdicts: usize = questions.iter().map(|calls| calls.len() - 1).sum();
    let each = |seconds: f64| 1e6 * seconds / verdicts as f64;
    println!(
        "RESULT a verdict: module {:.0} us, native {:.0} us, ratio {:.1}, {verdicts} verdicts on {} devices, all answers alike",
        each(module),
        each(took),
        module / took,
        questions.len()
    );
}

/// The example of the surface's description, on the demo's pictures: its words and its exit codes.
#[test]
fn the_example_for_node_says_what_the_program_says() {
    let folder = std::env::var("DEMO").expect("DEMO names the demo's folder; run tests/web/run");
    let demo = |name: &str| Path::new(&folder).join(name);
    for (seal, code, word, reason) in [
        ("seal-km-014.png", 0, "GO ", None),
        ("forged.png", 11, "NO-GO ", Some("bad_signature")),
        ("stranger.png", 11, "NO-GO ", Some("unknown_authority")),
    ] {
        let output = Command::new("node")
            .arg(concat!(env!("CARGO_MANIFEST_DIR"), "/example.mjs"))
            .args([built(), demo("authority.txt"), demo("roster.txt"), demo(seal), demo("tag-km-014.png")])
            .output()
            .expect("node runs");
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        assert_eq!(
            output.status.code(),
            Some(code),
            "{seal}: {said}{}",
            String::from_utf8_lossy(&output.stderr)
        );
        assert!(said.starts_with(word), "{seal}: {said}");
        assert!(reason.is_none_or(|reason| said.contains(reason)), "{seal}: {said}");
    }
}
