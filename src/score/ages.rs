//! Age factors, by which a score is multiplied where that is switched on.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use chrono::{Datelike, NaiveDate};
use serde::Deserialize;

use super::about::{Ages, Certainty, shipped};
use super::{Formula, NoScore};
use crate::rules::Sex;

/// A list of age factors.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct AgeFactors {
    /// Its name.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Whose scores it goes with.
    pub of: Ages,
    /// For whom.
    pub sexes: Vec<Sex>,
    /// The first year of days on which it holds; 0 where there is none.
    pub from: i32,
    /// The last year; 0 where there is none.
    pub until: i32,
    /// Where it was read.
    pub source: String,
    /// How sure that is.
    pub certainty: Certainty,
    /// What of it is from memory, as a sentence.
    pub memory: String,
    below: Option<f64>,
    #[serde(default)]
    like: String,
    #[serde(default)]
    factors: BTreeMap<String, f64>,
}

#[derive(Deserialize, Default)]
struct File {
    list: Vec<AgeFactors>,
}

/// The lists that are known.
pub fn age_lists() -> &'static [AgeFactors] {
    static FILE: OnceLock<File> = OnceLock::new();
    let file =
        FILE.get_or_init(|| shipped(include_str!("../../resources/scores/ages.toml")));
    &file.list
}

impl AgeFactors {
    /// Whose scores it goes with, in words.
    pub fn purpose(&self) -> String {
        let whose = match self.sexes.as_slice() {
            [Sex::F] => "women's ",
            [Sex::M] => "men's ",
            _ => "",
        };
        match self.of {
            Ages::Masters => format!("{whose}Sinclair totals"),
            Ages::Powerlifting => format!("{whose}DOTS, Wilks and IPF GL points"),
            Ages::None => String::new(),
        }
    }

    /// The list that goes with a formula on a day; `None` where none does.
    pub fn of(formula: Formula, sex: Sex, day: NaiveDate) -> Option<&'static Self> {
        let ages = formula.about().ages;
        if ages == Ages::None {
            return None;
        }
        let year = day.year();
        age_lists().iter().find(|list| {
            list.of == ages
                && list.sexes.contains(&sex)
                && list.from <= year
                && (list.until == 0 || year <= list.until)
        })
    }

    /// The list that the factors stand in.
    fn listed(&self) -> &BTreeMap<String, f64> {
        let like = age_lists().iter().find(|l| l.name == self.like);
        like.map_or(&self.factors, |list| &list.factors)
    }

    /// The factor of an age in years; 1 below the first age where the list says
    /// so.
    ///
    /// # Errors
    /// [`NoScore::Age`] for an age that has none.
    pub fn factor(&self, age: i32) -> Result<f64, NoScore> {
        if let Some(factor) = self.listed().get(&age.to_string()) {
            return Ok(*factor);
        }
        let first = self.ages().first().copied();
        match (self.below, first) {
            (Some(below), Some(first)) if age < first => Ok(below),
            _ => Err(NoScore::Age {
                age,
                known: self.known(),
            }),
        }
    }

    /// The ages that have a factor, rising.
    pub fn ages(&self) -> Vec<i32> {
        let ages = self.listed().keys();
        let mut ages: Vec<i32> = ages.filter_map(|age| age.parse().ok()).collect();
        ages.sort_unstable();
        ages
    }

    /// The same in words: `14 to 80, 85, 90`.
    pub fn known(&self) -> String {
        let ages = self.ages();
        let spans = ages.chunk_by(|a, b| a + 1 == *b).enumerate();
        let words: Vec<String> = spans
            .filter_map(|(i, span)| {
                let (first, last) = (span.first()?, span.last()?);
                Some(match (i, self.below) {
                    (0, Some(_)) => format!("up to {last}"),
                    _ if first == last => first.to_string(),
                    _ => format!("{first} to {last}"),
                })
            })
            .collect();
        words.join(", ")
    }
}

/// What a formula's score is multiplied by at an age: Meltzer-Faber or
/// Sinclair-Malone-Huebner-Faber for Sinclair totals, Foster and McCulloch for
/// DOTS, Wilks and IPF GL points; 1 in the years between. Never rounded.
///
/// Age in years is the day's year less the year of birth. Sources and what of
/// them is from memory stand in `resources/scores/ages.toml`.
///
/// # Errors
/// [`NoScore::Ages`] where no factors go with the formula, [`NoScore::Age`] where
/// the age has none.
pub fn age_factor(
    formula: Formula,
    sex: Sex,
    age: i32,
    day: NaiveDate,
) -> Result<f64, NoScore> {
    AgeFactors::of(formula, sex, day)
        .ok_or(NoScore::Ages(formula))?
        .factor(age)
}
