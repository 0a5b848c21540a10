use slingseal_catalogue::{Saying, faults as words};
use std::io::Cursor;

use png::{ColorType as PngColour, Decoder as PngDecoder, Transformations};
use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;

use super::ladder::{STILL, read_all};
use super::luma::Luma;

/// The most bytes of a picture's file.
const MOST_BYTES: usize = 32 << 20;
/// The most pixels along one side.
const MOST_SIDE: u32 = 16_384;
/// The most pixels in all: a camera's still picture has 12 to 50 million.
const MOST_PIXELS: u64 = 64_000_000;
/// What a picture may take while it is opened, its file included.
const MOST_MEMORY: u64 = 232 << 20;
/// Bytes of rows that are unpacked of a PNG, which are read one at a time.
const MOST_UNPACKED: u64 = 256 << 20;
/// A JPEG may send its pixels again and again, each time a little better: pixels times passes.
const MOST_PASSES: u64 = 600_000_000;
/// How a PNG begins (ISO/IEC 15948, 5.2).
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";
/// How a JPEG begins: the start of an image and of its next marker (ISO/IEC 10918-1, B.1.1.3).
const JPEG: &[u8] = &[0xFF, 0xD8, 0xFF];
/// More pixels than this are not looked at: a larger picture is made smaller by a whole number while it is opened.
const LOOKED_AT: usize = 13_000_000;

/// Why a file cannot be taken as a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PictureError {
    /// The file is too big to be looked at.
    TooManyBytes {
        /// How big it is.
        bytes: usize,
        /// How big it may be.
        most: usize,
    },
    /// The file is neither PNG nor JPEG.
    NotAPicture,
    /// The picture says that it is larger than any camera's, or has no pixels.
    WrongSize {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
        /// The most along one side.
        most_side: u32,
        /// The most in all.
        most: u64,
    },
    /// It would take too much to open it, for all that its pixels are few enough: deep colours, interlaced, progressive.
    TooDear {
        /// What it would take.
        bytes: u64,
        /// What it may take.
        most: u64,
    },
    /// The file begins like a picture and goes wrong.
    Damaged,
}

impl PictureError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::TooManyBytes { bytes, most } => words::PictureFileErrorTooManyBytes { bytes, most }.into(),
            Self::NotAPicture => words::PictureFileErrorNotAPicture.into(),
            Self::WrongSize { width, height, most_side, most } => {
                words::PictureFileErrorWrongSize { width, height, most_side, most }.into()
            }
            Self::TooDear { bytes, most } => words::PictureFileErrorTooDear { bytes, most }.into(),
            Self::Damaged => words::PictureFileErrorDamaged.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(PictureError);

/// The text of every code in a picture (PNG or JPEG), the first found first, each text once; empty where none is read.
///
/// Takes the thorough path, up to a bound of work: some 2 s and 256 MiB at the most, whatever the picture shows. Texts are not
/// verified here.
pub fn read_picture(bytes: &[u8]) -> Result<Vec<String>, PictureError> {
    read_picture_counted(bytes).map(|(texts, _)| texts)
}

/// The same, and the work that it was: samples of brightness, other work counted as so many. The same on every machine, and never
/// more than [`MOST_WORK`].
pub fn read_picture_counted(bytes: &[u8]) -> Result<(Vec<String>, usize), PictureError> {
    let picture = open(bytes)?;
    let mut left = STILL;
    let texts = read_all(picture.planes(), &mut left);
    Ok((texts, STILL - left))
}

/// The most work that a picture is worth.
pub const MOST_WORK: usize = STILL;

/// A colour picture of at most [`LOOKED_AT`] pixels, three bytes each.
struct Picture {
    width: usize,
    height: usize,
    rgb: Vec<u8>,
}

fn open(bytes: &[u8]) -> Result<Picture, PictureError> {
    if bytes.len() > MOST_BYTES {
        return Err(PictureError::TooManyBytes { bytes: bytes.len(), most: MOST_BYTES });
    }
    if bytes.starts_with(PNG) {
        open_png(bytes)
    } else if bytes.starts_with(JPEG) {
        open_jpeg(bytes)
    } else {
        Err(PictureError::NotAPicture)
    }
}

/// Before anything is decoded.
fn measured(width: u32, height: u32) -> Result<u64, PictureError> {
    let pixels = u64::from(width) * u64::from(height);
    if pixels == 0 || pixels > MOST_PIXELS || width.max(height) > MOST_SIDE {
        return Err(PictureError::WrongSize { width, height, most_side: MOST_SIDE, most: MOST_PIXELS });
    }
    Ok(pixels)
}

fn no_dearer(bytes: u64, most: u64) -> Result<(), PictureError> {
    if bytes > most { Err(PictureError::TooDear { bytes, most }) } else { Ok(()) }
}

/// Row by row, so that a picture of few bytes and many pixels costs what is kept of it.
fn open_png(bytes: &[u8]) -> Result<Picture, PictureError> {
    let damaged = |_| PictureError::Damaged;
    let mut decoder = PngDecoder::new(Cursor::new(bytes));
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    decoder.set_transformations(Transformations::normalize_to_color8());
    let header = decoder.read_header_info().map_err(damaged)?;
    let (width, height, interlaced) = (header.width, header.height, header.interlaced);
    let depth = u64::from(header.bit_depth as u8) * header.color_type.samples() as u64;
    let pixels = measured(width, height)?;
    no_dearer((pixels * depth).div_ceil(8), MOST_UNPACKED)?;
    let file = bytes.len() as u64;
    // An interlaced picture is whole in its last row alone.
    no_dearer(file + if interlaced { 4 * pixels } else { 0 }, MOST_MEMORY - 3 * LOOKED_AT as u64)?;
    let mut reader = decoder.read_info().map_err(damaged)?;
    let (colour, _) = reader.output_color_type();
    let mut smaller = Smaller::new(width, height);
    if interlaced {
        let size = reader.output_buffer_size().ok_or(PictureError::Damaged)?;
        let mut whole = vec![0; size];
        let info = reader.next_frame(&mut whole).map_err(damaged)?;
        for row in whole.chunks_exact(info.line_size.max(1)).take(height as usize) {
            smaller.row(row, colour);
        }
    } else {
        while let Some(row) = reader.next_row().map_err(damaged)? {
            smaller.row(row.data(), colour);
        }
    }
    smaller.picture()
}

fn open_jpeg(bytes: &[u8]) -> Result<Picture, PictureError> {
    // Its size is bounded below, before a pixel is decoded.
    let options =
        DecoderOptions::default().set_strict_mode(false).set_max_width(usize::MAX).set_max_height(usize::MAX);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options);
    decoder.decode_headers().map_err(|_| PictureError::Damaged)?;
    let (width, height) = decoder.dimensions().ok_or(PictureError::Damaged)?;
    let (width, height) = (u32::try_from(width), u32::try_from(height));
    let (width, height) = (width.unwrap_or(u32::MAX), height.unwrap_or(u32::MAX));
    let pixels = measured(width, height)?;
    let passes = passes(bytes);
    // The file, three bytes a pixel, and where there are several passes two bytes for each coefficient of three.
    let kept = pixels * if passes > 1 { 9 } else { 3 };
    no_dearer(bytes.len() as u64 + kept, MOST_MEMORY)?;
    no_dearer(passes * pixels, MOST_PASSES)?;
    let (space, colour) = match decoder.input_colorspace() {
        Some(ColorSpace::Luma) => (ColorSpace::Luma, PngColour::Grayscale),
        _ => (ColorSpace::RGB, PngColour::Rgb),
    };
    decoder.set_options(options.jpeg_set_out_colorspace(space));
    let whole = decoder.decode().map_err(|_| PictureError::Damaged)?;
    let mut smaller = Smaller::new(width, height);
    for row in whole.chunks_exact((width as usize * colour.samples()).max(1)) {
        smaller.row(row, colour);
    }
    drop(whole);
    smaller.picture()
}

/// How often a JPEG goes over its pixels: its scans (ISO/IEC 10918-1, B.2.3). Inside of the coded data an `FF` stands before a
/// nought, so that every marker that is found is one.
fn passes(bytes: &[u8]) -> u64 {
    bytes.windows(2).filter(|pair| *pair == [0xFF, 0xDA]).count() as u64
}

/// Makes a picture smaller by a whole number while its rows come.
struct Smaller {
    by: usize,
    width: usize,
    rows: usize,
    sums: Vec<u32>,
    rgb: Vec<u8>,
}

impl Smaller {
    fn new(width: u32, height: u32) -> Self {
        let (width, height) = (width as usize, height as usize);
        let fits = |by: &usize| (width / by) * (height / by) <= LOOKED_AT;
        let by = (1..).find(fits).unwrap_or(1);
        let rgb = Vec::with_capacity(3 * (width / by) * (height / by));
        Self { by, width: width / by, rows: 0, sums: vec![0; 3 * (width / by)], rgb }
    }

    fn row(&mut self, row: &[u8], colour: PngColour) {
        // What is transparent shows the white of the page.
        let over = |value: u8, alpha: u8| {
            let (value, alpha) = (u32::from(value), u32::from(alpha));
            (value * alpha + 255 * (255 - alpha) + 127) / 255
        };
        let colours = row.chunks_exact(colour.samples()).map(|pixel| match *pixel {
            [grey] => [u32::from(grey); 3],
            [grey, alpha] => [over(grey, alpha); 3],
            [red, green, blue] => [red, green, blue].map(u32::from),
            [red, green, blue, alpha] => [red, green, blue].map(|value| over(value, alpha)),
            _ => [0; 3],
        });
        let byte = |value: u32| u8::try_from(value.min(255)).unwrap_or(255);
        if self.by == 1 {
            self.rgb.extend(colours.flat_map(|colour| colour.map(byte)));
            return;
        }
        let mut colours = colours;
        for sums in self.sums.chunks_exact_mut(3) {
            for colour in colours.by_ref().take(self.by) {
                sums.iter_mut().zip(colour).for_each(|(sum, value)| *sum += value);
            }
        }
        self.rows += 1;
        if self.rows == self.by {
            let area = u32::try_from(self.by * self.by).unwrap_or(u32::MAX);
            self.rgb.extend(self.sums.iter().map(|sum| byte((sum + area / 2) / area)));
            self.sums.fill(0);
            self.rows = 0;
        }
    }

    fn picture(self) -> Result<Picture, PictureError> {
        let height = self.rgb.len() / (3 * self.width).max(1);
        if self.width == 0 || height == 0 {
            return Err(PictureError::Damaged);
        }
        Ok(Picture { width: self.width, height, rgb: self.rgb })
    }
}

impl Picture {
    /// The grey pictures that a colour picture gives, one after the other: luminance first, then the channels where they tell
    /// more. A red screen at night has its contrast in the red channel alone, and luminance has only a fifth of red.
    fn planes(&self) -> impl Iterator<Item = Luma> {
        // ITU-R BT.601 weights, in 1/1000.
        const WEIGHTS: [[u32; 3]; 4] = [[299, 587, 114], [1000, 0, 0], [0, 1000, 0], [0, 0, 1000]];
        let pixels = || self.rgb.as_chunks::<3>().0.iter();
        let coloured =
            pixels().any(|[red, green, blue]| red.abs_diff(*green).max(green.abs_diff(*blue)) > 24);
        WEIGHTS.into_iter().take(if coloured { 4 } else { 1 }).filter_map(move |weights| {
            let grey = pixels().map(|colour| {
                let sum: u32 =
                    colour.iter().zip(weights).map(|(value, weight)| u32::from(*value) * weight).sum();
                u8::try_from((sum + 500) / 1000).unwrap_or(255)
            });
            Luma::new(self.width, self.height, grey.collect())
        })
    }
}

#[cfg(test)]
mod tests {
    use super::passes;

    #[test]
    fn scans_are_counted() {
        assert_eq!(passes(&[0xFF, 0xD8, 0xFF, 0xDA, 1, 0xFF, 0, 0xDA, 0xFF, 0xDA]), 2);
        assert_eq!(passes(&[]), 0);
    }
}
