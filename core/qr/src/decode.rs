//! From soft modules to text: format, mask, blocks, correction with erasures at the least sure codewords.

use rxing::qrcode::common::ErrorCorrectionLevel;
use rxing::qrcode::cpp_port::decoder::DecodeBitStream;

use super::correct::correct;
use super::grid::Grid;
use super::layout::{Blocks, Known, Layout, format_bits, format_places, masked};

/// What came of one attempt.
#[derive(Clone, Debug)]
pub(super) struct Attempt {
    /// The text, where every block was corrected.
    pub(super) text: Option<String>,
    /// Modules that are certain now, from corrected blocks: dark 1, light -1, unknown 0.
    pub(super) certain: Grid<f32>,
    /// How many blocks were corrected.
    pub(super) corrected: usize,
}

/// How much of a block's certainty may speak against its correction.
const MOST_AGAINST: f32 = 0.3;

/// Decodes soft modules: positive is dark, the size is how sure it is.
pub(super) fn decode(soft: &Grid<f32>, layout: &Layout) -> Attempt {
    let mut best = Attempt { text: None, certain: soft.made(|_, _| 0.0), corrected: 0 };
    for format in formats(soft, layout).into_iter().take(2) {
        let Some(attempt) = with_format(soft, layout, format) else { continue };
        let done = attempt.text.is_some();
        if done || attempt.corrected > best.corrected {
            best = attempt;
        }
        if done || best.corrected > 0 {
            break;
        }
    }
    best
}

/// The 32 formats, likeliest first.
fn formats(soft: &Grid<f32>, layout: &Layout) -> Vec<u32> {
    let places = format_places(layout.side);
    let mut ranked: Vec<(f32, u32)> = (0..32)
        .map(|format| {
            let bits = format_bits(format);
            let likely: f32 = places
                .iter()
                .flat_map(|copy| copy.iter().enumerate())
                .map(|(bit, &(x, y))| {
                    let value = soft.get(x, y).clamp(-1.0, 1.0);
                    if bits >> bit & 1 == 1 { value } else { -value }
                })
                .sum();
            (likely, format)
        })
        .collect();
    ranked.sort_by(|a, b| b.0.total_cmp(&a.0));
    ranked.into_iter().map(|(_, format)| format).collect()
}

fn with_format(soft: &Grid<f32>, layout: &Layout, format: u32) -> Option<Attempt> {
    let level = ErrorCorrectionLevel::forBits(u8::try_from(format >> 3).ok()?).ok()?;
    let mask = format & 7;
    let blocks = layout.blocks(level)?;
    let value = |&(x, y): &(usize, usize)| {
        let value = soft.get(x, y);
        if masked(mask, x, y) { -value } else { value }
    };
    let words: Vec<[f32; 8]> = layout
        .order
        .chunks_exact(8)
        .map(|places| {
            let mut word = [0.0; 8];
            word.iter_mut().zip(places).for_each(|(bit, place)| *bit = value(place));
            word
        })
        .collect();
    let lanes = lanes(&blocks);
    // Looked for only when a block does not come right without.
    let mut blots: Option<Grid<bool>> = None;
    let mut certain = soft.made(|_, _| 0.0);
    let mut corrected = 0;
    let mut bytes = Vec::new();
    for (lane, &data) in lanes.iter().zip(&blocks.data) {
        let block: Vec<[f32; 8]> = lane.iter().filter_map(|&at| words.get(at)).copied().collect();
        let fixed = fix(&block, &doubts(&block), blocks.check).or_else(|| {
            let blots = blots.get_or_insert_with(|| blotted(soft, layout));
            let blot = |at: usize| layout.order.iter().skip(at * 8).take(8).any(|&(x, y)| blots.get(x, y));
            let mut doubts = doubts(&block);
            let mut any = false;
            for (doubt, _) in doubts.iter_mut().zip(lane).filter(|(_, at)| blot(**at)) {
                *doubt -= HIDDEN;
                any = true;
            }
            any.then(|| fix(&block, &doubts, blocks.check))?
        });
        let Some(fixed) = fixed else { continue };
        corrected += 1;
        bytes.extend(fixed.iter().take(data));
        for (&at, &byte) in lane.iter().zip(&fixed) {
            for (bit, &(x, y)) in layout.order.iter().skip(at * 8).take(8).enumerate() {
                let dark = (byte >> (7 - bit) & 1 == 1) != masked(mask, x, y);
                certain.set(x, y, if dark { 1.0 } else { -1.0 });
            }
        }
    }
    if corrected > 0 {
        let bits = format_bits(format);
        for (bit, &(x, y)) in format_places(layout.side).iter().flat_map(|copy| copy.iter().enumerate()) {
            certain.set(x, y, if bits >> bit & 1 == 1 { 1.0 } else { -1.0 });
        }
    }
    let text = (corrected == lanes.len()).then(|| text(&bytes, layout, level)).flatten();
    Some(Attempt { text, certain, corrected })
}

/// Where each block's codewords lie in the interleaved stream: its data, then its checks.
fn lanes(blocks: &Blocks) -> Vec<Vec<usize>> {
    let mut lanes: Vec<Vec<usize>> = vec![Vec::new(); blocks.data.len()];
    let longest = blocks.data.iter().copied().max().unwrap_or(0);
    let mut at = 0;
    for round in 0..longest + blocks.check {
        for (lane, &data) in lanes.iter_mut().zip(&blocks.data) {
            if round >= longest || round < data {
                lane.push(at);
                at += 1;
            }
        }
    }
    lanes
}

/// Goes before any doubt of brightness alone.
const HIDDEN: f32 = 100.0;

/// Modules that lie in an even patch of three by four or more: mud, glare or a fold rather than data, which the mask keeps
/// from being even. By chance, a code of 69 modules has four or five such patches.
fn blotted(soft: &Grid<f32>, layout: &Layout) -> Grid<bool> {
    let mut blots = soft.made(|_, _| false);
    for (x, y) in soft.places() {
        for (wide, tall) in [(3, 4), (4, 3)] {
            let spots = || (y..y + tall).flat_map(move |y| (x..x + wide).map(move |x| (x, y)));
            let dark = soft.get(x, y) > 0.0;
            let even = spots().all(|(x, y)| {
                let inside = x < layout.side && y < layout.side;
                inside && layout.known.get(x, y) == Known::Nothing && (soft.get(x, y) > 0.0) == dark
            });
            if even {
                spots().for_each(|(x, y)| blots.set(x, y, true));
            }
        }
    }
    blots
}

/// How sure each codeword is: as sure as its least sure module.
fn doubts(block: &[[f32; 8]]) -> Vec<f32> {
    block.iter().map(|bits| bits.iter().map(|bit| bit.abs()).fold(f32::INFINITY, f32::min)).collect()
}

/// Corrects one block, with more and more of its least sure codewords erased.
fn fix(block: &[[f32; 8]], doubts: &[f32], check: usize) -> Option<Vec<u8>> {
    let hard: Vec<u8> =
        block.iter().map(|bits| bits.iter().fold(0, |byte, &bit| byte << 1 | u8::from(bit > 0.0))).collect();
    let mut doubt: Vec<(f32, usize)> = doubts.iter().copied().zip(0..).collect();
    doubt.sort_by(|a, b| a.0.total_cmp(&b.0));
    let unsure: Vec<usize> = doubt.iter().map(|&(_, at)| at).collect();
    for erased in (0..=check.saturating_sub(4)).step_by(2) {
        let mut word = hard.clone();
        if correct(&mut word, check, unsure.get(..erased)?).is_some() && agrees(block, &word) {
            return Some(word);
        }
    }
    None
}

/// Whether the correction does not contradict what was seen for sure.
fn agrees(block: &[[f32; 8]], fixed: &[u8]) -> bool {
    let (mut against, mut all) = (0.0, f32::MIN_POSITIVE);
    for (bits, byte) in block.iter().zip(fixed) {
        for (at, bit) in bits.iter().enumerate() {
            all += bit.abs();
            if (*bit > 0.0) != (byte >> (7 - at) & 1 == 1) {
                against += bit.abs();
            }
        }
    }
    against / all < MOST_AGAINST
}

fn text(bytes: &[u8], layout: &Layout, level: ErrorCorrectionLevel) -> Option<String> {
    let result = DecodeBitStream(bytes, layout.version, level).ok()?;
    let text = result.text();
    (result.isValid() && !text.is_empty()).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::super::{layout::Layout, write};
    use super::decode;

    /// Every module of a written code where the layout expects it, in versions with and without version information.
    #[test]
    fn decodes_what_is_written() {
        for length in [1, 30, 150, 475, 999, 3000] {
            let text: String = "SL1:ABCDEFGH0123 ".chars().cycle().take(length).collect();
            let code = write(&text).unwrap();
            let layout = Layout::of(u32::from(code.version())).unwrap();
            let grid = super::Grid::<f32>::new(layout.side);
            let sign = |x: usize, y: usize| if code.is_dark(x as u32, y as u32) { 1.0 } else { -1.0 };
            for (x, y) in grid.places() {
                let known = layout.known.get(x, y).sign();
                assert!(known == 0.0 || known == sign(x, y), "version {}, {x} {y}", code.version());
            }
            let attempt = decode(&grid.made(sign), &layout);
            assert_eq!(attempt.text.as_deref(), Some(text.as_str()), "version {}", code.version());
            for (x, y) in grid.places() {
                assert!([0.0, sign(x, y)].contains(&attempt.certain.get(x, y)), "{x} {y}");
            }
            // Half a row under mud, known to be unsure, and a blot that looks sure.
            let muddy = grid.made(|x, y| {
                let blot = x.abs_diff(20) < 2 && y.abs_diff(14) < 2;
                if y == 12 && x < 10 {
                    -0.01
                } else if blot {
                    1.0
                } else {
                    sign(x, y)
                }
            });
            if length > 100 {
                assert_eq!(decode(&muddy, &layout).text, Some(text));
            }
        }
    }
}
