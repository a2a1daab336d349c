//! Earlier days: each athlete's line in each lift, and what its changes mean.
//!
//! Who an earlier person is isn't guessed: what is doubtful is listed as such,
//! counts for nothing, and is settled by an answer.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::day::Facts;
use crate::lift::Slug;
use crate::measure::{Mass, Unit};
use crate::roster::{Born, Entry, EntryKey};
use crate::rules::Sex;
use crate::score::{Reliability, reliability, smallest_worthwhile};

/// A max of an earlier day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PastMax {
    /// The very lift; a variant is another one.
    pub lift: Slug,
    /// When.
    pub date: NaiveDate,
    /// How much.
    pub max: Mass,
    /// The unit it was lifted in.
    pub unit: Unit,
}

/// Somebody of an earlier day.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PastPerson {
    /// The table number then, or the row of a file.
    pub number: u64,
    /// The school's own identifier.
    pub id: String,
    /// Given name.
    pub given: String,
    /// Family name.
    pub family: String,
    /// Birth.
    pub born: Option<Born>,
    /// Sex.
    pub sex: Option<Sex>,
    /// Maxes, one a lift and date.
    pub maxes: Vec<PastMax>,
}

/// An earlier day, or a file of earlier maxes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Past {
    /// What it is called: the file's name.
    pub source: String,
    /// Who was there.
    pub people: Vec<PastPerson>,
}

/// What somebody has answered about an earlier person: whose it is, or that it
/// isn't that one's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// The table number today.
    pub lot: u16,
    /// The earlier file.
    pub source: String,
    /// The number there.
    pub number: u64,
    /// Whether it is the same person.
    pub same: bool,
}

/// How an earlier person was found to be today's athlete.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// By id.
    Id,
    /// By given and family name with birth.
    Name,
    /// Somebody has said so.
    Told,
    /// Not for sure; why, in words.
    Doubtful(String),
}

/// One max in an athlete's line.
#[derive(Debug, Clone, PartialEq)]
pub struct HistoryRow {
    /// Whose.
    pub entry: EntryKey,
    /// The lift.
    pub lift: Slug,
    /// When; `None` where only the roster tells of it.
    pub date: Option<NaiveDate>,
    /// How much.
    pub max: Mass,
    /// In which unit it is told.
    pub unit: Unit,
    /// The earlier file; `None` is today, or its roster.
    pub source: Option<String>,
    /// The number there; `None` for today and its roster.
    pub number: Option<u64>,
    /// How it was matched; `None` for today and its roster.
    pub found: Option<Found>,
    /// The max before it in the line.
    pub before: Option<Mass>,
    /// The smallest worthwhile change among those of its day, in kg.
    pub worthwhile: Option<f64>,
    /// What is published for the lift and the athlete's sex.
    pub published: Option<&'static Reliability>,
    /// Heavier than all before it, of which there is one.
    pub best: bool,
}

impl HistoryRow {
    /// The change from the max before.
    pub fn change(&self) -> Option<Mass> {
        self.before.map(|before| self.max - before)
    }

    /// Whether it isn't sure that the max is the athlete's.
    pub const fn is_doubtful(&self) -> bool {
        matches!(self.found, Some(Found::Doubtful(_)))
    }
}

/// The maxes of a day, as those of an earlier one.
///
/// The heaviest good attempt of one repetition in each variant; none in a lift in
/// which somebody was disqualified. Guests have theirs.
pub fn past_of(facts: &Facts, source: &str) -> Past {
    let people = facts.entries_by_number().map(|entry| PastPerson {
        number: u64::from(entry.number),
        id: entry.id.clone(),
        given: entry.given.clone(),
        family: entry.family.clone(),
        born: entry.born,
        sex: entry.sex,
        maxes: maxes(facts, entry),
    });
    Past {
        source: source.to_owned(),
        people: people.collect(),
    }
}

fn maxes(facts: &Facts, entry: &Entry) -> Vec<PastMax> {
    let mut found = Vec::new();
    for line in &facts.slots {
        if entry.is_disqualified(&line.slot) {
            continue;
        }
        for lift in &line.variants {
            let best = facts.best_of(entry.key, &line.slot, |l| l == lift);
            if let Some(load) = best.and_then(|(_, r)| r.fact.credited.as_ref()) {
                found.push(PastMax {
                    lift: lift.clone(),
                    date: facts.date,
                    max: load.mass,
                    unit: facts.bar_unit,
                });
            }
        }
    }
    found
}

/// Every athlete's line in every lift, by table number, lift and date.
///
/// The last max that the roster tells of stands at the head of a line that no
/// earlier day has. Doubtful maxes come last in a line and count for nothing.
pub fn history(facts: &Facts, pasts: &[Past], answers: &[Answer]) -> Vec<HistoryRow> {
    let today = past_of(facts, "");
    let spread = Spread::of(pasts.iter().chain([&today]));
    let matches = super::same_person::matches(facts, pasts, answers);
    let mut rows = Vec::new();
    for entry in facts.entries_by_number() {
        let mut lines: BTreeMap<(usize, Slug), Vec<HistoryRow>> = BTreeMap::new();
        let mut add = |max: &PastMax, from: Option<(&Past, &PastPerson, &Found)>| {
            let sex = from.map_or(entry.sex, |(_, person, _)| person.sex);
            let source = from.map(|(past, _, _)| past.source.clone());
            let row = HistoryRow {
                entry: entry.key,
                lift: max.lift.clone(),
                date: Some(max.date),
                max: max.max,
                unit: max.unit,
                worthwhile: spread.worthwhile(source.as_deref(), max, sex),
                source,
                number: from.map(|(_, person, _)| person.number),
                found: from.map(|(_, _, found)| found.clone()),
                before: None,
                published: entry.sex.and_then(|s| reliability(max.lift.as_str(), s)),
                best: false,
            };
            let key = (rank(facts, &max.lift), max.lift.clone());
            lines.entry(key).or_default().push(row);
        };
        for (past, person, found) in matches.get(&entry.key).into_iter().flatten() {
            for max in &person.maxes {
                add(max, Some((past, person, found)));
            }
        }
        maxes(facts, entry).iter().for_each(|max| add(max, None));
        for mut line in lines.into_values() {
            line.sort_by_key(|row| (row.is_doubtful(), row.date));
            from_roster(entry, &mut line);
            compare(&mut line);
            rows.append(&mut line);
        }
    }
    rows
}

/// Puts the roster's last max before a line that begins today.
fn from_roster(entry: &Entry, line: &mut Vec<HistoryRow>) {
    let sure = line
        .iter()
        .any(|row| row.source.is_some() && !row.is_doubtful());
    let Some(first) = line.first().filter(|_| !sure) else {
        return;
    };
    let Some(last) = entry.last.get(&first.lift) else {
        return;
    };
    let row = HistoryRow {
        date: None,
        max: last.mass,
        unit: last.unit,
        source: None,
        number: None,
        found: None,
        worthwhile: None,
        ..first.clone()
    };
    line.insert(0, row);
}

/// Sets what each row is compared with.
fn compare(line: &mut [HistoryRow]) {
    let (mut before, mut best): (Option<Mass>, Option<Mass>) = (None, None);
    for row in line.iter_mut().filter(|row| !row.is_doubtful()) {
        row.before = before;
        row.best = best.is_some_and(|best| row.max > best);
        before = Some(row.max);
        best = best.max(Some(row.max));
    }
}

fn rank(facts: &Facts, lift: &Slug) -> usize {
    let mut lifts = facts.slots.iter().flat_map(|line| &line.variants);
    lifts.position(|l| l == lift).unwrap_or(usize::MAX)
}

/// Source, date, lift and sex of maxes that are spread together.
type Together = (String, NaiveDate, Slug, &'static str);

/// The smallest worthwhile change of each day, lift and sex.
struct Spread(BTreeMap<Together, Option<f64>>);

impl Spread {
    fn of<'a>(pasts: impl Iterator<Item = &'a Past>) -> Self {
        let mut maxes: BTreeMap<Together, Vec<Mass>> = BTreeMap::new();
        for past in pasts {
            for person in &past.people {
                let Some(sex) = person.sex else { continue };
                for max in &person.maxes {
                    let key = together(&past.source, max, sex);
                    maxes.entry(key).or_default().push(max.max);
                }
            }
        }
        let each = maxes.into_iter();
        Self(
            each.map(|(k, list)| (k, smallest_worthwhile(&list)))
                .collect(),
        )
    }

    fn worthwhile(
        &self,
        source: Option<&str>,
        max: &PastMax,
        sex: Option<Sex>,
    ) -> Option<f64> {
        let key = together(source.unwrap_or(""), max, sex?);
        self.0.get(&key).copied().flatten()
    }
}

fn together(source: &str, max: &PastMax, sex: Sex) -> Together {
    (source.to_owned(), max.date, max.lift.clone(), sex.letter())
}
