//! Sinclair totals.

use std::sync::OnceLock;

use chrono::{Datelike, NaiveDate};
use serde::Deserialize;

use super::about::{About, Certainty, shipped};
use crate::measure::Mass;
use crate::rules::Sex;

/// The constants of a sex in one cycle.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
pub struct SinclairSet {
    /// The factor A.
    pub a: f64,
    /// The bodyweight b, in kg, from which the coefficient is 1.
    pub b: f64,
}

/// The constants of one Olympic cycle.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Cycle {
    /// Its first year.
    pub from: i32,
    /// Its last year.
    pub until: i32,
    /// Where it was read.
    pub source: String,
    /// How sure that is.
    pub certainty: Certainty,
    #[serde(rename = "F")]
    f: SinclairSet,
    #[serde(rename = "M")]
    m: SinclairSet,
}

impl Cycle {
    /// The constants of a sex.
    pub const fn of(&self, sex: Sex) -> SinclairSet {
        match sex {
            Sex::F => self.f,
            Sex::M => self.m,
        }
    }
}

/// What a total is multiplied by: `10^(A (log10(x / b))^2)` for a bodyweight x
/// below b, else 1; never rounded.
///
/// Source: IWF Sinclair page of 2001-2004. The published tables begin at 28 kg
/// for women and 32 kg for men; below, nothing is defined. Falling in the
/// bodyweight up to b.
pub fn sinclair_coefficient(bodyweight: Mass, set: SinclairSet) -> f64 {
    let x = bodyweight.kg_f64();
    if x >= set.b {
        return 1.0;
    }
    let log = libm::log10(x / set.b);
    libm::pow(10.0, set.a * log * log)
}

/// The Sinclair total in kg: the total times the coefficient.
///
/// Source: IWF Sinclair page of 2001-2004, whose example keeps 3 decimals.
/// Rising in the total. For bounds see [`sinclair_coefficient`].
pub fn sinclair(total: Mass, bodyweight: Mass, set: SinclairSet) -> f64 {
    total.kg_f64() * sinclair_coefficient(bodyweight, set)
}

#[derive(Deserialize, Default)]
struct File {
    about: About,
    cycle: Vec<Cycle>,
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| shipped(include_str!("../../resources/scores/sinclair.toml")))
}

pub(super) fn about() -> &'static About {
    &file().about
}

/// The cycles that are known, the earliest first.
pub fn cycles() -> &'static [Cycle] {
    &file().cycle
}

/// The cycle of a day, and whether the day lies in it; after the last one that
/// is known, the last one. `None` before the first.
pub fn cycle_on(day: NaiveDate) -> Option<(&'static Cycle, bool)> {
    let year = day.year();
    let cycle = cycles().iter().rev().find(|c| c.from <= year)?;
    Some((cycle, year <= cycle.until))
}
