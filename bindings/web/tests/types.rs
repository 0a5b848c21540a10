//! `slingseal.d.ts` against what is really answered: no key that it does not name, no method of the wrapper that it leaves out.

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

use std::collections::BTreeSet;

use cast::{Cast, at};
use serde_json::{Value, json};
use slingseal_web::Surface;

const TYPES: &str = include_str!("../slingseal.d.ts");
const WRAPPER: &str = include_str!("../page/slingseal.js");

/// What stands before a colon: `name:`, `name?:`.
fn named() -> BTreeSet<&'static str> {
    let word = |text: &'static str| {
        let text = text.strip_suffix('?').unwrap_or(text);
        text.rsplit(|letter: char| !letter.is_alphanumeric() && letter != '_').next().unwrap_or_default()
    };
    TYPES.split(':').map(word).filter(|name| !name.is_empty()).collect()
}

fn keys(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(pairs) => pairs.iter().for_each(|(key, value)| {
            found.insert(key.clone());
            keys(value, found);
        }),
        Value::Array(items) => items.iter().for_each(|item| keys(item, found)),
        _ => {}
    }
}

#[test]
fn every_key_of_an_answer_is_described() {
    let cast = Cast::new();
    let mut surface = Surface::default();
    let begun: Value = serde_json::from_str(&surface.begin(&cast.page(at(-7_200), 24, &[]))).expect("JSON");
    let mut answers = vec![begun["ok"].clone()];
    let now = at(0).unix();
    let piece = cast.piece("SL-1", at(-60), None);
    for call in [
        json!({ "call": "judge", "shown": [cast.seal(at(-600), true), cast.tag()], "now": now }),
        json!({ "call": "judge", "shown": [cast.seal(at(-500), true), cast.seal(at(-400), false), cast.tag()], "now": now }),
        json!({ "call": "open", "text": cast.void(at(-30)), "now": now }),
        json!({ "call": "open", "text": cast.movement(at(-30)), "now": now }),
        json!({ "call": "open", "text": piece, "now": now }),
        json!({ "call": "report", "load": "KM-014", "event": "lifted", "device": "0".repeat(32), "now": now }),
    ] {
        let answer: Value = serde_json::from_str(&surface.call(call.to_string().as_bytes())).expect("JSON");
        assert!(answer["ok"].is_object(), "{call}: {answer}");
        answers.push(answer["ok"].clone());
    }
    let mut found = BTreeSet::new();
    answers.iter().for_each(|answer| keys(answer, &mut found));
    let named = named();
    let missing: Vec<&String> = found.iter().filter(|key| !named.contains(key.as_str())).collect();
    assert!(missing.is_empty(), "slingseal.d.ts does not name {missing:?}");
    assert!(found.len() > 40, "{found:?}");
}

#[test]
fn every_method_of_the_wrapper_is_described() {
    let methods: Vec<&str> = WRAPPER
        .lines()
        .filter_map(|line| line.strip_prefix("  "))
        .filter(|line| !line.starts_with([' ', '/', '}']) && line.ends_with('{'))
        .filter_map(|line| line.trim_start_matches("static async ").split('(').next())
        .collect();
    // How bytes get in and out is the wrapper's own.
    let own = ["constructor", "put", "answer", "call"];
    for method in methods.iter().filter(|method| !own.contains(method)) {
        assert!(TYPES.contains(&format!(" {method}(")), "slingseal.d.ts has no {method}");
    }
    assert!(methods.len() >= 10, "{methods:?}");
}
