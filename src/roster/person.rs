//! What is known of a person.

use std::fmt;

use chrono::{Datelike, NaiveDate};
use serde::{Deserialize, Serialize};

/// When somebody was born: a date, or only the year.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum Born {
    /// The whole date.
    Date(NaiveDate),
    /// The year alone.
    Year(i32),
}

impl Born {
    /// The year of birth.
    pub fn year(self) -> i32 {
        match self {
            Self::Date(date) => date.year(),
            Self::Year(year) => year,
        }
    }

    /// The age reached in the calendar year of `day`, in years.
    ///
    /// Weightlifting's age groups count by calendar year of birth (IWF TCRR).
    pub fn age_in_year(self, day: NaiveDate) -> i32 {
        day.year() - self.year()
    }
}

impl fmt::Display for Born {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Date(date) => write!(f, "{date}"),
            Self::Year(year) => write!(f, "{year}"),
        }
    }
}

/// Splits a whole name into given and family name.
///
/// At a comma (`family, given`), else at its last space; a single word is the
/// family name.
pub fn split_name(name: &str) -> (String, String) {
    let name = name.trim();
    if let Some((family, given)) = name.split_once(',') {
        return (given.trim().to_owned(), family.trim().to_owned());
    }
    match name.rsplit_once(char::is_whitespace) {
        Some((given, family)) => (given.trim().to_owned(), family.trim().to_owned()),
        None => (String::new(), name.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_split_at_comma_or_last_space() {
        let split = |n| split_name(n);
        assert_eq!(split("Ann Marie Lee"), ("Ann Marie".into(), "Lee".into()));
        assert_eq!(split("van Dam, Piet"), ("Piet".into(), "van Dam".into()));
        assert_eq!(split("Oru"), (String::new(), "Oru".into()));
    }

    #[test]
    fn ages_count_by_calendar_year() {
        let day = NaiveDate::from_ymd_opt(2026, 11, 17).unwrap();
        assert_eq!(Born::Year(2010).age_in_year(day), 16);
        let born = NaiveDate::from_ymd_opt(2010, 12, 31).unwrap();
        assert_eq!(Born::Date(born).age_in_year(day), 16);
    }
}
