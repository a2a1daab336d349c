//! What an athlete asks for, and what may be asked for.

use super::facts::{Facts, Ruled};
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::{Entry, EntryKey};
use crate::rules::{BarRule, Changes};

/// Where a standing request comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// The opener on the athlete's card.
    Opener,
    /// Filled in by the rules.
    Automatic,
    /// Declared, or changed since.
    Declared,
}

/// The request that stands for an attempt.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// The load.
    pub load: Weight,
    /// Where it comes from.
    pub origin: Origin,
}

/// What may be asked for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Limits {
    /// The least load.
    pub least: Option<Mass>,
    /// Whether the bar sets the least load, rather than the athlete's own
    /// attempts.
    pub by_bar: bool,
    /// The most, by a cap or a clearance.
    pub most: Option<Mass>,
    /// Changes left; `None` is as many as are asked.
    pub changes_left: Option<u8>,
    /// Whether a declaration is still owed.
    pub declaration_owed: bool,
}

/// The request that stands for an attempt: the last one made, else the opener
/// or the automatic one.
///
/// Weightlifting (TCRR 6.5): a step more is filled in after a good lift; the
/// same load after a no lift.
pub fn standing_request(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
) -> Option<Standing> {
    let asked = facts
        .attempt(entry.key, slot, attempt)
        .and_then(|a| a.requests.last());
    if let Some(request) = asked {
        return Some(Standing {
            load: request.load.clone(),
            origin: Origin::Declared,
        });
    }
    if attempt == 1 {
        let load = entry.slots.get(slot)?.opener.clone()?;
        return Some(Standing {
            load,
            origin: Origin::Opener,
        });
    }
    if !facts.rules.automatic {
        return None;
    }
    let before = ruled(facts, entry.key, slot, attempt - 1)?;
    let step = facts.rules.step;
    let least = own_least(facts, entry, slot, attempt, step);
    let (filled_in, typed) = if before.fact.ruling.is_good() {
        let base = before.fact.credited.as_ref()?.mass;
        ((base + step).ceil_to(step), None)
    } else {
        let same = before.fact.requested.clone()?;
        (same.mass, Some(same))
    };
    // An overruled or late-typed attempt may leave more behind it than the
    // last one shows; what is filled in could always be asked for.
    let mass = least.map_or(filled_in, |least| {
        if filled_in < least {
            least.ceil_to(step)
        } else {
            filled_in
        }
    });
    let load = typed
        .filter(|same| same.mass == mass)
        .unwrap_or_else(|| Weight::computed(mass, facts.bar_unit));
    Some(Standing {
        load,
        origin: Origin::Automatic,
    })
}

/// Whether what stands for an attempt was asked for as a record: by its own
/// last request, or by that of a missed attempt that is filled in again.
pub(super) fn asked_for_record(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
) -> bool {
    let own = facts
        .attempt(entry.key, slot, attempt)
        .and_then(|a| a.requests.last());
    if let Some(request) = own {
        return request.record;
    }
    let Some(before) = attempt
        .checked_sub(1)
        .and_then(|n| ruled(facts, entry.key, slot, n))
    else {
        return false;
    };
    let again = standing_request(facts, entry, slot, attempt).map(|s| s.load.mass);
    !before.fact.ruling.is_good()
        && again.is_some()
        && again == before.fact.requested.as_ref().map(|w| w.mass)
        && asked_for_record(facts, entry, slot, attempt - 1)
}

/// The load over which a rise is meant: what was asked for in the attempt,
/// else the attempt before, else the opener.
pub fn rise_base(facts: &Facts, entry: &Entry, slot: &Slug, attempt: u8) -> Option<Mass> {
    let asked_for = facts
        .attempt(entry.key, slot, attempt)
        .and_then(|a| a.requests.last())
        .map(|r| r.load.mass);
    let last = attempt
        .checked_sub(1)
        .and_then(|n| ruled(facts, entry.key, slot, n))
        .and_then(|r| r.fact.credited.as_ref().or(r.fact.requested.as_ref()))
        .map(|w| w.mass);
    let opener = || standing_request(facts, entry, slot, attempt).map(|s| s.load.mass);
    asked_for.or(last).or_else(opener)
}

fn ruled<'a>(facts: &'a Facts, entry: EntryKey, slot: &Slug, n: u8) -> Option<&'a Ruled> {
    facts.attempt(entry, slot, n)?.ruled.as_ref()
}

/// The highest load that the bar has had where this attempt would be taken,
/// if the rules keep the bar from coming down there.
///
/// An attempt by leave is outside, and so is one that is taken anew after an
/// official error: the bar may come down for them.
pub(super) fn bar_now(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
) -> Option<Mass> {
    let anew = facts
        .attempt(entry.key, slot, attempt)
        .is_some_and(|a| !a.void.is_empty());
    if anew || attempt > facts.rules.attempts {
        return None;
    }
    let platform = facts.platforms.iter().find(|p| {
        p.running.as_ref().is_some_and(|r| {
            r.slot == *slot && r.session == entry.session && r.flight == entry.flight
        })
    })?;
    match facts.rules.bar {
        BarRule::Rising => platform.bar.values().max().copied(),
        BarRule::Rounds => platform.bar.get(&attempt).copied(),
        BarRule::Free => None,
    }
}

/// What may be asked for in an attempt.
pub fn limits(facts: &Facts, entry: &Entry, slot: &Slug, attempt: u8) -> Limits {
    limits_by(facts, entry, slot, attempt, facts.rules.step)
}

/// What may be asked for in an attempt that rises by `step` after a good one.
pub(super) fn limits_by(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    step: Mass,
) -> Limits {
    let own = own_least(facts, entry, slot, attempt, step);
    let bar = bar_now(facts, entry, slot, attempt);
    let by_bar = bar.is_some_and(|b| own.is_none_or(|o| b > o));
    let asked = facts.attempt(entry.key, slot, attempt);
    let requests = asked.map_or(0, |a| a.requests.len());
    let opener = attempt == 1
        && entry
            .slots
            .get(slot)
            .is_some_and(|line| line.opener.is_some());
    let changed = asked.map_or(0, |a| a.requests.iter().filter(|r| r.change).count());
    let changes_left = match changes_of(facts, slot, attempt) {
        Changes::Any => None,
        Changes::Of(n) => {
            Some(n.saturating_sub(u8::try_from(changed).unwrap_or(u8::MAX)))
        }
    };
    Limits {
        least: own.max(bar),
        by_bar,
        most: facts.ceiling(entry, slot).map(|w| w.mass),
        changes_left,
        declaration_owed: requests == 0 && !opener,
    }
}

/// How many changes an attempt allows beside its declaration: a first one, and the last one of the
/// last slot, may have their own (powerlifting's opener and third deadlift).
pub fn changes_of(facts: &Facts, slot: &Slug, attempt: u8) -> Changes {
    let rules = &facts.rules;
    let last_slot = facts.slots.last().is_some_and(|line| line.slot == *slot);
    let own = if attempt == 1 {
        rules.changes_first
    } else if attempt == rules.attempts && last_slot {
        rules.changes_last
    } else {
        None
    };
    own.unwrap_or(rules.changes)
}

/// After a good lift at least a step more; after a no lift not less.
fn own_least(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    step: Mass,
) -> Option<Mass> {
    if !facts.rules.least_rise {
        return None;
    }
    (1..attempt)
        .filter_map(|n| ruled(facts, entry.key, slot, n))
        .filter(|r| r.fact.ruling != super::Ruling::Pass)
        .filter_map(|r| {
            if r.fact.ruling.is_good() {
                Some(r.fact.credited.as_ref()?.mass + step)
            } else {
                Some(r.fact.requested.as_ref()?.mass)
            }
        })
        .max()
}
