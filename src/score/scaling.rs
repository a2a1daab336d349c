//! Load over bodyweight, and over a power of it.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::about::{About, shipped};
use crate::lift::lift_named;
use crate::measure::Mass;

/// Load over bodyweight; no unit.
///
/// The oldest comparison, in use in college intramural rules; favours light
/// athletes, since strength grows more slowly than mass. Rising in the load,
/// falling in the bodyweight, which has to be above 0. Equal ratios give the
/// same number, whatever their loads. Shown to 3 decimals.
pub fn ratio(load: Mass, bodyweight: Mass) -> f64 {
    // Both counts are whole and below 2^53, so one division rounds once.
    load.kg_f64() * 1e11 / (bodyweight.kg_f64() * 1e11)
}

/// Load in kg over bodyweight in kg to the power `exponent`.
///
/// Theory has 2/3 (the area of muscle against mass); published fits by lift lie
/// between 0.287 and 0.67. Rising in the load; falling in the bodyweight where
/// the exponent is above 0. A score compares only within one lift and exponent.
/// Shown to 4 decimals.
pub fn allometric(load: Mass, bodyweight: Mass, exponent: f64) -> f64 {
    load.kg_f64() / libm::pow(bodyweight.kg_f64(), exponent)
}

/// The exponents of bodyweight, by lift.
#[derive(Debug, Clone, PartialEq)]
pub struct Exponents {
    usual: f64,
    lifts: BTreeMap<String, f64>,
}

/// Why a text gives no exponents.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ExponentError {
    /// Not an exponent.
    #[error(
        "“{0}” is no exponent; write one from 0 to 1 such as 0.67, or one a lift such as \
         bench-press=0.559,back-squat=0.5."
    )]
    Number(String),
    /// Not a lift; the sentence says which are known.
    #[error("{0}")]
    Lift(String),
}

impl Exponents {
    /// The shipped ones.
    pub fn shipped() -> Self {
        let file = file();
        let lifts = file.lift.iter().flat_map(|lift| {
            let slugs = lift.slugs.iter().cloned();
            slugs.map(|slug| (slug, lift.exponent))
        });
        Self {
            usual: file.usual.exponent,
            lifts: lifts.collect(),
        }
    }

    /// The shipped ones with changes: one exponent for all, or `lift=exponent`
    /// with commas between; from 0 to 1.
    ///
    /// # Errors
    /// [`ExponentError`], naming the part that is wrong.
    pub fn changed(text: &str) -> Result<Self, ExponentError> {
        let mut own = Self::shipped();
        for part in text.split(',').map(str::trim) {
            let number = |text: &str| {
                let value = text.trim().parse::<f64>().ok();
                value
                    .filter(|v| (0.0..=1.0).contains(v))
                    .ok_or_else(|| ExponentError::Number(part.to_owned()))
            };
            match part.split_once('=') {
                Some((lift, value)) if !lift.trim().is_empty() => {
                    let value = number(value)?;
                    let slug = lift_named(lift).map_err(ExponentError::Lift)?;
                    let _ = own.lifts.insert(slug.to_string(), value);
                }
                _ => {
                    own.usual = number(part)?;
                    own.lifts.clear();
                }
            }
        }
        Ok(own)
    }

    /// The exponent of a lift, or of a total where none is named.
    pub fn of(&self, lift: Option<&str>) -> f64 {
        let own = lift.and_then(|lift| self.lifts.get(lift));
        own.copied().unwrap_or(self.usual)
    }
}

#[derive(Deserialize, Default)]
struct RatioFile {
    about: About,
}

#[derive(Deserialize, Default)]
struct File {
    about: About,
    usual: Usual,
    lift: Vec<OfLift>,
}

#[derive(Deserialize, Default)]
struct Usual {
    exponent: f64,
}

#[derive(Deserialize)]
struct OfLift {
    slugs: Vec<String>,
    exponent: f64,
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| shipped(include_str!("../../resources/scores/allometric.toml")))
}

pub(super) fn about_allometric() -> &'static About {
    &file().about
}

pub(super) fn about_ratio() -> &'static About {
    static FILE: OnceLock<RatioFile> = OnceLock::new();
    let file =
        FILE.get_or_init(|| shipped(include_str!("../../resources/scores/ratio.toml")));
    &file.about
}
