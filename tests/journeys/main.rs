//! Whole days, through the facade alone.

mod class;
mod closing_day;
mod damaged_bundle;
mod flood_day;
mod large_account;
mod leader_day;
mod lift_day;
mod merge_laws;
mod together;
mod unit_day;
mod zone;
