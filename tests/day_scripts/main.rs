//! Day scripts: acts as plain text, what the table answers, and what the
//! queue and the standings say then. How a script is written stands in
//! `tests/support/script.rs`.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod corrections;
mod gates;
mod meet;
mod racks;
#[path = "../support/script.rs"]
mod script;

use script::Table;
