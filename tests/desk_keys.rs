//! How many keys the whole sample days take, from the first act to the last: settings,
//! every act of the table, cards and corrections, each typed at the desk by the real
//! key map in the fewest keys that it offers. What is weighed and cleared at the scale
//! is typed too, and counts for the scale, where all athletes are weighed in by
//! `desk_scale_keys`. The roster is imported, which no key types.
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

/// The most keys an athlete of the day for what the acts weigh and clear at the scale:
/// weighing all in by lot takes nine at most (`desk_scale_keys`), and twelve are the
/// limit.
const AT_SCALE: f64 = 3.0;

/// The keys of a whole sample day for an attempt.
fn keys_an_attempt(sample: Sample) -> f64 {
    let mut typist = Typist::new(sample);
    typist.play();
    typist.report();
    if let Ok(path) = std::env::var("MAXDAY_WRITE_KEYS") {
        typist.write_keys(&path);
    }
    typist.check();
    let scale = typist.scale_keys_an_athlete();
    assert!(scale <= AT_SCALE, "{scale:.2} keys an athlete at the scale");
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
