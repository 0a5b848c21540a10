//! What an assessment says. Forces in newtons, angles in degrees; warnings and reasons in the units of the input.

use std::fmt;

use slingseal_catalogue::{Argument, Saying, ToArgument, rigging as words};
use slingseal_words::{Degrees, Metres, Name, Newtons, Quantity, Ratio, Source};

use super::RiggingError;
use super::limits::{Beyond, State, Verdict, over};

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
    /// Which part.
    pub part: HeldPart,
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

/// A part that is held against what it carries. Its `Display`, `hook main`, `leg 1, grab hook`, `aircraft allowable`, is that of
/// the stable output.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HeldPart {
    /// What the aircrew allows.
    Aircraft,
    /// A part that all the load, or a hook's, passes through.
    Common(Name),
    /// A hook.
    Hook(Name),
    /// A leg as a whole.
    Leg(Name),
    /// A part of a leg.
    OfLeg {
        /// The leg.
        leg: Name,
        /// The part.
        part: Name,
    },
}

impl HeldPart {
    /// What it is called.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Aircraft => words::PartAircraft.into(),
            Self::Common(name) => Saying::verbatim(name),
            Self::Hook(hook) => words::PartHook { hook }.into(),
            Self::Leg(leg) => words::PartLeg { leg }.into(),
            Self::OfLeg { leg, part } => words::PartOfLeg { leg, part }.into(),
        }
    }
}

impl fmt::Display for HeldPart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
    }
}

impl serde::Serialize for HeldPart {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl ToArgument for HeldPart {
    fn to_argument(&self) -> Argument {
        Argument::Said(self.saying())
    }
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
        /// On which side of it.
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

impl Side {
    /// On which side of the centre of gravity.
    fn saying(self) -> Saying {
        match self {
            Self::Ahead => words::SideAhead.into(),
            Self::Behind => words::SideBehind.into(),
            Self::Left => words::SideLeft.into(),
            Self::Right => words::SideRight.into(),
        }
    }
}

impl Infeasible {
    /// Why it does not hang; what to do.
    pub fn saying(&self) -> Saying {
        let whole = |lean: &Degrees| format!("{:.0}", lean.value());
        match self {
            Self::NotValid(error) => error.saying(),
            Self::TooShort { leg, length, closes } => words::WhyTooShort { leg, length, closes }.into(),
            Self::OutOfStep { lean, leg, length, closes } => {
                words::WhyOutOfStep { lean: whole(lean), leg, length, closes }.into()
            }
            Self::HookBelow { below, leg, length, level } => {
                words::WhyHookBelow { below, leg, length, level }.into()
            }
            Self::OneSide { side, outside } => words::WhyOneSide { side: side.saying(), outside }.into(),
            Self::TurnsOver { lean } => words::WhyTurnsOver { lean: whole(lean) }.into(),
            Self::NoBalance => words::WhyNoBalance.into(),
        }
    }
}

impl fmt::Display for Infeasible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
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
        parts: Vec<HeldPart>,
    },
    /// Forces were multiplied.
    Factor {
        /// By this.
        factor: Ratio,
    },
}

/// Flatter than this, rigging tables end (EN 818-4: 60 degrees from the vertical; ASME B30.9: 30 from the horizontal).
pub(super) const FLATTEST: f64 = 30.0;

impl Warning {
    /// What to know; what to do.
    pub fn saying(&self) -> Saying {
        let percent = |share: &Ratio| crate::shown::percent(*share);
        match self {
            // Two lengths that look the same would tell nothing.
            Self::Slack { leg, length, closes } if length == closes => {
                words::WarnJustSlack { leg, length }.into()
            }
            Self::Slack { leg, length, closes } => words::WarnSlack { leg, length, closes }.into(),
            Self::WorstCase { legs, utilisation } => {
                words::WarnWorstCase { legs: list(legs), percent: percent(utilisation) }.into()
            }
            Self::Rule { legs: 2, utilisation } => {
                words::WarnRuleTwo { percent: percent(utilisation) }.into()
            }
            Self::Rule { utilisation, .. } => words::WarnRuleThree { percent: percent(utilisation) }.into(),
            Self::NoWorstCase => words::WarnNoWorstCase.into(),
            Self::Flat { leg, angle } => {
                let (angle, end) = (format!("{:.0}", angle.value()), format!("{FLATTEST:.0}"));
                words::WarnFlat { leg, angle, end }.into()
            }
            Self::Leans { lean } => words::WarnLeans { lean: format!("{:.0}", lean.value()) }.into(),
            Self::Neutral => words::WarnNeutral.into(),
            Self::UnknownStretch { legs } => words::WarnUnknownStretch { legs: list(legs) }.into(),
            Self::NoSource { parts } => {
                let parts = Saying::joined(parts.iter().map(HeldPart::saying), ", ");
                words::WarnNoSource { parts }.into()
            }
            Self::Factor { factor } => words::WarnFactor { factor: factor.value().to_string() }.into(),
        }
    }
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
    }
}

fn list(names: &[Name]) -> Saying {
    let quoted = names.iter().map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", ");
    words::LegsNamed { count: names.len(), names: quoted }.into()
}
