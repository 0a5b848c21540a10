use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::Name;

/// The hang that is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// Nose up is positive, degrees.
    pub pitch: f64,
    /// Left side up is positive, degrees.
    pub roll: f64,
    /// The nose is to hang at least this far down, degrees.
    pub nose_down_at_least: Option<f64>,
}

impl Wanted {
    /// Level.
    pub const LEVEL: Self = Self { pitch: 0.0, roll: 0.0, nose_down_at_least: None };

    /// A hang to be sought.
    ///
    /// # Errors
    /// An angle past 30 degrees: further, it is no hang that anybody plans.
    pub fn new(pitch: f64, roll: f64, nose_down_at_least: Option<f64>) -> Result<Self, SolveError> {
        let asked = [pitch, roll, nose_down_at_least.unwrap_or(0.0)];
        match asked.into_iter().find(|angle| !(-30.0..=30.0).contains(angle)) {
            Some(angle) => Err(SolveError::Angle(angle.to_string())),
            None => Ok(Self { pitch, roll, nose_down_at_least }),
        }
    }

    /// The direction of up in the load's axes.
    pub(super) fn up(&self) -> [f64; 3] {
        let (pitch, roll) = (self.pitch.to_radians(), self.roll.to_radians());
        [pitch.sin(), pitch.cos() * roll.sin(), pitch.cos() * roll.cos()]
    }
}

/// How the search is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The hang that is wanted.
    pub wanted: Wanted,
    /// How many proposals.
    pub most: usize,
    /// No proposal is further from what is wanted, degrees.
    pub within: f64,
    /// Links that a leg is held to.
    pub between: Vec<Between>,
}

impl Default for Asked {
    fn default() -> Self {
        Self { wanted: Wanted::LEVEL, most: 5, within: 10.0, between: Vec::new() }
    }
}

/// The links that a leg is held to: `2=10-40`, or `2=10`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Between {
    /// The leg.
    pub leg: Name,
    /// The first link.
    pub first: u16,
    /// The last link.
    pub last: u16,
}

impl Between {
    /// Reads `LEG=A-B` or `LEG=N`.
    ///
    /// # Errors
    /// A text of another form.
    pub fn parse(text: &str) -> Result<Self, SolveError> {
        let wrong = || SolveError::NotBetween(text.to_owned());
        let (leg, links) = text.rsplit_once('=').ok_or_else(wrong)?;
        let (first, last) = links.split_once('-').unwrap_or((links, links));
        let number = |text: &str| text.trim().parse::<u16>().map_err(|_| wrong());
        let (first, last) = (number(first)?, number(last)?);
        if first == 0 || last < first {
            return Err(wrong());
        }
        Ok(Self { leg: Name::new(leg).map_err(|_| wrong())?, first, last })
    }
}

/// Why nothing is sought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SolveError {
    /// An angle that nobody plans.
    Angle(
        /// What was written.
        String,
    ),
    /// Links that cannot be read.
    NotBetween(
        /// What was written.
        String,
    ),
    /// A leg that is not there or has no chain.
    NoChain {
        /// What was written.
        leg: Name,
    },
    /// Two hooks, and more ways than are gone through one by one.
    TooMany {
        /// How many ways there are.
        ways: String,
        /// How many are gone through.
        most: u64,
        /// To how many links each chain would have to be held, so that they could be.
        each: u64,
    },
    /// More ways to choose ropes than are gone through.
    TooManyRopes {
        /// How many ways there are.
        ways: usize,
        /// How many are gone through.
        most: usize,
    },
    /// Nothing may be chosen: no chain, no ropes, no sets.
    NothingToChoose,
}

impl SolveError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Angle(angle) => words::SolveAngle { angle }.into(),
            Self::NotBetween(text) => words::SolveNotBetween { text }.into(),
            Self::NoChain { leg } => words::SolveNoChain { leg }.into(),
            Self::TooMany { ways, most, each } => {
                words::SolveTooMany { ways, most: most.to_string(), each: each.to_string() }.into()
            }
            Self::TooManyRopes { ways, most } => words::SolveTooManyRopes { ways, most }.into(),
            Self::NothingToChoose => words::SolveNothingToChoose.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(SolveError);
