//! What several repetitions with a load say about a max, by published equations.

use std::sync::OnceLock;

use serde::Deserialize;

use super::about::shipped;
use crate::measure::{Mass, Unit};

/// The most repetitions from which a max is estimated.
pub const MOST_REPS: u8 = 10;

/// A published equation.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Equation {
    /// Its name.
    pub name: String,
    /// Its title.
    pub title: String,
    /// The formula in words, for w a load and r the repetitions.
    pub formula: String,
    /// Where it was read.
    pub source: String,
    /// How far it was off in published comparisons; empty where none is known.
    pub found: String,
    shape: Shape,
    #[serde(default)]
    k: f64,
    a: f64,
    #[serde(default)]
    b: f64,
    #[serde(default)]
    c: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Shape {
    Linear,
    Reciprocal,
    Power,
    Exponential,
}

/// Why nothing is estimated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoEstimate {
    /// Too many repetitions, or none.
    #[error("{0} repetitions give no estimate; 1 to {MOST_REPS} do.")]
    Reps(u8),
    /// No load.
    #[error("There is no load to estimate from; it has to be above 0.")]
    Load,
}

/// What the equations say, and how far apart they are.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimates {
    /// Each equation with its max, in kg, in the order of their list.
    pub each: Vec<(&'static Equation, f64)>,
    /// The least of them, in kg.
    pub least: f64,
    /// The most of them, in kg.
    pub most: f64,
}

impl Equation {
    /// The max, in kg, that `reps` repetitions with a load speak for.
    ///
    /// The seven published equations of Epley, Brzycki, Lander, Lombardi,
    /// Mayhew, O'Conner and Wathan. From 1 to 10 repetitions to failure, since
    /// the error grows with them; one repetition is the load itself, also where
    /// the equation would say otherwise. Rising in the load and in the
    /// repetitions. Shown to a tenth of the unit.
    ///
    /// # Errors
    /// [`NoEstimate`] outside these bounds.
    pub fn max(&self, load: Mass, reps: u8) -> Result<f64, NoEstimate> {
        let w = load.kg_f64();
        match reps {
            _ if load <= Mass::ZERO => Err(NoEstimate::Load),
            1 => Ok(w),
            2..=MOST_REPS => Ok(self.apply(w, f64::from(reps))),
            _ => Err(NoEstimate::Reps(reps)),
        }
    }

    fn apply(&self, w: f64, r: f64) -> f64 {
        match self.shape {
            Shape::Linear => w * (1.0 + r / self.a),
            Shape::Reciprocal => self.k * w / (self.a - self.b * r),
            Shape::Power => w * libm::pow(r, self.a),
            Shape::Exponential => self.k * w / (self.a + self.b * libm::exp(-self.c * r)),
        }
    }
}

/// The seven published equations.
pub fn equations() -> &'static [Equation] {
    &file().equation
}

/// How far the equations were off, taken together, as sentences.
pub fn spread() -> &'static str {
    &file().limits.spread
}

/// What all equations say of so many repetitions with a load.
///
/// # Errors
/// [`NoEstimate`] for no load, no repetition, or more than ten.
pub fn estimates(load: Mass, reps: u8) -> Result<Estimates, NoEstimate> {
    let each = equations()
        .iter()
        .map(|equation| Ok((equation, equation.max(load, reps)?)))
        .collect::<Result<Vec<_>, NoEstimate>>()?;
    let maxes = || each.iter().map(|(_, max)| *max);
    Ok(Estimates {
        least: maxes().fold(f64::INFINITY, f64::min),
        most: maxes().fold(0.0, f64::max),
        each,
    })
}

/// An estimate of so many kilograms as it is shown: rounded to a tenth of the
/// unit.
pub fn shown_estimate(kg: f64, unit: Unit) -> String {
    format!("{:.1}", kg / Mass::whole(1, unit).kg_f64())
}

#[derive(Deserialize, Default)]
struct File {
    limits: Limits,
    equation: Vec<Equation>,
}

#[derive(Deserialize, Default)]
struct Limits {
    spread: String,
}

fn file() -> &'static File {
    static FILE: OnceLock<File> = OnceLock::new();
    FILE.get_or_init(|| shipped(include_str!("../../resources/reps.toml")))
}
