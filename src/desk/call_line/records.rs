//! Records of the school's book, in the table's words.

use crate::day::{Facts, RecordKey, Ruled};
use crate::desk::see;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::Entry;
use crate::sheets::{Audience, shows_category};
use crate::standings::{broken_by, would_break};

/// `would be a record in F 63: 85 stands`, where a good lift of this load would
/// break one.
pub(super) fn would_be(
    facts: &Facts,
    entry: &Entry,
    lift: &Slug,
    load: Mass,
) -> Option<String> {
    let words = listed(
        facts,
        &would_break(facts, entry, lift, load),
        |label, before| match before {
            Some(mass) => format!("in {label}: {} stands", mass.show(facts.bar_unit)),
            None => format!("in {label}: none is set yet"),
        },
    )?;
    Some(format!("would be a record {words}"))
}

/// `a record in F 63, after 85`, where a good lift of this load breaks one.
pub(super) fn breaks(
    facts: &Facts,
    entry: &Entry,
    lift: &Slug,
    load: Mass,
) -> Option<String> {
    broken(facts, &would_break(facts, entry, lift, load))
}

/// The same of an attempt that was ruled.
fn broke(facts: &Facts, entry: &Entry, ruled: &Ruled) -> Option<String> {
    let fact = &ruled.fact;
    broken(facts, &broken_by(facts, entry, &fact.slot, fact.attempt))
}

fn broken(facts: &Facts, list: &[(&RecordKey, Option<Mass>)]) -> Option<String> {
    let words = listed(facts, list, |label, before| match before {
        Some(mass) => format!("in {label}, after {}", mass.show(facts.bar_unit)),
        None => format!("in {label}, the first"),
    })?;
    Some(format!("a record {words}"))
}

/// The table shows a volunteer no category where the day doesn't post it: it
/// would give the bodyweight away.
fn listed(
    facts: &Facts,
    list: &[(&RecordKey, Option<Mass>)],
    say: impl Fn(String, Option<Mass>) -> String,
) -> Option<String> {
    let words: Vec<String> = list
        .iter()
        .map(|(key, before)| {
            let total = if key.is_total() { " total" } else { "" };
            let hidden =
                !key.category.is_empty() && !shows_category(facts, Audience::Posted);
            let label = match hidden {
                true => "the category".to_owned(),
                false => key.label(),
            };
            say(format!("{label}{total}"), *before)
        })
        .collect();
    (!words.is_empty()).then(|| words.join("; "))
}

/// The record that the athlete called is after, and that the last one set.
pub(super) fn remarks(facts: &Facts, platform: u8) -> Vec<String> {
    let mut found = Vec::new();
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    if let Some(call) = call
        && let Some(entry) = facts.entries.get(&call.entry)
        && let Some(words) = would_be(facts, entry, &call.lift, call.load.mass)
    {
        let load = see::load(facts, call.load.mass);
        found.push(format!("{load} {words}."));
    }
    if let Some((entry, _, _, ruled)) = see::last_ruled(facts, platform)
        && let Some(words) = broke(facts, entry, ruled)
        && let Some(load) = &ruled.fact.credited
    {
        let load = see::load(facts, load.mass);
        found.push(format!("Lot {}: {load} is {words}.", entry.number));
    }
    found
}
