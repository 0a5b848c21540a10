use super::ladder::{Effort, FrameError, read_luminance};

/// Reads successive frames of one scene, until one of them is read.
#[derive(Debug, Default)]
pub struct SceneReader {
    frames: usize,
}

impl SceneReader {
    /// A reader that has seen no frame.
    pub fn new() -> Self {
        Self::default()
    }

    /// How many frames it has seen.
    pub fn frames(&self) -> usize {
        self.frames
    }

    /// Takes the next frame; arguments as for [`read_luminance`].
    pub fn take(
        &mut self,
        width: usize,
        height: usize,
        stride: usize,
        luminance: &[u8],
        accept: &mut dyn FnMut(&str) -> bool,
    ) -> Result<Option<String>, FrameError> {
        self.frames += 1;
        read_luminance(width, height, stride, luminance, accept, Effort::Frame)
    }
}
