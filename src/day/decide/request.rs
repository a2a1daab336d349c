//! A load is asked for.

use super::{Decided, deadlines, resolve};
use crate::day::command::{Context, LoadAsked, Which};
use crate::day::event::Event;
use crate::day::facts::Facts;
use crate::day::queue::queue;
use crate::day::requests::{asked_for_record, limits_by, rise_base};
use crate::day::{Refusal, advice, standing_request};
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::Entry;
use crate::rules::{Jumps, Queue};

pub(super) fn request(
    facts: &Facts,
    which: &Which,
    (load, record): (&LoadAsked, bool),
    platform: Option<u8>,
    context: &Context,
) -> Result<Decided, Refusal> {
    let entry = match which.number {
        Some(number) => resolve::entry(facts, number)?,
        None => {
            let platform = resolve::platform(facts, platform, None)?;
            resolve::called_or_named(facts, which, platform)?.0
        }
    };
    resolve::open(facts, entry)?;
    let (slot, _) = resolve::slot(facts, entry, which.lift.as_ref())?;
    if entry.withdrawn
        || entry.withdrawn_slots.contains(&slot)
        || entry.is_disqualified(&slot)
    {
        resolve::present(entry, &slot)?;
    }
    let next = resolve::next_attempt(facts, entry, &slot)?;
    let attempt = which.attempt.unwrap_or(next);
    if attempt != next {
        return Err(Refusal::NotThatAttempt {
            number: entry.number,
            slot: slot.to_string(),
            attempt,
            next,
        });
    }
    let line = resolve::platform_of_attempt(facts, platform, entry, &slot, attempt)?;
    let standing = standing_request(facts, entry, &slot, attempt);
    let load = asked(facts, entry, &slot, attempt, load)?;
    let step = step_of(facts, record)?;
    let limits = limits_by(facts, entry, &slot, attempt, step);
    let declared = !limits.declaration_owed;
    let differs = standing.as_ref().is_none_or(|s| s.load != load);
    // Who asked for a record that somebody else has taken since falls back to
    // the step below (as a quiz for powerlifting's referees has it).
    let falls_back = !record && falls_back(facts, entry, &slot, attempt, &load);
    let change = declared && differs && !falls_back;
    let call = facts
        .platforms
        .iter()
        .filter_map(|p| p.call.as_ref())
        .find(|c| c.is(entry.key, &slot, attempt));
    if let Some(call) = call
        && !facts.rules.change_called
        && (differs || !declared)
    {
        return Err(Refusal::CalledAlready {
            number: entry.number,
            load: call.load.mass.show_with_unit(facts.bar_unit),
        });
    }
    on_step_and_allowed(facts, entry, (&slot, attempt), &load, step)?;
    jump_allowed(facts, entry, &slot, attempt, &load)?;
    // Whoever was away while the bar went past must be able to follow it.
    let own_step = match facts.rules.record_step {
        Some(record) if asked_for_record(facts, entry, &slot, attempt) => record,
        _ => facts.rules.step,
    };
    let least = limits_by(facts, entry, &slot, attempt, own_step).least;
    let overtaken = standing
        .as_ref()
        .is_some_and(|s| least.is_some_and(|least| s.load.mass < least));
    if change && !overtaken && limits.changes_left == Some(0) {
        return Err(Refusal::NoChangeLeft {
            number: entry.number,
            attempt,
            load: shown(facts, standing.as_ref().map(|s| &s.load)),
        });
    }
    if attempt == 1 && differs {
        deadlines::openers_sum(facts, entry, &slot, &load)?;
    }
    if attempt == 1 && change {
        deadlines::opener_open(facts, entry, &slot, context)?;
    }
    if attempt > 1 && !declared {
        deadlines::handed_in(facts, entry, &slot, attempt, context)?;
    }
    if let Some(call) = call
        && (differs || !declared)
    {
        deadlines::in_time(facts, entry, call, declared, context)?;
    }
    let mut events = vec![Event::Requested {
        entry: entry.key,
        slot: slot.clone(),
        attempt,
        load: load.clone(),
        change,
        record,
    }];
    if let Some(call) = call
        && call.load != load
        && facts.rules.queue == Queue::Law
        && loses_the_turn(facts, line, entry, &load)
    {
        events.push(Event::CallWithdrawn {
            entry: entry.key,
            slot,
            attempt,
        });
    }
    Ok(Decided::new(line, events))
}

/// The load that is meant; a rise is over the last attempt, or over what was
/// asked for since.
fn asked(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    load: &LoadAsked,
) -> Result<Weight, Refusal> {
    let rise = match load {
        LoadAsked::Exactly(load) => return Ok(load.clone()),
        LoadAsked::Relative(rise) => *rise,
    };
    let base = rise_base(facts, entry, slot, attempt).ok_or(Refusal::LoadOwed {
        number: entry.number,
        attempt,
    })?;
    Ok(Weight::computed(base + rise, facts.bar_unit))
}

fn shown(facts: &Facts, load: Option<&Weight>) -> String {
    load.map_or_else(
        || "nothing".to_owned(),
        |w| w.mass.show_with_unit(facts.bar_unit),
    )
}

/// The step of a request; a record's where it is made for one.
fn step_of(facts: &Facts, record: bool) -> Result<Mass, Refusal> {
    if !record {
        return Ok(facts.rules.step);
    }
    facts
        .rules
        .record_step
        .ok_or_else(|| Refusal::NoRecordStep {
            step: facts.rules.step.show_with_unit(facts.rules.step_unit),
        })
}

/// Whether a record that was asked for is given up for the step below it.
fn falls_back(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    load: &Weight,
) -> bool {
    asked_for_record(facts, entry, slot, attempt)
        && standing_request(facts, entry, slot, attempt)
            .is_some_and(|s| load.mass == s.load.mass.floor_to(facts.rules.step))
}

/// Refuses a jump that goes beyond what the rules allow, where they bind.
pub(super) fn jump_allowed(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    load: &Weight,
) -> Result<(), Refusal> {
    if facts.rules.jumps != Jumps::Required {
        return Ok(());
    }
    match advice::most(facts, entry, slot, attempt) {
        Some(most) if load.mass > most => Err(Refusal::JumpTooBig {
            number: entry.number,
            load: load.mass.show_with_unit(facts.bar_unit),
            most: most.show_with_unit(facts.bar_unit),
        }),
        _ => Ok(()),
    }
}

/// Refuses a load off the step, below what is allowed, or above a cap.
pub(super) fn allowed_load(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    load: &Weight,
) -> Result<(), Refusal> {
    let step = facts.rules.step;
    on_step_and_allowed(facts, entry, (slot, attempt), load, step)
}

fn on_step_and_allowed(
    facts: &Facts,
    entry: &Entry,
    (slot, attempt): (&Slug, u8),
    load: &Weight,
    step: Mass,
) -> Result<(), Refusal> {
    let unit = facts.bar_unit;
    resolve::liftable(facts, load.mass)?;
    // What stands may be kept, also where a record or another step made it.
    let stands = standing_request(facts, entry, slot, attempt)
        .is_some_and(|standing| standing.load == *load);
    if !stands && !load.mass.is_multiple_of(step) {
        return Err(Refusal::OffStep {
            load: load.mass.show_with_unit(unit),
            step: step.show_with_unit(facts.rules.step_unit),
            below: load.mass.floor_to(step).show_with_unit(unit),
            above: load.mass.ceil_to(step).show_with_unit(unit),
        });
    }
    let limits = limits_by(facts, entry, slot, attempt, step);
    if let Some(least) = limits.least.filter(|least| load.mass < *least) {
        let why = if limits.by_bar {
            format!(": the bar is at {}", least.show_with_unit(unit))
        } else {
            " after the attempts so far".to_owned()
        };
        return Err(Refusal::TooLight {
            number: entry.number,
            least: least.ceil_to(step).show_with_unit(unit),
            why,
        });
    }
    resolve::under_cap(facts, entry, slot, load.mass)
}

/// Whether somebody else would be first if the called athlete asked for this.
fn loses_the_turn(
    facts: &Facts,
    platform: Option<u8>,
    entry: &Entry,
    load: &Weight,
) -> bool {
    let Some(platform) = platform else {
        return false;
    };
    let mut trial = facts.clone();
    let Some(call) = trial.platform_mut(platform).and_then(|p| p.call.as_mut()) else {
        return false;
    };
    call.load = load.clone();
    queue(&trial, platform).first().is_some_and(|first| {
        first.entry != entry.key
            && first.load.as_ref().is_some_and(|l| l.mass > Mass::ZERO)
    })
}
