//! Robi points, and the table of records that they go by.

use std::sync::OnceLock;

use serde::Deserialize;

use super::about::{About, shipped};
use crate::measure::{Mass, Unit};
use crate::rules::{ClassTotal, Sex};

/// Robi points: `1000 (total / record)^b` with b = log2 10, so that half the
/// record is 100 points; no unit.
///
/// Source: Czech weightlifting federation's page on Robi points. The record is
/// that of the athlete's bodyweight category, and above 0; bodyweight inside the
/// category doesn't matter. Rising in the total. Shown to 2 decimals, as the
/// source does.
pub fn robi(total: Mass, record: Mass) -> f64 {
    let constants = &file().constants;
    // As with the ratio, equal shares of a record give the same number.
    let share = total.kg_f64() * 1e11 / (record.kg_f64() * 1e11);
    constants.most * libm::pow(share, constants.exponent)
}

#[derive(Deserialize, Default)]
struct File {
    about: About,
    constants: Constants,
}

#[derive(Deserialize, Default)]
struct Constants {
    most: f64,
    exponent: f64,
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| shipped(include_str!("../../resources/scores/robi.toml")))
}

pub(super) fn about() -> &'static About {
    &file().about
}

/// A table of record totals by sex and bodyweight category, as a coach keeps it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ClassRecords {
    classes: Vec<ClassRecord>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
struct ClassRecord {
    sex: Sex,
    label: String,
    /// The heaviest bodyweight in it; `None` where it has no limit.
    limit: Option<Mass>,
    record: Mass,
}

/// Why a row is no record.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RecordError {
    /// Not a sex.
    #[error("“{0}” is no sex; write F or M")]
    Sex(String),
    /// Not a category.
    #[error(
        "“{0}” is no category; write its limit such as 63, or +87 for the one without"
    )]
    Category(String),
    /// Not a record.
    #[error("“{0}” is no record total; write a load above 0 such as 215 or 470 lb")]
    Record(String),
    /// A category twice.
    #[error("{0} stands here twice; write each category once")]
    Twice(String),
    /// The file isn't in shape.
    #[error("the table isn't in shape: {0}")]
    Shape(String),
    /// Nothing in it.
    #[error("the table has no record; write one a category")]
    Empty,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    #[serde(default = "kilograms")]
    unit: Unit,
    #[serde(default)]
    class: Vec<Row>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    sex: String,
    category: toml::Value,
    record: toml::Value,
}

const fn kilograms() -> Unit {
    Unit::Kg
}

fn written(value: &toml::Value) -> String {
    match value {
        toml::Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

impl ClassRecords {
    /// Reads a TOML table: `unit` (kg if not given), then `[[class]]` with `sex`,
    /// `category` and `record`.
    ///
    /// ```
    /// use maxday::score::ClassRecords;
    /// let text = "[[class]]\nsex = \"F\"\ncategory = 63\nrecord = 215.5";
    /// assert_eq!(ClassRecords::read(text).unwrap().len(), 1);
    /// ```
    ///
    /// # Errors
    /// [`RecordError`], for the first that is wrong.
    pub fn read(text: &str) -> Result<Self, RecordError> {
        let table: Table = toml::from_str(text).map_err(|e| {
            RecordError::Shape(e.message().trim_end_matches('.').to_owned())
        })?;
        let mut own = Self::default();
        for row in &table.class {
            let (category, record) = (written(&row.category), written(&row.record));
            own.add(&row.sex, &category, &record, table.unit)?;
        }
        if own.is_empty() {
            return Err(RecordError::Empty);
        }
        Ok(own)
    }

    /// The records of a day's rules; `None` where there are none.
    pub fn listed(rows: &[ClassTotal]) -> Option<Self> {
        let mut own = Self::default();
        for row in rows {
            own.add(row.sex.letter(), &row.category, &row.record, row.unit)
                .ok()?;
        }
        (!own.is_empty()).then_some(own)
    }

    /// Adds a record; plain numbers are in `unit`.
    ///
    /// # Errors
    /// [`RecordError`], naming what is wrong.
    pub fn add(
        &mut self,
        sex: &str,
        category: &str,
        record: &str,
        unit: Unit,
    ) -> Result<(), RecordError> {
        let sex = Sex::parse(sex).ok_or_else(|| RecordError::Sex(sex.to_owned()))?;
        let label = plain(category);
        let number = label.trim_start_matches('+');
        let limit = Mass::parse(number, unit)
            .ok()
            .filter(|m| *m > Mass::ZERO)
            .ok_or_else(|| RecordError::Category(category.to_owned()))?;
        let record = Mass::parse(record, unit)
            .ok()
            .filter(|m| *m > Mass::ZERO)
            .ok_or_else(|| RecordError::Record(record.to_owned()))?;
        if self.of_category(sex, &label).is_some() {
            return Err(RecordError::Twice(format!("{sex} {label}")));
        }
        self.classes.push(ClassRecord {
            sex,
            limit: (!label.starts_with('+')).then_some(limit),
            label,
            record,
        });
        Ok(())
    }

    /// How many records there are.
    pub const fn len(&self) -> usize {
        self.classes.len()
    }

    /// Whether there is none.
    pub const fn is_empty(&self) -> bool {
        self.classes.is_empty()
    }

    /// The record of a category by its label: `63`; `+87` and `87+` are one.
    pub fn of_category(&self, sex: Sex, label: &str) -> Option<Mass> {
        let label = plain(label);
        let mut classes = self.classes.iter();
        let class = classes.find(|c| c.sex == sex && c.label == label)?;
        Some(class.record)
    }

    /// The record of the category that a bodyweight falls into: the lowest limit
    /// that isn't below it, else the category without a limit.
    pub fn of_bodyweight(&self, sex: Sex, bodyweight: Mass) -> Option<Mass> {
        let own = || self.classes.iter().filter(|c| c.sex == sex);
        let limited = own().filter(|c| c.limit.is_some_and(|l| l >= bodyweight));
        let class = limited
            .min_by_key(|c| c.limit)
            .or_else(|| own().find(|c| c.limit.is_none()))?;
        Some(class.record)
    }
}

/// A category's label in one form: the plus sign first, no spaces, no unit kg.
fn plain(label: &str) -> String {
    let bare: String = label.split_whitespace().collect();
    let bare = bare.to_lowercase();
    let bare = bare.trim_end_matches("kg");
    if bare.starts_with(['+', '>']) || bare.ends_with('+') {
        let number = bare.trim_matches(['+', '>']);
        format!("+{}", number.trim_end_matches("kg"))
    } else {
        bare.to_owned()
    }
}
