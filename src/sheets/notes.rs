//! Who isn't placed, said beside the row.

use super::results::lift_name;
use super::{Align, Cell, Column, Table};
use crate::day::Facts;
use crate::lift::Slug;
use crate::roster::Entry;
use crate::standings::Standing;

/// What is said beside an entry that isn't placed like all others; may be
/// posted: `guest`, `disqualified`, `disqualified in snatch`. Mostly nothing.
pub fn standing_note(entry: &Entry) -> String {
    let mut words = Vec::new();
    if entry.guest {
        words.push(Standing::Guest.word().to_owned());
    }
    if entry.disqualified {
        words.push(Standing::Disqualified.word().to_owned());
    } else {
        let slots = entry.disqualified_slots.iter();
        let names: Vec<String> = slots.map(in_words).collect();
        if !names.is_empty() {
            words.push(format!("disqualified in {}", names.join(", ")));
        }
    }
    words.join(", ")
}

/// Why an entry was disqualified, for the archive alone: `snatch: reason`.
pub fn standing_reasons(entry: &Entry) -> Vec<String> {
    let reasons = entry.disqualified_why.iter();
    let reasons = reasons.filter(|(_, why)| !why.is_empty());
    reasons
        .map(|(slot, why)| match slot {
            Some(slot) => format!("{}: {why}", in_words(slot)),
            None => why.clone(),
        })
        .collect()
}

fn in_words(slot: &Slug) -> String {
    let name = lift_name(slot);
    if name == slot.as_str() {
        name.replace('-', " ")
    } else {
        name.to_lowercase()
    }
}

/// The table with a column `note` behind the name, where anybody in it has a
/// [`standing_note`]; rows are known by their column `lot`.
#[must_use]
pub fn with_notes(table: Table, facts: &Facts) -> Table {
    with_notes_by(table, facts, standing_note)
}

/// The same with other words than the [`standing_note`] beside an entry.
#[must_use]
pub fn with_notes_by(
    mut table: Table,
    facts: &Facts,
    words: impl Fn(&Entry) -> String,
) -> Table {
    let at = |key: &str| table.columns.iter().position(|c| c.key == key);
    let (Some(lot), Some(name)) = (at("lot"), at("name")) else {
        return table;
    };
    let note = |row: &Vec<Cell>| -> String {
        let number = match row.get(lot) {
            Some(Cell::Count(n)) => u16::try_from(*n).ok(),
            _ => None,
        };
        let entry = number.and_then(|n| facts.entry_by_number(n));
        entry.map(&words).unwrap_or_default()
    };
    let rows = || table.groups.iter().flat_map(|g| &g.rows);
    if rows().all(|row| note(row).is_empty()) {
        return table;
    }
    for row in table.groups.iter_mut().flat_map(|g| &mut g.rows) {
        let words = note(row);
        row.insert((name + 1).min(row.len()), Cell::text(words));
    }
    let column = Column::new("note", "Note", Align::Left);
    table.columns.insert(name + 1, column);
    table
}
