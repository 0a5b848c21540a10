use slingseal_words::{Degrees, Name, Quantity, Ratio};

use crate::{Assessment, Held, RiggedLoad};

/// A rigging that hangs near what is wanted, and keeps the rule that governs.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// The sling set; none where it is the slings that the file rigs.
    pub set: Option<Name>,
    /// Each leg with the link in its grab hook, where it has a chain.
    pub links: Vec<(Name, Option<u16>)>,
    /// Each leg's rope, where ropes were chosen among.
    pub ropes: Vec<Option<Quantity>>,
    /// How far it hangs from what is wanted.
    pub off: Degrees,
    /// The largest utilisation of a leg: at rest, or by the rule that the file names.
    pub utilisation: Ratio,
    /// The load so rigged.
    pub load: RiggedLoad,
    /// How it hangs.
    pub assessment: Assessment,
}

impl Proposal {
    /// What governs at rest.
    pub fn governing(&self) -> Option<&Held> {
        self.assessment.hang.as_ref()?.held.first()
    }
}

/// What a sling set would do.
#[derive(Clone, Debug, PartialEq)]
pub struct SetAnswer {
    /// The set; none for the slings that the file rigs.
    pub set: Option<Name>,
    /// How far its best hang is from what is wanted; none where it has none.
    pub off: Option<Degrees>,
    /// The utilisation of that.
    pub utilisation: Option<Ratio>,
    /// Whether the legs of the set are enough.
    pub legs_enough: bool,
}

/// What the search found.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposals {
    /// The best first.
    pub best: Vec<Proposal>,
    /// Each set, with the slings of the file before them, where there are sets.
    pub sets: Vec<SetAnswer>,
    /// The set of the weakest legs that still may carry the load.
    pub smallest: Option<Name>,
    /// Nothing nearer than this ranks before what is proposed.
    pub searched_to: Degrees,
    /// Whether that is as far as was asked.
    pub whole: bool,
    /// How many hangs were worked out.
    pub tried: u64,
    /// How many ways there are to choose the links.
    pub ways: f64,
}
