//! Which of the eight masks a code is drawn with (ISO/IEC 18004, 7.8): each is scored on rows of bits, whole rows at a time.
//!
//! A writer that asks module by module spends most of a code's time here. What is chosen is what such a writer chooses: the tests hold
//! every version against one.

use std::ops::{BitAnd, BitOr, BitXor, Not};

use super::layout::{format_bits, format_places, masked};

/// A row of modules, the leftmost the lowest bit: 177 and the light ones on both sides that a finder pattern is looked for with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Row([u64; 3]);

impl Row {
    /// The `count` leftmost, up to 192.
    fn first(count: usize) -> Self {
        let word = |before: usize| match count.saturating_sub(before) {
            0 => 0,
            left @ 1..64 => (1 << left) - 1,
            _ => u64::MAX,
        };
        Self([word(0), word(64), word(128)])
    }

    /// Six modules again and again.
    fn of_six(six: u64) -> Self {
        let sixty = (0..10).fold(0, |bits, turn| bits | six << (6 * turn));
        // 64 modules are ten times six and four more, so that each word begins four later in the six.
        Self([sixty | sixty << 60, sixty >> 4 | sixty << 56, sixty >> 2 | sixty << 58])
    }

    fn at(column: usize) -> Self {
        let mut row = Self::default();
        if let Some(word) = row.0.get_mut(column / 64) {
            *word = 1 << (column % 64);
        }
        row
    }

    /// Makes a module dark or light.
    pub(super) fn set(&mut self, column: usize, dark: bool) {
        let module = Self::at(column);
        *self = if dark { *self | module } else { *self & !module };
    }

    /// Whether a module is dark.
    pub(super) fn get(self, column: usize) -> bool {
        self.0.get(column / 64).is_some_and(|word| word >> (column % 64) & 1 == 1)
    }

    /// What lies so many columns further right, 1 to 63, at each place.
    fn right(self, by: u32) -> Self {
        let [a, b, c] = self.0;
        Self([a >> by | b << (64 - by), b >> by | c << (64 - by), c >> by])
    }

    /// What lies so many columns further left, 1 to 63, at each place.
    fn left(self, by: u32) -> Self {
        let [a, b, c] = self.0;
        Self([a << by, b << by | a >> (64 - by), c << by | b >> (64 - by)])
    }

    fn count(self) -> u32 {
        self.0.iter().map(|word| word.count_ones()).sum()
    }

    fn is_empty(self) -> bool {
        self.0 == [0; 3]
    }
}

impl BitAnd for Row {
    type Output = Self;

    fn bitand(self, other: Self) -> Self {
        let ([a, b, c], [d, e, f]) = (self.0, other.0);
        Self([a & d, b & e, c & f])
    }
}

impl BitOr for Row {
    type Output = Self;

    fn bitor(self, other: Self) -> Self {
        let ([a, b, c], [d, e, f]) = (self.0, other.0);
        Self([a | d, b | e, c | f])
    }
}

impl BitXor for Row {
    type Output = Self;

    fn bitxor(self, other: Self) -> Self {
        let ([a, b, c], [d, e, f]) = (self.0, other.0);
        Self([a ^ d, b ^ e, c ^ f])
    }
}

impl Not for Row {
    type Output = Self;

    fn not(self) -> Self {
        let [a, b, c] = self.0;
        Self([!a, !b, !c])
    }
}

/// The finished code of level M: the mask with the least penalty over the modules that may be turned over, its format written in. Of
/// two alike, the first.
///
/// `dark` is the code without a mask, `open` the modules that carry data, both row by row.
pub(super) fn best_masked(dark: &[Row], open: &[Row]) -> Vec<Row> {
    let drawn = (0..8).map(|mask| {
        let rows = masked_by(mask, dark, open);
        (penalty(&rows), rows)
    });
    drawn.min_by_key(|(penalty, _)| *penalty).map(|(_, rows)| rows).unwrap_or_default()
}

fn masked_by(mask: u32, dark: &[Row], open: &[Row]) -> Vec<Row> {
    // Every mask repeats itself after six columns and after twelve rows.
    let turned: [Row; 12] = std::array::from_fn(|y| {
        Row::of_six((0..6).fold(0, |six, x| six | u64::from(masked(mask, x, y)) << x))
    });
    let mut rows: Vec<Row> = dark
        .iter()
        .zip(open)
        .zip(turned.into_iter().cycle())
        .map(|((dark, open), turned)| *dark ^ (turned & *open))
        .collect();
    // Level M is 0 in the format's own numbers.
    let bits = format_bits(mask);
    for (bit, &(x, y)) in format_places(rows.len()).iter().flat_map(|copy| copy.iter().enumerate()) {
        if let Some(row) = rows.get_mut(y) {
            row.set(x, bits >> bit & 1 == 1);
        }
    }
    rows
}

/// The weights of the four features (ISO/IEC 18004, table 11). A run of five costs this, and one more for each module beyond.
const RUN: u32 = 3;
const BLOCK: u32 = 3;
const FINDER: u32 = 40;

/// What a drawn code costs a reader. The share of dark modules is not rounded to steps of five in a hundred, as nobody's is.
pub(super) fn penalty(rows: &[Row]) -> u32 {
    let side = rows.len();
    let within = Row::first(side);
    let inner = Row::first(side.saturating_sub(1));
    // At each place, whether the next module in the same direction is alike.
    let alike_across: Vec<Row> = rows.iter().map(|row| !(*row ^ row.right(1)) & inner).collect();
    let alike_down: Vec<Row> =
        rows.iter().zip(rows.iter().skip(1)).map(|(row, below)| !(*row ^ *below) & within).collect();

    // A run of n holds n - 4 fives, and begins once.
    let mut total = 0;
    for alike in &alike_across {
        let two = *alike & alike.right(1);
        let fives = two & two.right(2);
        total += fives.count() + (RUN - 1) * (fives & !fives.left(1)).count();
    }
    let mut above = Row::default();
    for four in alike_down.windows(4) {
        let fives = four.iter().fold(within, |all, alike| all & *alike);
        total += fives.count() + (RUN - 1) * (fives & !above).count();
        above = fives;
    }

    for ((across, below), down) in alike_across.iter().zip(alike_across.iter().skip(1)).zip(&alike_down) {
        total += BLOCK * (*across & *below & *down).count();
    }

    // Outside of the code all is light: four rows, and four columns, on each side.
    for row in rows {
        let row = row.left(4);
        total += finders(|place| match place {
            0 => row,
            by => row.right(by),
        });
    }
    let light = [Row::default(); 4];
    let padded: Vec<Row> = light.iter().chain(rows).chain(&light).copied().collect();
    for fifteen in padded.windows(15) {
        total += finders(|place| fifteen.get(place as usize).copied().unwrap_or_default());
    }

    let dark: u32 = rows.iter().map(|row| row.count()).sum();
    let share = u64::from(dark) * 200 / (side * side).max(1) as u64;
    total + u32::try_from(share.abs_diff(100)).unwrap_or(0)
}

/// Patterns like a finder's, dark 1, light 1, dark 3, light 1, dark 1, with four light modules before or behind: `at` gives the modules
/// of fifteen places in a row, all at once.
fn finders(at: impl Fn(u32) -> Row) -> u32 {
    let dark = at(4) & at(6) & at(7) & at(8) & at(10);
    if dark.is_empty() {
        return 0;
    }
    let found = dark & !(at(5) | at(9));
    if found.is_empty() {
        return 0;
    }
    let before = at(0) | at(1) | at(2) | at(3);
    let behind = at(11) | at(12) | at(13) | at(14);
    FINDER * (found & !(before & behind)).count()
}

#[cfg(test)]
mod tests {
    use super::{Row, penalty};

    /// The rules as they are written down, module by module.
    fn plainly(dark: &[Vec<bool>]) -> u32 {
        let side = dark.len();
        let turned: Vec<Vec<bool>> = (0..side).map(|x| dark.iter().map(|row| row[x]).collect()).collect();
        let mut total = 0;
        for line in dark.iter().chain(&turned) {
            let mut run = 0;
            for (at, module) in line.iter().enumerate() {
                run = if at > 0 && line[at - 1] == *module { run + 1 } else { 1 };
                total += match run {
                    5 => 3,
                    6.. => 1,
                    _ => 0,
                };
            }
            let light = |at: isize| usize::try_from(at).ok().and_then(|at| line.get(at)) != Some(&true);
            for at in 0..side.saturating_sub(6) {
                if line[at..at + 7] == [true, false, true, true, true, false, true] {
                    let at = at as isize;
                    total += if (at - 4..at).all(light) || (at + 7..at + 11).all(light) { 40 } else { 0 };
                }
            }
        }
        for y in 1..side {
            for x in 1..side {
                let four = [dark[y][x], dark[y - 1][x], dark[y][x - 1], dark[y - 1][x - 1]];
                total += if four == [true; 4] || four == [false; 4] { 3 } else { 0 };
            }
        }
        let count = dark.iter().flatten().filter(|dark| **dark).count();
        total + (count * 200 / (side * side)).abs_diff(100) as u32
    }

    /// Of every size, drawn by lot, some mostly dark or light so that runs and blocks are long, and striped so that finders are many.
    #[test]
    fn the_penalty_is_what_the_rules_say_module_by_module() {
        let mut dice = 0x9e37_79b9_7f4a_7c15_u64;
        let mut throw = |of: u64| {
            dice ^= dice << 13;
            dice ^= dice >> 7;
            dice ^= dice << 17;
            dice % of
        };
        for version in 1..=40 {
            let side = 17 + 4 * version;
            for share in [1, 4, 7] {
                let mut dark: Vec<Vec<bool>> =
                    (0..side).map(|_| (0..side).map(|_| throw(8) < share).collect()).collect();
                let finder = [true, false, true, true, true, false, true];
                for _ in 0..40 {
                    let (line, from) = (throw(side as u64) as usize, throw(side as u64 - 6) as usize);
                    for (at, module) in finder.into_iter().enumerate() {
                        dark[line][from + at] = module;
                    }
                    // Light on one side, so that some count and some do not.
                    (0..from).rev().take(throw(6) as usize).for_each(|at| dark[line][at] = false);
                }
                let rows: Vec<Row> = dark
                    .iter()
                    .map(|line| {
                        let mut row = Row::default();
                        line.iter().enumerate().for_each(|(at, dark)| row.set(at, *dark));
                        row
                    })
                    .collect();
                assert_eq!(penalty(&rows), plainly(&dark), "version {version}, {share} of 8 dark");
            }
        }
    }
}
