//! Readers and the meet file under inputs that nobody would write.
//!
//! Each target takes sound inputs, spoils them in ways that look like chance,
//! and asks for what must hold of any input: no panic, no input that takes
//! seconds, and whatever was read is the same when it is written and read
//! again. They run only when asked for:
//!
//! `MAXDAY_FUZZ_SECONDS=60 cargo test --release --locked --test fuzz -- --ignored
//! --nocapture --test-threads=1`
//!
//! What is found is left in the folder for temporary files, and becomes an
//! ordinary test. `MAXDAY_SEED` begins elsewhere.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod found;
mod mutate;
mod run;
mod targets;

use run::run;

#[test]
#[ignore = "runs as long as it is told to"]
fn rosters() {
    run(
        "rosters",
        &targets::roster_seeds(),
        targets::ROSTER_WORDS,
        targets::roster(),
    );
}

#[test]
#[ignore = "runs as long as it is told to"]
fn acts() {
    run(
        "acts",
        &targets::acts_seeds(),
        targets::ACTS_WORDS,
        targets::acts(),
    );
}

#[test]
#[ignore = "runs as long as it is told to"]
fn call_line() {
    run(
        "call-line",
        &targets::line_seeds(),
        targets::LINE_WORDS,
        targets::line(),
    );
}

#[test]
#[ignore = "runs as long as it is told to"]
fn masses() {
    run(
        "masses",
        &targets::mass_seeds(),
        targets::MASS_WORDS,
        targets::mass(),
    );
}

#[test]
#[ignore = "runs as long as it is told to"]
fn rules_files() {
    run(
        "rules",
        &targets::rules_seeds(),
        targets::RULES_WORDS,
        targets::rules(),
    );
}

#[test]
#[ignore = "runs as long as it is told to"]
fn stored_events() {
    run(
        "events",
        &targets::event_seeds(),
        targets::EVENT_WORDS,
        targets::event(),
    );
}

#[test]
#[ignore = "runs as long as it is told to"]
fn day_files() {
    run(
        "days",
        &targets::day_seeds(),
        targets::DAY_WORDS,
        targets::day_file(),
    );
}

#[test]
fn a_spoilt_input_can_be_had_again() {
    let seeds = [b"lot,name\n1,Ann Lee\n".to_vec(), b"12 85 w".to_vec()];
    let of = |seed| {
        let mut dice = mutate::Dice::new(seed);
        (0..50)
            .map(|_| mutate::spoilt(&mut dice, &seeds, &["\"", "-1"]))
            .collect::<Vec<_>>()
    };
    assert_eq!(of(7), of(7));
    assert_ne!(of(7), of(8));
    assert!(of(7).iter().any(|input| !seeds.contains(input)));
}
