//! Whether an act still has what it stands on.

use std::collections::{BTreeMap, BTreeSet};

use super::event::{Event, Recorded};
use super::facts::Facts;
use super::story::Day;
use crate::lift::Slug;
use crate::roster::EntryKey;

/// What an event would lack: it would hang in the air.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Dangling {
    /// Its athlete isn't entered.
    #[error("its athlete is no longer entered")]
    NobodyEntered,
    /// Its table number is somebody else's.
    #[error("its table number is taken")]
    NumberTaken,
    /// An attempt without the one before it.
    #[error("attempt {0} would have no attempt before it")]
    NoAttemptBefore(u8),
    /// An attempt that has a ruling already.
    #[error("attempt {0} would be ruled twice")]
    RuledTwice(u8),
    /// An attempt beyond those allowed.
    #[error("attempt {0} would be one too many")]
    OneTooMany(u8),
    /// A ruling or load of an attempt that isn't ruled.
    #[error("attempt {0} would not be ruled")]
    NotRuled(u8),
    /// An attempt in a slot that the athlete isn't entered in.
    #[error("its athlete would not be entered in that lift")]
    NotInSlot,
    /// A call where something else runs.
    #[error("its athlete would be called where another lift or flight runs")]
    NotRunning,
    /// A platform that isn't there.
    #[error("platform {0} would not be there")]
    NoPlatform(u8),
    /// A flight or session that isn't there.
    #[error("its flight or session would not be there")]
    NoFlight,
    /// Another variant for whoever is called in that lift.
    #[error("its athlete would be called in that lift")]
    Called,
}

/// Whether a recorded event can stand on the day as it is.
///
/// Asked only when something earlier was annulled or corrected.
///
/// # Errors
/// [`Dangling`], saying what the event would lack.
pub fn stands(day: &Day, recorded: &Recorded) -> Result<(), Dangling> {
    match hangs(day.facts(), &recorded.event, recorded.platform) {
        Some(dangling) => Err(dangling),
        None => Ok(()),
    }
}

/// What an event would lack on these facts.
pub(super) fn hangs(
    facts: &Facts,
    event: &Event,
    platform: Option<u8>,
) -> Option<Dangling> {
    let entered = |entry: &EntryKey| {
        (!facts.entries.contains_key(entry)).then_some(Dangling::NobodyEntered)
    };
    let ruled = |entry: &EntryKey, slot: &Slug, n: u8| {
        let has = facts
            .attempt(*entry, slot, n)
            .is_some_and(|a| a.ruled.is_some());
        (!has).then_some(Dangling::NotRuled(n))
    };
    let in_slot = |entry: &EntryKey, slot: &Slug| {
        let entered = facts.entries.get(entry).and_then(|e| e.variant(slot));
        entered.is_none().then_some(Dangling::NotInSlot)
    };
    match event {
        Event::EntryAdded { entry, number, .. } => {
            let taken =
                facts.entries.contains_key(entry) || facts.numbers.contains_key(number);
            taken.then_some(Dangling::NumberTaken)
        }
        Event::EntryEdited { entry, changes } => entered(entry).or_else(|| {
            let taken = changes.iter().any(|c| match c {
                crate::roster::Change::Number(n) => {
                    facts.numbers.get(n).is_some_and(|other| other != entry)
                }
                _ => false,
            });
            let lifted = changes.iter().any(|c| match c {
                crate::roster::Change::Slot { slot, variant, .. } => {
                    let entered = facts.entries.get(entry).and_then(|e| e.variant(slot));
                    entered != variant.as_ref() && has_ruled(facts, *entry, slot)
                }
                _ => false,
            });
            // A call that comes back is for the variant that was entered then.
            let called = changes.iter().any(|c| match c {
                crate::roster::Change::Slot { slot, variant, .. } => {
                    let mut calls =
                        facts.platforms.iter().filter_map(|p| p.call.as_ref());
                    calls.any(|c| {
                        c.entry == *entry
                            && c.slot == *slot
                            && Some(&c.lift) != variant.as_ref()
                    })
                }
                _ => false,
            });
            if taken {
                Some(Dangling::NumberTaken)
            } else if lifted {
                Some(Dangling::NotInSlot)
            } else {
                called.then_some(Dangling::Called)
            }
        }),
        Event::Numbered { numbers } => {
            let mut after: BTreeMap<EntryKey, u16> =
                facts.entries.values().map(|e| (e.key, e.number)).collect();
            for (entry, number) in numbers {
                if after.insert(*entry, *number).is_none() {
                    return Some(Dangling::NobodyEntered);
                }
            }
            let different: BTreeSet<u16> = after.values().copied().collect();
            (different.len() < after.len()).then_some(Dangling::NumberTaken)
        }
        Event::RollAnswered { entry, .. }
        | Event::Withdrawn { entry, .. }
        | Event::Disqualified { entry, .. }
        | Event::Weighed { entry, .. }
        | Event::Cleared { entry, .. }
        | Event::Capped { entry, .. }
        | Event::Requested { entry, .. }
        | Event::CallWithdrawn { entry, .. }
        | Event::ExtraGranted { entry, .. } => entered(entry),
        Event::Placed {
            entry,
            session,
            flight,
        } => entered(entry).or_else(|| no_flight(facts, session, flight)),
        Event::FlightMade { platform, .. } => no_platform(facts, *platform),
        Event::SlotStarted {
            platform,
            session,
            flight,
            ..
        } => no_platform(facts, *platform).or_else(|| no_flight(facts, session, flight)),
        Event::Closed {
            session: Some(name),
        }
        | Event::Reopened {
            session: Some(name),
            ..
        } => (!facts.sessions.contains_key(name)).then_some(Dangling::NoFlight),
        Event::Called {
            entry,
            slot,
            lift,
            attempt,
            ..
        } => entered(entry)
            .or_else(|| not_as(facts, *entry, slot, lift))
            .or_else(|| not_running(facts, platform, *entry, slot))
            .or_else(|| attempt_hangs(facts, *entry, slot, *attempt)),
        Event::Ruled(fact) => entered(&fact.entry)
            .or_else(|| in_slot(&fact.entry, &fact.slot))
            .or_else(|| {
                let hangs = attempt_hangs(facts, fact.entry, &fact.slot, fact.attempt);
                // Whoever was called for it may be ruled, though the rules give
                // fewer attempts since.
                let mut calls = facts.platforms.iter().filter_map(|p| p.call.as_ref());
                let called = calls.any(|c| c.is(fact.entry, &fact.slot, fact.attempt));
                hangs.filter(|h| !(called && matches!(h, Dangling::OneTooMany(_))))
            }),
        Event::LoadFound {
            entry,
            slot,
            attempt,
            ..
        }
        | Event::Reruled {
            entry,
            slot,
            attempt,
            ..
        }
        | Event::ChallengeLost {
            entry,
            slot,
            attempt,
            ..
        } => entered(entry).or_else(|| ruled(entry, slot, *attempt)),
        _ => None,
    }
}

/// A call is for the variant that is entered.
fn not_as(facts: &Facts, entry: EntryKey, slot: &Slug, lift: &Slug) -> Option<Dangling> {
    let entered = facts.entries.get(&entry).and_then(|e| e.variant(slot));
    (entered != Some(lift)).then_some(Dangling::NotInSlot)
}

fn has_ruled(facts: &Facts, entry: EntryKey, slot: &Slug) -> bool {
    facts
        .run(entry, slot)
        .is_some_and(|run| run.attempts.values().any(|a| a.ruled.is_some()))
}

/// A call belongs to what runs on its platform.
fn not_running(
    facts: &Facts,
    platform: Option<u8>,
    entry: EntryKey,
    slot: &Slug,
) -> Option<Dangling> {
    let running = facts.platform(platform?)?.running.as_ref();
    let entry = facts.entries.get(&entry)?;
    let runs = running.is_some_and(|r| {
        r.slot == *slot && r.session == entry.session && r.flight == entry.flight
    });
    (!runs).then_some(Dangling::NotRunning)
}

fn no_platform(facts: &Facts, platform: u8) -> Option<Dangling> {
    facts
        .platform(platform)
        .is_none()
        .then_some(Dangling::NoPlatform(platform))
}

fn no_flight(facts: &Facts, session: &str, flight: &str) -> Option<Dangling> {
    let known = flight.is_empty() || facts.flight(session, flight).is_some();
    (!known).then_some(Dangling::NoFlight)
}

fn attempt_hangs(facts: &Facts, entry: EntryKey, slot: &Slug, n: u8) -> Option<Dangling> {
    let has = |n: u8| {
        facts
            .attempt(entry, slot, n)
            .is_some_and(|a| a.ruled.is_some())
    };
    if has(n) {
        Some(Dangling::RuledTwice(n))
    } else if n > facts.attempts_allowed(entry, slot) {
        Some(Dangling::OneTooMany(n))
    } else if n > 1 && !has(n - 1) {
        Some(Dangling::NoAttemptBefore(n))
    } else {
        None
    }
}
