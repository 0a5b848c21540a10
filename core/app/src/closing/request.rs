//! Of what an account is closed, and what it is called.

use std::collections::BTreeSet;

use slingseal_catalogue::{Language, closing as words};
use slingseal_words::Description;

/// What an account is closed of; without a day and loads, everything that is here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CloseRequest {
    /// Loads of which anything is told of this day, UTC: `2026-11-25`.
    pub day: Option<String>,
    /// These loads, by their numbers.
    pub loads: Vec<String>,
    /// What the leader calls it: an operation. Where nothing is given, the day, else the loads.
    pub name: Option<String>,
}

/// What an account of some loads is called, where the leader does not say: their numbers, as far as a name has room.
pub(super) fn named(loads: &BTreeSet<String>, language: Language) -> String {
    let all = loads.iter().map(String::as_str).collect::<Vec<_>>().join(", ");
    match (Description::new(&all), loads.first()) {
        (Err(_), Some(first)) => words::LoadAndMore { first, more: loads.len() - 1 }.say(language),
        _ => all,
    }
}
