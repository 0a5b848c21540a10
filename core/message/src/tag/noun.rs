use super::basis::Basis;
use crate::envelope::Kind;
use slingseal_rigging::RiggedLoad;
use slingseal_words::{
    CallSign, Description, GridRef, LoadNumber, Name, PlaceName, ProcedureId, Quantity, Seconds, Serial,
    Source, Time,
};

/// The most pieces of equipment on one tag: more would not fit a code that reads well.
pub const MOST_EQUIPMENT: usize = 12;

/// What hangs on the load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tag {
    /// The number that the load goes by.
    pub load: LoadNumber,
    /// When it was planned.
    pub planned: Time,
    /// What it is.
    pub description: Description,
    /// The procedure that it is inspected by.
    pub procedure: ProcedureId,
    /// The planned gross mass.
    pub gross: Quantity,
    /// The aircraft's type.
    pub aircraft: Name,
    /// What the aircrew gives for this lift.
    pub allowable: Quantity,
    /// Where it is picked up.
    pub pickup: Zone,
    /// Where it goes.
    pub destination: Zone,
    /// Who rigged it, where the planner knows: that person never seals it.
    pub rigger: Option<CallSign>,
    /// The equipment on it.
    pub equipment: Vec<Equipment>,
    /// Which link sits in the grab hook of each chain leg.
    pub links: Vec<LinkCount>,
    /// How it is rigged, for the statics. Its mass and allowable load are the tag's own.
    pub rigging: Option<RiggedLoad>,
    /// What it was planned and rigged by, where the planner says so.
    pub basis: Basis,
}

/// A pickup or landing zone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Zone {
    /// What it goes by.
    pub name: PlaceName,
    /// Where it is (MGRS).
    pub grid: Option<GridRef>,
}

/// One piece of equipment with a serial number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Equipment {
    /// What it is.
    pub kind: Name,
    /// Its serial number.
    pub serial: Serial,
    /// What it may carry.
    pub rating: Option<EquipmentRating>,
    /// The day (its first second, UTC) on which its next inspection is due.
    pub next_inspection: Option<Time>,
}

/// A rating never stands without its source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EquipmentRating {
    /// A force, or a mass that counts with its weight.
    pub value: Quantity,
    /// The manual or data plate that says so.
    pub source: Source,
}

/// The link that the plan wants in a leg's grab hook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LinkCount {
    /// The leg.
    pub leg: Name,
    /// The link, counted from the free end.
    pub link: u16,
}

impl Tag {
    /// Which kind of message it is: a tag that says nothing of its basis is an `LT1`, as every tag once was; any other an
    /// `LT2`. What it says decides, so that one tag has one spelling.
    pub fn kind(&self) -> Kind {
        if self.basis.is_empty() { Kind::Tag } else { Kind::TagWithBasis }
    }

    /// Whether the load weighs more than the aircraft is allowed.
    pub fn over_allowable(&self) -> bool {
        outweighs(self.gross, self.allowable) == Some(true)
    }
}

impl Equipment {
    /// The last second of the day on which its next inspection is due: it is good until then, and overdue after.
    pub fn good_until(&self) -> Option<Time> {
        self.next_inspection.map(|due| due.plus(Seconds(Seconds::days(1).0 - 1)))
    }

    /// Whether the day of its next inspection is past.
    pub fn overdue(&self, now: Time) -> bool {
        self.good_until().is_some_and(|good_until| now > good_until)
    }

    /// Whether `gross` is more than its rating.
    pub fn overloaded(&self, gross: Quantity) -> bool {
        self.rating.as_ref().is_some_and(|rating| outweighs(gross, rating.value) == Some(true))
    }
}

/// Whether a mass weighs more than a limit, which is a mass or a force, allows; `None` where either is neither. Equal within what
/// two units of one quantity differ by in the last bits of a float.
pub fn outweighs(gross: Quantity, limit: Quantity) -> Option<bool> {
    let (weight, limit) = (gross.newtons()?, limit.newtons()?);
    Some(weight.value() > limit.value() * (1.0 + 1e-9))
}
