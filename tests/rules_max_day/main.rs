//! A max day by published test protocols and common practice, each check with
//! its source.
//!
//! NSCA's protocol is the textbook one as summarised by a candidate; ACSM is
//! its Guidelines, 9th edition (2014). “Common practice” is a fact of the
//! trade with no published source.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod advice;
mod care;
mod closing;
mod outcomes;
mod racks;
#[path = "../support/script.rs"]
mod script;

use script::Table;

/// Two racks in pounds: three on rack 1, one on rack 2; the clean runs.
fn racks() -> Table {
    let mut table = Table::racks();
    table.enter(
        "1 A 95 135
        2 A 105 155
        3 A 100 -
        7 B 65 95; platform=2",
    );
    table.play(
        "start||clean|||A
        start||clean|||B",
    );
    table
}
