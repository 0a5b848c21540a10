use std::panic::{AssertUnwindSafe, catch_unwind};

use rxing::common::{BitMatrix, DetectorRXingResult as _, HybridBinarizer};
use rxing::qrcode::cpp_port::decoder::Decode;
use rxing::qrcode::cpp_port::detector::{FindFinderPatterns, GenerateFinderPatternSets, SampleQR};
use rxing::{Binarizer as _, Luma8Source};

use super::luma::Luma;
use super::treat;

/// How much work a picture is worth. A budget of work, not of time, so that the same picture gives the same answer
/// on every machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effort {
    /// One frame of a running camera: a frame that cannot be read must not hold the next one up.
    Frame,
    /// A picture that will not come again.
    Still,
}

/// Why a frame cannot be looked at.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FrameError {
    /// The buffer does not hold the rows that it should.
    #[error(
        "the frame has {bytes} bytes, too few for {width} by {height} pixels in rows of {stride}; give the whole luminance plane"
    )]
    WrongLength {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
        /// Bytes from one row to the next.
        stride: usize,
        /// Bytes given.
        bytes: usize,
    },
    /// A side is zero or beyond what is looked at.
    #[error("the frame has {width} by {height} pixels; give at least 21 and at most {most} a side")]
    WrongSize {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
        /// The most along one side.
        most: usize,
    },
}

/// The most pixels along a side of a frame.
const MOST_SIDE: usize = 16_384;
/// A code has at least 21 modules a side.
const LEAST_SIDE: usize = 21;

/// Reads a code from camera luminance: `height` rows of `width` bytes, `stride` bytes from one row to the next.
///
/// Treatments are tried in increasing cost. A text counts only if `accept` says so: there the caller checks the
/// signature, and a wrong read does not end the search. `Ok(None)` where nothing acceptable was read.
pub fn read_luminance(
    width: usize,
    height: usize,
    stride: usize,
    luminance: &[u8],
    accept: &mut dyn FnMut(&str) -> bool,
    effort: Effort,
) -> Result<Option<String>, FrameError> {
    let picture = packed(width, height, stride, luminance)?;
    let mut found = None;
    climb(&picture, effort, &mut |text| {
        if found.is_none() && accept(text) {
            found = Some(text.to_owned());
        }
        found.is_some()
    });
    Ok(found)
}

/// The frame without the padding of its rows.
fn packed(width: usize, height: usize, stride: usize, luminance: &[u8]) -> Result<Luma, FrameError> {
    if width.min(height) < LEAST_SIDE || width.max(height) > MOST_SIDE {
        return Err(FrameError::WrongSize { width, height, most: MOST_SIDE });
    }
    let wrong_length = FrameError::WrongLength { width, height, stride, bytes: luminance.len() };
    // The last row need not have its padding.
    let needed = (height - 1).checked_mul(stride).and_then(|bytes| bytes.checked_add(width));
    if stride < width || needed.is_none_or(|needed| needed > luminance.len()) {
        return Err(wrong_length);
    }
    let pixels = luminance.chunks(stride).take(height).flat_map(|row| row.iter().take(width)).copied();
    Luma::new(width, height, pixels.collect()).ok_or(wrong_length)
}

/// Every text in a picture, given as one or more grey planes, each text once.
pub(super) fn read_all(planes: &[Luma]) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    for plane in planes {
        let done = climb(plane, Effort::Still, &mut |text| {
            if !texts.iter().any(|known| known == text) {
                texts.push(text.to_owned());
            }
            true
        });
        if done {
            break;
        }
    }
    texts
}

/// Climbs the ladder; ends where `take` is content after a rung. Says whether it was.
fn climb(picture: &Luma, effort: Effort, take: &mut dyn FnMut(&str) -> bool) -> bool {
    let mut offer = |texts: Vec<String>| texts.iter().fold(false, |content, text| take(text) | content);
    if offer(read_hybrid(picture)) || offer(read_local(picture, 12, 4)) {
        return true;
    }
    let smooth = treat::smoothed(picture);
    if offer(read_hybrid(&treat::inverted(&treat::stretched(picture))))
        || offer(read_local(&smooth, 12, 2))
        || offer(read_hybrid(&treat::sharpened(picture)))
    {
        return true;
    }
    if effort == Effort::Frame {
        return false;
    }
    if picture.pixels().len() > 1_000_000 {
        treat::halved(picture).is_some_and(|half| {
            offer(read_hybrid(&half)) || offer(read_local(&half, 12, 4)) || offer(read_local(&half, 40, 4))
        })
    } else {
        let double = treat::doubled(&smooth);
        offer(read_hybrid(&double)) || offer(read_local(&double, 20, 2))
    }
}

/// Dark and light by the hybrid threshold of the library: best on a clean picture.
fn read_hybrid(picture: &Luma) -> Vec<String> {
    guarded(|| {
        let (width, height) = (u32::try_from(picture.width()).ok()?, u32::try_from(picture.height()).ok()?);
        let source = Luma8Source::new_with_slice(picture.pixels(), width, height).ok()?;
        let binarizer = HybridBinarizer::new(source);
        Some(decoded(binarizer.get_black_matrix().ok()?))
    })
}

/// Dark and light by the mean of the surroundings: best under glare and shadow.
fn read_local(picture: &Luma, reach: usize, bias: i64) -> Vec<String> {
    guarded(|| {
        let (width, height) = (u32::try_from(picture.width()).ok()?, u32::try_from(picture.height()).ok()?);
        let mut bits = BitMatrix::new(width, height).ok()?;
        let dark = treat::darker_than_around(picture, reach, bias);
        for (y, row) in (0u32..).zip(dark.chunks_exact(picture.width())) {
            for (x, _) in (0u32..).zip(row).filter(|(_, dark)| **dark) {
                bits.set(x, y);
            }
        }
        Some(decoded(&bits))
    })
}

/// How many sets of three finder patterns are tried in one black-and-white picture.
const MOST_SETS: usize = 60;

/// Every code in a black-and-white picture.
fn decoded(bits: &BitMatrix) -> Vec<String> {
    let mut patterns = FindFinderPatterns(bits, true, 0);
    let mut used = Vec::new();
    let mut texts = Vec::new();
    for set in GenerateFinderPatternSets(&mut patterns).iter().take(MOST_SETS) {
        if [set.bl, set.tl, set.tr].iter().any(|pattern| used.contains(pattern)) {
            continue;
        }
        let Ok(sampled) = SampleQR(bits, set) else { continue };
        let Ok(result) = Decode(sampled.getBits()) else { continue };
        if result.isValid() {
            used.extend([set.bl, set.tl, set.tr]);
            texts.push(result.text());
        }
    }
    texts
}

/// The reader's library indexes as it goes; a hostile picture that makes it stumble is a picture that is not read.
fn guarded(read: impl FnOnce() -> Option<Vec<String>>) -> Vec<String> {
    catch_unwind(AssertUnwindSafe(read)).ok().flatten().unwrap_or_default()
}
