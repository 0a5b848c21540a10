/// A square of values, one a module; what lies outside reads as the default.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Grid<T> {
    side: usize,
    cells: Vec<T>,
}

impl<T: Copy + Default> Grid<T> {
    pub(super) fn new(side: usize) -> Self {
        Self { side, cells: vec![T::default(); side * side] }
    }

    pub(super) fn side(&self) -> usize {
        self.side
    }

    pub(super) fn get(&self, x: usize, y: usize) -> T {
        if x >= self.side {
            return T::default();
        }
        self.cells.get(y * self.side + x).copied().unwrap_or_default()
    }

    /// The value at an offset from a place; outside reads as the default.
    pub(super) fn near(&self, x: usize, y: usize, dx: isize, dy: isize) -> T {
        match (x.checked_add_signed(dx), y.checked_add_signed(dy)) {
            (Some(x), Some(y)) => self.get(x, y),
            _ => T::default(),
        }
    }

    pub(super) fn set(&mut self, x: usize, y: usize, value: T) {
        if x < self.side
            && let Some(cell) = self.cells.get_mut(y * self.side + x)
        {
            *cell = value;
        }
    }

    /// Every place, row by row.
    pub(super) fn places(&self) -> impl Iterator<Item = (usize, usize)> + use<T> {
        let side = self.side;
        (0..side * side).map(move |at| (at % side, at / side))
    }

    /// A grid of the same size, made from each place.
    pub(super) fn made<U: Copy + Default>(&self, make: impl Fn(usize, usize) -> U) -> Grid<U> {
        let cells = self.places().map(|(x, y)| make(x, y)).collect();
        Grid { side: self.side, cells }
    }
}
