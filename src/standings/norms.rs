//! Which bands of a coach's norms the day's results fall into.

use super::{Standing, line};
use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::{Entry, EntryKey};
use crate::score::{Band, NormTable, Norms};

/// A result of the day against one table of norms.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BandRow {
    /// Who.
    pub entry: EntryKey,
    /// The lift; `None` is the day's total.
    pub lift: Option<Slug>,
    /// What was lifted.
    pub load: Mass,
    /// What the table says of itself; `None` where no table is for this.
    pub norm: Option<String>,
    /// The band; `None` without a table, or where the table goes by bodyweight and
    /// there is none.
    pub band: Option<Band>,
}

/// Everybody's bests and total against the norms, by table number, in the order of
/// the programme; a row for each table that is for the athlete.
///
/// Good attempts of one repetition count, in the very lift that a table names;
/// estimates never do. Who was disqualified has none. Ages are the day's year less the
/// year of birth; a group is a division or the team.
pub fn bands(facts: &Facts, norms: &Norms) -> Vec<BandRow> {
    let mut rows = Vec::new();
    for entry in facts.entries_by_number() {
        for (lift, load) in results(facts, entry) {
            let tables = norms.tables().iter();
            let mut own: Vec<BandRow> = tables
                .filter(|table| table.of.lift == lift && is_for(facts, table, entry))
                .map(|table| BandRow {
                    entry: entry.key,
                    lift: lift.clone(),
                    load,
                    norm: Some(table.label()),
                    band: table.band(load, entry.bodyweight.as_ref().map(|w| w.mass)),
                })
                .collect();
            // A total without a norm needs no row: most files have none.
            if own.is_empty() && lift.is_some() {
                own.push(BandRow {
                    entry: entry.key,
                    lift,
                    load,
                    norm: None,
                    band: None,
                });
            }
            rows.append(&mut own);
        }
    }
    rows
}

/// The bests of an athlete by lift, then the total.
fn results(facts: &Facts, entry: &Entry) -> Vec<(Option<Slug>, Mass)> {
    let mut found = Vec::new();
    if Standing::of(entry) == Standing::Disqualified {
        return found;
    }
    for slot in &facts.slots {
        if entry.is_disqualified(&slot.slot) {
            continue;
        }
        for variant in &slot.variants {
            let best = facts.best_of(entry.key, &slot.slot, |l| l == variant);
            let load = best.and_then(|(_, ruled)| ruled.fact.credited.as_ref());
            found.extend(load.map(|load| (Some(variant.clone()), load.mass)));
        }
    }
    let total = line(facts, entry).total;
    found.extend(total.filter(|_| facts.slots.len() > 1).map(|t| (None, t)));
    found
}

fn is_for(facts: &Facts, table: &NormTable, entry: &Entry) -> bool {
    let of = &table.of;
    let same = |a: &str, b: &str| a.trim().eq_ignore_ascii_case(b.trim());
    let sex = of.sex.is_none_or(|sex| entry.sex == Some(sex));
    let age = of.ages.is_none_or(|(from, to)| {
        let age = entry.born.map(|b| b.age_in_year(facts.date));
        age.is_some_and(|age| age >= from && to.is_none_or(|to| age <= to))
    });
    let grade = of.grade.is_empty() || same(&of.grade, &entry.grade);
    let group = of.group.is_empty()
        || same(&of.group, &entry.team)
        || entry.divisions.iter().any(|d| same(&of.group, d));
    sex && age && grade && group
}
