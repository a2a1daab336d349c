//! Two lifts in one slot: which counts, and where it stands.

use maxday::day::Command;
use maxday::sheets::{Audience, standings_table};
use maxday::standings::Basis;

use crate::day::{
    cell, groups, in_slot, is, line, mass, max_day, placed_in, somebody, tallied,
};
use crate::support::Table;

const CLEAN: &str = "clean=power-clean+hang-power-clean";

/// Lots 1 and 2 enter the power clean, lot 3 the hang power clean; a wrong
/// catch is entered as the lift that it was.
fn cleans() -> Table {
    let mut table = max_day(&[CLEAN]);
    table.set("wrong-catch", "reclassify");
    let with = |n, lift| somebody(n, &[], vec![in_slot("clean", lift)]);
    let _ = table.ok(Command::Add(vec![
        with(1, "power-clean"),
        with(2, "power-clean"),
        with(3, "hang-power-clean"),
    ]));
    table
}

#[test]
fn the_variant_entered_counts_where_it_has_a_good_attempt() {
    let mut table = cleans();
    tallied(&mut table, 1, "power-clean", &["60"]);
    tallied(&mut table, 1, "hang-power-clean", &["70"]);
    tallied(&mut table, 2, "power-clean", &["65"]);
    tallied(&mut table, 3, "hang-power-clean", &["62.5"]);
    let one = line(&table, 1);
    assert!(is(one.slots[0].lift.as_ref(), "power-clean"));
    assert_eq!(one.slots[0].best, Some((1, mass("60"))));
    let places: Vec<Option<u32>> =
        (1..=3).map(|n| line(&table, n).slots[0].place).collect();
    assert_eq!(places, [Some(2), Some(1), Some(1)]);
    // By lift the heavier hang power clean stands too, and above lot 3's.
    let lifts = groups(&table, Basis::Slot);
    let labels: Vec<&str> = lifts.iter().map(|g| g.label.as_str()).collect();
    assert_eq!(labels, ["all power-clean", "all hang-power-clean"]);
    assert_eq!(
        placed_in(&table, &lifts[0], 0),
        [(2, Some(1)), (1, Some(2))]
    );
    assert_eq!(
        placed_in(&table, &lifts[1], 0),
        [(1, Some(1)), (3, Some(2))]
    );
    assert_eq!(lifts[1].lines[0].slots[0].best, Some((2, mass("70"))));
}

#[test]
fn else_the_variant_of_the_heaviest_good_attempt_counts() {
    let mut table = cleans();
    tallied(&mut table, 1, "power-clean", &["60 no"]);
    tallied(&mut table, 1, "hang-power-clean", &["60"]);
    tallied(&mut table, 2, "power-clean", &["55"]);
    tallied(&mut table, 3, "hang-power-clean", &["57.5"]);
    let one = line(&table, 1);
    assert!(is(one.slots[0].lift.as_ref(), "hang-power-clean"));
    let sheet = standings_table(table.facts(), Basis::Category, Audience::Private);
    assert_eq!(cell(&sheet, 1, "clean lift"), "hang-power-clean");
    assert_eq!(cell(&sheet, 1, "clean best"), "60");
    let places: Vec<Option<u32>> =
        (1..=3).map(|n| line(&table, n).slots[0].place).collect();
    assert_eq!(places, [Some(1), Some(1), Some(2)]);
    // Its total is ranked with those of the same lift.
    let totals: Vec<Option<u32>> = (1..=3).map(|n| line(&table, n).place).collect();
    assert_eq!(totals, [Some(1), Some(1), Some(2)]);
    // Lot 1 made no power clean and isn't listed under it.
    let lifts = groups(&table, Basis::Slot);
    assert_eq!(placed_in(&table, &lifts[0], 0), [(2, Some(1))]);
}

#[test]
fn without_a_good_attempt_the_variant_entered_is_shown() {
    let mut table = cleans();
    tallied(&mut table, 1, "hang-power-clean", &["60 no"]);
    let one = line(&table, 1);
    assert!(is(one.slots[0].lift.as_ref(), "power-clean"));
    assert_eq!((one.slots[0].best, one.slots[0].place), (None, None));
}
