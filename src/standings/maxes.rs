//! What each athlete has shown in each lift.

use super::estimate::best_estimate;
use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::Entry;

/// A max in one lift.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Max {
    /// The slot in which it was lifted.
    pub slot: Slug,
    /// The lift: one of the slot's variants.
    pub lift: Slug,
    /// The heaviest good attempt of one repetition, or the heaviest estimate.
    pub mass: Mass,
    /// Whether it is estimated from several repetitions.
    pub estimated: bool,
}

/// An athlete's maxes in the order of the programme, each variant by itself.
///
/// An estimate stands only where no single repetition was good, as in the
/// standings. Guests and those who were disqualified have lifted what they
/// lifted.
pub fn maxes(facts: &Facts, entry: &Entry) -> Vec<Max> {
    let lifts = facts
        .slots
        .iter()
        .flat_map(|line| line.variants.iter().map(move |lift| (&line.slot, lift)));
    lifts
        .filter_map(|(slot, lift)| {
            let tested = facts
                .best_of(entry.key, slot, |l| l == lift)
                .and_then(|(_, ruled)| ruled.fact.credited.as_ref())
                .map(|load| (load.mass, false));
            let (mass, estimated) = tested.or_else(|| {
                let best = best_estimate(facts, entry.key, slot, |l| l == lift);
                best.map(|(_, _, mass)| (mass, true))
            })?;
            Some(Max {
                slot: slot.clone(),
                lift: lift.clone(),
                mass,
                estimated,
            })
        })
        .collect()
}
