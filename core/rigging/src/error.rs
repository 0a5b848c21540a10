use slingseal_words::Quantity;

/// Why a rigged load cannot be assessed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RiggingError {
    /// No hook, or more than two.
    #[error("the load has {0} hooks; write one [[hook]], or two for a tandem lift")]
    Hooks(usize),
    /// No leg, or more than eight.
    #[error("the load has {0} legs; write one to eight [[leg]]")]
    Legs(usize),
    /// More parts than anybody can look at.
    #[error("there are {0} parts; write at most sixteen")]
    Parts(usize),
    /// Two of one name.
    #[error("two {what}s are called \"{name}\"; give each {what} a name of its own")]
    Twice {
        /// Hook or leg.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// A leg or a part of a hook that is not there.
    #[error("{what} is on hook \"{hook}\", which is not there; write {known}")]
    UnknownHook {
        /// The leg or part.
        what: String,
        /// What was written.
        hook: String,
        /// The hooks that are there.
        known: String,
    },
    /// With two hooks a leg must name its own.
    #[error("{what} does not say which hook it is on; add hook = {known}")]
    WhichHook {
        /// The leg.
        what: String,
        /// The hooks that are there.
        known: String,
    },
    /// A quantity of the wrong kind.
    #[error("{key} of {what} is {value}; write it in {wanted}")]
    WrongUnit {
        /// Where it is.
        what: String,
        /// Its key.
        key: &'static str,
        /// What was written.
        value: Quantity,
        /// The units that fit.
        wanted: &'static str,
    },
    /// Zero or less where only more makes sense.
    #[error("{key} of {what} is {value}; it must be more than zero")]
    NotPositive {
        /// Where it is.
        what: String,
        /// Its key.
        key: &'static str,
        /// What was written.
        value: Quantity,
    },
    /// Longer than any sling or load.
    #[error("{key} of {what} is {value}; it must be below 1000 m")]
    TooLong {
        /// Where it is.
        what: String,
        /// Its key.
        key: &'static str,
        /// What was written.
        value: Quantity,
    },
    /// A stretch that no leg has.
    #[error("the stretch of {what} is {stretch}; write more than 0 % and at most 50 %, at the rated load")]
    Stretch {
        /// The leg.
        what: String,
        /// What was written.
        stretch: Quantity,
    },
    /// Nothing to hold the tension against.
    #[error("{0} has no rating; add rated = \"…\" from the data plate, or a [[leg.part]] with one")]
    Unrated(
        /// The leg.
        String,
    ),
    /// A chain seated at no link, or at or beyond its last.
    #[error(
        "the chain of {what} is seated at link {seated} and has {links} links; \
         seat it at a link from 1 to {}",
        (.links - 1).max(1)
    )]
    Seated {
        /// The leg.
        what: String,
        /// The link in the grab hook.
        seated: i64,
        /// The links of the chain.
        links: i64,
    },
    /// More links than any sling has.
    #[error("the chain of {what} has {links} links; write at most 2000")]
    Links {
        /// The leg.
        what: String,
        /// The links of the chain.
        links: i64,
    },
    /// A link count for a leg that is not there.
    #[error("there is no leg \"{leg}\"; write one of {known}")]
    UnknownLeg {
        /// What was written.
        leg: String,
        /// The legs that are there.
        known: String,
    },
    /// A link count for a leg that has no chain.
    #[error("leg \"{leg}\" has no chain; give links only for a leg with one")]
    NoChain {
        /// The leg.
        leg: String,
    },
    /// A link count that cannot be read.
    #[error("\"{0}\" is not a link count; write LEG=N, such as 1=5")]
    NotLinks(
        /// What was written.
        String,
    ),
    /// A load factor outside its range.
    #[error("the load factor is {0}; write a number from 1 to 10, such as 2.5")]
    Factor(
        /// What was written.
        String,
    ),
}
