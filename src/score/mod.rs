//! Relative strength: published formulas, each one pure function.
//!
//! A score compares what unlike bodies lifted. Numbers are floating point from
//! exact masses, rounded only where they are shown; constants stand in
//! `resources/scores/` with their source and with what of them is from memory.
//! Outside the bodies for which a formula was made there is no number but a
//! typed reason, except where the formula itself stands still. Knows masses and
//! sexes; must never know a day, an entry or how anything is shown.

mod about;
mod ages;
mod leading;
mod norms;
mod powerlifting;
mod progress;
mod refusal;
mod repetitions;
mod robi;
mod scaling;
mod scoring;
mod sinclair;
#[cfg(test)]
mod tests;

pub use crate::rules::{Equipment, Formula};
pub use about::{About, Ages, Certainty};
pub use ages::{AgeFactors, age_factor, age_lists};
pub use leading::leading_formula;
pub use norms::{Band, NormError, NormOf, NormTable, Norms};
pub use powerlifting::{
    Curve, GlSet, Polynomial, curve, dots, gl_from, gl_set, ipf_gl, wilks,
    wilks_coefficient,
};
pub use progress::{
    Amount, Reliability, Verdict, Worthwhile, reliabilities, reliability,
    smallest_worthwhile, worthwhile,
};
pub use refusal::NoScore;
pub use repetitions::{
    Equation, Estimates, MOST_REPS, NoEstimate, equations, estimates, shown_estimate,
    spread,
};
pub use robi::{ClassRecords, RecordError, robi};
pub use scaling::{ExponentError, Exponents, allometric, ratio};
pub use scoring::{Event, Lifted, Score, Scoring, formula_names, formulas};
pub use sinclair::{
    Cycle, SinclairSet, cycle_on, cycles, sinclair, sinclair_coefficient,
};
