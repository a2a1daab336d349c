//! Places: bests, totals, groups, ties and teams; records and history.
//!
//! Knows the day's facts and its rules; must never know how anything is
//! shown, posted or stored.

mod by_lift;
mod clubs;
mod day_scores;
mod estimate;
mod groups;
mod history;
mod leaders;
mod maxes;
mod norms;
mod records;
mod same_person;
mod scored;
mod teams;
mod ties;

use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::{Entry, EntryKey, SlotLine};

pub use clubs::{ClubLine, Member, clubs};
pub use day_scores::{day_scores, day_scoring, leading_scores};
pub use estimate::{LoadChart, load_chart};
pub use groups::{Basis, category_label, category_set, groups_of, has_divisions};
use groups::{flight_label, flight_rank};
pub use history::{
    Answer, Found, HistoryRow, Past, PastMax, PastPerson, history, past_of,
};
pub use leaders::{Leader, Leaders, Over, leaders};
pub use maxes::{Max, maxes};
pub use norms::{BandRow, bands};
pub use records::{RecordLine, RecordSet, broken_by, records, would_break};
pub use scored::{score_of, standings_by_score, without_score};
pub use teams::{Score, ScoredIn, TeamLine, teams};

/// Whether an entry is placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Standing {
    /// Placed by what was lifted.
    #[default]
    Placed,
    /// A guest: never placed, and others as if the guest weren't there.
    Guest,
    /// Disqualified on the day: no place, no total.
    Disqualified,
}

impl Standing {
    /// Whether an entry is placed on the day.
    pub const fn of(entry: &Entry) -> Self {
        if entry.disqualified {
            Self::Disqualified
        } else if entry.guest {
            Self::Guest
        } else {
            Self::Placed
        }
    }

    /// The word beside a name, which may be posted; empty for who is placed.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Placed => "",
            Self::Guest => "guest",
            Self::Disqualified => "disqualified",
        }
    }
}

/// An entry's result in one slot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SlotResult {
    /// The variant that counts; `None` where not entered.
    pub lift: Option<Slug>,
    /// The heaviest good attempt of one repetition: its number and load.
    pub best: Option<(u8, Mass)>,
    /// The heaviest estimate from several repetitions: the attempt's number
    /// and the estimated max.
    pub estimate: Option<(u8, Mass)>,
    /// Place among the same variant in the group: by best, then who has only
    /// an estimate.
    pub place: Option<u32>,
    /// Whether the entry was disqualified in the slot or on the day.
    pub disqualified: bool,
}

impl SlotResult {
    /// What it is placed by: whether that was tested, its load, its attempt.
    fn mark(&self) -> Option<(bool, Mass, u8)> {
        let best = self.best.map(|(n, mass)| (true, mass, n));
        best.or_else(|| self.estimate.map(|(n, mass)| (false, mass, n)))
    }
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
    /// Whether it is placed at all.
    pub standing: Standing,
}

/// Entries that are placed together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// `F 63`, a flight's or division's name, `all`, or empty for entries
    /// that have no group yet.
    pub label: String,
    /// Where its limits come from, or why there is no group.
    pub remark: String,
    /// The slot that it ranks, where it is one lift's.
    pub slot: Option<Slug>,
    /// Its lines, by place; guests and who was disqualified come last.
    pub lines: Vec<Line>,
}

/// The standings: every entry has a line, also without a group or an attempt.
///
/// Variants are different lifts and never share a ranking: a slot's place is
/// among the same variant, a total's among the same variants. Lines whose
/// variants are the programme's own come first.
///
/// By slot, every lift of every category is a group of its own, by its place;
/// who has good attempts in two variants of a slot stands in both.
pub fn standings(facts: &Facts, basis: Basis) -> Vec<Group> {
    let groups = placed_groups(facts, basis);
    if basis == Basis::Slot {
        return groups
            .iter()
            .flat_map(|g| by_lift::parted(facts, g))
            .collect();
    }
    groups
}

fn placed_groups(facts: &Facts, basis: Basis) -> Vec<Group> {
    groups_of(facts, basis)
        .into_iter()
        .map(|(label, remark, keys)| placed_group(facts, label, remark, &keys))
        .collect()
}

fn placed_group(
    facts: &Facts,
    label: String,
    remark: String,
    keys: &[EntryKey],
) -> Group {
    let mut lines: Vec<Line> = keys
        .iter()
        .filter_map(|key| facts.entries.get(key))
        .map(|entry| line(facts, entry))
        .collect();
    // Who has no group yet is placed with nobody.
    if !label.is_empty() {
        for (i, slot) in facts.slots.iter().enumerate() {
            for variant in &slot.variants {
                place_slot(facts, &mut lines, i, variant);
            }
        }
        place_totals(facts, &mut lines);
    }
    sort_by_place(facts, &mut lines);
    Group {
        label,
        remark,
        slot: None,
        lines,
    }
}

/// The programme's own lifts first, then by place; guests and who was
/// disqualified come last. While nobody has a total, the places in the lifts
/// tell who is ahead, the first lift first.
fn sort_by_place(facts: &Facts, lines: &mut [Line]) {
    let early = lines.iter().all(|l| l.place.is_none());
    let ahead = |l: &Line| -> Vec<u32> {
        let places = l.slots.iter().map(|s| s.place.unwrap_or(u32::MAX));
        if early { places.collect() } else { Vec::new() }
    };
    lines.sort_by_key(|l| {
        (
            signature(facts, l),
            l.standing,
            l.place.unwrap_or(u32::MAX),
            ahead(l),
            number_of(facts, l.entry),
        )
    });
}

fn number_of(facts: &Facts, entry: EntryKey) -> u16 {
    facts.entries.get(&entry).map_or(u16::MAX, |e| e.number)
}

fn line(facts: &Facts, entry: &Entry) -> Line {
    let slots: Vec<SlotResult> = facts
        .slots
        .iter()
        .map(|slot| counted(facts, entry, slot))
        .collect();
    Line {
        entry: entry.key,
        total: total(facts, &slots),
        slots,
        place: None,
        standing: Standing::of(entry),
    }
}

/// The result in a slot by the variant that counts: that of the best; without
/// one the variant entered, unless only another one has an estimate.
fn counted(facts: &Facts, entry: &Entry, line: &SlotLine) -> SlotResult {
    let slot = &line.slot;
    let mut lift = facts.counted_lift(entry, slot).cloned();
    let estimate_of = |lift: Option<&Slug>| {
        lift.and_then(|lift| {
            estimate::best_estimate(facts, entry.key, slot, |l| l == lift)
        })
    };
    let mut estimate = estimate_of(lift.as_ref());
    let tested = facts.best(entry.key, slot).is_some();
    if lift.is_some() && !tested && estimate.is_none() {
        estimate = estimate::best_estimate(facts, entry.key, slot, |_| true);
        lift = estimate.as_ref().map(|(_, l, _)| l.clone()).or(lift);
    }
    SlotResult {
        best: facts.best(entry.key, slot).and_then(|(n, ruled)| {
            ruled.fact.credited.as_ref().map(|load| (n, load.mass))
        }),
        estimate: estimate.map(|(n, _, mass)| (n, mass)),
        lift,
        place: None,
        disqualified: entry.is_disqualified(slot),
    }
}

/// The sum of the bests that the rules count; estimates never do, and there is
/// none for who was disqualified, be it in one lift.
fn total(facts: &Facts, slots: &[SlotResult]) -> Option<Mass> {
    if !facts.rules.total || slots.is_empty() || slots.iter().any(|s| s.disqualified) {
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

/// Gives places in slot `i` to the lines whose result is in this variant.
fn place_slot(facts: &Facts, lines: &mut [Line], i: usize, variant: &Slug) {
    let placed = |line: &Line| {
        let result = &line.slots[i];
        line.standing == Standing::Placed
            && !result.disqualified
            && result.lift.as_ref() == Some(variant)
            && result.mark().is_some()
    };
    let mut order: Vec<usize> = (0..lines.len()).filter(|l| placed(&lines[*l])).collect();
    order.sort_by(|a, b| ties::by_slot(facts, &lines[*a], &lines[*b], i));
    let places = places(&order, |a, b| {
        ties::by_slot(facts, &lines[*a], &lines[*b], i).is_eq()
    });
    for (l, place) in order.into_iter().zip(places) {
        lines[l].slots[i].place = Some(place);
    }
}

fn place_totals(facts: &Facts, lines: &mut [Line]) {
    let signatures: Vec<Vec<usize>> = lines.iter().map(|l| signature(facts, l)).collect();
    let mut kinds = signatures.clone();
    kinds.sort();
    kinds.dedup();
    for kind in kinds {
        let placed = |l: &Line| l.standing == Standing::Placed && l.total.is_some();
        let mut order: Vec<usize> = (0..lines.len())
            .filter(|l| signatures[*l] == kind && placed(&lines[*l]))
            .collect();
        order.sort_by(|a, b| ties::by_total(facts, &lines[*a], &lines[*b]));
        let places = places(&order, |a, b| {
            ties::by_total(facts, &lines[*a], &lines[*b]).is_eq()
        });
        for (l, place) in order.into_iter().zip(places) {
            lines[l].place = Some(place);
        }
    }
}

/// 1, 2, 2, 4: equal ones share a place, and the places after it stay free.
fn places<T>(order: &[T], equal: impl Fn(&T, &T) -> bool) -> Vec<u32> {
    let mut places: Vec<u32> = Vec::with_capacity(order.len());
    for (i, (line, rank)) in order.iter().zip(1_u32..).enumerate() {
        let shared = i > 0 && equal(&order[i - 1], line);
        let place = match places.last() {
            Some(last) if shared => *last,
            _ => rank,
        };
        places.push(place);
    }
    places
}
