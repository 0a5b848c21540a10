use rusqlite::{OptionalExtension, Row};

use slingseal_words::{Digest, Time};

use super::author::{Author, author_of, columns};
use super::table::Table;
use super::values::word_column;
use super::{DeviceId, Reader, StoreError, Tx, WalkFactsRow};

pub(super) static RECORDS: Table = Table::new(
    "records",
    "id",
    &[
        "id",
        "seal",
        "digest",
        "load",
        "tag",
        "procedure",
        "outcome",
        "inspector",
        "rigger",
        "place",
        "aircraft",
        "mass_g",
        "found",
        "corrected",
        "issued",
        "valid_until",
        "standing",
        "reason",
        "successor",
        "judged",
        "authority",
        "signer",
        "credential",
        "in_time",
        "device",
        "received",
        "words",
    ],
);
pub(super) static BYTES: Table = Table::new("record_bytes", "record", &["record", "seal", "body"]);
pub(super) static DEFICIENCIES: Table = Table::new(
    "deficiencies",
    "record",
    &["record", "at", "procedure", "point", "name", "rigger", "corrected"],
);
pub(super) static EQUIPMENT: Table = Table::new("equipment", "record", &["record", "at", "serial", "kind"]);

/// Makes the searched words of all records; which of them may follow.
pub(super) const INDEX_WORDS: &str = "
    INSERT INTO record_words (rowid, words)
    SELECT id, concat_ws(' ', load, procedure, inspector, rigger, place, aircraft, words,
        (SELECT group_concat(name, ' ') FROM deficiencies WHERE record = id),
        (SELECT group_concat(serial || ' ' || kind, ' ') FROM equipment WHERE record = id))
    FROM records";

/// The words of so many records are indexed together.
const WORDS_AT_ONCE: i64 = 1_024;

/// What a record says of its load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Fit to fly.
    Fit,
    /// Not fit.
    NotFit,
}
word_column!(Outcome { Fit = "fit", NotFit = "not_fit" });

/// How a seal stands. The judgement decides; the store keeps what it said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// The load's latest inspection, and it found the load fit.
    Fit,
    /// An inspection that found the load not fit.
    NotFit,
    /// A later inspection of the same load took its place.
    Superseded,
    /// Someone credentialed withdrew it.
    Voided,
    /// An inspection that nobody may rely on: revoked, valid too long, with an open deficiency.
    Refused,
    /// An inspection that nobody may rely on before someone has looked into it.
    Waits,
    /// The seal of somebody who might not inspect: evidence of that, and no inspection of the load.
    NoInspection,
}
word_column!(Standing {
    Fit = "fit",
    NotFit = "not_fit",
    Superseded = "superseded",
    Voided = "voided",
    Refused = "refused",
    Waits = "wait",
    NoInspection = "no_inspection",
});

/// What the judgement said of one seal, whatever the time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// How it stands.
    pub standing: Standing,
    /// The stable word of the reason; empty where it stands.
    pub reason: String,
    /// The seal that took its place.
    pub successor: Option<Digest>,
    /// The version of the function that said so; 0 where none has.
    pub version: u32,
}

impl Judged {
    /// Nothing was said yet of a seal with this outcome.
    pub fn not_yet(outcome: Outcome) -> Self {
        let standing = match outcome {
            Outcome::Fit => Standing::Fit,
            Outcome::NotFit => Standing::NotFit,
        };
        Self { standing, reason: String::new(), successor: None, version: 0 }
    }
}

/// The columns by which records are listed and found: one row a seal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordRow {
    /// The digest of the seal's own bytes: what the row goes by.
    pub seal: Digest,
    /// The record that the seal names. Another seal may name the same.
    pub digest: Digest,
    /// The load number.
    pub load: String,
    /// The digest of the tag that was sealed.
    pub tag: Option<Digest>,
    /// The procedure's id.
    pub procedure: String,
    /// What was decided.
    pub outcome: Outcome,
    /// Who decided.
    pub inspector: String,
    /// Who built the load; empty where unknown.
    pub rigger: String,
    /// The pickup zone; empty where unknown.
    pub place: String,
    /// The aircraft type; empty where unknown.
    pub aircraft: String,
    /// The gross mass in grams.
    pub mass_g: Option<i64>,
    /// How many deficiencies were found.
    pub found: u32,
    /// How many of them were put right.
    pub corrected: u32,
    /// When it was sealed, by the sealing device's clock.
    pub issued: Time,
    /// Until when it may be relied on.
    pub valid_until: Time,
    /// How it stands.
    pub judged: Judged,
    /// Who signed it.
    pub author: Option<Author>,
    /// The device that made it, where its journal is known.
    pub device: Option<DeviceId>,
    /// When it came here, by this device's clock.
    pub received: Time,
}

impl RecordRow {
    /// How it stands.
    pub fn standing(&self) -> Standing {
        self.judged.standing
    }
}

/// A seal's bytes and its record's, as they came.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordBytes {
    /// The seal.
    pub seal: Vec<u8>,
    /// The full record; `None` where only the seal was seen.
    pub body: Option<Vec<u8>>,
}

/// A deficiency of a record, for counting.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DeficiencyRow {
    /// The procedure's id.
    pub procedure: String,
    /// The point's id.
    pub point: String,
    /// The deficiency's name.
    pub name: String,
    /// Who built the load.
    pub rigger: String,
    /// Whether it was put right and looked at again.
    pub corrected: bool,
}

/// A piece of equipment that a record names.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct EquipmentRow {
    /// The serial number.
    pub serial: String,
    /// What it is.
    pub kind: String,
}

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

/// What `RecordRow` needs, without the searched words.
pub(super) fn make(row: &Row<'_>) -> rusqlite::Result<RecordRow> {
    Ok(RecordRow {
        seal: row.get(1)?,
        digest: row.get(2)?,
        load: row.get(3)?,
        tag: row.get(4)?,
        procedure: row.get(5)?,
        outcome: row.get(6)?,
        inspector: row.get(7)?,
        rigger: row.get(8)?,
        place: row.get(9)?,
        aircraft: row.get(10)?,
        mass_g: row.get(11)?,
        found: row.get(12)?,
        corrected: row.get(13)?,
        issued: row.get(14)?,
        valid_until: row.get(15)?,
        judged: Judged {
            standing: row.get(16)?,
            reason: row.get(17)?,
            successor: row.get(18)?,
            version: row.get(19)?,
        },
        author: author_of(row, 20)?,
        device: row.get(24)?,
        received: row.get(25)?,
    })
}

/// The column of the searched words.
pub(super) const WORDS: usize = 26;

pub(super) fn make_with_id(row: &Row<'_>) -> rusqlite::Result<(i64, RecordRow)> {
    Ok((row.get(0)?, make(row)?))
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

    pub(super) fn put_body(&self, body: Option<&[u8]>) -> Result<Option<Digest>, StoreError> {
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
    pub(super) fn index_words(&self) -> Result<(), StoreError> {
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

impl Reader<'_> {
    pub(super) fn record_id(&self, seal: Digest) -> Result<Option<i64>, StoreError> {
        let sql = "SELECT id FROM records WHERE seal = ?1";
        self.ask(sql, |statement| statement.query_row([seal], |row| row.get(0)).optional())
    }

    /// A seal's columns, by the digest of its own bytes.
    pub fn record(&self, seal: Digest) -> Result<Option<RecordRow>, StoreError> {
        self.row(&RECORDS, "WHERE seal = ?1", [seal], make)
    }

    /// Every seal that names a record, in the order of their own digests.
    pub fn seals_of_record(&self, record: Digest) -> Result<Vec<RecordRow>, StoreError> {
        self.rows(&RECORDS, "WHERE digest = ?1 ORDER BY seal", [record], make)
    }

    /// Those of them that lack it, in the same order.
    pub fn seals_lacking_record(&self, record: Digest) -> Result<Vec<RecordRow>, StoreError> {
        self.rows(&RECORDS, "WHERE digest = ?1 AND device IS NULL ORDER BY seal", [record], make)
    }

    /// A seal's bytes and its full record's, as they came.
    pub fn record_bytes(&self, seal: Digest) -> Result<Option<RecordBytes>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE seal = ?1)";
        let found = self.row(&BYTES, rest, [seal], |row| {
            Ok((row.get::<_, Vec<u8>>(1)?, row.get::<_, Option<Digest>>(2)?))
        })?;
        let Some((seal, body)) = found else { return Ok(None) };
        Ok(Some(RecordBytes { seal, body: body.map(|body| self.attached(body)).transpose()? }))
    }

    /// The bytes of a full record, where they are here.
    pub fn body(&self, digest: Digest) -> Result<Option<Vec<u8>>, StoreError> {
        let sql = "SELECT bytes FROM bodies WHERE digest = ?1";
        let found: Option<Vec<u8>> =
            self.ask(sql, |statement| statement.query_row([digest], |row| row.get(0)).optional())?;
        match found {
            Some(bytes) if Digest::of(&bytes) != digest => {
                let what = format!("full record {} does not match its digest", digest.short());
                self.noting(Err(StoreError::Damaged { what }))
            }
            other => Ok(other),
        }
    }

    /// The digests of all full records, sorted.
    pub fn body_digests(&self) -> Result<Vec<Digest>, StoreError> {
        self.ask("SELECT digest FROM bodies ORDER BY digest", |statement| {
            statement.query_map([], |row| row.get(0))?.collect()
        })
    }

    fn attached(&self, digest: Digest) -> Result<Vec<u8>, StoreError> {
        match self.body(digest)? {
            Some(bytes) => Ok(bytes),
            None => {
                let what = format!("full record {} is gone", digest.short());
                self.noting(Err(StoreError::Damaged { what }))
            }
        }
    }

    /// The bytes of every seal that names a load, with the digests of their own, in the order of those: evidence, also of
    /// those who might not inspect.
    pub fn seals_of_load(&self, load: &str) -> Result<Vec<(Digest, Vec<u8>)>, StoreError> {
        let rest =
            "JOIN records ON records.id = record_bytes.record WHERE records.load = ?1 ORDER BY records.seal";
        let seals = self.rows(&BYTES, rest, [load], |row| row.get::<_, Vec<u8>>(1))?;
        Ok(seals.into_iter().map(|bytes| (Digest::of(&bytes), bytes)).collect())
    }

    /// Every seal that names a load, the last signed first; also those that are no inspections.
    pub fn records_of_load(&self, load: &str) -> Result<Vec<RecordRow>, StoreError> {
        self.rows(&RECORDS, "WHERE load = ?1 ORDER BY issued DESC, seal DESC", [load], make)
    }

    /// The deficiencies of a record, in its order.
    pub fn deficiencies_of(&self, seal: Digest) -> Result<Vec<DeficiencyRow>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE seal = ?1) ORDER BY at";
        self.rows(&DEFICIENCIES, rest, [seal], |row| {
            Ok(DeficiencyRow {
                procedure: row.get(2)?,
                point: row.get(3)?,
                name: row.get(4)?,
                rigger: row.get(5)?,
                corrected: row.get(6)?,
            })
        })
    }

    /// The equipment of a record, in its order.
    pub fn equipment_of(&self, seal: Digest) -> Result<Vec<EquipmentRow>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE seal = ?1) ORDER BY at";
        self.rows(&EQUIPMENT, rest, [seal], |row| Ok(EquipmentRow { serial: row.get(2)?, kind: row.get(3)? }))
    }

    /// Of every seal: when it was signed, the digest of its own bytes, the record that it names, and whether that is here.
    pub fn records_known(&self) -> Result<Vec<(Time, Digest, Digest, bool)>, StoreError> {
        let sql = "SELECT issued, records.seal, digest, body IS NOT NULL FROM records
                   JOIN record_bytes ON record_bytes.record = records.id ORDER BY issued, records.seal";
        self.here()?;
        let mut statement = self.conn.prepare_cached(sql)?;
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// The digests of all seals, sorted: what a device says that it has.
    pub fn record_digests(&self) -> Result<Vec<Digest>, StoreError> {
        self.ask("SELECT seal FROM records ORDER BY seal", |statement| {
            statement.query_map([], |row| row.get(0))?.collect()
        })
    }
}
