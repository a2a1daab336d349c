//! What published test protocols advise: jumps, drops, and when to stop.

use super::Ruling;
use super::facts::Facts;
use crate::lift::{Body, Slug, catalogue};
use crate::measure::Mass;
use crate::roster::Entry;

/// The largest load that is advised for an attempt; `None` where nothing is
/// known to go by.
///
/// A next attempt goes by the last one, if that was good; an opener by the
/// last known max. One step up is always within it. NSCA's protocol as
/// summarised by candidates: up to 10 % for the upper body, to 20 % for the
/// lower.
pub fn most(facts: &Facts, entry: &Entry, slot: &Slug, attempt: u8) -> Option<Mass> {
    let rules = &facts.rules;
    let lift = entry.variant(slot)?;
    let percent = by_body(lift, rules.jump_upper, rules.jump_lower)?;
    let base = if attempt <= 1 {
        entry.last.get(lift)?.mass
    } else {
        let before = facts
            .attempt(entry.key, slot, attempt - 1)?
            .ruled
            .as_ref()?;
        if !before.fact.ruling.is_good() {
            return None;
        }
        before.fact.credited.as_ref()?.mass
    };
    let jump = base.percent(100 + i64::from(percent));
    Some(jump.max((base + rules.step).ceil_to(rules.step)))
}

/// What is advised after a no lift: so much less, down to the step; `None`
/// after anything else.
pub fn less(facts: &Facts, entry: &Entry, slot: &Slug, attempt: u8) -> Option<Mass> {
    let rules = &facts.rules;
    let percent = by_body(entry.variant(slot)?, rules.drop_upper, rules.drop_lower)?;
    let before = attempt.checked_sub(1)?;
    let before = facts.attempt(entry.key, slot, before)?.ruled.as_ref()?;
    if before.fact.ruling != Ruling::No {
        return None;
    }
    let base = before.fact.loaded.as_ref()?.mass;
    Some(base.percent(100 - i64::from(percent)).floor_to(rules.step))
        .filter(|m| *m > Mass::ZERO)
}

/// How many maximal attempts an athlete has made in a lift, where that is as
/// many as the rules say a word about.
///
/// Published protocols find the max within 3 to 5 trials.
pub fn many(facts: &Facts, entry: &Entry, slot: &Slug) -> Option<u32> {
    let made = facts
        .run(entry.key, slot)?
        .attempts
        .values()
        .filter_map(|a| a.ruled.as_ref())
        .filter(|r| r.fact.ruling != Ruling::Pass)
        .count();
    let made = u32::try_from(made).unwrap_or(u32::MAX);
    facts.rules.warn_after.filter(|n| made >= *n).map(|_| made)
}

fn by_body(lift: &Slug, upper: Option<u32>, lower: Option<u32>) -> Option<u32> {
    match catalogue().get(lift.as_str())?.body {
        Body::Upper => upper,
        Body::Lower => lower,
    }
}
