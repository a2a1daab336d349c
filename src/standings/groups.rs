//! Which entries are placed together.

use std::collections::BTreeMap;

use crate::day::Facts;
use crate::roster::{Entry, EntryKey};
use crate::rules::{CategorySet, Judging, Sex, newest_set, set_named};

/// What entries are grouped by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// Bodyweight category (or flight, or all, as the rules say).
    Category,
    /// Division; an entry in several stands in each.
    Division,
    /// Each lift by itself, within the category.
    Slot,
}

/// The category set of the day, if it has one.
pub fn category_set(facts: &Facts) -> Option<&'static CategorySet> {
    match facts.rules.categories.as_str() {
        "none" | "flight" => None,
        "auto" => newest_set(facts.date),
        name => set_named(name),
    }
}

/// An entry's bodyweight category, as a label without the sex.
///
/// The category that was entered for where the rules say so, else the class
/// of the bodyweight; empty where neither is known.
pub fn category_label(facts: &Facts, entry: &Entry) -> String {
    let entered = &entry.category;
    if facts.rules.category == Judging::Entered && !entered.is_empty() {
        return entered.clone();
    }
    let weighed = category_set(facts).and_then(|set| {
        let class = set.class(entry.sex?, entry.bodyweight.as_ref()?.mass)?;
        Some(class.1.to_owned())
    });
    match weighed {
        Some(label) => label,
        None if category_set(facts).is_some() => String::new(),
        None => entered.clone(),
    }
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
        (Basis::Category, Some(set)) => {
            let over = set.until.is_some_and(|until| until < facts.date);
            if over {
                format!(
                    "{}; it held until {}",
                    set.title,
                    set.until.unwrap_or_default()
                )
            } else {
                set.title.clone()
            }
        }
        _ => String::new(),
    }
}

fn keys_of(facts: &Facts, entry: &Entry, basis: Basis) -> Vec<(u8, usize, String)> {
    let nowhere = (9, 0, String::new());
    match basis {
        Basis::Division if entry.divisions.is_empty() => vec![nowhere],
        Basis::Division => entry.divisions.iter().map(|d| (0, 0, d.clone())).collect(),
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
                        .and_then(|set| set.rank(sex, &label))
                        .unwrap_or(usize::MAX);
                    let side = u8::from(sex == Sex::M);
                    vec![(side, rank, format!("{sex} {label}"))]
                }
            },
        },
    }
}

fn flight_rank(facts: &Facts, entry: &Entry) -> usize {
    facts
        .flights
        .iter()
        .position(|f| f.session == entry.session && f.name == entry.flight)
        .unwrap_or(usize::MAX)
}

/// The flight's name; with its session where another session has the same.
fn flight_label(facts: &Facts, entry: &Entry) -> String {
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
