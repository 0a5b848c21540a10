//! What one device carries to another without a network: a bundle, by file or by a moving code.

mod frames;

pub use frames::{FrameError, FrameReader, FrameWriter, Heard, Progress};
