//! The wall clock and the hand, for the command line alone.

use chrono::NaiveDate;

use crate::day::{Context, Stamp};

/// Now, with this place's offset.
#[allow(clippy::disallowed_methods)] // A face may ask the clock.
pub(super) fn now() -> Stamp {
    Stamp::from_datetime(chrono::Local::now().fixed_offset())
}

/// Today.
pub(super) fn today() -> NaiveDate {
    now().local().date()
}

/// The context of an act that is entered now, by this program's user.
///
/// A time that isn't the act's own is loose: no deadline is judged by it.
pub(super) fn context(by: &str, seed: Option<u64>) -> Context {
    let at = now();
    Context {
        at: at.loosely(),
        hand: by.to_owned(),
        draw: seed.unwrap_or_else(fresh_seed),
    }
}

/// A seed that differs from run to run.
pub(super) fn fresh_seed() -> u64 {
    uuid::Uuid::new_v4().as_u64_pair().0
}
