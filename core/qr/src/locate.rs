//! Where a code lies: three finder patterns, each fitted with a frame of its own, and the projection through them.

use nalgebra::{SMatrix, SVector};

use super::grid::Grid;
use super::layout::{Layout, version_bits};
use super::luma::Luma;

pub(super) type Point = [f64; 2];

/// A place in the picture with the vectors of one module to the right and one module down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    pub(super) middle: Point,
    pub(super) right: Point,
    pub(super) down: Point,
}

impl Frame {
    /// The pixel at an offset in modules.
    pub(super) fn at(&self, u: f64, v: f64) -> Point {
        [
            self.middle[0] + u * self.right[0] + v * self.down[0],
            self.middle[1] + u * self.right[1] + v * self.down[1],
        ]
    }

    /// The area of a module in pixels; negative where it is mirrored.
    fn area(&self) -> f64 {
        self.right[0] * self.down[1] - self.right[1] * self.down[0]
    }
}

/// Three finder patterns, as they may belong together.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corners {
    pub(super) first: Frame,
    pub(super) right: Frame,
    pub(super) below: Frame,
    /// How well the patterns fit, 0 to 1.
    pub(super) fit: f64,
    /// Which of the three were seen; the others are guessed.
    pub(super) seen: [bool; 3],
}

/// A projection of the plane: from modules (from the code's top left) to pixels.
#[derive(Clone, Copy, Debug)]
pub(super) struct Projection([f64; 8]);

impl Projection {
    /// The projection that comes nearest to the pairs of modules and pixels (direct linear transform, in normalised
    /// pixels; Hartley and Zisserman 2004, 4.1).
    pub(super) fn through(pairs: &[(Point, Point)]) -> Option<Self> {
        let mut normal = SMatrix::<f64, 8, 8>::zeros();
        let mut side = SVector::<f64, 8>::zeros();
        // Some hundreds of pixels and some tens of modules: scaled so that the equations are well conditioned.
        let (pixels, modules) = (PIXELS, MODULES);
        for ([u, v], [x, y]) in pairs {
            let (u, v, x, y) = (u / modules, v / modules, x / pixels, y / pixels);
            for (row, value) in [
                ([u, v, 1.0, 0.0, 0.0, 0.0, -u * x, -v * x], x),
                ([0.0, 0.0, 0.0, u, v, 1.0, -u * y, -v * y], y),
            ] {
                let row = SVector::<f64, 8>::from(row);
                normal += row * row.transpose();
                side += row * value;
            }
        }
        let solved = normal.cholesky()?.solve(&side);
        solved.iter().all(|value| value.is_finite()).then(|| Self(solved.into()))
    }

    pub(super) fn at(&self, u: f64, v: f64) -> Point {
        let [a, b, c, d, e, f, g, h] = self.0;
        let (u, v) = (u / MODULES, v / MODULES);
        let deep = g * u + h * v + 1.0;
        [(a * u + b * v + c) / deep * PIXELS, (d * u + e * v + f) / deep * PIXELS]
    }

    /// Whether the whole code lies before the camera, and not seen edge on.
    pub(super) fn sane(&self, side: f64) -> bool {
        let [.., g, h] = self.0;
        [(0.0, 0.0), (side, 0.0), (0.0, side), (side, side)].iter().all(|&(u, v)| {
            let deep = g * u / MODULES + h * v / MODULES + 1.0;
            deep > 0.1 && deep < 10.0 && self.frame(u, v).area() > 0.8
        })
    }

    pub(super) fn frame(&self, u: f64, v: f64) -> Frame {
        let (west, east) = (self.at(u - 0.5, v), self.at(u + 0.5, v));
        let (north, south) = (self.at(u, v - 0.5), self.at(u, v + 0.5));
        Frame { middle: self.at(u, v), right: minus(east, west), down: minus(south, north) }
    }
}

const PIXELS: f64 = 500.0;
const MODULES: f64 = 50.0;

pub(super) fn minus(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1]]
}

pub(super) fn length(a: Point) -> f64 {
    a[0].hypot(a[1])
}

/// The finder pattern by its distance from the middle in modules: dark 1, light -1, with soft edges.
fn ring(distance: f64) -> f64 {
    let edge = if distance < 2.0 {
        1.5 - distance
    } else if distance < 3.0 {
        distance - 2.5
    } else {
        3.5 - distance
    };
    (edge * 2.0).clamp(-1.0, 1.0)
}

/// Fits a frame to a finder pattern, begun at a place with the directions of its sides and its size in pixels.
///
/// Answers the frame and its fit, the share of the picture's variance that the pattern explains.
fn fit(picture: &Luma, middle: Point, right: Point, down: Point, size: f64) -> Option<(Frame, f64)> {
    let mut begun: Vec<(f64, Frame)> = Vec::new();
    let across = likely_modules(picture, middle, down, size);
    for along in likely_modules(picture, middle, right, size) {
        for &across in &across {
            let frame = Frame { middle, right: along, down: across };
            // A sliver is no finder pattern, however well a line through it looks.
            if frame.area().abs() > 0.2 * length(along) * length(across) {
                begun.push((explained(picture, &frame), frame));
            }
        }
    }
    begun.sort_by(|a, b| b.0.total_cmp(&a.0));
    let settled = begun.into_iter().take(2).filter_map(|(_, frame)| {
        let frame = settle(picture, frame)?;
        Some((frame, explained(picture, &frame)))
    });
    settled.max_by(|a, b| a.1.total_cmp(&b.1))
}

/// Turns of a direction that are tried, radians.
const TURNS: [f64; 7] = [0.0, 0.15, -0.15, 0.3, -0.3, 0.45, -0.45];

/// The module's vectors near a direction for which a line through the middle looks most like a finder pattern: the
/// best of each turn, and the best four of those.
fn likely_modules(picture: &Luma, middle: Point, way: Point, size: f64) -> Vec<Point> {
    let whole = length(way);
    let mut likely: Vec<(f64, Point)> = Vec::new();
    for turn in TURNS {
        let (sin, cos) = turn.sin_cos();
        let unit = [(way[0] * cos - way[1] * sin) / whole, (way[0] * sin + way[1] * cos) / whole];
        let mut module = size / 7.0 * 0.35;
        let mut best = (0.0, [0.0; 2]);
        while module < size / 7.0 * 2.2 {
            let vector = [unit[0] * module, unit[1] * module];
            let line = Frame { middle, right: vector, down: [0.0; 2] };
            let mut sums = Sums::default();
            for step in -18..=18 {
                let u = f64::from(step) * 0.25;
                sums.add(ring(u.abs()), -f64::from(picture.sample(line.at(u, 0.0))));
            }
            let score = sums.correlation();
            if score > best.0 {
                best = (score, vector);
            }
            module *= 1.1;
        }
        if best.0 > 0.3 {
            // A turned line must be better by something, or else noise turns it.
            likely.push((best.0 - 0.1 * turn.abs(), best.1));
        }
    }
    likely.sort_by(|a, b| b.0.total_cmp(&a.0));
    likely.into_iter().take(4).map(|(_, vector)| vector).collect()
}

#[derive(Default)]
struct Sums {
    n: f64,
    a: f64,
    b: f64,
    aa: f64,
    bb: f64,
    ab: f64,
}

impl Sums {
    fn add(&mut self, a: f64, b: f64) {
        self.n += 1.0;
        self.a += a;
        self.b += b;
        self.aa += a * a;
        self.bb += b * b;
        self.ab += a * b;
    }

    fn correlation(&self) -> f64 {
        let joint = self.ab - self.a * self.b / self.n;
        let own = (self.aa - self.a * self.a / self.n) * (self.bb - self.b * self.b / self.n);
        if own > 1e-9 { joint / own.sqrt() } else { 0.0 }
    }
}

fn explained(picture: &Luma, frame: &Frame) -> f64 {
    let mut sums = Sums::default();
    for (u, v) in patch() {
        sums.add(ring(u.abs().max(v.abs())), -f64::from(picture.sample(frame.at(u, v))));
    }
    let correlation = sums.correlation().max(0.0);
    correlation * correlation
}

fn patch() -> impl Iterator<Item = (f64, f64)> {
    (-10..=10).flat_map(|y| (-10..=10).map(move |x| (f64::from(x) * 0.42, f64::from(y) * 0.42)))
}

/// Moves a frame until the pattern lies best on the picture (Gauss-Newton on six of shape and two of light).
fn settle(picture: &Luma, mut frame: Frame) -> Option<Frame> {
    for _ in 0..7 {
        let mut normal = SMatrix::<f64, 8, 8>::zeros();
        let mut side = SVector::<f64, 8>::zeros();
        let mut sums = Sums::default();
        let samples: Vec<(f64, f64, f64, f64, f64, f64)> = patch()
            .map(|(u, v)| {
                let [x, y] = frame.at(u, v);
                let look = |dx: f64, dy: f64| f64::from(picture.sample([x + dx, y + dy]));
                let wanted = -ring(u.abs().max(v.abs()));
                let seen = look(0.0, 0.0);
                sums.add(wanted, seen);
                let slope = (look(0.7, 0.0) - look(-0.7, 0.0), look(0.0, 0.7) - look(0.0, -0.7));
                (u, v, wanted, seen, slope.0 / 1.4, slope.1 / 1.4)
            })
            .collect();
        let spread = sums.aa - sums.a * sums.a / sums.n;
        let gain = ((sums.ab - sums.a * sums.b / sums.n) / spread).max(1.0);
        let level = (sums.b - gain * sums.a) / sums.n;
        for (u, v, wanted, seen, gx, gy) in samples {
            let row = SVector::<f64, 8>::from([gx, gy, gx * u, gy * u, gx * v, gy * v, -1.0, -wanted]);
            normal += row * row.transpose();
            side += row * (level + gain * wanted - seen);
        }
        normal += SMatrix::from_diagonal(&(normal.diagonal() * 1e-3).add_scalar(1e-6));
        let step = normal.cholesky()?.solve(&side);
        let most = length(frame.right).max(length(frame.down));
        // A step of more than a module is a leap in the dark.
        let big = step.iter().take(2).fold(0.0f64, |big, value| big.max(value.abs())) / most;
        let damp = if big > 0.7 { 0.7 / big } else { 1.0 };
        let moved: Vec<f64> = step.iter().map(|value| value * damp).collect();
        if let [mx, my, rx, ry, dx, dy, ..] = moved[..] {
            frame.middle = [frame.middle[0] + mx, frame.middle[1] + my];
            frame.right = [frame.right[0] + rx, frame.right[1] + ry];
            frame.down = [frame.down[0] + dx, frame.down[1] + dy];
        }
        if !picture.holds(frame.middle) || !frame.area().is_finite() || frame.area().abs() < 0.5 {
            return None;
        }
        if big < 0.004 {
            break;
        }
    }
    Some(frame)
}

/// How well a finder pattern must fit.
const LEAST_FIT: f64 = 0.45;

/// Fits frames to three places taken for the patterns at the first corner, to its right and below it.
pub(super) fn corners(picture: &Luma, places: [(Point, f64); 3]) -> Option<Corners> {
    let [(first, first_size), (right, right_size), (below, below_size)] = places;
    let (along, across) = (minus(right, first), minus(below, first));
    let (first, a) = fit(picture, first, along, across, first_size)?;
    if a < LEAST_FIT {
        return None;
    }
    let (right, b) = fit(picture, right, along, first.down, right_size)?;
    if b < LEAST_FIT {
        return None;
    }
    // The other two turn about directions of their own: the line between the patterns is exact.
    let (below, c) = fit_down(picture, below, first.right, across, below_size)?;
    let fit = a.min(b).min(c);
    (fit >= LEAST_FIT && first.area() > 0.0 && right.area() > 0.0 && below.area() > 0.0).then_some(Corners {
        first,
        right,
        below,
        fit,
        seen: [true; 3],
    })
}

/// Which two corners a pair of patterns is taken for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pair {
    FirstAndRight,
    FirstAndBelow,
    RightAndBelow,
}

/// How surely the version must be read beside a pattern before two patterns are enough.
const LEAST_VERSION: f64 = 0.72;

/// Fits frames to two places taken for two corners of a code whose third pattern is hidden. The version beside the
/// patterns must be read, since nothing else tells a pair of patterns from two bits of texture.
pub(super) fn two_corners(
    picture: &Luma,
    pair: Pair,
    places: [(Point, f64); 2],
) -> Option<(Corners, Layout)> {
    let [(one, one_size), (other, other_size)] = places;
    let way = minus(other, one);
    let quarter = |a: Point| [-a[1], a[0]];
    let (right, down) = match pair {
        Pair::FirstAndRight => (way, quarter(way)),
        Pair::FirstAndBelow => ([way[1], -way[0]], way),
        // From the right corner to the one below goes one left and one down.
        Pair::RightAndBelow => {
            let right = [way[1] - way[0], -way[0] - way[1]];
            (right, quarter(right))
        }
    };
    let (one, a) = fit(picture, one, right, down, one_size)?;
    let (other, b) = fit(picture, other, right, down, other_size)?;
    if a.min(b) < LEAST_FIT || one.area() <= 0.0 || other.area() <= 0.0 {
        return None;
    }
    let unseen = |version: u32| {
        let modules = 10.0 + 4.0 * f64::from(version);
        let moved =
            |frame: &Frame, u: f64, v: f64| Frame { middle: frame.at(u * modules, v * modules), ..*frame };
        let fit = a.min(b);
        match pair {
            Pair::FirstAndRight => Corners {
                first: one,
                right: other,
                below: moved(&one, 0.0, 1.0),
                fit,
                seen: [true, true, false],
            },
            Pair::FirstAndBelow => Corners {
                first: one,
                right: moved(&one, 1.0, 0.0),
                below: other,
                fit,
                seen: [true, false, true],
            },
            Pair::RightAndBelow => Corners {
                first: moved(&one, -1.0, 0.0),
                right: one,
                below: other,
                fit,
                seen: [false, true, true],
            },
        }
    };
    let mut best: Option<(f64, u32)> = None;
    for version in 7..=40u32 {
        let corners = unseen(version);
        let [right, below] = corners.version_beside(picture, version)?;
        let score = match pair {
            Pair::FirstAndRight => right,
            Pair::FirstAndBelow => below,
            Pair::RightAndBelow => right.max(below),
        };
        if best.is_none_or(|(known, _)| score > known) {
            best = Some((score, version));
        }
    }
    let (_, version) = best.filter(|(score, _)| *score >= LEAST_VERSION)?;
    Some((unseen(version), Layout::of(version)?))
}

/// As [`fit`], with the exact direction downwards.
fn fit_down(picture: &Luma, middle: Point, right: Point, down: Point, size: f64) -> Option<(Frame, f64)> {
    // Mirrored across the diagonal, the exact direction comes first.
    let (turned, share) = fit(picture, middle, down, right, size)?;
    Some((Frame { middle: turned.middle, right: turned.down, down: turned.right }, share))
}

impl Corners {
    /// Modules along a side by the frames alone: between two places of one line seen in perspective, the distance in
    /// modules is that in pixels by the geometric mean of the two scales.
    fn side(&self) -> f64 {
        let modules = |a: &Frame, b: &Frame, ga: Point, gb: Point| {
            let way = minus(b.middle, a.middle);
            let whole = length(way);
            let part = |g: Point| ((g[0] * way[0] + g[1] * way[1]) / whole).abs().max(0.3);
            whole / (part(ga) * part(gb)).sqrt()
        };
        let along = modules(&self.first, &self.right, self.first.right, self.right.right);
        let across = modules(&self.first, &self.below, self.first.down, self.below.down);
        (along * across).sqrt() + 7.0
    }

    /// The layouts that it may have, likeliest first: by the version that stands in the code beside two patterns, and
    /// by the distance.
    pub(super) fn layouts(&self, picture: &Luma) -> Vec<Layout> {
        let guess = (self.side() - 17.0) / 4.0;
        let mut ranked: Vec<(f64, u32)> = (1..=40u32)
            .filter(|&version| (f64::from(version) - guess).abs() < 2.0 + 0.4 * guess.max(0.0))
            .map(|version| {
                let near = -(f64::from(version) - guess).abs() / (1.0 + 0.05 * guess.abs());
                (near + 6.0 * self.version_seen(picture, version), version)
            })
            .collect();
        ranked.sort_by(|a, b| b.0.total_cmp(&a.0));
        ranked.into_iter().take(3).filter_map(|(_, version)| Layout::of(version)).collect()
    }

    /// How far the version beside the patterns agrees with `version`, -1 to 1; 0 where a code has none.
    fn version_seen(&self, picture: &Luma, version: u32) -> f64 {
        // One of the two may be under mud or round the bend.
        let [one, other] = self.version_beside(picture, version).unwrap_or_default();
        one.max(other) * 0.7 + one.min(other) * 0.3
    }

    /// Whether a version stands beside the patterns as it should, so that they are taken for the right corners.
    pub(super) fn sure(&self, picture: &Luma) -> bool {
        (7..=40).any(|version| self.version_seen(picture, version) >= LEAST_VERSION)
    }

    /// The same beside the pattern to the right and beside the one below.
    fn version_beside(&self, picture: &Luma, version: u32) -> Option<[f64; 2]> {
        let bits = (version >= 7).then(|| version_bits(version))?;
        let [mut right, mut below] = [Sums::default(), Sums::default()];
        for bit in 0..18u32 {
            let dark = f64::from(bits >> bit & 1);
            let (u, v) = (f64::from(bit % 3) - 7.0, f64::from(bit / 3) - 3.0);
            right.add(dark, -f64::from(picture.sample(self.right.at(u, v))));
            below.add(dark, -f64::from(picture.sample(self.below.at(v, u))));
        }
        Some([right.correlation(), below.correlation()])
    }

    /// The projection through the three patterns for a code of `side` modules.
    pub(super) fn projection(&self, side: usize) -> Option<Projection> {
        let far = side as f64 - 3.5;
        let mut pairs = Vec::new();
        for (frame, u, v) in [(&self.first, 3.5, 3.5), (&self.right, far, 3.5), (&self.below, 3.5, far)] {
            for (du, dv) in [(-3.0, -3.0), (3.0, -3.0), (-3.0, 3.0), (3.0, 3.0), (0.0, 0.0), (0.0, 0.0)] {
                pairs.push(([u + du, v + dv], frame.at(du, dv)));
            }
        }
        Projection::through(&pairs).filter(|projection| projection.sane(side as f64))
    }
}

/// How far what is known of a layout agrees with soft modules, -1 to 1, without the finder patterns.
pub(super) fn agreement(soft: &Grid<f32>, layout: &Layout) -> f64 {
    let mut sums = Sums::default();
    for (x, y) in soft.places() {
        let low = |a: usize| a < 9;
        let high = |a: usize| a + 9 > layout.side;
        let corner = low(x) && low(y) || low(x) && high(y) || high(x) && low(y);
        let known = layout.known.get(x, y).sign();
        if known != 0.0 && !corner {
            sums.add(f64::from(known), f64::from(soft.get(x, y)));
        }
    }
    sums.correlation()
}
