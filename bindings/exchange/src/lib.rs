//! The account's common place: a PostgreSQL server that many desks push to and pull from.
//!
//! The server is trusted with nothing. What it gives is judged as if a stranger had handed it over, through the same door as a
//! bundle; what it holds back shows by the chains inside the words. It can be slow, lie, send garbage or go away: each costs one
//! clear line, and nothing here grows by what it sends. Nothing else of Slingseal knows of PostgreSQL.
#![forbid(unsafe_code)]

mod address;
mod connect;
mod error;
mod follow;
mod guard;
mod pull;
mod push;
mod server;

pub use address::Address;
pub use error::ExchangeError;
pub use follow::{Followed, follow};
pub use pull::Pulled;
pub use push::Pushed;
pub use server::Exchange;

/// What sets a server up, step by step: to be run once by whoever owns the database.
pub const SCHEMA: &str = include_str!("../schema/0001_words.sql");

/// The role of a desk, with the least rights that it needs.
pub const ROLES: &str = include_str!("../schema/roles.sql");

/// The newest step of the schema that this program knows.
pub const KNOWN_STEP: i32 = 1;
