//! Places: bests, totals, groups and ties.
//!
//! Knows the day's facts and its rules; must never know how anything is
//! shown, posted or stored.

mod groups;
mod ties;

use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::{Entry, EntryKey};

pub use groups::{Basis, category_label, category_set, groups_of};

/// An entry's result in one slot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SlotResult {
    /// The variant entered; `None` where not entered.
    pub lift: Option<Slug>,
    /// The heaviest good attempt: its number and load.
    pub best: Option<(u8, Mass)>,
    /// Place among the same variant in the group.
    pub place: Option<u32>,
}

/// An entry's line in a group.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Who.
    pub entry: EntryKey,
    /// Results in the order of the programme.
    pub slots: Vec<SlotResult>,
    /// Sum of the bests that count, if there is one.
    pub total: Option<Mass>,
    /// Place by total among those with the same variants in the group.
    pub place: Option<u32>,
}

/// Entries that are placed together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// `F 63`, a flight's or division's name, `all`, or empty for entries
    /// that have no group yet.
    pub label: String,
    /// Where its limits come from, or why there is no group.
    pub remark: String,
    /// Its lines, by place.
    pub lines: Vec<Line>,
}

/// The standings: every entry has a line, also without a group or an attempt.
///
/// Variants are different lifts and never share a ranking: a slot's place is
/// among the same variant, a total's among the same variants. Lines whose
/// variants are the programme's own come first.
///
/// By slot, every lift of every category is a group of its own, by its place.
pub fn standings(facts: &Facts, basis: Basis) -> Vec<Group> {
    let groups = placed_groups(facts, basis);
    if basis == Basis::Slot {
        return groups.iter().flat_map(|g| by_slot(facts, g)).collect();
    }
    groups
}

/// A category's group, a lift at a time.
fn by_slot(facts: &Facts, group: &Group) -> Vec<Group> {
    let mut lifts = Vec::new();
    for (i, slot) in facts.slots.iter().enumerate() {
        for variant in &slot.variants {
            let mut lines: Vec<Line> = group
                .lines
                .iter()
                .filter(|l| l.slots[i].lift.as_ref() == Some(variant))
                .cloned()
                .collect();
            lines.sort_by_key(|l| {
                let number = facts.entries.get(&l.entry).map_or(u16::MAX, |e| e.number);
                (l.slots[i].place.unwrap_or(u32::MAX), number)
            });
            if !lines.is_empty() {
                lifts.push(Group {
                    label: format!("{} {variant}", group.label).trim().to_owned(),
                    remark: group.remark.clone(),
                    lines,
                });
            }
        }
    }
    lifts
}

fn placed_groups(facts: &Facts, basis: Basis) -> Vec<Group> {
    groups_of(facts, basis)
        .into_iter()
        .map(|(label, remark, keys)| {
            let mut lines: Vec<Line> = keys
                .iter()
                .filter_map(|key| facts.entries.get(key))
                .map(|entry| line(facts, entry))
                .collect();
            // Who has no group yet is placed with nobody.
            if !label.is_empty() {
                place_slots(facts, &mut lines);
                place_totals(facts, &mut lines);
            }
            lines.sort_by_key(|l| {
                let number = facts.entries.get(&l.entry).map_or(u16::MAX, |e| e.number);
                (signature(facts, l), l.place.unwrap_or(u32::MAX), number)
            });
            Group {
                label,
                remark,
                lines,
            }
        })
        .collect()
}

fn line(facts: &Facts, entry: &Entry) -> Line {
    let slots: Vec<SlotResult> = facts
        .slots
        .iter()
        .map(|l| SlotResult {
            lift: entry.variant(&l.slot).cloned(),
            best: facts.best(entry.key, &l.slot).and_then(|(n, ruled)| {
                ruled.fact.credited.as_ref().map(|load| (n, load.mass))
            }),
            place: None,
        })
        .collect();
    Line {
        entry: entry.key,
        total: total(facts, &slots),
        slots,
        place: None,
    }
}

/// The sum of the bests that the rules count.
fn total(facts: &Facts, slots: &[SlotResult]) -> Option<Mass> {
    if !facts.rules.total || slots.is_empty() {
        return None;
    }
    let bests: Vec<Mass> = slots
        .iter()
        .filter_map(|s| s.best.map(|(_, mass)| mass))
        .collect();
    let complete = bests.len() == slots.len();
    if bests.is_empty() || (facts.rules.total_needs_all && !complete) {
        return None;
    }
    Some(bests.into_iter().sum())
}

/// Which variant each slot has, by its place in the programme; the
/// programme's own sort first, and who isn't entered counts as that.
fn signature(facts: &Facts, line: &Line) -> Vec<usize> {
    facts
        .slots
        .iter()
        .zip(&line.slots)
        .map(|(slot, result)| {
            result
                .lift
                .as_ref()
                .and_then(|lift| slot.variants.iter().position(|v| v == lift))
                .unwrap_or(0)
        })
        .collect()
}

fn place_slots(facts: &Facts, lines: &mut [Line]) {
    for (i, slot) in facts.slots.iter().enumerate() {
        for variant in &slot.variants {
            let mut order: Vec<usize> = (0..lines.len())
                .filter(|l| lines[*l].slots[i].lift.as_ref() == Some(variant))
                .filter(|l| lines[*l].slots[i].best.is_some())
                .collect();
            order.sort_by(|a, b| ties::by_slot(facts, &lines[*a], &lines[*b], i));
            let places = places(&order, |a, b| {
                ties::by_slot(facts, &lines[a], &lines[b], i).is_eq()
            });
            for (l, place) in order.into_iter().zip(places) {
                lines[l].slots[i].place = Some(place);
            }
        }
    }
}

fn place_totals(facts: &Facts, lines: &mut [Line]) {
    let signatures: Vec<Vec<usize>> = lines.iter().map(|l| signature(facts, l)).collect();
    let mut kinds = signatures.clone();
    kinds.sort();
    kinds.dedup();
    for kind in kinds {
        let mut order: Vec<usize> = (0..lines.len())
            .filter(|l| signatures[*l] == kind && lines[*l].total.is_some())
            .collect();
        order.sort_by(|a, b| ties::by_total(facts, &lines[*a], &lines[*b]));
        let places = places(&order, |a, b| {
            ties::by_total(facts, &lines[a], &lines[b]).is_eq()
        });
        for (l, place) in order.into_iter().zip(places) {
            lines[l].place = Some(place);
        }
    }
}

/// 1, 2, 2, 4: equal ones share a place, and the places after it stay free.
fn places(order: &[usize], equal: impl Fn(usize, usize) -> bool) -> Vec<u32> {
    let mut places: Vec<u32> = Vec::with_capacity(order.len());
    for (i, (line, rank)) in order.iter().zip(1_u32..).enumerate() {
        let shared = i > 0 && equal(order[i - 1], *line);
        let place = match places.last() {
            Some(last) if shared => *last,
            _ => rank,
        };
        places.push(place);
    }
    places
}
