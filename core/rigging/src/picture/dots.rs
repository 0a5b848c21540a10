//! The load from its side as dots: for a terminal, which shows no picture.

use slingseal_words::Metres;

use crate::{Hang, RiggedLoad};

/// Dots in a cell, from left to right and top to bottom, by the bit that each is (Unicode's braille patterns, U+2800 to U+28FF).
const BITS: [[u32; 2]; 4] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];

/// A point: forward, and down from the hook.
type Point = (f64, f64);

/// The load from its side, the nose to the right, in rows of at most so many cells and at most half as many rows: the slings from
/// each hook that carry, a line along the lift points, and down to the centre of gravity. Rows are as long as what stands in them.
pub fn side_cells(load: &RiggedLoad, hang: &Hang, columns: usize) -> Vec<String> {
    let flat = |place: &[Metres; 3]| {
        let [x, _, z] = place.map(|part| part.value());
        (x, -z)
    };
    let (hooks, lifts) = (&hang.place.hooks, &hang.place.lift_points);
    let centre = flat(&hang.place.centre);
    let points: Vec<Point> = lifts.iter().map(flat).collect();
    let all: Vec<Point> = hooks.iter().map(flat).chain(points.iter().copied()).chain([centre]).collect();
    let extent = |of: fn(&Point) -> f64| {
        let values = all.iter().map(of);
        values
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
    };
    let ((left, right), (top, bottom)) = (extent(|point| point.0), extent(|point| point.1));
    let columns = columns.clamp(4, 200);
    let (wide, high) = (columns * 2, columns / 2 * 4);
    let room = |dots: usize| dots.saturating_sub(1) as f64;
    let scale = (room(wide) / (right - left).max(1e-6)).min(room(high) / (bottom - top).max(1e-6));
    let mut grid = vec![vec![0_u32; columns]; columns / 2];
    let mut put = |(x, y): Point| {
        let dot = |value: f64, most: usize| {
            // Clamped to the grid: the cast keeps all of it.
            (value * scale).round().clamp(0.0, room(most)) as usize
        };
        let (x, y) = (dot(x - left, wide), dot(y - top, high));
        let bit = BITS.get(y % 4).and_then(|row| row.get(x % 2)).copied().unwrap_or(0);
        if let Some(cell) = grid.get_mut(y / 4).and_then(|row| row.get_mut(x / 2)) {
            *cell |= bit;
        }
    };
    let mut line = |from: Point, to: Point| {
        let long = (to.0 - from.0).hypot(to.1 - from.1) * scale;
        // No more dots than the grid has in a line.
        let steps = long.ceil().clamp(1.0, 1_000.0);
        for step in 0..=steps as u32 {
            let share = f64::from(step) / steps;
            put((from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share));
        }
    };
    for ((at, leg), found) in points.iter().zip(&load.legs).zip(&hang.legs) {
        let hook = load.hook_of(leg).and_then(|hook| hooks.get(hook));
        if let Some(hook) = hook.filter(|_| !found.slack) {
            line(flat(hook), *at);
        }
    }
    let mut ring = points.clone();
    ring.sort_by(|a, b| a.0.total_cmp(&b.0));
    ring.windows(2).for_each(|pair| {
        if let [from, to] = pair {
            line(*from, *to);
        }
    });
    for (from, to) in ring.first().into_iter().chain(ring.last()).map(|end| (*end, centre)) {
        line(from, to);
    }
    let rows = grid.into_iter().map(|row| {
        let row: String = row
            .into_iter()
            .map(|bits| if bits == 0 { ' ' } else { char::from_u32(0x2800 + bits).unwrap_or(' ') })
            .collect();
        row.trim_end().to_owned()
    });
    let mut rows: Vec<String> = rows.collect();
    while rows.last().is_some_and(String::is_empty) {
        rows.pop();
    }
    rows
}
