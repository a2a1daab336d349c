//! What a roster says that is owed an answer, though it is taken in.

use super::super::Query;
use super::{RosterRead, RosterRow};
use crate::day::{Facts, NewEntry};
use crate::roster::{Change, Entry, EntryKey};
use crate::sheets::{opener_remarks, opener_words, openers_sum_remark};

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
        messages.extend(openers_sum_remark(facts, &entry));
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
        let what = opener_words(facts, lift, opener);
        let remarks = opener_remarks(facts, entry, lift, opener);
        found.extend(remarks.into_iter().map(|odd| format!("{what} is {odd}")));
    }
    found
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
