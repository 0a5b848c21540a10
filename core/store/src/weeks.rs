//! Counts by week.

use crate::values::count_out;
use crate::{Reader, StoreError};
use slingseal_words::Time;

/// Records of one week.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WeekCount {
    /// The Monday that it begins with.
    pub monday: Time,
    /// Records sealed in it.
    pub records: u64,
    /// Those of them in which something was found.
    pub with_findings: u64,
}

impl Reader<'_> {
    /// Records by week, Monday to Sunday by UTC, of those sealed from one time and before another; weeks without one are
    /// left out.
    ///
    /// # Errors
    /// The file.
    pub fn weeks(
        &self,
        from: Time,
        before: Time,
        procedure: Option<&str>,
    ) -> Result<Vec<WeekCount>, StoreError> {
        // 345,600 is the first Monday, 5 January 1970; what is older than that is of no device.
        let sql =
            "SELECT (issued - 345600) / 604800 * 604800 + 345600, count(*), count(*) FILTER (WHERE found > 0)
             FROM records WHERE issued >= ?1 AND issued < ?2 AND (?3 IS NULL OR procedure = ?3)
             AND standing <> 'no_inspection' GROUP BY 1 ORDER BY 1";
        self.ask(sql, |statement| {
            let found = statement.query_map((from, before, procedure), |row| {
                Ok(WeekCount {
                    monday: row.get(0)?,
                    records: count_out(row, 1)?,
                    with_findings: count_out(row, 2)?,
                })
            })?;
            found.collect()
        })
    }
}
