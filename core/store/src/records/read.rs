//! What is asked of one record, of a load or of all.

use rusqlite::OptionalExtension;

use slingseal_words::{Digest, Time};

use super::{
    BYTES, DEFICIENCIES, DeficiencyRow, EQUIPMENT, EquipmentRow, RECORDS, RecordBytes, RecordRow, make,
};
use crate::{Reader, StoreError};

impl Reader<'_> {
    pub(crate) fn record_id(&self, seal: Digest) -> Result<Option<i64>, StoreError> {
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
