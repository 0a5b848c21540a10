//! What a closing asks of every row at once, and the statements that leaders handed up.

use slingseal_words::{Digest, Time};

use super::author::{Author, author_of, columns};
use super::records::{RECORDS, make};
use super::table::Table;
use super::{Reader, RecordRow, StoreError, Tx};

pub(super) static CLOSINGS: Table = Table::new(
    "closings",
    "digest",
    &["digest", "issued", "received", "authority", "signer", "credential", "in_time", "bytes"],
);

/// A closing statement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosingRow {
    /// The digest of its bytes.
    pub digest: Digest,
    /// When it was signed.
    pub issued: Time,
    /// When it came here.
    pub received: Time,
    /// Who signed it.
    pub author: Option<Author>,
    /// The statement.
    pub bytes: Vec<u8>,
}

impl Tx<'_> {
    /// Keeps a closing statement; `false` where it was known.
    pub fn put_closing(&self, row: &ClosingRow) -> Result<bool, StoreError> {
        let (authority, key, credential, in_time) = columns(row.author.as_ref());
        let values = (row.digest, row.issued, row.received, authority, key, credential, in_time, &row.bytes);
        Ok(self.run(&CLOSINGS.insert("OR IGNORE"), values)? > 0)
    }
}

impl Reader<'_> {
    /// Every seal's columns.
    pub fn all_records(&self) -> Result<Vec<RecordRow>, StoreError> {
        self.rows(&RECORDS, "ORDER BY id", [], make)
    }

    /// The statements that leaders handed up, the newest first.
    pub fn closings(&self) -> Result<Vec<ClosingRow>, StoreError> {
        self.rows(&CLOSINGS, "ORDER BY issued DESC, digest", [], |row| {
            Ok(ClosingRow {
                digest: row.get(0)?,
                issued: row.get(1)?,
                received: row.get(2)?,
                author: author_of(row, 3)?,
                bytes: row.get(7)?,
            })
        })
    }
}
