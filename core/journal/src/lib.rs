//! The hash chain in which a device keeps its evidence. Pure: where entries are kept is the store's business, what their
//! bodies say is the facade's.
#![forbid(unsafe_code)]

mod chain;
#[cfg(feature = "columns")]
mod columns;
#[cfg(test)]
mod tests;

pub use chain::{ChainCheck, ChainFault, DeviceId, Entry, EntryParts, Head, NewEntry, WalkId, verify_chain};
