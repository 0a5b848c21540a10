//! Which tension is held against a leg's rating. At rest the load is shared by the stretch of the legs; a manual may say that
//! fewer legs carry, or that the worst case counts.

use slingseal_catalogue::{Saying, rigging as words};

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
