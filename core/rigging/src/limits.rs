//! Whether a load is within its limits: at rest, and by the rule that was chosen or in the worst case.

use slingseal_words::{Name, Ratio};

use super::rule::Rule;

/// Whether the load may hang.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It hangs, and every part carries at most its rating.
    WithinLimits,
    /// It hangs, and at least one part carries more than its rating.
    OverLimit,
    /// It does not hang as it is rigged.
    Infeasible,
}

impl Verdict {
    /// The word of the stable output.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::WithinLimits => "within_limits",
            Self::OverLimit => "over_limit",
            Self::Infeasible => "infeasible",
        }
    }
}

/// A load that is within limits at rest, and over them otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Beyond {
    /// By which rule: the one that the file chose, or else the worst case.
    pub rule: Rule,
    /// Whether the file chose it.
    pub chosen: bool,
    /// The leg, where the rule tells one.
    pub leg: Option<Name>,
    /// The largest share of a rating; none where legs can pull against each other without end.
    pub utilisation: Option<Ratio>,
}

/// Whether the load may hang, told apart by what it is within limits by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// At rest, and by the rule that was chosen; where none was, in the worst case too.
    WithinLimits,
    /// At rest, and not by the rule that was chosen; where none was, not in the worst case.
    AtRestOnly,
    /// A part carries more than its rating at rest.
    OverLimit,
    /// It does not hang as it is rigged.
    Infeasible,
}

impl State {
    /// The word of the stable output.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::WithinLimits => "within_limits",
            Self::AtRestOnly => "at_rest_only",
            Self::OverLimit => "over_limit",
            Self::Infeasible => "infeasible",
        }
    }

    pub(super) fn of(verdict: Verdict, beyond: Option<&Beyond>) -> Self {
        match (verdict, beyond) {
            (Verdict::WithinLimits, None) => Self::WithinLimits,
            (Verdict::WithinLimits, Some(_)) => Self::AtRestOnly,
            (Verdict::OverLimit, _) => Self::OverLimit,
            (Verdict::Infeasible, _) => Self::Infeasible,
        }
    }
}

/// More than all of it; the last bits are rounding.
pub(super) fn over(utilisation: Ratio) -> bool {
    utilisation.value() > 1.0 + 1e-9
}
