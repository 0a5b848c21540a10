use std::sync::OnceLock;

use rusqlite::functions::FunctionFlags;
use rusqlite::types::ValueRef;
use rusqlite::{Connection, Row};

use slingseal_words::Digest;

use super::StoreError;

/// A table whose rows carry a check sum, so that a decayed row is told and never believed.
///
/// `sum` is the first eight bytes of SHA-256 over the other columns in the order given here, each as one type byte
/// (0 null, 1 integer, 2 text, 3 bytes), then for an integer its eight bytes big-endian, for text and bytes the length in
/// eight bytes big-endian and the bytes themselves.
pub(super) struct Table {
    pub(super) name: &'static str,
    /// The columns that identify a row, for a message.
    key: &'static str,
    pub(super) columns: &'static [&'static str],
    /// What a `SELECT` and an `INSERT` say of it, put together once: an import asks a million times.
    selected: OnceLock<String>,
    inserted: OnceLock<String>,
}

impl Table {
    pub(super) const fn new(name: &'static str, key: &'static str, columns: &'static [&'static str]) -> Self {
        Self { name, key, columns, selected: OnceLock::new(), inserted: OnceLock::new() }
    }

    /// `INSERT …`, with the values bound in the order of the columns. `verb` may add `OR IGNORE` or `OR REPLACE`.
    pub(super) fn insert(&self, verb: &str) -> String {
        let what = self.inserted.get_or_init(|| {
            let places = (1..=self.columns.len()).map(|n| format!("?{n}")).collect::<Vec<_>>().join(", ");
            let (name, columns) = (self.name, self.columns.join(", "));
            format!("INTO {name} ({columns}, sum) VALUES ({places}, row_sum({places}))")
        });
        format!("INSERT {verb} {what}")
    }

    /// `SELECT` of all columns and the check sum behind them; `rest` follows the table's name.
    pub(super) fn select(&self, rest: &str) -> String {
        let what = self.selected.get_or_init(|| format!("SELECT {} FROM {} ", self.summed(), self.name));
        format!("{what}{rest}")
    }

    /// All columns and the check sum behind them, for a `SELECT` that joins tables.
    pub(super) fn summed(&self) -> String {
        format!("{}, {}.sum", self.qualified(), self.name)
    }

    /// Changes columns and the check sum with them, in one write of the row: the first values are bound in the order of `changed`.
    /// `rest` chooses the rows, its values numbered behind those.
    pub(super) fn update(&self, changed: &[&str], rest: &str) -> String {
        let set: Vec<String> = (1..).zip(changed).map(|(n, column)| format!("{column} = ?{n}")).collect();
        let place = |column: &str| changed.iter().position(|one| *one == column).map(|at| at + 1);
        let told = |column: &&str| place(column).map_or_else(|| (*column).to_owned(), |n| format!("?{n}"));
        let sum: Vec<String> = self.columns.iter().map(told).collect();
        format!("UPDATE {} SET {}, sum = row_sum({}) {rest}", self.name, set.join(", "), sum.join(", "))
    }

    /// Makes the check sum of changed rows anew; `rest` chooses them as it chose them for the change.
    pub(super) fn reseal(&self, rest: &str) -> String {
        format!("UPDATE {} SET sum = row_sum({}) {rest}", self.name, self.columns.join(", "))
    }

    /// Fails on a row that is not whole, as `select` asks for it.
    pub(super) fn whole(&self, row: &Row<'_>) -> Result<(), StoreError> {
        let mut sum = Sum::new();
        for at in 0..self.columns.len() {
            sum.add(row.get_ref(at)?);
        }
        self.holds(&sum, row.get_ref(self.columns.len())?, row)
    }

    /// The values of a row whose columns begin at this one; fails where it is not whole. `N` is how many columns the table has. The sum
    /// is made here and not by a function in SQL: every column is taken out once, for the sum and for the caller.
    pub(super) fn values<'r, const N: usize>(
        &self,
        row: &'r Row<'_>,
        first: usize,
    ) -> Result<[ValueRef<'r>; N], StoreError> {
        debug_assert_eq!(N, self.columns.len());
        let (mut values, mut sum) = ([ValueRef::Null; N], Sum::new());
        for (at, value) in (first..).zip(&mut values) {
            *value = row.get_ref(at)?;
            sum.add(*value);
        }
        self.holds(&sum, row.get_ref(first + N)?, row)?;
        Ok(values)
    }

    fn holds(&self, sum: &Sum, kept: ValueRef<'_>, row: &Row<'_>) -> Result<(), StoreError> {
        match kept {
            ValueRef::Blob(kept) if kept == sum.made() => Ok(()),
            _ => Err(self.decayed(row)),
        }
    }

    /// The keys of the rows that are not whole.
    pub(super) fn decayed_rows(&self) -> String {
        let (name, key, columns) = (self.name, self.key, self.columns.join(", "));
        format!("SELECT {key} FROM {name} WHERE sum IS NOT row_sum({columns})")
    }

    fn qualified(&self) -> String {
        self.columns.iter().map(|column| format!("{}.{column}", self.name)).collect::<Vec<_>>().join(", ")
    }

    fn decayed(&self, row: &Row<'_>) -> StoreError {
        let key = row.get_ref(self.key).map(show).unwrap_or_default();
        StoreError::Damaged { what: format!("row {key} of {} does not match its check sum", self.name) }
    }
}

/// A value for a message: text and numbers as they are, bytes as their first eight in hexadecimal.
pub(super) fn show(value: ValueRef<'_>) -> String {
    match value {
        ValueRef::Null => "(empty)".into(),
        ValueRef::Integer(number) => number.to_string(),
        ValueRef::Real(number) => number.to_string(),
        ValueRef::Text(text) => String::from_utf8_lossy(text).into_owned(),
        ValueRef::Blob(bytes) => bytes.iter().take(8).map(|byte| format!("{byte:02x}")).collect(),
    }
}

/// Makes `row_sum(…)` and `own_digest(…)`, the SHA-256 of bytes, known to a connection.
pub(super) fn add_functions(conn: &Connection) -> Result<(), StoreError> {
    let flags = FunctionFlags::SQLITE_UTF8 | FunctionFlags::SQLITE_DETERMINISTIC;
    conn.create_scalar_function("own_digest", 1, flags, |context| {
        Ok(match context.get_raw(0) {
            ValueRef::Blob(bytes) | ValueRef::Text(bytes) => Some(Digest::of(bytes)),
            _ => None,
        })
    })?;
    conn.create_scalar_function("row_sum", -1, flags, |context| {
        let mut sum = Sum::new();
        (0..context.len()).for_each(|at| sum.add(context.get_raw(at)));
        Ok(sum.made().to_vec())
    })?;
    Ok(())
}

/// The check sum of a row, column by column.
struct Sum(Vec<u8>);

impl Sum {
    fn new() -> Self {
        Self(Vec::with_capacity(512))
    }

    fn add(&mut self, value: ValueRef<'_>) {
        match value {
            ValueRef::Null => self.0.push(0),
            ValueRef::Integer(number) => self.fixed(1, number.to_be_bytes()),
            // No column of ours holds a real; should one appear, it is told apart from everything else.
            ValueRef::Real(number) => self.fixed(4, number.to_bits().to_be_bytes()),
            ValueRef::Text(bytes) => self.long(2, bytes),
            ValueRef::Blob(bytes) => self.long(3, bytes),
        }
    }

    fn fixed(&mut self, kind: u8, bytes: [u8; 8]) {
        self.0.push(kind);
        self.0.extend_from_slice(&bytes);
    }

    fn long(&mut self, kind: u8, bytes: &[u8]) {
        self.fixed(kind, (bytes.len() as u64).to_be_bytes());
        self.0.extend_from_slice(bytes);
    }

    fn made(&self) -> [u8; 8] {
        let [a, b, c, d, e, f, g, h, ..] = *Digest::of(&self.0).as_bytes();
        [a, b, c, d, e, f, g, h]
    }
}

/// The one row that says whose home this is.
pub(super) static DEVICE: Table = Table::new("device", "one", &["one", "id"]);
