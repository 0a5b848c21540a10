//! What the tests share.

pub mod command_lines;
pub mod degrade;
pub mod full_home;
pub mod hard_pictures;
pub mod many;
pub mod scripted;
pub mod targets;
