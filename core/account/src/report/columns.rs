//! The account as tables with typed columns, whatever writes them down.

use std::io;

/// The kind of a column, and how its cells stand as text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColumnType {
    /// A text.
    Text,
    /// A moment, UTC, in whole seconds: RFC 3339.
    Moment,
    /// A whole number, signed, of 64 bits.
    Count,
    /// A number with at most three decimals.
    Number,
    /// Yes or no: `true`, `false`.
    Flag,
}

/// A table: its name, what a row is, and its columns with what each holds.
#[derive(Clone, Copy, Debug)]
pub struct AccountTable {
    /// Its name.
    pub name: &'static str,
    /// What a row is.
    pub comment: &'static str,
    /// Name, kind and meaning of each column.
    pub columns: &'static [(&'static str, ColumnType, &'static str)],
}

/// What stands in a column of a row; none where it is not known.
pub type AccountCell = Option<String>;

/// Whoever writes the account's tables down: one table after another, each row by row.
pub trait TableWriter {
    /// A table begins.
    ///
    /// # Errors
    /// It cannot be written.
    fn begin(&mut self, table: &'static AccountTable) -> io::Result<()>;

    /// A row of the table that began last: a cell a column.
    ///
    /// # Errors
    /// It cannot be written.
    fn row(&mut self, cells: &[AccountCell]) -> io::Result<()>;

    /// The table that began last has no more rows.
    ///
    /// # Errors
    /// It cannot be written.
    fn end(&mut self) -> io::Result<()>;
}
