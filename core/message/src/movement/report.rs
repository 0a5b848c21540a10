use super::MovementEvent;
use slingseal_words::{Digest, GridRef, LoadNumber, Name, Note, Serial, Time};

/// The most pieces of equipment in one report: those of the largest tag, with room to spare.
pub const MOST_PIECES: usize = 24;
/// The most photographs that one report names.
pub const MOST_PHOTOS: usize = 8;

/// What a piece of equipment came to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceState {
    /// Which.
    pub serial: Serial,
    /// Whether it goes back from here.
    pub back: bool,
    /// Whether it is damaged. One of the two is always so: a piece of which there is nothing to say is not named.
    pub damaged: bool,
}

/// The verdict that stood on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ShownVerdict {
    /// GO.
    Go,
    /// WAIT.
    Wait,
    /// NO-GO.
    NoGo,
}

impl ShownVerdict {
    /// The word on the screen.
    pub fn word(self) -> &'static str {
        match self {
            Self::Go => "GO",
            Self::Wait => "WAIT",
            Self::NoGo => "NO-GO",
        }
    }

    pub(super) fn code(self) -> i64 {
        match self {
            Self::Go => 0,
            Self::Wait => 1,
            Self::NoGo => 2,
        }
    }

    pub(super) fn from_code(code: i64) -> Option<Self> {
        [Self::Go, Self::Wait, Self::NoGo].into_iter().find(|verdict| verdict.code() == code)
    }
}

/// The code of a reason, as the judgement's table has it: at most 40 bytes of a-z, 0-9 and `_`, one at least. A later table has
/// codes that are not known here, so it is kept as it came.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ShownReason(String);

impl ShownReason {
    /// The most bytes.
    pub const MOST: usize = 40;

    /// A code; none where it cannot be one.
    pub fn new(code: &str) -> Option<Self> {
        let fits = (1..=Self::MOST).contains(&code.len());
        let plain =
            code.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_');
        (fits && plain).then(|| Self(code.to_owned()))
    }

    /// The code.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// The verdict that the reporter was shown, with its first reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VerdictShown {
    /// The verdict.
    pub verdict: ShownVerdict,
    /// Why; none for a GO without anything to say.
    pub reason: Option<ShownReason>,
}

/// Where the reporting device's journal ended just before the report was written into it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct JournalEnd {
    /// The number of the last entry; 0 for an empty journal.
    pub seq: u64,
    /// Its digest; of an empty journal what its first entry will name as the one before.
    pub digest: Digest,
}

impl JournalEnd {
    /// That of a device which keeps no journal, or has written nothing into it yet.
    pub fn empty(device: &[u8; 16]) -> Self {
        Self { seq: 0, digest: Digest::of_empty_journal(device) }
    }
}

/// A report of what became of a load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Movement {
    /// The load.
    pub load: LoadNumber,
    /// What became of it.
    pub event: MovementEvent,
    /// When the report was written, by the device's clock.
    pub issued: Time,
    /// When it happened, where that was before the report was written; never after it.
    pub happened: Option<Time>,
    /// The device on which it was written.
    pub device: [u8; 16],
    /// Where that device's journal ended before it.
    pub journal: JournalEnd,
    /// The report that the same device wrote before this one.
    pub before: Option<Digest>,
    /// The seal that was shown, by SHA-256 of its own bytes.
    pub seal: Option<Digest>,
    /// The verdict that was shown.
    pub shown: Option<VerdictShown>,
    /// The aircraft that took it.
    pub aircraft: Option<Name>,
    /// Where.
    pub place: Option<GridRef>,
    /// Photographs, by their digests; at most [`MOST_PHOTOS`].
    pub photos: Vec<Digest>,
    /// Pieces of equipment, each serial once; at most [`MOST_PIECES`].
    pub pieces: Vec<PieceState>,
    /// More, in a person's words.
    pub note: Option<Note>,
}

/// Where a report stands among those of its load: by when it happened; within one second as a load goes, lifted before set down,
/// set down before derigged; then by its own digest. The same at every desk, whatever came first.
pub fn place_of_report(at: Time, event: MovementEvent, digest: Digest) -> (Time, MovementEvent, Digest) {
    (at, event, digest)
}

impl Movement {
    /// Its place among the reports of its load, by its own digest as the last resort: [`place_of_report`].
    pub fn place(&self, digest: Digest) -> (Time, MovementEvent, Digest) {
        place_of_report(self.at(), self.event, digest)
    }

    /// When it happened.
    pub fn at(&self) -> Time {
        self.happened.unwrap_or(self.issued)
    }

    /// Whether it was given later than it happened.
    pub fn given_later(&self) -> bool {
        self.happened.is_some()
    }
}
