//! Clearances and caps.

use super::{Decided, resolve};
use crate::day::Refusal;
use crate::day::command::Command;
use crate::day::event::Event;
use crate::day::facts::Facts;
use crate::lift::Slug;

pub(super) fn clear(facts: &Facts, command: &Command) -> Result<Decided, Refusal> {
    let Command::Clear {
        number,
        lift,
        clearance,
        who,
        why,
    } = command
    else {
        return Err(Refusal::NoOutcome);
    };
    let entry = resolve::entry(facts, *number)?;
    let slot = slot_only(facts, lift.as_ref())?;
    let lifts_a_bar = match slot.as_ref() {
        Some(slot) => entry.clearance_for(slot) == Some(&crate::roster::Clearance::No),
        None => entry
            .clearance
            .values()
            .any(|c| *c == crate::roster::Clearance::No),
    };
    if lifts_a_bar
        && *clearance != crate::roster::Clearance::No
        && (who.trim().is_empty() || why.trim().is_empty())
    {
        return Err(Refusal::OverrideUnsigned);
    }
    Decided::one(
        None,
        Event::Cleared {
            entry: entry.key,
            slot,
            clearance: clearance.clone(),
            who: who.trim().to_owned(),
            why: why.trim().to_owned(),
        },
    )
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
