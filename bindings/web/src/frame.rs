use slingseal_judgement::plausible;
use slingseal_qr::{Effort, FrameError, SceneReader, read_luminance};

/// Frames of a scene that are put together before it is begun anew: the hand has moved on by then.
const MOST_FRAMES: usize = 40;

/// Reads the codes of a camera's frames, one text after the other.
#[derive(Debug, Default)]
pub struct FrameReader {
    scene: SceneReader,
}

impl FrameReader {
    /// The next frame, as a canvas gives it: four bytes a pixel, red first. Texts of `known` are passed over: of two codes in one
    /// picture, the other. Every third frame is looked at in its red alone, where a red screen at night has its contrast.
    ///
    /// # Errors
    /// A frame whose sizes do not fit its bytes.
    pub fn take(
        &mut self,
        width: usize,
        height: usize,
        rgba: &[u8],
        known: &[String],
    ) -> Result<Option<String>, FrameError> {
        if self.scene.frames() >= MOST_FRAMES {
            self.scene = SceneReader::new();
        }
        let red = self.scene.frames() % 3 == 2;
        let grey = luminance(rgba, if red { [1_000, 0, 0] } else { LUMINANCE });
        let mut accept = |text: &str| plausible(text) && !known.iter().any(|read| read == text);
        self.scene.take(width, height, width, &grey, &mut accept)
    }

    /// Every code of one photograph that the browser has opened, on the thorough path.
    ///
    /// # Errors
    /// A picture whose sizes do not fit its bytes.
    pub fn still(width: usize, height: usize, rgba: &[u8]) -> Result<Vec<String>, FrameError> {
        let mut texts: Vec<String> = Vec::new();
        for weights in [LUMINANCE, [1_000, 0, 0]] {
            let grey = luminance(rgba, weights);
            // Each round finds one that was not found before; a picture holds a few codes.
            for _ in 0..MOST_CODES {
                let mut accept = |text: &str| plausible(text) && !texts.iter().any(|read| read == text);
                match read_luminance(width, height, width, &grey, &mut accept, Effort::Still)? {
                    Some(text) => texts.push(text),
                    None => break,
                }
            }
        }
        Ok(texts)
    }
}

const MOST_CODES: usize = 8;
/// ITU-R BT.601, in 1/1000: as a picture file is read.
const LUMINANCE: [u32; 3] = [299, 587, 114];

/// One byte of brightness a pixel.
pub fn luminance(rgba: &[u8], weights: [u32; 3]) -> Vec<u8> {
    let [red, green, blue] = weights;
    let grey = rgba.as_chunks::<4>().0.iter().map(|&[r, g, b, _]| {
        let sum = u32::from(r) * red + u32::from(g) * green + u32::from(b) * blue;
        u8::try_from((sum + 500) / 1_000).unwrap_or(255)
    });
    grey.collect()
}
