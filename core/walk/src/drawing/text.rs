//! The drawing in a terminal: eight dots a cell, as the braille patterns of Unicode have them (U+2800 to U+28FF).

use super::lines::{Dot, Drawing, Stroke};

/// One cell of a terminal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// A braille pattern, or a blank.
    pub sign: char,
    /// Whether something goes through it that the card is about.
    pub marked: bool,
}

/// Dots in a cell, from left to right and top to bottom, by the bit that each is.
const BITS: [[u32; 2]; 4] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];

impl Drawing {
    /// The drawing in rows of `columns` cells, half as many rows: a cell is about twice as high as it is wide.
    pub fn cells(&self, marked: &[bool], columns: usize) -> Vec<Vec<Cell>> {
        let rows = columns / 2;
        let mut bits = vec![vec![(0u32, false); columns]; rows];
        let (wide, high) = (columns * 2, rows * 4);
        let scale = |value: i32, most: usize| {
            usize::try_from(value.max(0)).unwrap_or(0) * most.saturating_sub(1) / 1000
        };
        let mut put = |dot: Dot, marked: bool| {
            let (x, y) = (
                scale(dot.x, wide).min(wide.saturating_sub(1)),
                scale(dot.y, high).min(high.saturating_sub(1)),
            );
            let bit = BITS.get(y % 4).and_then(|row| row.get(x % 2)).copied().unwrap_or(0);
            if let Some(cell) = bits.get_mut(y / 4).and_then(|row| row.get_mut(x / 2)) {
                *cell = (cell.0 | bit, cell.1 | marked);
            }
        };
        for (line, marked) in self.lines.iter().zip(marked.iter().copied().chain(std::iter::repeat(false))) {
            // what is fine or hidden would only blur so few dots
            if line.stroke == Stroke::Plain || marked {
                for dot in line.run(Self::SIDE / i32::try_from(wide.max(1)).unwrap_or(i32::MAX)) {
                    put(dot, marked);
                }
            }
        }
        let cell = |(bits, marked): (u32, bool)| Cell {
            sign: if bits == 0 { ' ' } else { char::from_u32(0x2800 + bits).unwrap_or(' ') },
            marked,
        };
        bits.into_iter().map(|row| row.into_iter().map(cell).collect()).collect()
    }
}

impl super::lines::Line {
    /// Every dot on the way, no farther apart than a step.
    fn run(&self, step: i32) -> Vec<Dot> {
        let next = self.dots.iter().skip(1).chain(self.closed.then_some(self.dots.first()).flatten());
        let mut run = Vec::new();
        for (from, to) in self.dots.iter().zip(next) {
            let (dx, dy) = (to.x - from.x, to.y - from.y);
            let steps = dx.abs().max(dy.abs()) / step.max(1) + 1;
            run.extend(
                (0..=steps).map(|at| Dot { x: from.x + dx * at / steps, y: from.y + dy * at / steps }),
            );
        }
        run
    }
}
