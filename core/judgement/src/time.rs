//! What proves a time past, and whether a device still remembers all that it heard.

use slingseal_words::{CallSign, Name, Time};

/// Whose word a time is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Speaker {
    /// This device itself: it showed that time when it judged or received something.
    ThisDevice,
    /// An authority: its roster or its card.
    Authority(Name),
    /// Somebody credentialed: a seal, a void, a tag.
    Person(CallSign),
}

/// The latest time that is proven past: a clock that shows less is behind.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LatestTrusted {
    /// When.
    pub time: Time,
    /// Whose word it is.
    pub by: Speaker,
}

/// Whether the device still knows everything that it ever took in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Memory {
    /// As far as it can tell.
    #[default]
    Whole,
    /// An older copy was put in its place: a refusal or a revocation may be lost.
    PutBack {
        /// The time of the last thing that is still known.
        since: Time,
    },
    /// It knows what somebody put into it on one day, and may be relied on until a time: a check page.
    Copied {
        /// The last second.
        until: Time,
    },
}
