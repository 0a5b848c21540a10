//! The rules of Slingseal: tag, walk, record, seal, code, verdict.
//!
//! Every module at this level is a room. A room speaks only to rooms below it; `tests/rooms` reads the sources
//! and fails on an upward mention. Nothing here draws a screen, opens a socket, reads the wall clock or asks the
//! machine for randomness: those are injected.
#![forbid(unsafe_code)]

pub mod app;
pub mod envelope;
pub mod exam;
pub mod judgement;
pub mod procedure;
pub mod qr;
pub mod report;
pub mod rigging;
pub mod seal;
pub mod store;
pub mod sync;
pub mod tag;
pub mod trust;
pub mod walk;
pub mod words;
