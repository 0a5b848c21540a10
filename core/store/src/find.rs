//! Lists and counts over the records.

use rusqlite::ToSql;

use slingseal_words::Time;

use super::records::{RECORDS, make_with_id};
use super::values::count_out;
use super::{Outcome, Reader, RecordBytes, RecordRow, Standing, StoreError};

/// Which records. Every part that is given must fit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RecordFilter {
    /// The load number.
    pub load: Option<String>,
    /// The procedure's id.
    pub procedure: Option<String>,
    /// Who decided.
    pub inspector: Option<String>,
    /// Who built the load.
    pub rigger: Option<String>,
    /// The pickup zone.
    pub place: Option<String>,
    /// What was decided.
    pub outcome: Option<Outcome>,
    /// Whether it still counts.
    pub standing: Option<Standing>,
    /// Valid at this time.
    pub valid_at: Option<Time>,
    /// Past its validity at this time.
    pub expired_at: Option<Time>,
    /// Sealed at this time or later.
    pub issued_from: Option<Time>,
    /// Sealed before this time.
    pub issued_before: Option<Time>,
    /// Names a piece of equipment with this serial number.
    pub serial: Option<String>,
    /// Beginnings of words that all occur in it, in any order.
    pub words: Option<String>,
}

/// Where a page ended; to be given back for the next one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cursor {
    /// When the last record was sealed.
    pub issued: Time,
    /// The last record's place in the file.
    pub id: i64,
}

/// By which column a list of records is ordered. Each has an index that ends in the time of sealing and the record's place: a page
/// costs the rows that it shows, however many there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RecordColumn {
    /// When it was sealed.
    Sealed,
    /// The load number.
    Load,
    /// Who decided.
    Inspector,
    /// Who built the load.
    Rigger,
    /// The pickup zone.
    Place,
}

impl RecordColumn {
    /// The column in front of the time of sealing; none for that time itself.
    fn name(self) -> Option<&'static str> {
        match self {
            Self::Sealed => None,
            Self::Load => Some("load"),
            Self::Inspector => Some("inspector"),
            Self::Rigger => Some("rigger"),
            Self::Place => Some("place"),
        }
    }
}

/// Some records, and where the next ones begin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordPage {
    /// The records.
    pub rows: Vec<RecordRow>,
    /// `None` where these were the last.
    pub next: Option<Cursor>,
}

/// A deficiency and how often it was met.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeficiencyCount {
    /// The procedure's id.
    pub procedure: String,
    /// The point's id.
    pub point: String,
    /// The deficiency's name.
    pub name: String,
    /// Who built the loads.
    pub rigger: String,
    /// How often it was found.
    pub found: u64,
    /// How often it was put right.
    pub corrected: u64,
}

/// How many records there are of a procedure and a rigger: what deficiencies are counted against.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InspectionCount {
    /// The procedure's id.
    pub procedure: String,
    /// Who built the loads.
    pub rigger: String,
    /// How many records.
    pub records: u64,
}

/// A piece of equipment and where it was used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EquipmentUse {
    /// The serial number.
    pub serial: String,
    /// What it is.
    pub kind: String,
    /// How many records name it.
    pub records: u64,
    /// When a load with it was last sealed.
    pub last: Time,
}

/// Conditions and what is bound to them.
#[derive(Default)]
pub(super) struct Where<'f> {
    parts: Vec<String>,
    bound: Vec<Box<dyn ToSql + 'f>>,
}

impl<'f> Where<'f> {
    /// Adds a condition whose `?` becomes the number of the value.
    fn add(&mut self, condition: &str, value: impl ToSql + 'f) {
        self.bound.push(Box::new(value));
        self.parts.push(condition.replace('?', &format!("?{}", self.bound.len())));
    }

    fn text(&self) -> String {
        if self.parts.is_empty() { String::new() } else { format!("WHERE {}", self.parts.join(" AND ")) }
    }

    pub(super) fn params(&self) -> Vec<&dyn ToSql> {
        self.bound.iter().map(AsRef::as_ref).collect()
    }
}

impl RecordFilter {
    pub(super) fn conditions(&self) -> Where<'_> {
        let mut all = Where::default();
        // Evidence of somebody who might not inspect stands in no list of inspections.
        all.parts.push("standing <> 'no_inspection'".into());
        let texts = [
            ("load = ?", &self.load),
            ("procedure = ?", &self.procedure),
            ("inspector = ?", &self.inspector),
            ("rigger = ?", &self.rigger),
            ("place = ?", &self.place),
            ("records.id IN (SELECT record FROM equipment WHERE serial = ?)", &self.serial),
        ];
        for (condition, value) in texts {
            if let Some(value) = value {
                all.add(condition, value);
            }
        }
        if let Some(outcome) = self.outcome {
            all.add("outcome = ?", outcome);
        }
        if let Some(standing) = self.standing {
            all.add("standing = ?", standing);
        }
        let times = [
            ("valid_until >= ?", self.valid_at),
            ("valid_until < ?", self.expired_at),
            ("issued >= ?", self.issued_from),
            ("issued < ?", self.issued_before),
        ];
        for (condition, value) in times {
            if let Some(value) = value {
                all.add(condition, value);
            }
        }
        all
    }
}

/// Conditions, where a page goes on, and the order of its column.
pub(super) fn in_order(
    all: &mut Where<'_>,
    (column, down): (RecordColumn, bool),
    after: Option<Cursor>,
) -> String {
    let (name, beyond, way) =
        (column.name(), if down { "<" } else { ">" }, if down { "DESC" } else { "ASC" });
    if let Some(after) = after {
        all.bound.extend([Box::new(after.issued) as Box<dyn ToSql>, Box::new(after.id)]);
        let (issued, id) = (all.bound.len() - 1, all.bound.len());
        // What the last row had in the column is read of it: an address then holds no words of anybody.
        all.parts.push(match name {
            None => format!("(issued, records.id) {beyond} (?{issued}, ?{id})"),
            Some(name) => {
                let last = format!("(SELECT {name} FROM records WHERE id = ?{id})");
                format!("({name}, issued, records.id) {beyond} ({last}, ?{issued}, ?{id})")
            }
        });
    }
    let by = name.map(|name| format!("{name} {way}, ")).unwrap_or_default();
    format!("{} ORDER BY {by}issued {way}, records.id {way}", all.text())
}

impl Reader<'_> {
    /// A page of records: the last sealed first, or, where words are asked for, the last received first.
    pub fn records(
        &self,
        filter: &RecordFilter,
        after: Option<Cursor>,
        most: u32,
    ) -> Result<RecordPage, StoreError> {
        self.records_by(filter, (RecordColumn::Sealed, true), after, most)
    }

    /// The same by a column, `true` for the largest first. Where words are asked for, the last received come first whatever the
    /// column. With a filter any column but the time of sealing may read all that the filter leaves out.
    pub fn records_by(
        &self,
        filter: &RecordFilter,
        order: (RecordColumn, bool),
        after: Option<Cursor>,
        most: u32,
    ) -> Result<RecordPage, StoreError> {
        let mut all = filter.conditions();
        let asked = filter.words.as_deref().filter(|words| !words.trim().is_empty());
        let rest = match asked.map(|words| self.question(words)).transpose()? {
            Some(None) => return Ok(RecordPage { rows: Vec::new(), next: None }),
            Some(Some(question)) => {
                all.add("record_words MATCH ?", question);
                if let Some(after) = after {
                    all.add("record_words.rowid < ?", after.id);
                }
                // CROSS keeps the order of the join: the words first, already in the order that is wanted.
                let join = "ON records.id = record_words.rowid";
                format!("{join} {} ORDER BY record_words.rowid DESC", all.text())
            }
            None => in_order(&mut all, order, after),
        };
        let select = RECORDS.select(&format!("{rest} LIMIT {}", u64::from(most) + 1));
        let sql = match asked {
            Some(_) => select.replacen("FROM records ON", "FROM record_words CROSS JOIN records ON", 1),
            None => select,
        };
        let rows: Vec<(i64, Result<RecordRow, StoreError>)> = self.ask(&sql, |statement| {
            let found = statement.query_map(all.params().as_slice(), |row| {
                let (id, made) = make_with_id(row)?;
                Ok((id, RECORDS.whole(row).map(|()| made)))
            })?;
            found.collect()
        })?;
        let rows: Result<Vec<(i64, RecordRow)>, StoreError> =
            rows.into_iter().map(|(id, row)| Ok((id, row?))).collect();
        let mut rows = self.noting(rows)?;
        let more = rows.len() > most as usize;
        rows.truncate(most as usize);
        let last = rows.last().map(|(id, row)| Cursor { issued: row.issued, id: *id });
        let next = last.filter(|_| more);
        Ok(RecordPage { rows: rows.into_iter().map(|(_, row)| row).collect(), next })
    }

    /// Every record of a filter with its bytes, page by page: for exports and bundles, in flat memory.
    pub fn each_record<E: From<StoreError>>(
        &self,
        filter: &RecordFilter,
        mut take: impl FnMut(RecordRow, RecordBytes) -> Result<(), E>,
    ) -> Result<(), E> {
        let mut after = None;
        loop {
            let page = self.records(filter, after, 256)?;
            for row in page.rows {
                let missing =
                    || StoreError::Damaged { what: format!("record {} has no bytes", row.seal.short()) };
                let bytes = self.record_bytes(row.seal)?.ok_or_else(missing)?;
                take(row, bytes)?;
            }
            after = page.next;
            if after.is_none() {
                return Ok(());
            }
        }
    }

    /// How many records there are.
    pub fn count_records(&self) -> Result<u64, StoreError> {
        self.count("SELECT count(*) FROM records WHERE standing <> 'no_inspection'", [])
    }

    /// Deficiencies by procedure, point, name and rigger, the commonest first.
    pub fn deficiency_counts(&self) -> Result<Vec<DeficiencyCount>, StoreError> {
        let sql = "SELECT procedure, point, name, rigger, found, corrected FROM deficiency_counts
                   ORDER BY found DESC, procedure, point, name, rigger";
        self.ask(sql, |statement| {
            statement
                .query_map([], |row| {
                    Ok(DeficiencyCount {
                        procedure: row.get(0)?,
                        point: row.get(1)?,
                        name: row.get(2)?,
                        rigger: row.get(3)?,
                        found: count_out(row, 4)?,
                        corrected: count_out(row, 5)?,
                    })
                })?
                .collect()
        })
    }

    /// How many records there are of each procedure and rigger.
    pub fn inspection_counts(&self) -> Result<Vec<InspectionCount>, StoreError> {
        let sql = "SELECT procedure, rigger, sum(records) FROM record_counts
                   GROUP BY procedure, rigger ORDER BY procedure, rigger";
        self.ask(sql, |statement| {
            statement
                .query_map([], |row| {
                    Ok(InspectionCount {
                        procedure: row.get(0)?,
                        rigger: row.get(1)?,
                        records: count_out(row, 2)?,
                    })
                })?
                .collect()
        })
    }

    /// Equipment by serial number and kind, from the serial number `from` on.
    pub fn equipment_uses(&self, from: &str, most: u32) -> Result<Vec<EquipmentUse>, StoreError> {
        let sql = "SELECT serial, kind, records, last FROM equipment_counts
                   WHERE serial >= ?1 ORDER BY serial, kind LIMIT ?2";
        self.ask(sql, |statement| {
            statement
                .query_map((from, most), |row| {
                    Ok(EquipmentUse {
                        serial: row.get(0)?,
                        kind: row.get(1)?,
                        records: count_out(row, 2)?,
                        last: row.get(3)?,
                    })
                })?
                .collect()
        })
    }
}
