//! How a record is kept, completed and found by its words.

use slingseal_words::Digest;

use super::{
    BYTES, DEFICIENCIES, DeficiencyRow, EQUIPMENT, EquipmentRow, INDEX_WORDS, Judged, RECORDS, RecordRow,
};
use crate::author::{Author, columns};
use crate::{StoreError, Tx, WalkFactsRow};

/// The words of so many records are indexed together.
const WORDS_AT_ONCE: i64 = 1_024;

/// A record to be kept.
#[derive(Clone, Copy, Debug)]
pub struct NewRecord<'a> {
    /// Its columns.
    pub row: &'a RecordRow,
    /// The seal's bytes.
    pub seal: &'a [u8],
    /// The full record's bytes.
    pub body: Option<&'a [u8]>,
    /// Its deficiencies.
    pub deficiencies: &'a [DeficiencyRow],
    /// Its equipment.
    pub equipment: &'a [EquipmentRow],
    /// How it was walked; none without a full record.
    pub facts: Option<&'a WalkFactsRow>,
    /// More words to be found by, beside load, procedure, inspector, rigger, place, aircraft, equipment and deficiencies.
    pub words: &'a str,
}

/// What became of a record that was to be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Put {
    /// It is new here.
    New,
    /// Its seal was here, and now its full record is too.
    Completed,
    /// It was here.
    Known,
}

impl Tx<'_> {
    /// Keeps a seal, or adds the full record to it where it has none yet. What came first of a seal stays; another seal that
    /// names the same record is another row.
    pub fn put_record(&self, new: &NewRecord<'_>) -> Result<Put, StoreError> {
        let put = match self.record_id(new.row.seal)? {
            None => {
                let id = self.insert_row(new)?;
                let body = self.put_body(new.body)?;
                self.run(&BYTES.insert(""), (id, new.seal, body))?;
                self.index(id, new)?;
                Put::New
            }
            Some(id) if new.body.is_some() && self.lacks_body(id)? => {
                self.complete(id, new)?;
                Put::Completed
            }
            Some(id) if new.body.is_none() && new.row.tag.is_some() && self.lacks_tag(id)? => {
                self.fill_in_tag(id, new)?;
                Put::Known
            }
            Some(_) => Put::Known,
        };
        Ok(put)
    }

    /// Keeps what the judgement said of a seal; `false` where there is no such seal or it said so before.
    pub fn set_judged(&self, seal: Digest, judged: &Judged) -> Result<bool, StoreError> {
        let Judged { standing, reason, successor, version } = judged;
        // What an account finds by how it stands is written anew only where that is another: most are judged as they were sealed.
        let rest = "WHERE seal = ?4 AND standing IS ?5
            AND NOT (reason IS ?1 AND successor IS ?2 AND judged IS ?3)";
        let sql = RECORDS.update(&["reason", "successor", "judged"], rest);
        if self.run(&sql, (reason, successor, version, seal, standing))? > 0 {
            return Ok(true);
        }
        let changed = ["standing", "reason", "successor", "judged"];
        let sql = RECORDS.update(&changed, "WHERE seal = ?5 AND standing IS NOT ?1");
        Ok(self.run(&sql, (standing, reason, successor, version, seal))? > 0)
    }

    /// Keeps who signed a seal, where that is verified anew.
    pub fn set_author(&self, seal: Digest, author: Option<&Author>) -> Result<(), StoreError> {
        let (authority, key, credential, in_time) = columns(author);
        let sql = RECORDS.update(&["authority", "signer", "credential", "in_time"], "WHERE seal = ?5");
        self.run(&sql, (authority, key, credential, in_time, seal))?;
        Ok(())
    }

    pub(crate) fn put_body(&self, body: Option<&[u8]>) -> Result<Option<Digest>, StoreError> {
        let Some(body) = body else { return Ok(None) };
        let digest = Digest::of(body);
        self.run("INSERT OR IGNORE INTO bodies (digest, bytes) VALUES (?1, ?2)", (digest, body))?;
        Ok(Some(digest))
    }

    fn insert_row(&self, new: &NewRecord<'_>) -> Result<i64, StoreError> {
        let row = new.row;
        let last = match self.last.get() {
            Some(last) => Some(last),
            None => self
                .ask("SELECT max(id) FROM records", |statement| statement.query_row([], |row| row.get(0)))?,
        };
        let id = last.unwrap_or(0).checked_add(1);
        let id = id.ok_or_else(|| StoreError::Unfit { what: "one more record".into() })?;
        let (authority, key, credential, in_time) = columns(row.author.as_ref());
        let params = rusqlite::params![
            id,
            row.seal,
            row.digest,
            row.load,
            row.tag,
            row.procedure,
            row.outcome,
            row.inspector,
            row.rigger,
            row.place,
            row.aircraft,
            row.mass_g,
            row.found,
            row.corrected,
            row.issued,
            row.valid_until,
            row.judged.standing,
            row.judged.reason,
            row.judged.successor,
            row.judged.version,
            authority,
            key,
            credential,
            in_time,
            row.device,
            row.received,
            new.words,
        ];
        self.run(&RECORDS.insert(""), params)?;
        self.last.set(Some(id));
        Ok(id)
    }

    fn lacks_body(&self, id: i64) -> Result<bool, StoreError> {
        Ok(self.count("SELECT count(*) FROM record_bytes WHERE record = ?1 AND body IS NULL", [id])? > 0)
    }

    /// The seal that was verified first stays; what only the full record tells is filled in.
    fn complete(&self, id: i64, new: &NewRecord<'_>) -> Result<(), StoreError> {
        let body = self.put_body(new.body)?;
        self.run("UPDATE record_bytes SET body = ?2 WHERE record = ?1", (id, body))?;
        self.run(&BYTES.reseal("WHERE record = ?1"), [id])?;
        let row = new.row;
        self.run(
            "UPDATE records SET rigger = ?2, place = ?3, aircraft = ?4, mass_g = ?5, found = ?6, corrected = ?7,
             device = ?8, tag = coalesce(tag, ?9), words = ?10 WHERE id = ?1",
            (
                id,
                &row.rigger,
                &row.place,
                &row.aircraft,
                row.mass_g,
                row.found,
                row.corrected,
                row.device,
                row.tag,
                new.words,
            ),
        )?;
        self.run(&RECORDS.reseal("WHERE id = ?1"), [id])?;
        for table in ["deficiencies", "equipment"] {
            self.run(&format!("DELETE FROM {table} WHERE record = ?1"), [id])?;
        }
        self.forget_words(id)?;
        self.index(id, new)
    }

    fn lacks_tag(&self, id: i64) -> Result<bool, StoreError> {
        Ok(self.count("SELECT count(*) FROM records WHERE id = ?1 AND tag IS NULL", [id])? > 0)
    }

    /// The tag came after its seal: what it tells is the same whichever came first.
    fn fill_in_tag(&self, id: i64, new: &NewRecord<'_>) -> Result<(), StoreError> {
        let row = new.row;
        self.run(
            "UPDATE records SET rigger = ?2, place = ?3, aircraft = ?4, tag = ?5, words = ?6 WHERE id = ?1",
            (id, &row.rigger, &row.place, &row.aircraft, row.tag, new.words),
        )?;
        self.run(&RECORDS.reseal("WHERE id = ?1"), [id])?;
        self.forget_words(id)?;
        self.index_words_later(id)
    }

    fn forget_words(&self, id: i64) -> Result<(), StoreError> {
        self.index_words()?;
        self.run("DELETE FROM record_words WHERE rowid = ?1", [id])?;
        Ok(())
    }

    /// Words are indexed by the thousand and before the commit: the full-text index writes down what it holds at every savepoint, and
    /// each statement that sets off a trigger is one.
    fn index_words_later(&self, id: i64) -> Result<(), StoreError> {
        let more = self.unindexed.get().filter(|(first, last)| last + 1 == id && id - first < WORDS_AT_ONCE);
        if let Some((first, _)) = more {
            self.unindexed.set(Some((first, id)));
            return Ok(());
        }
        self.index_words()?;
        self.unindexed.set(Some((id, id)));
        Ok(())
    }

    /// Indexes the words of the records that wait for it.
    pub(crate) fn index_words(&self) -> Result<(), StoreError> {
        if let Some(which) = self.unindexed.take() {
            self.run(&format!("{INDEX_WORDS} WHERE id BETWEEN ?1 AND ?2"), which)?;
        }
        Ok(())
    }

    fn index(&self, id: i64, new: &NewRecord<'_>) -> Result<(), StoreError> {
        for (at, deficiency) in (0i64..).zip(new.deficiencies) {
            let DeficiencyRow { procedure, point, name, rigger, corrected } = deficiency;
            self.run(&DEFICIENCIES.insert(""), (id, at, procedure, point, name, rigger, corrected))?;
        }
        for (at, EquipmentRow { serial, kind }) in (0i64..).zip(new.equipment) {
            self.run(&EQUIPMENT.insert(""), (id, at, serial, kind))?;
        }
        new.facts.map_or(Ok(()), |facts| self.put_facts_of(id, facts))?;
        self.index_words_later(id)
    }
}
