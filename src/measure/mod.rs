//! Exact masses and lengths.
//!
//! The lowest room of the house: it knows numbers and units, and must never
//! know a lift, a rule or a person. No float is used here.

mod length;
mod mass;

pub use length::{Length, LengthError};
pub use mass::{Mass, MassError, Unit, Weight};
