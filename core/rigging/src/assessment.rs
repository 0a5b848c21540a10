//! What an assessment says. Forces in newtons, angles in degrees; warnings and reasons in the units of the input.

use std::fmt;

use slingseal_words::{Degrees, Metres, Name, Newtons, Quantity, Ratio, Source};

use super::RiggingError;
use super::rule::{Beyond, State};

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

/// How a load hangs, who carries what, and what governs. It assists a qualified inspector; the governing manual rules.
#[derive(Clone, Debug, PartialEq)]
pub struct Assessment {
    /// Whether the load may hang.
    pub verdict: Verdict,
    /// Why it does not hang; there only with [`Verdict::Infeasible`].
    pub reason: Option<Infeasible>,
    /// The weight of the load.
    pub weight: Newtons,
    /// What every force was multiplied by before it was held against its rating.
    pub factor: Ratio,
    /// How it hangs; missing only with [`Verdict::Infeasible`].
    pub hang: Option<Hang>,
    /// What it is over by, though not at rest.
    pub beyond: Option<Beyond>,
    /// What an inspector should know besides.
    pub warnings: Vec<Warning>,
}

impl Assessment {
    /// Whether the load may hang, and by what.
    pub fn state(&self) -> State {
        State::of(self.verdict, self.beyond.as_ref())
    }
}

/// The load at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Hang {
    /// Nose up is positive.
    pub pitch: Degrees,
    /// Left side up is positive.
    pub roll: Degrees,
    /// What each hook carries, in the order of the input.
    pub hooks: Vec<HookLoad>,
    /// What each leg carries, in the order of the input.
    pub legs: Vec<LegLoad>,
    /// Every rated part against what it carries; the governing one first. Never empty.
    pub held: Vec<Held>,
    /// The handbook rules.
    pub rules: Rules,
    pub(super) most_legs: usize,
    /// Where everything is, for a picture.
    pub place: Place,
}

impl Hang {
    /// The leg that would carry the largest share of its rating in its worst case, and that share with the load factor; none
    /// where nothing is the largest.
    pub fn worst(&self, factor: f64) -> Option<(&LegLoad, Ratio)> {
        let shares = self.legs.iter().filter_map(|leg| {
            let share = factor * leg.worst_case?.value() / leg.rated.value();
            Some((leg, Ratio::new(share).ok()?))
        });
        shares.max_by(|a, b| a.1.value().total_cmp(&b.1.value()))
    }

    /// How many of a hook's legs share its load at most: a rule that counts more legs than there are says nothing of its own.
    pub fn most_legs_of_a_hook(&self) -> usize {
        self.most_legs
    }
}

/// What a hook carries.
#[derive(Clone, Debug, PartialEq)]
pub struct HookLoad {
    /// The hook.
    pub name: Name,
    /// The pull of its legs together.
    pub load: Newtons,
}

/// What a leg carries.
#[derive(Clone, Debug, PartialEq)]
pub struct LegLoad {
    /// The leg.
    pub name: Name,
    /// Its tension at rest, by its stretch.
    pub tension: Newtons,
    /// The largest tension over every non-negative distribution that balances the load where it hangs; `None` where
    /// legs pull against each other, so that there is no largest.
    pub worst_case: Option<Newtons>,
    /// Its angle from the horizontal.
    pub from_horizontal: Degrees,
    /// It carries nothing.
    pub slack: bool,
    /// The weakest rating of its parts.
    pub rated: Newtons,
    /// Tension times load factor over the rating.
    pub utilisation: Ratio,
}

/// A part against what it carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// `hook main`, `leg 1, grab hook`, `aircraft allowable`.
    pub part: String,
    /// The leg, where it is a leg's part.
    pub leg: Option<Name>,
    /// What it carries, load factor included.
    pub carries: Newtons,
    /// What it may carry, as written.
    pub rated: Quantity,
    /// Where the rating comes from.
    pub source: Option<Source>,
    /// The first over the second.
    pub utilisation: Ratio,
}

impl Held {
    /// What is left: the rating less what it carries; negative where it is over.
    pub fn margin(&self) -> Newtons {
        let rated = self.rated.newtons().unwrap_or_default();
        Newtons::new(rated.value() - self.carries.value()).unwrap_or_default()
    }

    /// Whether it carries more than it may.
    pub fn over(&self) -> bool {
        over(self.utilisation)
    }
}

/// More than all of it; the last bits are rounding.
pub(super) fn over(utilisation: Ratio) -> bool {
    utilisation.value() > 1.0 + 1e-9
}

/// The handbook rules, as the largest utilisation of a leg. Each hook's load is shared by the rule's number of its legs
/// (all of them, where it has fewer), at the angle of each leg from the horizontal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rules {
    /// Three legs carry: the chain tables (ASME B30.9, NACM, EN 818-4).
    pub three_leg: Ratio,
    /// Two legs carry: naval rigging handbooks.
    pub two_leg: Ratio,
}

/// Where everything is: metres, world axes with z up, the origin at the hook or in the middle between two.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The centre of gravity.
    pub centre: [Metres; 3],
    /// The load's forward, left and up, each of length one.
    pub axes: [[Ratio; 3]; 3],
    /// The hooks, in the order of the input.
    pub hooks: Vec<[Metres; 3]>,
    /// The lift point of each leg, in the order of the input.
    pub lift_points: Vec<[Metres; 3]>,
}

/// Why a load does not hang as it is rigged. Lengths in the unit that the leg was written in.
#[derive(Clone, Debug, PartialEq)]
pub enum Infeasible {
    /// What was to be assessed is not a valid load.
    NotValid(RiggingError),
    /// A leg that does not reach.
    TooShort {
        /// The leg.
        leg: Name,
        /// Its length.
        length: Quantity,
        /// The length that would close.
        closes: Quantity,
    },
    /// One leg out of step with the others, so that the load leans past what can be called hanging.
    OutOfStep {
        /// How far it would lean.
        lean: Degrees,
        /// The leg.
        leg: Name,
        /// Its length.
        length: Quantity,
        /// The length that would let it hang level.
        closes: Quantity,
    },
    /// The hook would stand below the centre of gravity.
    HookBelow {
        /// How far below.
        below: Quantity,
        /// The shortest leg.
        leg: Name,
        /// Its length.
        length: Quantity,
        /// The length at which the hook would stand level with the centre of gravity.
        level: Quantity,
    },
    /// All lift points lie to one side of the centre of gravity.
    OneSide {
        /// `ahead of`, `behind`, `left of`, `right of`.
        side: Side,
        /// How far the centre of gravity lies outside them.
        outside: Quantity,
    },
    /// It would roll over, or lean past what can be called hanging.
    TurnsOver {
        /// How far it would lean.
        lean: Degrees,
    },
    /// No position of balance was found.
    NoBalance,
}

/// A side of the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// x is positive.
    Ahead,
    /// x is negative.
    Behind,
    /// y is positive.
    Left,
    /// y is negative.
    Right,
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Ahead => "ahead of",
            Self::Behind => "behind",
            Self::Left => "left of",
            Self::Right => "right of",
        })
    }
}

impl fmt::Display for Infeasible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotValid(error) => error.fmt(f),
            Self::TooShort { leg, length, closes } => write!(
                f,
                "leg \"{leg}\" is {length} long and does not reach the hook; make it at least {closes}"
            ),
            Self::OutOfStep { lean, leg, length, closes } => write!(
                f,
                "the load would lean {:.0} degrees, because leg \"{leg}\" is {length} long; {closes} would let it \
                 hang level",
                lean.value()
            ),
            Self::HookBelow { below, leg, length, level } => write!(
                f,
                "the hook would stand {below} below the centre of gravity and the load would roll over; make the \
                 legs longer: leg \"{leg}\" is {length}, and must be well over {level}"
            ),
            Self::OneSide { side, outside } => write!(
                f,
                "all lift points lie {side} the centre of gravity, which stands {outside} outside them; put a leg \
                 on the other side"
            ),
            Self::TurnsOver { lean } => write!(
                f,
                "the load would lean {:.0} degrees before it came to rest; take lift points above the centre of \
                 gravity and on both sides of it",
                lean.value()
            ),
            Self::NoBalance => {
                f.write_str("no position in which the load balances was found; check lift points and lengths")
            }
        }
    }
}

/// What an inspector should know besides the verdict.
#[derive(Clone, Debug, PartialEq)]
pub enum Warning {
    /// A leg that carries nothing.
    Slack {
        /// The leg.
        leg: Name,
        /// Its length.
        length: Quantity,
        /// The length at which it would begin to carry.
        closes: Quantity,
    },
    /// Legs that would be over their rating in their worst case, though not at rest.
    WorstCase {
        /// The legs.
        legs: Vec<Name>,
        /// The largest share of a rating among them.
        utilisation: Ratio,
    },
    /// A handbook rule says over, the elastic answer does not.
    Rule {
        /// How many legs it counts.
        legs: usize,
        /// Its share of the rating.
        utilisation: Ratio,
    },
    /// Legs can pull against each other.
    NoWorstCase,
    /// A leg flatter than rigging tables go.
    Flat {
        /// The leg.
        leg: Name,
        /// Its angle from the horizontal.
        angle: Degrees,
    },
    /// The load leans so far that cargo may shift.
    Leans {
        /// How far.
        lean: Degrees,
    },
    /// Nothing holds the load from turning about the line of its lift points.
    Neutral,
    /// The stretch of some legs is not known, and the tensions depend on it.
    UnknownStretch {
        /// The legs.
        legs: Vec<Name>,
    },
    /// Ratings without a source.
    NoSource {
        /// The parts.
        parts: Vec<String>,
    },
    /// Forces were multiplied.
    Factor {
        /// By this.
        factor: Ratio,
    },
}

/// Flatter than this, rigging tables end (EN 818-4: 60 degrees from the vertical; ASME B30.9: 30 from the horizontal).
pub(super) const FLATTEST: f64 = 30.0;

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            // Two lengths that look the same would tell nothing.
            Self::Slack { leg, length, closes } if length == closes => {
                write!(f, "leg \"{leg}\" is just slack at {length}; a little shorter and it begins to carry")
            }
            Self::Slack { leg, length, closes } => {
                write!(f, "leg \"{leg}\" is slack at {length}; it begins to carry at {closes}")
            }
            Self::WorstCase { legs, utilisation } => write!(
                f,
                "shared otherwise, {} would carry up to {:.0} % of the rating; see that all legs bear evenly",
                list("leg", legs),
                utilisation.value() * 100.0
            ),
            Self::Rule { legs, utilisation } => write!(
                f,
                "by the rule that {} legs carry, a leg is at {:.0} % of its rating; the governing manual says which \
                 rule counts",
                if *legs == 2 { "two" } else { "three" },
                utilisation.value() * 100.0
            ),
            Self::NoWorstCase => f.write_str(
                "a leg pulls the load down, so legs can pull against each other and no tension is the largest",
            ),
            Self::Flat { leg, angle } => write!(
                f,
                "leg \"{leg}\" stands at {:.0} degrees from the horizontal; rigging tables end at {FLATTEST:.0}",
                angle.value()
            ),
            Self::Leans { lean } => {
                write!(f, "the load leans {:.0} degrees; see that nothing can shift", lean.value())
            }
            Self::Neutral => f.write_str(
                "nothing holds the load from turning about the line of its lift points; a touch could turn it",
            ),
            Self::UnknownStretch { legs } => write!(
                f,
                "the stretch of {} is not given and is taken as 0.5 % at rated load; the tensions depend on it",
                list("leg", legs)
            ),
            Self::NoSource { parts } => {
                write!(f, "no source is given for the rating of {}; name the manual or data plate", parts.join(", "))
            }
            Self::Factor { factor } => write!(
                f,
                "every force is multiplied by {} before it is held against its rating: such a factor belongs to \
                 limit loads, a working load limit already has one",
                factor.value()
            ),
        }
    }
}

fn list(what: &str, names: &[Name]) -> String {
    let plural = if names.len() == 1 { "" } else { "s" };
    let names = names.iter().map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", ");
    format!("{what}{plural} {names}")
}
