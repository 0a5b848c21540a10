//! Signed words by the time that their signers wrote, and by who signed them: what proves a time to be past, and what a change of
//! trust touches.

use rusqlite::Row;

use slingseal_words::Digest;

use super::movements::{MOVEMENT_BYTES, MOVEMENTS};
use super::papers::{TAGS, VOIDS};
use super::records::BYTES;
use super::{Author, Reader, StoreError};

/// So many words are looked at in one go.
pub const SAID_PAGE: u32 = 16;

/// What a word is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WordKind {
    /// A seal.
    Seal,
    /// A void.
    Void,
    /// A tag.
    Tag,
    /// A movement report.
    Movement,
}

impl WordKind {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Seal, Self::Void, Self::Tag, Self::Movement];
}

/// Somebody's word of some load: enough to ask whether a change of trust touches it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AuthoredRow {
    /// What it is.
    pub kind: WordKind,
    /// Who signed it.
    pub author: Author,
    /// One of this author's words of this kind.
    pub bytes: Vec<u8>,
}

impl Reader<'_> {
    /// Words of a kind that were said in time, by the time that their signers wrote: the greatest first, a page of them.
    pub fn said_last(&self, kind: WordKind, page: u32) -> Result<Vec<Vec<u8>>, StoreError> {
        let some = format!("LIMIT {SAID_PAGE} OFFSET {}", u64::from(page) * u64::from(SAID_PAGE));
        match kind {
            WordKind::Seal => {
                let rest = format!(
                    "JOIN records ON records.id = record_bytes.record WHERE records.in_time = 1
                     ORDER BY records.issued DESC, records.id DESC {some}"
                );
                self.rows(&BYTES, &rest, [], |row| row.get(1))
            }
            WordKind::Void => {
                let rest = format!("NOT INDEXED WHERE in_time = 1 ORDER BY issued DESC, digest {some}");
                self.rows(&VOIDS, &rest, [], |row| row.get(9))
            }
            WordKind::Tag => {
                let rest =
                    format!("WHERE in_time = 1 AND said IS NOT NULL ORDER BY said DESC, digest {some}");
                self.rows(&TAGS, &rest, [], |row| row.get(9))
            }
            WordKind::Movement => {
                let rest = format!("WHERE in_time = 1 ORDER BY issued DESC, load, digest {some}");
                self.rows(&MOVEMENTS, &rest, [], |row| row.get(MOVEMENT_BYTES))
            }
        }
    }

    /// Everyone who signed a seal or a tag that is here, with one word of each.
    pub fn authored(&self) -> Result<Vec<AuthoredRow>, StoreError> {
        fn author(row: &Row<'_>) -> rusqlite::Result<(Author, Vec<u8>)> {
            let author = Author {
                authority: row.get(0)?,
                key: row.get(1)?,
                credential: row.get(2)?,
                in_time: row.get(3)?,
            };
            Ok((author, row.get(4)?))
        }
        let seals = "SELECT authority, signer, credential, max(in_time), record_bytes.seal
            FROM records JOIN record_bytes ON record_bytes.record = records.id
            WHERE authority IS NOT NULL GROUP BY authority, signer, credential";
        let tags = "SELECT authority, signer, credential, max(in_time), bytes FROM tags
            WHERE authority IS NOT NULL GROUP BY authority, signer, credential";
        let mut all = Vec::new();
        for (kind, sql) in [(WordKind::Seal, seals), (WordKind::Tag, tags)] {
            let rows: Vec<(Author, Vec<u8>)> =
                self.ask(sql, |statement| statement.query_map([], author)?.collect())?;
            all.extend(rows.into_iter().map(|(author, bytes)| AuthoredRow { kind, author, bytes }));
        }
        Ok(all)
    }

    /// Loads of which a credential's holder signed a seal or a tag.
    pub fn loads_of_credential(&self, credential: [u8; 8]) -> Result<Vec<String>, StoreError> {
        let sql = "SELECT load FROM records WHERE credential = ?1 UNION SELECT load FROM tags WHERE credential = ?1";
        self.ask(sql, |statement| statement.query_map([credential], |row| row.get(0))?.collect())
    }

    /// Loads of which anything is here that somebody of this authority signed.
    pub fn loads_of_authority(&self, authority: &[u8; 32]) -> Result<Vec<String>, StoreError> {
        let sql =
            "SELECT load FROM records WHERE authority = ?1 UNION SELECT load FROM tags WHERE authority = ?1
                   UNION SELECT load FROM voids WHERE authority = ?1
                   UNION SELECT load FROM movements WHERE authority = ?1";
        self.ask(sql, |statement| statement.query_map([authority], |row| row.get(0))?.collect())
    }

    /// Loads with a tag or void behind which nobody stands that is known here: somebody may, once another authority is trusted.
    pub fn loads_unsigned(&self) -> Result<Vec<String>, StoreError> {
        let sql = "SELECT load FROM tags WHERE authority IS NULL UNION SELECT load FROM voids WHERE authority IS NULL
                   UNION SELECT load FROM records WHERE authority IS NULL
                   UNION SELECT load FROM movements WHERE authority IS NULL AND signed = 1";
        self.ask(sql, |statement| statement.query_map([], |row| row.get(0))?.collect())
    }

    /// Loads whose standing was made by another version of the judgement, or by none.
    pub fn loads_not_judged_by(&self, version: u32) -> Result<Vec<String>, StoreError> {
        let sql =
            "SELECT load FROM records WHERE judged <> ?1 UNION SELECT load FROM loads WHERE judged <> ?1
                   UNION SELECT load FROM tags WHERE said IS NULL
                   UNION SELECT load FROM flow WHERE judged <> ?1
                   UNION SELECT load FROM tags WHERE load NOT IN (SELECT load FROM flow)";
        self.ask(sql, |statement| statement.query_map([version], |row| row.get(0))?.collect())
    }

    /// Every load of which a seal is here, or was when it was judged last.
    pub fn loads_with_seals(&self) -> Result<Vec<String>, StoreError> {
        let sql = "SELECT load FROM records UNION SELECT load FROM loads ORDER BY load";
        self.ask(sql, |statement| statement.query_map([], |row| row.get(0))?.collect())
    }

    /// The bytes of a seal, by its own digest.
    pub fn seal(&self, seal: Digest) -> Result<Option<Vec<u8>>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE seal = ?1)";
        self.row(&BYTES, rest, [seal], |row| row.get(1))
    }
}
