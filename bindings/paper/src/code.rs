//! A code as a page draws it.

/// A code as light and dark squares, row by row from the top left; without its quiet zone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Code {
    /// Squares on a side.
    pub modules: usize,
    /// `modules` × `modules` squares; dark is true.
    pub dark: Vec<bool>,
    /// Its check word, to be compared by voice.
    pub check: String,
}
