//! The verifier for a browser, or for any program that runs WebAssembly: the crates that a verifier must trust, behind a surface
//! of JSON. It decides nothing of its own: what counts, what is kept and what the verdict is, the judgement says.
//!
//! A [`Device`] is a device without a disk: whom it trusts and what it knows is put in, and lasts as long as the module runs.

mod device;
mod frame;
mod surface;
mod views;
mod words;

pub use device::{Device, DeviceError};
pub use frame::{FrameReader, luminance};
pub use surface::Surface;
