//! What became of acts later, and what a correction changed, in words.

use std::collections::BTreeMap;

use super::told::{act_as, event, fault_words, lift_words, lot, ruled, ruling_of};
use super::{act_words, lights_word};
use crate::day::{Authority, Day, Event, Light, Recorded, RuledFact, Stamp};
use crate::lift::Slug;
use crate::measure::Weight;
use crate::roster::{Change, EntryKey};

/// What became of an act later.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fate {
    /// `corrected`, `annulled`, `undone` and the like.
    pub what: &'static str,
    /// When.
    pub at: Stamp,
    /// Whose hand did it.
    pub hand: String,
}

impl Fate {
    /// `corrected at 10:41 by Ms Quispara`.
    pub fn words(&self) -> String {
        let at = self.at.clock_time();
        if self.hand.is_empty() {
            return format!("{} at {at}", self.what);
        }
        format!("{} at {at} by {}", self.what, self.hand)
    }
}

/// What became of every act that something became of, by the place of its first
/// event: the last that was done to it and stands.
pub fn fates(day: &Day) -> BTreeMap<u64, Fate> {
    let mut fates = BTreeMap::new();
    let mut ruled: BTreeMap<(EntryKey, &Slug, u8), u64> = BTreeMap::new();
    for recorded in day.journal() {
        if !day.stands_now(recorded.seq) {
            continue;
        }
        let of = |key: &EntryKey, slot: &Slug, attempt: &u8| {
            ruled.get(&(*key, slot, *attempt)).copied()
        };
        let (act, what) = match &recorded.event {
            Event::Ruled(fact) => {
                let attempt = (fact.entry, &fact.slot, fact.attempt);
                let _ = ruled.insert(attempt, recorded.act);
                continue;
            }
            Event::Corrected { target, .. } => {
                (day.recorded(*target).map(|r| r.act), "corrected")
            }
            Event::Annulled { act, .. } => (Some(*act), "annulled"),
            Event::Undone { act, .. } => (Some(*act), "undone"),
            // The undo is what no longer holds.
            Event::Redone { undo } => {
                (day.recorded(*undo).map(|r| r.act), "brought back")
            }
            Event::Reruled {
                entry,
                slot,
                attempt,
                authority,
                ..
            } => (
                of(entry, slot, attempt),
                match authority {
                    Authority::Overrule => "overruled",
                    Authority::Challenge => "challenged and ruled anew",
                },
            ),
            Event::LoadFound {
                entry,
                slot,
                attempt,
                ..
            } => (of(entry, slot, attempt), "another load found"),
            _ => continue,
        };
        if let Some(act) = act {
            let fate = Fate {
                what,
                at: recorded.at,
                hand: recorded.hand.clone(),
            };
            let _ = fates.insert(act, fate);
        }
    }
    fates
}

/// An act as a list of acts tells it: with the lights of an attempt where several
/// judges gave them, and what a correction changed; reasons last.
pub fn act_row_words(day: &Day, act: u64) -> String {
    let of_row = day.act(act).find_map(|recorded| match &recorded.event {
        Event::Ruled(_) => Some(act_as(day, act, in_full)),
        Event::Corrected {
            target,
            event,
            reason,
        } => {
            let words = corrected_words(day, *target, event, recorded.seq)?;
            Some(because(format!("corrected: {words}"), reason))
        }
        Event::Annulled { reason, .. }
        | Event::Reruled { reason, .. }
        | Event::ChallengeLost { reason, .. } => {
            Some(because(act_words(day, act), reason))
        }
        _ => None,
    });
    of_row.unwrap_or_else(|| act_words(day, act))
}

fn because(words: String, reason: &str) -> String {
    match reason.trim() {
        "" => words,
        reason => format!("{words}; {reason}"),
    }
}

/// An attempt with its lights and reasons. One light says what the ruling says; of
/// several each may differ.
fn in_full(day: &Day, told: &Event) -> String {
    let fact = match told {
        Event::Ruled(fact) if fact.lights.len() > 1 => fact,
        other => return event(day, other),
    };
    let ruling = ruling_of(fact);
    let lights = lights_word(&fact.lights);
    let mut words = vec![format!("{ruling}; lights {lights}")];
    words.extend(named(fact));
    ruled(day.facts(), fact, &words.join(", "))
}

/// The reasons named for an attempt, each with its judge where that is known.
fn named(fact: &RuledFact) -> Vec<String> {
    let named = fact.faults.iter().map(|fault| match fault.judge {
        Some(judge) => format!("judge {judge} {}", fault_words(&fault.code)),
        None => fault_words(&fault.code),
    });
    named.collect()
}

/// What the journal said of an event before another place in it: with the
/// correction made last till then, if that still stood.
fn said_before(day: &Day, target: u64, before: u64) -> Option<&Event> {
    let earlier = day.journal().iter().rev().filter(|r| r.seq < before);
    let corrected = earlier
        .filter(|r| r.seq > target)
        .find_map(|r| match &r.event {
            Event::Corrected {
                target: of, event, ..
            } if *of == target && stood(day, r.act, before) => Some(event.as_ref()),
            _ => None,
        });
    corrected.or_else(|| day.recorded(target).map(|r| &r.event))
}

/// Whether an act stood just before a place in the journal.
fn stood(day: &Day, act: u64, before: u64) -> bool {
    let annuls = |r: &Recorded| match r.event {
        Event::Annulled { act, .. } | Event::Undone { act, .. } => act,
        Event::Redone { undo } => undo,
        _ => 0,
    };
    let mut later = day.journal().iter();
    !later.any(|r| {
        r.seq > act && r.seq < before && annuls(r) == act && stood(day, r.act, before)
    })
}

/// What a correction at a place in the journal changed of the event at `target`, as
/// [`correction_words`]; `None` where the journal has no such event.
pub fn corrected_words(
    day: &Day,
    target: u64,
    event: &Event,
    seq: u64,
) -> Option<String> {
    let before = said_before(day, target, seq)?;
    Some(correction_words(day, before, event))
}

/// What differs between what an event said and what it should have said, with
/// whom or what it is about; without a full stop.
///
/// Bodyweights and clearances are named as such and never told.
pub fn correction_words(day: &Day, before: &Event, after: &Event) -> String {
    let facts = day.facts();
    let load = |w: &Weight| w.mass.show_with_unit(facts.bar_unit);
    match (before, after) {
        (Event::Ruled(old), Event::Ruled(new)) => format!(
            "{}, {} attempt {}: {}",
            lot(facts, new.entry),
            lift_words(&new.slot),
            new.attempt,
            of_attempt(old, new, &load).join(", ")
        ),
        (
            Event::Requested { load: old, .. },
            Event::Requested {
                entry,
                slot,
                attempt,
                load: new,
                ..
            },
        ) => format!(
            "request of {}, {} attempt {attempt}: {} instead of {}",
            lot(facts, *entry),
            lift_words(slot),
            load(new),
            load(old)
        ),
        (Event::Weighed { .. }, Event::Weighed { entry, .. }) => {
            format!("weigh-in of {}: another bodyweight", lot(facts, *entry))
        }
        (
            Event::EntryAdded {
                changes: old,
                number: was,
                ..
            },
            Event::EntryAdded {
                entry,
                changes: new,
                number,
            },
        ) => {
            let mut named = details(old, new);
            if was != number {
                named.insert(0, format!("lot {number} instead of {was}"));
            }
            format!("entry of {}: {}", lot(facts, *entry), named.join(", "))
        }
        (
            Event::EntryEdited { changes: old, .. },
            Event::EntryEdited {
                entry,
                changes: new,
            },
        ) => {
            let named = details(old, new).join(", ");
            format!("details of {}: {named}", lot(facts, *entry))
        }
        _ => event(day, after),
    }
}

/// What differs between two accounts of an attempt.
fn of_attempt(
    old: &RuledFact,
    new: &RuledFact,
    load: &dyn Fn(&Weight) -> String,
) -> Vec<String> {
    let mut list = Vec::new();
    let mut differs = |new: String, old: String| {
        if new != old {
            list.push(format!("{new} instead of {old}"));
        }
    };
    let weight = |fact: &RuledFact| {
        let weight = fact.credited.as_ref().or(fact.loaded.as_ref());
        weight.map_or_else(|| "no load".to_owned(), load)
    };
    differs(weight(new), weight(old));
    differs(lift_words(&new.lift), lift_words(&old.lift));
    differs(ruling_of(new), ruling_of(old));
    let lights = |fact: &RuledFact| match fact.lights.as_slice() {
        [] => "no lights".to_owned(),
        [Light::White] => "a white light".to_owned(),
        [Light::Red] => "a red light".to_owned(),
        several => format!("lights {}", lights_word(several)),
    };
    // Where the only light turned with the ruling, that was said.
    let alone = new.lights.len() < 2 && old.lights.len() < 2;
    if new.lights != old.lights && (!alone || new.ruling == old.ruling) {
        differs(lights(new), lights(old).replace("lights ", ""));
    }
    match (named(new), named(old)) {
        (now, was) if now == was => {}
        (now, was) if was.is_empty() => list.push(reasons(&now)),
        (now, was) => {
            list.push(format!(
                "{} instead of {}",
                reasons(&now),
                was.join(" and ")
            ));
        }
    }
    list
}

/// Reasons behind the word for them.
fn reasons(named: &[String]) -> String {
    match named {
        [] => "no reason".to_owned(),
        [one] => format!("reason {one}"),
        several => format!("reasons {}", several.join(" and ")),
    }
}

/// The names of the details that were corrected.
fn details(old: &[Change], new: &[Change]) -> Vec<String> {
    let mut named: Vec<String> = Vec::new();
    for change in new.iter().filter(|change| !old.contains(change)) {
        let name = detail(change);
        if !named.contains(&name) {
            named.push(name);
        }
    }
    named
}

fn detail(change: &Change) -> String {
    match change {
        Change::Number(_) => "lot".to_owned(),
        Change::Id(_) => "id".to_owned(),
        Change::Given(_) => "given name".to_owned(),
        Change::Family(_) => "family name".to_owned(),
        Change::Sex(_) => "sex".to_owned(),
        Change::Born(_) => "birth".to_owned(),
        Change::Grade(_) => "grade".to_owned(),
        Change::Team(_) => "team".to_owned(),
        Change::Category(_) => "category".to_owned(),
        Change::Divisions(_) => "divisions".to_owned(),
        Change::Place { .. } => "flight".to_owned(),
        Change::Bodyweight(_) => "bodyweight".to_owned(),
        Change::EntryTotal(_) => "entry total".to_owned(),
        Change::Slot { slot, .. } => lift_words(slot),
        Change::Last { lift, .. } => format!("last max in {}", lift_words(lift)),
        Change::Clearance { .. } => "clearance".to_owned(),
        Change::Guest(_) => "guest".to_owned(),
        Change::Setup { .. } => "set-up".to_owned(),
    }
}
