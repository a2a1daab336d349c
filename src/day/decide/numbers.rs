//! Start numbers in place of the lots.

use std::collections::BTreeSet;

use super::Decided;
use crate::day::Refusal;
use crate::day::event::Event;
use crate::day::facts::Facts;
use crate::roster::{Entry, EntryKey};
use crate::rules::TableNumber;

/// Gives start numbers: those named, or 1, 2, 3 … over the day, session by
/// session in the order of their names, and within a session by lot.
///
/// Weightlifting numbers the athletes of a session after the weigh-in so that
/// the order of the lots is kept (a published guide to the athlete's card).
pub(super) fn number(facts: &Facts, given: &[(u16, u16)]) -> Result<Decided, Refusal> {
    let refused = |why: &str| Err(Refusal::NoStartNumbers(why.to_owned()));
    if facts.rules.table_number != TableNumber::Start {
        return refused("the table number is the lot under these rules");
    }
    let called = facts.platforms.iter().any(|p| p.call.is_some());
    let ruled = facts
        .runs
        .values()
        .flat_map(|runs| runs.values())
        .flat_map(|run| run.attempts.values())
        .any(|a| a.ruled.is_some());
    if called || ruled {
        return refused("somebody has been called already, so the numbers stand");
    }
    let numbers = if given.is_empty() {
        by_lot(facts)
    } else {
        named(facts, given)?
    };
    if numbers.is_empty() {
        return refused("nobody is entered yet");
    }
    Decided::one(None, Event::Numbered { numbers })
}

fn by_lot(facts: &Facts) -> Vec<(EntryKey, u16)> {
    let mut entries: Vec<&Entry> = facts.entries.values().collect();
    entries.sort_by_key(|e| (e.session.as_str(), e.lot.unwrap_or(e.number), e.key));
    entries.into_iter().map(|e| e.key).zip(1..).collect()
}

fn named(facts: &Facts, given: &[(u16, u16)]) -> Result<Vec<(EntryKey, u16)>, Refusal> {
    let mut numbers = Vec::new();
    for (old, new) in given {
        let entry = facts
            .entry_by_number(*old)
            .ok_or(Refusal::NoSuchNumber(*old))?;
        numbers.push((entry.key, *new));
    }
    let renamed: BTreeSet<EntryKey> = numbers.iter().map(|(key, _)| *key).collect();
    let mut taken: BTreeSet<u16> = facts
        .entries
        .values()
        .filter(|e| !renamed.contains(&e.key))
        .map(|e| e.number)
        .collect();
    for (_, new) in &numbers {
        if !taken.insert(*new) {
            return Err(Refusal::NoStartNumbers(format!(
                "number {new} would be there twice"
            )));
        }
    }
    Ok(numbers)
}
