use std::fmt;
use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{DateTime, NaiveDate, NaiveDateTime, Utc};
use slingseal_catalogue::{Saying, faults as words};

/// A span of time in whole seconds; negative is back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Seconds(pub i64);

impl Seconds {
    /// So many hours.
    pub const fn hours(hours: i64) -> Self {
        Self(hours * 3_600)
    }

    /// So many days.
    pub const fn days(days: i64) -> Self {
        Self(days * 86_400)
    }
}

impl fmt::Display for Seconds {
    /// The two largest parts: `3 d 4 h`, `1 h 5 min`, `42 s`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let seconds = self.0.unsigned_abs();
        let (days, hours, minutes) = (seconds / 86_400, seconds / 3_600 % 24, seconds / 60 % 60);
        match (days, hours, minutes) {
            (0, 0, 0) => write!(f, "{} s", seconds),
            (0, 0, _) => write!(f, "{minutes} min"),
            (0, _, 0) => write!(f, "{hours} h"),
            (0, ..) => write!(f, "{hours} h {minutes} min"),
            (_, 0, _) => write!(f, "{days} d"),
            _ => write!(f, "{days} d {hours} h"),
        }
    }
}

/// Why a text is not a time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TimeError(pub String);

impl TimeError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        words::TimeError { text: &self.0 }.into()
    }
}

slingseal_catalogue::error_by_saying!(TimeError);

/// A moment, UTC, to the second.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Time(i64);

impl From<SystemTime> for Time {
    /// What a system's clock showed, to the second; before 1970 it is negative.
    fn from(shown: SystemTime) -> Self {
        let seconds = match shown.duration_since(UNIX_EPOCH) {
            Ok(since) => i64::try_from(since.as_secs()).unwrap_or(i64::MAX),
            Err(before) => -i64::try_from(before.duration().as_secs()).unwrap_or(i64::MAX),
        };
        Self::from_unix(seconds)
    }
}

impl Time {
    /// 0001-01-01 and 9999-12-31: between them every time has a four-digit year.
    const RANGE: std::ops::RangeInclusive<i64> = -62_135_596_800..=253_402_300_799;

    /// Seconds since 1970-01-01T00:00:00Z, brought into the years 1 to 9999.
    pub fn from_unix(seconds: i64) -> Self {
        Self(seconds.clamp(*Self::RANGE.start(), *Self::RANGE.end()))
    }

    /// Seconds since 1970-01-01T00:00:00Z.
    pub fn unix(self) -> i64 {
        self.0
    }

    /// This much later.
    pub fn plus(self, span: Seconds) -> Self {
        Self::from_unix(self.0.saturating_add(span.0))
    }

    /// How long after `earlier` this is.
    pub fn since(self, earlier: Self) -> Seconds {
        Seconds(self.0.saturating_sub(earlier.0))
    }

    /// Reads RFC 3339, a bare date (its midnight), or a date-time group.
    pub fn parse(text: &str) -> Result<Self, TimeError> {
        let text = text.trim();
        let error = || TimeError(text.to_owned());
        if let Ok(time) = DateTime::parse_from_rfc3339(text) {
            return Ok(Self::from_unix(time.timestamp()));
        }
        if let Ok(date) = NaiveDate::parse_from_str(text, "%Y-%m-%d") {
            return Ok(Self::from_unix(date.and_hms_opt(0, 0, 0).ok_or_else(error)?.and_utc().timestamp()));
        }
        // chrono wants the century; the group has two digits of the year.
        let (front, year) = text.rsplit_once(' ').ok_or_else(error)?;
        if year.len() != 2 {
            return Err(error());
        }
        NaiveDateTime::parse_from_str(&format!("{front} 20{year}"), "%d%H%MZ %b %Y")
            .map(|time| Self::from_unix(time.and_utc().timestamp()))
            .map_err(|_| error())
    }

    /// The date-time group of ACP 121: `091630Z JUL 26`.
    pub fn dtg(self) -> String {
        self.utc().format("%d%H%MZ %b %y").to_string().to_ascii_uppercase()
    }

    /// RFC 3339, to the second, with `Z`.
    pub fn rfc3339(self) -> String {
        self.utc().format("%Y-%m-%dT%H:%M:%SZ").to_string()
    }

    /// The date alone: `2026-07-09`.
    pub fn date(self) -> String {
        self.utc().format("%Y-%m-%d").to_string()
    }

    fn utc(self) -> DateTime<Utc> {
        DateTime::from_timestamp(self.0, 0).unwrap_or(DateTime::UNIX_EPOCH)
    }
}

impl fmt::Display for Time {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.rfc3339())
    }
}

#[cfg(test)]
mod tests {
    use super::{Seconds, Time};

    /// ACP 121's date-time group, as TRADE writes it; RFC 3339 §5.8 first example.
    #[test]
    fn both_ways_of_writing() {
        let time = Time::parse("2026-07-09T16:30:00Z").unwrap();
        assert_eq!(time.dtg(), "091630Z JUL 26");
        assert_eq!(Time::parse("091630Z JUL 26"), Ok(time));
        assert_eq!(Time::parse("2026-07-09T18:30:00+02:00"), Ok(time));
        assert_eq!(Time::parse("1985-04-12T23:20:50.52Z").unwrap().rfc3339(), "1985-04-12T23:20:50Z");
        assert_eq!(Time::parse("2026-07-09").unwrap().rfc3339(), "2026-07-09T00:00:00Z");
        for bad in ["", "yesterday", "311630Z FEB 26", "091630 JUL 26", "091630Z JUL 2026"] {
            assert!(Time::parse(bad).is_err(), "{bad}");
        }
        assert_eq!(Time::from_unix(i64::MAX).rfc3339(), "9999-12-31T23:59:59Z");
    }

    #[test]
    fn spans_read_well() {
        assert_eq!(Seconds(42).to_string(), "42 s");
        assert_eq!(Seconds(3_900).to_string(), "1 h 5 min");
        assert_eq!(Seconds::days(3).to_string(), "3 d");
    }
}
