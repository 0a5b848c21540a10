//! What the witness beside the file notes of a home, and the table of its memory keeps.

use slingseal_words::Time;

/// What this device remembers of itself.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MemoryRow {
    /// Writes that left no entry in the journal.
    pub writes: u64,
    /// The latest time that its own clock showed when it judged or took in anything. It never goes back.
    pub judged: Option<Time>,
    /// Since when an older copy of this file is known to have been put back; none where nothing is known of it.
    pub put_back: Option<Time>,
}
