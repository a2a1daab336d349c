//! How many keys the sample days take from the first station check on: every act
//! of them typed at the desk, by the real key map, in the fewest keys that it
//! offers. What comes before it is set or weighed and isn't counted here; with it
//! the days take more than these limits.
//!
//! A key is one press; a letter with Ctrl, Alt or Shift held is one. `window.sh`
//! beside the typist presses the same keys in the real window.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;
#[path = "desk_keys/typist.rs"]
mod typist;

use maxday::samples::Sample;
use typist::Typist;

/// The keys of a sample day for an attempt, from the first station check on.
fn keys_an_attempt(sample: Sample) -> f64 {
    let mut typist = Typist::new(sample);
    typist.play();
    typist.report();
    if let Ok(path) = std::env::var("MAXDAY_WRITE_KEYS") {
        typist.write_keys(&path);
    }
    typist.check();
    typist.keys_an_attempt()
}

#[test]
fn a_weightlifting_meet_takes_few_keys() {
    let keys = keys_an_attempt(Sample::Meet);
    assert!(keys <= 4.5, "{keys:.2} keys an attempt");
}

#[test]
fn a_powerlifting_meet_takes_few_keys() {
    let keys = keys_an_attempt(Sample::Powerlifting);
    assert!(keys <= 4.5, "{keys:.2} keys an attempt");
}

#[test]
fn a_max_day_on_four_racks_takes_few_keys() {
    let keys = keys_an_attempt(Sample::MaxDay);
    assert!(keys <= 5.5, "{keys:.2} keys an attempt");
}
