//! What the tests share.

pub mod degrade;
