//! Clearances and caps.

use super::{Decided, resolve};
use crate::day::Refusal;
use crate::day::command::Command;
use crate::day::event::Event;
use crate::day::facts::Facts;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::Clearance;

pub(super) fn clear(facts: &Facts, command: &Command) -> Result<Decided, Refusal> {
    let Command::Clear {
        number,
        lift,
        clearance,
        until,
        who,
        why,
    } = command
    else {
        return Err(Refusal::NoOutcome);
    };
    let entry = resolve::entry(facts, *number)?;
    let slot = slot_only(facts, lift.as_ref())?;
    // Easing a clearance that holds is an override: it is signed.
    let eased = match slot.as_ref() {
        Some(slot) => facts
            .clearance(entry, slot)
            .is_some_and(|old| allows(clearance) > allows(old)),
        None => entry.clearance.iter().any(|(slot, old)| {
            let until = entry.clearance_until.get(slot);
            allows(clearance) > allows(old)
                && until.is_none_or(|last| *last >= facts.date)
        }),
    };
    if eased && (who.trim().is_empty() || why.trim().is_empty()) {
        return Err(Refusal::OverrideUnsigned);
    }
    Decided::one(
        None,
        Event::Cleared {
            entry: entry.key,
            slot,
            clearance: clearance.clone(),
            until: *until,
            who: who.trim().to_owned(),
            why: why.trim().to_owned(),
        },
    )
}

/// How much a clearance allows: nothing, a load, or anything.
const fn allows(clearance: &Clearance) -> Mass {
    match clearance {
        Clearance::No => Mass::ZERO,
        Clearance::UpTo(load) => load.mass,
        Clearance::Yes => Mass::from_counts(i64::MAX),
    }
}

pub(super) fn cap(facts: &Facts, command: &Command) -> Result<Decided, Refusal> {
    let Command::Cap {
        number,
        lift,
        load,
        who,
        why,
    } = command
    else {
        return Err(Refusal::NoOutcome);
    };
    let entry = resolve::entry(facts, *number)?;
    let slot = slot_only(facts, lift.as_ref())?;
    if let Some(load) = load {
        resolve::liftable(facts, load.mass)?;
    }
    let old = entry.caps.get(&slot);
    let eased =
        old.is_some_and(|old| load.as_ref().is_none_or(|new| new.mass > old.mass));
    if eased && (who.trim().is_empty() || why.trim().is_empty()) {
        return Err(Refusal::OverrideUnsigned);
    }
    if old.is_none() && load.is_none() {
        return Err(Refusal::AlreadySo(format!(
            "Lot {number} has no cap there."
        )));
    }
    Decided::one(
        None,
        Event::Capped {
            entry: entry.key,
            slot,
            load: load.clone(),
            who: who.trim().to_owned(),
            why: why.trim().to_owned(),
        },
    )
}

fn slot_only(facts: &Facts, lift: Option<&Slug>) -> Result<Option<Slug>, Refusal> {
    match lift {
        None => Ok(None),
        Some(lift) => match facts.slot_of(lift.as_str()) {
            Some((line, _)) => Ok(Some(line.slot.clone())),
            None => Err(Refusal::NoSuchLift {
                lift: lift.to_string(),
                allowed: resolve::programme(facts),
            }),
        },
    }
}
