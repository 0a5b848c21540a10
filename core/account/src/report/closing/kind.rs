//! The sorts of what does not add up, each with its stable word, its heading and what to do.

use slingseal_catalogue::{Saying, closing as words};

/// What does not add up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PointKind {
    /// Planned, and nobody inspected it.
    NeverInspected,
    /// Inspected, and nobody lifted it.
    NeverLifted,
    /// The hookup team did not lift it, and nobody did later.
    RefusedAtHook,
    /// Lifted, and no GO is known: WAIT or NO-GO had been shown, or nothing is told.
    LiftedWithoutGo,
    /// Lifted when its last inspection had run out.
    LiftedAfterExpiry,
    /// Lifted when its last inspection had been taken back.
    LiftedAfterVoid,
    /// Lifted, and nobody set it down.
    NeverSetDown,
    /// It fell, was jettisoned, or nobody knows where it is.
    Lost,
    /// Two reports of one flight cannot both be true.
    Contradiction,
    /// One person found it fit twice, with nothing in between that asked for it.
    InspectedTwice,
    /// Walked in less time than the cards can be touched in.
    WalkedTooFast,
    /// A piece of equipment went out with a load and is not back.
    PieceOut,
    /// A device's journal goes on behind what came of it.
    JournalEndsEarly,
    /// A record or report that another names is not here.
    Missing,
}

impl PointKind {
    /// A stable word: a statement carries it.
    pub fn word(self) -> &'static str {
        match self {
            Self::NeverInspected => "never_inspected",
            Self::NeverLifted => "never_lifted",
            Self::RefusedAtHook => "refused_at_hook",
            Self::LiftedWithoutGo => "lifted_without_go",
            Self::LiftedAfterExpiry => "lifted_after_expiry",
            Self::LiftedAfterVoid => "lifted_after_void",
            Self::NeverSetDown => "never_set_down",
            Self::Lost => "lost",
            Self::Contradiction => "contradiction",
            Self::InspectedTwice => "inspected_twice",
            Self::WalkedTooFast => "walked_too_fast",
            Self::PieceOut => "piece_out",
            Self::JournalEndsEarly => "journal_ends_early",
            Self::Missing => "missing",
        }
    }

    /// Every sort.
    pub const ALL: [Self; 14] = [
        Self::NeverInspected,
        Self::NeverLifted,
        Self::RefusedAtHook,
        Self::LiftedWithoutGo,
        Self::LiftedAfterExpiry,
        Self::LiftedAfterVoid,
        Self::NeverSetDown,
        Self::Lost,
        Self::Contradiction,
        Self::InspectedTwice,
        Self::WalkedTooFast,
        Self::PieceOut,
        Self::JournalEndsEarly,
        Self::Missing,
    ];

    /// The sort of a stable word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// What a person reads as its heading.
    pub fn title(self) -> Saying {
        match self {
            Self::NeverInspected => words::PointNeverInspected.into(),
            Self::NeverLifted => words::PointNeverLifted.into(),
            Self::RefusedAtHook => words::PointRefusedAtHook.into(),
            Self::LiftedWithoutGo => words::PointLiftedWithoutGo.into(),
            Self::LiftedAfterExpiry => words::PointLiftedAfterExpiry.into(),
            Self::LiftedAfterVoid => words::PointLiftedAfterVoid.into(),
            Self::NeverSetDown => words::PointNeverSetDown.into(),
            Self::Lost => words::PointLost.into(),
            Self::Contradiction => words::PointContradiction.into(),
            Self::InspectedTwice => words::PointInspectedTwice.into(),
            Self::WalkedTooFast => words::PointWalkedTooFast.into(),
            Self::PieceOut => words::PointPieceOut.into(),
            Self::JournalEndsEarly => words::PointJournalEndsEarly.into(),
            Self::Missing => words::PointMissing.into(),
        }
    }

    /// What to do about it.
    pub fn to_do(self) -> Saying {
        match self {
            Self::NeverInspected => words::ToDoNeverInspected.into(),
            Self::NeverLifted => words::ToDoNeverLifted.into(),
            Self::RefusedAtHook => words::ToDoRefusedAtHook.into(),
            Self::LiftedWithoutGo => words::ToDoLiftedWithoutGo.into(),
            Self::LiftedAfterExpiry => words::ToDoLiftedAfterExpiry.into(),
            Self::LiftedAfterVoid => words::ToDoLiftedAfterVoid.into(),
            Self::NeverSetDown => words::ToDoNeverSetDown.into(),
            Self::Lost => words::ToDoLost.into(),
            Self::Contradiction => words::ToDoContradiction.into(),
            Self::InspectedTwice => words::ToDoInspectedTwice.into(),
            Self::WalkedTooFast => words::ToDoWalkedTooFast.into(),
            Self::PieceOut => words::ToDoPieceOut.into(),
            Self::JournalEndsEarly => words::ToDoJournalEndsEarly.into(),
            Self::Missing => words::ToDoMissing.into(),
        }
    }
}
