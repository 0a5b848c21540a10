//! Things that came and that nobody signed, in the order in which they came: so many are kept and no more.

use rusqlite::OptionalExtension;

use slingseal_words::Digest;

use super::table::Table;
use super::values::{count_in, count_out, word_column};
use super::{Reader, StoreError, Tx};

pub(super) static STRAYS: Table = Table::new("strays", "at", &["at", "kind", "digest", "size"]);
pub(super) static NAMED: Table = Table::new("named", "digest", &["digest"]);

/// What a stray is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StrayKind {
    /// A load tag without a signature of anybody trusted.
    Tag,
    /// A photograph.
    Photo,
    /// The text of a procedure.
    Procedure,
    /// An examination's sheet.
    Sheet,
}
word_column!(StrayKind { Tag = "tag", Photo = "photo", Procedure = "procedure", Sheet = "sheet" });

impl StrayKind {
    /// Takes the thing itself away. A tag whose signer came to be trusted stays; it is a stray no more.
    fn delete(self) -> &'static str {
        match self {
            Self::Tag => "DELETE FROM tags WHERE digest = ?1 AND authority IS NULL",
            Self::Photo => "DELETE FROM photos WHERE digest = ?1",
            Self::Procedure => "DELETE FROM procedure_texts WHERE digest = ?1",
            Self::Sheet => "DELETE FROM exam_papers WHERE digest = ?1 AND kind = 'sheet'",
        }
    }
}

/// A stray.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StrayRow {
    at: u64,
    /// What it is.
    pub kind: StrayKind,
    /// The digest of its bytes.
    pub digest: Digest,
    /// How many bytes it has.
    pub size: u64,
}

impl Tx<'_> {
    /// A kept signed word names this thing, or this device works by it: it is no stray, and never becomes one.
    pub fn put_named(&self, digest: Digest) -> Result<(), StoreError> {
        self.run(&NAMED.insert("OR IGNORE"), [digest])?;
        self.remove_stray(digest)?;
        Ok(())
    }

    /// Counts a thing that was just kept among the strays.
    pub fn put_stray(&self, kind: StrayKind, digest: Digest, size: u64) -> Result<(), StoreError> {
        let at = self.count("SELECT coalesce(max(at), 0) + 1 FROM strays", [])?;
        self.run(&STRAYS.insert("OR IGNORE"), (count_in(at)?, kind, digest, count_in(size)?))?;
        Ok(())
    }

    /// The thing is a stray no more; `false` where it was none.
    pub fn remove_stray(&self, digest: Digest) -> Result<bool, StoreError> {
        Ok(self.run("DELETE FROM strays WHERE digest = ?1", [digest])? > 0)
    }

    /// Leaves the newest `most` strays, of at most `bytes` together, and takes the older ones away with what they are. Answers
    /// what went, the oldest last.
    pub fn trim_strays(&self, most: u64, bytes: u64) -> Result<Vec<StrayRow>, StoreError> {
        let (number, size) = self.strays_size()?;
        if number <= most && size <= bytes {
            return Ok(Vec::new());
        }
        let (mut number, mut size, mut gone) = (0, 0, Vec::new());
        for stray in self.strays()?.into_iter().rev() {
            number += 1;
            size += stray.size;
            if number <= most && size <= bytes {
                continue;
            }
            self.remove_stray(stray.digest)?;
            if self.run(stray.kind.delete(), [stray.digest])? > 0 {
                gone.push(stray);
            }
        }
        Ok(gone)
    }
}

impl Reader<'_> {
    /// Whether a kept signed word names this thing.
    pub fn is_named(&self, digest: Digest) -> Result<bool, StoreError> {
        let sql = "SELECT 1 FROM named WHERE digest = ?1";
        let found: Option<i64> =
            self.ask(sql, |statement| statement.query_row([digest], |row| row.get(0)).optional())?;
        Ok(found.is_some())
    }

    /// Whether anything is named at all; a home of an older schema has yet to be asked.
    pub fn is_anything_named(&self) -> Result<bool, StoreError> {
        Ok(self.count("SELECT count(*) FROM (SELECT 1 FROM named LIMIT 1)", [])? > 0)
    }

    /// How many strays there are, and their bytes together.
    pub fn strays_size(&self) -> Result<(u64, u64), StoreError> {
        Ok((
            self.count("SELECT count(*) FROM strays", [])?,
            self.count("SELECT coalesce(sum(size), 0) FROM strays", [])?,
        ))
    }

    /// Every stray, the oldest first.
    pub fn strays(&self) -> Result<Vec<StrayRow>, StoreError> {
        self.rows(&STRAYS, "ORDER BY at", [], |row| {
            Ok(StrayRow {
                at: count_out(row, 0)?,
                kind: row.get(1)?,
                digest: row.get(2)?,
                size: count_out(row, 3)?,
            })
        })
    }
}
