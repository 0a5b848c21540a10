//! Chain links: what if another link sat in the grab hook.

use slingseal_words::{Degrees, Name, Newtons};

use super::assess::{Options, assess_with};
use super::{Assessment, Leg, RiggedLoad, RiggingError};

/// The link that is to sit in one leg's grab hook, as asked for: `2=5`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SeatedLink {
    /// The leg.
    pub leg: Name,
    /// The link.
    pub link: u16,
}

impl SeatedLink {
    /// Reads `LEG=N`.
    ///
    /// # Errors
    /// A text of another form.
    pub fn parse(text: &str) -> Result<Self, RiggingError> {
        let wrong = || RiggingError::NotLinks(text.to_owned());
        let (leg, link) = text.rsplit_once('=').ok_or_else(wrong)?;
        Ok(Self {
            leg: Name::new(leg).map_err(|_| wrong())?,
            link: link.trim().parse().map_err(|_| wrong())?,
        })
    }
}

impl RiggedLoad {
    /// The same load with other links in the grab hooks.
    ///
    /// # Errors
    /// A leg that is not there or has no chain, a link beyond the chain.
    pub fn with_links(&self, links: &[SeatedLink]) -> Result<Self, RiggingError> {
        let mut changed = self.clone();
        for SeatedLink { leg: name, link } in links {
            let leg = changed.legs.iter_mut().find(|leg| leg.name == *name);
            let Some(leg) = leg else {
                let known = self.legs.iter().map(|leg| format!("\"{}\"", leg.name)).collect::<Vec<_>>();
                return Err(RiggingError::UnknownLeg { leg: name.to_string(), known: known.join(", ") });
            };
            let Some(chain) = leg.reach.chain_mut() else {
                return Err(RiggingError::NoChain { leg: name.to_string() });
            };
            chain.seated = *link;
        }
        changed.check()?;
        Ok(changed)
    }
}

/// What one link does to the load.
#[derive(Clone, Debug, PartialEq)]
pub struct LinkEffect {
    /// The leg.
    pub leg: Name,
    /// The link in its grab hook.
    pub seated: u16,
    /// With the next link in it: the leg is shorter. `None` where the chain has no such link.
    pub one_more: Option<LinkChange>,
    /// With the link before in it: the leg is longer.
    pub one_less: Option<LinkChange>,
}

/// How the load hangs with another link.
#[derive(Clone, Debug, PartialEq)]
pub enum LinkChange {
    /// It hangs.
    Hangs {
        /// Nose up is positive.
        pitch: Degrees,
        /// Left side up is positive.
        roll: Degrees,
        /// The largest tension of all legs, with the leg that has it.
        largest: (Name, Newtons),
        /// Whether a part is over its rating.
        over_limit: bool,
    },
    /// It does not hang.
    Infeasible,
}

/// What one link more and one less do, for each leg with a chain.
pub fn link_effects(load: &RiggedLoad, options: &Options) -> Vec<LinkEffect> {
    let chains = load.legs.iter().filter_map(|leg| leg.reach.chain().map(|chain| (leg, chain.seated)));
    chains
        .map(|(leg, seated)| LinkEffect {
            leg: leg.name.clone(),
            seated,
            one_more: seated.checked_add(1).and_then(|link| change(load, leg, link, options)),
            one_less: seated.checked_sub(1).and_then(|link| change(load, leg, link, options)),
        })
        .collect()
}

fn change(load: &RiggedLoad, leg: &Leg, link: u16, options: &Options) -> Option<LinkChange> {
    let changed = load.with_links(&[SeatedLink { leg: leg.name.clone(), link }]).ok()?;
    Some(assess_with(&changed, options).into())
}

impl From<Assessment> for LinkChange {
    fn from(assessment: Assessment) -> Self {
        let over_limit = assessment.verdict == super::Verdict::OverLimit;
        let hang = assessment.hang.and_then(|hang| {
            let largest = hang.legs.iter().max_by(|a, b| a.tension.value().total_cmp(&b.tension.value()))?;
            let largest = (largest.name.clone(), largest.tension);
            Some(Self::Hangs { pitch: hang.pitch, roll: hang.roll, largest, over_limit })
        });
        hang.unwrap_or(Self::Infeasible)
    }
}
