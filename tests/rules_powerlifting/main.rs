//! Powerlifting by its published rules, each check with its source.
//!
//! The sources are the rulebooks and guides of several federations in the
//! parts that they publish (IPF 2007 and its affiliates, USA Powerlifting
//! 2026, World Para Powerlifting, WDFPF 2007, WPC, IPL 2019, school rules).
//! “From memory” marks a rule whose text was not seen: it is data, and the
//! test shows that a key of the rules changes it.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod classes;
mod errors;
mod lights;
mod places;
mod requests;
mod rounds;
mod schools;
#[path = "../support/script.rs"]
mod script;

use script::Table;

/// A meet whose lifters open with these loads; the squat of flight A runs.
#[track_caller]
fn squat(rows: &str) -> Table {
    let mut table = Table::power();
    table.enter(rows);
    table.play("start||back-squat|||A");
    table
}
