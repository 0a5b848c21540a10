//! Shares by week: whether more is found than some weeks ago, and how sure that is.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::leader::day_of;
use crate::{App, AppError, ShareView, Stamp};
use slingseal_account::report::Share;
use slingseal_words::{Seconds, Time};

/// The most weeks that are told at once: ten years.
const MOST: i64 = 522;
/// The weeks that are told where no day is named.
const USUAL: i64 = 26;
/// A week, in seconds.
const WEEK: i64 = 7 * 86_400;
/// The first Monday of the time that is counted in, 5 January 1970.
const MONDAY: i64 = 4 * 86_400;

/// From a day to a day, UTC, both of them within.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Period {
    pub(crate) from: Option<Time>,
    /// The beginning of the day after the last.
    pub(crate) before: Option<Time>,
}

impl Period {
    /// # Errors
    /// What is no day; a last day before the first.
    pub(crate) fn of(from: Option<&str>, until: Option<&str>) -> Result<Self, AppError> {
        let day = |text: Option<&str>| day_of(text.map(str::to_owned).as_ref());
        let (from, until) = (day(from)?, day(until)?);
        let period = Self { from: from.map(|(begins, _)| begins), before: until.map(|(_, ends)| ends) };
        if period.from.zip(period.before).is_some_and(|(from, before)| before <= from) {
            return Err(AppError::bad_input(words::LastDayBeforeFirst));
        }
        Ok(period)
    }
}

/// Which weeks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WeeksRequest {
    /// The first day, UTC: `2026-11-25`; half a year before the last where none is named.
    pub from: Option<String>,
    /// The last day; today where none is named.
    pub until: Option<String>,
    /// Of this procedure alone, by its id.
    pub procedure: Option<String>,
}

/// One week, Monday to Sunday by UTC (ISO 8601).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WeekShare {
    /// Its Monday.
    pub monday: Stamp,
    /// The first day of it that is counted, as a date: the Monday, or the first day that was asked for.
    pub first: String,
    /// The last day that is counted.
    pub last: String,
    /// Inspections in which something was found, among those sealed in it.
    pub share: ShareView,
}

impl App {
    /// Week by week, in how many inspections something was found, with its 95 % interval (Wilson). A week without an
    /// inspection is there all the same. Every inspection counts, also one that was superseded or voided: somebody looked.
    ///
    /// # Errors
    /// What is no day; a last day before the first; more than ten years; storage.
    pub fn weeks(&self, request: &WeeksRequest) -> Result<Vec<WeekShare>, AppError> {
        let inner = self.lock();
        let period = Period::of(request.from.as_deref(), request.until.as_deref())?;
        let before = period.before.unwrap_or_else(|| inner.now().plus(Seconds(1)));
        let last = week_of(before.plus(Seconds(-1)));
        let from = period.from.unwrap_or_else(|| monday(last - (USUAL - 1)));
        let first = week_of(from);
        if first > last {
            return Err(AppError::bad_input(words::LastDayBeforeFirst));
        }
        if last - first >= MOST {
            return Err(AppError::bad_input(words::MoreWeeksThanTold { most: MOST }));
        }
        let counts = inner.store.read().weeks(from, before, request.procedure.as_deref())?;
        let week = |number: i64| {
            let found = counts.iter().find(|count| week_of(count.monday) == number);
            let share =
                found.map_or(Share::new(0, 0), |count| Share::new(count.with_findings, count.records));
            WeekShare {
                monday: monday(number).into(),
                first: monday(number).max(from).date(),
                last: monday(number + 1).min(before).plus(Seconds(-1)).date(),
                share: share.into(),
            }
        };
        Ok((first..=last).map(week).collect())
    }
}

/// Which week a time is in, counted from the first Monday.
fn week_of(time: Time) -> i64 {
    (time.unix() - MONDAY).div_euclid(WEEK)
}

fn monday(week: i64) -> Time {
    Time::from_unix(week * WEEK + MONDAY)
}

#[cfg(test)]
mod tests {
    use super::{Period, monday, week_of};
    use slingseal_words::Time;

    #[test]
    fn a_week_begins_on_a_monday() {
        // ISO 8601: the first week of 2026 begins on 29 December 2025, a Monday.
        for (day, begins) in [
            ("2025-12-28", "2025-12-22"),
            ("2025-12-29", "2025-12-29"),
            ("2026-01-01", "2025-12-29"),
            ("2026-01-04", "2025-12-29"),
            ("2026-01-05", "2026-01-05"),
            ("1970-01-01", "1969-12-29"),
        ] {
            assert_eq!(monday(week_of(Time::parse(day).unwrap())).date(), begins, "{day}");
        }
    }

    #[test]
    fn a_period_holds_both_its_days() {
        let period = Period::of(Some("2026-11-02"), Some("2026-11-02")).unwrap();
        assert_eq!(period.before.unwrap().since(period.from.unwrap()).0, 86_400);
        for (from, until) in
            [("2026-11-03", "2026-11-02"), ("yesterday", "2026-11-02"), ("2026-13-01", "2026-11-02")]
        {
            assert!(Period::of(Some(from), Some(until)).is_err(), "{from} {until}");
        }
    }
}
