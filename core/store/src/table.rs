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

    /// `SELECT` of all columns and, last, whether the row is whole; `rest` follows the table's name.
    pub(super) fn select(&self, rest: &str) -> String {
        let what = self.selected.get_or_init(|| {
            let (name, columns) = (self.name, self.qualified());
            format!("SELECT {columns}, {name}.sum IS row_sum({columns}) FROM {name} ")
        });
        format!("{what}{rest}")
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

    /// Fails on a row that is not whole.
    pub(super) fn whole(&self, row: &Row<'_>) -> Result<(), StoreError> {
        if row.get(self.columns.len())? { Ok(()) } else { Err(self.decayed(row)) }
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
        let mut canon = Vec::with_capacity(256);
        for at in 0..context.len() {
            match context.get_raw(at) {
                ValueRef::Null => canon.push(0),
                ValueRef::Integer(number) => {
                    canon.push(1);
                    canon.extend_from_slice(&number.to_be_bytes());
                }
                // No column of ours holds a real; should one appear, it is told apart from everything else.
                ValueRef::Real(number) => {
                    canon.push(4);
                    canon.extend_from_slice(&number.to_bits().to_be_bytes());
                }
                ValueRef::Text(bytes) => put(&mut canon, 2, bytes),
                ValueRef::Blob(bytes) => put(&mut canon, 3, bytes),
            }
        }
        let digest = Digest::of(&canon);
        Ok(digest.as_bytes().iter().take(8).copied().collect::<Vec<u8>>())
    })?;
    Ok(())
}

fn put(canon: &mut Vec<u8>, kind: u8, bytes: &[u8]) {
    canon.push(kind);
    canon.extend_from_slice(&(bytes.len() as u64).to_be_bytes());
    canon.extend_from_slice(bytes);
}

/// The one row that says whose home this is.
pub(super) static DEVICE: Table = Table::new("device", "one", &["one", "id"]);
