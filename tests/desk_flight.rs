//! A whole weightlifting flight run from the keyboard alone, through queue,
//! clock and lights, at the window's own state.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use std::collections::BTreeMap;

use desk_support::{desk_with_meet, later, pressed, typed};
use maxday::desk::app::Desk;
use maxday::standings::{Basis, standings};

/// Who is called, for which attempt, at how many kilograms.
fn called(desk: &Desk) -> Option<(u16, u8, String)> {
    let facts = desk.facts();
    let call = facts.platforms[0].call.as_ref()?;
    let number = facts.entries[&call.entry].number;
    Some((number, call.attempt, call.load.show(facts.bar_unit)))
}

/// Runs the slot that the empty line starts; returns the bests by lot, as the
/// hand that typed remembers them, and the number of attempts.
fn run_slot(desk: &mut Desk) -> (BTreeMap<u16, String>, usize) {
    typed(desk, "");
    let mut bests = BTreeMap::new();
    let mut attempts = 0;
    loop {
        later(desk, 5);
        pressed(desk, "F10");
        let Some((lot, attempt, load)) = called(desk) else {
            return (bests, attempts);
        };
        attempts += 1;
        assert!(
            desk.facts().platforms[0]
                .call
                .as_ref()
                .unwrap()
                .clock
                .unwrap()
                .runs()
        );
        // Every athlete declares a kilogram more than what is filled in, half
        // a minute before the end at the latest.
        if attempt > 1 {
            later(desk, 4);
            let more: u32 = load.parse::<u32>().unwrap() + 1;
            typed(desk, &format!("{lot} {more}"));
        }
        // A change may have brought somebody else to the front.
        if called(desk).is_none() {
            continue;
        }
        let (lot, attempt, load) = called(desk).unwrap();
        later(desk, 10);
        // Lot 7 misses the second attempt; everything else is good.
        if lot == 7 && attempt == 2 {
            typed(desk, "rwr");
        } else {
            pressed(desk, "ctrl+g");
            let _ = bests.insert(lot, load);
        }
        assert!(called(desk).is_none(), "the lights rule");
    }
}

#[test]
fn a_flight_is_run_from_the_keyboard_alone() {
    let mut desk = desk_with_meet("flight");
    // Lot 12 owes the opener of the clean and jerk.
    typed(&mut desk, "12 clean-and-jerk 71");
    let (snatch, attempts) = run_slot(&mut desk);
    assert!(attempts >= 9, "{attempts} calls");
    let (jerk, _) = run_slot(&mut desk);
    let facts = desk.facts();
    let mut lines: Vec<(u16, String, String)> = Vec::new();
    for group in standings(facts, Basis::Category) {
        for line in group.lines {
            let best =
                |slot: usize| line.slots[slot].best.unwrap().1.show(facts.bar_unit);
            lines.push((facts.entries[&line.entry].number, best(0), best(1)));
            assert!(line.total.is_some());
        }
    }
    lines.sort();
    let typed: Vec<(u16, String, String)> = snatch
        .iter()
        .map(|(lot, best)| (*lot, best.clone(), jerk[lot].clone()))
        .collect();
    assert_eq!(lines, typed);
    for entry in facts.entries.values() {
        for slot in &facts.slots {
            assert_eq!(facts.next_attempt(entry.key, &slot.slot), None);
        }
    }
}
