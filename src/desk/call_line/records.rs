//! Records of the school's book, in the table's words.

use crate::day::{Facts, RecordKey, Ruled};
use crate::desk::see;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::Entry;
use crate::standings::{broken_by, would_break};

/// `would be a record in F 63: 85 stands`, where a good lift of this load would
/// break one.
pub(super) fn would_be(
    facts: &Facts,
    entry: &Entry,
    lift: &Slug,
    load: Mass,
) -> Option<String> {
    let broken = would_break(facts, entry, lift, load);
    let words = listed(facts, &broken, "stands")?;
    Some(format!("would be a record {words}"))
}

/// `a record in F 63: 85 stood`, where a ruled attempt broke one.
pub(super) fn was(facts: &Facts, entry: &Entry, ruled: &Ruled) -> Option<String> {
    let broken = broken_by(facts, entry, &ruled.fact.slot, ruled.fact.attempt);
    let words = listed(facts, &broken, "stood")?;
    Some(format!("a record {words}"))
}

fn listed(
    facts: &Facts,
    broken: &[(&RecordKey, Option<Mass>)],
    stands: &str,
) -> Option<String> {
    let words: Vec<String> = broken
        .iter()
        .map(|(key, before)| {
            let before = before.map_or("none is set yet".to_owned(), |mass| {
                format!("{} {stands}", mass.show(facts.bar_unit))
            });
            format!("in {}: {before}", key.label())
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
        && let Some(words) = was(facts, entry, ruled)
        && let Some(load) = &ruled.fact.credited
    {
        let load = see::load(facts, load.mass);
        found.push(format!("Lot {}: {load} is {words}.", entry.number));
    }
    found
}
