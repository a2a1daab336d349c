//! What is promised of the program's speed, each against its bare counterpart.
//!
//! `cargo bench --locked` prints one table; names of parts after `--` run only
//! those. Nothing is asserted here: who reads the table judges it.

// A benchmark may panic and may look at the clock.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod acts;
mod book;
mod days;
mod frame;
mod growth;
mod measure;
mod opens;
mod turn;

use measure::Folder;

/// A part: its name and what it runs.
type Part = (&'static str, fn(&Folder));

const PARTS: [Part; 6] = [
    ("acts", acts::run),
    ("queue", turn::run),
    ("growth", growth::run),
    ("open", opens::run),
    ("frame", frame::run),
    ("book", book::run),
];

fn main() {
    let wanted: Vec<String> = std::env::args()
        .skip(1)
        .filter(|word| !word.starts_with('-'))
        .collect();
    if let Some(odd) = wanted
        .iter()
        .find(|w| !PARTS.iter().any(|(name, _)| name == w))
    {
        let names: Vec<&str> = PARTS.iter().map(|(name, _)| *name).collect();
        panic!("no part {odd}; there are: {}", names.join(", "));
    }
    let folder = Folder::new();
    for (name, part) in PARTS {
        if wanted.is_empty() || wanted.iter().any(|w| w == name) {
            part(&folder);
        }
    }
}
