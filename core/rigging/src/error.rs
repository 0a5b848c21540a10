use slingseal_catalogue::{Saying, faults as words, rigging};
use slingseal_words::{Dimension, Quantity};

/// Why a rigged load cannot be assessed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RiggingError {
    /// No hook, or more than two.
    Hooks(usize),
    /// No leg, or more than eight.
    Legs(usize),
    /// More parts than anybody can look at.
    Parts(usize),
    /// Two of one name.
    Twice {
        /// Hooks, and not legs.
        hook: bool,
        /// The name.
        name: String,
    },
    /// A leg or a part of a hook that is not there.
    UnknownHook {
        /// The leg or part.
        what: Saying,
        /// What was written.
        hook: String,
        /// The hooks that are there.
        known: String,
    },
    /// With two hooks a leg must name its own.
    WhichHook {
        /// The leg.
        what: Saying,
        /// The hooks that are there.
        known: String,
    },
    /// A quantity of the wrong kind.
    WrongUnit {
        /// Where it is.
        what: Saying,
        /// Its key.
        key: &'static str,
        /// What was written.
        value: Quantity,
        /// What it should measure.
        wanted: Dimension,
    },
    /// Zero or less where only more makes sense.
    NotPositive {
        /// Where it is.
        what: Saying,
        /// Its key.
        key: &'static str,
        /// What was written.
        value: Quantity,
    },
    /// Longer than any sling or load.
    TooLong {
        /// Where it is.
        what: Saying,
        /// Its key.
        key: &'static str,
        /// What was written.
        value: Quantity,
    },
    /// A stretch that no leg has.
    Stretch {
        /// The leg.
        what: Saying,
        /// What was written.
        stretch: Quantity,
    },
    /// Nothing to hold the tension against.
    Unrated(
        /// The leg.
        Saying,
    ),
    /// A chain seated at no link, or at or beyond its last.
    Seated {
        /// The leg.
        what: Saying,
        /// The link in the grab hook.
        seated: i64,
        /// The links of the chain.
        links: i64,
    },
    /// More links than any sling has.
    Links {
        /// The leg.
        what: Saying,
        /// The links of the chain.
        links: i64,
    },
    /// A link count for a leg that is not there.
    UnknownLeg {
        /// What was written.
        leg: String,
        /// The legs that are there.
        known: String,
    },
    /// A link count for a leg that has no chain.
    NoChain {
        /// The leg.
        leg: String,
    },
    /// A link count that cannot be read.
    NotLinks(
        /// What was written.
        String,
    ),
    /// A file that weighs and rigs nothing, where a rigging is asked for.
    NoRigging,
    /// A file that weighs nothing, where a weighing is asked for.
    NotWeighed,
    /// A load factor outside its range.
    Factor(
        /// What was written.
        String,
    ),
}

impl RiggingError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Hooks(count) => words::RiggingErrorHooks { count }.into(),
            Self::Legs(count) => words::RiggingErrorLegs { count }.into(),
            Self::Parts(count) => words::RiggingErrorParts { count }.into(),
            Self::Twice { hook: true, name } => words::RiggingErrorTwoHooks { name }.into(),
            Self::Twice { hook: false, name } => words::RiggingErrorTwoLegs { name }.into(),
            Self::UnknownHook { what, hook, known } => {
                words::RiggingErrorUnknownHook { what: what.clone(), hook, known }.into()
            }
            Self::WhichHook { what, known } => {
                words::RiggingErrorWhichHook { what: what.clone(), known }.into()
            }
            Self::WrongUnit { what, key, value, wanted } => {
                words::RiggingErrorWrongUnit { key, what: what.clone(), value, wanted: wanted.units_saying() }
                    .into()
            }
            Self::NotPositive { what, key, value } => {
                words::RiggingErrorNotPositive { key, what: what.clone(), value }.into()
            }
            Self::TooLong { what, key, value } => {
                words::RiggingErrorTooLong { key, what: what.clone(), value }.into()
            }
            Self::Stretch { what, stretch } => {
                words::RiggingErrorStretch { what: what.clone(), stretch }.into()
            }
            Self::Seated { what, seated, links } => {
                words::RiggingErrorSeated { what: what.clone(), seated, links, last: (links - 1).max(1) }
                    .into()
            }
            Self::Links { what, links } => words::RiggingErrorLinks { what: what.clone(), links }.into(),
            Self::Unrated(what) => words::RiggingErrorUnrated { what: what.clone() }.into(),
            Self::NotLinks(text) => words::RiggingErrorNotLinks { text }.into(),
            Self::Factor(text) => words::RiggingErrorFactor { text }.into(),
            Self::UnknownLeg { leg, known } => words::RiggingErrorUnknownLeg { leg, known }.into(),
            Self::NoRigging => rigging::NoRigging.into(),
            Self::NotWeighed => rigging::NotWeighed.into(),
            Self::NoChain { leg } => words::RiggingErrorNoChain { leg }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(RiggingError);
