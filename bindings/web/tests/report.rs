//! Reports of what became of a load, natively: as the specification has them, chained, and worth what an unsigned one is worth.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    clippy::disallowed_methods,
    reason = "a test fails by panicking"
)]

#[allow(dead_code, reason = "each test asks for a part of it")]
#[path = "support/cast.rs"]
mod cast;

use cast::{Cast, at};
use serde_json::{Value, json};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::movement::{MovementEvent, ReceivedMovement, RefusalCause, ShownVerdict};
use slingseal_web::Surface;
use slingseal_words::Digest;

const DEVICE: &str = "000102030405060708090a0b0c0d0e0f";

fn call(surface: &mut Surface, call: &Value) -> Value {
    serde_json::from_str(&surface.call(call.to_string().as_bytes())).expect("JSON")
}

fn judged(surface: &mut Surface, cast: &Cast) -> Value {
    let shown = [cast.seal(at(-600), true), cast.tag()];
    call(surface, &json!({ "call": "judge", "shown": shown, "now": at(0).unix() }))["ok"].clone()
}

fn report(surface: &mut Surface, seconds: i64, more: &Value) -> Value {
    let mut asked =
        json!({ "call": "report", "load": "KM-014", "device": DEVICE, "now": at(seconds).unix() });
    for (name, value) in more.as_object().expect("an object") {
        asked[name] = value.clone();
    }
    call(surface, &asked)
}

#[test]
fn a_report_is_what_the_specification_says() {
    let cast = Cast::new();
    let mut surface = Surface::default();
    surface.begin(&cast.page(at(-7_200), 24, &[]));
    assert!(
        report(&mut surface, 0, &json!({ "event": "lifted" }))["error"].is_string(),
        "nothing was judged"
    );
    assert_eq!(judged(&mut surface, &cast)["word"], "GO");
    let said = [
        (json!({ "event": "refused", "cause": "rigging" }), MovementEvent::Refused(RefusalCause::Rigging)),
        (json!({ "event": "lifted" }), MovementEvent::Lifted),
    ];
    let mut before = None;
    for (seconds, (asked, event)) in said.iter().enumerate() {
        let seconds = i64::try_from(seconds).expect("a few");
        let made = report(&mut surface, seconds, asked)["ok"].clone();
        let (kind, bytes) = unwrap(made["text"].as_str().expect("a text")).expect("a message");
        let received = ReceivedMovement::open(&bytes).expect("a report");
        assert!(kind == Kind::Movement && received.message.is_none(), "nobody signs it");
        let movement = &received.movement;
        assert_eq!((movement.event, movement.issued, movement.happened), (*event, at(seconds), None));
        // The specification's words: no entry yet, and the digest that the first one would name.
        let empty = [b"slingseal journal of device 1".as_slice(), &movement.device].concat();
        assert_eq!((movement.journal.seq, movement.journal.digest), (0, Digest::of(&empty)));
        assert_eq!(movement.before, before);
        let (_, seal) = unwrap(&cast.seal(at(-600), true)).expect("a seal");
        assert_eq!(movement.seal, Some(Digest::of(&seal)));
        assert_eq!(movement.shown.as_ref().map(|shown| shown.verdict), Some(ShownVerdict::Go));
        assert!(made["svg"].as_str().is_some_and(|svg| svg.starts_with("<svg") && svg.ends_with("</svg>")));
        before = Some(received.digest);
    }
    // To whoever wrote it, it counts.
    assert_eq!(judged(&mut surface, &cast)["word"], "NO-GO");
}

/// A stranger's unsigned report decides nothing; one that this user wrote earlier does.
#[test]
fn only_an_own_report_counts() {
    let cast = Cast::new();
    for (own, word) in [(false, "GO"), (true, "NO-GO")] {
        let mut surface = Surface::default();
        surface.begin(&cast.page(at(-7_200), 24, &[]));
        let asked =
            json!({ "call": "open", "text": cast.movement(at(-30)), "own": own, "now": at(0).unix() });
        assert_eq!(call(&mut surface, &asked)["ok"]["kind"], "movement");
        assert_eq!(judged(&mut surface, &cast)["word"], word);
    }
}

#[test]
fn what_is_no_report_is_told_in_one_line() {
    let cast = Cast::new();
    let mut surface = Surface::default();
    surface.begin(&cast.page(at(-7_200), 24, &[]));
    judged(&mut surface, &cast);
    for more in [
        json!({ "event": "refused" }),
        json!({ "event": "lifted", "cause": "rigging" }),
        json!({ "event": "flown" }),
        json!({ "event": "returned" }),
        json!({ "event": "refused", "cause": "other" }),
        json!({ "event": "refused", "cause": "other", "note": "  " }),
        json!({ "event": "refused", "cause": "bored" }),
        json!({ "event": "lifted", "load": "KM-015" }),
        json!({ "event": "lifted", "load": "" }),
        json!({ "event": "lifted", "device": "0x0102030405060708090a0b0c0d0e0f00" }),
        json!({ "event": "lifted", "device": "+00102030405060708090a0b0c0d0e0f" }),
        json!({ "event": "lifted", "note": "x".repeat(281) }),
    ] {
        let answer = report(&mut surface, 0, &more);
        assert!(
            answer["error"].as_str().is_some_and(|line| !line.is_empty() && !line.contains('\n')),
            "{more}: {answer}"
        );
    }
    // None of them was kept.
    assert_eq!(judged(&mut surface, &cast)["word"], "GO");
}

/// Gear that was scanned: what it is, who says so, until when; withdrawn, it stands in the way of a tag that names it.
#[test]
fn gear_is_told_in_both_languages() {
    let cast = Cast::new();
    let mut surface = Surface::default();
    surface.begin(&cast.page(at(-7_200), 24, &[]));
    let mut open = |text: String, language: &str| {
        call(
            &mut surface,
            &json!({ "call": "open", "text": text, "now": at(0).unix(), "language": language }),
        )["ok"]
            .clone()
    };
    let fit = open(cast.piece("SL-1", at(-60), None), "en");
    assert_eq!(
        (&fit["subject"], &fit["fit"], &fit["by"]),
        (&json!("piece"), &json!(true), &json!("Anvil 3"))
    );
    assert_eq!(fit["fit_until"]["unix"], at(-60 + 86_400).unix());
    assert!(
        fit["text"].as_str().is_some_and(|text| text.starts_with("Piece of gear SL-1: FIT until")),
        "{fit}"
    );
    let torn = open(cast.piece("SL-2", at(-60), Some("cut")), "es");
    assert_eq!(
        (&torn["fit"], &torn["why"], &torn["fit_until"]),
        (&json!(false), &json!("cut"), &Value::Null)
    );
    assert!(torn["text"].as_str().is_some_and(|text| text.contains("RETIRADO: cut")), "{torn}");
}
