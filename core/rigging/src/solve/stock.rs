//! What is at hand besides what the file rigs: sling sets, and ropes of other lengths.

use slingseal_catalogue::rigging as words;
use slingseal_words::{Dimension, Name, Part, Quantity};

use crate::keys::{read_chain, read_leg_part, tell};
use crate::load::{Chain, LegPart, Rating, Reach};
use crate::{Leg, RiggedLoad};

/// Slings and ropes at hand.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stock {
    /// Whole sets: all legs of a load are of one.
    pub sets: Vec<SlingSet>,
    /// For each leg of the file, in its order, the ropes that it could have instead.
    pub ropes: Vec<Vec<Quantity>>,
}

/// A set of like sling legs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SlingSet {
    /// What it goes by: its name or serial.
    pub name: Name,
    /// How many legs it has.
    pub legs: usize,
    /// The ropes that it can be made up with.
    pub ropes: Vec<Quantity>,
    /// Its chains; `seated` is not looked at.
    pub chain: Option<Chain>,
    /// How much longer a leg gets at its rated load.
    pub stretch: Option<Quantity>,
    /// What a leg may carry as a whole.
    pub rated: Option<Rating>,
    /// What a leg is made of.
    pub parts: Vec<LegPart>,
}

impl Stock {
    /// The most sets, and the most ropes of one leg or set.
    pub const MOST: usize = 16;
}

impl SlingSet {
    /// Each way to make up the set: one for each of its ropes.
    pub(super) fn reaches(&self) -> Vec<Reach> {
        match (&self.chain, self.ropes.is_empty()) {
            (Some(chain), true) => vec![Reach::Chain(chain.clone())],
            (Some(chain), false) => {
                self.ropes.iter().map(|rope| Reach::RopeAndChain(*rope, chain.clone())).collect()
            }
            (None, _) => self.ropes.iter().map(|rope| Reach::Length(*rope)).collect(),
        }
    }

    /// The load with its legs of this set.
    pub(super) fn on(&self, load: &RiggedLoad, reach: &Reach) -> RiggedLoad {
        let mut changed = load.clone();
        for leg in &mut changed.legs {
            leg.reach = reach.clone();
            leg.stretch = self.stretch;
            leg.rated = self.rated.clone();
            leg.parts = self.parts.clone();
        }
        changed
    }

    /// The weakest rating of a leg, N.
    pub(super) fn weakest(&self) -> f64 {
        let ratings = self.rated.iter().chain(self.parts.iter().map(|part| &part.rating));
        ratings.map(|rating| rating.newtons().value()).fold(f64::INFINITY, f64::min)
    }
}

/// Reads one `[[sling_set]]`.
pub(crate) fn read_set(part: &Part<'_>) -> Option<SlingSet> {
    let name = part.need("name", Name::new);
    let legs = part.integer("legs");
    if !part.has("legs") {
        crate::keys::missing::<i64>(part, "legs", "4");
    }
    let ropes = ropes(part, "ropes");
    let chain = part.part("chain").map(|part| read_chain(&part, false));
    let stretch = part.quantity("stretch", Dimension::Ratio);
    let rated = crate::keys::rating(part, "rated");
    let parts: Vec<_> = part.parts("part").iter().map(read_leg_part).collect();
    part.no_more();
    let chain = match chain {
        Some(chain) => Some(chain?),
        None => None,
    };
    let count = legs.and_then(|legs| usize::try_from(legs).ok());
    let fits = count.filter(|legs| (1..=RiggedLoad::MOST_LEGS).contains(legs));
    if legs.is_some() && fits.is_none() {
        let (what, mend) = (words::SetLegs, words::SetLegsMend);
        part.fault("legs", what, mend);
    }
    if chain.is_none() && !part.has("ropes") {
        let (what, mend) = (words::SetNoLength, words::SetNoLengthMend);
        part.fault("ropes", what, mend);
        return None;
    }
    let set = SlingSet {
        name: name?,
        legs: fits?,
        ropes: ropes?,
        chain,
        stretch,
        rated,
        parts: parts.into_iter().collect::<Option<_>>()?,
    };
    // A set is held to the same rules as a leg.
    let alike = |reach: Reach| Leg {
        name: set.name.clone(),
        hook: None,
        lift_point: [Quantity::from_thousandths(0, slingseal_words::Unit::M); 3]
            .map(|zero| zero.unwrap_or_else(|| unreachable!("nought is a quantity"))),
        reach,
        stretch: set.stretch,
        rated: set.rated.clone(),
        parts: set.parts.clone(),
    };
    for reach in set.reaches() {
        tell(part, alike(reach).wrong_alone());
    }
    Some(set)
}

/// Reads the ropes that a leg could have instead.
pub(crate) fn read_ropes(part: &Part<'_>) -> Vec<Quantity> {
    ropes(part, "ropes").unwrap_or_default()
}

fn ropes(part: &Part<'_>, key: &'static str) -> Option<Vec<Quantity>> {
    let texts = part.texts(key);
    let mut ropes = Vec::new();
    for text in texts.iter().take(Stock::MOST) {
        match Quantity::parse_as(text, Dimension::Length) {
            Ok(rope) if (0.0..=1_000.0).contains(&rope.si()) && rope.thousandths() > 0 => ropes.push(rope),
            Ok(_) => part.fault(key, words::RopeLength { text }, words::RopeLengthMend),
            Err(error) => part.fault_of(key, error.saying(), "\"12 ft\""),
        }
    }
    if texts.len() > Stock::MOST {
        let (what, mend) = (words::RopesMany { count: texts.len() }, words::RopesManyMend);
        part.fault(key, what, mend);
    }
    Some(ropes)
}
