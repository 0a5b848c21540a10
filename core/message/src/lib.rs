//! Every signed or printed word and its bytes. What is received is kept as it came; verification never re-encodes.
//!
//! Nothing here decides what a word is worth: that is the room `judgement`. No SQLite, no clock, no randomness of its own.
#![forbid(unsafe_code)]

pub mod closing;
pub mod envelope;
pub mod movement;
pub mod seal;
pub mod tag;
pub mod trust;
