//! Whole days, through the facade alone.
