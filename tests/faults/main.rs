//! Nothing that was acknowledged is ever lost, and nothing changes unseen.
//!
//! Kills, torn and rotten files, full disks, power cuts, and what a person can
//! take away on purpose.

// A test may panic, and most of what is shared is used by some modules only.
#![allow(clippy::unwrap_used, clippy::expect_used)]

#[path = "../bin/mod.rs"]
mod bin;
mod chance;
mod erase;
mod kills;
mod power;
mod recover;
mod shim;
mod torn;
mod trouble;

use maxday::day::{Command, Context, Stamp};

/// So many seconds after the first moment of a day.
fn stamp(seconds: i64) -> Stamp {
    Stamp {
        ms: 1_794_923_000_000 + seconds * 1000,
        offset: -360,
        loose: false,
    }
}

fn context(seconds: i64) -> Context {
    Context {
        at: stamp(seconds),
        hand: "Table".to_owned(),
        draw: 7,
    }
}

/// An act that can always be taken.
fn note(text: &str) -> Command {
    Command::Note {
        number: None,
        act: None,
        text: text.to_owned(),
        platform: None,
    }
}
