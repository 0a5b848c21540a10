//! The rigged load as a person wrote it: every quantity is kept with its unit, so that nothing is lost on the way to
//! a message and back.

use std::collections::BTreeSet;

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::{Dimension, Metres, Name, Newtons, Quantity, Source};

use super::{RiggingError, Rule};

/// A load with what it hangs by. Axes of the load: x forward, y left, z up, from any datum on the load.
///
/// Built by [`read`](super::read) or field by field; [`check`](Self::check) tells whether it can be assessed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RiggedLoad {
    /// The gross mass.
    pub mass: Quantity,
    /// The centre of gravity, lengths.
    pub centre: [Quantity; 3],
    /// One hook, or two for a tandem lift.
    pub hooks: Vec<Hook>,
    /// What the aircrew gives for this lift.
    pub allowable: Option<Rating>,
    /// What all of a hook's load passes through: apex fitting, bag, net.
    pub parts: Vec<CommonPart>,
    /// One to eight legs, each from a hook to a lift point.
    pub legs: Vec<Leg>,
    /// The rule that the governing manual names; none where the file does not say.
    pub rule: Option<Rule>,
}

/// What a part may carry, with where that value comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rating {
    /// A force, or a mass that counts with its weight.
    pub value: Quantity,
    /// The manual, data plate or data sheet.
    pub source: Option<Source>,
}

/// A hook of the aircraft.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hook {
    /// What the aircrew calls it.
    pub name: Name,
    /// Where it is, lengths; only the position of two hooks to each other matters.
    pub at: [Quantity; 3],
    /// What it may carry.
    pub limit: Option<Rating>,
}

/// A part that all the load of a hook passes through.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CommonPart {
    /// What it is: `apex fitting`, `net`.
    pub name: Name,
    /// The hook whose load it carries; `None` is the whole load.
    pub hook: Option<Name>,
    /// What it may carry.
    pub rating: Rating,
}

/// One sling leg.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leg {
    /// What it goes by: `1`, `front left`.
    pub name: Name,
    /// Its hook; may be left out where there is one hook.
    pub hook: Option<Name>,
    /// Where it takes hold of the load, lengths.
    pub lift_point: [Quantity; 3],
    /// How long it is, unloaded.
    pub reach: Reach,
    /// How much longer it gets at its rated load; `None` where nobody knows.
    pub stretch: Option<Quantity>,
    /// What it may carry as a whole.
    pub rated: Option<Rating>,
    /// What it is made of, each with a rating of its own: chain, grab hook, clevis, lift point.
    pub parts: Vec<LegPart>,
}

/// One part of a leg.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LegPart {
    /// What it is.
    pub name: Name,
    /// What it may carry.
    pub rating: Rating,
}

/// How long a leg is, unloaded, from the hook to the lift point.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reach {
    /// Measured as a whole.
    Length(Quantity),
    /// A rope with a chain below it.
    RopeAndChain(Quantity, Chain),
    /// A chain alone.
    Chain(Chain),
}

/// A chain whose length is set by the link that sits in the grab hook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chain {
    /// How many links it has.
    pub links: u16,
    /// Which link, counted from its free end, sits in the grab hook: one more makes the leg shorter.
    pub seated: u16,
    /// From one link to the next.
    pub pitch: Quantity,
    /// How it runs.
    pub reeved: Reeved,
}

/// How a chain runs from the leg to the lift point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reeved {
    /// Through the lift point and back to the grab hook: a link counts half.
    Loop,
    /// Once from the grab hook to the lift point.
    Single,
}

impl Chain {
    /// The length that it adds to the leg.
    pub fn length(&self) -> Metres {
        let used = f64::from(self.links.saturating_sub(self.seated));
        let share = match self.reeved {
            Reeved::Loop => 0.5,
            Reeved::Single => 1.0,
        };
        Metres::new(used * self.pitch.si() * share).unwrap_or_default()
    }
}

impl Reach {
    /// The unloaded length of the leg.
    pub fn length(&self) -> Metres {
        let metres = match self {
            Self::Length(length) => length.si(),
            Self::RopeAndChain(rope, chain) => rope.si() + chain.length().value(),
            Self::Chain(chain) => chain.length().value(),
        };
        Metres::new(metres).unwrap_or_default()
    }

    /// The chain, if it has one.
    pub fn chain(&self) -> Option<&Chain> {
        match self {
            Self::Length(_) => None,
            Self::RopeAndChain(_, chain) | Self::Chain(chain) => Some(chain),
        }
    }

    /// The chain, if it has one, to be changed.
    pub fn chain_mut(&mut self) -> Option<&mut Chain> {
        match self {
            Self::Length(_) => None,
            Self::RopeAndChain(_, chain) | Self::Chain(chain) => Some(chain),
        }
    }

    /// The quantity whose unit a person thinks of the length in.
    pub(super) fn shown(&self) -> Quantity {
        match self {
            Self::Length(length) => *length,
            Self::RopeAndChain(rope, _) => *rope,
            Self::Chain(chain) => chain.pitch,
        }
    }
}

impl Leg {
    /// The weakest rating of the leg, with the part's name where it is a part's.
    pub fn weakest(&self) -> Option<(Option<&Name>, &Rating)> {
        let whole = self.rated.iter().map(|rating| (None, rating));
        let parts = self.parts.iter().map(|part| (Some(&part.name), &part.rating));
        whole.chain(parts).min_by(|(_, a), (_, b)| a.newtons().value().total_cmp(&b.newtons().value()))
    }
}

impl Rating {
    /// The rating as a force.
    pub fn newtons(&self) -> Newtons {
        self.value.newtons().unwrap_or_default()
    }
}

/// What is wrong, with the key of the file that it belongs to.
pub(super) type Wrong = (&'static str, RiggingError);

impl RiggedLoad {
    /// The most legs that are reckoned with.
    pub const MOST_LEGS: usize = 8;
    /// The most links that a chain may have.
    pub const MOST_LINKS: u16 = 2_000;
    /// The most parts that a leg may name, and the most common parts.
    pub const MOST_PARTS: usize = 16;

    /// Whether it can be assessed; a load that came in a message is checked here.
    ///
    /// # Errors
    /// The first thing that is wrong.
    pub fn check(&self) -> Result<(), RiggingError> {
        let mut wrong = self.wrong_in_load();
        wrong.extend(self.hooks.iter().flat_map(Hook::wrong));
        wrong.extend(self.parts.iter().flat_map(CommonPart::wrong));
        wrong.extend(self.legs.iter().flat_map(Leg::wrong));
        wrong.extend(self.wrong_hooks().map(|(_, wrong)| wrong));
        wrong.extend(self.wrong_names().map(|(_, wrong)| wrong));
        wrong.into_iter().next().map_or(Ok(()), |(_, error)| Err(error))
    }

    /// The hook of a leg: its place in `hooks`.
    pub fn hook_of(&self, leg: &Leg) -> Option<usize> {
        self.place_of_hook(leg.hook.as_ref())
    }

    pub(super) fn place_of_hook(&self, name: Option<&Name>) -> Option<usize> {
        match name {
            Some(name) => self.hooks.iter().position(|hook| hook.name == *name),
            None => (self.hooks.len() == 1).then_some(0),
        }
    }

    pub(super) fn wrong_in_load(&self) -> Vec<Wrong> {
        let mut wrong = wrong_load(self.mass, &self.centre);
        wrong.extend(wrong_counts(self.hooks.len(), self.legs.len(), self.parts.len()));
        if let Some(allowable) = &self.allowable {
            wrong.extend(wrong_rating("allowable", allowable, || words::TheAircraft.into()));
        }
        wrong
    }

    /// Legs and common parts whose hook is not known; legs come first and are counted on into the parts.
    pub(super) fn wrong_hooks(&self) -> impl Iterator<Item = (usize, Wrong)> {
        let legs = self
            .legs
            .iter()
            .map(|leg| (leg.hook.as_ref(), Saying::from(words::NamedLeg { name: &leg.name }), true));
        let parts = self.parts.iter().map(|part| {
            let what = Saying::from(words::NamedPart { name: &part.name });
            (part.hook.as_ref(), what, part.hook.is_some())
        });
        legs.chain(parts).enumerate().filter_map(|(at, (name, what, needed))| {
            let error = match name {
                _ if self.place_of_hook(name).is_some() || !needed || self.hooks.is_empty() => return None,
                Some(hook) => RiggingError::UnknownHook { what, hook: hook.to_string(), known: self.known() },
                None => RiggingError::WhichHook { what, known: self.known() },
            };
            Some((at, ("hook", error)))
        })
    }

    /// Hooks and legs that have the name of an earlier one; hooks come first and are counted on into the legs.
    pub(super) fn wrong_names(&self) -> impl Iterator<Item = (usize, Wrong)> {
        let mut seen = BTreeSet::new();
        let hooks = self.hooks.iter().map(|hook| (true, &hook.name));
        let legs = self.legs.iter().map(|leg| (false, &leg.name));
        hooks.chain(legs).enumerate().filter_map(move |(at, (hook, name))| {
            let twice = !seen.insert((hook, name.clone()));
            twice.then(|| (at, ("name", RiggingError::Twice { hook, name: name.to_string() })))
        })
    }

    fn known(&self) -> String {
        self.hooks.iter().map(|hook| format!("\"{}\"", hook.name)).collect::<Vec<_>>().join(", ")
    }
}

pub(super) fn wrong_load(mass: Quantity, centre: &[Quantity; 3]) -> Vec<Wrong> {
    let mut wrong = wrong_positive("mass", mass, Dimension::Mass, || words::TheLoad.into());
    wrong.extend(wrong_place("centre", centre, || words::TheLoad.into()));
    wrong
}

pub(super) fn wrong_counts(hooks: usize, legs: usize, parts: usize) -> Vec<Wrong> {
    let mut wrong = Vec::new();
    if !(1..=2).contains(&hooks) {
        wrong.push(("hook", RiggingError::Hooks(hooks)));
    }
    if !(1..=RiggedLoad::MOST_LEGS).contains(&legs) {
        wrong.push(("leg", RiggingError::Legs(legs)));
    }
    if parts > RiggedLoad::MOST_PARTS {
        wrong.push(("part", RiggingError::Parts(parts)));
    }
    wrong
}

impl Hook {
    pub(super) fn wrong(&self) -> Vec<Wrong> {
        let what = || Saying::from(words::NamedHook { name: &self.name });
        let mut wrong = wrong_place("at", &self.at, what);
        wrong.extend(self.limit.iter().flat_map(|limit| wrong_rating("limit", limit, what)));
        wrong
    }
}

impl CommonPart {
    pub(super) fn wrong(&self) -> Vec<Wrong> {
        wrong_rating("rated", &self.rating, || words::NamedPart { name: &self.name }.into())
    }
}

impl LegPart {
    pub(super) fn wrong(&self) -> Vec<Wrong> {
        wrong_rating("rated", &self.rating, || words::NamedPart { name: &self.name }.into())
    }
}

impl Leg {
    pub(super) fn wrong(&self) -> Vec<Wrong> {
        let mut wrong = self.wrong_alone();
        wrong.extend(self.parts.iter().flat_map(LegPart::wrong));
        wrong
    }

    /// What is wrong in the leg, its parts apart.
    pub(super) fn wrong_alone(&self) -> Vec<Wrong> {
        let what = || Saying::from(words::NamedLeg { name: &self.name });
        let mut wrong = wrong_place("lift_point", &self.lift_point, what);
        match &self.reach {
            Reach::Length(length) => wrong.extend(wrong_length("length", *length, what)),
            Reach::RopeAndChain(rope, chain) => {
                wrong.extend(wrong_length("rope", *rope, what));
                wrong.extend(chain.wrong(what));
            }
            Reach::Chain(chain) => wrong.extend(chain.wrong(what)),
        }
        if let Some(stretch) = self.stretch {
            let fits = stretch.unit().dimension() == Dimension::Ratio && (0.0..=0.5).contains(&stretch.si());
            if !fits || stretch.si() <= 0.0 {
                wrong.push(("stretch", RiggingError::Stretch { what: what(), stretch }));
            }
        }
        wrong.extend(self.rated.iter().flat_map(|rating| wrong_rating("rated", rating, what)));
        if self.rated.is_none() && self.parts.is_empty() {
            wrong.push(("rated", RiggingError::Unrated(what())));
        }
        if self.parts.len() > RiggedLoad::MOST_PARTS {
            wrong.push(("part", RiggingError::Parts(self.parts.len())));
        }
        wrong
    }
}

impl Chain {
    pub(super) fn wrong(&self, what: impl Fn() -> Saying) -> Vec<Wrong> {
        let mut wrong = wrong_length("chain", self.pitch, &what);
        if self.links > RiggedLoad::MOST_LINKS {
            wrong.push(("chain", RiggingError::Links { what: what(), links: self.links.into() }));
        }
        if self.seated == 0 || self.seated >= self.links {
            let (seated, links) = (self.seated.into(), self.links.into());
            wrong.push(("chain", RiggingError::Seated { what: what(), seated, links }));
        }
        wrong
    }
}

/// No sling and no load is longer: a slip of the decimal point stops here.
const LONGEST: f64 = 1_000.0;

fn wrong_positive(
    key: &'static str,
    value: Quantity,
    dimension: Dimension,
    what: impl Fn() -> Saying,
) -> Vec<Wrong> {
    if value.unit().dimension() != dimension {
        return vec![(key, RiggingError::WrongUnit { what: what(), key, value, wanted: dimension })];
    }
    if value.thousandths() <= 0 {
        return vec![(key, RiggingError::NotPositive { what: what(), key, value })];
    }
    Vec::new()
}

fn wrong_length(key: &'static str, value: Quantity, what: impl Fn() -> Saying) -> Vec<Wrong> {
    let mut wrong = wrong_positive(key, value, Dimension::Length, &what);
    if wrong.is_empty() && value.si() > LONGEST {
        wrong.push((key, RiggingError::TooLong { what: what(), key, value }));
    }
    wrong
}

fn wrong_place(key: &'static str, place: &[Quantity; 3], what: impl Fn() -> Saying) -> Vec<Wrong> {
    let wrong = place.iter().copied().find_map(|value| {
        if value.unit().dimension() != Dimension::Length {
            let wanted = Dimension::Length;
            return Some((key, RiggingError::WrongUnit { what: what(), key, value, wanted }));
        }
        (value.si().abs() > LONGEST).then(|| (key, RiggingError::TooLong { what: what(), key, value }))
    });
    wrong.into_iter().collect()
}

fn wrong_rating(key: &'static str, rating: &Rating, what: impl Fn() -> Saying) -> Vec<Wrong> {
    let dimension = match rating.value.unit().dimension() {
        Dimension::Mass => Dimension::Mass,
        _ => Dimension::Force,
    };
    wrong_positive(key, rating.value, dimension, what)
}
