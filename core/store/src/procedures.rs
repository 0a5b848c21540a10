//! Texts of procedures under their digest, and which of them a unit walks by.

use rusqlite::Row;

use slingseal_words::Digest;

use super::table::Table;
use super::{Reader, StoreError, Tx};

pub(super) static PROCEDURE_TEXTS: Table =
    Table::new("procedure_texts", "digest", &["digest", "id", "version", "name", "text"]);
pub(super) static PROCEDURES_IN_USE: Table = Table::new("procedures_in_use", "id", &["id", "digest"]);

/// The text of a procedure, and what it says of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProcedureTextRow {
    /// The digest of the text.
    pub digest: Digest,
    /// Its id, version and title; none until somebody who can read the text has.
    pub said: Option<(String, u32, String)>,
    /// The text.
    pub text: String,
}

fn make(row: &Row<'_>) -> rusqlite::Result<ProcedureTextRow> {
    let said =
        (row.get::<_, Option<String>>(1)?, row.get::<_, Option<u32>>(2)?, row.get::<_, Option<String>>(3)?);
    let bytes: Vec<u8> = row.get(4)?;
    Ok(ProcedureTextRow {
        digest: row.get(0)?,
        said: match said {
            (Some(id), Some(version), Some(name)) => Some((id, version, name)),
            _ => None,
        },
        text: String::from_utf8_lossy(&bytes).into_owned(),
    })
}

impl Tx<'_> {
    /// Keeps a text under its digest; of a known one, what it says of itself.
    pub fn put_procedure_text(&self, row: &ProcedureTextRow) -> Result<(), StoreError> {
        let (id, version, name) = match &row.said {
            Some((id, version, name)) => (Some(id), Some(version), Some(name)),
            None => (None, None, None),
        };
        let verb = if row.said.is_some() { "OR REPLACE" } else { "OR IGNORE" };
        self.run(&PROCEDURE_TEXTS.insert(verb), (row.digest, id, version, name, row.text.as_bytes()))?;
        Ok(())
    }

    /// From now on the unit walks by this text.
    pub fn use_procedure(&self, id: &str, digest: Digest) -> Result<(), StoreError> {
        self.run(&PROCEDURES_IN_USE.insert("OR REPLACE"), (id, digest))?;
        Ok(())
    }
}

impl Reader<'_> {
    /// The text of a digest.
    pub fn procedure_text(&self, digest: Digest) -> Result<Option<ProcedureTextRow>, StoreError> {
        self.row(&PROCEDURE_TEXTS, "WHERE digest = ?1", [digest], make)
    }

    /// Every text that somebody could read.
    pub fn procedure_texts(&self) -> Result<Vec<ProcedureTextRow>, StoreError> {
        self.rows(&PROCEDURE_TEXTS, "WHERE id IS NOT NULL ORDER BY id, version, digest", [], make)
    }

    /// Every text of an id.
    pub fn procedure_texts_of(&self, id: &str) -> Result<Vec<ProcedureTextRow>, StoreError> {
        self.rows(&PROCEDURE_TEXTS, "WHERE id = ?1 ORDER BY version, digest", [id], make)
    }

    /// Texts that nobody has read since they came from an older schema.
    pub fn procedures_unread(&self) -> Result<Vec<ProcedureTextRow>, StoreError> {
        self.rows(&PROCEDURE_TEXTS, "WHERE id IS NULL ORDER BY digest", [], make)
    }

    /// The unit's own procedures, by id.
    pub fn procedures_in_use(&self) -> Result<Vec<(String, Digest)>, StoreError> {
        self.rows(&PROCEDURES_IN_USE, "ORDER BY id", [], |row| Ok((row.get(0)?, row.get(1)?)))
    }

    /// The text that the unit walks an id by.
    pub fn procedure_in_use(&self, id: &str) -> Result<Option<ProcedureTextRow>, StoreError> {
        let used = self.row(&PROCEDURES_IN_USE, "WHERE id = ?1", [id], |row| row.get::<_, Digest>(1))?;
        let Some(digest) = used else { return Ok(None) };
        match self.procedure_text(digest)? {
            Some(row) => Ok(Some(row)),
            None => {
                let what = format!("the text of the procedure {id} is gone");
                self.noting(Err(StoreError::Damaged { what }))
            }
        }
    }
}
