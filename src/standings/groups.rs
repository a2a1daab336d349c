//! Which entries are placed together.

use std::collections::BTreeMap;

use crate::day::Facts;
use crate::roster::{Born, Entry, EntryKey};
use crate::rules::{AgeSet, CategorySet, Judging, Sex, ages_named};

/// What entries are grouped by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// Bodyweight category (or flight, or all, as the rules say).
    Category,
    /// Division; an entry in several stands in each, also in the age groups
    /// that the rules name.
    Division,
    /// Each lift by itself, within the category.
    Slot,
}

/// The category set of the day, if it has one.
pub fn category_set(facts: &Facts) -> Option<&CategorySet> {
    facts.rules.category_set(facts.date)
}

/// An entry's bodyweight category, as a label without the sex.
///
/// The category that was entered for where the rules say so, else the class
/// of the bodyweight; empty where neither is known.
pub fn category_label(facts: &Facts, entry: &Entry) -> String {
    let entered = &entry.category;
    let Some(set) = category_set(facts) else {
        return entered.clone();
    };
    if facts.rules.category == Judging::Entered && !entered.is_empty() {
        return entry
            .sex
            .and_then(|sex| set.known(sex, &facts.rules.age_group, entered))
            .unwrap_or_else(|| entered.clone());
    }
    let class = entry.sex.zip(entry.bodyweight.as_ref());
    class
        .and_then(|(sex, body)| set.class(sex, &facts.rules.age_group, body.mass))
        .map_or_else(String::new, |(_, label)| label.to_owned())
}

/// The set of age groups in which entries stand as divisions, if the rules name
/// one.
fn age_set(facts: &Facts) -> Option<&'static AgeSet> {
    ages_named(&facts.rules.ages)
}

/// The places in the set, and the names, of an entry's age groups.
fn age_groups(facts: &Facts, entry: &Entry) -> Vec<(usize, String)> {
    let (Some(set), Some(born)) = (age_set(facts), entry.born) else {
        return Vec::new();
    };
    let birthday = match born {
        Born::Date(date) => Some(date),
        Born::Year(_) => None,
    };
    set.groups_of(born.year(), birthday, facts.date)
        .map(|group| {
            let at = set.groups.iter().position(|g| g.name == group.name);
            (at.unwrap_or(usize::MAX), group.name.clone())
        })
        .collect()
}

/// The divisions of an entry: those of the roster, then its age groups.
pub(super) fn divisions_of(facts: &Facts, entry: &Entry) -> Vec<String> {
    let ages = age_groups(facts, entry).into_iter().map(|(_, name)| name);
    entry.divisions.iter().cloned().chain(ages).collect()
}

/// Whether anybody stands in a division, be it one of the roster's or an age
/// group.
pub fn has_divisions(facts: &Facts) -> bool {
    let mut entries = facts.entries.values();
    entries.any(|e| !e.divisions.is_empty() || !age_groups(facts, e).is_empty())
}

/// The groups in their order: label, remark, and who is in them.
///
/// Categories from the lightest, girls and women first; who has no group yet
/// comes last under an empty label.
pub fn groups_of(facts: &Facts, basis: Basis) -> Vec<(String, String, Vec<EntryKey>)> {
    let mut groups: BTreeMap<(u8, usize, String), Vec<EntryKey>> = BTreeMap::new();
    for entry in facts.entries_by_number() {
        for key in keys_of(facts, entry, basis) {
            groups.entry(key).or_default().push(entry.key);
        }
    }
    let set = category_set(facts);
    groups
        .into_iter()
        .map(|((_, _, label), keys)| {
            let remark = remark(facts, basis, &label, set);
            (label, remark, keys)
        })
        .collect()
}

fn remark(facts: &Facts, basis: Basis, label: &str, set: Option<&CategorySet>) -> String {
    match (basis, set) {
        (_, _) if label.is_empty() => "No group yet.".to_owned(),
        (Basis::Category | Basis::Slot, Some(set)) => of_set(facts, label, set),
        (Basis::Division, _) => {
            let name = label
                .strip_prefix("F ")
                .or_else(|| label.strip_prefix("M "))
                .unwrap_or(label);
            let set = age_set(facts).filter(|s| s.groups.iter().any(|g| g.name == name));
            set.map_or_else(String::new, |set| set.title.clone())
        }
        _ => String::new(),
    }
}

/// The set that a category is from; said beside it where the set had ended by
/// the day, and where it lacks the list that the rules ask for.
fn of_set(facts: &Facts, label: &str, set: &CategorySet) -> String {
    let mut words = set.title.clone();
    if let Some(until) = set.until.filter(|until| *until < facts.date) {
        words.push_str(&format!("; it held until {until}"));
    }
    let asked = &facts.rules.age_group;
    let sex = [Sex::F, Sex::M]
        .into_iter()
        .find(|sex| label.starts_with(&format!("{sex} ")));
    if asked != "usual"
        && let Some(sex) = sex
        && let Some(list) = set.group(sex, asked).filter(|list| list.ages != *asked)
    {
        words.push_str(&format!(
            "; it has no {asked} list, this is its {} one",
            list.ages
        ));
    }
    words
}

/// An age group with the sex before it: girls and boys aren't placed together.
fn with_sex(entry: &Entry, name: &str) -> String {
    match entry.sex {
        Some(sex) => format!("{sex} {name}"),
        None => name.to_owned(),
    }
}

fn keys_of(facts: &Facts, entry: &Entry, basis: Basis) -> Vec<(u8, usize, String)> {
    let nowhere = (9, 0, String::new());
    match basis {
        Basis::Division => {
            let ages = age_groups(facts, entry);
            let own = entry.divisions.iter();
            // A division of the name of an age group is that one.
            let rank = |name: &str| {
                let set = age_set(facts)?;
                set.groups.iter().position(|g| g.name == name)
            };
            let mut keys: Vec<(u8, usize, String)> = own
                .map(|d| match rank(d) {
                    Some(at) => (1, at, with_sex(entry, d)),
                    None => (0, 0, d.clone()),
                })
                .chain(
                    ages.into_iter()
                        .map(|(at, name)| (1, at, with_sex(entry, &name))),
                )
                .collect();
            keys.sort();
            keys.dedup();
            if keys.is_empty() {
                keys.push(nowhere);
            }
            keys
        }
        Basis::Category | Basis::Slot => match facts.rules.categories.as_str() {
            "none" => vec![(0, 0, "all".to_owned())],
            "flight" if entry.flight.is_empty() => vec![nowhere],
            "flight" => vec![(0, flight_rank(facts, entry), flight_label(facts, entry))],
            _ => match entry.sex {
                None => vec![nowhere],
                Some(sex) => {
                    let label = category_label(facts, entry);
                    if label.is_empty() {
                        return vec![nowhere];
                    }
                    let rank = category_set(facts)
                        .and_then(|set| set.rank(sex, &facts.rules.age_group, &label))
                        .unwrap_or(usize::MAX);
                    let side = u8::from(sex == Sex::M);
                    vec![(side, rank, format!("{sex} {label}"))]
                }
            },
        },
    }
}

pub(super) fn flight_rank(facts: &Facts, entry: &Entry) -> usize {
    facts
        .flights
        .iter()
        .position(|f| f.session == entry.session && f.name == entry.flight)
        .unwrap_or(usize::MAX)
}

/// The flight's name; with its session where another session has the same.
pub(super) fn flight_label(facts: &Facts, entry: &Entry) -> String {
    let same = facts
        .flights
        .iter()
        .filter(|f| f.name == entry.flight)
        .count();
    if same > 1 {
        format!("{}/{}", entry.session, entry.flight)
    } else {
        entry.flight.clone()
    }
}
