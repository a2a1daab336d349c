//! Who stands before whom.

use std::cmp::Ordering;

use super::Line;
use crate::day::{Facts, Ruled};
use crate::measure::Mass;
use crate::rules::TieKey;

/// Order in one slot: who was tested before who has an estimate only, the
/// heavier first, then the rules' chain.
///
/// Weightlifting (TCRR 6.8.2 as published): best, attempt number of the best,
/// attempts before it, number.
pub(super) fn by_slot(facts: &Facts, a: &Line, b: &Line, slot: usize) -> Ordering {
    let load = |l: &Line| l.slots[slot].mark().map(|(tested, mass, _)| (tested, mass));
    load(b)
        .cmp(&load(a))
        .then_with(|| chain(facts, &facts.rules.ties_lift, a, b, slot, false))
}

/// Order by total: the heavier, then the rules' chain over the last slot.
///
/// Weightlifting (TCRR 6.8.2 as published): total, lower best clean and jerk,
/// its attempt number, attempts before it, number.
pub(super) fn by_total(facts: &Facts, a: &Line, b: &Line) -> Ordering {
    let last = facts.slots.len().saturating_sub(1);
    b.total
        .cmp(&a.total)
        .then_with(|| chain(facts, &facts.rules.ties_total, a, b, last, true))
}

fn chain(
    facts: &Facts,
    keys: &[TieKey],
    a: &Line,
    b: &Line,
    slot: usize,
    total: bool,
) -> Ordering {
    for key in keys {
        let ordering = match key {
            TieKey::BestAttempt => attempt(a, slot, total).cmp(&attempt(b, slot, total)),
            TieKey::Previous => previous(facts, a, b, slot, total),
            TieKey::LastSlotLower => best(a, slot).cmp(&best(b, slot)),
            TieKey::Bodyweight => bodyweight(facts, a).cmp(&bodyweight(facts, b)),
            TieKey::Earlier => {
                taken(facts, a, slot, total).cmp(&taken(facts, b, slot, total))
            }
            TieKey::Number => number(facts, a).cmp(&number(facts, b)),
            TieKey::Shared => return Ordering::Equal,
        };
        if ordering != Ordering::Equal {
            return ordering;
        }
    }
    Ordering::Equal
}

/// The attempt by which a line is placed; only what was tested counts for a
/// total.
fn attempt(line: &Line, slot: usize, total: bool) -> Option<u8> {
    let result = line.slots.get(slot)?;
    let (tested, _, attempt) = result.mark()?;
    (tested || !total).then_some(attempt)
}

fn best(line: &Line, slot: usize) -> Option<Mass> {
    line.slots.get(slot)?.best.map(|(_, mass)| mass)
}

fn number(facts: &Facts, line: &Line) -> Option<u16> {
    facts.entries.get(&line.entry).map(|e| e.number)
}

/// Lighter first; who wasn't weighed last.
fn bodyweight(facts: &Facts, line: &Line) -> Mass {
    facts
        .entries
        .get(&line.entry)
        .and_then(|e| e.bodyweight.as_ref())
        .map_or(Mass::from_counts(i64::MAX), |w| w.mass)
}

/// When the attempt that counts was lifted, by its place in the journal; for a
/// total, when the last of them was.
fn taken(facts: &Facts, line: &Line, slot: usize, total: bool) -> Option<u64> {
    let seq = |i: usize| -> Option<u64> {
        let slot = &facts.slots.get(i)?.slot;
        let n = attempt(line, i, total)?;
        let attempt = facts.attempt(line.entry, slot, n)?;
        attempt.ruled.as_ref().map(|r| r.seq)
    };
    if total {
        (0..facts.slots.len()).filter_map(seq).max()
    } else {
        seq(slot)
    }
}

/// Loads of the attempts before the best, walking back; the lighter first.
fn previous(facts: &Facts, a: &Line, b: &Line, slot: usize, total: bool) -> Ordering {
    let back = |line: &Line| -> Vec<Option<Mass>> {
        let Some(programme) = facts.slots.get(slot) else {
            return Vec::new();
        };
        let from = attempt(line, slot, total).unwrap_or(1);
        (1..from)
            .rev()
            .map(|n| {
                facts
                    .attempt(line.entry, &programme.slot, n)
                    .and_then(|a| a.ruled.as_ref())
                    .and_then(load)
            })
            .collect()
    };
    back(a).cmp(&back(b))
}

fn load(ruled: &Ruled) -> Option<Mass> {
    let fact = &ruled.fact;
    fact.credited
        .as_ref()
        .or(fact.loaded.as_ref())
        .or(fact.requested.as_ref())
        .map(|w| w.mass)
}
