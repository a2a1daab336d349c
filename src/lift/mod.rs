//! The catalogue of barbell lifts: what a lift is, what it is called and how it
//! is judged.
//!
//! A [`Lift`] is a family × start × catch × form ([`Parts`]) under a [`Slug`] that
//! is stored and never renamed. Its name is computed from the parts
//! ([`name_of`]), so are the faults that a judge may name ([`faults_for`]); its
//! aliases, spotters and cautions are data (`resources/lifts.toml`,
//! `resources/faults.toml`).
//!
//! This module knows no loads, no athletes, no formats and no bodyweight
//! categories. It reads no file: the two resources are compiled in.

mod cards;
mod catalogue;
mod naming;
mod parts;
mod slug;
mod standard;

pub use cards::{Card, FaultGroup};
pub use catalogue::{Catalogue, CatalogueError, Fault, Lift, catalogue, lift_named};
pub use naming::{name_of, parts_of};
pub use parts::{Body, Catch, Family, Form, Parts, Start};
pub use slug::{Slug, SlugError};
pub use standard::faults_for;

#[cfg(test)]
mod tests;
