//! Two powerlifting sheets: every call, best, total and place.

use std::collections::BTreeSet;

use maxday::standings::{Basis, Standing, standings};

use crate::meet::Draw;
use crate::rounds::{Counts, LIFTS, Rounds};
use crate::sheet::{Lifter, best_lifts, powerlifting};

const SUMMER: &str = include_str!("powerlifting-2016-summer.csv");
const WOMEN: &str = include_str!("powerlifting-2017-women.csv");

/// What a sheet came to.
#[derive(Debug, Default, PartialEq, Eq)]
struct Compared {
    groups: usize,
    placed: usize,
    without_total: usize,
    guests: usize,
}

/// Bests, totals, classes and places of a day equal the published ones.
fn compare(day: &Rounds<'_>) -> Compared {
    let facts = day.table.facts();
    let mut compared = Compared::default();
    let groups = standings(facts, Basis::Division);
    for group in &groups {
        compared.groups += 1;
        for line in &group.lines {
            let (row, _) = &day.by_lot[&facts.entries[&line.entry].number];
            let place = format!("row {} of {}", row.no, group.label);
            assert_eq!(group.label, row.group(), "{place}");
            for (i, slot) in line.slots.iter().enumerate() {
                let best = slot.best.map(|(_, mass)| mass);
                assert_eq!(best, row.bests[i], "{place}, {}", LIFTS[i]);
            }
            assert_eq!(line.total, row.total, "{place}");
            assert_eq!(line.place, row.place, "{place}");
            let guest = line.standing == Standing::Guest;
            assert_eq!(guest, row.guest, "{place}");
            match (line.place, line.total) {
                (Some(_), Some(_)) => compared.placed += 1,
                (None, None) => compared.without_total += 1,
                (None, Some(_)) if guest => compared.guests += 1,
                _ => panic!("{place}: {line:?}"),
            }
        }
    }
    // IPF classes from 2011 to 2020: up to and including x.00.
    for group in standings(facts, Basis::Category) {
        for line in &group.lines {
            let (row, _) = &day.by_lot[&facts.entries[&line.entry].number];
            assert_eq!(group.label, row.class(), "row {}", row.no);
        }
    }
    compared
}

/// Lifts a sheet again and prints what was counted.
fn lifted_again(
    (name, date): (&str, &str),
    rows: &[Lifter],
    draw: Draw,
    flight: impl Fn(&Lifter) -> String,
) -> (Compared, Counts) {
    let mut day = Rounds::of(date, rows, draw, &flight);
    // Sub-juniors and juniors have one lighter class more.
    day.table.set("age-group", "junior");
    let compared = compare(&day);
    let flights: BTreeSet<String> = rows.iter().map(flight).collect();
    let used = compared.placed + compared.without_total + compared.guests;
    println!(
        "{name}: {} rows read, {used} used, {} left out; {} flights; {compared:?}; {:?}",
        rows.len(),
        rows.len() - used,
        flights.len(),
        day.counts
    );
    assert_eq!(used, rows.len(), "no row may be left out");
    (compared, day.counts)
}

const DRAWS: [Draw; 3] = [Draw::Sheet, Draw::Reversed, Draw::Mixed];

/// Every attempt is in the sheet. Three rows have no total: two have no good
/// squat and went on with the other lifts, one stopped in the deadlift. One
/// row, the heaviest total of its class, is a guest's.
#[test]
fn a_powerlifting_meet_comes_out_as_published_in_any_flights() {
    let rows = powerlifting(SUMMER);
    let by_group = |row: &Lifter| row.group();
    // Nine or more lift together as they would on one platform.
    let by_platform = |row: &Lifter| match (row.sex, row.category.as_str()) {
        (maxday::rules::Sex::F, _) => "1".to_owned(),
        (_, "74" | "83") => "2".to_owned(),
        _ => "3".to_owned(),
    };
    for draw in DRAWS {
        for counts in [
            lifted_again(("2016", "2016-08-20"), &rows, draw, by_group),
            lifted_again(("2016", "2016-08-20"), &rows, draw, by_platform),
        ] {
            let (compared, counts) = counts;
            assert_eq!(
                compared,
                Compared {
                    groups: 22,
                    placed: 37,
                    without_total: 3,
                    guests: 1,
                }
            );
            assert_eq!(counts.called + counts.passed, 41 * 9);
            assert_eq!((counts.passed, counts.records), (2, 0));
        }
    }
}

/// The tries on the way to a best are made up in six ways.
#[test]
fn every_powerlifting_class_comes_out_as_published() {
    let rows = best_lifts(WOMEN);
    for draw in DRAWS {
        let women = ("2017", "2017-06-14");
        let (compared, counts) = lifted_again(women, &rows, draw, Lifter::group);
        assert_eq!(
            compared,
            Compared {
                groups: 12,
                placed: 102,
                without_total: 2,
                guests: 0,
            }
        );
        assert_eq!(counts.called + counts.passed, 104 * 9);
    }
}

#[test]
fn the_lighter_was_placed_first_in_every_powerlifting_tie() {
    // IPF technical rules 2007, art. 1(d), (e). No two are equal in bodyweight
    // too, so lots and times that are made up decide nothing.
    for (rows, expected) in [(powerlifting(SUMMER), 1), (best_lifts(WOMEN), 8)] {
        let mut ties = 0;
        for (a, b) in rows.iter().zip(rows.iter().skip(1)) {
            if a.group() == b.group() && b.place.is_some() && a.total == b.total {
                assert!(a.bodyweight.mass < b.bodyweight.mass, "{a:?} {b:?}");
                ties += 1;
            }
        }
        assert_eq!(ties, expected, "so many ties were decided by bodyweight");
    }
}
