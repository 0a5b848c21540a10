//! The load tag: what hangs on the load, as a plan, as a message, and read back.

mod basis;
mod list;
mod noun;
mod plan;
mod rigging_wire;
mod wire;

#[cfg(test)]
mod tests;

pub use basis::{
    AirspeedLimit, Basis, Condition, LegSerial, MOST_CONDITIONS, MOST_LEGS, Manual, WeightSource,
};
pub use list::read_list;
pub use noun::{Equipment, EquipmentRating, LinkCount, MOST_EQUIPMENT, Tag, Zone, outweighs};
pub use plan::{Plan, read_plan};
pub use wire::{ReceivedTag, TagError, kind_of_tag};
