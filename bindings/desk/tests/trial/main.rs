//! What a day of trial showed, each mended and held: verbs typed as people type them, on a home with a day's work in it.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test fails by panicking"
)]

#[path = "../support/bag.rs"]
mod bag;
mod day;
#[cfg(unix)]
#[path = "../support/terminal.rs"]
mod terminal;

mod documents;
#[cfg(feature = "exchange")]
mod exchange;
mod files;
#[cfg(unix)]
mod journey;
mod package;
mod parts;
mod pictures;
mod questions;
mod readme;
#[cfg(feature = "exchange")]
#[allow(dead_code, reason = "the exchange's own tests use the rest of it")]
#[path = "../../../../tests/exchange/server.rs"]
mod server;
mod states;
mod tongues;
mod turns;
mod words;
