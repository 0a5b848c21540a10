//! The grid of modules laid over the picture and drawn to it node by node, so that a curved or crumpled code is
//! followed where no single projection fits.

use super::grid::Grid;
use super::layout::Layout;
use super::locate::{Corners, Frame, Point, Projection, length, minus};
use super::luma::Luma;

/// Modules from node to node, about: a fold may be no wider than a dozen modules.
const SPACING: f64 = 3.2;
/// Modules round a node that are looked at.
const WINDOW: isize = 3;

/// Nodes from the middle of the first finder pattern to the middles of the other two and on to the fourth corner.
#[derive(Clone, Debug)]
pub(super) struct Mesh {
    /// Nodes less one along a side.
    cells: usize,
    /// Modules from node to node.
    step: f64,
    nodes: Grid<Point>,
}

impl Mesh {
    /// The mesh that lies on a projection.
    pub(super) fn flat(layout: &Layout, projection: &Projection) -> Self {
        let span = layout.side as f64 - 7.0;
        let cells = (span / SPACING).round().max(2.0);
        let step = span / cells;
        let cells = cells as usize;
        let empty = Grid::<Point>::new(cells + 1);
        let nodes = empty.made(|x, y| projection.at(3.5 + x as f64 * step, 3.5 + y as f64 * step));
        Self { cells, step, nodes }
    }

    /// What it costs to look for every node once, in samples of brightness.
    pub(super) fn cost(&self) -> usize {
        let window = (2 * WINDOW.unsigned_abs() + 1).pow(2);
        (self.cells + 1).pow(2) * window * 15
    }

    fn modules(&self, node: usize) -> f64 {
        3.5 + node as f64 * self.step
    }

    /// The pixel of a place in modules.
    pub(super) fn at(&self, u: f64, v: f64) -> Point {
        let last = (self.cells - 1) as f64;
        let (a, b) = ((u - 3.5) / self.step, (v - 3.5) / self.step);
        let (column, row) = (a.floor().clamp(0.0, last), b.floor().clamp(0.0, last));
        let (fx, fy) = (a - column, b - row);
        let (column, row) = (column as usize, row as usize);
        let node = |dx: usize, dy: usize| self.nodes.get(column + dx, row + dy);
        let (nw, ne, sw, se) = (node(0, 0), node(1, 0), node(0, 1), node(1, 1));
        let blend = |nw: f64, ne: f64, sw: f64, se: f64| {
            (nw * (1.0 - fx) + ne * fx) * (1.0 - fy) + (sw * (1.0 - fx) + se * fx) * fy
        };
        [blend(nw[0], ne[0], sw[0], se[0]), blend(nw[1], ne[1], sw[1], se[1])]
    }

    /// Grows this flat mesh over the picture from the three patterns: each node is foretold from its neighbours, moved to
    /// where the modules round it stand out best, and then foretells the next. `shape` gives the change of scale from
    /// node to node that perspective alone would make.
    pub(super) fn grown(
        &self,
        layout: &Layout,
        projection: &Projection,
        corners: &Corners,
        picture: &Luma,
        perspective: bool,
    ) -> Self {
        let mut mesh = self.clone();
        let flat = self;
        let still = projection.frame(3.5, 3.5);
        let shape = |x: usize, y: usize| {
            if perspective { projection.frame(flat.modules(x), flat.modules(y)) } else { still }
        };
        let side = mesh.cells + 1;
        let mut frames: Grid<Option<Frame>> = Grid::new(side);
        let [first, right, below] = corners.seen;
        frames.set(0, 0, first.then_some(corners.first));
        frames.set(mesh.cells, 0, right.then_some(corners.right));
        frames.set(0, mesh.cells, below.then_some(corners.below));
        // The surest neighbourhood goes first, so that a blot or a fold is gone round, not through.
        let mut surest = Grid::<f64>::new(side);
        let mut support = Grid::<f64>::new(side);
        let settle = |x: usize, y: usize, sure: f64, surest: &mut Grid<f64>, support: &mut Grid<f64>| {
            surest.set(x, y, sure);
            support.set(x, y, f64::NEG_INFINITY);
            for (dx, dy, weight) in AROUND {
                if let (Some(nx), Some(ny)) = (x.checked_add_signed(dx), y.checked_add_signed(dy)) {
                    support.set(nx, ny, support.get(nx, ny) + weight * sure);
                }
            }
        };
        for (x, y) in frames.places() {
            if frames.get(x, y).is_some() {
                settle(x, y, 1.0, &mut surest, &mut support);
            }
        }
        while let Some((x, y)) =
            support.places().max_by(|&(a, b), &(c, d)| support.get(a, b).total_cmp(&support.get(c, d)))
        {
            if support.get(x, y) <= 0.0 {
                break;
            }
            let Some(foretold) = foretell(&frames, &surest, x, y, flat.step, &shape) else { break };
            let (found, sure) = seek(layout, picture, foretold, flat.modules(x), flat.modules(y), 0.5);
            frames.set(x, y, Some(learned(&frames, found, x, y, flat.step)));
            settle(x, y, sure.max(0.02), &mut surest, &mut support);
        }
        mesh.nodes =
            flat.nodes.made(|x, y| frames.get(x, y).map_or(flat.nodes.get(x, y), |frame| frame.middle));
        mesh
    }

    /// Moves every node towards where its neighbours want it and where the modules round it stand out best.
    pub(super) fn relax(&mut self, layout: &Layout, picture: &Luma, reach: f64) {
        let moved = self.nodes.made(|x, y| {
            let frame = self.frame(x, y);
            let smooth = self.between(x, y).unwrap_or(frame.middle);
            let (found, sure) = seek(layout, picture, frame, self.modules(x), self.modules(y), reach);
            let own = 0.25 + 0.7 * sure;
            [0, 1].map(|axis| {
                let (a, b) =
                    if axis == 0 { (found.middle[0], smooth[0]) } else { (found.middle[1], smooth[1]) };
                a * own + b * (1.0 - own)
            })
        });
        self.nodes = moved;
    }

    /// The node's frame by its neighbours in the mesh.
    fn frame(&self, x: usize, y: usize) -> Frame {
        let (west, east) = (x.saturating_sub(1), (x + 1).min(self.cells));
        let (north, south) = (y.saturating_sub(1), (y + 1).min(self.cells));
        let vector = |a: Point, b: Point, nodes: usize| {
            let modules = nodes as f64 * self.step;
            minus(b, a).map(|value| value / modules)
        };
        Frame {
            middle: self.nodes.get(x, y),
            right: vector(self.nodes.get(west, y), self.nodes.get(east, y), east - west),
            down: vector(self.nodes.get(x, north), self.nodes.get(x, south), south - north),
        }
    }

    /// The middle between opposite neighbours, where there are any.
    fn between(&self, x: usize, y: usize) -> Option<Point> {
        let inner = |at: usize| at > 0 && at < self.cells;
        let mut sum = [0.0; 2];
        let mut count = 0.0;
        let mut add = |a: Point, b: Point| {
            sum = [sum[0] + a[0] + b[0], sum[1] + a[1] + b[1]];
            count += 2.0;
        };
        if inner(x) {
            add(self.nodes.get(x - 1, y), self.nodes.get(x + 1, y));
        }
        if inner(y) {
            add(self.nodes.get(x, y - 1), self.nodes.get(x, y + 1));
        }
        (count > 0.0).then(|| sum.map(|value| value / count))
    }

    /// The brightness of every module: the mean of five places in its middle.
    pub(super) fn sampled(&self, layout: &Layout, picture: &Luma) -> Grid<f32> {
        Grid::<f32>::new(layout.side).made(|x, y| {
            let (u, v) = (x as f64 + 0.5, y as f64 + 0.5);
            let middle = self.at(u, v);
            let (right, down) = (minus(self.at(u + 0.2, v), middle), minus(self.at(u, v + 0.2), middle));
            let look = |a: f64, b: f64| {
                picture
                    .sample([middle[0] + a * right[0] + b * down[0], middle[1] + a * right[1] + b * down[1]])
            };
            (look(0.0, 0.0) * 2.0 + look(1.0, 0.0) + look(-1.0, 0.0) + look(0.0, 1.0) + look(0.0, -1.0)) / 6.0
        })
    }
}

/// The eight neighbours of a node, with their weight.
const AROUND: [(isize, isize, f64); 8] = [
    (-1, 0, 1.0),
    (1, 0, 1.0),
    (0, -1, 1.0),
    (0, 1, 1.0),
    (-1, -1, 0.5),
    (1, -1, 0.5),
    (-1, 1, 0.5),
    (1, 1, 0.5),
];

/// A node's frame by those of its neighbours that are known.
fn foretell(
    frames: &Grid<Option<Frame>>,
    surest: &Grid<f64>,
    x: usize,
    y: usize,
    step: f64,
    shape: &dyn Fn(usize, usize) -> Frame,
) -> Option<Frame> {
    let here = shape(x, y);
    let mut sum = Frame { middle: [0.0; 2], right: [0.0; 2], down: [0.0; 2] };
    let mut count = 0.0;
    for (dx, dy, weight) in AROUND {
        let Some(known) = frames.near(x, y, dx, dy) else { continue };
        let (Some(nx), Some(ny)) = (x.checked_add_signed(dx), y.checked_add_signed(dy)) else { continue };
        let there = shape(nx, ny);
        let right = carried(known.right, there.right, here.right);
        let down = carried(known.down, there.down, here.down);
        let (u, v) = (-(dx as f64) * step, -(dy as f64) * step);
        let along = |a: Point, b: Point| [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0];
        let (mean_right, mean_down) = (along(known.right, right), along(known.down, down));
        let middle = Frame { middle: known.middle, right: mean_right, down: mean_down }.at(u, v);
        let weight = weight * surest.get(nx, ny);
        let add = |sum: Point, more: Point| [sum[0] + weight * more[0], sum[1] + weight * more[1]];
        sum = Frame {
            middle: add(sum.middle, middle),
            right: add(sum.right, right),
            down: add(sum.down, down),
        };
        count += weight;
    }
    (count > 0.0).then(|| Frame {
        middle: sum.middle.map(|value| value / count),
        right: sum.right.map(|value| value / count),
        down: sum.down.map(|value| value / count),
    })
}

/// A frame whose vectors have learned from where its neighbours were found.
fn learned(frames: &Grid<Option<Frame>>, found: Frame, x: usize, y: usize, step: f64) -> Frame {
    let vector = |dx: isize, dy: isize, told: Point, known: fn(&Frame) -> Point| {
        let mut sum = [0.0; 2];
        let mut count = 0.0;
        for way in [-1isize, 1] {
            let Some(other) = frames.near(x, y, dx * way, dy * way) else { continue };
            let seen = minus(other.middle, found.middle).map(|value| value / (step * way as f64));
            // What was seen on the way is the mean of the vectors at its two ends.
            let there = known(&other);
            sum = [sum[0] + 2.0 * seen[0] - there[0], sum[1] + 2.0 * seen[1] - there[1]];
            count += 1.0;
        }
        if count == 0.0 {
            return told;
        }
        // Half is taken over at once: a single finding may be off by a part of a module.
        [0.5 * (told[0] + sum[0] / count), 0.5 * (told[1] + sum[1] / count)]
    };
    Frame {
        middle: found.middle,
        right: vector(1, 0, found.right, |frame| frame.right),
        down: vector(0, 1, found.down, |frame| frame.down),
    }
}

/// A vector turned and stretched as the projection turns and stretches `there` into `here`.
fn carried(vector: Point, there: Point, here: Point) -> Point {
    let scale = there[0] * there[0] + there[1] * there[1];
    if scale < 1e-9 {
        return vector;
    }
    // The ratio of the two as complex numbers.
    let re = (here[0] * there[0] + here[1] * there[1]) / scale;
    let im = (here[1] * there[0] - here[0] * there[1]) / scale;
    [vector[0] * re - vector[1] * im, vector[0] * im + vector[1] * re]
}

/// Moves a frame by at most `reach` modules to where the modules round it stand out best from each other, and the
/// known ones look as they should. Answers the frame and how sure it is, 0 to 1.
fn seek(layout: &Layout, picture: &Luma, frame: Frame, u: f64, v: f64, reach: f64) -> (Frame, f64) {
    let (column, row) = (u.floor() as isize, v.floor() as isize);
    let spots: Vec<(f64, f64, f32)> = (-WINDOW..=WINDOW)
        .flat_map(|dy| (-WINDOW..=WINDOW).map(move |dx| (column + dx, row + dy)))
        .filter_map(|(x, y)| {
            let known = layout.known.get(usize::try_from(x).ok()?, usize::try_from(y).ok()?);
            let inside = (x as usize) < layout.side && (y as usize) < layout.side;
            inside.then(|| (x as f64 + 0.5 - u, y as f64 + 0.5 - v, known.sign()))
        })
        .collect();
    let count = spots.len().max(1) as f32;
    let offsets: Vec<(Point, f32)> =
        spots.iter().map(|&(a, b, known)| (minus(frame.at(a, b), frame.middle), known)).collect();
    let mut seen = vec![0.0f32; spots.len()];
    let mut score = |du: f64, dv: f64| {
        let [x, y] = frame.at(du, dv);
        let mut sum = 0.0;
        for (value, (offset, _)) in seen.iter_mut().zip(&offsets) {
            *value = picture.sample([x + offset[0], y + offset[1]]);
            sum += *value;
        }
        let mean = sum / count;
        let stand: f32 = seen
            .iter()
            .zip(&offsets)
            .map(
                |(&value, &(_, known))| {
                    if known == 0.0 { (value - mean).abs() } else { 2.0 * known * (mean - value) }
                },
            )
            .sum();
        stand / count
    };
    // One axis after the other, the first once more: nearly as good as every pair, for a part of the work.
    let third = reach / 2.0;
    let (mut du, mut dv) = (0.0, 0.0);
    let (mut mid, mut worst) = (0.0f32, f32::MAX);
    for pass in 0..3 {
        let mut line = [0.0f32; 5];
        for (at, value) in line.iter_mut().enumerate() {
            let off = (at as f64 - 2.0) * third;
            *value = if pass == 1 { score(du, off) } else { score(off, dv) };
            worst = worst.min(*value);
        }
        let (best, peak) = crest(&line);
        mid = best;
        if pass == 1 { dv = peak * third } else { du = peak * third }
    }
    let sure = f64::from(((mid - worst) / mid.abs().max(1.0)).clamp(0.0, 1.0)).min(1.0);
    // A node that is hardly surer than its foretelling moves only part of the way.
    let part = (sure * 3.0).min(1.0);
    (Frame { middle: frame.at(du * part, dv * part), ..frame }, part)
}

/// The highest of five values, and where it lies, -2 to 2, between the places by the parabola through it and its
/// neighbours. Where nothing stands out, the middle is as good as any.
fn crest(line: &[f32; 5]) -> (f32, f64) {
    let favour = [0.96, 0.99, 1.0, 0.99, 0.96];
    let mut best = (f32::MIN, 2);
    for (at, (&value, favour)) in line.iter().zip(favour).enumerate() {
        if value * favour > best.0 {
            best = (value * favour, at);
        }
    }
    let at = best.1;
    let value = |at: Option<usize>| at.and_then(|at| line.get(at)).copied();
    let mid = value(Some(at)).unwrap_or(0.0);
    let off = match (value(at.checked_sub(1)), value(Some(at + 1))) {
        (Some(low), Some(high)) if low - 2.0 * mid + high < -1e-6 => {
            f64::from(((low - high) / (2.0 * (low - 2.0 * mid + high))).clamp(-0.5, 0.5))
        }
        _ => 0.0,
    };
    (mid, at as f64 - 2.0 + off)
}

/// The smallest distance in pixels between neighbouring modules in a mesh; a code below 1.3 is hardly worth it.
pub(super) fn finest(mesh: &Mesh) -> f64 {
    let mut least = f64::INFINITY;
    for (x, y) in mesh.nodes.places() {
        let frame = mesh.frame(x, y);
        least = least.min(length(frame.right)).min(length(frame.down));
    }
    least
}
