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

    /// The brightness at a place, interpolated; the middle of the first pixel is (0.5, 0.5). Outside, the nearest pixel.
    #[inline]
    pub(super) fn sample(&self, at: [f64; 2]) -> f32 {
        // `min` drops a NaN, so that the conversions below are sound; beyond the edge the last pixel goes on. Through
        // `i32`, since conversion from and to other widths is far slower, and this is what reading spends its time on.
        let side = |side: usize| f64::from(i32::try_from(side).unwrap_or(i32::MAX)) - 1.001;
        let x = (at[0] - 0.5).min(side(self.width)).max(0.0);
        let y = (at[1] - 0.5).min(side(self.height)).max(0.0);
        let (column, row) = (x as i32, y as i32);
        let (fx, fy) = ((x - f64::from(column)) as f32, (y - f64::from(row)) as f32);
        let from = row as usize * self.width + column as usize;
        let blend = |from: usize| match self.pixels.get(from..from + 2) {
            Some(&[left, right]) => f32::from(left) + (f32::from(right) - f32::from(left)) * fx,
            _ => 0.0,
        };
        let (above, below) = (blend(from), blend(from + self.width));
        above + (below - above) * fy
    }

    pub(super) fn holds(&self, at: [f64; 2]) -> bool {
        let [x, y] = at;
        x >= 0.0 && y >= 0.0 && x <= self.width as f64 && y <= self.height as f64
    }
}
