//! What travels between desks, and what a leader asks of it. Pure: bytes, rows and moments in, answers out.
#![forbid(unsafe_code)]

pub mod audit;
pub mod report;
pub mod sync;
