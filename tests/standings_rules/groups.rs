//! Age groups and bodyweight categories.

use chrono::NaiveDate;
use maxday::day::Command;
use maxday::measure::Unit;
use maxday::roster::{Born, Change, Sex};
use maxday::sheets::Audience;
use maxday::standings::Basis;

use crate::day::{body, groups, labelled, paper, placed, somebody, tallied};
use crate::support::Table;

fn born(text: &str) -> Change {
    Change::Born(Some(match text.parse::<i32>() {
        Ok(year) => Born::Year(year),
        Err(_) => Born::Date(text.parse::<NaiveDate>().unwrap()),
    }))
}

fn division(name: &str) -> Change {
    Change::Divisions(vec![name.to_owned()])
}

/// One deadlift, on 17 November 2026.
fn day(format: &str) -> Table {
    let mut table = Table::new(format, Unit::Kg, &["deadlift"], 1);
    table.set("categories", "none");
    table
}

#[test]
fn entries_stand_in_their_age_groups_beside_their_divisions() {
    // IWF TCRR by year of birth: youth 13 to 17, junior 15 to 20, senior from 15.
    let mut table = day("max-day");
    table.set("ages", "iwf");
    table.set("total", "all");
    let one = |n, details| somebody(n, &["deadlift"], details);
    let _ = table.ok(Command::Add(vec![
        one(1, vec![born("2010"), division("Novice")]),
        one(2, vec![born("2013-12-31")]),
        one(3, vec![born("2007-01-01"), division("Junior")]),
        one(4, vec![]),
    ]));
    for (n, load) in [(1, "100"), (2, "90"), (3, "120"), (4, "200")] {
        tallied(&mut table, n, "deadlift", &[load]);
    }
    let names: Vec<(String, Vec<u16>)> = labelled(&table, Basis::Division);
    let names: Vec<(&str, &[u16])> = names
        .iter()
        .map(|(name, numbers)| (name.as_str(), numbers.as_slice()))
        .collect();
    let expected: [(&str, &[u16]); 5] = [
        ("Novice", &[1]),
        ("Youth", &[1, 2]),
        ("Junior", &[3, 1]),
        ("Senior", &[3, 1]),
        ("", &[4]),
    ];
    assert_eq!(names, expected);
    let groups = groups(&table, Basis::Division);
    assert_eq!(placed(&table, &groups[1]), [(1, Some(1)), (2, Some(2))]);
    assert_eq!(placed(&table, &groups[4]), [(4, None)]);
    assert_eq!(groups[2].remark, "IWF age groups");
    let text = paper(&table, "results", Audience::Private);
    assert!(
        text.contains("By division") && text.contains("Youth"),
        "{text}"
    );
    table.set("ages", "none");
    let names: Vec<String> = labelled(&table, Basis::Division)
        .into_iter()
        .map(|(name, _)| name)
        .collect();
    assert_eq!(names, ["Junior", "Novice", ""]);
}

#[test]
fn girls_and_boys_are_not_placed_together_by_age() {
    let mut table = day("powerlifting");
    let one =
        |n, sex| somebody(n, &["deadlift"], vec![born("2008"), Change::Sex(Some(sex))]);
    let _ = table.ok(Command::Add(vec![
        one(1, Sex::F),
        one(2, Sex::M),
        one(3, Sex::F),
    ]));
    assert_eq!(
        labelled(&table, Basis::Division),
        [
            ("F Open".to_owned(), vec![1, 3]),
            ("M Open".to_owned(), vec![2]),
            ("F Sub-junior".to_owned(), vec![1, 3]),
            ("M Sub-junior".to_owned(), vec![2]),
        ]
    );
    let all = groups(&table, Basis::Division);
    assert!(all.iter().all(|g| g.remark == "IPF age groups"), "{all:?}");
}

#[test]
fn powerlifting_opens_on_the_birthday() {
    // IPF Technical Rules 2007: open from the 14th birthday.
    let mut table = day("powerlifting");
    let one = |n, day| somebody(n, &["deadlift"], vec![born(day)]);
    let _ = table.ok(Command::Add(vec![
        one(1, "2012-11-17"),
        one(2, "2012-11-18"),
        one(3, "2003"),
    ]));
    assert_eq!(
        labelled(&table, Basis::Division),
        [
            ("Open".to_owned(), vec![1, 3]),
            ("Sub-junior".to_owned(), vec![1]),
            ("Junior".to_owned(), vec![3]),
            (String::new(), vec![2]),
        ]
    );
}

#[test]
fn an_own_set_has_exact_edges_in_pounds_on_a_kilogram_scale() {
    // 1 lb is 0.45359237 kg exactly (international agreement, 1959): 114 lb are
    // 51.70953018 kg, 165 lb 74.84274105 kg.
    let mut table = day("max-day");
    table.set("categories", "F 105 114 +114; M 132 165 +165 lb");
    let weighs = [
        "F 51.70953018",
        "F 51.70953019",
        "F 114 lb",
        "M 74.84274105",
        "M 74.85",
        "M 132.001 lb",
        "F 40",
    ];
    let _ = table.ok(Command::Add(
        (1..)
            .zip(weighs)
            .map(|(n, w)| somebody(n, &["deadlift"], body(w)))
            .collect(),
    ));
    assert_eq!(
        labelled(&table, Basis::Category),
        [
            ("F 105".to_owned(), vec![7]),
            ("F 114".to_owned(), vec![1, 3]),
            ("F 114+".to_owned(), vec![2]),
            ("M 165".to_owned(), vec![4, 6]),
            ("M 165+".to_owned(), vec![5]),
        ]
    );
    assert_eq!(
        groups(&table, Basis::Category)[0].remark,
        "The school's own bodyweight categories"
    );
}

#[test]
fn own_classes_in_kilograms_rank_by_their_limit_and_not_by_their_letters() {
    let mut table = day("max-day");
    table.set("categories", "F 47 57 +57; M 60 75 100 +100");
    let weighs = ["M 100", "M 59.9", "M 75.01", "F 57.1", "F 57", "M 100.1"];
    let _ = table.ok(Command::Add(
        (1..)
            .zip(weighs)
            .map(|(n, w)| somebody(n, &["deadlift"], body(w)))
            .collect(),
    ));
    assert_eq!(
        labelled(&table, Basis::Category),
        [
            ("F 57".to_owned(), vec![5]),
            ("F 57+".to_owned(), vec![4]),
            ("M 60".to_owned(), vec![2]),
            ("M 100".to_owned(), vec![1, 3]),
            ("M 100+".to_owned(), vec![6]),
        ]
    );
}

#[test]
fn an_entered_category_may_have_its_plus_before_it() {
    let mut table = day("max-day");
    table.set("categories", "F 47 57 +57");
    table.set("category", "entered");
    let one = |n, label: &str| {
        let mut details = body("F 60");
        details.push(Change::Category(label.to_owned()));
        somebody(n, &["deadlift"], details)
    };
    let _ = table.ok(Command::Add(vec![
        one(1, "+57"),
        one(2, "57+"),
        one(3, "57"),
        one(4, ""),
    ]));
    assert_eq!(
        labelled(&table, Basis::Category),
        [
            ("F 57".to_owned(), vec![3]),
            ("F 57+".to_owned(), vec![1, 2, 4]),
        ]
    );
}

#[test]
fn the_remark_names_the_set_and_whether_it_had_ended() {
    let remark = |table: &Table| groups(table, Basis::Category)[0].remark.clone();
    let mut table = day("weightlifting");
    table.set("categories", "iwf");
    let _ = table.ok(Command::Add(vec![somebody(
        1,
        &["deadlift"],
        body("F 44.5"),
    )]));
    assert_eq!(remark(&table), "IWF bodyweight categories from August 2026");
    // No youth list of the classes from 1 August 2026 was found: the last one
    // that was published is used, and said to be over.
    table.set("age-group", "youth");
    let words = remark(&table);
    assert!(words.ends_with("it held until 2026-07-31"), "{words}");
    assert_eq!(labelled(&table, Basis::Category)[0].0, "F 48");
    // A set that is named is used whatever lists it has.
    table.set("categories", "iwf-2026");
    assert_eq!(
        remark(&table),
        "IWF bodyweight categories from August 2026; it has no youth list, this is \
         its senior one"
    );
    table.set("categories", "iwf-1998");
    assert!(
        remark(&table).contains("it held until"),
        "{}",
        remark(&table)
    );
}
