//! The first screen: what is in hand, what is pending.

use serde::Serialize;
use slingseal_catalogue::{Saying, board as words};

use crate::walks::entries::id_text;
use crate::{App, AppError, Stamp};
use slingseal_store::{WalkRow, WalkState};

/// What the first screen shows.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StartView {
    /// Whose device it is.
    pub holder: Option<String>,
    /// Walks that are begun and not sealed.
    pub in_hand: Vec<WalkLine>,
    /// Records made here in all.
    pub records: u32,
    /// What the opening met that a person must know: damage set aside, entries lost.
    pub notices: Vec<String>,
    /// What to do next for the set-up; `Ready.` where nothing.
    pub set_up: String,
}

/// A walk in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WalkLine {
    /// What it goes by.
    pub walk: String,
    /// The load.
    pub load: String,
    /// The procedure's id.
    pub procedure: String,
    /// Who walks.
    pub inspector: String,
    /// How far it is.
    pub state: WalkLineState,
    /// When it was begun.
    pub begun: Stamp,
    /// When it was last touched.
    pub updated: Stamp,
}

/// How far a walk in the list is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WalkLineState {
    /// Somebody is at it.
    Walking,
    /// Put aside for a while.
    Paused,
    /// Fit or not fit, and not sealed yet.
    Decided,
    /// Done.
    Sealed,
    /// Given up.
    Abandoned,
}

impl WalkLineState {
    /// A stable word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Walking => "walking",
            Self::Paused => "paused",
            Self::Decided => "decided",
            Self::Sealed => "sealed",
            Self::Abandoned => "abandoned",
        }
    }

    /// How a person says it.
    pub fn saying(self) -> Saying {
        match self {
            Self::Walking => words::LineWalking.into(),
            Self::Paused => words::LinePaused.into(),
            Self::Decided => words::LineDecided.into(),
            Self::Sealed => words::LineSealed.into(),
            Self::Abandoned => words::LineAbandoned.into(),
        }
    }
}

impl App {
    /// The first screen.
    ///
    /// # Errors
    /// Storage.
    pub fn start(&self) -> Result<StartView, AppError> {
        let inner = self.lock();
        let in_hand = inner.store.read().walks_in_hand()?;
        let mut notices = Vec::new();
        notices.extend(inner.opened.set_aside.as_ref().map(ToString::to_string));
        notices.extend(inner.opened.lost.as_ref().map(ToString::to_string));
        notices.extend(inner.memory_notice()?);
        Ok(StartView {
            holder: inner.holder()?.map(|holder| holder.to_string()),
            in_hand: in_hand.into_iter().map(walk_line).collect(),
            records: u32::try_from(inner.store.read().count_records()?).unwrap_or(u32::MAX),
            notices,
            set_up: inner.set_up()?.next,
        })
    }
}

/// A walk's line.
pub(crate) fn walk_line(row: WalkRow) -> WalkLine {
    WalkLine {
        walk: id_text(row.id),
        load: row.load,
        procedure: row.procedure,
        inspector: row.inspector,
        state: match row.state {
            WalkState::Open => WalkLineState::Walking,
            WalkState::Paused => WalkLineState::Paused,
            WalkState::Decided => WalkLineState::Decided,
            WalkState::Sealed => WalkLineState::Sealed,
            WalkState::Abandoned => WalkLineState::Abandoned,
        },
        begun: row.begun.into(),
        updated: row.updated.into(),
    }
}
