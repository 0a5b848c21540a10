use slingseal_catalogue::{Saying, faults as words};
use std::panic::{AssertUnwindSafe, catch_unwind};

use rxing::common::cpp_essentials::ConcentricPattern;
use rxing::common::{
    BIT_FIELD_BASE_BITS, BitArray, BitFieldBaseType, BitMatrix, DetectorRXingResult as _, HybridBinarizer,
};
use rxing::qrcode::cpp_port::decoder::Decode;
use rxing::qrcode::cpp_port::detector::{FindFinderPatterns, GenerateFinderPatternSets, SampleQR};
use rxing::{Binarizer as _, Luma8Source};

use super::cores;
use super::hard::{self, Seen, Sightings, Tried, Work};
use super::locate::Point;
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
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FrameError {
    /// The buffer does not hold the rows that it should.
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
    WrongSize {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
        /// The most along one side.
        most: usize,
    },
}

impl FrameError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::WrongLength { width, height, stride, bytes } => {
                words::LuminanceErrorWrongLength { bytes, width, height, stride }.into()
            }
            Self::WrongSize { width, height, most } => {
                words::LuminanceErrorWrongSize { width, height, most }.into()
            }
        }
    }
}

slingseal_catalogue::error_by_saying!(FrameError);

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
    Climb::new(effort, false).picture(&picture, &mut |text| {
        if found.is_none() && accept(text) {
            found = Some(text.to_owned());
        }
        found.is_some()
    });
    Ok(found)
}

/// The frame without the padding of its rows.
pub(super) fn packed(
    width: usize,
    height: usize,
    stride: usize,
    luminance: &[u8],
) -> Result<Luma, FrameError> {
    if width.min(height) < LEAST_SIDE || width.max(height) > MOST_SIDE {
        return Err(FrameError::WrongSize { width, height, most: MOST_SIDE });
    }
    let wrong_length = FrameError::WrongLength { width, height, stride, bytes: luminance.len() };
    // The last row need not have its padding.
    let needed = (height - 1).checked_mul(stride).and_then(|bytes| bytes.checked_add(width));
    if stride < width || needed.is_none_or(|needed| needed > luminance.len()) {
        return Err(wrong_length);
    }
    let mut pixels = Vec::with_capacity(width * height);
    for row in luminance.chunks(stride).take(height) {
        pixels.extend_from_slice(row.get(..width).unwrap_or(row));
    }
    Luma::new(width, height, pixels).ok_or(wrong_length)
}

/// Every text in a picture, given as one or more grey planes, each text once.
///
/// `left` is what the picture is worth, in samples of brightness, and then what is left of it.
pub(super) fn read_all(planes: impl Iterator<Item = Luma>, left: &mut usize) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    for plane in planes {
        let mut climb = Climb { left: *left, ..Climb::new(Effort::Still, true) };
        climb.picture(&plane, &mut |text| {
            if !texts.iter().any(|known| known == text) {
                texts.push(text.to_owned());
            }
            true
        });
        *left = climb.left;
        if !texts.is_empty() {
            break;
        }
    }
    texts
}

/// Pixels beyond which a picture is looked at smaller first.
const LARGE: usize = 1_200_000;

/// What a frame of a running camera is worth: some 25 ms of a desk's processor beside the treatments.
const QUICK: Work = Work { fits: 6, pairs: 0, codes: 1, thorough: false, samples: FRAME, frugal: true };
/// The same spent in other ways: on every second frame of a scene that could not be read so far.
const OTHER: Work = Work { fits: 9, pairs: 2, codes: 2, thorough: true, samples: FRAME, frugal: true };
const FRAME: usize = 4_500_000;
/// What a still picture is worth in all, in samples of brightness: about a second of a desk's processor. A code that can be
/// read is found with a part of it; noise would cost minutes.
pub(super) const STILL: usize = 200_000_000;
/// One treatment and its search, in samples for each pixel.
const RUNG: usize = 4;

/// One climb of the ladder, from the cheapest treatment to the dearest.
pub(super) struct Climb {
    effort: Effort,
    /// Whether the search goes on after a text is taken, where another code may be there.
    all: bool,
    content: bool,
    /// Finder patterns seen so far, dark on light and light on dark.
    sightings: [Sightings; 2],
    tried: [Tried; 2],
    /// What a frame is worth.
    quick: Work,
    /// What a still picture has left.
    left: usize,
    /// Codes that were laid out and not decoded.
    pub(super) seen: Vec<Seen>,
}

/// Dark on light, or light on dark.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Ink {
    Dark,
    Light,
}

impl Climb {
    pub(super) fn new(effort: Effort, all: bool) -> Self {
        Self {
            effort,
            all,
            content: false,
            sightings: Default::default(),
            tried: Default::default(),
            quick: QUICK,
            left: STILL,
            seen: Vec::new(),
        }
    }

    /// A climb for the frame of a scene with this number, from 1.
    pub(super) fn of_scene(frame: usize) -> Self {
        let quick = if frame.is_multiple_of(2) { OTHER } else { QUICK };
        Self { quick, ..Self::new(Effort::Frame, false) }
    }

    /// Climbs for one picture. `take` says whether a text counts.
    pub(super) fn picture(&mut self, picture: &Luma, take: &mut dyn FnMut(&str) -> bool) {
        if self.effort == Effort::Still && picture.pixels().len() > LARGE {
            if let Some(half) = treat::halved(picture) {
                self.picture(&half, take);
            }
            if self.done() {
                return;
            }
            self.sightings = Default::default();
            self.tried = Default::default();
        }
        let _ = self.rungs(picture, take);
    }

    fn done(&self) -> bool {
        self.content && !(self.all && self.sightings.iter().any(Sightings::may_hold_a_code))
    }

    /// The rungs; the answer only ends the climb early.
    fn rungs(&mut self, picture: &Luma, take: &mut dyn FnMut(&str) -> bool) -> Option<()> {
        self.pay(picture)?;
        self.offer(read_hybrid(picture), Ink::Dark, 1.0, take)?;
        self.pay(picture)?;
        self.offer(read_local(picture, 12, 4), Ink::Dark, 1.0, take)?;
        let frame = self.effort == Effort::Frame;
        if frame {
            let mut work = self.quick;
            // Where three patterns are plain, no other treatment shows what the thorough reader cannot.
            if self.sightings(Ink::Dark).may_hold_a_code() {
                self.hard(picture, Ink::Dark, &mut work, take)?;
                if !self.seen.is_empty() {
                    return Some(());
                }
            }
            self.offer(read_hybrid(&treat::stretched(&treat::inverted(picture))), Ink::Light, 1.0, take)?;
            let smooth = treat::smoothed(picture);
            self.offer(read_local(&smooth, 12, 2), Ink::Dark, 1.0, take)?;
            self.offer(read_hybrid(&treat::sharpened(picture)), Ink::Dark, 1.0, take)?;
            work.codes = self.quick.codes;
            return self.hard(picture, Ink::Dark, &mut work, take);
        }
        let light = treat::inverted(picture);
        self.pay(picture)?;
        self.offer(read_hybrid(&treat::stretched(&light)), Ink::Light, 1.0, take)?;
        self.pay(picture)?;
        self.offer(read_local(&light, 12, 4), Ink::Light, 1.0, take)?;
        let smooth = treat::smoothed(picture);
        self.pay(picture)?;
        self.offer(read_local(&smooth, 12, 2), Ink::Dark, 1.0, take)?;
        self.pay(picture)?;
        self.offer(read_local(&smooth, 7, 1), Ink::Dark, 1.0, take)?;
        let sharp = treat::sharpened(picture);
        self.pay(picture)?;
        self.offer(read_hybrid(&sharp), Ink::Dark, 1.0, take)?;
        self.pay(picture)?;
        self.offer(read_local(&sharp, 9, 0), Ink::Dark, 1.0, take)?;
        self.pay(picture)?;
        self.offer(read_local(&treat::smoothed(&smooth), 25, 1), Ink::Dark, 1.0, take)?;
        if picture.pixels().len() <= LARGE {
            let double = treat::doubled(&smooth);
            self.pay(&double)?;
            self.offer(read_hybrid(&double), Ink::Dark, 0.5, take)?;
            self.pay(&double)?;
            self.offer(read_local(&double, 20, 2), Ink::Dark, 0.5, take)?;
            self.pay(&double)?;
            self.offer(read_local(&treat::sharpened(&double), 16, 0), Ink::Dark, 0.5, take)?;
        }
        let mut dark =
            Work { fits: 40, pairs: 8, codes: 8, thorough: true, samples: self.left, frugal: false };
        let answer = self.hard(picture, Ink::Dark, &mut dark, take);
        self.left = dark.samples;
        answer?;
        let mut light_work = Work { fits: 30, pairs: 8, codes: 6, samples: self.left, ..dark };
        let answer = self.hard(&light, Ink::Light, &mut light_work, take);
        self.left = light_work.samples;
        answer
    }

    /// Pays for a treatment of a still picture and its search: `None` where nothing is left, which ends the climb.
    fn pay(&mut self, picture: &Luma) -> Option<()> {
        let cost = RUNG.saturating_mul(picture.pixels().len());
        self.left = if self.effort == Effort::Frame { self.left } else { self.left.checked_sub(cost)? };
        Some(())
    }

    /// Takes what a rung read: `None` where that is enough.
    fn offer(&mut self, read: Read, ink: Ink, scale: f64, take: &mut dyn FnMut(&str) -> bool) -> Option<()> {
        let sightings = self.sightings(ink);
        for (at, size) in read.patterns {
            sightings.add(at.map(|value| value * scale), size * scale);
        }
        for (text, corners) in read.texts {
            if take(&text) {
                self.content = true;
                let [first, right, below] = corners.map(|at| at.map(|value| value * scale));
                self.sightings(ink).forget(first, right, below);
            }
        }
        (!self.done()).then_some(())
    }

    fn hard(
        &mut self,
        picture: &Luma,
        ink: Ink,
        work: &mut Work,
        take: &mut dyn FnMut(&str) -> bool,
    ) -> Option<()> {
        let sightings = self.sightings(ink).clone();
        let mut found = Vec::new();
        let [dark, light] = &mut self.tried;
        let tried = if ink == Ink::Dark { dark } else { light };
        hard::read(picture, &sightings, work, tried, &mut |seen| {
            let taken = seen.text.as_deref().is_some_and(&mut *take);
            if taken {
                found.push(seen.corners);
            } else {
                self.seen.push(seen);
            }
            taken && !self.all
        });
        for [first, right, below] in found {
            self.content = true;
            self.sightings(ink).forget(first, right, below);
        }
        (!self.done()).then_some(())
    }

    fn sightings(&mut self, ink: Ink) -> &mut Sightings {
        let [dark, light] = &mut self.sightings;
        if ink == Ink::Dark { dark } else { light }
    }
}

/// What one rung saw.
#[derive(Default)]
struct Read {
    /// Each text with its three corners.
    texts: Vec<(String, [Point; 3])>,
    /// Each finder pattern: where, and how large across.
    patterns: Vec<(Point, f64)>,
}

/// Dark and light by the hybrid threshold of the library: best on a clean picture.
fn read_hybrid(picture: &Luma) -> Read {
    guarded(|| {
        let (width, height) = (u32::try_from(picture.width()).ok()?, u32::try_from(picture.height()).ok()?);
        let source = Luma8Source::new_with_slice(picture.pixels(), width, height).ok()?;
        let binarizer = HybridBinarizer::new(source);
        Some(decoded(binarizer.get_black_matrix().ok()?))
    })
}

/// Dark and light by the mean of the surroundings: best under glare and shadow.
fn read_local(picture: &Luma, reach: usize, bias: i32) -> Read {
    guarded(|| {
        let (width, height) = (u32::try_from(picture.width()).ok()?, u32::try_from(picture.height()).ok()?);
        let mut bits = BitMatrix::new(width, height).ok()?;
        let dark = treat::darker_than_around(picture, reach, bias);
        for (y, row) in (0u32..).zip(dark.chunks_exact(picture.width())) {
            let mut packed = BitArray::with_size(row.len());
            for (at, word) in (0..).step_by(BIT_FIELD_BASE_BITS).zip(row.chunks(BIT_FIELD_BASE_BITS)) {
                let bits =
                    word.iter().rev().fold(0, |bits: BitFieldBaseType, &dark| bits << 1 | usize::from(dark));
                packed.setBulk(at, bits);
            }
            bits.setRow(y, &packed);
        }
        let mut read = decoded(&bits);
        let mut cores = cores::find(&dark, picture.width());
        if cores.len() > MOST_PATTERNS {
            cores.sort_by(|(_, a), (_, b)| b.total_cmp(a));
            cores.truncate(MOST_PATTERNS);
        }
        read.patterns.extend(cores);
        Some(read)
    })
}

/// How many finder patterns of one treatment are looked at, the largest first: more are texture, and every set of three of them
/// would be weighed.
const MOST_PATTERNS: usize = 600;

/// How many sets of three finder patterns are tried in one black-and-white picture.
const MOST_SETS: usize = 40;

/// How many places of a large picture may look like a finder pattern: the library compares each with every pattern that it has
/// found, and more are texture.
const MOST_CANDIDATES: usize = 6_000;

/// Places that look like a finder pattern along every third row, as the library takes them or a little more freely, and along
/// the column through their middle.
fn candidates(bits: &BitMatrix) -> usize {
    let mut found = 0;
    for y in (2..bits.height()).step_by(3) {
        // The last five runs, light and dark by turns; the newest last.
        let (mut runs, mut dark, mut length) = ([0u32; 5], false, 0u32);
        for x in 0..bits.width() {
            if bits.get(x, y) == dark {
                length += 1;
                continue;
            }
            let [_, b, c, d, e] = runs;
            runs = [b, c, d, e, length];
            if dark && looks_like_a_finder(runs) {
                let [_, _, middle, right, last] = runs;
                let across = runs.iter().sum();
                let down = column(bits, x - last - right - middle / 2 - 1, y, across);
                found += usize::from(looks_like_a_finder(down));
            }
            (dark, length) = (!dark, 1);
        }
    }
    found
}

/// The five runs of the column through a dark place, the middle one through it; none is followed further than `most`.
fn column(bits: &BitMatrix, x: u32, y: u32, most: u32) -> [u32; 5] {
    let run = |from: i64, step: i64, dark: bool| {
        let along = (0..i64::from(most)).map(|count| from + step * count);
        let inside =
            |at: &i64| u32::try_from(*at).is_ok_and(|at| at < bits.height() && bits.get(x, at) == dark);
        i64::try_from(along.take_while(inside).count()).unwrap_or(0)
    };
    let beyond = |step: i64| {
        let middle = run(i64::from(y) + step, step, true);
        let light = run(i64::from(y) + step * (1 + middle), step, false);
        let ring = run(i64::from(y) + step * (1 + middle + light), step, true);
        [middle, light, ring].map(|length| u32::try_from(length).unwrap_or(0))
    };
    let ([up, above, top], [down, below, bottom]) = (beyond(-1), beyond(1));
    [top, above, up + 1 + down, below, bottom]
}

/// Five runs as 1:1:3:1:1, from edge to edge.
fn looks_like_a_finder([a, b, c, d, e]: [u32; 5]) -> bool {
    let module = f64::from(a + b + c + d + e) / 7.0;
    let near = |sum: u32, modules: f64| (f64::from(sum) - modules * module).abs() < 0.75 * module + 1.0;
    a > 0
        && c >= 3
        && c >= 2 * a.max(e)
        && c >= b.max(d)
        && near(a + b, 2.0)
        && near(b + c, 4.0)
        && near(c + d, 4.0)
        && near(d + e, 2.0)
}

/// Every code in a black-and-white picture.
fn decoded(bits: &BitMatrix) -> Read {
    let large = bits.width() as usize * bits.height() as usize > LARGE;
    if large && candidates(bits) > MOST_CANDIDATES {
        return Read::default();
    }
    let mut patterns = FindFinderPatterns(bits, true, 0);
    if patterns.len() > MOST_PATTERNS {
        patterns.sort_by_key(|pattern| std::cmp::Reverse(pattern.size));
        patterns.truncate(MOST_PATTERNS);
    }
    let place = |pattern: &ConcentricPattern| [f64::from(pattern.p.x), f64::from(pattern.p.y)];
    let mut read = Read {
        texts: Vec::new(),
        patterns: patterns.iter().map(|pattern| (place(pattern), f64::from(pattern.size))).collect(),
    };
    let mut used = Vec::new();
    for set in GenerateFinderPatternSets(&mut patterns).iter().take(MOST_SETS) {
        if [set.bl, set.tl, set.tr].iter().any(|pattern| used.contains(pattern)) {
            continue;
        }
        let Ok(sampled) = SampleQR(bits, set) else { continue };
        let Ok(result) = Decode(sampled.getBits()) else { continue };
        if result.isValid() {
            used.extend([set.bl, set.tl, set.tr]);
            read.texts.push((result.text(), [place(&set.tl), place(&set.tr), place(&set.bl)]));
        }
    }
    read
}

/// The reader's library indexes as it goes; a hostile picture that makes it stumble is a picture that is not read.
fn guarded(read: impl FnOnce() -> Option<Read>) -> Read {
    catch_unwind(AssertUnwindSafe(read)).ok().flatten().unwrap_or_default()
}
