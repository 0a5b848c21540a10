use std::io::Cursor;

use image::{DynamicImage, ImageDecoder as _, ImageError, ImageFormat, ImageReader, Limits};

use super::ladder::read_all;
use super::luma::Luma;

/// The most bytes of a picture's file.
const MOST_BYTES: usize = 32 << 20;
/// The most pixels along one side.
const MOST_SIDE: u32 = 16_384;
/// The most pixels in all: a camera's still picture has 12 to 50 million.
const MOST_PIXELS: u64 = 64_000_000;
/// What decoding may allocate.
const MOST_MEMORY: u64 = 512 << 20;

/// Why a file cannot be taken as a picture.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// The file is too big to be looked at.
    #[error("the picture's file has {bytes} bytes and {most} are the most; crop it or save it smaller")]
    TooManyBytes {
        /// How big it is.
        bytes: usize,
        /// How big it may be.
        most: usize,
    },
    /// The file is neither PNG nor JPEG.
    #[error("the file is not a picture that can be read; give a PNG or a JPEG")]
    NotAPicture,
    /// The picture says that it is larger than any camera's, or has no pixels.
    #[error(
        "the picture has {width} by {height} pixels and {most_side} a side, {most} in all are the most; crop it or save it smaller"
    )]
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
    /// The file begins like a picture and goes wrong.
    #[error("the picture's file is damaged; take the picture again or copy the file again")]
    Damaged,
}

/// The text of every code in a picture (PNG or JPEG), the first found first, each text once; empty where none is read.
///
/// Takes the thorough path: up to about a second where nothing is found. Texts are not verified here.
pub fn read_picture(bytes: &[u8]) -> Result<Vec<String>, PictureError> {
    let picture = decode(bytes)?;
    Ok(read_all(&planes(&picture)))
}

fn decode(bytes: &[u8]) -> Result<DynamicImage, PictureError> {
    if bytes.len() > MOST_BYTES {
        return Err(PictureError::TooManyBytes { bytes: bytes.len(), most: MOST_BYTES });
    }
    let format = match image::guess_format(bytes) {
        Ok(format @ (ImageFormat::Png | ImageFormat::Jpeg)) => format,
        _ => return Err(PictureError::NotAPicture),
    };
    let mut reader = ImageReader::with_format(Cursor::new(bytes), format);
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let decoder = reader.into_decoder().map_err(|error| damaged(&error))?;
    let (width, height) = decoder.dimensions();
    let pixels = u64::from(width) * u64::from(height);
    if pixels == 0 || pixels > MOST_PIXELS || width.max(height) > MOST_SIDE {
        return Err(PictureError::WrongSize { width, height, most_side: MOST_SIDE, most: MOST_PIXELS });
    }
    DynamicImage::from_decoder(decoder).map_err(|error| damaged(&error))
}

fn damaged(_: &ImageError) -> PictureError {
    PictureError::Damaged
}

/// The grey pictures that a colour picture gives: luminance first, then the channels where they tell more. A red
/// screen at night has its contrast in the red channel alone, and luminance has only a fifth of red.
fn planes(picture: &DynamicImage) -> Vec<Luma> {
    let rgba = picture.to_rgba8();
    let (width, height) = (rgba.width() as usize, rgba.height() as usize);
    // What is transparent shows the white of the page.
    let over = |value: u8, alpha: u8| {
        let (value, alpha) = (u32::from(value), u32::from(alpha));
        u8::try_from((value * alpha + 255 * (255 - alpha) + 127) / 255).unwrap_or(255)
    };
    let pick = |weigh: &dyn Fn([u32; 3]) -> u32| {
        let pixels = rgba.pixels().map(|pixel| {
            let [red, green, blue, alpha] = pixel.0;
            let rgb = [over(red, alpha), over(green, alpha), over(blue, alpha)].map(u32::from);
            u8::try_from(weigh(rgb).min(255)).unwrap_or(255)
        });
        Luma::new(width, height, pixels.collect())
    };
    let coloured = rgba.pixels().any(|pixel| {
        let [red, green, blue, _] = pixel.0;
        red.abs_diff(green).max(green.abs_diff(blue)) > 24
    });
    // ITU-R BT.601 weights, in 1/1000.
    let grey = pick(&|[red, green, blue]| (299 * red + 587 * green + 114 * blue + 500) / 1000);
    let mut planes: Vec<Luma> = grey.into_iter().collect();
    if coloured {
        planes.extend(pick(&|[red, _, _]| red));
        planes.extend(pick(&|[_, green, _]| green));
        planes.extend(pick(&|[_, _, blue]| blue));
    }
    planes
}
