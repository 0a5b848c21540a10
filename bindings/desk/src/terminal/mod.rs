//! The walk in the terminal: full screen by single keys, or one answer a line.

mod acts;
mod draw;
mod draw_seal;
mod exam;
mod findings;
mod foot;
mod keys;
mod lines;
mod look;
mod model;
mod practice;
mod screen;
mod start;
mod status;
#[cfg(test)]
mod tests;

pub(crate) use lines::run as lines;
pub(crate) use screen::{Ask, run as screen};
