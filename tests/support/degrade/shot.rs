//! One picture.

use slingseal_qr as qr;

/// A picture, with what its code says.
#[derive(Clone, Debug)]
pub struct Shot {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Red, green, blue, row by row.
    pub rgb: Vec<u8>,
    /// What the code says.
    pub text: String,
}

impl Shot {
    /// Luminance, ITU-R BT.601.
    pub fn luminance(&self) -> Vec<u8> {
        let weigh = |p: &[u8]| {
            let [r, g, b] = [p[0], p[1], p[2]].map(u32::from);
            ((299 * r + 587 * g + 114 * b + 500) / 1000) as u8
        };
        self.rgb.chunks_exact(3).map(weigh).collect()
    }

    /// What our reader takes from it as one frame of a running camera.
    ///
    /// # Panics
    /// Where the picture is not whole.
    pub fn read(&self) -> Option<String> {
        let grey = self.luminance();
        qr::read_luminance(self.width, self.height, self.width, &grey, &mut |_| true, qr::Effort::Frame)
            .expect("the frame is whole")
    }

    /// The picture as a PNG.
    pub fn png(&self) -> Vec<u8> {
        let mut out = std::io::Cursor::new(Vec::new());
        image::RgbImage::from_raw(self.width as u32, self.height as u32, self.rgb.clone())
            .expect("three bytes a pixel")
            .write_to(&mut out, image::ImageFormat::Png)
            .expect("a vector takes every write");
        out.into_inner()
    }
}
