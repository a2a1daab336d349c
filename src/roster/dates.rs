//! Dates of birth, as rosters write them: read or refused, never guessed.

use chrono::NaiveDate;

use super::Born;
use super::columns::{ColumnError, Reading, bad};

impl Reading<'_> {
    /// Reads a birth: a date or a year, not after the day itself.
    ///
    /// # Errors
    /// [`ColumnError`], saying how a date is written; one that could be two
    /// days names both.
    pub(super) fn born(&self, text: &str) -> Result<Born, ColumnError> {
        let born = self.born_unchecked(text)?;
        let oldest = 1900;
        let future = match born {
            Born::Date(date) => date > self.today,
            Born::Year(year) => year > Born::Date(self.today).year(),
        };
        if future {
            return Err(bad(format!(
                "“{text}” lies after the day itself ({}); write the date of birth",
                self.today
            )));
        }
        if born.year() < oldest {
            return Err(bad(format!(
                "“{text}” is before {oldest}; write the date of birth"
            )));
        }
        Ok(born)
    }

    fn born_unchecked(&self, text: &str) -> Result<Born, ColumnError> {
        let form = || {
            bad(format!(
                "“{text}” is no date; write it as 2009-04-03, or only the year"
            ))
        };
        let parts: Vec<&str> = text.split(['-', '/', '.']).map(str::trim).collect();
        let numbers: Vec<u32> = parts
            .iter()
            .map(|p| p.parse::<u32>())
            .collect::<Result<_, _>>()
            .map_err(|_| form())?;
        let make = |y: u32, m: u32, d: u32| {
            i32::try_from(y)
                .ok()
                .and_then(|y| NaiveDate::from_ymd_opt(y, m, d))
                .map(Born::Date)
        };
        match (parts.as_slice(), numbers.as_slice()) {
            ([year], &[y]) if year.len() == 4 => {
                i32::try_from(y).map(Born::Year).map_err(|_| form())
            }
            ([year, _, _], &[y, m, d]) if year.len() == 4 => {
                make(y, m, d).ok_or_else(|| {
                    bad(format!(
                        "“{text}” is not a day of the calendar; write it as 2009-04-03"
                    ))
                })
            }
            ([_, _, year], &[a, b, y]) if year.len() == 4 => {
                self.two_ways(text, make(y, a, b), make(y, b, a), a == b)
            }
            _ => Err(form()),
        }
    }

    fn two_ways(
        &self,
        text: &str,
        month_first: Option<Born>,
        day_first: Option<Born>,
        same: bool,
    ) -> Result<Born, ColumnError> {
        let none = || {
            bad(format!(
                "“{text}” is not a day of the calendar; write it as 2009-04-03"
            ))
        };
        match self.month_first {
            Some(true) => month_first.ok_or_else(none),
            Some(false) => day_first.ok_or_else(none),
            None if same => month_first.ok_or_else(none),
            None => match (month_first, day_first) {
                (Some(m), Some(d)) => Err(bad(format!(
                    "“{text}” could be {m} or {d}; write it as {m}, or say --dates mdy or --dates dmy"
                ))),
                (Some(born), None) | (None, Some(born)) => Ok(born),
                (None, None) => Err(none()),
            },
        }
    }
}
