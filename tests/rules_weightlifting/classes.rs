//! Bodyweight categories and age groups.

use chrono::Datelike;
use maxday::measure::{Mass, Unit};
use maxday::rules::{CategorySet, Sex, ages_named, newest_set, set_named};

use super::script::{Table, day_of};

/// Checks every edge of a list: the limit is still in the class, a hundredth
/// more in the next. For weightlifting that is from memory.
fn edges(set: &CategorySet, sex: Sex, ages: &str, labels: &str) {
    let labels: Vec<&str> = labels.split_whitespace().collect();
    let kg = |text: &str| Mass::parse(text, Unit::Kg).unwrap();
    let class = |text: &str| set.class(sex, ages, kg(text)).unwrap().1.to_owned();
    for pair in labels.windows(2) {
        assert_eq!(class(pair[0]), pair[0], "{} {sex} {}", set.name, pair[0]);
        let above = format!("{}.01", pair[0]);
        assert_eq!(class(&above), pair[1], "{} {sex} {above}", set.name);
    }
    let group = set.group(sex, ages).unwrap();
    assert_eq!(group.limits.len() + 1, labels.len(), "{} {sex}", set.name);
    assert_eq!(group.open, *labels.last().unwrap());
}

fn both(name: &str, ages: &str, men: &str, women: &str) {
    let set = set_named(name).unwrap();
    edges(set, Sex::M, ages, men);
    edges(set, Sex::F, ages, women);
}

#[test]
fn the_categories_to_2016() {
    // Older published copies of the technical rules.
    both(
        "iwf-1998",
        "usual",
        "56 62 69 77 85 94 105 105+",
        "48 53 58 63 69 75 75+",
    );
}

#[test]
fn the_categories_of_2017_and_2018() {
    // IWF announcement of the women's 90 kg for 2017.
    both(
        "iwf-2017",
        "usual",
        "56 62 69 77 85 94 105 105+",
        "48 53 58 63 69 75 90 90+",
    );
}

#[test]
fn the_categories_from_november_2018() {
    // TCRR 2024, article 1.2, and its Spanish rendering.
    both(
        "iwf-2018",
        "usual",
        "55 61 67 73 81 89 96 102 109 109+",
        "45 49 55 59 64 71 76 81 87 87+",
    );
    both(
        "iwf-2018",
        "youth",
        "49 55 61 67 73 81 89 96 102 102+",
        "40 45 49 55 59 64 71 76 81 81+",
    );
}

#[test]
fn the_categories_from_june_2025() {
    // IWF release of 8 May 2025: 94 for men, where earlier notices had 98.
    both(
        "iwf-2025",
        "usual",
        "60 65 71 79 88 94 110 110+",
        "48 53 58 63 69 77 86 86+",
    );
    both(
        "iwf-2025",
        "youth",
        "56 60 65 71 79 88 94 94+",
        "44 48 53 58 63 69 77 77+",
    );
}

#[test]
fn the_categories_from_august_2026() {
    // News reports on the classes of the Olympic Games of 2028, and that each
    // sex has eight; the other two of each (60, 70; 49, 57) are from memory.
    both(
        "iwf-2026",
        "usual",
        "60 65 70 75 85 95 110 110+",
        "49 53 57 61 69 77 86 86+",
    );
}

#[test]
fn the_day_picks_the_newest_set() {
    // IWF announcements: 1 January 2017, 1 November 2018, 1 June 2025,
    // 1 August 2026.
    let on = |day: &str| {
        newest_set("iwf", "usual", day_of(day))
            .unwrap()
            .name
            .clone()
    };
    for (day, set) in [
        ("2016-12-31", "iwf-1998"),
        ("2017-01-01", "iwf-2017"),
        ("2018-10-31", "iwf-2017"),
        ("2018-11-01", "iwf-2018"),
        ("2025-05-31", "iwf-2018"),
        ("2025-06-01", "iwf-2025"),
        ("2026-07-31", "iwf-2025"),
        ("2026-08-01", "iwf-2026"),
    ] {
        assert_eq!(on(day), set, "{day}");
    }
}

#[test]
fn a_day_with_the_iwfs_categories_follows_its_date() {
    // IWF announcements of the sets.
    let mut table = Table::meet();
    table.enter("1 A 60 90; sex=M; bodyweight=88\n2 A 60 90; sex=F; bodyweight=58");
    table.play(
        "set|||||categories=iwf
        ? groups: F 61: 2; M 95: 1
        set|||||date=2026-07-31
        ? groups: F 58: 2; M 88: 1
        set|||||date=2025-05-31
        ? groups: F 59: 2; M 89: 1
        set|||||categories=iwf-2017
        ? groups: F 58: 2; M 94: 1",
    );
}

#[test]
fn after_july_2026_youth_keep_the_last_published_list() {
    // No youth list from 1 August 2026 was found: that of 2025 goes on, and
    // the group says that it has ended.
    let set = newest_set("iwf", "youth", day_of("2026-11-21")).unwrap();
    assert_eq!(set.name, "iwf-2025");
    assert_eq!(set.until, Some(day_of("2026-07-31")));
    let mut table = Table::meet();
    table.enter("1 A 60 90; sex=M; bodyweight=94.5\n2 A 30 40; sex=F; bodyweight=44");
    table.play(
        "set|||||categories=iwf; age-group=youth
        ? groups: F 44: 2; M 94+: 1",
    );
    let groups = maxday::standings::standings(
        table.day.facts(),
        maxday::standings::Basis::Category,
    );
    assert!(
        groups[0].remark.contains("2026-07-31"),
        "{}",
        groups[0].remark
    );
}

#[test]
fn olympic_subsets_are_lists_of_ones_own() {
    // IWF on Tokyo (men 61 67 73 81 96 109 +109) and TCRR 2024 on Paris (women
    // 49 59 71 81 +81).
    let words = "F 49 59 71 81 +81; M 61 67 73 81 96 109 +109";
    let set = CategorySet::own(words).unwrap();
    edges(&set, Sex::F, "usual", "49 59 71 81 81+");
    edges(&set, Sex::M, "usual", "61 67 73 81 96 109 109+");
}

#[test]
fn an_athlete_stands_in_one_category() {
    // Federation's page for athletes: one category only per event.
    let mut table = Table::meet();
    table.enter("1 A 60 90; sex=M; bodyweight=88.4; category=88");
    table.play(
        "set|||||categories=iwf
        ? groups: M 95: 1
        weigh|1|||85
        ? groups: M 85: 1",
    );
}

fn ages(born: &str) -> Vec<String> {
    let (born, day) = (day_of(born), day_of("2026-11-21"));
    let set = ages_named("iwf").unwrap();
    let groups = set.groups_of(born.year(), Some(born), day);
    groups.map(|g| g.name.clone()).collect()
}

#[test]
fn age_groups_go_by_the_year_of_birth() {
    // TCRR as published by federations: youth 13-17, junior 15-20, senior 15
    // and over; masters from 1 January of the year of the 35th birthday in
    // steps of five years, 85 the top of newer texts (masters' associations).
    for (born, groups) in [
        ("2014-01-01", vec![]),
        ("2013-12-31", vec!["Youth"]),
        ("2012-01-01", vec!["Youth"]),
        ("2011-12-31", vec!["Youth", "Junior", "Senior"]),
        ("2009-01-01", vec!["Youth", "Junior", "Senior"]),
        ("2008-12-31", vec!["Junior", "Senior"]),
        ("2006-01-01", vec!["Junior", "Senior"]),
        ("2005-12-31", vec!["Senior"]),
        ("1992-01-01", vec!["Senior"]),
        ("1991-12-31", vec!["Senior", "Masters 35"]),
        ("1987-01-01", vec!["Senior", "Masters 35"]),
        ("1986-12-31", vec!["Senior", "Masters 40"]),
        ("1941-12-31", vec!["Senior", "Masters 85"]),
        ("1930-01-01", vec!["Senior", "Masters 85"]),
    ] {
        assert_eq!(ages(born), groups, "{born}");
    }
}

#[test]
fn an_athlete_of_sixteen_stands_in_three_age_groups() {
    // TCRR as published: the overlap is intended.
    let mut table = Table::meet();
    table.enter("1 A 60 90; sex=M; born=2010\n2 A 60 90; sex=M; born=2007");
    table.play("? divisions: M Youth: 1; M Junior: 1 2; M Senior: 1 2");
}
