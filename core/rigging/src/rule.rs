//! Which tension is held against a leg's rating. At rest the load is shared by the stretch of the legs; a manual may say that
//! fewer legs carry, or that the worst case counts.

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::{Name, Ratio};

use super::Verdict;
use super::assessment::{Hang, over};

/// A rule by which a governing manual holds tensions against ratings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// The tension at rest.
    Rest,
    /// Three of a hook's legs carry: the chain tables (ASME B30.9, NACM, EN 818-4).
    ThreeLegs,
    /// Two of a hook's legs carry: naval rigging handbooks.
    TwoLegs,
    /// The largest tension over every sharing that balances the load.
    WorstCase,
}

impl Rule {
    /// All of them, in the order in which they ask more.
    pub const ALL: [Self; 4] = [Self::Rest, Self::ThreeLegs, Self::TwoLegs, Self::WorstCase];

    /// Its word in the rigging file and in the stable output.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Rest => "rest",
            Self::ThreeLegs => "three legs",
            Self::TwoLegs => "two legs",
            Self::WorstCase => "worst case",
        }
    }

    /// Reads its word.
    ///
    /// # Errors
    /// Another word, with what to write in its place.
    pub fn parse(text: &str) -> Result<Self, Saying> {
        let known = Self::ALL.into_iter().find(|rule| rule.as_str() == text);
        known.ok_or_else(|| words::RuleWrong { text }.into())
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

/// What a load is over by, by the rule that was chosen or else in the worst case.
pub(super) fn beyond(hang: &Hang, chosen: Option<Rule>, factor: f64) -> Option<Beyond> {
    let rule = chosen.unwrap_or(Rule::WorstCase);
    let told = |leg, utilisation: Option<Ratio>| {
        let is_over = utilisation.is_none_or(over);
        is_over.then_some(Beyond { rule, chosen: chosen.is_some(), leg, utilisation })
    };
    match rule {
        Rule::Rest => None,
        Rule::ThreeLegs => told(None, Some(hang.rules.three_leg)),
        Rule::TwoLegs => told(None, Some(hang.rules.two_leg)),
        Rule::WorstCase => {
            if let Some(endless) = hang.legs.iter().find(|leg| leg.worst_case.is_none()) {
                return told(Some(endless.name.clone()), None);
            }
            let (leg, share) = hang.worst(factor)?;
            told(Some(leg.name.clone()), Some(share))
        }
    }
}
