//! A youth championship of 2017: the first year in which bodyweight no longer
//! decided a tie. The sheet has every attempt, and lists each class in the
//! order of its snatches; places in the clean and jerk and in the total aren't
//! in it.

use maxday::standings::{Basis, standings};

use crate::meet::{Draw, LIFTS, Replay};
use crate::sheet::{Row, weightlifting};
use crate::weightlifting::parts;

const TEXT: &str = include_str!("weightlifting-2017-youth.csv");

/// The classes of the sheet.
const CLASSES: &str = "F 44 48 53 58 63 69 75 +75; M 50 56 62 69 77 85 94 +94";

/// TCRR 6.8.2 as quoted by a published page on placement: best, attempt number
/// of the best, attempts before it, lot.
#[test]
fn every_snatch_is_placed_as_it_was_listed() {
    let rows = weightlifting(TEXT, "snatch_place");
    let (mut compared, mut passed) = (0, 0);
    for part in parts(&rows, Row::group).values() {
        // Lots in the order of the sheet; what they decide is counted below.
        let mut replay = Replay::of(2017, "1", part, Draw::Sheet);
        replay.table.set("categories", CLASSES);
        replay.agrees_by_attempt();
        assert_eq!((replay.refused.len(), replay.records.len()), (0, 0));
        passed += replay.counts.passed;
        let facts = replay.table.facts();
        for group in standings(facts, Basis::Category) {
            for line in &group.lines {
                let row = replay.by_lot[&facts.entries[&line.entry].number];
                let place = format!("row {}", row.no);
                assert_eq!(group.label, row.group(), "{place}");
                for (i, slot) in line.slots.iter().enumerate() {
                    assert_eq!(slot.best, row.best(i), "{place} {}", LIFTS[i]);
                }
                assert_eq!(line.total, row.total, "{place}");
                assert_eq!(line.slots[0].place, row.place, "{place}");
                compared += 1;
            }
        }
    }
    println!(
        "2017: {} rows read, {compared} used, {} left out; {passed} attempts passed",
        rows.len(),
        rows.len() - compared
    );
    assert_eq!((rows.len(), compared, passed), (152, 152, 4));
}

/// What the sheet can show: of fourteen ties the attempts decided nine, three of
/// them against the lighter one.
#[test]
fn bodyweight_decided_no_tie() {
    let rows = weightlifting(TEXT, "snatch_place");
    let history = |row: &Row| {
        let (n, mass) = row.best(0).unwrap();
        let before = row.tries[0].iter().take(usize::from(n) - 1).rev();
        let before: Vec<_> = before.flatten().map(|t| t.load.mass).collect();
        (mass, n, before)
    };
    let (mut by_attempts, mut to_the_heavier, mut by_lot) = (0, 0, 0);
    for part in parts(&rows, Row::group).values() {
        let placed: Vec<&&Row> = part.iter().filter(|r| r.place.is_some()).collect();
        for (a, b) in placed.iter().zip(placed.iter().skip(1)) {
            let ((best, n, before), (other, m, prior)) = (history(a), history(b));
            if best != other {
                continue;
            }
            if (n, &before) == (m, &prior) {
                by_lot += 1;
                continue;
            }
            assert!((n, before) < (m, prior), "rows {} and {}", a.no, b.no);
            by_attempts += 1;
            if a.bodyweight.mass > b.bodyweight.mass {
                to_the_heavier += 1;
            }
        }
    }
    assert_eq!((by_attempts, to_the_heavier, by_lot), (9, 3, 5));
}
