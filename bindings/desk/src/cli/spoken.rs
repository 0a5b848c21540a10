//! The help's words in the reader's language.

use slingseal_app::catalogue::Saying;

/// A word of the help in the reader's language, which is known before the command line is read.
pub(super) fn t(said: impl Into<Saying>) -> String {
    said.into().say(crate::console::spoken())
}

/// The same, and more of it behind.
pub(super) fn two(said: impl Into<Saying>, more: impl Into<Saying>) -> String {
    format!("{}\n\n{}", t(said), t(more))
}
