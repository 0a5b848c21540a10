use slingseal_rigging::RiggedLoad;
use slingseal_words::{
    CallSign, Description, GridRef, LoadNumber, Name, PlaceName, ProcedureId, Quantity, Seconds, Serial,
    Source, Time,
};

/// The most pieces of equipment on one tag: more would not fit a code that reads well.
pub const MOST_EQUIPMENT: usize = 12;
/// The most legs on one tag.
pub const MOST_LEGS: usize = 8;

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

impl Equipment {
    /// Whether the day of its next inspection is past.
    pub fn overdue(&self, now: Time) -> bool {
        self.next_inspection.is_some_and(|due| now >= due.plus(Seconds::days(1)))
    }

    /// Whether `gross` is more than its rating.
    pub fn overloaded(&self, gross: Quantity) -> bool {
        let rating = self.rating.as_ref().and_then(|rating| rating.value.newtons());
        matches!((rating, gross.newtons()), (Some(rating), Some(gross)) if gross > rating)
    }
}
