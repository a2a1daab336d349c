//! What a table and its boards show of a platform, as plain values.
//!
//! Pure: facts and a moment in, words and numbers out.

use super::call_line::hands_in;
use super::plan;
use crate::day::{
    Call, Facts, Platform, Queued, RecordKey, Ruled, Ruling, Stamp, queue, show_left,
};
use crate::lift::{Slug, catalogue};
use crate::measure::{Mass, Unit, Weight};
use crate::roster::{Entry, EntryKey};
use crate::rules::{BarRule, NameShown, TableNumber};
use crate::standings::{broken_by, would_break};

/// How long the lights of a ruling stay shown, in milliseconds.
pub const LIGHTS_STAY: i64 = 8_000;

/// Why somebody is shown as the one in hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State<'a> {
    /// Was called and isn't ruled yet.
    Called(&'a Call),
    /// Was ruled a moment ago.
    Ruled(&'a Ruled),
    /// Is next, not called yet.
    Next,
}

/// The athlete in hand on a platform.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Up<'a> {
    /// Who.
    pub entry: &'a Entry,
    /// The slot.
    pub slot: Slug,
    /// The variant.
    pub lift: Slug,
    /// Attempt number.
    pub attempt: u8,
    /// What is, or will be, on the bar; `None` where it is owed.
    pub load: Option<Mass>,
    /// Why.
    pub state: State<'a>,
}

/// The athlete in hand: who is called, else who was ruled a moment ago, else
/// who is next.
pub fn up(facts: &Facts, platform: u8, now: Stamp) -> Option<Up<'_>> {
    if let Some(up) = called(facts, platform) {
        return Some(up);
    }
    if let Some((entry, slot, attempt, ruled)) = fresh(facts, platform, now) {
        return Some(Up {
            entry,
            slot,
            lift: ruled.fact.lift.clone(),
            attempt,
            load: ruled.fact.loaded.as_ref().map(|w| w.mass),
            state: State::Ruled(ruled),
        });
    }
    let first = queue(facts, platform).into_iter().next()?;
    Some(Up {
        entry: facts.entries.get(&first.entry)?,
        slot: first.slot,
        lift: first.lift,
        attempt: first.attempt,
        load: first.load.map(|w| w.mass),
        state: State::Next,
    })
}

fn called(facts: &Facts, platform: u8) -> Option<Up<'_>> {
    let call = facts.platform(platform)?.call.as_ref()?;
    Some(Up {
        entry: facts.entries.get(&call.entry)?,
        slot: call.slot.clone(),
        lift: call.lift.clone(),
        attempt: call.attempt,
        load: Some(call.load.mass),
        state: State::Called(call),
    })
}

/// The round that a platform is in, where the rules have rounds: that of the
/// athlete called, else of the next, else of the last.
pub fn round(facts: &Facts, platform: u8) -> Option<u8> {
    if facts.rules.bar != BarRule::Rounds {
        return None;
    }
    let place = facts.platform(platform)?;
    let running = place.running.as_ref()?;
    if let Some(call) = &place.call {
        return Some(call.attempt);
    }
    let next = queue(facts, platform).first().map(|q| q.attempt);
    next.or_else(|| {
        let (_, slot, attempt) = place.last.as_ref()?;
        (*slot == running.slot).then_some(*attempt)
    })
}

/// Whether the request that stands for an attempt is made for a record.
pub fn for_record(facts: &Facts, entry: EntryKey, slot: &Slug, attempt: u8) -> bool {
    facts
        .attempt(entry, slot, attempt)
        .and_then(|a| a.requests.last())
        .is_some_and(|r| r.record)
}

/// What is said of an athlete whose advised rest is over.
pub const RESTED: &str = "rested";

/// What the queue says beside a name: rest that is left, or that somebody is
/// rested; a record's request.
pub fn mark(facts: &Facts, queued: &Queued, now: Stamp) -> String {
    let record = for_record(facts, queued.entry, &queued.slot, queued.attempt);
    let left = queued.rests_until.map(|until| until.since(now));
    match (record, left) {
        (false, None) => String::new(),
        (true, None) => "record".to_owned(),
        (false, Some(left)) if left > 0 => format!("rests {}", show_left(left)),
        (true, Some(left)) if left > 0 => format!("record, {}", show_left(left)),
        (false, Some(_)) => RESTED.to_owned(),
        (true, Some(_)) => "record, rested".to_owned(),
    }
}

/// What heads a column of table numbers.
pub fn number_heading(facts: &Facts) -> &'static str {
    match facts.rules.table_number {
        TableNumber::Lot => "Lot",
        TableNumber::Start => "No.",
    }
}

/// The last attempt that was ruled live on a platform.
pub fn last_ruled(facts: &Facts, platform: u8) -> Option<(&Entry, Slug, u8, &Ruled)> {
    let (key, slot, attempt) = facts.platform(platform)?.last.as_ref()?;
    let ruled = facts.attempt(*key, slot, *attempt)?.ruled.as_ref()?;
    Some((facts.entries.get(key)?, slot.clone(), *attempt, ruled))
}

/// The last ruling on a platform while its lights are still shown.
pub fn fresh(
    facts: &Facts,
    platform: u8,
    now: Stamp,
) -> Option<(&Entry, Slug, u8, &Ruled)> {
    last_ruled(facts, platform)
        .filter(|(_, _, _, ruled)| (0..LIGHTS_STAY).contains(&now.since(ruled.at)))
}

/// Whether something shown on any platform changes by time alone.
pub fn moves(facts: &Facts, now: Stamp) -> bool {
    (1..).zip(&facts.platforms).any(|(number, platform)| {
        let runs = platform
            .call
            .as_ref()
            .and_then(|c| c.clock)
            .is_some_and(|c| c.runs() && c.left_at(now) > 0);
        runs || fresh(facts, number, now).is_some()
            || platform
                .break_until
                .is_some_and(|until| until.since(now) > 0)
            || plan::counts_down(facts, number, now)
            || hands_in(facts, number, now)
            || rests(facts, platform, now)
    })
}

/// Whether somebody of the running flight still rests.
fn rests(facts: &Facts, platform: &Platform, now: Stamp) -> bool {
    let rest = i64::from(facts.rules.rest) * 1000;
    let (Some(running), true) = (&platform.running, rest > 0) else {
        return false;
    };
    let rests = |entry: &Entry| {
        let next = facts.next_attempt(entry.key, &running.slot)?;
        let before = facts.attempt(entry.key, &running.slot, next.checked_sub(1)?)?;
        Some(now.since(before.ruled.as_ref()?.at) < rest)
    };
    facts
        .entries_of(&running.session, &running.flight)
        .any(|entry| rests(entry) == Some(true))
}

/// An attempt as it is written in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// The load, or the ruling's word.
    pub text: String,
    /// Struck through: a no lift.
    pub struck: bool,
}

/// An entry's ruled attempts in a slot, by number; `None` where not ruled.
pub fn written(facts: &Facts, entry: EntryKey, slot: &Slug) -> Vec<Option<Written>> {
    let allowed = facts.attempts_allowed(entry, slot);
    (1..=allowed)
        .map(|n| {
            let ruled = facts.attempt(entry, slot, n)?.ruled.as_ref()?;
            let fact = &ruled.fact;
            let load = fact.credited.as_ref().or(fact.loaded.as_ref());
            let mut load = load.map(|w| w.show(facts.bar_unit)).unwrap_or_default();
            if fact.reps > 1 {
                load.push_str(&format!("x{}", fact.reps));
            }
            let text = match &fact.ruling {
                Ruling::Good | Ruling::No => load,
                Ruling::Time => format!("{load} time").trim().to_owned(),
                other => other.word().to_owned(),
            };
            Some(Written {
                text,
                struck: fact.ruling.is_no_lift(),
            })
        })
        .collect()
}

/// A load with its unit.
pub fn load(facts: &Facts, mass: Mass) -> String {
    mass.show_with_unit(facts.bar_unit)
}

/// A load in the other unit, rounded to a tenth, with its unit.
pub fn other_unit(mass: Mass, unit: Unit) -> String {
    let other = unit.other();
    format!("{} {other}", mass.rounded(other, 1))
}

/// A load that may be owed.
pub fn maybe(facts: &Facts, weight: Option<&Weight>) -> String {
    weight.map_or_else(|| "owed".to_owned(), |w| w.show(facts.bar_unit))
}

/// A lift's name for people.
pub fn lift_name(slug: &Slug) -> String {
    catalogue()
        .get(slug.as_str())
        .map_or_else(|| slug.as_str().replace('-', " "), |l| l.name.clone())
}

/// A text with a capital first letter.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

/// A fault in the table's words.
pub fn fault_words(code: &str) -> String {
    catalogue()
        .fault(code)
        .map_or_else(|| code.replace('-', " "), |f| f.text.clone())
}

/// A name as the day's posting policy shows it.
pub fn posted_name(facts: &Facts, entry: &Entry) -> String {
    match facts.rules.posting.name {
        NameShown::Full => entry.name(),
        NameShown::Initial => entry.first_and_initial(),
        NameShown::Number => format!("No. {}", entry.number),
    }
}

/// What the boards say of a record of the book: `record 85`, what stands where a
/// good lift would break it, or `new record` once it is broken.
///
/// Of several the highest that stands. A record by category is said only where
/// categories are posted.
pub fn posted_record(facts: &Facts, up: &Up<'_>) -> Option<String> {
    let shown = |key: &RecordKey| key.category.is_empty() || facts.rules.posting.category;
    if let State::Ruled(ruled) = &up.state {
        let broken = broken_by(facts, up.entry, &up.slot, ruled.fact.attempt);
        let any = broken.iter().any(|(key, _)| shown(key));
        return any.then(|| "new record".to_owned());
    }
    let broken = would_break(facts, up.entry, &up.lift, up.load?);
    let highest = broken
        .into_iter()
        .filter(|(key, _)| shown(key))
        .map(|(_, m)| m)
        .max()?;
    Some(highest.map_or("record".to_owned(), |mass| {
        format!("record {}", mass.show(facts.bar_unit))
    }))
}

/// Leaders of the running slot in the running flight: heaviest best first, at
/// most `most`; those of the sex of the athlete in hand, if there is one.
pub fn leaders<'a>(
    facts: &'a Facts,
    platform: u8,
    up: Option<&Up<'_>>,
    most: usize,
) -> Vec<(&'a Entry, Mass)> {
    let Some(running) = facts.platform(platform).and_then(|p| p.running.as_ref()) else {
        return Vec::new();
    };
    let mut list: Vec<(&Entry, Mass, u64)> = facts
        .entries_of(&running.session, &running.flight)
        .filter(|e| up.is_none_or(|u| u.entry.sex == e.sex))
        .filter_map(|e| {
            let (_, ruled) = facts.best(e.key, &running.slot)?;
            Some((e, ruled.fact.credited.as_ref()?.mass, ruled.seq))
        })
        .collect();
    list.sort_by_key(|(_, mass, seq)| (std::cmp::Reverse(*mass), *seq));
    list.truncate(most);
    list.into_iter().map(|(e, m, _)| (e, m)).collect()
}

/// Those who follow the athlete in hand in the queue.
pub fn following(facts: &Facts, platform: u8, up: Option<&Up<'_>>) -> Vec<Queued> {
    let mut list = queue(facts, platform);
    if let Some(up) = up
        && !matches!(up.state, State::Ruled(_))
    {
        list.retain(|q| q.entry != up.entry.key);
    }
    list
}
