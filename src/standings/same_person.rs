//! Whether somebody of an earlier day is an athlete of today.

use std::collections::{BTreeMap, BTreeSet};

use super::history::{Answer, Found, Past, PastPerson};
use crate::day::Facts;
use crate::roster::{Born, Entry, EntryKey};

/// What an athlete's match is with, and how it was found.
pub(super) type Match<'a> = (&'a Past, &'a PastPerson, Found);

/// All matches by athlete, sure and doubtful, in the order of the earlier days.
///
/// By id, then by given and family name with birth. A person who was told to be
/// somebody is nobody else.
pub(super) fn matches<'a>(
    facts: &Facts,
    pasts: &'a [Past],
    answers: &[Answer],
) -> BTreeMap<EntryKey, Vec<Match<'a>>> {
    let alike = Alike::of(facts);
    let mut found: BTreeMap<EntryKey, Vec<Match<'_>>> = BTreeMap::new();
    for past in pasts {
        let mut of_past: Vec<(EntryKey, &PastPerson, Found)> = Vec::new();
        for person in &past.people {
            let told = || {
                let about =
                    |a: &&Answer| a.source == past.source && a.number == person.number;
                answers.iter().filter(about)
            };
            let yes = told().find(|a| a.same);
            if let Some(entry) = yes.and_then(|a| facts.entry_by_number(a.lot)) {
                of_past.push((entry.key, person, Found::Told));
                continue;
            }
            let mut likely: Vec<(&Entry, Found)> = alike
                .to(person)
                .into_iter()
                .filter_map(|key| facts.entries.get(&key))
                .filter(|e| !told().any(|a| !a.same && a.lot == e.number))
                .filter_map(|entry| Some((entry, likeness(entry, person)?)))
                .collect();
            // Of several who are alike, one that is sure by id is meant.
            let sure = |(_, found): &(&Entry, Found)| *found == Found::Id;
            if likely.iter().filter(|l| sure(l)).count() == 1 {
                likely.retain(sure);
            }
            let several = likely.len() > 1;
            of_past.extend(likely.into_iter().map(|(entry, found)| {
                let found = match found {
                    Found::Doubtful(why) => Found::Doubtful(why),
                    _ if several => {
                        Found::Doubtful("several athletes are alike".to_owned())
                    }
                    found => found,
                };
                (entry.key, person, found)
            }));
        }
        doubt_twins(&mut of_past);
        for (entry, person, how) in of_past {
            found.entry(entry).or_default().push((past, person, how));
        }
    }
    found
}

/// Today's athletes by id and by name.
struct Alike {
    by_id: BTreeMap<String, Vec<EntryKey>>,
    by_name: BTreeMap<(String, String), Vec<EntryKey>>,
}

impl Alike {
    fn of(facts: &Facts) -> Self {
        let (mut by_id, mut by_name) = (BTreeMap::new(), BTreeMap::new());
        for entry in facts.entries_by_number() {
            let id = entry.id.trim().to_owned();
            let ids: &mut Vec<EntryKey> = by_id.entry(id).or_default();
            ids.push(entry.key);
            let name = (plain(&entry.given), plain(&entry.family));
            let names: &mut Vec<EntryKey> = by_name.entry(name).or_default();
            names.push(entry.key);
        }
        Self { by_id, by_name }
    }

    /// Who has a person's id or name.
    fn to(&self, person: &PastPerson) -> BTreeSet<EntryKey> {
        let id = person.id.trim();
        let ids = self.by_id.get(id).filter(|_| !id.is_empty());
        let name = (plain(&person.given), plain(&person.family));
        let names = self.by_name.get(&name);
        ids.into_iter().chain(names).flatten().copied().collect()
    }
}

/// Two of one earlier day can't both be the same athlete, unless somebody said so.
fn doubt_twins(matches: &mut [(EntryKey, &PastPerson, Found)]) {
    let sure: Vec<EntryKey> = matches
        .iter()
        .filter(|(_, _, found)| !matches!(found, Found::Doubtful(_)))
        .map(|(entry, _, _)| *entry)
        .collect();
    let mut times: BTreeMap<EntryKey, usize> = BTreeMap::new();
    for entry in sure {
        *times.entry(entry).or_default() += 1;
    }
    for (entry, _, found) in matches {
        let several = times.get(entry).is_some_and(|n| *n > 1);
        if several && matches!(found, Found::Id | Found::Name) {
            *found = Found::Doubtful("several of that day are alike".to_owned());
        }
    }
}

/// Whether an earlier person may be an athlete; `None` where nothing speaks for it.
fn likeness(entry: &Entry, person: &PastPerson) -> Option<Found> {
    let doubt = |why: &str| Some(Found::Doubtful(why.to_owned()));
    let name = !plain(&entry.family).is_empty()
        && plain(&entry.given) == plain(&person.given)
        && plain(&entry.family) == plain(&person.family);
    let born = birth(entry.born, person.born);
    let other_sex = matches!((entry.sex, person.sex), (Some(a), Some(b)) if a != b);
    let ids = (entry.id.trim(), person.id.trim());
    if !ids.0.is_empty() && ids.0 == ids.1 {
        // An id alone, with no name beside it, contradicts nothing.
        let name = name || (person.given.is_empty() && person.family.is_empty());
        return match (name, born) {
            _ if other_sex => doubt("same id, another sex"),
            (_, Birth::Other) => doubt("same id, another birth"),
            (false, Birth::Unknown | Birth::Near) => doubt("same id, another name"),
            _ => Some(Found::Id),
        };
    }
    if !name || born == Birth::Other {
        return None;
    }
    let other_id = !ids.0.is_empty() && !ids.1.is_empty();
    match born {
        _ if other_id => doubt("same name, another id"),
        _ if other_sex => doubt("same name, another sex"),
        Birth::Same => Some(Found::Name),
        Birth::Near => doubt("same name and year of birth, one of them without a date"),
        Birth::Unknown | Birth::Other => doubt("same name, no birth to go by"),
    }
}

/// How two births compare.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Birth {
    Same,
    /// The same year, one of them without a date.
    Near,
    Other,
    Unknown,
}

fn birth(a: Option<Born>, b: Option<Born>) -> Birth {
    match (a, b) {
        (Some(a), Some(b)) if a == b => Birth::Same,
        (Some(Born::Date(_)), Some(Born::Date(_))) => Birth::Other,
        (Some(a), Some(b)) if a.year() == b.year() => Birth::Near,
        (Some(_), Some(_)) => Birth::Other,
        _ => Birth::Unknown,
    }
}

/// A name without regard to case and spaces.
fn plain(name: &str) -> String {
    let words: Vec<&str> = name.split_whitespace().collect();
    words.join(" ").to_lowercase()
}
