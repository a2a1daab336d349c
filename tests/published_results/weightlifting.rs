//! Six weightlifting meets: every call, best, total and place.

use std::collections::BTreeMap;

use maxday::standings::{Basis, standings};

use crate::meet::{Asked, Counts, Draw, LIFTS, Replay};
use crate::sheet::{Row, weightlifting};

/// A sheet with what is known about it.
struct Meet {
    year: u16,
    text: &'static str,
    /// Loads in the sheet are multiples of it, but for records.
    step: &'static str,
    /// Rows in the sheet.
    rows: usize,
}

/// The steps are those that the sheets show: 2.5 kg to 2005, 1 kg from 2008.
const MEETS: [Meet; 6] = [
    Meet {
        year: 1998,
        text: include_str!("weightlifting-1998-nationalchampionship.csv"),
        step: "2.5",
        rows: 115,
    },
    Meet {
        year: 2002,
        text: include_str!("weightlifting-2002-nationalchampionship.csv"),
        step: "2.5",
        rows: 88,
    },
    Meet {
        year: 2004,
        text: include_str!("weightlifting-2004-juniornationals.csv"),
        step: "2.5",
        rows: 155,
    },
    Meet {
        year: 2005,
        text: include_str!("weightlifting-2005-nationalchampionship.csv"),
        step: "2.5",
        rows: 102,
    },
    Meet {
        year: 2008,
        text: include_str!("weightlifting-2008-collegiatenationals.csv"),
        step: "1",
        rows: 113,
    },
    Meet {
        year: 2010,
        text: include_str!("weightlifting-2010-americanopen.csv"),
        step: "1",
        rows: 179,
    },
];

/// Slips of whoever typed three of the sheets: after a good lift the next
/// load isn't heavier. The engine has to refuse them.
const SLIPS: [Asked; 4] = [
    (2002, 4, "clean-and-jerk", 2),
    (2002, 4, "clean-and-jerk", 3),
    (2004, 75, "clean-and-jerk", 3),
    (2005, 45, "clean-and-jerk", 3),
];

/// The only load off the step of its year: 160.5 kg, a record attempt in
/// half kilograms.
const RECORDS: [Asked; 1] = [(2004, 110, "clean-and-jerk", 2)];

/// Parts of a sheet that are lifted as one day each.
pub fn parts(rows: &[Row], name: impl Fn(&Row) -> String) -> BTreeMap<String, Vec<&Row>> {
    let mut parts: BTreeMap<String, Vec<&Row>> = BTreeMap::new();
    for row in rows {
        parts.entry(name(row)).or_default().push(row);
    }
    parts
}

/// Bests, totals, groups and places of a day equal the published ones;
/// returns how many rows were compared.
fn compare(year: u16, replay: &Replay<'_>) -> usize {
    let facts = replay.table.facts();
    let mut compared = 0;
    for group in standings(facts, Basis::Category) {
        for line in &group.lines {
            let lot = facts.entries[&line.entry].number;
            let row = replay.by_lot[&lot];
            let place = format!("{year} row {}", row.no);
            assert_eq!(group.label, row.group(), "{place}");
            for (i, slot) in line.slots.iter().enumerate() {
                assert_eq!(slot.best, row.best(i), "{place} {}", LIFTS[i]);
            }
            assert_eq!(line.total, row.total, "{place}");
            assert_eq!(line.place, row.place, "{place}");
            compared += 1;
        }
    }
    compared
}

/// Lifts every part of every sheet again; prints and returns what was counted.
fn lifted_again(draw: Draw, name: impl Fn(&Row) -> String) -> Counts {
    let mut all = Counts::default();
    let (mut refused, mut records) = (Vec::new(), Vec::new());
    let (mut read, mut used) = (0, 0);
    for meet in &MEETS {
        let rows = weightlifting(meet.text, "place");
        assert_eq!(rows.len(), meet.rows, "{}", meet.year);
        read += rows.len();
        let parts = parts(&rows, &name);
        let mut counts = Counts::default();
        let mut compared = 0;
        for part in parts.values() {
            let replay = Replay::of(meet.year, meet.step, part, draw);
            replay.agrees_by_attempt();
            compared += compare(meet.year, &replay);
            counts.add(&replay.counts);
            refused.extend(replay.refused);
            records.extend(replay.records);
        }
        println!(
            "{}: {} rows read, {compared} used, {} left out; {} days; {} attempts called, {} passed, {} refused as slips of the sheet and entered from it",
            meet.year,
            rows.len(),
            rows.len() - compared,
            parts.len(),
            counts.called,
            counts.passed,
            counts.carded,
        );
        used += compared;
        all.add(&counts);
    }
    println!(
        "All: {read} rows read, {used} used, {} left out.",
        read - used
    );
    assert_eq!((read, used), (752, 752), "no row may be left out");
    refused.sort_unstable();
    assert_eq!(refused, SLIPS, "only slips may be refused, and all of them");
    assert_eq!(records, RECORDS, "no other load is off the step");
    all
}

impl Counts {
    fn add(&mut self, other: &Self) {
        self.called += other.called;
        self.passed += other.passed;
        self.carded += other.carded;
    }
}

/// 752 athletes have six tries each.
fn whole(counts: &Counts) {
    let Counts {
        called,
        passed,
        carded,
    } = counts;
    assert_eq!(called + passed + carded, 752 * 6);
    assert_eq!((*passed, *carded), (32, 4));
}

#[test]
fn every_class_comes_out_as_published_with_lots_by_the_sheet() {
    whole(&lifted_again(Draw::Sheet, Row::group));
}

#[test]
fn every_class_comes_out_as_published_with_lots_reversed() {
    whole(&lifted_again(Draw::Reversed, Row::group));
}

#[test]
fn every_class_comes_out_as_published_with_lots_mixed() {
    whole(&lifted_again(Draw::Mixed, Row::group));
}

#[test]
fn all_classes_of_a_sex_can_lift_in_one_flight() {
    whole(&lifted_again(Draw::Mixed, |row| row.sex.to_string()));
}

#[test]
fn bodyweight_decided_every_tie() {
    // What the sheets can show: places among equal totals. No two are equal
    // in bodyweight too, so lots and times that are made up decide nothing.
    let mut ties = 0;
    for meet in &MEETS {
        let rows = weightlifting(meet.text, "place");
        for part in parts(&rows, Row::group).values() {
            for (a, b) in part.iter().zip(part.iter().skip(1)) {
                if a.total == b.total {
                    assert!(a.bodyweight.mass < b.bodyweight.mass, "{}", meet.year);
                    ties += 1;
                }
            }
        }
    }
    assert_eq!(ties, 86);
}
