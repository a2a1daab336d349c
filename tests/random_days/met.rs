//! What must come on random days beside every word and every refusal.

use std::cmp::Ordering;

use maxday::day::{Authority, Day, Event, Facts};
use maxday::lift::Slug;
use maxday::measure::Mass;
use maxday::roster::{Change, EntryKey};
use maxday::rules::keys;

/// What must come on a twentieth of the days.
pub const OFTEN: [&str; 12] = [
    "a day: MaxDay",
    "a day: Weightlifting",
    "a day: Powerlifting",
    "a request for a record",
    "several repetitions",
    "another variant than the one entered",
    "a lost challenge",
    "an upheld challenge",
    "a guest",
    "a clearance that ends",
    "start numbers",
    "a wrong load that counts less",
];

/// What must come at all: every rule is set, every grant is made.
pub fn once() -> Vec<String> {
    let mut all: Vec<String> = keys().iter().map(|k| format!("set {}", k.name)).collect();
    for granted in ["Keep", "Repeat", "Again"] {
        for bar in ["lighter", "heavier", "same"] {
            all.push(format!("{granted} for a {bar} bar"));
        }
    }
    all
}

/// What an event is of these.
pub fn of(day: &Day, event: &Event) -> Vec<String> {
    let words: Vec<&str> = match event {
        Event::Requested { record: true, .. } => vec!["a request for a record"],
        Event::Ruled(fact) => {
            let entry = day.facts().entries.get(&fact.entry);
            let entered = entry.and_then(|e| e.variant(&fact.slot));
            let other = entered.is_some_and(|lift| *lift != fact.lift);
            let reps = (fact.reps > 1).then_some("several repetitions");
            let other = other.then_some("another variant than the one entered");
            reps.into_iter().chain(other).collect()
        }
        Event::ChallengeLost { .. } => vec!["a lost challenge"],
        Event::Reruled {
            authority: Authority::Challenge,
            ..
        } => vec!["an upheld challenge"],
        Event::EntryAdded { changes, .. } | Event::EntryEdited { changes, .. }
            if changes.contains(&Change::Guest(true)) =>
        {
            vec!["a guest"]
        }
        Event::Cleared { until: Some(_), .. } => vec!["a clearance that ends"],
        Event::Numbered { .. } => vec!["start numbers"],
        Event::SettingChanged { key, .. } => {
            return vec![format!("set {}", key.replace('.', "-"))];
        }
        Event::LoadFound {
            entry,
            slot,
            attempt,
            loaded,
            credited,
            granted,
        } => {
            let asked = asked(day.facts(), *entry, slot, *attempt);
            let bar = match loaded.mass.cmp(&asked.unwrap_or(loaded.mass)) {
                Ordering::Less => "lighter",
                Ordering::Equal => "same",
                Ordering::Greater => "heavier",
            };
            let less = (loaded != credited).then(|| OFTEN[11].to_owned());
            let grant = format!("{granted:?} for a {bar} bar");
            return less.into_iter().chain([grant]).collect();
        }
        _ => vec![],
    };
    words.into_iter().map(str::to_owned).collect()
}

/// What was asked for in an attempt that was ruled.
fn asked(facts: &Facts, entry: EntryKey, slot: &Slug, attempt: u8) -> Option<Mass> {
    let attempt = facts.attempt(entry, slot, attempt)?;
    let ruled = attempt.void.last().or(attempt.ruled.as_ref())?;
    Some(ruled.fact.requested.as_ref()?.mass)
}
