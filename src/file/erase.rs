//! Erasing a person: the private parts go, the journal and its chain stay.

use std::collections::BTreeSet;
use std::path::Path;

use rusqlite::types::ValueRef;

use super::error::{FileError, shown};
use super::journal::{self, COLUMNS, Tail, new_id};
use super::live::Live;
use super::open::{self, Store};
use super::views;
use crate::day::{Day, Event, Recorded, Stamp};
use crate::roster::{Change, ERASED, EntryKey};
use crate::sheets::entry_of;

/// What erasing a person came to, or would come to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Erased {
    /// How people are told who it is: the name, or the number once it is gone.
    pub who: String,
    /// How many private parts of the person's own rows there are to blank.
    pub n_parts: usize,
    /// How many remarks, reasons and record holders elsewhere name the person.
    pub n_texts: usize,
    /// Rows in which the family name still stands once all that is blanked: in
    /// what the chain covers, or with other people.
    pub still: Vec<u64>,
}

/// Why nobody was erased.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EraseError {
    /// No entry has that number, nor ever had.
    #[error("Nobody in this day has the number {number}; {known}.")]
    Nobody {
        /// The number that was asked for.
        number: u16,
        /// Which numbers there are.
        known: String,
    },
    /// The file can't be opened or written.
    #[error(transparent)]
    Failed(#[from] FileError),
}

/// What [`erase`] would do, without doing it.
///
/// # Errors
/// [`EraseError`].
pub fn erasable(path: &Path, number: u16) -> Result<Erased, EraseError> {
    let live = Live::open_read(path)?;
    let person = Person::find(live.day(), number)?;
    Ok(person.parts(live.store(), live.day())?.erased)
}

/// Blanks all that identifies or describes the person with that table number.
///
/// Names, identifier, birth date, bodyweight, clearances, set-ups, remarks and
/// reasons go from every row, also those of acts that were undone; what was
/// lifted stays, as does what the chain covers: sex, grade, team, category.
/// The journal keeps the digests of what was blanked and says that it was. The
/// file is then rewritten, so that no page of it keeps the old bytes. Doing it
/// again does no harm.
///
/// # Errors
/// [`EraseError`]. Where only the rewriting failed, the parts are blanked and
/// the error says so.
pub fn erase(
    path: &Path,
    number: u16,
    now: Stamp,
    who: &str,
) -> Result<Erased, EraseError> {
    let erased = Live::at_once(path, now, who, |batch| {
        let person = Person::find(&batch.day, number)?;
        let parts = person.parts(batch.store, &batch.day)?;
        if parts.seqs.is_empty() {
            return Ok(parts.erased);
        }
        let seq = batch.tail.seq + 1;
        blank(batch.store, &parts.seqs, seq)?;
        let note = Recorded {
            seq,
            act: seq,
            id: new_id(now),
            at: now,
            happened: None,
            hand: who.to_owned(),
            platform: None,
            event: Event::Noted {
                entry: None,
                act: None,
                text: format!(
                    "Number {number} was erased: names, identifier, birth date, bodyweight, \
                     clearances, set-ups, remarks and reasons."
                ),
            },
        };
        journal::append(batch.store, &mut batch.tail, batch.device, &note, 1)?;
        let mut rows = Vec::new();
        let _ =
            journal::read_on(batch.store, &mut Tail::default(), |row| rows.push(row))?;
        batch.day = Day::from_journal(rows);
        Ok::<_, EraseError>(parts.erased)
    })?;
    rewrite(path).map_err(|error| FileError::NotRewritten {
        path: shown(path),
        why: error.to_string(),
    })?;
    Ok(erased)
}

/// The place in the journal at which somebody was last erased, in `meta`.
const ERASED_AT: &str = "erased_at";

/// Whether somebody was erased behind that place in the journal: what was read
/// before that has to be read anew.
pub(super) fn was_since(store: &Store, seq: u64) -> Result<bool, FileError> {
    let at = views::meta(store, ERASED_AT)?.and_then(|at| at.parse::<u64>().ok());
    Ok(at.is_some_and(|at| at > seq))
}

fn blank(store: &Store, seqs: &BTreeSet<u64>, at: u64) -> Result<(), FileError> {
    let write = || -> rusqlite::Result<()> {
        let mut update = store
            .conn
            .prepare("UPDATE journal SET private = NULL WHERE seq = ?1")?;
        for seq in seqs {
            let _ = update.execute([i64::try_from(*seq).unwrap_or(i64::MAX)])?;
        }
        let _ = store.conn.execute(
            "INSERT OR REPLACE INTO meta (key, value) VALUES (?1, ?2)",
            [ERASED_AT, &at.to_string()],
        )?;
        Ok(())
    };
    write().map_err(|e| store.fail(&e))
}

/// Writes the file anew, so that nothing is left in pages that are free or
/// were filled up otherwise.
fn rewrite(path: &Path) -> Result<(), FileError> {
    let store = open::open_to_write(path)?;
    let write = || -> rusqlite::Result<()> {
        store.conn.pragma_update(None, "temp_store", "MEMORY")?;
        store.conn.execute_batch("VACUUM")
    };
    write().map_err(|e| store.fail(&e))
}

/// Somebody who is to be erased.
struct Person {
    /// The entry with the number, and those that had it until they were undone.
    entries: BTreeSet<EntryKey>,
    who: String,
    /// Every full name that the journal ever gave, in small letters.
    names: BTreeSet<String>,
    family: BTreeSet<String>,
}

/// What there is to blank.
struct Parts {
    seqs: BTreeSet<u64>,
    erased: Erased,
}

impl Person {
    fn find(day: &Day, number: u16) -> Result<Self, EraseError> {
        let facts = day.facts();
        let standing = facts.entry_by_number(number);
        let mut entries = undone(day, number);
        entries.extend(standing.map(|e| e.key));
        if entries.is_empty() {
            return Err(EraseError::Nobody {
                number,
                known: numbers(facts.entries_by_number().map(|e| e.number)),
            });
        }
        let mut person = Self {
            entries,
            who: standing
                .map_or_else(|| format!("No. {number}"), crate::roster::Entry::name),
            names: BTreeSet::new(),
            family: BTreeSet::new(),
        };
        for entry in person.entries.clone() {
            person.learn(day, entry);
        }
        Ok(person)
    }

    /// Learns the names that the journal ever gave an entry.
    fn learn(&mut self, day: &Day, entry: EntryKey) {
        let (mut given, mut family) = (String::new(), String::new());
        for change in day.journal().iter().flat_map(|r| details(&r.event, entry)) {
            match change {
                Change::Given(text) => given.clone_from(text),
                Change::Family(text) if text == ERASED => {}
                Change::Family(text) => family.clone_from(text),
                _ => continue,
            }
            self.take(&given, &family);
        }
    }

    fn take(&mut self, given: &str, family: &str) {
        if family.is_empty() {
            return;
        }
        let (given, family) = (given.to_lowercase(), family.to_lowercase());
        let _ = self.family.insert(family.clone());
        if !given.is_empty() {
            let _ = self.names.insert(format!("{given} {family}"));
            let _ = self.names.insert(format!("{family}, {given}"));
            let _ = self.names.insert(format!("{family} {given}"));
        }
    }

    /// Finds what there is to blank, and what will stand after that.
    fn parts(&self, store: &Store, day: &Day) -> Result<Parts, FileError> {
        let fail = |e: rusqlite::Error| store.fail(&e);
        let mut query = store
            .conn
            .prepare(&format!("SELECT {COLUMNS} FROM journal ORDER BY seq"))
            .map_err(fail)?;
        let mut stored = query.query([]).map_err(fail)?;
        let mut parts = Parts {
            seqs: BTreeSet::new(),
            erased: Erased {
                who: self.who.clone(),
                n_parts: 0,
                n_texts: 0,
                still: Vec::new(),
            },
        };
        let mut journal = day.journal().iter();
        while let (Some(row), Some(recorded)) =
            (stored.next().map_err(fail)?, journal.next())
        {
            let private = row.get_ref(13).map_err(fail)?;
            let mut goes = false;
            if let ValueRef::Text(text) = private {
                let text = String::from_utf8_lossy(text).to_lowercase();
                if self.is_about(&recorded.event, day.journal()) {
                    goes = true;
                    parts.erased.n_parts += 1;
                } else if is_free_text(&recorded.event)
                    && self.names.iter().any(|n| mentions(&text, n))
                {
                    goes = true;
                    parts.erased.n_texts += 1;
                }
            }
            if goes {
                let _ = parts.seqs.insert(recorded.seq);
            }
            for n in (0..14).filter(|n| !(goes && *n == 13)) {
                if let ValueRef::Text(text) = row.get_ref(n).map_err(fail)? {
                    let text = String::from_utf8_lossy(text).to_lowercase();
                    if self.family.iter().any(|name| mentions(&text, name)) {
                        parts.erased.still.push(recorded.seq);
                        break;
                    }
                }
            }
        }
        Ok(parts)
    }

    /// Whether an event is about the person.
    fn is_about(&self, event: &Event, journal: &[Recorded]) -> bool {
        let of_row = |seq: &u64| {
            journal
                .iter()
                .find(|r| r.seq == *seq)
                .is_some_and(|r| self.is_of(&r.event))
        };
        match event {
            Event::Corrected { target, event, .. } => self.is_of(event) || of_row(target),
            Event::Annulled { act, .. } => of_act(journal, *act, &self.entries),
            Event::Noted {
                entry: None,
                act: Some(act),
                ..
            } => of_act(journal, *act, &self.entries),
            event => self.is_of(event),
        }
    }

    fn is_of(&self, event: &Event) -> bool {
        entry_of(event).is_some_and(|entry| self.entries.contains(&entry))
    }
}

/// Whether an act is about nobody but those entries.
///
/// A reason for annulling the import of forty athletes isn't about any of them.
fn of_act(journal: &[Recorded], act: u64, those: &BTreeSet<EntryKey>) -> bool {
    let mut entries = journal
        .iter()
        .filter(|r| r.act == act)
        .filter_map(|r| entry_of(&r.event))
        .peekable();
    entries.peek().is_some() && entries.all(|e| those.contains(&e))
}

/// Whether the private part is a text that may name anybody, and no more.
fn is_free_text(event: &Event) -> bool {
    match event {
        Event::Corrected { event, .. } => entry_of(event).is_none(),
        Event::EntryAdded { .. }
        | Event::EntryEdited { .. }
        | Event::Weighed { .. }
        | Event::Cleared { .. }
        | Event::Capped { .. } => false,
        _ => true,
    }
}

/// The details that an event gives an entry.
fn details(event: &Event, of: EntryKey) -> &[Change] {
    match event {
        Event::EntryAdded { entry, changes, .. }
        | Event::EntryEdited { entry, changes }
            if *entry == of =>
        {
            changes
        }
        Event::Corrected { event, .. } => details(event, of),
        _ => &[],
    }
}

/// Who was added with that number by an act that doesn't stand.
fn undone(day: &Day, number: u16) -> BTreeSet<EntryKey> {
    let added = day.journal().iter().filter_map(|r| match &r.event {
        Event::EntryAdded {
            entry, number: n, ..
        } if *n == number => Some(*entry),
        _ => None,
    });
    added
        .filter(|entry| !day.facts().entries.contains_key(entry))
        .collect()
}

/// The numbers that there are, as a short text.
fn numbers(all: impl Iterator<Item = u16>) -> String {
    const SHOWN: usize = 12;
    let all: Vec<String> = all.map(|n| n.to_string()).collect();
    match all.len() {
        0 => "nobody was entered yet".to_owned(),
        n if n > SHOWN => {
            format!(
                "there are {} and {} more",
                all[..SHOWN].join(", "),
                n - SHOWN
            )
        }
        _ => format!("there are {}", all.join(", ")),
    }
}

/// Whether a text has a name in it as words of their own; both in small letters.
fn mentions(text: &str, name: &str) -> bool {
    text.match_indices(name).any(|(at, found)| {
        let before = text[..at].chars().next_back();
        let after = text[at + found.len()..].chars().next();
        !before.is_some_and(char::is_alphanumeric)
            && !after.is_some_and(char::is_alphanumeric)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_found_as_a_word_only() {
        assert!(mentions("una farrow's bar", "farrow"));
        assert!(mentions("{\"text\":\"farrow\"}", "farrow"));
        assert!(!mentions("farrowing", "farrow"));
        assert!(!mentions("mcfarrow", "farrow"));
        assert!(mentions("farrowing farrow", "farrow"));
    }

    #[test]
    fn numbers_are_told_shortly() {
        assert_eq!(numbers([].into_iter()), "nobody was entered yet");
        assert_eq!(numbers([1, 3].into_iter()), "there are 1, 3");
        assert!(numbers(1..=20).ends_with("11, 12 and 8 more"));
    }
}
