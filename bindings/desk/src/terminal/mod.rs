//! The walk in the terminal: full screen by single keys, or one answer a line.

mod acts;
mod draw;
mod exam;
mod findings;
mod keys;
mod lines;
mod look;
mod menu;
mod model;
mod practice;
mod questions;
mod screen;
mod start;
mod status;
#[cfg(test)]
mod tests;

pub(crate) use lines::run as lines;
pub(crate) use screen::{Ask, run as screen};
