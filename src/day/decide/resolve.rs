//! Settles who, which slot and which platform a command means.

use crate::day::command::Which;
use crate::day::facts::{Call, Facts, Ruled};
use crate::day::queue::queued;
use crate::day::{Queued, Refusal};
use crate::lift::{Slug, catalogue};
use crate::measure::{Mass, Unit, Weight};
use crate::roster::{Clearance, Entry};
use crate::rules::{Gate, WrongCatch};

/// The entry of a table number.
pub(super) fn entry(facts: &Facts, number: u16) -> Result<&Entry, Refusal> {
    facts
        .entry_by_number(number)
        .ok_or(Refusal::NoSuchNumber(number))
}

/// A platform that exists.
pub(super) fn existing(facts: &Facts, platform: u8) -> Result<u8, Refusal> {
    match facts.platform(platform) {
        Some(_) => Ok(platform),
        None => Err(Refusal::NoSuchPlatform {
            platform,
            most: most(facts),
        }),
    }
}

fn most(facts: &Facts) -> u8 {
    u8::try_from(facts.platforms.len()).unwrap_or(u8::MAX)
}

/// The platform named, or the only one, or that of the athlete named.
pub(super) fn platform(
    facts: &Facts,
    named: Option<u8>,
    number: Option<u16>,
) -> Result<u8, Refusal> {
    if let Some(named) = named {
        return existing(facts, named);
    }
    if facts.platforms.len() == 1 {
        return Ok(1);
    }
    number
        .and_then(|n| facts.entry_by_number(n))
        .and_then(|e| facts.platform_of(e))
        .ok_or_else(|| Refusal::WhichPlatform(most(facts)))
}

/// The platform of an act about an entry, for the line on which it is undone.
pub(super) fn platform_for(
    facts: &Facts,
    named: Option<u8>,
    entry: &Entry,
) -> Result<Option<u8>, Refusal> {
    if let Some(named) = named {
        return existing(facts, named).map(Some);
    }
    if facts.platforms.len() == 1 {
        return Ok(Some(1));
    }
    Ok(facts.platform_of(entry))
}

/// The platform of an act about an attempt: where the athlete is called for
/// it, so that undoing the act stops that clock; else as for the entry.
pub(super) fn platform_of_attempt(
    facts: &Facts,
    named: Option<u8>,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
) -> Result<Option<u8>, Refusal> {
    let line = platform_for(facts, named, entry)?;
    let called = facts.platforms.iter().zip(1_u8..).find(|(p, _)| {
        p.call
            .as_ref()
            .is_some_and(|c| c.is(entry.key, slot, attempt))
    });
    Ok(called.map(|(_, n)| n).or(line))
}

/// The programme as words.
pub(super) fn programme(facts: &Facts) -> String {
    let words: Vec<&str> = facts.slots.iter().map(|l| l.slot.as_str()).collect();
    words.join(", ")
}

/// The slot and variant for an entry: the lift named, or the slot that runs
/// for the entry's flight, or its only slot.
pub(super) fn slot(
    facts: &Facts,
    entry: &Entry,
    lift: Option<&Slug>,
) -> Result<(Slug, Slug), Refusal> {
    let slot = match lift {
        Some(lift) => {
            let (line, variant) =
                facts
                    .slot_of(lift.as_str())
                    .ok_or_else(|| Refusal::NoSuchLift {
                        lift: lift.to_string(),
                        allowed: programme(facts),
                    })?;
            // A variant must be the one that was entered; a slot's own name
            // may also be a variant's.
            let entered = entry.variant(&line.slot);
            if let (Some(named), Some(entered)) = (variant, entered)
                && named != entered
                && line.slot != *lift
            {
                return Err(not_entered(entry, named));
            }
            line.slot.clone()
        }
        None => running_slot(facts, entry)?,
    };
    match entry.variant(&slot) {
        Some(variant) => Ok((slot.clone(), variant.clone())),
        None => Err(not_entered(entry, &slot)),
    }
}

/// As [`slot`], but another variant of the slot may be named as what was
/// caught, where the rules enter a wrong catch as the variant that it was.
///
/// `caught` names it apart, since a slot and one of its variants may have the
/// same name.
pub(super) fn slot_as_lifted(
    facts: &Facts,
    entry: &Entry,
    lift: Option<&Slug>,
    caught: Option<&Slug>,
) -> Result<(Slug, Slug), Refusal> {
    let reclassify = facts.rules.wrong_catch == WrongCatch::Reclassify;
    let named = lift
        .filter(|_| reclassify)
        .and_then(|lift| facts.slot_of(lift.as_str()));
    let (slot, mut variant) = match named {
        Some((line, Some(variant))) if line.slot != *variant => {
            let (slot, _) = self::slot(facts, entry, Some(&line.slot))?;
            (slot, variant.clone())
        }
        _ => slot(facts, entry, lift)?,
    };
    if let Some(caught) = caught.filter(|c| **c != variant) {
        let line = facts.slot(slot.as_str());
        let known = line.is_some_and(|l| l.variants.contains(caught));
        if !reclassify || !known {
            return Err(not_entered(entry, caught));
        }
        variant = caught.clone();
    }
    Ok((slot, variant))
}

fn not_entered(entry: &Entry, slot: &Slug) -> Refusal {
    let entered: Vec<&str> = entry
        .slots
        .values()
        .filter_map(|l| l.variant.as_ref().map(Slug::as_str))
        .collect();
    Refusal::NotEntered {
        number: entry.number,
        slot: slot.to_string(),
        entered: if entered.is_empty() {
            "nothing".to_owned()
        } else {
            entered.join(", ")
        },
    }
}

fn running_slot(facts: &Facts, entry: &Entry) -> Result<Slug, Refusal> {
    let running = facts
        .platforms
        .iter()
        .filter_map(|p| p.running.as_ref())
        .find(|r| r.session == entry.session && r.flight == entry.flight);
    if let Some(running) = running {
        return Ok(running.slot.clone());
    }
    match facts.slots.as_slice() {
        [only] => Ok(only.slot.clone()),
        _ => Err(Refusal::WhichLift(programme(facts))),
    }
}

/// Who is meant by an act that may leave the athlete to the call.
pub(super) fn called_or_named<'a>(
    facts: &'a Facts,
    which: &Which,
    platform: u8,
) -> Result<(&'a Entry, Option<&'a Call>), Refusal> {
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    let by_number = match which.number {
        Some(number) => Some(entry(facts, number)?),
        None => None,
    };
    match (by_number, call) {
        (Some(named), call) => {
            let call = call.filter(|c| {
                c.entry == named.key
                    && which.attempt.is_none_or(|a| a == c.attempt)
                    && which
                        .lift
                        .as_ref()
                        .is_none_or(|l| *l == c.slot || *l == c.lift)
            });
            Ok((named, call))
        }
        (None, Some(call)) => {
            let entry = facts
                .entries
                .get(&call.entry)
                .ok_or(Refusal::NobodyCalled {
                    platform: facts.platform_label(platform),
                })?;
            Ok((entry, Some(call)))
        }
        (None, None) => Err(Refusal::NobodyCalled {
            platform: facts.platform_label(platform),
        }),
    }
}

/// The next attempt of an entry in a slot.
pub(super) fn next_attempt(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
) -> Result<u8, Refusal> {
    facts
        .next_attempt(entry.key, slot)
        .ok_or_else(|| Refusal::NoAttemptLeft {
            number: entry.number,
            slot: slot.to_string(),
            allowed: facts.attempts_allowed(entry.key, slot),
        })
}

/// The ruled attempt that is meant: the one named, else the last.
pub(super) fn ruled<'a>(
    facts: &'a Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: Option<u8>,
) -> Result<(u8, &'a Ruled), Refusal> {
    let run = facts.run(entry.key, slot);
    let all: Vec<(u8, &Ruled)> = run
        .into_iter()
        .flat_map(|r| &r.attempts)
        .filter_map(|(n, a)| a.ruled.as_ref().map(|r| (*n, r)))
        .collect();
    let found = match attempt {
        Some(n) => all.iter().find(|(m, _)| *m == n),
        None => all.last(),
    };
    found.copied().ok_or_else(|| Refusal::NotRuled {
        number: entry.number,
        slot: slot.to_string(),
        attempt: attempt.unwrap_or(1),
        ruled: if all.is_empty() {
            "none".to_owned()
        } else {
            let list: Vec<String> = all.iter().map(|(n, _)| n.to_string()).collect();
            list.join(", ")
        },
    })
}

/// Refuses what would happen in a closed session or on a closed day.
pub(super) fn open(facts: &Facts, entry: &Entry) -> Result<(), Refusal> {
    open_session(facts, &entry.session)
}

/// Refuses what would happen in a closed session or on a closed day.
pub(super) fn open_session(facts: &Facts, session: &str) -> Result<(), Refusal> {
    if facts.closed {
        return Err(Refusal::IsClosed {
            what: "The day".to_owned(),
        });
    }
    if facts.sessions.get(session).is_some_and(|s| s.closed) {
        return Err(Refusal::IsClosed {
            what: format!("Session {session}"),
        });
    }
    Ok(())
}

/// Refuses a call of somebody who isn't there.
pub(super) fn present(entry: &Entry, slot: &Slug) -> Result<(), Refusal> {
    use crate::roster::Presence;
    let refused = |state: &str, allowed: &str| {
        Err(Refusal::NotPresent {
            number: entry.number,
            state: state.to_owned(),
            allowed: allowed.to_owned(),
        })
    };
    if entry.withdrawn {
        return refused("withdrawn", "undo the withdrawal first");
    }
    if entry.is_disqualified(slot) {
        return refused("disqualified", "undo the disqualification first");
    }
    if entry.withdrawn_slots.contains(slot) {
        return refused(
            &format!("withdrawn from {slot}"),
            "undo the withdrawal first",
        );
    }
    match entry.presence {
        Presence::Absent => refused("absent", "answer the roll (here) first"),
        Presence::Away => refused("away", "say back first"),
        Presence::Expected | Presence::Here => Ok(()),
    }
}

/// The clearance gate: whether the slot may be attempted at all.
///
/// A recorded `no` always bars the call; a missing clearance only where the
/// rules say *required*.
pub(super) fn cleared(facts: &Facts, entry: &Entry, slot: &Slug) -> Result<(), Refusal> {
    let barred = match (facts.rules.clearance, facts.clearance(entry, slot)) {
        (Gate::Off, _) | (_, Some(Clearance::Yes | Clearance::UpTo(_))) => false,
        (_, Some(Clearance::No)) | (Gate::Required, None) => true,
        (Gate::Owed, None) => false,
    };
    if barred {
        return Err(Refusal::NotCleared {
            number: entry.number,
            slot: slot.to_string(),
        });
    }
    Ok(())
}

/// Refuses a load above a cap or a clearance.
pub(super) fn under_cap(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    load: Mass,
) -> Result<(), Refusal> {
    match facts.ceiling(entry, slot) {
        Some(most) if load > most.mass => Err(Refusal::AboveCap {
            number: entry.number,
            slot: slot.to_string(),
            most: most.mass.show_with_unit(facts.bar_unit),
        }),
        _ => Ok(()),
    }
}

/// Refuses a load that no bar can have.
pub(super) fn liftable(facts: &Facts, load: Mass) -> Result<(), Refusal> {
    let most = Mass::whole(600, Unit::Kg);
    if load <= Mass::ZERO || load > most {
        let unit = facts.bar_unit;
        let limit = match unit {
            Unit::Kg => most.show_with_unit(unit),
            Unit::Lb => format!("600 kg ({} lb)", most.rounded(unit, 1)),
        };
        return Err(Refusal::LoadOutOfRange(load.show_with_unit(unit), limit));
    }
    Ok(())
}

/// Refuses a fault that isn't one of the lift's.
pub(super) fn faults_of(
    lift: &Slug,
    faults: &[crate::day::FaultGiven],
) -> Result<(), Refusal> {
    let Some(known) = catalogue().get(lift.as_str()) else {
        return Ok(());
    };
    match faults.iter().find(|f| !known.faults.contains(&f.code)) {
        None => Ok(()),
        Some(fault) => Err(Refusal::NoSuchFault {
            code: fault.code.clone(),
            lift: known.name.clone(),
            allowed: known.faults.join(", "),
        }),
    }
}

/// What the queue says of an entry in a slot, or why it isn't in it.
pub(super) fn in_queue(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
) -> Result<Queued, Refusal> {
    open(facts, entry)?;
    present(entry, slot)?;
    let _ = next_attempt(facts, entry, slot)?;
    queued(facts, entry, slot).ok_or_else(|| {
        if entry.variant(slot).is_none() {
            return not_entered(entry, slot);
        }
        Refusal::NotPresent {
            number: entry.number,
            state: "out, since an earlier lift ended without a good attempt".to_owned(),
            allowed: "one more attempt there needs leave (extra)".to_owned(),
        }
    })
}

/// Refuses a named load that isn't the requested one.
pub(super) fn same_load(
    facts: &Facts,
    entry: &Entry,
    requested: &Weight,
    named: Option<&Weight>,
) -> Result<(), Refusal> {
    match named {
        Some(named) if named != requested => Err(Refusal::OtherLoad {
            number: entry.number,
            requested: requested.mass.show_with_unit(facts.bar_unit),
            named: named.mass.show_with_unit(facts.bar_unit),
        }),
        _ => Ok(()),
    }
}
