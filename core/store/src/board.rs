//! What stands on the zone, and what is counted for a leader.

use std::collections::BTreeMap;

use slingseal_words::{Digest, Time};

use super::records::{RECORDS, WORDS, make};
use super::values::count_out;
use super::{Reader, RecordRow, StoreError};

/// How often a point was found deficient.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PointCount {
    /// The procedure's id.
    pub procedure: String,
    /// The point's id.
    pub point: String,
    /// In how many records.
    pub records: u64,
    /// What it was called, and how often, the commonest first.
    pub names: Vec<(String, u64)>,
    /// How many of them were put right.
    pub corrected: u64,
}

/// Records of a procedure, a rigger or an inspector, and in how many of them something was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupCount {
    /// Whose or which.
    pub key: String,
    /// How many records.
    pub records: u64,
    /// In how many something was found.
    pub with_findings: u64,
    /// How many deficiencies.
    pub found: u64,
    /// How many of them were put right.
    pub corrected: u64,
    /// How many said fit.
    pub fit: u64,
    /// When the last one was sealed.
    pub last: Time,
}

/// By what records are grouped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroupBy {
    /// The procedure.
    Procedure,
    /// Who built the load.
    Rigger,
    /// Who inspected it.
    Inspector,
}

/// Records counted by procedure, rigger, inspector and whether the full record is here.
pub struct Groups(Vec<([String; 3], bool, GroupCount)>);

impl Groups {
    /// In groups of one kind, by key; `whole` takes those alone whose full record is here.
    pub fn by(&self, by: GroupBy, whole: bool) -> Vec<GroupCount> {
        let mut counts: BTreeMap<&str, GroupCount> = BTreeMap::new();
        for ([procedure, rigger, inspector], _, count) in self.0.iter().filter(|(_, here, _)| *here || !whole)
        {
            let key = match by {
                GroupBy::Procedure => procedure,
                GroupBy::Rigger => rigger,
                GroupBy::Inspector => inspector,
            };
            match counts.get_mut(key.as_str()) {
                None => {
                    counts.insert(key, GroupCount { key: key.clone(), ..count.clone() });
                }
                Some(known) => {
                    known.records += count.records;
                    known.with_findings += count.with_findings;
                    known.found += count.found;
                    known.corrected += count.corrected;
                    known.fit += count.fit;
                    known.last = known.last.max(count.last);
                }
            }
        }
        counts.into_values().collect()
    }
}

/// Records of a stretch of time in groups, each as the view of the counts has it. Of all time the counts are kept.
const GROUPS_SINCE: &str = "
    SELECT procedure, rigger, inspector, device IS NOT NULL, count(*), sum(found > 0), sum(found), sum(corrected),
        sum(outcome = 'fit'), max(issued)
    FROM records WHERE issued >= ?1 AND issued < ?2 AND standing <> 'no_inspection'
    GROUP BY 1, 2, 3, 4 ORDER BY 1, 2, 3, 4";
pub(super) const GROUPS_OF_ALL_TIME: &str = "
    SELECT procedure, rigger, inspector, whole, records, with_findings, found, corrected, fit, last
    FROM record_counts WHERE ?1 = ?1 AND ?2 = ?2 ORDER BY 1, 2, 3, 4";

/// Deficiencies by what they were called, of the records of a stretch of time.
const NAMES_SINCE: &str = "
    SELECT d.procedure, d.point, d.name, count(*) AS times, sum(d.corrected)
    FROM records CROSS JOIN deficiencies AS d ON d.record = records.id
    WHERE records.issued >= ?1 AND records.issued < ?2
    GROUP BY d.procedure, d.point, d.name ORDER BY d.procedure, d.point, times DESC, d.name";
pub(super) const NAMES_OF_ALL_TIME: &str = "
    SELECT procedure, point, name, sum(found) AS times, sum(corrected) FROM deficiency_counts WHERE ?1 = ?1 AND ?2 = ?2
    GROUP BY procedure, point, name ORDER BY procedure, point, times DESC, name";

/// In how many records a point is deficient: one that has several deficiencies in one record is counted once for it.
const POINT_SINCE: &str = "
    SELECT count(DISTINCT d.record) FROM records CROSS JOIN deficiencies AS d ON d.record = records.id
    WHERE records.issued >= ?1 AND records.issued < ?2 AND d.procedure = ?3 AND d.point = ?4";
pub(super) const POINT_OF_ALL_TIME: &str = "SELECT coalesce(sum(records), 0) FROM point_counts WHERE ?1 = ?1 AND ?2 = ?2 AND procedure = ?3 AND point = ?4";

/// Where a stretch of time begins and ends, open where nothing is told.
fn ends(since: Option<Time>, before: Option<Time>) -> (i64, i64) {
    (since.map_or(i64::MIN, Time::unix), before.map_or(i64::MAX, Time::unix))
}

impl Reader<'_> {
    /// A record's columns with the words of its load.
    pub fn record_with_words(&self, seal: Digest) -> Result<Option<(RecordRow, String)>, StoreError> {
        self.row(&RECORDS, "WHERE seal = ?1", [seal], |row| Ok((make(row)?, row.get::<_, String>(WORDS)?)))
    }

    /// Deficiencies by point, of the records sealed from one time and before another, the commonest first.
    pub fn point_counts(
        &self,
        since: Option<Time>,
        before: Option<Time>,
    ) -> Result<Vec<PointCount>, StoreError> {
        let (names, point_records) = match (since, before) {
            (None, None) => (NAMES_OF_ALL_TIME, POINT_OF_ALL_TIME),
            _ => (NAMES_SINCE, POINT_SINCE),
        };
        let (since, before) = ends(since, before);
        let mut points: Vec<PointCount> = Vec::new();
        let rows: Vec<(String, String, String, u64, u64)> = self.ask(names, |statement| {
            let found = statement.query_map([since, before], |row| {
                Ok((row.get(0)?, row.get(1)?, row.get(2)?, count_out(row, 3)?, count_out(row, 4)?))
            })?;
            found.collect()
        })?;
        for (procedure, point, name, found, corrected) in rows {
            match points.last_mut().filter(|last| last.procedure == procedure && last.point == point) {
                Some(last) => {
                    last.names.push((name, found));
                    last.corrected += corrected;
                }
                None => {
                    let names = vec![(name, found)];
                    points.push(PointCount { procedure, point, records: 0, names, corrected });
                }
            }
        }
        for point in &mut points {
            point.records = match point.names.as_slice() {
                [(_, found)] => *found,
                _ => self.count(point_records, (since, before, &point.procedure, &point.point))?,
            };
        }
        points.sort_by_key(|point| std::cmp::Reverse(point.records));
        Ok(points)
    }

    /// Records sealed from one time and before another, in groups: one look, whatever is asked of it.
    pub fn groups(&self, since: Option<Time>, before: Option<Time>) -> Result<Groups, StoreError> {
        let sql = match (since, before) {
            (None, None) => GROUPS_OF_ALL_TIME,
            _ => GROUPS_SINCE,
        };
        let (since, before) = ends(since, before);
        let groups = self.ask(sql, |statement| {
            let rows = statement.query_map([since, before], |row| {
                let count = GroupCount {
                    key: String::new(),
                    records: count_out(row, 4)?,
                    with_findings: count_out(row, 5)?,
                    found: count_out(row, 6)?,
                    corrected: count_out(row, 7)?,
                    fit: count_out(row, 8)?,
                    last: row.get(9)?,
                };
                Ok(([row.get(0)?, row.get(1)?, row.get(2)?], row.get(3)?, count))
            })?;
            rows.collect()
        })?;
        Ok(Groups(groups))
    }

    /// Whole records, sealed since some time, of loads and tags that more than one person inspected.
    pub fn looked_at_twice(&self, since: Option<Time>) -> Result<Vec<RecordRow>, StoreError> {
        let rest =
            "WHERE issued >= ?1 AND device IS NOT NULL AND standing <> 'no_inspection' AND (load, tag) IN
            (SELECT load, tag FROM records WHERE device IS NOT NULL AND standing <> 'no_inspection'
             GROUP BY load, tag HAVING count(DISTINCT inspector) > 1)";
        self.rows(&RECORDS, rest, [since.map_or(i64::MIN, Time::unix)], make)
    }

    /// Every record in the order of sealing, ties by digest: the same records in the same order on every device. Flat in
    /// memory.
    pub fn each_in_order<E: From<StoreError>>(
        &self,
        take: impl FnMut(RecordRow) -> Result<(), E>,
    ) -> Result<(), E> {
        let rest = "WHERE standing <> 'no_inspection' ORDER BY issued, digest, seal";
        self.each(&RECORDS, rest, [], make, take)
    }
}
