//! Records of the school's book, and what the day's lifts make of them.
//!
//! Nothing is stored of a record that falls: it follows from the book and from
//! the attempts that stand, so it goes with an attempt that is undone,
//! corrected or annulled, and comes back with it.

use super::Standing;
use std::collections::BTreeMap;

use super::groups::{category_label, category_set, divisions_of};
use crate::day::{Facts, RecordKey, RecordMark, Ruled, lifts_of_total, plain_category};
use crate::lift::Slug;
use crate::measure::{Mass, Unit, Weight};
use crate::roster::{Entry, EntryKey};
use crate::rules::{Sex, TieKey};

/// An attempt of the day that broke a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordSet {
    /// Whose.
    pub entry: EntryKey,
    /// In which slot.
    pub slot: Slug,
    /// Attempt number.
    pub attempt: u8,
    /// The load, as it was typed.
    pub load: Weight,
    /// What stood before; `None` where nobody had set it yet.
    pub before: Option<Mass>,
}

/// A record of the book with what broke it today.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordLine<'a> {
    /// Which.
    pub key: &'a RecordKey,
    /// What the book says.
    pub mark: &'a RecordMark,
    /// Attempts that broke it, in the order in which they were taken.
    pub set: Vec<RecordSet>,
}

impl RecordLine<'_> {
    /// What stands now: the day's last one, else the book's.
    pub fn stands(&self) -> Option<Mass> {
        let today = self.set.last().map(|s| s.load.mass);
        today.or_else(|| self.mark.load.as_ref().map(|w| w.mass))
    }
}

/// All records of the book: lifts in the order of the programme, girls and women
/// first, categories from the lightest, then divisions, then what is open.
///
/// A record is set by a good attempt of one repetition in the very lift; that of a
/// total by the attempt that completes or raises it, where the rules add lifts up. Guests
/// and who was disqualified set none; a record by category needs a bodyweight,
/// and the category lifted in; estimates never count. An equal load breaks one
/// only where the rules say so (`record-beats`).
pub fn records(facts: &Facts) -> Vec<RecordLine<'_>> {
    let mut lines: Vec<RecordLine<'_>> = Vec::with_capacity(facts.records.len());
    let mut lifted: Option<(&Slug, Vec<Lifted<'_>>)> = None;
    // The book is sorted by lift, so each lift's attempts are sought once.
    for (key, mark) in &facts.records {
        if lifted.as_ref().is_none_or(|(lift, _)| **lift != key.lift) {
            lifted = Some((&key.lift, good(facts, &key.lift)));
        }
        let attempts = lifted.as_ref().map_or(&[][..], |(_, list)| list.as_slice());
        lines.push(line(facts, key, mark, attempts));
    }
    lines.sort_by_cached_key(|l| rank(facts, l.key));
    lines
}

/// The records that a good lift of this load would break now, each with what
/// stands.
pub fn would_break<'a>(
    facts: &'a Facts,
    entry: &Entry,
    lift: &Slug,
    load: Mass,
) -> Vec<(&'a RecordKey, Option<Mass>)> {
    let mut found: Vec<(&RecordKey, Option<Mass>)> = Vec::new();
    let mut attempts = BTreeMap::new();
    for (key, mark) in of_entry(facts, entry, lift) {
        let Some(mass) = comes_to(facts, key, entry, lift, load) else {
            continue;
        };
        let attempts = attempts
            .entry(&key.lift)
            .or_insert_with(|| good(facts, &key.lift));
        let line = line(facts, key, mark, attempts);
        if breaks(facts, &line, entry, mass) {
            found.push((key, line.stands()));
        }
    }
    found.sort_by_cached_key(|(key, _)| rank(facts, key));
    found
}

/// The records that an attempt broke when it was lifted, each with what stood
/// before, also where another has broken it since.
pub fn broken_by<'a>(
    facts: &'a Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
) -> Vec<(&'a RecordKey, Option<Mass>)> {
    let ruled = facts.attempt(entry.key, slot, attempt);
    let Some(ruled) = ruled.and_then(|a| a.ruled.as_ref()) else {
        return Vec::new();
    };
    let lift = &ruled.fact.lift;
    let mut found: Vec<(&RecordKey, Option<Mass>)> = Vec::new();
    let mut attempts = BTreeMap::new();
    for (key, mark) in of_entry(facts, entry, lift) {
        let attempts = attempts
            .entry(&key.lift)
            .or_insert_with(|| good(facts, &key.lift));
        let line = line(facts, key, mark, attempts);
        let this = |s: &&RecordSet| {
            s.entry == entry.key && s.slot == *slot && s.attempt == attempt
        };
        if let Some(set) = line.set.iter().find(this) {
            found.push((key, set.before));
        }
    }
    found.sort_by_cached_key(|(key, _)| rank(facts, key));
    found
}

/// A good attempt of one repetition by somebody who may set a record.
struct Lifted<'a> {
    entry: &'a Entry,
    ruled: &'a Ruled,
    /// Its load, or the total that it makes.
    load: Weight,
}

/// What a good lift of a load comes to for a record: itself, or the total that it
/// makes; `None` where it makes none.
fn comes_to(
    facts: &Facts,
    key: &RecordKey,
    entry: &Entry,
    lift: &Slug,
    load: Mass,
) -> Option<Mass> {
    let Some(lifts) = lifts_of_total(key.lift.as_str()) else {
        return Some(load);
    };
    let mut total = Mass::ZERO;
    for part in lifts {
        let slot = &facts.slot_of(part)?.0.slot;
        let best = facts.best_of(entry.key, slot, |l| l.as_str() == *part);
        let best = best.and_then(|(_, r)| r.fact.credited.as_ref().map(|w| w.mass));
        total = total
            + if *part == lift.as_str() {
                best.map_or(load, |best| best.max(load))
            } else {
                best?
            };
    }
    Some(total)
}

/// All of a lift in the order in which they were taken; of a total, those that
/// completed or raised somebody's.
fn good<'a>(facts: &'a Facts, lift: &Slug) -> Vec<Lifted<'a>> {
    let mut found = Vec::new();
    for entry in facts.entries.values() {
        match lifts_of_total(lift.as_str()) {
            None => found.append(&mut of_lift(facts, entry, lift.as_str())),
            Some(lifts) if facts.rules.total => {
                found.append(&mut of_total(facts, entry, lifts));
            }
            Some(_) => {}
        }
    }
    found.sort_by_key(|l| l.ruled.seq);
    found
}

fn of_lift<'a>(facts: &'a Facts, entry: &'a Entry, lift: &str) -> Vec<Lifted<'a>> {
    let mut found = Vec::new();
    if Standing::of(entry) != Standing::Placed {
        return found;
    }
    for (slot, run) in facts.runs.get(&entry.key).into_iter().flatten() {
        if entry.is_disqualified(slot) {
            continue;
        }
        for ruled in run.attempts.values().filter_map(|a| a.ruled.as_ref()) {
            let fact = &ruled.fact;
            let counts =
                fact.ruling.is_good() && fact.reps <= 1 && fact.lift.as_str() == lift;
            if let Some(load) = fact.credited.clone().filter(|_| counts) {
                found.push(Lifted { entry, ruled, load });
            }
        }
    }
    found
}

/// The attempts with which somebody's total came about and rose; none where one of
/// its lifts was disqualified.
fn of_total<'a>(facts: &'a Facts, entry: &'a Entry, lifts: &[&str]) -> Vec<Lifted<'a>> {
    if !entry.disqualified_slots.is_empty() {
        return Vec::new();
    }
    let mut attempts: Vec<(usize, Lifted<'a>)> = Vec::new();
    for (i, lift) in lifts.iter().enumerate() {
        let of_lift = of_lift(facts, entry, lift);
        attempts.extend(of_lift.into_iter().map(|lifted| (i, lifted)));
    }
    attempts.sort_by_key(|(_, lifted)| lifted.ruled.seq);
    let mut bests: Vec<Option<Mass>> = vec![None; lifts.len()];
    let (mut found, mut most) = (Vec::new(), None);
    for (i, lifted) in attempts {
        bests[i] = bests[i].max(Some(lifted.load.mass));
        let total: Option<Mass> = bests.iter().copied().sum();
        if total > most {
            most = total;
            found.extend(total.map(|total| Lifted {
                load: Weight::computed(total, facts.bar_unit),
                ..lifted
            }));
        }
    }
    found
}

fn line<'a>(
    facts: &Facts,
    key: &'a RecordKey,
    mark: &'a RecordMark,
    attempts: &[Lifted<'_>],
) -> RecordLine<'a> {
    let mut line = RecordLine {
        key,
        mark,
        set: Vec::new(),
    };
    for lifted in attempts {
        // What is cheap to know comes first.
        if breaks(facts, &line, lifted.entry, lifted.load.mass)
            && may_set(facts, key, lifted.entry)
        {
            line.set.push(RecordSet {
                entry: lifted.entry.key,
                slot: lifted.ruled.fact.slot.clone(),
                attempt: lifted.ruled.fact.attempt,
                load: lifted.load.clone(),
                before: line.stands(),
            });
        }
    }
    line
}

/// Whether a load breaks what stands.
///
/// Of two who lift the same on the day, the lighter one has the record where the
/// rules break ties in a lift so (IPF Technical Rules, article 1 (d) and (e):
/// the same for records).
fn breaks(facts: &Facts, line: &RecordLine<'_>, entry: &Entry, load: Mass) -> bool {
    let Some(stands) = line.stands() else {
        return true;
    };
    if load - stands >= facts.rules.record_beats {
        return true;
    }
    let lighter = || {
        let holder = facts.entries.get(&line.set.last()?.entry)?;
        let (own, theirs) = (entry.bodyweight.as_ref()?, holder.bodyweight.as_ref()?);
        Some(own.mass < theirs.mass)
    };
    facts.rules.ties_lift.first() == Some(&TieKey::Bodyweight)
        && load == stands
        && lighter() == Some(true)
}

/// The records of a lift, and of totals that it is in, that are open to somebody.
fn of_entry<'a>(
    facts: &'a Facts,
    entry: &Entry,
    lift: &Slug,
) -> impl Iterator<Item = (&'a RecordKey, &'a RecordMark)> {
    let placed = Standing::of(entry) == Standing::Placed;
    let slot = facts.slot_of(lift.as_str()).map(|(line, _)| &line.slot);
    let out = !placed || slot.is_some_and(|slot| entry.is_disqualified(slot));
    let adds = facts.rules.total && entry.disqualified_slots.is_empty();
    let name = lift.clone();
    let of_lift = facts.records.iter().filter(move |(key, _)| {
        let total = || lifts_of_total(key.lift.as_str());
        let in_total = || total().is_some_and(|lifts| lifts.contains(&name.as_str()));
        !out && (key.lift == name || (adds && in_total()))
    });
    of_lift.filter(move |(key, _)| may_set(facts, key, entry))
}

fn may_set(facts: &Facts, key: &RecordKey, entry: &Entry) -> bool {
    key.sex.is_none_or(|sex| entry.sex == Some(sex))
        && (key.category.is_empty() || in_category(facts, entry, &key.category))
        && (key.division.is_empty() || in_division(facts, entry, &key.division))
}

/// Whether somebody lifts in a category with a bodyweight that isn't above it.
fn in_category(facts: &Facts, entry: &Entry, category: &str) -> bool {
    let Some(body) = &entry.bodyweight else {
        return false;
    };
    let label = category_label(facts, entry);
    if !plain_category(&label).eq_ignore_ascii_case(category) {
        return false;
    }
    let (Some(set), Some(sex)) = (category_set(facts), entry.sex) else {
        return true;
    };
    let ages = &facts.rules.age_group;
    let weighed = set.class(sex, ages, body.mass).map(|(rank, _)| rank);
    let lifts_in = set.rank(sex, ages, &label);
    weighed
        .zip(lifts_in)
        .is_none_or(|(weighed, lifts_in)| weighed <= lifts_in)
}

fn in_division(facts: &Facts, entry: &Entry, division: &str) -> bool {
    let wanted = division.to_lowercase();
    divisions_of(facts, entry)
        .iter()
        .any(|d| d.to_lowercase() == wanted)
}

/// Where a record stands in the list.
fn rank(facts: &Facts, key: &RecordKey) -> (usize, String, u8, u8, Mass, String, String) {
    let lifts = facts.slots.iter().flat_map(|line| &line.variants);
    let at = lifts.into_iter().position(|lift| *lift == key.lift);
    let sex = match key.sex {
        Some(Sex::F) => 0,
        Some(Sex::M) => 1,
        None => 2,
    };
    let kind = match (key.category.is_empty(), key.division.is_empty()) {
        (false, _) => 0,
        (true, false) => 1,
        (true, true) => 2,
    };
    let limit = key.category.trim_end_matches('+');
    let open = limit.len() < key.category.len();
    let limit = Mass::parse(limit, Unit::Kg).unwrap_or(Mass::ZERO);
    let limit = limit + Mass::from_counts(i64::from(open));
    (
        at.unwrap_or(usize::MAX),
        key.lift.to_string(),
        sex,
        kind,
        limit,
        key.category.clone(),
        key.division.clone(),
    )
}
