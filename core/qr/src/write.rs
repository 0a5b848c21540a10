use qrcode::bits::Bits;
use qrcode::canvas::{Canvas, Module};
use qrcode::types::QrError;
use qrcode::{EcLevel, Version, ec};
use slingseal_catalogue::{Saying, faults as words};

use super::mask::{Row, best_masked};
use slingseal_words::Metres;

/// Modules of bare background that a code needs on every side (ISO/IEC 18004, 6.3.8).
///
/// Measured, 16 codes of 475 characters at 3 pixels a module before dark ground: our reader reads none without a quiet
/// zone and all from half a module on. The four of the standard stay, for every other reader and for dirty edges.
pub const QUIET_ZONE: u32 = 4;

/// Pixels of the camera's frame that a module should have.
///
/// Measured, 16 codes of 475 characters, sigma 0.6 pixel and noise of 3 grey levels: read in one frame 1 of 16 at 1.2
/// pixels, 15 at 1.5, all from 1.8 on. The rest is for tilt, motion and an unsteady hand.
pub const PIXELS_A_MODULE: f64 = 2.5;

/// Why a text cannot be written as a code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WriteError {
    /// Nothing to write.
    Empty,
    /// A character that is not in the alphanumeric set of ISO/IEC 18004 (table 5).
    NotAlphanumeric {
        /// The first such character.
        found: char,
    },
    /// More characters than the largest code holds at level M.
    TooLong {
        /// How long it is.
        characters: usize,
        /// How long it may be: version 40 at level M.
        most: usize,
    },
}

impl WriteError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Empty => words::WriteErrorEmpty.into(),
            Self::NotAlphanumeric { found } => words::WriteErrorNotAlphanumeric { found }.into(),
            Self::TooLong { characters, most } => words::WriteErrorTooLong { characters, most }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(WriteError);

/// A code: a square of dark and light modules, without the quiet zone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    version: u8,
    size: u32,
    dark: Vec<bool>,
}

/// The alphanumeric capacity of version 40 at level M (ISO/IEC 18004, table 7).
const MOST: usize = 3391;

/// Writes a text as the smallest code that holds it: one alphanumeric segment, level M.
///
/// Level M reads best of the four in the same space. The segment is explicit, since automatic segmentation took a
/// larger version for what fits a smaller one.
pub fn write(text: &str) -> Result<Code, WriteError> {
    if text.is_empty() {
        return Err(WriteError::Empty);
    }
    let outside = |c: &char| !(c.is_ascii_uppercase() || c.is_ascii_digit() || " $%*+-./:".contains(*c));
    if let Some(found) = text.chars().find(outside) {
        return Err(WriteError::NotAlphanumeric { found });
    }
    let too_long = || WriteError::TooLong { characters: text.len(), most: MOST };
    let version = (1..=40).find(|version| fits(text.len(), *version)).ok_or_else(too_long)?;
    with_version(text, version).map_err(|_| too_long())
}

/// Whether a code of a version holds so many characters at level M (ISO/IEC 18004, 7.4.4 and table 3).
fn fits(characters: usize, version: u8) -> bool {
    let counted = match version {
        0..=9 => 9,
        10..=26 => 11,
        _ => 13,
    };
    let bits = 4 + counted + characters / 2 * 11 + characters % 2 * 6;
    Bits::new(Version::Normal(i16::from(version))).max_len(EcLevel::M).is_ok_and(|most| bits <= most)
}

fn with_version(text: &str, number: u8) -> Result<Code, QrError> {
    let version = Version::Normal(i16::from(number));
    let mut bits = Bits::new(version);
    bits.push_alphanumeric_data(text.as_bytes())?;
    bits.push_terminator(EcLevel::M)?;
    let (data, check) = ec::construct_codewords(&bits.into_bytes(), version, EcLevel::M)?;
    let mut canvas = Canvas::new(version, EcLevel::M);
    canvas.draw_all_functional_patterns();
    canvas.draw_data(&data, &check);

    let size = 17 + 4 * u32::from(number);
    let (mut dark, mut open) = (Vec::new(), Vec::new());
    for y in 0..version.width() {
        let (mut dark_row, mut open_row) = (Row::default(), Row::default());
        for (column, x) in (0..version.width()).enumerate() {
            let module = canvas.get(x, y);
            dark_row.set(column, module.is_dark());
            open_row.set(column, !matches!(module, Module::Masked(_)));
        }
        dark.push(dark_row);
        open.push(open_row);
    }
    let drawn = best_masked(&dark, &open);
    let dark = drawn.iter().flat_map(|row| (0..drawn.len()).map(|column| row.get(column))).collect();
    Ok(Code { version: number, size, dark })
}

impl Code {
    /// The version of ISO/IEC 18004, 1 to 40.
    pub fn version(&self) -> u8 {
        self.version
    }

    /// Modules along one side, without the quiet zone: 17 + 4 × version.
    pub fn size(&self) -> u32 {
        self.size
    }

    /// How wide the code must be printed or shown, quiet zone and all, to be read at a distance by a camera whose frame
    /// has so many pixels across: [`PIXELS_A_MODULE`] for every module. Takes a lens that sees about 53 degrees across,
    /// as a telephone's main camera does (common practice: its picture is about as wide as it is far away).
    pub fn width_for(&self, distance: Metres, frame: u32) -> Option<Metres> {
        let modules = f64::from(self.size() + 2 * QUIET_ZONE);
        Metres::new(distance.value() / f64::from(frame) * PIXELS_A_MODULE * modules).ok()
    }

    /// Every module, row by row from the top left; `true` is dark.
    pub fn modules(&self) -> &[bool] {
        &self.dark
    }

    /// Whether a module is dark; anything outside the code is light.
    pub fn is_dark(&self, column: u32, row: u32) -> bool {
        if column >= self.size || row >= self.size {
            return false;
        }
        let at = u64::from(row) * u64::from(self.size) + u64::from(column);
        usize::try_from(at).ok().and_then(|at| self.dark.get(at)).copied().unwrap_or(false)
    }
}

#[cfg(test)]
mod tests {
    use super::write;
    use qrcode::bits::Bits;
    use qrcode::types::Color;
    use qrcode::{EcLevel, QrCode, Version};

    /// The smallest version that takes the text, found by trying, drawn and masked by the library alone.
    fn by_the_library(text: &str) -> (u8, Vec<bool>) {
        let code = (1..=40).find_map(|version| {
            let mut bits = Bits::new(Version::Normal(version));
            bits.push_alphanumeric_data(text.as_bytes()).ok()?;
            bits.push_terminator(EcLevel::M).ok()?;
            Some((version, QrCode::with_bits(bits, EcLevel::M).ok()?))
        });
        let (version, code) = code.expect("a text that fits");
        let dark = code.to_colors().into_iter().map(|color| color == Color::Dark).collect();
        (u8::try_from(version).expect("at most 40"), dark)
    }

    /// How many characters each version holds at level M (ISO/IEC 18004, table 7), of some versions.
    const HELD: [(u8, usize); 12] = [
        (1, 20),
        (2, 38),
        (5, 122),
        (7, 178),
        (9, 262),
        (10, 311),
        (15, 600),
        (20, 970),
        (26, 1542),
        (27, 1637),
        (34, 2506),
        (40, 3391),
    ];

    /// What was printed once is printed alike for ever: the same version, the same mask, every module.
    #[test]
    fn a_code_is_module_by_module_what_the_library_draws_alone() {
        let letters: Vec<char> = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:".chars().collect();
        let mut dice = 0x2545_f491_4f6c_dd1d_u64;
        let mut throw = || {
            dice ^= dice << 13;
            dice ^= dice >> 7;
            dice ^= dice << 17;
            usize::try_from(dice >> 32).expect("32 bits")
        };
        let mut lengths: Vec<usize> = HELD.iter().flat_map(|(_, most)| [*most, most + 1]).collect();
        lengths.pop();
        lengths.extend((1..=400).step_by(17));
        lengths.extend((500..=3_000).step_by(300));
        let mut versions = std::collections::BTreeSet::new();
        for length in lengths {
            let drawn: String = (0..length).map(|_| letters[throw() % letters.len()]).collect();
            for text in [drawn, "A".repeat(length)] {
                let code = write(&text).expect("a code");
                let (version, dark) = by_the_library(&text);
                assert_eq!(code.version(), version, "{length} characters");
                assert!(code.modules() == dark, "{length} characters, version {version}");
                versions.insert(version);
            }
        }
        for (version, most) in HELD {
            assert_eq!(write(&"A".repeat(most)).expect("a code").version(), version);
        }
        assert!(versions.len() > 25 && versions.contains(&40), "{versions:?}");
        assert!(write(&"A".repeat(3_392)).is_err());
    }
}
