//! The frozen vectors as calls of the surface.

use std::path::Path;

use serde_json::{Value, json};
use slingseal_web::Surface;
use slingseal_words::Time;

#[path = "../../../../tests/vectors/vector.rs"]
pub mod vector;

use vector::Vector;

/// Every vector of a folder, by name.
pub fn read(folder: &str) -> Vec<(String, Vector)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/vectors/seal").join(folder);
    let mut all: Vec<(String, Vector)> = std::fs::read_dir(&folder)
        .expect("the vectors are there")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .map(|path| {
            let text = std::fs::read_to_string(&path).expect("a vector is text");
            let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
            (name, toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display())))
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all
}

pub fn now(vector: &Vector) -> i64 {
    Time::parse(&vector.at).expect("a time").unix()
}

/// What must be called to judge a vector: a device, then the question.
pub fn calls(vector: &Vector) -> [Value; 2] {
    let authorities: Vec<Value> = vector
        .authority
        .iter()
        .map(|authority| json!({ "card": authority.card, "rosters": authority.rosters }))
        .collect();
    let shown: Vec<&String> = vector.seal.iter().chain(&vector.tag).collect();
    let now = now(vector);
    [
        json!({ "call": "device", "authorities": authorities, "holds": vector.holds, "now": now }),
        json!({ "call": "judge", "shown": shown, "now": now, "language": "en" }),
    ]
}

/// The native answers to calls in a row; `{"begin": …}` begins with a page, in Base64.
pub fn native(surface: &mut Surface, calls: &[Value]) -> Vec<Value> {
    let answers = calls.iter().map(|call| match call["begin"].as_str() {
        Some(page) => surface.begin(&crate::cast::unbase64(page)),
        None => surface.call(call.to_string().as_bytes()),
    });
    answers.map(|answer| serde_json::from_str(&answer).expect("an answer is JSON")).collect()
}

/// Verdict and codes of an answer; none where the text was refused.
pub fn told(answer: &Value) -> (Option<String>, Vec<String>) {
    let word = answer["ok"]["word"].as_str().map(str::to_owned);
    let reasons = answer["ok"]["reasons"].as_array().into_iter().flatten();
    (word, reasons.map(|reason| reason["code"].as_str().expect("a code").to_owned()).collect())
}
