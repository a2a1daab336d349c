//! Sets of age groups, by year of birth or birthday.

use std::sync::OnceLock;

use chrono::{Datelike, NaiveDate};
use serde::Deserialize;

/// A set of age groups.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct AgeSet {
    /// Its name, as the key `ages` takes it.
    pub name: String,
    /// Its title.
    pub title: String,
    /// Where the ages were read.
    pub source: String,
    /// Its groups, which may overlap.
    #[serde(rename = "group")]
    pub groups: Vec<AgeGroup>,
}

/// One age group.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct AgeGroup {
    /// Its name, as a division.
    pub name: String,
    /// The first age, in years.
    pub from: i32,
    /// The last age, in years; 0 where there is none.
    pub to: i32,
    /// Whether it opens on the birthday rather than with its year.
    #[serde(default)]
    pub birthday: bool,
}

const SHIPPED: [&str; 2] = [
    include_str!("../../resources/ages/iwf.toml"),
    include_str!("../../resources/ages/ipf.toml"),
];

/// All shipped sets.
pub fn age_sets() -> &'static [AgeSet] {
    static SETS: OnceLock<Vec<AgeSet>> = OnceLock::new();
    SETS.get_or_init(|| {
        SHIPPED
            .iter()
            .filter_map(|text| toml::from_str(text).ok())
            .collect()
    })
}

/// The shipped set of that name.
pub fn ages_named(name: &str) -> Option<&'static AgeSet> {
    age_sets().iter().find(|s| s.name == name)
}

impl AgeGroup {
    /// Whether somebody born in `year` (on `birthday`, where that is known)
    /// is in the group on `day`.
    pub fn has(&self, year: i32, birthday: Option<NaiveDate>, day: NaiveDate) -> bool {
        let age = day.year() - year;
        let not_yet = self.birthday
            && age == self.from
            && birthday.is_some_and(|b| (b.month(), b.day()) > (day.month(), day.day()));
        age >= self.from && (self.to == 0 || age <= self.to) && !not_yet
    }
}

impl AgeSet {
    /// The groups of somebody born in `year` on `day`, in the set's order.
    pub fn groups_of(
        &self,
        year: i32,
        birthday: Option<NaiveDate>,
        day: NaiveDate,
    ) -> impl Iterator<Item = &AgeGroup> {
        self.groups
            .iter()
            .filter(move |g| g.has(year, birthday, day))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(set: &str, year: i32, birthday: Option<(u32, u32)>) -> Vec<String> {
        let day = NaiveDate::from_ymd_opt(2026, 11, 14).unwrap();
        let birthday = birthday.and_then(|(m, d)| NaiveDate::from_ymd_opt(year, m, d));
        ages_named(set)
            .unwrap()
            .groups_of(year, birthday, day)
            .map(|g| g.name.clone())
            .collect()
    }

    #[test]
    fn every_shipped_set_reads() {
        assert_eq!(age_sets().len(), SHIPPED.len());
    }

    #[test]
    fn at_sixteen_an_athlete_is_youth_junior_and_senior() {
        // TCRR: youth 13-17, junior 15-20, senior 15 and over, by year of birth.
        assert_eq!(names("iwf", 2010, None), ["Youth", "Junior", "Senior"]);
        assert_eq!(names("iwf", 2013, None), ["Youth"]);
        assert_eq!(names("iwf", 2008, None), ["Junior", "Senior"]);
        assert_eq!(names("iwf", 1991, None), ["Senior", "Masters 35"]);
        assert_eq!(names("iwf", 2014, None), Vec::<String>::new());
    }

    #[test]
    fn powerlifting_opens_on_the_fourteenth_birthday() {
        // IPF 2007: open from the 14th birthday; sub-junior to the end of the
        // year of turning 18; junior from 1 January of the year of 19.
        assert_eq!(
            names("ipf", 2012, Some((11, 15))),
            Vec::<String>::new(),
            "a day before the birthday"
        );
        assert_eq!(
            names("ipf", 2012, Some((11, 14))),
            ["Open", "Sub-junior"],
            "on the birthday"
        );
        assert_eq!(names("ipf", 2008, Some((12, 31))), ["Open", "Sub-junior"]);
        assert_eq!(names("ipf", 2007, Some((12, 31))), ["Open", "Junior"]);
        assert_eq!(names("ipf", 1986, None), ["Open", "Master I"]);
    }
}
