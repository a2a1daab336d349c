//! Sets of bodyweight categories, with the dates on which they hold.

use std::sync::OnceLock;

use chrono::NaiveDate;
use serde::Deserialize;

use super::Sex;
use crate::measure::{Mass, Unit};

/// A set of bodyweight categories.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CategorySet {
    /// Its name, as `--categories` takes it.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Where the limits were read.
    pub source: String,
    /// First day on which it holds, if known.
    pub from: Option<NaiveDate>,
    /// Last day on which it holds, if it has one.
    pub until: Option<NaiveDate>,
    /// Unit of the limits.
    pub unit: Unit,
    /// Its lists of classes.
    pub groups: Vec<CategoryGroup>,
}

/// The classes of one sex and age group.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CategoryGroup {
    /// The sex.
    pub sex: Sex,
    /// The age group's word.
    pub ages: String,
    /// Inclusive upper limits with their labels, rising.
    pub limits: Vec<(Mass, String)>,
    /// Label of the class above the last limit.
    pub open: String,
}

#[derive(Deserialize)]
struct SetFile {
    name: String,
    title: String,
    source: String,
    from: String,
    until: String,
    unit: Unit,
    group: Vec<GroupFile>,
}

#[derive(Deserialize)]
struct GroupFile {
    sex: Sex,
    ages: String,
    limits: Vec<String>,
    open: String,
}

const SHIPPED: [&str; 9] = [
    include_str!("../../resources/categories/iwf-1998.toml"),
    include_str!("../../resources/categories/iwf-2017.toml"),
    include_str!("../../resources/categories/iwf-2018.toml"),
    include_str!("../../resources/categories/iwf-2025.toml"),
    include_str!("../../resources/categories/iwf-2026.toml"),
    include_str!("../../resources/categories/ipf-2010.toml"),
    include_str!("../../resources/categories/ipf-2011.toml"),
    include_str!("../../resources/categories/ipf-2021.toml"),
    include_str!("../../resources/categories/world-para.toml"),
];

/// All shipped sets.
pub fn category_sets() -> &'static [CategorySet] {
    static SETS: OnceLock<Vec<CategorySet>> = OnceLock::new();
    SETS.get_or_init(|| {
        SHIPPED
            .iter()
            .filter_map(|text| CategorySet::read(text))
            .collect()
    })
}

/// The shipped set of that name.
pub fn set_named(name: &str) -> Option<&'static CategorySet> {
    category_sets().iter().find(|s| s.name == name)
}

/// The newest weightlifting set that holds on `date`.
///
/// A day after the last known change gets the newest set there is.
pub fn newest_set(date: NaiveDate) -> Option<&'static CategorySet> {
    category_sets()
        .iter()
        .filter(|s| s.name.starts_with("iwf-"))
        .filter(|s| s.from.is_none_or(|from| from <= date))
        .max_by_key(|s| s.from)
}

impl CategorySet {
    /// Reads a set from its file's text; `None` where it isn't in shape.
    pub fn read(text: &str) -> Option<Self> {
        let file: SetFile = toml::from_str(text).ok()?;
        let day = |text: &str| text.parse::<NaiveDate>().ok();
        let groups = file
            .group
            .into_iter()
            .map(|g| {
                let limits: Option<Vec<(Mass, String)>> = g
                    .limits
                    .into_iter()
                    .map(|l| Mass::parse(&l, file.unit).ok().map(|m| (m, l)))
                    .collect();
                Some(CategoryGroup {
                    sex: g.sex,
                    ages: g.ages,
                    limits: limits?,
                    open: g.open,
                })
            })
            .collect::<Option<Vec<_>>>()?;
        Some(Self {
            name: file.name,
            title: file.title,
            source: file.source,
            from: day(&file.from),
            until: day(&file.until),
            unit: file.unit,
            groups,
        })
    }

    /// The usual list of classes for a sex.
    pub fn group(&self, sex: Sex) -> Option<&CategoryGroup> {
        self.groups.iter().find(|g| g.sex == sex)
    }

    /// The class of a bodyweight, with its rank from the lightest.
    pub fn class(&self, sex: Sex, bodyweight: Mass) -> Option<(usize, &str)> {
        let group = self.group(sex)?;
        Some(group.class(bodyweight))
    }

    /// The rank of a class by its label, from the lightest.
    pub fn rank(&self, sex: Sex, label: &str) -> Option<usize> {
        let group = self.group(sex)?;
        if group.open == label {
            return Some(group.limits.len());
        }
        group.limits.iter().position(|(_, l)| l == label)
    }
}

impl CategoryGroup {
    /// The class of a bodyweight: the limit itself is still in the class.
    pub fn class(&self, bodyweight: Mass) -> (usize, &str) {
        match self
            .limits
            .iter()
            .position(|(limit, _)| bodyweight <= *limit)
        {
            Some(rank) => (rank, &self.limits[rank].1),
            None => (self.limits.len(), &self.open),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_set_reads_with_rising_limits() {
        assert_eq!(category_sets().len(), SHIPPED.len());
        for set in category_sets() {
            for group in &set.groups {
                assert!(group.limits.is_sorted(), "{} {}", set.name, group.sex);
            }
        }
    }

    #[test]
    fn the_limit_itself_is_in_the_class() {
        // Inclusive limits: from memory for weightlifting, read for powerlifting.
        let set = set_named("iwf-2026").unwrap();
        let class = |text| {
            set.class(Sex::F, Mass::parse(text, Unit::Kg).unwrap())
                .unwrap()
                .1
        };
        assert_eq!(class("61"), "61");
        assert_eq!(class("61.01"), "69");
        assert_eq!(class("86.01"), "86+");
    }

    #[test]
    fn the_days_date_picks_the_set() {
        // IWF: new classes from 1 June 2025 and from 1 August 2026.
        let on = |y, m, d| {
            newest_set(NaiveDate::from_ymd_opt(y, m, d).unwrap())
                .unwrap()
                .name
                .clone()
        };
        assert_eq!(on(2026, 7, 31), "iwf-2025");
        assert_eq!(on(2026, 8, 1), "iwf-2026");
    }
}
