//! A roster that changes entries which the day already has.

use std::collections::BTreeMap;

use super::super::Fault;
use super::header::Head;
use super::{RosterRead, RosterRow};
use crate::day::{Facts, NewEntry, Place};
use crate::roster::{Born, Change, Column, Entry, EntryKey};

/// An entry's changed details, and where it goes if that changed.
pub type Edited = (EntryKey, Vec<Change>, Place);

/// A row of an updated roster with the entry that it is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Matched {
    /// The row, by its place in [`RosterRead::rows`].
    pub row: usize,
    /// The entry; `None` is somebody new.
    pub entry: Option<EntryKey>,
}

/// What an updated roster comes to; nobody is removed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Update {
    /// Entries of which a detail differs, with only those details.
    pub changed: Vec<Edited>,
    /// People whom the day doesn't have.
    pub added: Vec<NewEntry>,
}

/// Finds the entry of every row: by id, then by lot, then by given and family
/// name with birth.
///
/// A row is never matched by lot or name with an entry that has another id.
pub fn match_update(facts: &Facts, read: &RosterRead) -> Vec<Matched> {
    read.rows
        .iter()
        .enumerate()
        .map(|(at, row)| Matched {
            row: at,
            entry: entry_of(facts, row).map(|e| e.key),
        })
        .collect()
}

/// What has to be changed and added so that the day says what the roster
/// says.
///
/// An empty cell leaves what is known.
pub fn update(facts: &Facts, read: &RosterRead) -> Update {
    let mut update = Update::default();
    for matched in match_update(facts, read) {
        let (row, new) = (&read.rows[matched.row], &read.entries[matched.row]);
        let Some(entry) = matched.entry.and_then(|key| facts.entries.get(&key)) else {
            update.added.push(new.clone());
            continue;
        };
        let number = row.number.map(Change::Number);
        let changes: Vec<Change> = number
            .into_iter()
            .chain(row.told.iter().cloned())
            .filter(|change| differs(entry, change))
            .collect();
        let place = moved(entry, row, new);
        if !changes.is_empty() || place != Place::default() {
            update.changed.push((entry.key, changes, place));
        }
    }
    update
}

/// The entries of all rows; what can't be matched is added to `faults`.
pub(super) fn matches(
    facts: &Facts,
    read: &RosterRead,
    head: &Head,
    faults: &mut Vec<Fault>,
) -> Vec<Option<EntryKey>> {
    let mut seen: BTreeMap<EntryKey, u64> = BTreeMap::new();
    let lot = head.label(|c| *c == Column::Lot);
    let mut found = Vec::new();
    for row in &read.rows {
        let entry = entry_of(facts, row);
        let place = (row.row, row.line);
        let holder = row.number.and_then(|n| facts.entry_by_number(n));
        if let Some(holder) = holder
            && entry.is_none_or(|e| e.key != holder.key)
        {
            let message = format!(
                "{} belongs to {}, who isn't this row's athlete; write another lot or \
                 leave it blank",
                holder.number,
                holder.name()
            );
            faults.push(Fault::at(place, lot, message));
        }
        if let Some(entry) = entry
            && let Some(first) = seen.insert(entry.key, row.row)
        {
            let message = format!(
                "This row and row {first} are both about lot {}, {}; leave one of them.",
                entry.number,
                entry.name()
            );
            faults.push(Fault::at(place, "", message));
        }
        found.push(entry.map(|e| e.key));
    }
    found
}

/// What identifies the person of a row.
#[derive(Default)]
struct Person {
    id: String,
    given: String,
    family: String,
    born: Option<Born>,
}

fn person(row: &RosterRow) -> Person {
    let mut person = Person::default();
    for change in &row.told {
        match change {
            Change::Id(id) => person.id.clone_from(id),
            Change::Given(name) => person.given = name.to_lowercase(),
            Change::Family(name) => person.family = name.to_lowercase(),
            Change::Born(born) => person.born = *born,
            _ => {}
        }
    }
    person
}

fn entry_of<'a>(facts: &'a Facts, row: &RosterRow) -> Option<&'a Entry> {
    let person = person(row);
    let mut all = facts.entries_by_number();
    if !person.id.is_empty()
        && let Some(entry) = all.find(|e| e.id == person.id)
    {
        return Some(entry);
    }
    let other = |e: &&Entry| !person.id.is_empty() && !e.id.is_empty();
    if let Some(number) = row.number {
        let entry = facts.entry_by_number(number).filter(|e| !other(e));
        if entry.is_some() {
            return entry;
        }
    }
    let mut same = facts.entries_by_number().filter(|e| {
        !other(e)
            && e.given.to_lowercase() == person.given
            && e.family.to_lowercase() == person.family
            && e.born == person.born
    });
    let entry = same.next();
    entry.filter(|_| same.next().is_none())
}

fn differs(entry: &Entry, change: &Change) -> bool {
    let mut changed = entry.clone();
    changed.apply(change);
    changed != *entry
}

/// Where the entry goes, if the row says another place than it has.
fn moved(entry: &Entry, row: &RosterRow, new: &NewEntry) -> Place {
    let differs =
        |told: &Option<String>, known: &str| told.as_ref().is_some_and(|t| t != known);
    let session = differs(&row.place.session, &entry.session);
    let flight = differs(&row.place.flight, &entry.flight);
    if !session && !flight {
        return Place::default();
    }
    Place {
        session: row.place.session.clone(),
        flight: row.place.flight.clone(),
        platform: new.place.platform,
    }
}
