//! What a roster says that is owed an answer, though it is taken in.

use super::super::Query;
use super::{RosterRead, RosterRow};
use crate::day::{Facts, NewEntry};
use crate::lift::{Body, Slug, catalogue};
use crate::measure::{Mass, Unit, Weight};
use crate::roster::{Change, Entry, EntryKey};
use crate::rules::{Rules, Sex};

/// All queries of a roster, in the order of its rows.
pub(super) fn of(
    facts: &Facts,
    read: &RosterRead,
    matched: &[Option<EntryKey>],
) -> Vec<Query> {
    let mut found = Vec::new();
    for (at, row) in read.rows.iter().enumerate() {
        let known = matched.get(at).copied().flatten();
        let known = known.and_then(|key| facts.entries.get(&key));
        let entry = merged(row, &read.entries[at], known);
        let mut messages = openers(facts, row, &entry);
        messages.extend(openers_sum(&facts.rules, &entry, facts.bar_unit));
        messages.extend(weight(facts, &entry));
        if known.is_none() {
            messages.extend(stranger(facts, &entry));
        }
        found.extend(messages.into_iter().map(|message| Query {
            row: row.row,
            line: row.line,
            who: entry.name(),
            message,
        }));
    }
    found
}

/// The entry as it will be.
fn merged(row: &RosterRow, new: &NewEntry, known: Option<&Entry>) -> Entry {
    let (mut entry, changes) = match known {
        Some(entry) => (entry.clone(), &row.told),
        None => (
            Entry::new(EntryKey(0), row.number.unwrap_or(0)),
            &new.changes,
        ),
    };
    for change in changes {
        entry.apply(change);
    }
    entry
}

fn openers(facts: &Facts, row: &RosterRow, entry: &Entry) -> Vec<String> {
    let mut found = Vec::new();
    for change in &row.told {
        let Change::Slot {
            variant: Some(lift),
            opener: Some(opener),
            ..
        } = change
        else {
            continue;
        };
        found.extend(opener_queries(facts, entry, lift, opener));
    }
    found
}

/// What is odd about an opener: off the step, under the empty bar, or a
/// larger jump over the last max than the rules advise.
fn opener_queries(
    facts: &Facts,
    entry: &Entry,
    lift: &Slug,
    opener: &Weight,
) -> Vec<String> {
    let rules = &facts.rules;
    let unit = facts.bar_unit;
    let show = |mass: Mass| mass.show_with_unit(unit);
    let name = catalogue()
        .get(lift.as_str())
        .map_or_else(|| lift.to_string(), |l| l.name.clone());
    let what = format!("the opener {} in the {name}", show(opener.mass));
    let mut found = Vec::new();
    if !opener.mass.is_multiple_of(rules.step) {
        let below = opener.mass.floor_to(rules.step);
        let above = show(opener.mass.ceil_to(rules.step));
        let nearest = if below > Mass::ZERO {
            format!("the nearest are {} and {above}", show(below))
        } else {
            format!("the nearest is {above}")
        };
        found.push(format!(
            "{what} is not a multiple of {}; {nearest}",
            rules.step.show_with_unit(rules.step_unit)
        ));
    }
    let (bar, whose) = empty_bar(rules, entry.sex);
    if opener.mass < bar {
        found.push(format!(
            "{what} is less than the empty bar{whose}, {}",
            show(bar)
        ));
    }
    let last = entry.last.get(lift);
    let jump = catalogue().get(lift.as_str()).and_then(|l| match l.body {
        Body::Upper => rules.jump_upper,
        Body::Lower => rules.jump_lower,
    });
    if let (Some(last), Some(jump)) = (last, jump) {
        let most = last.mass.percent(100 + i64::from(jump));
        if opener.mass > most {
            found.push(format!(
                "{what} is more than {jump} % above the last max, {}; the advice is at \
                 most {}",
                show(last.mass),
                show(advised(most, rules))
            ));
        }
    }
    found
}

/// Openers that add up to too little for the entry total; judged once every
/// lift that is entered has one.
fn openers_sum(rules: &Rules, entry: &Entry, unit: Unit) -> Option<String> {
    let allowance = match entry.sex? {
        Sex::F => rules.entry_total_f?,
        Sex::M => rules.entry_total_m?,
    };
    let total = entry.entry_total.as_ref()?.mass;
    let least = allowance.least(total);
    let openers: Option<Vec<Mass>> = entry
        .slots
        .values()
        .filter(|line| line.variant.is_some())
        .map(|line| line.opener.as_ref().map(|w| w.mass))
        .collect();
    let sum: Mass = openers?.into_iter().sum();
    (sum < least).then(|| {
        format!(
            "the openers add up to {}; with an entry total of {} they need {} or more",
            sum.show_with_unit(unit),
            total.show_with_unit(unit),
            least.show_with_unit(unit)
        )
    })
}

/// The largest load on the step that isn't above the advice.
fn advised(most: Mass, rules: &Rules) -> Mass {
    let stepped = most.floor_to(rules.step);
    if stepped > Mass::ZERO { stepped } else { most }
}

fn empty_bar(rules: &Rules, sex: Option<Sex>) -> (Mass, &'static str) {
    match sex {
        Some(Sex::F) => (rules.bar_f, " for girls and women"),
        Some(Sex::M) => (rules.bar_m, " for boys and men"),
        None => (rules.bar_f.min(rules.bar_m), ""),
    }
}

fn weight(facts: &Facts, entry: &Entry) -> Option<String> {
    let categories = facts.rules.categories.as_str();
    let by_weight = !matches!(categories, "none" | "flight");
    (by_weight && entry.bodyweight.is_none()).then(|| {
        "no bodyweight, so no category is known; weigh the athlete in".to_owned()
    })
}

/// Somebody whom the day seems to have already.
fn stranger(facts: &Facts, entry: &Entry) -> Option<String> {
    let same_name = |e: &Entry| e.name().to_lowercase() == entry.name().to_lowercase();
    let same_id = |e: &Entry| !entry.id.is_empty() && e.id == entry.id;
    let twin = facts
        .entries_by_number()
        .find(|e| same_id(e) || same_name(e))?;
    let what = if same_id(twin) { "id" } else { "name" };
    Some(format!(
        "lot {} has the same {what}; if it is the same person, undo this import and say \
         --update",
        twin.number
    ))
}
