//! A coach's own norms: which band of percentiles a result falls into.
//!
//! None are shipped: no table for schools was found in a readable source.

use crate::lift::Slug;
use crate::measure::Mass;
use crate::rules::{Least, Sex};

/// For whom a table of norms is; what is blank is open to all.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NormOf {
    /// The lift as it is judged; `None` is the day's total.
    pub lift: Option<Slug>,
    /// The sex.
    pub sex: Option<Sex>,
    /// The first and the last age in years, by year of birth; no last one where it
    /// is open.
    pub ages: Option<(i32, Option<i32>)>,
    /// The grade, as the roster has it.
    pub grade: String,
    /// A division or a team.
    pub group: String,
}

impl NormOf {
    /// For whom, in words: `F, age 14-15, grade 9, Novice`; `all` where it is open.
    pub fn label(&self) -> String {
        let mut words = Vec::new();
        words.extend(self.sex.map(|s| s.letter().to_owned()));
        words.extend(self.ages.map(|ages| match ages {
            (from, Some(to)) if from == to => format!("age {from}"),
            (from, Some(to)) => format!("age {from}-{to}"),
            (from, None) => format!("age {from}+"),
        }));
        if !self.grade.is_empty() {
            words.push(format!("grade {}", self.grade));
        }
        if !self.group.is_empty() {
            words.push(self.group.clone());
        }
        if words.is_empty() {
            return "all".to_owned();
        }
        words.join(", ")
    }
}

/// One table: percentiles with the value from which each is reached.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NormTable {
    /// For whom.
    pub of: NormOf,
    /// Percentiles from 1 to 99 with their values, both rising; all are loads, or all
    /// times the bodyweight.
    steps: Vec<(u8, Least)>,
}

/// Why a step doesn't go with those that are there.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NormError {
    /// A percentile twice.
    #[error("the percentile {0} stands there twice for the same lift and athletes")]
    Twice(u8),
    /// A value that doesn't rise with the percentile.
    #[error(
        "{value} at the percentile {percentile} doesn't fit {other_value} at {other}; a \
         higher percentile needs a higher value"
    )]
    Falling {
        /// The percentile.
        percentile: u8,
        /// Its value.
        value: String,
        /// The percentile beside it.
        other: u8,
        /// Its value.
        other_value: String,
    },
}

/// Where a result lies among the percentiles of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    /// The percentile that is reached; `None` below the lowest.
    pub from: Option<u8>,
    /// The next one, which isn't; `None` above the highest.
    pub below: Option<u8>,
}

impl Band {
    /// In words: `25 to 50`, `below 10`, `90 and above`.
    pub fn words(self) -> String {
        match (self.from, self.below) {
            (Some(from), Some(below)) => format!("{from} to {below}"),
            (Some(from), None) => format!("{from} and above"),
            (None, Some(below)) => format!("below {below}"),
            (None, None) => String::new(),
        }
    }
}

impl NormTable {
    /// The band of a load; compared exactly. `None` where that needs a bodyweight
    /// and there is none.
    pub fn band(&self, load: Mass, bodyweight: Option<Mass>) -> Option<Band> {
        let mut band = Band {
            from: None,
            below: None,
        };
        for (percentile, value) in &self.steps {
            if value.met(load, bodyweight)? {
                band.from = Some(*percentile);
            } else {
                band.below = Some(*percentile);
                break;
            }
        }
        Some(band)
    }

    /// For whom it is, and whether it goes by the bodyweight: `F, age 14-15, times
    /// bodyweight`.
    pub fn label(&self) -> String {
        let mut label = self.of.label();
        if self.by_body() {
            label.push_str(", times bodyweight");
        }
        label
    }

    /// Whether it goes by the bodyweight.
    pub fn by_body(&self) -> bool {
        self.steps.iter().any(|(_, value)| value.by_body())
    }
}

/// Tables of norms, as a coach keeps them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Norms {
    tables: Vec<NormTable>,
}

impl Norms {
    /// Its tables, in the order of the file.
    pub fn tables(&self) -> &[NormTable] {
        &self.tables
    }

    /// Adds a step to the table of its lift and athletes, in any order.
    ///
    /// # Errors
    /// [`NormError`]; nothing is added then.
    pub fn add(&mut self, of: NormOf, step: (u8, Least)) -> Result<(), NormError> {
        let by_body = step.1.by_body();
        let mut tables = self.tables.iter_mut();
        let same = tables.find(|t| t.of == of && t.by_body() == by_body);
        let Some(table) = same else {
            let steps = vec![step];
            self.tables.push(NormTable { of, steps });
            return Ok(());
        };
        let Err(at) = table.steps.binary_search_by_key(&step.0, |(p, _)| *p) else {
            return Err(NormError::Twice(step.0));
        };
        let lower = at.checked_sub(1).and_then(|i| table.steps.get(i));
        let upper = table.steps.get(at);
        for (beside, rises) in [
            (
                lower,
                lower.is_none_or(|(_, v)| v.amount() < step.1.amount()),
            ),
            (
                upper,
                upper.is_none_or(|(_, v)| v.amount() > step.1.amount()),
            ),
        ] {
            if let Some((other, value)) = beside.filter(|_| !rises) {
                return Err(NormError::Falling {
                    percentile: step.0,
                    value: step.1.show(),
                    other: *other,
                    other_value: value.show(),
                });
            }
        }
        table.steps.insert(at, step);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Unit;

    fn step(percentile: u8, value: &str) -> (u8, Least) {
        (percentile, Least::parse(value, Unit::Kg).unwrap())
    }

    #[test]
    fn a_value_opens_its_percentile_exactly() {
        let mut norms = Norms::default();
        for (percentile, value) in [(50, "80"), (10, "60"), (90, "100")] {
            norms
                .add(NormOf::default(), step(percentile, value))
                .unwrap();
        }
        let band = |kg: &str| {
            let load = Mass::parse(kg, Unit::Kg).unwrap();
            norms.tables()[0].band(load, None).unwrap().words()
        };
        assert_eq!(band("59.9"), "below 10");
        assert_eq!(band("60"), "10 to 50");
        assert_eq!(band("79.999"), "10 to 50");
        assert_eq!(band("80"), "50 to 90");
        assert_eq!(band("100"), "90 and above");
    }

    #[test]
    fn a_table_rises_and_each_kind_has_its_own() {
        let mut norms = Norms::default();
        let mut add = |p, value: &str| {
            let added = norms.add(NormOf::default(), step(p, value));
            added.map_err(|e| e.to_string())
        };
        add(25, "1.5x").unwrap();
        add(50, "100").unwrap();
        assert!(add(25, "2x").unwrap_err().contains("twice"));
        let why = add(50, "1.5x").unwrap_err();
        assert!(why.contains("1.5x at the percentile 50"), "{why}");
        assert!(add(10, "1.75x").is_err());
        add(75, "2x").unwrap();
        let body = Mass::whole(80, Unit::Kg);
        let load = Mass::whole(159, Unit::Kg);
        assert_eq!(norms.tables().len(), 2);
        let table = &norms.tables()[0];
        assert_eq!(table.label(), "all, times bodyweight");
        assert_eq!(table.band(load, Some(body)).unwrap().words(), "25 to 75");
        // Without a bodyweight there is no answer, rather than a low one.
        assert_eq!(table.band(load, None), None);
    }
}
