//! How a tag's load hangs, for a screen and for paper.

use serde::Serialize;
use slingseal_rigging as rigging;

/// The statics of a rigged load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RiggingView {
    /// Whether the load may hang, at rest.
    #[serde(serialize_with = "crate::view::word")]
    pub verdict: rigging::Verdict,
    /// The same, where a load that is within limits at rest and not otherwise is told apart.
    #[serde(serialize_with = "crate::view::word")]
    pub state: rigging::State,
    /// What it is over by, though not at rest, in a sentence.
    pub beyond: Option<String>,
    /// What governs, in one line.
    pub summary: String,
    /// The whole report, as sentences.
    pub report: String,
    /// Nose up is positive, degrees.
    pub pitch_deg: Option<f64>,
    /// Left side up is positive, degrees.
    pub roll_deg: Option<f64>,
    /// The governing part's utilisation; 1 is all of it.
    pub utilisation: Option<f64>,
    /// Side, front and top view.
    #[serde(skip)]
    pub picture_svg: Option<String>,
    /// What riggers and aircrew want on paper.
    #[serde(skip)]
    pub paper: RiggingPaper,
}

/// A rigging as riggers and aircrew want it on paper.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RiggingPaper {
    /// The state in capitals, in the reader's language.
    pub state: String,
    /// How it hangs, in the reader's language.
    pub attitude: String,
    /// The mass.
    pub mass: String,
    /// The centre of gravity: forward, left, up.
    pub centre: Vec<String>,
    /// Each leg, in the order of the plan.
    pub legs: Vec<RiggingLeg>,
    /// Each rated part, the governing one first.
    pub parts: Vec<RiggingPart>,
    /// Each hook of the aircraft with what it carries.
    pub hooks: Vec<RiggingHook>,
}

/// A hook of the aircraft on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RiggingHook {
    /// What the aircrew calls it.
    pub hook: String,
    /// What it carries.
    pub carries: String,
}

/// A leg on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RiggingLeg {
    /// What it goes by.
    pub leg: String,
    /// The aircraft's hook.
    pub hook: String,
    /// The lift point: forward, left, up.
    pub point: Vec<String>,
    /// Its rope, or its whole length; empty where it is a chain alone.
    pub rope: String,
    /// The link in the grab hook, counted from the free end; none without a chain.
    pub link: Option<u16>,
    /// How many links the chain has.
    pub links: Option<u16>,
    /// What it carries at rest.
    pub carries: String,
    /// Of its rating.
    pub share: String,
}

/// A rated part on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RiggingPart {
    /// What it is.
    pub part: String,
    /// What it carries.
    pub carries: String,
    /// What it may carry.
    pub rated: String,
    /// Where that is from.
    pub source: String,
    /// The first over the second.
    pub share: String,
}

impl Eq for RiggingView {}
