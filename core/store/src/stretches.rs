//! All that is known of the loads, some loads at a time in the order of their numbers, and of the digests of their words: what is asked
//! of the whole account needs the memory of a stretch of it. Nothing is written while one holds a `Reader`, so all stretches are of
//! one moment.

use rusqlite::types::Value;

use slingseal_words::Digest;

use super::flows::{FLOW, make as make_flow};
use super::loads::{LOADS, make as make_load};
use super::movements::{MOVEMENTS, make as make_movement};
use super::papers::{TAGS, VOIDS, make_tag, make_void};
use super::records::{RECORDS, make};
use super::{DeviceId, FlowRow, LoadRow, MovementRow, Reader, RecordRow, StoreError, TagRow, VoidRow};

/// So many rows of a table are in a stretch; of a load that has more, all.
const ROWS: u32 = 1_024;

/// Loads whose numbers, as text, lie behind one and not behind another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stretch {
    behind: String,
    upto: Option<String>,
}

/// Behind, and up to: where there is no end, bytes, behind which no text stands in SQLite's order of types.
const WITHIN: &str = "load > ?1 AND load <= ?2";

impl Stretch {
    /// The number behind which it begins; empty for the first.
    pub fn behind(&self) -> &str {
        &self.behind
    }

    /// The last number that is in it; none for the last stretch.
    pub fn upto(&self) -> Option<&str> {
        self.upto.as_deref()
    }

    fn ends(&self) -> (&str, Value) {
        let upto = self.upto.as_ref().map_or(Value::Blob(Vec::new()), |upto| Value::Text(upto.clone()));
        (&self.behind, upto)
    }
}

/// A report of a device, and what the device wrote before that.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChainLink {
    /// The device.
    pub device: DeviceId,
    /// The digest of it.
    pub digest: Digest,
    /// The digest of what it names as the one before.
    pub before: Option<Digest>,
}

impl Reader<'_> {
    /// The next stretch of loads; the first one without any before. None behind the last.
    pub fn next_stretch(&self, before: Option<&Stretch>) -> Result<Option<Stretch>, StoreError> {
        let behind = match before {
            None => String::new(),
            Some(Stretch { upto: Some(upto), .. }) => upto.clone(),
            Some(Stretch { upto: None, .. }) => return Ok(None),
        };
        let mut upto: Option<String> = None;
        for table in ["flow", "records", "tags", "movements"] {
            let sql = format!("SELECT load FROM {table} WHERE load > ?1 ORDER BY load LIMIT 1 OFFSET {ROWS}");
            let end: Option<String> = self.ask(&sql, |statement| {
                statement.query_map([&behind], |row| row.get(0))?.next().transpose()
            })?;
            upto = match (upto, end) {
                (Some(one), Some(other)) => Some(one.min(other)),
                (one, other) => one.or(other),
            };
        }
        Ok(Some(Stretch { behind, upto }))
    }

    /// Where each load of a stretch was.
    pub fn flows_in(&self, stretch: &Stretch) -> Result<Vec<FlowRow>, StoreError> {
        self.rows(&FLOW, &format!("WHERE {WITHIN} ORDER BY load"), stretch.ends(), make_flow)
    }

    /// How each load of a stretch stood when it was judged last.
    pub fn loads_in(&self, stretch: &Stretch) -> Result<Vec<LoadRow>, StoreError> {
        self.rows(&LOADS, &format!("WHERE {WITHIN} ORDER BY load"), stretch.ends(), make_load)
    }

    /// The loads of a stretch of which a tag is here.
    pub fn tagged_in(&self, stretch: &Stretch) -> Result<Vec<String>, StoreError> {
        let sql = format!("SELECT DISTINCT load FROM tags WHERE {WITHIN} ORDER BY load");
        self.ask(&sql, |statement| statement.query_map(stretch.ends(), |row| row.get(0))?.collect())
    }

    /// The seals of the loads of a stretch, those of each load in the order in which they came.
    pub fn each_record_in<E: From<StoreError>>(
        &self,
        stretch: &Stretch,
        take: impl FnMut(RecordRow) -> Result<(), E>,
    ) -> Result<(), E> {
        let rest = format!("WHERE {WITHIN} ORDER BY load, id");
        self.each(&RECORDS, &rest, stretch.ends(), make, take)
    }

    /// The equipment of the loads of a stretch as the record of each one's latest inspection has it: load, serial number, kind.
    pub fn equipment_in(&self, stretch: &Stretch) -> Result<Vec<(String, String, String)>, StoreError> {
        let sql = "SELECT loads.load, equipment.serial, equipment.kind FROM loads
            JOIN records ON records.seal = loads.latest JOIN equipment ON equipment.record = records.id
            WHERE loads.load > ?1 AND loads.load <= ?2 ORDER BY loads.load, equipment.at";
        self.ask(sql, |statement| {
            statement.query_map(stretch.ends(), |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?.collect()
        })
    }

    /// The reports of the loads of a stretch, by load and digest.
    pub fn each_movement_in<E: From<StoreError>>(
        &self,
        stretch: &Stretch,
        take: impl FnMut(MovementRow) -> Result<(), E>,
    ) -> Result<(), E> {
        let rest = format!("WHERE {WITHIN} ORDER BY load, digest");
        self.each(&MOVEMENTS, &rest, stretch.ends(), make_movement, take)
    }

    /// All reports, by load and digest, one at a time.
    pub fn each_movement<E: From<StoreError>>(
        &self,
        take: impl FnMut(MovementRow) -> Result<(), E>,
    ) -> Result<(), E> {
        self.each(&MOVEMENTS, "ORDER BY load, digest", [], make_movement, take)
    }

    /// All tags, sorted by digest, one at a time.
    pub fn each_tag<E: From<StoreError>>(&self, take: impl FnMut(TagRow) -> Result<(), E>) -> Result<(), E> {
        self.each(&TAGS, "ORDER BY digest", [], make_tag, take)
    }

    /// All voids, one at a time, by the table itself: a decayed index must not hide one.
    pub fn each_void<E: From<StoreError>>(
        &self,
        take: impl FnMut(VoidRow) -> Result<(), E>,
    ) -> Result<(), E> {
        self.each(&VOIDS, "NOT INDEXED ORDER BY rowid", [], make_void, take)
    }

    /// The digests of tags and seals from one on, with the load of each, each kind in the order of the digests, as long as they are
    /// wanted: `take` says whether the next ones are.
    pub fn digests_of_tags_and_seals(
        &self,
        from: Digest,
        mut take: impl FnMut(&str, Digest) -> bool,
    ) -> Result<(), StoreError> {
        for sql in [
            "SELECT load, digest FROM tags WHERE digest >= ?1 ORDER BY digest",
            "SELECT load, seal FROM records WHERE seal >= ?1 ORDER BY seal",
        ] {
            self.ask(sql, |statement| {
                let mut rows = statement.query([from])?;
                while let Some(row) = rows.next()? {
                    if !take(row.get_ref(0)?.as_str()?, row.get(1)?) {
                        break;
                    }
                }
                Ok(())
            })?;
        }
        Ok(())
    }

    /// What each report is in its device's chain, with its load.
    pub fn each_movement_link(&self, mut take: impl FnMut(&str, ChainLink)) -> Result<(), StoreError> {
        self.ask("SELECT load, digest, device, before FROM movements ORDER BY load, digest", |statement| {
            let mut rows = statement.query([])?;
            while let Some(row) = rows.next()? {
                let link = ChainLink { digest: row.get(1)?, device: row.get(2)?, before: row.get(3)? };
                take(row.get_ref(0)?.as_str()?, link);
            }
            Ok(())
        })
    }

    /// The signed inspections of pieces, those of a piece next to each other and sorted by digest. Looks through the table itself, as
    /// `inspections_of_piece` does.
    pub fn each_inspection_of_pieces<E: From<StoreError>>(
        &self,
        mut take: impl FnMut(super::InspectionRow) -> Result<(), E>,
    ) -> Result<(), E> {
        let sql = "SELECT rowid FROM inspections NOT INDEXED WHERE subject = 'piece' ORDER BY name, digest";
        let places: Vec<i64> =
            self.ask(sql, |statement| statement.query_map([], |row| row.get(0))?.collect())?;
        for place in places {
            if let Some(row) = self.inspection_at(place)? {
                take(row)?;
            }
        }
        Ok(())
    }
}
