//! Text to code picture and back: writes codes that read best, reads them from pictures and camera luminance.
//!
//! Knows nothing of what the text means. Where a text is signed, the caller passes a check (`accept`), and reading
//! goes on until a text passes it: a wrong read is possible, a wrong read that passes a signature is not.
#![forbid(unsafe_code)]

mod cores;
mod correct;
mod decode;
mod draw;
mod equal;
mod grid;
mod hard;
mod label;
mod ladder;
mod layout;
mod locate;
mod luma;
mod mask;
mod mesh;
mod picture;
mod scene;
mod treat;
mod write;

pub use label::Label;
pub use ladder::{Effort, FrameError, read_luminance};
pub use picture::{MOST_WORK, PictureError, read_picture, read_picture_counted};
pub use scene::SceneReader;
pub use write::{Code, PIXELS_A_MODULE, QUIET_ZONE, WriteError, write};
