//! Twelve powerlifting classes: totals and places from best lifts.

use std::collections::BTreeMap;

use maxday::day::{Command, Ruling};
use maxday::measure::{Mass, Unit};
use maxday::roster::Change;
use maxday::standings::{Basis, standings};

use crate::sheet::{BestRow, powerlifting};
use crate::support::{Table, entry_in, kg, ruling, tally, which};

const LIFTS: [&str; 3] = ["back-squat", "bench-press", "deadlift"];

const TEXT: &str = include_str!("powerlifting-2017-women.csv");

/// A day whose flights are the classes, with numbers from the last row to the
/// first so that they decide nothing; the bests come from cards.
fn day(rows: &[BestRow]) -> (Table, BTreeMap<u16, &BestRow>) {
    let by_number: BTreeMap<u16, &BestRow> = (1..).zip(rows.iter().rev()).collect();
    let mut table = Table::new("max-day", Unit::Kg, &LIFTS, 1);
    table.set("categories", "flight");
    // IPF technical rules 2007, art. 1(d), (e): equal totals go to the lighter,
    // then to who was first.
    table.set("tie", "bodyweight");
    let entries = by_number.iter().map(|(number, row)| {
        let openers: Vec<_> = LIFTS
            .iter()
            .zip(&row.bests)
            .map(|(lift, best)| (*lift, best.clone().unwrap_or(kg("20"))))
            .collect();
        let mut entry = entry_in(*number, &row.group, 1, &openers);
        let bodyweight = Some(row.bodyweight.clone());
        entry.changes.push(Change::Bodyweight(bodyweight));
        entry
    });
    let _ = table.ok(Command::Add(entries.collect()));
    for (i, lift) in LIFTS.iter().enumerate() {
        for (number, row) in &by_number {
            let outcome = match row.bests[i] {
                Some(_) => Ruling::Good,
                None => Ruling::No,
            };
            let which = which(*number, lift, 1);
            let _ = table.ok(tally(which, row.bests[i].clone(), ruling(outcome)));
        }
    }
    (table, by_number)
}

#[test]
fn every_powerlifting_class_comes_out_as_published() {
    let rows = powerlifting(TEXT);
    let (table, by_number) = day(&rows);
    let facts = table.facts();
    let (mut placed, mut without) = (0, 0);
    let groups = standings(facts, Basis::Category);
    assert_eq!(groups.len(), 12);
    for group in &groups {
        for line in &group.lines {
            let row = by_number[&facts.entries[&line.entry].number];
            let total: Option<Mass> =
                row.bests.iter().map(|b| Some(b.as_ref()?.mass)).sum();
            assert_eq!(group.label, row.group);
            for (slot, best) in line.slots.iter().zip(&row.bests) {
                let sheet = best.as_ref().map(|b| (1, b.mass));
                assert_eq!(slot.best, sheet, "{}", row.group);
            }
            assert_eq!(line.total, total, "{row:?}");
            assert_eq!(line.place, row.place, "{row:?}");
            match line.place {
                Some(_) => placed += 1,
                None => without += 1,
            }
        }
    }
    println!(
        "2017: {} rows read, {} used, 0 left out; {placed} placed, {without} without a total",
        rows.len(),
        placed + without
    );
    assert_eq!((rows.len(), placed, without), (104, 102, 2));
}

#[test]
fn the_lighter_was_placed_first_in_every_powerlifting_tie() {
    let rows = powerlifting(TEXT);
    let total = |row: &BestRow| -> Option<Mass> {
        row.bests.iter().map(|b| Some(b.as_ref()?.mass)).sum()
    };
    let mut ties = 0;
    for (a, b) in rows.iter().zip(rows.iter().skip(1)) {
        if a.group == b.group && a.place.is_some() && total(a) == total(b) {
            assert!(a.bodyweight.mass < b.bodyweight.mass, "{a:?} {b:?}");
            ties += 1;
        }
    }
    assert_eq!(ties, 8, "so many ties were decided by bodyweight");
}
