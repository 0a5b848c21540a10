//! Closing statements, frozen: what is read of one, and which are refused.

use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::vector::Authority;

/// A closing statement that is received, or not.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Closing {
    /// What is tried.
    pub about: String,
    /// The device's clock, RFC 3339.
    pub at: String,
    /// The statement.
    pub statement: String,
    /// The words that the account rests on, as texts, in any order.
    #[serde(default)]
    pub words: Vec<String>,
    /// Whether it is taken.
    pub taken: bool,
    /// Who signed it, where it is taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    /// The account's digest, in hexadecimal digits, where it is taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub account: Option<String>,
    /// Loads, inspections, lifted, set down, lost.
    #[serde(default)]
    pub counts: Vec<u32>,
    /// The kinds of the points, in their order.
    #[serde(default)]
    pub kinds: Vec<String>,
    /// Whom the device trusts.
    pub authority: Vec<Authority>,
}

/// Every one, by name.
#[allow(dead_code, reason = "what writes them reads none")]
pub fn read() -> Vec<(String, Closing)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors/closing");
    let mut all: Vec<(String, Closing)> = std::fs::read_dir(&folder)
        .expect("the vectors lie beside this file")
        .map(|entry| entry.expect("an entry").path())
        .map(|path| {
            let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
            let text = std::fs::read_to_string(&path).expect("a vector is text");
            (name, toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display())))
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all
}
