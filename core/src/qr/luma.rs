/// A grey picture that owns its pixels, row by row; 0 is black.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Luma {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

impl Luma {
    /// Takes `width × height` pixels; `None` where their number differs or a side is zero.
    pub(super) fn new(width: usize, height: usize, pixels: Vec<u8>) -> Option<Self> {
        let right = width > 0 && height > 0 && width.checked_mul(height) == Some(pixels.len());
        right.then_some(Self { width, height, pixels })
    }

    pub(super) fn width(&self) -> usize {
        self.width
    }

    pub(super) fn height(&self) -> usize {
        self.height
    }

    pub(super) fn pixels(&self) -> &[u8] {
        &self.pixels
    }

    pub(super) fn rows(&self) -> std::slice::ChunksExact<'_, u8> {
        self.pixels.chunks_exact(self.width)
    }

    /// The same picture with every pixel put through `change`.
    pub(super) fn map(&self, change: impl Fn(u8) -> u8) -> Self {
        let pixels = self.pixels.iter().map(|&pixel| change(pixel)).collect();
        Self { width: self.width, height: self.height, pixels }
    }

    /// A picture of the same size.
    pub(super) fn with_pixels(&self, pixels: Vec<u8>) -> Option<Self> {
        Self::new(self.width, self.height, pixels)
    }
}
