//! Finds the cores of finder patterns: solid dark blots in a light ring in a dark ring.
//!
//! The library looks for five runs in a row and wants all four sides of the ring. Here half the ring may be under mud
//! or run into its surroundings, and the pattern may be squeezed and sheared by tilt, since the blot's own second
//! moments tell how.

use super::locate::Point;

/// A blot while its runs are gathered: their count and their first and second moments.
#[derive(Clone, Copy, Default)]
struct Blot {
    area: f64,
    x: f64,
    y: f64,
    xx: f64,
    yy: f64,
    xy: f64,
}

/// A run of dark pixels in a row, and the blot that it belongs to.
#[derive(Clone, Copy)]
struct Run {
    from: usize,
    to: usize,
    blot: usize,
}

/// Blots of fewer pixels are noise.
const LEAST_AREA: f64 = 7.0;
/// How many directions of sixteen must show both rings.
const LEAST_RAYS: usize = 9;
const RAYS: usize = 16;

/// The middles of finder patterns in a black-and-white picture of `width` pixels a row, with their size across.
pub(super) fn find(dark: &[bool], width: usize) -> Vec<(Point, f64)> {
    let height = dark.len() / width.max(1);
    let is_dark = |x: f64, y: f64| {
        let inside = x >= 0.0 && y >= 0.0 && x < width as f64 && y < height as f64;
        inside.then(|| dark.get(y as usize * width + x as usize).copied()).flatten()
    };
    let most = (width.min(height) as f64 * 0.2).powi(2);
    let mut cores = Vec::new();
    if width > 0 {
        blots(dark, width, &mut |blot| {
            if blot.area >= LEAST_AREA && blot.area < most {
                cores.extend(core(&blot, &is_dark));
            }
        });
    }
    cores
}

/// Blots that the rows so far have begun and not ended, each with the blot that it was joined to and the last run of it.
#[derive(Default)]
struct Open(Vec<(usize, Blot, usize)>);

impl Open {
    fn root(&mut self, mut at: usize) -> usize {
        while let Some(up) = self.0.get(at).map(|blot| blot.0).filter(|up| *up != at) {
            let top = self.0.get(up).map_or(up, |blot| blot.0);
            if let Some(blot) = self.0.get_mut(at) {
                blot.0 = top;
            }
            at = up;
        }
        at
    }

    /// Adds `gone` to `kept`.
    fn join(&mut self, kept: usize, gone: usize) {
        if kept != gone
            && let Some(joined) = self.0.get(gone).map(|blot| blot.1)
            && let Some((_, blot, _)) = self.0.get_mut(kept)
        {
            blot.area += joined.area;
            blot.x += joined.x;
            blot.y += joined.y;
            blot.xx += joined.xx;
            blot.yy += joined.yy;
            blot.xy += joined.xy;
            if let Some(gone) = self.0.get_mut(gone) {
                *gone = (kept, Blot::default(), 0);
            }
        }
    }
}

/// Shows all connected dark blots, sides touching, in the order in which they end. Holds those alone that two rows can touch,
/// however many there are.
fn blots(dark: &[bool], width: usize, found: &mut dyn FnMut(Blot)) {
    let mut above: Vec<Run> = Vec::new();
    let mut open = Open::default();
    for (y, row) in dark.chunks_exact(width).enumerate() {
        let mut runs: Vec<Run> = Vec::new();
        let mut touching = above.iter().peekable();
        let before = open.0.len();
        let mut from = 0;
        for part in row.chunk_by(|a, b| a == b) {
            let to = from + part.len();
            if part.first() == Some(&true) {
                let blot = open.0.len();
                let (n, m) = (part.len() as f64, (from + to - 1) as f64 / 2.0);
                let y = y as f64;
                // The sum of the squares of the whole numbers from `from` below `to`.
                let squares = n * m * m + n * (n * n - 1.0) / 12.0;
                let moments = Blot { area: n, x: n * m, y: n * y, xx: squares, yy: n * y * y, xy: n * m * y };
                open.0.push((blot, moments, runs.len()));
                while touching.peek().is_some_and(|run| run.to <= from) {
                    touching.next();
                }
                while let Some(run) = touching.peek().filter(|run| run.from < to) {
                    let other = open.root(run.blot);
                    open.join(blot, other);
                    // The last one may touch the next run too.
                    if run.to > to {
                        break;
                    }
                    touching.next();
                }
                runs.push(Run { from, to, blot });
            }
            from = to;
        }
        // What no run of this row touched has ended; what goes on is numbered anew.
        let mut ended: Vec<(usize, Blot)> = (0..before)
            .filter(|at| open.0.get(*at).is_some_and(|blot| blot.0 == *at))
            .filter_map(|at| open.0.get(at).map(|(_, blot, last)| (*last, *blot)))
            .collect();
        ended.sort_by_key(|(last, _)| *last);
        ended.into_iter().for_each(|(_, blot)| found(blot));
        let mut next = Open::default();
        let mut numbers = vec![usize::MAX; open.0.len()];
        for (at, run) in runs.iter_mut().enumerate() {
            let root = open.root(run.blot);
            let Some(number) = numbers.get_mut(root) else { continue };
            if *number == usize::MAX {
                *number = next.0.len();
                next.0.push((*number, open.0.get(root).map(|blot| blot.1).unwrap_or_default(), at));
            }
            run.blot = *number;
            if let Some(blot) = next.0.get_mut(*number) {
                blot.2 = at;
            }
        }
        open = next;
        above = runs;
    }
    let mut rest: Vec<(usize, Blot)> = open.0.iter().map(|(_, blot, last)| (*last, *blot)).collect();
    rest.sort_by_key(|(last, _)| *last);
    rest.into_iter().for_each(|(_, blot)| found(blot));
}

/// The pattern round a blot, where it is one.
fn core(blot: &Blot, is_dark: &dyn Fn(f64, f64) -> Option<bool>) -> Option<(Point, f64)> {
    let n = blot.area;
    let (x, y) = (blot.x / n, blot.y / n);
    // A pixel has a width of its own: a twelfth.
    let (xx, yy) = (blot.xx / n - x * x + 1.0 / 12.0, blot.yy / n - y * y + 1.0 / 12.0);
    let xy = blot.xy / n - x * y;
    let determinant = xx * yy - xy * xy;
    if determinant <= 0.0 {
        return None;
    }
    // A solid parallelogram has an area of 12 times the root of the determinant of its moments.
    let solid = n / (12.0 * determinant.sqrt());
    let (half, spread) = ((xx + yy) / 2.0, (((xx - yy) / 2.0).powi(2) + xy * xy).sqrt());
    if !(0.86..1.2).contains(&solid) || half - spread <= 0.0 || half + spread > 20.0 * (half - spread) {
        return None;
    }
    // The triangular root of the moments carries a circle round to the blot's own ellipse; 1 is a module.
    let module = 12f64.sqrt() / 3.0;
    let a = xx.sqrt();
    let (b, c) = (xy / a, (yy - xy * xy / xx).sqrt());
    let mut good = 0;
    for ray in 0..RAYS {
        if good + RAYS - ray < LEAST_RAYS {
            return None;
        }
        let (sin, cos) = (std::f64::consts::TAU * ray as f64 / RAYS as f64).sin_cos();
        let (dx, dy) = (module * a * cos, module * (b * cos + c * sin));
        let step = 0.5 / dx.hypot(dy).max(1.0);
        let mut at = 0.0;
        let mut edge = |dark: bool, end: f64| {
            while at < end {
                at += step;
                if is_dark(x + 0.5 + at * dx, y + 0.5 + at * dy)? == dark {
                    return Some(at);
                }
            }
            None
        };
        // The rings are squares about one middle: along any ray, their edges are as 1.5 to 2.5 to 3.5.
        let rings = edge(false, 3.0).and_then(|inner| {
            let middle = edge(true, 2.3 * inner)? / inner;
            let outer = edge(false, 3.4 * inner)? / inner;
            Some((1.25..2.2).contains(&middle) && (1.8..3.2).contains(&outer))
        });
        good += usize::from(rings == Some(true));
    }
    let size = 7.0 * (n / 9.0).sqrt();
    (good >= LEAST_RAYS).then_some(([x + 0.5, y + 0.5], size))
}

#[cfg(test)]
mod tests {
    use super::find;

    /// A finder pattern, squeezed and sheared, with a quarter of its ring gone.
    #[test]
    fn finds_a_pattern_that_lacks_a_corner() {
        let (width, height) = (120, 90);
        let mut dark = vec![false; width * height];
        for y in 0..height {
            for x in 0..width {
                let (a, b) = (x as f64 + 0.5 - 60.0, y as f64 + 0.5 - 45.0);
                let (u, v) = ((a - 0.4 * b) / 6.0, b / 3.5);
                let ring = u.abs().max(v.abs());
                let gone = u > 1.7 && v > 1.7;
                dark[y * width + x] = !gone && (ring < 1.5 || (2.5..3.5).contains(&ring));
            }
        }
        let found = find(&dark, width);
        assert_eq!(found.len(), 1, "{found:?}");
        let ([x, y], size) = found[0];
        assert!((x - 60.0).abs() < 0.6 && (y - 45.0).abs() < 0.6, "{x} {y}");
        assert!((size - 7.0 * (6.0f64 * 3.5).sqrt()).abs() < 3.0, "{size}");
        assert!(find(&vec![true; 400], 20).is_empty());
        assert!(find(&[], 20).is_empty());
    }
}
