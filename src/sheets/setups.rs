//! Which set-ups a day needs: rack heights and grips, by name.

use std::collections::BTreeSet;

use crate::day::Facts;
use crate::lift::{Family, catalogue};

/// Most names beyond those that the programme needs.
const MORE: usize = 6;

/// Names of the set-ups that the programme's lifts need, and of those that are
/// recorded already: first in the order of the lifts, as the openers stand, then the
/// others by name.
pub fn setup_names(facts: &Facts) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for line in &facts.slots {
        let Some(lift) = catalogue().get(line.default_variant().as_str()) else {
            continue;
        };
        let name = match lift.parts.family {
            Family::Squat => "rack squat",
            Family::Bench => "rack bench",
            Family::Press | Family::Jerk => "rack press",
            Family::Snatch => "grip snatch",
            Family::Clean | Family::CleanAndJerk | Family::Deadlift | Family::Row => {
                continue;
            }
        };
        if !names.iter().any(|known| known == name) {
            names.push(name.to_owned());
        }
    }
    let entries = facts.entries.values();
    let used = entries.flat_map(|e| e.setups.keys().cloned());
    let used: BTreeSet<String> = used.take(MORE).collect();
    let more: Vec<String> = used.into_iter().filter(|n| !names.contains(n)).collect();
    names.extend(more);
    names
}
