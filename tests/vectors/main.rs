//! What a stranger's device answers to seals that are copied, swapped, forged, stale or simply wrong: frozen vectors, each
//! judged by the program and taken apart by code that shares nothing with it; and every flipped bit, every cut, and junk.

#![expect(clippy::disallowed_methods, reason = "how long a message takes is measured")]

mod closing;
mod exhaustive;
mod frozen;
mod independent;
mod vector;
