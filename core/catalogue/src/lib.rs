//! Every word that a person reads, in Project Fluent's format, one folder a language. Knows no other crate of ours.
#![forbid(unsafe_code)]

mod language;
mod pseudo;
mod say;
#[cfg(test)]
mod tests;

mod visible;

pub use language::{Language, UnknownLanguage};
pub use say::{Argument, Saying, ToArgument, read_again};
pub use visible::{is_invisible, visibly};

/// A language's texts, as they lie in its folder.
struct Folder {
    /// BCP 47.
    tag: &'static str,
    /// Terms, seen by every area.
    terms: &'static str,
    /// In the order of `AREAS`.
    areas: &'static [&'static str],
}

include!(concat!(env!("OUT_DIR"), "/messages.rs"));
