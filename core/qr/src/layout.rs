//! Where everything lies in a code of a given version (ISO/IEC 18004, clauses 6.3, 7.7, 7.9, 7.10).

use rxing::qrcode::common::{ErrorCorrectionLevel, Version, VersionRef};

use super::grid::Grid;

/// What a module is known to be before anything is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Known {
    /// Data, or the format.
    #[default]
    Nothing,
    Light,
    Dark,
}

impl Known {
    /// Dark is 1, light -1, unknown 0.
    pub(super) fn sign(self) -> f32 {
        match self {
            Self::Nothing => 0.0,
            Self::Light => -1.0,
            Self::Dark => 1.0,
        }
    }

    fn of(dark: bool) -> Self {
        if dark { Self::Dark } else { Self::Light }
    }
}

/// One version's layout.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) version: VersionRef,
    pub(super) side: usize,
    /// Finders, separators, timing, alignments, version.
    pub(super) known: Grid<Known>,
    /// Data modules in the order of their bits.
    pub(super) order: Vec<(usize, usize)>,
}

/// The block structure of one level: for each block how many data codewords, and the check codewords of all.
#[derive(Clone, Debug)]
pub(super) struct Blocks {
    pub(super) data: Vec<usize>,
    pub(super) check: usize,
}

/// BCH(18, 6) of the version (ISO/IEC 18004, annex D).
pub(super) fn version_bits(version: u32) -> u32 {
    let mut rest = version;
    for _ in 0..12 {
        rest = (rest << 1) ^ ((rest >> 11) * 0x1F25);
    }
    version << 12 | rest
}

/// BCH(15, 5) of the format, masked (ISO/IEC 18004, annex C).
pub(super) fn format_bits(format: u32) -> u32 {
    let mut rest = format;
    for _ in 0..10 {
        rest = (rest << 1) ^ ((rest >> 9) * 0x537);
    }
    (format << 10 | rest) ^ 0x5412
}

/// The places of the format's bits, bit 0 first: beside the first finder, then beside the other two.
pub(super) fn format_places(side: usize) -> [[(usize, usize); 15]; 2] {
    let first = std::array::from_fn(|bit| match bit {
        0..=5 => (8, bit),
        6 => (8, 7),
        7 => (8, 8),
        8 => (7, 8),
        _ => (14 - bit, 8),
    });
    let second = std::array::from_fn(|bit| if bit < 8 { (side - 1 - bit, 8) } else { (8, side + bit - 15) });
    [first, second]
}

impl Layout {
    /// The layout of version 1 to 40.
    pub(super) fn of(number: u32) -> Option<Self> {
        let version = Version::getVersionForNumber(number).ok()?;
        let side = 17 + 4 * usize::try_from(number).ok()?;
        let mut known = Grid::new(side);
        for (cx, cy) in [(3, 3), (side - 4, 3), (3, side - 4)] {
            square(&mut known, cx, cy, 4, |ring| ring != 2 && ring != 4);
        }
        for at in 8..side - 8 {
            known.set(at, 6, Known::of(at % 2 == 0));
            known.set(6, at, Known::of(at % 2 == 0));
        }
        let centres: Vec<usize> = version
            .getAlignmentPatternCenters()
            .iter()
            .filter_map(|&centre| usize::try_from(centre).ok())
            .collect();
        for &cy in &centres {
            for &cx in &centres {
                let low = |c: usize| c < 9;
                let high = |c: usize| c + 9 > side;
                if !(low(cx) && low(cy) || low(cx) && high(cy) || high(cx) && low(cy)) {
                    square(&mut known, cx, cy, 2, |ring| ring != 1);
                }
            }
        }
        if number >= 7 {
            for at in 0..18 {
                let dark = Known::of(version_bits(number) >> at & 1 == 1);
                let (along, across) = (at / 3, side - 11 + at % 3);
                known.set(across, along, dark);
                known.set(along, across, dark);
            }
        }
        known.set(8, side - 8, Known::Dark);
        let order = order(&known);
        Some(Self { version, side, known, order })
    }

    /// The blocks at a level.
    pub(super) fn blocks(&self, level: ErrorCorrectionLevel) -> Option<Blocks> {
        let blocks = self.version.getECBlocksForLevel(level);
        let check = usize::try_from(blocks.getECCodewordsPerBlock()).ok()?;
        let mut data = Vec::new();
        for group in blocks.getECBlocks() {
            let words = usize::try_from(group.getDataCodewords()).ok()?;
            data.extend((0..group.getCount()).map(|_| words));
        }
        Some(Blocks { data, check })
    }
}

/// A concentric square pattern; `dark` says which rings are dark.
fn square(known: &mut Grid<Known>, cx: usize, cy: usize, reach: isize, dark: impl Fn(isize) -> bool) {
    for dy in -reach..=reach {
        for dx in -reach..=reach {
            if let (Some(x), Some(y)) = (cx.checked_add_signed(dx), cy.checked_add_signed(dy)) {
                known.set(x, y, Known::of(dark(dx.abs().max(dy.abs()))));
            }
        }
    }
}

/// Data modules: up and down in columns of two from the right, past the vertical timing pattern.
fn order(known: &Grid<Known>) -> Vec<(usize, usize)> {
    let side = known.side();
    let format =
        |x: usize, y: usize| x == 8 && (y <= 8 || y + 8 >= side) || y == 8 && (x <= 8 || x + 8 >= side);
    let mut order = Vec::new();
    let mut right = side - 1;
    loop {
        if right == 6 {
            right = 5;
        }
        let upward = (right + 1) & 2 == 0;
        for step in 0..side {
            let y = if upward { side - 1 - step } else { step };
            for x in [right, right - 1] {
                if known.get(x, y) == Known::Nothing && !format(x, y) {
                    order.push((x, y));
                }
            }
        }
        if right < 3 {
            return order;
        }
        right -= 2;
    }
}

/// Whether a mask turns a module over (ISO/IEC 18004, table 10).
pub(super) fn masked(mask: u32, x: usize, y: usize) -> bool {
    match mask {
        0 => (x + y).is_multiple_of(2),
        1 => y.is_multiple_of(2),
        2 => x.is_multiple_of(3),
        3 => (x + y).is_multiple_of(3),
        4 => (x / 3 + y / 2).is_multiple_of(2),
        5 => x * y % 2 + x * y % 3 == 0,
        6 => (x * y % 2 + x * y % 3).is_multiple_of(2),
        _ => ((x + y) % 2 + x * y % 3).is_multiple_of(2),
    }
}
