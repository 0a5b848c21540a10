use qrcode::bits::Bits;
use qrcode::types::{Color, QrError};
use qrcode::{EcLevel, QrCode, Version};
use slingseal_catalogue::{Saying, faults as words};

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
    for version in 1..=40 {
        match with_version(text, version) {
            Ok(code) => return Ok(code),
            Err(QrError::DataTooLong) => {}
            Err(_) => return Err(too_long()),
        }
    }
    Err(too_long())
}

fn with_version(text: &str, version: u8) -> Result<Code, QrError> {
    let mut bits = Bits::new(Version::Normal(i16::from(version)));
    bits.push_alphanumeric_data(text.as_bytes())?;
    bits.push_terminator(EcLevel::M)?;
    let code = QrCode::with_bits(bits, EcLevel::M)?;
    let dark = code.to_colors().into_iter().map(|color| color == Color::Dark).collect();
    Ok(Code { version, size: 17 + 4 * u32::from(version), dark })
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
