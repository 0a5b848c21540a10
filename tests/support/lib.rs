//! What the tests share.

pub mod degrade;
pub mod scripted;
