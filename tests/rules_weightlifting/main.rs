//! Weightlifting by its published rules, each check with its source.
//!
//! TCRR is the IWF's Technical and Competition Rules & Regulations, in the
//! parts that federations and officials' pages publish. “From memory” marks a
//! rule whose text was not seen: it is data, and the test shows that a key of
//! the rules changes it.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod before;
mod classes;
mod clock;
mod errors;
mod order;
mod places;
mod requests;
mod rulings;
#[path = "../support/script.rs"]
mod script;
#[path = "../support/mod.rs"]
mod support;

use maxday::day::{ClockMove, Command, Origin, Refusal, standing_request};
use maxday::measure::Weight;
use support::{Table, entry, kg, request, slug};

/// A meet whose lots open the snatch with these loads; the snatch runs.
fn snatch(openers: &[(u16, &str)]) -> Table {
    let entries = openers
        .iter()
        .map(|(n, load)| entry(*n, &[("snatch", kg(load)), ("clean-and-jerk", kg("90"))]))
        .collect();
    let mut table = Table::meet(entries);
    table.start("snatch");
    table
}

/// What stands for the next attempt of a lot in the snatch.
fn stands(table: &Table, number: u16) -> (Weight, Origin) {
    let facts = table.facts();
    let entry = facts.entry_by_number(number).unwrap();
    let slot = slug("snatch");
    let attempt = facts.next_attempt(entry.key, &slot).unwrap();
    let standing = standing_request(facts, entry, &slot, attempt).unwrap();
    (standing.load, standing.origin)
}

/// Says a request that has to be refused.
fn refused(table: &mut Table, number: u16, load: &str) -> Refusal {
    table.no(request(number, "snatch", &kg(load)))
}

fn clock(movement: ClockMove) -> Command {
    Command::Clock {
        platform: Some(1),
        movement,
    }
}

/// A script's meet whose lots open with these loads; the snatch runs.
#[track_caller]
fn meet(rows: &str) -> script::Table {
    let mut table = script::Table::meet();
    table.enter(rows);
    table.play("start||snatch|||A");
    table
}
