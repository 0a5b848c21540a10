//! The program against a verifier in another language, written from the specification alone and sharing nothing with it: every
//! frozen vector, and random histories that both judge.
//!
//! `HISTORIES=10000 cargo test -p slingseal-tests --test independent` draws that many.

#[allow(dead_code, reason = "the laws ask more of a word")]
#[path = "../laws/words.rs"]
mod words;

#[path = "../laws/gear.rs"]
mod gear;

use std::collections::BTreeMap;
use std::io::Write;
use std::process::{Command, Stdio};

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use serde_json::{Value, json};
use slingseal_judgement::{
    Evidence, InspectionWord, Judgement, LoadState, LoadWord, Memory, Reason, Standing, Verdict, judge_seal,
    judge_tag, standing_of_load,
};
use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::trust::{Authority, Roster, Trusted, TrustedAuthority};
use slingseal_words::{Digest, Name};

use gear::{Look, look};
use words::{Draft, SELA, Signed, TAG, at, draft, key, newest, roster, tag};

/// Histories in every run; more by the environment.
const HISTORIES: usize = 300;
/// Debian's: its cbor2, cryptography and ICU are what the other side stands on.
const PYTHON: &str = "/usr/bin/python3";

fn told(judgement: &Judgement) -> Value {
    let word = match judgement.verdict {
        Verdict::Go => "GO",
        Verdict::Wait => "WAIT",
        Verdict::NoGo => "NO-GO",
    };
    let codes: Vec<&str> = judgement.reasons.iter().map(Reason::code).collect();
    json!([word, codes])
}

/// One history with everything that the program says of it, as a line of JSON.
fn line(drafts: &[Draft], looks: &[Look], bits: u8, now: i64) -> String {
    let name = Name::new("Sela Relief").expect("a name");
    let (rosters, signed): (Vec<Signed>, Vec<Signed>) = drafts
        .iter()
        .map(|draft| draft.clone().under(bits).sign())
        .partition(|word| word.kind == Kind::RosterOfKeys);
    let roster = roster(newest(&rosters), bits);
    let roster_bytes = roster.sign(&key(SELA));
    let roster_kind = Roster::kind(&roster_bytes).expect("a roster");
    let card = Authority::sign(&name, at(-90_000), &key(SELA));
    let mut trusted = Trusted::default();
    trusted.add(TrustedAuthority { name, key: key(SELA).public(), roster: Some(roster) });
    let open = |kind, bytes: &[u8]| LoadWord::open(kind, bytes, &trusted).expect("a word");
    let held = |word: &Signed| {
        let opened = open(word.kind, &word.bytes);
        if word.own { opened.written_here() } else { opened }
    };
    let held: Vec<LoadWord> = signed.iter().map(held).collect();
    let own: Vec<String> =
        signed.iter().filter(|word| word.own).map(|word| Digest::of(&word.bytes).to_string()).collect();
    let held: Vec<&LoadWord> = held.iter().collect();
    let looks: Vec<Vec<u8>> = looks.iter().map(Look::sign).collect();
    let pieces: Vec<InspectionWord> =
        looks.iter().map(|bytes| InspectionWord::open(bytes, &trusted).expect("an inspection")).collect();
    let now = at(now);
    let evidence = Evidence {
        trusted: &trusted,
        now,
        latest_trusted: None,
        memory: Memory::Whole,
        words: &held,
        pieces: &pieces,
    };
    let scanned = open(TAG, &tag(false));
    let load = standing_of_load(scanned.load(), &evidence);
    let seals: BTreeMap<String, Value> = held
        .iter()
        .filter(|word| word.seal().is_some())
        .map(|word| {
            let beside = told(&judge_seal(Ok(word), Some(&scanned), &evidence));
            let alone = told(&judge_seal(Ok(word), None, &evidence));
            (word.digest().to_string(), json!({ "beside": beside, "alone": alone }))
        })
        .collect();
    let standings: BTreeMap<String, &str> =
        load.inspections().map(|(digest, standing)| (digest.to_string(), Standing::word(standing))).collect();
    let texts: Vec<String> = signed
        .iter()
        .map(|word| wrap(word.kind, &word.bytes))
        .chain(looks.iter().map(|bytes| wrap(Kind::Inspection, bytes)))
        .collect();
    json!({
        "card": wrap(Kind::Authority, &card),
        "roster": wrap(roster_kind, &roster_bytes),
        "words": texts,
        "own": own,
        "now": now.unix(),
        "tag": wrap(TAG, &tag(false)),
        "expect": {
            "tag": told(&judge_tag(&scanned, &evidence)),
            "seals": seals,
            "inspections": standings,
            "load": load.state().map(LoadState::word),
        },
    })
    .to_string()
}

fn histories(count: usize) -> String {
    let mut runner = TestRunner::deterministic();
    let drawn =
        (prop::collection::vec(draft(), 0..9), prop::collection::vec(look(), 0..5), 0u8..8, -300i64..3_000);
    let mut lines = String::new();
    for _ in 0..count {
        let (drafts, looks, bits, now) = drawn.new_tree(&mut runner).expect("a history").current();
        lines += &line(&drafts, &looks, bits, now);
        lines.push('\n');
    }
    lines
}

/// What the other side says, and whether it agrees; `broken` names a rule that it is to break.
fn other_side(lines: &str, broken: Option<&str>) -> (bool, String) {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/independent");
    let vectors = concat!(env!("CARGO_MANIFEST_DIR"), "/vectors/seal");
    let child = Command::new(PYTHON)
        .args(["-B", folder, vectors])
        .args(broken)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let mut child = child.expect("Debian's python3 runs; tests/all installs it");
    child.stdin.take().expect("it was piped").write_all(lines.as_bytes()).expect("it reads");
    let output = child.wait_with_output().expect("it ends");
    let error = String::from_utf8_lossy(&output.stderr);
    assert!(
        !error.contains("ModuleNotFoundError"),
        "install python3-cbor2 python3-cryptography python3-icu, as tests/all does: {error}"
    );
    let said = String::from_utf8_lossy(&output.stdout);
    (output.status.success(), format!("{said}{error}"))
}

#[test]
fn a_stranger_judges_alike() {
    let count = std::env::var("HISTORIES").ok().and_then(|text| text.parse().ok()).unwrap_or(HISTORIES);
    let (agrees, said) = other_side(&histories(count), None);
    assert!(agrees, "{said}");
    assert!(said.contains(&format!("{count} histories, 0 disagree")), "{said}");
    println!("{said}");
}

/// A comparison that cannot fail proves nothing.
#[test]
fn a_broken_rule_is_noticed() {
    let lines = histories(60);
    for broken in [
        "no slack",
        "voids are ignored",
        "revoked refusals vanish",
        "movements are ignored",
        "any list will do",
        "withdrawn pieces fly",
        "any list finds",
        "a stranger's look counts",
    ] {
        let (agrees, said) = other_side(&lines, Some(broken));
        assert!(!agrees && said.contains("disagree"), "{broken}: {said}");
    }
}
