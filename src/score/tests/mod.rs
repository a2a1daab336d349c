//! The formulas against published tables and worked examples.

mod bounds;
mod library;
mod monotone;
mod published;
mod repetitions;

use chrono::NaiveDate;

use super::*;
use crate::measure::{Mass, Unit};
use crate::rules::Sex;

/// A mass in kg.
pub(super) fn kg(text: &str) -> Mass {
    Mass::parse(text, Unit::Kg).unwrap()
}

/// The first of July of a year.
pub(super) fn in_year(year: i32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, 7, 1).unwrap()
}

/// A total of somebody on a day in 2022.
pub(super) fn total(sex: Sex, bodyweight: &str, load: &str) -> Lifted<'static> {
    Lifted {
        sex: Some(sex),
        bodyweight: Some(kg(bodyweight)),
        load: Mass::parse(load, Unit::Kg).unwrap(),
        event: Event::Total,
        day: in_year(2022),
        age: None,
        category: None,
    }
}

/// A total's score by a formula with the usual choices.
#[track_caller]
pub(super) fn of(formula: Formula, sex: Sex, bodyweight: &str, load: &str) -> Score {
    let scoring = Scoring::new(formula);
    scoring.score(&total(sex, bodyweight, load)).unwrap()
}

/// Asserts a number to so many decimals.
#[track_caller]
pub(super) fn same(found: f64, published: &str) {
    let decimals = published.split_once('.').map_or(0, |(_, d)| d.len());
    assert_eq!(format!("{found:.decimals$}"), published);
}
