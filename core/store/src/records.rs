use rusqlite::{OptionalExtension, Row};

use slingseal_words::{Digest, Time};

use super::table::Table;
use super::values::word_column;
use super::{DeviceId, Reader, StoreError, Tx};

pub(super) const RECORDS: Table = Table::new(
    "records",
    "id",
    &[
        "id",
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
        "device",
        "received",
        "words",
    ],
);
pub(super) const BYTES: Table = Table::new("record_bytes", "record", &["record", "seal", "body"]);
pub(super) const DEFICIENCIES: Table = Table::new(
    "deficiencies",
    "record",
    &["record", "at", "procedure", "point", "name", "rigger", "corrected"],
);
pub(super) const EQUIPMENT: Table = Table::new("equipment", "record", &["record", "at", "serial", "kind"]);

/// Makes the searched words of all records; `WHERE id = ?1` may follow.
pub(super) const INDEX_WORDS: &str = "
    INSERT INTO record_words (rowid, words)
    SELECT id, concat_ws(' ', load, procedure, inspector, rigger, place, aircraft, words,
        (SELECT group_concat(name, ' ') FROM deficiencies WHERE record = id),
        (SELECT group_concat(serial || ' ' || kind, ' ') FROM equipment WHERE record = id))
    FROM records";

/// What a record says of its load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Fit to fly.
    Fit,
    /// Not fit.
    NotFit,
}
word_column!(Outcome { Fit = "fit", NotFit = "not_fit" });

/// Whether a record still counts. The facade decides; the store keeps it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// The newest word on its load.
    Current,
    /// A later inspection of the same load took its place.
    Superseded,
    /// Someone credentialed withdrew it.
    Voided,
}
word_column!(Standing { Current = "current", Superseded = "superseded", Voided = "voided" });

/// The columns by which records are listed and found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordRow {
    /// What the record goes by.
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
    /// Whether it still counts.
    pub standing: Standing,
    /// The device that made it, where its journal is known.
    pub device: Option<DeviceId>,
    /// When it came here, by this device's clock.
    pub received: Time,
}

/// A record's bytes, as they came.
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

fn make(row: &Row<'_>) -> rusqlite::Result<RecordRow> {
    Ok(RecordRow {
        digest: row.get(1)?,
        load: row.get(2)?,
        tag: row.get(3)?,
        procedure: row.get(4)?,
        outcome: row.get(5)?,
        inspector: row.get(6)?,
        rigger: row.get(7)?,
        place: row.get(8)?,
        aircraft: row.get(9)?,
        mass_g: row.get(10)?,
        found: row.get(11)?,
        corrected: row.get(12)?,
        issued: row.get(13)?,
        valid_until: row.get(14)?,
        standing: row.get(15)?,
        device: row.get(16)?,
        received: row.get(17)?,
    })
}

/// A row with its id, for paging.
pub(super) fn make_with_id(row: &Row<'_>) -> rusqlite::Result<(i64, RecordRow)> {
    Ok((row.get(0)?, make(row)?))
}

impl Tx<'_> {
    /// Keeps a record. Known by its digest; a known one is left as it is, but for a full record that was still missing.
    pub fn put_record(&self, new: &NewRecord<'_>) -> Result<Put, StoreError> {
        let put = match self.record_id(new.row.digest)? {
            None => {
                let id = self.insert_row(new)?;
                self.run(&BYTES.insert(""), (id, new.seal, new.body))?;
                self.index(id, new)?;
                Put::New
            }
            Some(id) if new.body.is_some() && self.lacks_body(id)? => {
                self.complete(id, new)?;
                Put::Completed
            }
            Some(_) => Put::Known,
        };
        Ok(put)
    }

    /// Says whether a record still counts; `false` where there is no such record or it stood so already.
    pub fn set_standing(&self, digest: Digest, standing: Standing) -> Result<bool, StoreError> {
        let sql = "UPDATE records SET standing = ?2 WHERE digest = ?1 AND standing <> ?2";
        let changed = self.run(sql, (digest, standing))? > 0;
        if changed {
            self.run(&RECORDS.reseal("WHERE digest = ?1"), [digest])?;
        }
        Ok(changed)
    }

    fn insert_row(&self, new: &NewRecord<'_>) -> Result<i64, StoreError> {
        let row = new.row;
        let id = i64::try_from(self.count("SELECT coalesce(max(id), 0) + 1 FROM records", [])?)
            .map_err(|_| StoreError::Unfit { what: "one more record".into() })?;
        let params = rusqlite::params![
            id,
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
            row.standing,
            row.device,
            row.received,
            new.words,
        ];
        self.run(&RECORDS.insert(""), params)?;
        Ok(id)
    }

    fn lacks_body(&self, id: i64) -> Result<bool, StoreError> {
        Ok(self.count("SELECT count(*) FROM record_bytes WHERE record = ?1 AND body IS NULL", [id])? > 0)
    }

    /// The seal that was verified first stays; what only the full record tells is filled in.
    fn complete(&self, id: i64, new: &NewRecord<'_>) -> Result<(), StoreError> {
        self.run("UPDATE record_bytes SET body = ?2 WHERE record = ?1", (id, new.body))?;
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
        self.run("DELETE FROM record_words WHERE rowid = ?1", [id])?;
        self.index(id, new)
    }

    fn index(&self, id: i64, new: &NewRecord<'_>) -> Result<(), StoreError> {
        for (at, deficiency) in (0i64..).zip(new.deficiencies) {
            let DeficiencyRow { procedure, point, name, rigger, corrected } = deficiency;
            self.run(&DEFICIENCIES.insert(""), (id, at, procedure, point, name, rigger, corrected))?;
        }
        for (at, EquipmentRow { serial, kind }) in (0i64..).zip(new.equipment) {
            self.run(&EQUIPMENT.insert(""), (id, at, serial, kind))?;
        }
        self.run(&format!("{INDEX_WORDS} WHERE id = ?1"), [id])?;
        Ok(())
    }
}

impl Reader<'_> {
    pub(super) fn record_id(&self, digest: Digest) -> Result<Option<i64>, StoreError> {
        let sql = "SELECT id FROM records WHERE digest = ?1";
        self.ask(sql, |statement| statement.query_row([digest], |row| row.get(0)).optional())
    }

    /// A record's columns.
    pub fn record(&self, digest: Digest) -> Result<Option<RecordRow>, StoreError> {
        self.row(&RECORDS, "WHERE digest = ?1", [digest], make)
    }

    /// A record's bytes, as they came.
    pub fn record_bytes(&self, digest: Digest) -> Result<Option<RecordBytes>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE digest = ?1)";
        self.row(&BYTES, rest, [digest], |row| Ok(RecordBytes { seal: row.get(1)?, body: row.get(2)? }))
    }

    /// The records of a load, the newest first.
    pub fn records_of_load(&self, load: &str) -> Result<Vec<RecordRow>, StoreError> {
        self.rows(&RECORDS, "WHERE load = ?1 ORDER BY issued DESC, digest DESC", [load], make)
    }

    /// The records that sealed a tag, the newest first.
    pub fn records_of_tag(&self, tag: Digest) -> Result<Vec<RecordRow>, StoreError> {
        self.rows(&RECORDS, "WHERE tag = ?1 ORDER BY issued DESC, digest DESC", [tag], make)
    }

    /// The deficiencies of a record, in its order.
    pub fn deficiencies_of(&self, digest: Digest) -> Result<Vec<DeficiencyRow>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE digest = ?1) ORDER BY at";
        self.rows(&DEFICIENCIES, rest, [digest], |row| {
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
    pub fn equipment_of(&self, digest: Digest) -> Result<Vec<EquipmentRow>, StoreError> {
        let rest = "WHERE record = (SELECT id FROM records WHERE digest = ?1) ORDER BY at";
        self.rows(&EQUIPMENT, rest, [digest], |row| {
            Ok(EquipmentRow { serial: row.get(2)?, kind: row.get(3)? })
        })
    }

    /// Of every record: when it was sealed, what it goes by, and whether its full record is here.
    pub fn records_known(&self) -> Result<Vec<(Time, Digest, bool)>, StoreError> {
        let sql = "SELECT issued, digest, body IS NOT NULL FROM records
                   JOIN record_bytes ON record_bytes.record = records.id ORDER BY issued, digest";
        let mut statement = self.conn.prepare_cached(sql)?;
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// The digests of all records, sorted: what a device says that it has.
    pub fn record_digests(&self) -> Result<Vec<Digest>, StoreError> {
        self.ask("SELECT digest FROM records ORDER BY digest", |statement| {
            statement.query_map([], |row| row.get(0))?.collect()
        })
    }
}
