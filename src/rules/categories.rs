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

/// The newest set of a body (`iwf`, `ipf`) that began by `date` and has the
/// list `ages`.
///
/// Where a newer set has no such list, the last one that had it is used (no
/// youth list of weightlifting after 31 July 2026 was found); where no set has
/// it, the newest set of all.
pub fn newest_set(
    body: &str,
    ages: &str,
    date: NaiveDate,
) -> Option<&'static CategorySet> {
    let newest = |with_list: bool| {
        category_sets()
            .iter()
            .filter(|s| s.name.split('-').next() == Some(body))
            .filter(|s| s.from.is_none_or(|from| from <= date))
            .filter(|s| !with_list || s.has_list(ages))
            .max_by_key(|s| s.from)
    };
    newest(true).or_else(|| newest(false))
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

    /// Reads a school's own set in words: `F 47 52 57 +57; M 60 67.5 +67.5`,
    /// with `lb` behind it for pounds.
    ///
    /// Limits are inclusive and rise; the last class of a sex is written as
    /// the last limit with a plus before or behind it. `None` where the words
    /// are no such set.
    pub fn own(word: &str) -> Option<Self> {
        let word = word.trim();
        let (word, unit) = match word.rsplit_once(' ') {
            Some((list, "lb")) => (list, Unit::Lb),
            Some((list, "kg")) => (list, Unit::Kg),
            _ => (word, Unit::Kg),
        };
        let groups: Vec<CategoryGroup> = word
            .split(';')
            .map(|list| own_group(list, unit))
            .collect::<Option<_>>()?;
        let twice = groups.len() > 2
            || groups.first().map(|g| g.sex) == groups.get(1).map(|g| g.sex);
        (!groups.is_empty() && !twice).then(|| Self {
            name: "own".to_owned(),
            title: "The school's own bodyweight categories".to_owned(),
            source: "the day's own rules".to_owned(),
            from: None,
            until: None,
            unit,
            groups,
        })
    }

    /// Whether the set has a list of that name; every set has the usual one.
    pub fn has_list(&self, ages: &str) -> bool {
        ages == "usual" || self.groups.iter().any(|g| g.ages == ages)
    }

    /// The list of classes for a sex: the one named, else the set's first.
    pub fn group(&self, sex: Sex, ages: &str) -> Option<&CategoryGroup> {
        let mut of_sex = self.groups.iter().filter(|g| g.sex == sex);
        let usual = of_sex.clone().next();
        of_sex.find(|g| g.ages == ages).or(usual)
    }

    /// The class of a bodyweight, with its rank from the lightest.
    pub fn class(&self, sex: Sex, ages: &str, bodyweight: Mass) -> Option<(usize, &str)> {
        let group = self.group(sex, ages)?;
        Some(group.class(bodyweight))
    }

    /// The label of a class as the set writes it, where a plus may stand before
    /// or behind the open one's.
    pub fn known(&self, sex: Sex, ages: &str, label: &str) -> Option<String> {
        let label = label.trim();
        let turned = label.strip_prefix('+').map(|limit| format!("{limit}+"));
        let mut ways = [Some(label.to_owned()), turned].into_iter().flatten();
        ways.find(|l| self.rank(sex, ages, l).is_some())
    }

    /// The rank of a class by its label, from the lightest.
    pub fn rank(&self, sex: Sex, ages: &str, label: &str) -> Option<usize> {
        let group = self.group(sex, ages)?;
        if group.open == label {
            return Some(group.limits.len());
        }
        group.limits.iter().position(|(_, l)| l == label)
    }
}

fn own_group(list: &str, unit: Unit) -> Option<CategoryGroup> {
    let mut words = list.split([' ', ',']).filter(|w| !w.is_empty());
    let sex = match words.next()? {
        "F" | "f" => Sex::F,
        "M" | "m" => Sex::M,
        _ => return None,
    };
    let mut words: Vec<&str> = words.collect();
    let open = words.pop()?;
    let last = open.strip_prefix('+').or_else(|| open.strip_suffix('+'))?;
    let limits: Vec<(Mass, String)> = words
        .iter()
        .map(|w| Some((Mass::parse(w, unit).ok()?, (*w).to_owned())))
        .collect::<Option<_>>()?;
    let rising = limits.is_sorted_by(|a, b| a.0 < b.0)
        && limits.iter().all(|(m, _)| *m > Mass::ZERO)
        && Mass::parse(last, unit).ok() == limits.last().map(|(m, _)| *m);
    rising.then(|| CategoryGroup {
        sex,
        ages: "usual".to_owned(),
        limits,
        open: format!("{last}+"),
    })
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
            set.class(Sex::F, "usual", Mass::parse(text, Unit::Kg).unwrap())
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
            newest_set("iwf", "usual", NaiveDate::from_ymd_opt(y, m, d).unwrap())
                .unwrap()
                .name
                .clone()
        };
        assert_eq!(on(2026, 7, 31), "iwf-2025");
        assert_eq!(on(2026, 8, 1), "iwf-2026");
    }

    #[test]
    fn youth_after_july_2026_keep_the_last_list_that_was_published() {
        let day = NaiveDate::from_ymd_opt(2026, 11, 14).unwrap();
        let set = newest_set("iwf", "youth", day).unwrap();
        assert_eq!(set.name, "iwf-2025");
        let kg = |text| Mass::parse(text, Unit::Kg).unwrap();
        assert_eq!(set.class(Sex::F, "youth", kg("44")).unwrap().1, "44");
        assert_eq!(set.class(Sex::F, "usual", kg("44")).unwrap().1, "48");
        assert_eq!(newest_set("ipf", "junior", day).unwrap().name, "ipf-2021");
    }

    #[test]
    fn a_schools_own_set_is_read_in_kilograms_and_pounds() {
        let set = CategorySet::own("F 105 114 123 +123; M 114 132.5 +132.5 lb").unwrap();
        let class = |sex, text| {
            let mass = Mass::parse(text, Unit::Lb).unwrap();
            set.class(sex, "usual", mass).unwrap().1.to_owned()
        };
        assert_eq!(class(Sex::F, "114"), "114");
        assert_eq!(class(Sex::F, "114.1"), "123");
        assert_eq!(class(Sex::M, "132.5"), "132.5");
        assert_eq!(class(Sex::M, "132.6"), "132.5+");
        assert_eq!(set.unit, Unit::Lb);
        assert!(CategorySet::own("M 60 75 75+").is_some());
        for wrong in [
            "",
            "F",
            "F 47",
            "F 57 47 +47",
            "F 47 52 +57",
            "X 47 +47",
            "F 47 +47; F 52 +52",
            "F 0 +0",
            "iwf-2030",
        ] {
            assert!(CategorySet::own(wrong).is_none(), "{wrong}");
        }
    }
}
