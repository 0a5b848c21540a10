//! A caption under a code and a band of colour round the caption: what is told apart across a table, without a reader.
//!
//! The caption stands outside the quiet zone, so that a reader sees the same code as without it.

use std::fmt::Write as _;

use super::write::{Code, QUIET_ZONE};

/// What stands under a code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Red, green, blue; the words are white on it, so it should be dark.
    pub band: [u8; 3],
    /// Letters of English and Spanish, digits, `-`, `.`, `/` and blanks; another letter is drawn as `?`, and what has no room is cut.
    pub words: String,
}

/// A letter is five dots wide and seven high, with one between.
const WIDE: u32 = 5;
const HIGH: u32 = 7;

/// The rows of a letter, from the top; the highest of five bits is at the left.
fn dots(letter: char) -> [u8; 7] {
    match letter.to_uppercase().next().unwrap_or(letter) {
        'A' => [0x0E, 0x11, 0x11, 0x1F, 0x11, 0x11, 0x11],
        'B' => [0x1E, 0x11, 0x11, 0x1E, 0x11, 0x11, 0x1E],
        'C' => [0x0E, 0x11, 0x10, 0x10, 0x10, 0x11, 0x0E],
        'D' => [0x1E, 0x11, 0x11, 0x11, 0x11, 0x11, 0x1E],
        'E' => [0x1F, 0x10, 0x10, 0x1E, 0x10, 0x10, 0x1F],
        'F' => [0x1F, 0x10, 0x10, 0x1E, 0x10, 0x10, 0x10],
        'G' => [0x0E, 0x11, 0x10, 0x17, 0x11, 0x11, 0x0F],
        'H' => [0x11, 0x11, 0x11, 0x1F, 0x11, 0x11, 0x11],
        'I' => [0x0E, 0x04, 0x04, 0x04, 0x04, 0x04, 0x0E],
        'J' => [0x07, 0x02, 0x02, 0x02, 0x02, 0x12, 0x0C],
        'K' => [0x11, 0x12, 0x14, 0x18, 0x14, 0x12, 0x11],
        'L' => [0x10, 0x10, 0x10, 0x10, 0x10, 0x10, 0x1F],
        'M' => [0x11, 0x1B, 0x15, 0x15, 0x11, 0x11, 0x11],
        'N' => [0x11, 0x19, 0x15, 0x13, 0x11, 0x11, 0x11],
        'O' => [0x0E, 0x11, 0x11, 0x11, 0x11, 0x11, 0x0E],
        'P' => [0x1E, 0x11, 0x11, 0x1E, 0x10, 0x10, 0x10],
        'Q' => [0x0E, 0x11, 0x11, 0x11, 0x15, 0x12, 0x0D],
        'R' => [0x1E, 0x11, 0x11, 0x1E, 0x14, 0x12, 0x11],
        'S' => [0x0F, 0x10, 0x10, 0x0E, 0x01, 0x01, 0x1E],
        'T' => [0x1F, 0x04, 0x04, 0x04, 0x04, 0x04, 0x04],
        'U' => [0x11, 0x11, 0x11, 0x11, 0x11, 0x11, 0x0E],
        'V' => [0x11, 0x11, 0x11, 0x11, 0x11, 0x0A, 0x04],
        'W' => [0x11, 0x11, 0x11, 0x15, 0x15, 0x1B, 0x11],
        'X' => [0x11, 0x11, 0x0A, 0x04, 0x0A, 0x11, 0x11],
        'Y' => [0x11, 0x11, 0x0A, 0x04, 0x04, 0x04, 0x04],
        'Z' => [0x1F, 0x01, 0x02, 0x04, 0x08, 0x10, 0x1F],
        '0' => [0x0E, 0x11, 0x13, 0x15, 0x19, 0x11, 0x0E],
        '1' => [0x04, 0x0C, 0x04, 0x04, 0x04, 0x04, 0x0E],
        '2' => [0x0E, 0x11, 0x01, 0x06, 0x08, 0x10, 0x1F],
        '3' => [0x1E, 0x01, 0x01, 0x0E, 0x01, 0x01, 0x1E],
        '4' => [0x02, 0x06, 0x0A, 0x12, 0x1F, 0x02, 0x02],
        '5' => [0x1F, 0x10, 0x1E, 0x01, 0x01, 0x11, 0x0E],
        '6' => [0x0E, 0x10, 0x10, 0x1E, 0x11, 0x11, 0x0E],
        '7' => [0x1F, 0x01, 0x02, 0x04, 0x08, 0x08, 0x08],
        '8' => [0x0E, 0x11, 0x11, 0x0E, 0x11, 0x11, 0x0E],
        '9' => [0x0E, 0x11, 0x11, 0x0F, 0x01, 0x01, 0x0E],
        '-' => [0x00, 0x00, 0x00, 0x1F, 0x00, 0x00, 0x00],
        '.' => [0x00, 0x00, 0x00, 0x00, 0x00, 0x0C, 0x0C],
        '/' => [0x01, 0x01, 0x02, 0x04, 0x08, 0x10, 0x10],
        'Á' => [0x02, 0x04, 0x0E, 0x11, 0x1F, 0x11, 0x11],
        'É' => [0x02, 0x04, 0x1F, 0x10, 0x1E, 0x10, 0x1F],
        'Í' => [0x02, 0x04, 0x0E, 0x04, 0x04, 0x04, 0x0E],
        'Ó' => [0x02, 0x04, 0x0E, 0x11, 0x11, 0x11, 0x0E],
        'Ú' => [0x02, 0x04, 0x11, 0x11, 0x11, 0x11, 0x0E],
        'Ü' => [0x0A, 0x00, 0x11, 0x11, 0x11, 0x11, 0x0E],
        'Ñ' => [0x0E, 0x00, 0x11, 0x19, 0x15, 0x13, 0x11],
        ' ' => [0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00],
        _ => [0x0E, 0x11, 0x01, 0x06, 0x04, 0x00, 0x04],
    }
}

/// A caption as dots, on a strip of its own under a picture of so many dots across.
struct Strip {
    letters: Vec<[u8; 7]>,
    /// Dots from the left end to the first letter.
    indent: u32,
}

impl Strip {
    /// Dots above and below the letters.
    const AIR: u32 = 2;
    const HEIGHT: u32 = HIGH + 2 * Self::AIR;

    fn new(words: &str, across: u32) -> Self {
        let room = across.saturating_sub(1) / (WIDE + 1);
        let letters: Vec<[u8; 7]> =
            words.chars().take(usize::try_from(room).unwrap_or(0)).map(dots).collect();
        let long = u32::try_from(letters.len()).unwrap_or(0) * (WIDE + 1);
        Self { letters, indent: across.saturating_sub(long) / 2 }
    }

    fn is_lit(&self, x: u32, y: u32) -> bool {
        let lit = || {
            let (x, y) = (x.checked_sub(self.indent)?, y.checked_sub(Self::AIR)?);
            let letter = self.letters.get(usize::try_from(x / (WIDE + 1)).ok()?)?;
            let row = letter.get(usize::try_from(y).ok()?)?;
            let bit = WIDE.checked_sub(1 + x % (WIDE + 1))?;
            Some(row >> bit & 1 == 1)
        };
        lit().unwrap_or(false)
    }
}

/// A dot of the caption is half a module; a quarter where a long caption would be cut under a small code.
fn dots_a_module(words: &str, modules: u32) -> u32 {
    let long = u32::try_from(words.chars().count()).unwrap_or(u32::MAX).saturating_mul(WIDE + 1);
    if long <= 2 * modules { 2 } else { 4 }
}

impl Code {
    /// As `to_png`, in colour, with a label under it.
    pub fn to_png_labelled(&self, scale: u32, label: &Label) -> Vec<u8> {
        let modules = self.size() + 2 * QUIET_ZONE;
        let dots = dots_a_module(&label.words, modules);
        let scale = scale.clamp(dots, 64) / dots * dots;
        let (side, dot) = (modules * scale, scale / dots);
        let strip = Strip::new(&label.words, modules * dots);
        let height = side + Strip::HEIGHT * dot;
        let mut pixels = Vec::new();
        for y in 0..height {
            for x in 0..side {
                let colour = match y.checked_sub(side) {
                    Some(below) if strip.is_lit(x / dot, below / dot) => [255; 3],
                    Some(_) => label.band,
                    None => {
                        let module =
                            (x / scale).checked_sub(QUIET_ZONE).zip((y / scale).checked_sub(QUIET_ZONE));
                        let dark = module.is_some_and(|(column, row)| self.is_dark(column, row));
                        if dark { [0; 3] } else { [255; 3] }
                    }
                };
                pixels.extend(colour);
            }
        }
        let mut out = Vec::new();
        let mut encoder = png::Encoder::new(&mut out, side, height);
        encoder.set_color(png::ColorType::Rgb);
        encoder.set_depth(png::BitDepth::Eight);
        encoder
            .write_header()
            .and_then(|mut writer| writer.write_image_data(&pixels))
            .expect("a vector takes every write and the size is never zero");
        out
    }

    /// As `to_svg`, with a label under it.
    pub fn to_svg_labelled(&self, label: &Label) -> String {
        let modules = self.size() + 2 * QUIET_ZONE;
        let dots = dots_a_module(&label.words, modules);
        let across = modules * dots;
        let strip = Strip::new(&label.words, across);
        let (half, dot) = (|at: u32| f64::from(at) / f64::from(dots), 1.0 / f64::from(dots));
        let mut path = String::new();
        for y in 0..Strip::HEIGHT {
            for x in (0..across).filter(|x| strip.is_lit(*x, y)) {
                // Writing to a string cannot fail.
                let _ = write!(path, "M{} {}h{dot}v{dot}h-{dot}z", half(x), half(across + y));
            }
        }
        let [red, green, blue] = label.band;
        let (high, whole) = (half(Strip::HEIGHT), half(across + Strip::HEIGHT));
        let code = self.to_svg();
        let code = code.strip_suffix("</svg>\n").unwrap_or(&code);
        let code = code.replacen(
            &format!("viewBox=\"0 0 {modules} {modules}\""),
            &format!("viewBox=\"0 0 {modules} {whole}\""),
            1,
        );
        format!(
            "{code}<path fill=\"#{red:02x}{green:02x}{blue:02x}\" d=\"M0 {modules}h{modules}v{high}H0z\"/>\
             <path fill=\"#fff\" d=\"{path}\"/></svg>\n"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{read_picture, write};

    #[test]
    fn a_labelled_code_reads_as_without_its_label() {
        let text = "SL1:A SEAL OF A TEST THAT IS LONG ENOUGH FOR A CODE OF SOME SIZE 0123456789";
        let code = write(text).unwrap();
        for words in [
            "SEAL KM-014",
            "",
            "A WORD THAT IS MUCH LONGER THAN ANY CODE OF THIS SIZE HAS ROOM FOR",
            "\u{e9}<&>",
        ] {
            let label = Label { band: [16, 60, 140], words: words.into() };
            let png = code.to_png_labelled(8, &label);
            assert_eq!(read_picture(&png).unwrap(), [text], "{words}");
            let picture = image_of(&png);
            assert!(picture.1 > picture.0, "the caption has room of its own");
            let svg = code.to_svg_labelled(&label);
            assert!(
                svg.starts_with("<svg ") && svg.ends_with("</svg>\n") && svg.contains("#103c8c"),
                "{svg}"
            );
            assert_eq!(svg.matches("<svg").count(), 1);
        }
    }

    fn image_of(png: &[u8]) -> (u32, u32) {
        let reader = png::Decoder::new(std::io::Cursor::new(png)).read_info().unwrap();
        (reader.info().width, reader.info().height)
    }
}
