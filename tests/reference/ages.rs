//! Age groups of the two sports on the day, 14 November 2026.

use crate::rules::Ages;

/// The day's year.
const YEAR: i32 = 2026;

/// One age group: first and last age in the calendar year of the day.
#[derive(Debug, Clone, Copy)]
pub struct Group {
    pub name: &'static str,
    from: i32,
    to: i32,
    /// Whether it opens on the birthday itself.
    birthday: bool,
}

impl Group {
    pub fn has(self, born: (i32, u32, u32)) -> bool {
        let (year, month, day) = born;
        let age = YEAR - year;
        // On the birthday itself one is so old.
        let turned = (month, day) <= (11, 14);
        let open = age > self.from || (age == self.from && (turned || !self.birthday));
        open && age <= self.to
    }
}

const fn group(name: &'static str, from: i32, to: i32, birthday: bool) -> Group {
    Group {
        name,
        from,
        to,
        birthday,
    }
}

/// IWF: youth 13 to 17, junior 15 to 20, senior from 15, masters in steps of
/// five years from 35, all by the year of birth.
const IWF: &[Group] = &[
    group("Youth", 13, 17, false),
    group("Junior", 15, 20, false),
    group("Senior", 15, 200, false),
    group("Masters 35", 35, 39, false),
    group("Masters 40", 40, 44, false),
];

/// IPF: open from the 14th birthday, sub-junior from it to the end of the year
/// of turning 18, junior 19 to 23, masters from 40 in steps of ten years.
const IPF: &[Group] = &[
    group("Open", 14, 200, true),
    group("Sub-junior", 14, 18, true),
    group("Junior", 19, 23, false),
    group("Master I", 40, 49, false),
];

pub const fn ages(ages: Ages) -> &'static [Group] {
    match ages {
        Ages::None => &[],
        Ages::Iwf => IWF,
        Ages::Ipf => IPF,
    }
}
