use slingseal_catalogue::{Language, Saying, walk as words};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::procedure::{Expanded, Point, Subject};
use slingseal_message::tag::{Equipment, Tag, outweighs};
use slingseal_words::{
    CallSign, Digest, Name, Note, ProcedureId, Quantity, Serial, Source, Time, same_person,
};

use super::wire;

/// What a walk stands on and never changes: the written-out procedure, what the tag says, and who inspects.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ground {
    /// The procedure, in any language: numbers and ids are the same in all. Many walks share one.
    pub plan: Arc<Expanded>,
    /// What the tag says.
    pub facts: LoadFacts,
    /// Who inspects, from the first card to the decision.
    pub inspector: CallSign,
}

/// What the tag says that the walk needs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LoadFacts {
    /// What is walked: the load's number; of what is no load its name, a piece's serial number among them.
    pub load: Serial,
    /// SHA-256 of the tag's bytes: a walk of one tag never passes for a walk of another.
    pub tag: Digest,
    /// The procedure that the tag asks for.
    pub procedure: ProcedureId,
    /// Who built the load, if the tag says so.
    pub rigger: Option<CallSign>,
    /// Planned gross mass; none where no load is inspected but a piece, an aircraft's hooks or a zone.
    pub gross: Option<Quantity>,
    /// What the aircrew allows for this lift, if the tag says so.
    pub allowable: Option<Quantity>,
    /// What it hangs by.
    pub equipment: Vec<EquipmentFact>,
    /// The link count that each leg must have, by the leg's name.
    pub links: BTreeMap<String, u32>,
    /// Under which conditions of the procedure the load is inspected; none where the tag does not say.
    pub conditions: Option<BTreeSet<String>>,
}

impl LoadFacts {
    /// What a tag says, whose bytes have this digest.
    pub fn of(tag: &Tag, digest: Digest) -> Self {
        let piece = |piece: &Equipment| EquipmentFact {
            serial: piece.serial.clone(),
            kind: piece.kind.clone(),
            rating: piece.rating.as_ref().map(|rating| rating.value),
            source: piece.rating.as_ref().map(|rating| rating.source.clone()),
            good_until: piece.good_until(),
        };
        Self {
            load: Serial::from(&tag.load),
            tag: digest,
            procedure: tag.procedure.clone(),
            rigger: tag.rigger.clone(),
            gross: Some(tag.gross),
            allowable: Some(tag.allowable),
            equipment: tag.equipment.iter().map(piece).collect(),
            links: tag.links.iter().map(|count| (count.leg.to_string(), u32::from(count.link))).collect(),
            conditions: tag
                .basis
                .conditions
                .as_ref()
                .map(|set| set.iter().map(|condition| condition.to_string()).collect()),
        }
    }
}

/// One piece of equipment on the tag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EquipmentFact {
    /// Its serial number.
    pub serial: Serial,
    /// What it is.
    pub kind: Name,
    /// What it may carry, if the tag says so: a mass or a force.
    pub rating: Option<Quantity>,
    /// Where the rating comes from.
    pub source: Option<Source>,
    /// The last second before its next inspection is overdue, if the tag says so.
    pub good_until: Option<Time>,
}

/// What the tag itself shows to be wrong: a deficiency that nobody has to find. It is mended by a new tag and a new walk.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TagFault {
    /// A piece of equipment whose next inspection is past.
    InspectionPast {
        /// Which piece.
        #[serde(with = "wire::line")]
        serial: Serial,
        /// What it is.
        #[serde(with = "wire::line")]
        kind: Name,
        /// When its inspection was due.
        #[serde(with = "wire::line")]
        due: Time,
    },
    /// The gross mass is over what the aircrew allows.
    OverAllowable {
        /// Gross mass.
        #[serde(with = "wire::line")]
        gross: Quantity,
        /// What is allowed.
        #[serde(with = "wire::line")]
        allowable: Quantity,
    },
    /// The gross mass is over a rating on the tag.
    OverRating {
        /// Gross mass.
        #[serde(with = "wire::line")]
        gross: Quantity,
        /// What the piece may carry.
        #[serde(with = "wire::line")]
        rating: Quantity,
        /// Which piece.
        #[serde(with = "wire::line")]
        serial: Serial,
        /// What it is.
        #[serde(with = "wire::line")]
        kind: Name,
    },
    /// The procedure counts the links of a leg and the tag has no count for it.
    NoLinkCount {
        /// The leg.
        leg: String,
    },
    /// A piece that was rejected in an inspection and not found fit since.
    Rejected {
        /// Which piece.
        #[serde(with = "wire::line")]
        serial: Serial,
        /// What was found at it.
        why: String,
        /// When.
        #[serde(with = "wire::line")]
        at: Time,
    },
    /// A value that should be a mass, or a mass or force, is neither, so that nothing can be held against it.
    NotAMass {
        /// Which value.
        what: String,
        /// The value.
        #[serde(with = "wire::line")]
        value: Quantity,
    },
}

/// How events name a value, since the first release; a reader is told by [`noun`].
const GROSS: &str = "gross mass";
const ALLOWABLE: &str = "allowable load";
const RATING: &str = "rating of ";

/// A value as a reader calls it.
fn noun(what: &str) -> Saying {
    match (what, what.strip_prefix(RATING)) {
        (GROSS, _) => words::NounGrossMass.into(),
        (ALLOWABLE, _) => words::NounAllowable.into(),
        (_, Some(piece)) => words::NounRatingOf { piece }.into(),
        (other, None) => Saying::verbatim(other),
    }
}

impl TagFault {
    /// What the tag shows to be wrong, in one line.
    pub fn saying(&self) -> Saying {
        match self {
            Self::InspectionPast { serial, kind, due } => {
                words::TagInspectionPast { kind, serial, due: due.dtg() }.into()
            }
            Self::OverAllowable { gross, allowable } => words::TagOverAllowable { gross, allowable }.into(),
            Self::OverRating { gross, rating, serial, kind } => {
                words::TagOverRating { gross, rating, kind, serial }.into()
            }
            Self::Rejected { serial, why, at } => words::TagRejected { serial, why, at: at.dtg() }.into(),
            Self::NoLinkCount { leg } => words::TagNoLinkCount { leg }.into(),
            Self::NotAMass { what, value } => words::TagNotAMass { what: noun(what), value }.into(),
        }
    }

    /// The same in a language.
    pub fn say(&self, language: Language) -> String {
        self.saying().say(language)
    }
}

impl fmt::Display for TagFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.saying().fmt(f)
    }
}

/// What the statics of the rigging said, as far as the decision needs it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RiggingFinding {
    /// Whether every part stays within its rating and the load can hang so.
    pub within_limits: bool,
    /// What governs, in one line with its numbers.
    #[serde(with = "wire::line")]
    pub summary: Note,
}

impl LoadFacts {
    /// What is wrong on the tag's own showing at `now`.
    pub fn faults(&self, now: Time, plan: &Expanded) -> Vec<TagFault> {
        let mut faults = Vec::new();
        for piece in &self.equipment {
            if let Some(due) = piece.good_until.filter(|good_until| now > *good_until) {
                let (serial, kind) = (piece.serial.clone(), piece.kind.clone());
                faults.push(TagFault::InspectionPast { serial, kind, due });
            }
        }
        if let Some(gross) = self.gross {
            match gross.kilograms() {
                Some(_) => self.mass_faults(gross, &mut faults),
                None => faults.push(TagFault::NotAMass { what: GROSS.into(), value: gross }),
            }
        }
        for leg in plan.legs_of_tag() {
            if !self.links.contains_key(leg) {
                faults.push(TagFault::NoLinkCount { leg: leg.to_owned() });
            }
        }
        faults
    }

    fn mass_faults(&self, gross: Quantity, faults: &mut Vec<TagFault>) {
        if let Some(allowable) = self.allowable {
            match outweighs(gross, allowable) {
                Some(true) => faults.push(TagFault::OverAllowable { gross, allowable }),
                Some(false) => {}
                None => faults.push(TagFault::NotAMass { what: ALLOWABLE.into(), value: allowable }),
            }
        }
        for piece in &self.equipment {
            let Some(rating) = piece.rating else { continue };
            match outweighs(gross, rating) {
                Some(true) => {
                    let (serial, kind) = (piece.serial.clone(), piece.kind.clone());
                    faults.push(TagFault::OverRating { gross, rating, serial, kind });
                }
                Some(false) => {}
                None => {
                    let what = format!("{RATING}{} {}", piece.kind, piece.serial);
                    faults.push(TagFault::NotAMass { what, value: rating });
                }
            }
        }
    }

    /// The serials that equipment of a kind may have: those of that kind, or all where the tag names none of it.
    pub(super) fn serials_of(&self, kind: Option<&str>) -> Vec<&Serial> {
        let wanted = kind.map(str::to_lowercase);
        let of_kind = |piece: &&EquipmentFact| match &wanted {
            Some(kind) => piece.kind.as_str().to_lowercase().contains(kind),
            None => true,
        };
        let named: Vec<&Serial> = self.equipment.iter().filter(of_kind).map(|piece| &piece.serial).collect();
        if named.is_empty() { self.equipment.iter().map(|piece| &piece.serial).collect() } else { named }
    }

    /// The one piece of equipment of a kind that the tag names; none where it names none, or several.
    pub(super) fn only_piece_of(&self, kind: &str, subject: Subject) -> Option<&Serial> {
        if subject == Subject::Piece {
            return self.equipment.first().map(|piece| &piece.serial);
        }
        let kind = kind.to_lowercase();
        let mut of_kind =
            self.equipment.iter().filter(|piece| piece.kind.as_str().to_lowercase().contains(&kind));
        let only = of_kind.next()?;
        of_kind.next().is_none().then_some(&only.serial)
    }

    /// Whether a point counts for this load. Where the tag does not say, it does: nobody knows that it may be passed over.
    pub fn counts(&self, point: &Point) -> bool {
        match (&point.rules.when, &self.conditions) {
            (Some(when), Some(conditions)) => conditions.contains(when),
            _ => true,
        }
    }

    /// Whether a point may be answered "not applicable": where its procedure says so, and where it counts under a condition
    /// that the tag says nothing of.
    pub fn may_not_apply(&self, point: &Point) -> bool {
        point.rules.may_not_apply || (point.rules.when.is_some() && self.conditions.is_none())
    }

    /// Whether this person built the load.
    pub(super) fn rigged_by(&self, person: &CallSign) -> bool {
        self.rigger.as_ref().is_some_and(|rigger| same_person(rigger, person))
    }
}
