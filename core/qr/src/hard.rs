//! The thorough reader: for a code that is too tilted, bent, blurred or dirty for the library's own.

use super::decode::{Attempt, decode};
use super::equal::{equalised, explained, levelled};
use super::grid::Grid;
use super::layout::Layout;
use super::locate::{Corners, Pair, Point, agreement, corners, length, minus, two_corners};
use super::luma::Luma;
use super::mesh::{Mesh, finest};

/// A finder pattern as it was seen: where, how large across in pixels, and in how many treatments.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sighting {
    pub(super) at: Point,
    pub(super) size: f64,
    pub(super) times: usize,
}

/// Finder patterns seen under several treatments, each once.
#[derive(Clone, Debug, Default)]
pub(super) struct Sightings(Vec<Sighting>);

/// How many patterns are looked at together: beyond, they are texture.
const MOST_SIGHTINGS: usize = 14;

impl Sightings {
    /// More are texture: they would cost their number squared, and say nothing.
    const MOST: usize = 1_500;

    pub(super) fn add(&mut self, at: Point, size: f64) {
        let near = |known: &&mut Sighting| length(minus(known.at, at)) < known.size.max(size) / 3.0;
        if let Some(known) = self.0.iter_mut().find(near) {
            known.times += 1;
        } else if self.0.len() < Self::MOST {
            self.0.push(Sighting { at, size, times: 1 });
        }
    }

    /// Forgets what lies in a code that is read: the corners are its three patterns.
    pub(super) fn forget(&mut self, first: Point, right: Point, below: Point) {
        let (along, across) = (minus(right, first), minus(below, first));
        let area = along[0] * across[1] - along[1] * across[0];
        self.0.retain(|sighting| {
            let off = minus(sighting.at, first);
            let a = (off[0] * across[1] - off[1] * across[0]) / area;
            let b = (along[0] * off[1] - along[1] * off[0]) / area;
            !((-0.25..1.25).contains(&a) && (-0.25..1.25).contains(&b))
        });
    }

    /// Whether another code may be there.
    pub(super) fn may_hold_a_code(&self) -> bool {
        self.0.iter().filter(|sighting| sighting.times >= 2).count() >= 3
    }

    /// Three patterns that may be the corners of one code, likeliest first: the first corner, right of it, below it.
    fn triples(&self) -> Vec<[Sighting; 3]> {
        let mut seen = self.0.clone();
        seen.sort_by(|a, b| b.times.cmp(&a.times).then(b.size.total_cmp(&a.size)));
        seen.truncate(MOST_SIGHTINGS);
        let mut ranked = Vec::new();
        for (i, first) in seen.iter().enumerate() {
            for (j, right) in seen.iter().enumerate() {
                for (k, below) in seen.iter().enumerate() {
                    if i != j
                        && i != k
                        && j != k
                        && let Some(doubt) = doubt(first, right, below)
                    {
                        ranked.push((doubt, [*first, *right, *below]));
                    }
                }
            }
        }
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        ranked.into_iter().map(|(_, triple)| triple).collect()
    }
}

impl Sightings {
    /// Codes of which only two patterns can be seen.
    fn pairs(&self, picture: &Luma, work: &mut Work) -> Vec<(Corners, Vec<Layout>)> {
        let mut seen = self.0.clone();
        seen.sort_by(|a, b| b.times.cmp(&a.times).then(b.size.total_cmp(&a.size)));
        seen.truncate(6);
        let mut found = Vec::new();
        for (j, other) in seen.iter().enumerate() {
            for one in seen.iter().take(j) {
                let modules = length(minus(one.at, other.at)) / (one.size + other.size) * 14.0;
                if work.pairs == 0
                    || !(12.0..400.0).contains(&modules)
                    || one.size.max(other.size) > 3.0 * one.size.min(other.size)
                {
                    continue;
                }
                if !work.pay(12 * FIT, 0) {
                    return found;
                }
                work.pairs -= 1;
                for [a, b] in [[one, other], [other, one]] {
                    let places = [(a.at, a.size), (b.at, b.size)];
                    for pair in [Pair::FirstAndRight, Pair::FirstAndBelow, Pair::RightAndBelow] {
                        let two = two_corners(picture, pair, places);
                        found.extend(two.map(|(corners, layout)| (corners, vec![layout])));
                    }
                }
            }
        }
        found
    }
}

/// How unlikely three patterns are the corners of one code; `None` where they cannot be.
fn doubt(first: &Sighting, right: &Sighting, below: &Sighting) -> Option<f64> {
    let (along, across) = (minus(right.at, first.at), minus(below.at, first.at));
    let (a, b) = (length(along), length(across));
    let area = along[0] * across[1] - along[1] * across[0];
    let sine = area / (a * b);
    if sine < 0.25 {
        return None;
    }
    let sizes = [first.size, right.size, below.size];
    let (small, large) = sizes.iter().fold((f64::MAX, 0.0f64), |(s, l), &size| (s.min(size), l.max(size)));
    if large > small * 3.2 {
        return None;
    }
    let mean = sizes.iter().sum::<f64>() / 3.0;
    let modules = (a * b).sqrt() / mean * 7.0;
    if !(9.0..260.0).contains(&modules) {
        return None;
    }
    let times = first.times.min(right.times).min(below.times).min(6) as f64;
    Some((a / b).ln().abs() + 1.2 * (1.0 - sine) + 0.7 * (large / small).ln() - 0.35 * times)
}

/// Work that may still be spent.
#[derive(Clone, Copy, Debug)]
pub(super) struct Work {
    /// Triples of patterns that may still be fitted.
    pub(super) fits: usize,
    /// Pairs of patterns that may still be fitted.
    pub(super) pairs: usize,
    /// Codes that may still be laid out and decoded.
    pub(super) codes: usize,
    /// Whether a mesh that fits badly is drawn to the picture in every way.
    pub(super) thorough: bool,
    /// Samples of brightness that may still be taken, other work counted as so many.
    pub(super) samples: usize,
    /// Whether a frame waits behind this one: then the likeliest alone is looked at.
    pub(super) frugal: bool,
}

/// The fit of one finder pattern, in samples.
const FIT: usize = 50_000;
/// One round of learning the blur and decoding, in samples for each module.
const ROUND: usize = 250;

impl Work {
    /// Pays for a piece of work, where that leaves `kept`.
    fn pay(&mut self, cost: usize, kept: usize) -> bool {
        let pays = self.samples >= cost.saturating_add(kept);
        if pays {
            self.samples -= cost;
        }
        pays
    }
}

/// The middle of each of three finder patterns, and its size in pixels.
type Middles = [(Point, f64); 3];

/// What was tried in one picture, so that nothing is tried twice.
#[derive(Clone, Debug, Default)]
pub(super) struct Tried {
    /// Middles and sizes of three patterns, and the corners fitted to them.
    fits: Vec<(Middles, Option<Corners>)>,
    /// Corners and modules a side of what could not be laid out.
    laid: Vec<([Point; 3], usize)>,
}

/// A code that was laid out, whether it could be decoded or not.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    pub(super) layout: Layout,
    /// Soft modules.
    pub(super) soft: Grid<f32>,
    /// How well what is known of the layout agrees, -1 to 1.
    pub(super) agreement: f64,
    pub(super) text: Option<String>,
    pub(super) corners: [Point; 3],
}

/// Lays out and decodes the codes that the sightings may belong to. `take` is shown each and ends the search with true.
pub(super) fn read(
    picture: &Luma,
    sightings: &Sightings,
    work: &mut Work,
    tried: &mut Tried,
    take: &mut dyn FnMut(Seen) -> bool,
) {
    let mut used: Vec<[Point; 3]> = Vec::new();
    let mut ready: Vec<Corners> = Vec::new();
    for triple in sightings.triples() {
        if work.fits == 0 || ready.len() >= 3 * work.codes {
            break;
        }
        let places = triple.map(|sighting| (sighting.at, sighting.size));
        if let Some((_, known)) = tried.fits.iter().find(|(known, _)| *known == places) {
            ready.extend(*known);
            continue;
        }
        if !work.pay(3 * FIT, 0) {
            break;
        }
        work.fits -= 1;
        let fitted = corners(picture, places);
        tried.fits.push((places, fitted));
        ready.extend(fitted);
        // Corners beside which the version is read need no rival.
        if work.frugal && fitted.is_some_and(|corners| corners.sure(picture)) {
            ready = fitted.into_iter().collect();
            break;
        }
    }
    ready.sort_by(|a, b| b.fit.total_cmp(&a.fit));
    let mut ready: Vec<(Corners, Vec<Layout>)> =
        ready.into_iter().map(|corners| (corners, corners.layouts(picture))).collect();
    // Pairs are dear: in a frame, only without a triple.
    if !work.frugal || ready.is_empty() {
        ready.extend(sightings.pairs(picture, work));
    }
    for (corners, layouts) in ready {
        let ends = [corners.first.middle, corners.right.middle, corners.below.middle];
        let known = |at: &Point| used.iter().flatten().any(|old| length(minus(*old, *at)) < 4.0);
        if ends.iter().zip(corners.seen).any(|(end, seen)| seen && known(end)) {
            continue;
        }
        for layout in layouts {
            if work.codes == 0 {
                return;
            }
            let key = (ends, layout.side);
            if tried.laid.contains(&key) {
                continue;
            }
            work.codes -= 1;
            let Some(seen) = laid_out(picture, &corners, layout, work) else {
                tried.laid.push(key);
                continue;
            };
            let good = seen.text.is_some();
            if good {
                used.push(ends);
            }
            if take(seen) {
                return;
            }
            if good {
                break;
            }
        }
    }
}

/// Below this agreement of what is known, the mesh does not lie on the code.
const LEAST_AGREEMENT: f64 = 0.25;

fn laid_out(picture: &Luma, corners: &Corners, layout: Layout, work: &mut Work) -> Option<Seen> {
    let projection = corners.projection(layout.side)?;
    let ends = [corners.first.middle, corners.right.middle, corners.below.middle];
    let look = |mesh: Mesh| {
        let soft = levelled(&mesh.sampled(&layout, picture));
        let agreement = agreement(&soft, &layout);
        (mesh, soft, agreement)
    };
    let flat = Mesh::flat(&layout, &projection);
    if finest(&flat) < LEAST_PIXELS {
        return None;
    }
    let (thorough, cost, round) = (work.thorough, flat.cost(), ROUND * layout.side * layout.side);
    let flat = look(flat);
    let finished =
        |soft, agreement, text| Seen { layout: layout.clone(), soft, agreement, text, corners: ends };
    if flat.2 > 0.85
        && let Some(text) = decode(&flat.1, &layout).text
    {
        return Some(finished(flat.1, flat.2, Some(text)));
    }
    let whole = corners.seen == [true; 3];
    let grown = |perspective| {
        let mut grown = flat.0.grown(&layout, &projection, corners, picture, perspective);
        if thorough {
            grown.relax(&layout, picture, 0.35);
        }
        look(grown)
    };
    let growing = if thorough { 2 * cost } else { cost };
    // One round of decoding is kept back from whatever is done to the mesh.
    let mut best = if work.pay(growing, round) { grown(whole) } else { flat.clone() };
    let good_enough = if thorough { 0.95 } else { 0.8 };
    if whole && best.2 < good_enough && work.pay(growing, round) {
        // Round a bend the scales at the patterns say nothing of the scale between them.
        let bent = grown(false);
        if bent.2 > best.2 {
            best = bent;
        }
    }
    if (thorough && best.2 < 0.95 || flat.2 > best.2) && work.pay(2 * cost, round) {
        let mut relaxed = flat.0;
        relaxed.relax(&layout, picture, 0.5);
        relaxed.relax(&layout, picture, 0.35);
        let relaxed = look(relaxed);
        if relaxed.2 > best.2 {
            best = relaxed;
        }
    }
    if best.2 < LEAST_AGREEMENT {
        return None;
    }
    let most = if thorough { 4 } else { 2 };
    let rounds = (0..most).take_while(|_| work.pay(round, 0)).count();
    let (text, soft) = solved(&best.1, &layout, rounds);
    Some(finished(soft, best.2, text))
}

/// Below this many pixels a module there is nothing to be seen.
const LEAST_PIXELS: f64 = 0.8;

/// Decodes soft modules, each time with the blur better known: at first from the patterns alone, then from every block
/// that could be corrected. Answers the text and the best soft modules.
fn solved(levelled: &Grid<f32>, layout: &Layout, rounds: usize) -> (Option<String>, Grid<f32>) {
    let mut best = decode(levelled, layout);
    if best.text.is_some() {
        return (best.text, levelled.clone());
    }
    let known = layout.known.made(|x, y| layout.known.get(x, y).sign());
    let with = |attempt: &Attempt| {
        known.made(|x, y| {
            let certain = attempt.certain.get(x, y);
            if certain == 0.0 { known.get(x, y) } else { certain }
        })
    };
    let mut soft = levelled.clone();
    for _ in 0..rounds {
        let certain = with(&best);
        let before = best.corrected;
        if let Some(equal) = equalised(levelled, &certain, 0.01) {
            let attempt = decode(&equal, layout);
            if attempt.text.is_some() {
                return (attempt.text, equal);
            }
            if attempt.corrected > best.corrected {
                best = attempt;
            }
            soft = equal;
        }
        let certain = with(&best);
        if let Some(sharp) = explained(levelled, &soft, &certain, 2) {
            let attempt = decode(&sharp, layout);
            if attempt.text.is_some() {
                return (attempt.text, sharp);
            }
            if attempt.corrected > best.corrected {
                best = attempt;
            }
        }
        if best.corrected == before {
            break;
        }
    }
    (None, soft)
}
