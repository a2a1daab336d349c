//! Points in time, as they come in from outside.

use std::fmt;

use chrono::{
    DateTime, FixedOffset, NaiveDate, NaiveDateTime, NaiveTime, TimeZone, Timelike,
};
use serde::{Deserialize, Serialize};

/// A point in time with its offset from UTC.
///
/// Never read from a clock in the core: it comes in with every command.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// Milliseconds since 1970-01-01 00:00 UTC.
    pub ms: i64,
    /// Minutes east of UTC.
    pub offset: i16,
    /// Whether the time isn't known well enough to judge a deadline by it.
    pub loose: bool,
}

impl Stamp {
    /// A stamp from a date and time with its offset.
    pub fn from_datetime(time: DateTime<FixedOffset>) -> Self {
        Self {
            ms: time.timestamp_millis(),
            offset: i16::try_from(time.offset().local_minus_utc() / 60).unwrap_or(0),
            loose: false,
        }
    }

    /// The same stamp, not to be judged for deadlines.
    #[must_use]
    pub const fn loosely(mut self) -> Self {
        self.loose = true;
        self
    }

    /// Date and time where the stamp was taken.
    pub fn local(self) -> NaiveDateTime {
        let offset = FixedOffset::east_opt(i32::from(self.offset) * 60);
        let utc = DateTime::from_timestamp_millis(self.ms).unwrap_or_default();
        match offset {
            Some(offset) => utc.with_timezone(&offset).naive_local(),
            None => utc.naive_utc(),
        }
    }

    /// Hours and minutes where the stamp was taken, `09:05`.
    pub fn clock_time(self) -> String {
        self.local().format("%H:%M").to_string()
    }

    /// Milliseconds from `earlier` to this stamp.
    pub const fn since(self, earlier: Self) -> i64 {
        self.ms.saturating_sub(earlier.ms)
    }

    /// This stamp moved by `ms` milliseconds.
    #[must_use]
    pub const fn plus_ms(mut self, ms: i64) -> Self {
        self.ms = self.ms.saturating_add(ms);
        self
    }

    /// Reads `2026-11-17T09:05:30`, `09:05:30` or `09:05`, with an optional
    /// offset (`-06:00`, `Z`) and an optional `~` at its end.
    ///
    /// A bare time is on `date`; a missing offset is `offset` minutes.
    pub fn parse(text: &str, date: NaiveDate, offset: i16) -> Option<Self> {
        let text = text.trim();
        let (text, loose) = match text.strip_suffix('~') {
            Some(rest) => (rest.trim_end(), true),
            None => (text, false),
        };
        let stamp =
            if let Ok(full) = DateTime::parse_from_rfc3339(&text.replace(' ', "T")) {
                Self::from_datetime(full)
            } else {
                let naive = parse_naive(text, date)?;
                let zone = FixedOffset::east_opt(i32::from(offset) * 60)?;
                Self::from_datetime(zone.from_local_datetime(&naive).single()?)
            };
        Some(Self { loose, ..stamp })
    }
}

fn parse_naive(text: &str, date: NaiveDate) -> Option<NaiveDateTime> {
    for form in [
        "%Y-%m-%dT%H:%M:%S%.f",
        "%Y-%m-%d %H:%M:%S%.f",
        "%Y-%m-%dT%H:%M",
        "%Y-%m-%d %H:%M",
    ] {
        if let Ok(naive) = NaiveDateTime::parse_from_str(text, form) {
            return Some(naive);
        }
    }
    for form in ["%H:%M:%S%.f", "%H:%M"] {
        if let Ok(time) = NaiveTime::parse_from_str(text, form) {
            return Some(date.and_time(time));
        }
    }
    None
}

impl fmt::Display for Stamp {
    /// Writes the form that [`Stamp::parse`] reads back exactly.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let local = self.local();
        write!(f, "{}", local.format("%Y-%m-%dT%H:%M:%S"))?;
        let ms = local.nanosecond() / 1_000_000;
        if ms > 0 {
            write!(f, ".{ms:03}")?;
        }
        let sign = if self.offset < 0 { '-' } else { '+' };
        let abs = self.offset.unsigned_abs();
        write!(f, "{sign}{:02}:{:02}", abs / 60, abs % 60)?;
        if self.loose { write!(f, "~") } else { Ok(()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prints_and_reads_back() {
        let date = NaiveDate::from_ymd_opt(2026, 11, 17).unwrap();
        for text in [
            "2026-11-17T09:05:30-06:00",
            "2026-11-17T09:05:30.250+00:00~",
        ] {
            assert_eq!(Stamp::parse(text, date, 0).unwrap().to_string(), text);
        }
        let bare = Stamp::parse("09:05", date, -360).unwrap();
        assert_eq!(bare.to_string(), "2026-11-17T09:05:00-06:00");
        assert_eq!(bare.clock_time(), "09:05");
        assert!(Stamp::parse("9 o'clock", date, 0).is_none());
    }
}
