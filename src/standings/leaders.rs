//! Who leads by a score, over any group.

use std::collections::BTreeMap;

use super::scored::{higher, load_of, score_of};
use super::{
    Basis, Line, Standing, by_lift, flight_label, flight_rank, groups_of, line,
    number_of, places, signature,
};
use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::EntryKey;
use crate::score::{Score, Scoring};

/// Over which groups leaders are sought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// All entries together.
    All,
    /// Girls and women, boys and men.
    Sex,
    /// Bodyweight categories (or flights, or all, as the rules say).
    Category,
    /// Divisions and age groups; somebody in several stands in each.
    Division,
    /// Teams.
    Team,
    /// Flights.
    Flight,
}

/// One who leads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leader {
    /// The place, from 1; equal scores share it.
    pub place: u32,
    /// Who.
    pub entry: EntryKey,
    /// The load that was scored.
    pub load: Mass,
    /// Its score.
    pub score: Score,
}

/// The leaders of a group.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaders {
    /// `all`, or the group's label.
    pub label: String,
    /// The lifts that were scored: one, or those of the total in the order of
    /// the programme.
    pub lifts: Vec<Slug>,
    /// The best of them, by place.
    pub leaders: Vec<Leader>,
}

/// The leaders by a score of one slot, or of the total, in each group.
///
/// Ends behind place `most`, where one is given, and keeps all who share it.
/// Guests, who was disqualified and who has no score lead nothing; a group
/// without leaders is left out. Variants are different lifts, so those with other
/// ones stand apart, the programme's own first.
pub fn leaders(
    facts: &Facts,
    scoring: &Scoring,
    slot: Option<&Slug>,
    over: Over,
    most: Option<u32>,
) -> Vec<Leaders> {
    let mut found = Vec::new();
    for (label, keys) in over_groups(facts, over) {
        let lines = keys
            .iter()
            .filter_map(|key| facts.entries.get(key))
            .map(|entry| line(facts, entry))
            .filter(|line| line.standing == Standing::Placed);
        for (lifts, lines) in alike(facts, lines, slot) {
            let mut scored: Vec<(EntryKey, Mass, Score)> = lines
                .iter()
                .filter_map(|line| {
                    let score = score_of(facts, line, slot, scoring).ok()?;
                    let (load, _) = load_of(facts, line, slot).ok()?;
                    Some((line.entry, load, score))
                })
                .collect();
            scored.sort_by(|(a, _, x), (b, _, y)| {
                let number = |key: &EntryKey| number_of(facts, *key);
                higher(x.value, y.value).then_with(|| number(a).cmp(&number(b)))
            });
            let ranks = places(&scored, |(_, _, x), (_, _, y)| {
                higher(x.value, y.value).is_eq()
            });
            let leaders: Vec<Leader> = scored
                .into_iter()
                .zip(ranks)
                .filter(|(_, place)| most.is_none_or(|most| *place <= most))
                .map(|((entry, load, score), place)| Leader {
                    place,
                    entry,
                    load,
                    score,
                })
                .collect();
            if !leaders.is_empty() {
                found.push(Leaders {
                    label: label.clone(),
                    lifts,
                    leaders,
                });
            }
        }
    }
    found
}

/// The groups in their order: labels and who is in them; who is in none is left
/// out.
fn over_groups(facts: &Facts, over: Over) -> Vec<(String, Vec<EntryKey>)> {
    let by_basis = |basis| {
        let groups = groups_of(facts, basis).into_iter();
        let labelled = groups.filter(|(label, _, _)| !label.is_empty());
        labelled.map(|(label, _, keys)| (label, keys)).collect()
    };
    match over {
        Over::Category => return by_basis(Basis::Category),
        Over::Division => return by_basis(Basis::Division),
        Over::All | Over::Sex | Over::Team | Over::Flight => {}
    }
    let mut groups: BTreeMap<(usize, String), Vec<EntryKey>> = BTreeMap::new();
    for entry in facts.entries_by_number() {
        let (rank, label) = match over {
            Over::Sex => (0, entry.sex.map_or("", |s| s.letter()).to_owned()),
            Over::Team => (0, entry.team.clone()),
            Over::Flight if entry.flight.is_empty() => (0, String::new()),
            Over::Flight => (flight_rank(facts, entry), flight_label(facts, entry)),
            Over::All | Over::Category | Over::Division => (0, "all".to_owned()),
        };
        if !label.is_empty() {
            groups.entry((rank, label)).or_default().push(entry.key);
        }
    }
    let groups = groups.into_iter();
    groups.map(|((_, label), keys)| (label, keys)).collect()
}

/// The lines parted by what they lifted, with the lifts.
fn alike(
    facts: &Facts,
    lines: impl Iterator<Item = Line>,
    slot: Option<&Slug>,
) -> Vec<(Vec<Slug>, Vec<Line>)> {
    let Some(slot) = slot else {
        let mut kinds: BTreeMap<Vec<usize>, Vec<Line>> = BTreeMap::new();
        for line in lines {
            let kind = signature(facts, &line);
            kinds.entry(kind).or_default().push(line);
        }
        return kinds
            .into_iter()
            .map(|(kind, lines)| {
                let variants = facts.slots.iter().zip(kind);
                let lifts = variants.filter_map(|(l, at)| l.variants.get(at).cloned());
                (lifts.collect(), lines)
            })
            .collect();
    };
    let Some(at) = facts.slots.iter().position(|l| l.slot == *slot) else {
        return Vec::new();
    };
    let programme = &facts.slots[at];
    let lines: Vec<Line> = lines.collect();
    programme
        .variants
        .iter()
        .map(|variant| {
            let of = |l: &Line| by_lift::in_variant(facts, l, at, programme, variant);
            (vec![variant.clone()], lines.iter().filter_map(of).collect())
        })
        .collect()
}
