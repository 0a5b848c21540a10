//! Whole days, through the facade alone.

mod flood_day;
mod zone;
