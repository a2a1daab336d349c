//! Finished attempts: lights, cards, passes, stops, and what became of them.

use super::{Decided, platform as place, resolve};
use crate::day::command::{Command, Outcome, StopFor, Which};
use crate::day::event::{Event, Light, RuledFact, Source};
use crate::day::facts::{Call, Facts};
use crate::day::{Refusal, Ruling, standing_request};
use crate::lift::Slug;
use crate::measure::Weight;
use crate::roster::{Entry, Presence};
use crate::rules::Reps;

/// What lights add up to, or the ruling that was given in words.
///
/// Two of three, or the only one, decide (TCRR: three referees, two agree).
pub(super) fn ruling_of(
    facts: &Facts,
    outcome: &Outcome,
    allowed: &[Ruling],
) -> Result<Ruling, Refusal> {
    if !outcome.lights.is_empty() {
        let given = u8::try_from(outcome.lights.len()).unwrap_or(u8::MAX);
        if given != facts.rules.judges {
            return Err(Refusal::WrongLights {
                given,
                judges: facts.rules.judges,
            });
        }
        let white = outcome
            .lights
            .iter()
            .filter(|l| **l == Light::White)
            .count();
        return Ok(if white * 2 > outcome.lights.len() {
            Ruling::Good
        } else {
            Ruling::No
        });
    }
    match &outcome.ruling {
        None => Err(Refusal::NoOutcome),
        Some(ruling) if allowed.contains(ruling) => Ok(ruling.clone()),
        Some(other) => {
            let words: Vec<&str> = allowed.iter().map(Ruling::word).collect();
            Err(Refusal::WrongOutcome {
                given: other.word().to_owned(),
                allowed: format!("{}, or the lights", words.join(", ")),
            })
        }
    }
}

fn fact_of(
    entry: &Entry,
    slot: &Slug,
    lift: &Slug,
    attempt: u8,
    load: Option<&Weight>,
) -> RuledFact {
    RuledFact {
        entry: entry.key,
        slot: slot.clone(),
        lift: lift.clone(),
        attempt,
        session: entry.session.clone(),
        flight: entry.flight.clone(),
        requested: load.cloned(),
        loaded: load.cloned(),
        credited: load.cloned(),
        ruling: Ruling::No,
        lights: Vec::new(),
        faults: Vec::new(),
        called_at: None,
        reps: 1,
        source: Source::Lights,
        reason: String::new(),
    }
}

pub(super) fn lights(
    facts: &Facts,
    which: &Which,
    load: Option<&Weight>,
    outcome: &Outcome,
    platform: Option<u8>,
) -> Result<Decided, Refusal> {
    let platform = resolve::platform(facts, platform, which.number)?;
    let ruling = ruling_of(facts, outcome, &[Ruling::Time])?;
    let reps = reps_of(facts, outcome)?;
    // The variant that was caught may be named; the call is for the slot.
    let caught = caught(facts, which, outcome, platform)?;
    let which = &match &caught {
        Some((slot, _)) => Which {
            lift: Some(slot.clone()),
            ..which.clone()
        },
        None => which.clone(),
    };
    let call = facts.platform(platform).and_then(|p| p.call.as_ref());
    let mut events = Vec::new();
    let mut fact = match call {
        Some(call) => {
            let (entry, matched) = resolve::called_or_named(facts, which, platform)?;
            if matched.is_none() {
                return Err(place::somebody_called(facts, platform, call));
            }
            resolve::open(facts, entry)?;
            resolve::same_load(facts, entry, &call.load, load)?;
            let mut fact = fact_of(
                entry,
                &call.slot,
                &call.lift,
                call.attempt,
                Some(&call.load),
            );
            fact.called_at = Some(call.at);
            fact
        }
        None if which.number.is_none() => {
            return Err(Refusal::NobodyCalled {
                platform: facts.platform_label(platform),
            });
        }
        None => {
            let (event, entry) = place::called(facts, which, load, platform, false)?;
            let Event::Called {
                slot,
                lift,
                attempt,
                load,
                ..
            } = &event
            else {
                return Err(Refusal::NoOutcome);
            };
            let fact = fact_of(entry, slot, lift, *attempt, Some(load));
            events.push(event);
            fact
        }
    };
    if let Some((_, lift)) = caught {
        fact.lift = lift;
    }
    resolve::faults_of(&fact.lift, &outcome.faults)?;
    fact.ruling = ruling;
    fact.reps = reps;
    fact.lights.clone_from(&outcome.lights);
    fact.faults.clone_from(&outcome.faults);
    events.push(Event::Ruled(Box::new(fact)));
    Ok(Decided::new(Some(platform), events))
}

/// The slot and the variant that was caught, where an act names another
/// variant than the one entered and the rules enter it as that.
fn caught(
    facts: &Facts,
    which: &Which,
    outcome: &Outcome,
    platform: u8,
) -> Result<Option<(Slug, Slug)>, Refusal> {
    let called = facts.platform(platform).and_then(|p| p.call.as_ref());
    let entry = match which.number {
        Some(number) => resolve::entry(facts, number)?,
        None => match called.and_then(|c| facts.entries.get(&c.entry)) {
            Some(entry) => entry,
            None => return Ok(None),
        },
    };
    let lift = which.lift.as_ref().or(called.map(|c| &c.slot));
    if which.lift.is_none() && outcome.caught.is_none() {
        return Ok(None);
    }
    let (slot, caught) =
        resolve::slot_as_lifted(facts, entry, lift, outcome.caught.as_ref())?;
    let other = entry.variant(&slot) != Some(&caught);
    Ok(other.then_some((slot, caught)))
}

/// The repetitions of an outcome, where the rules allow several.
pub(super) fn reps_of(facts: &Facts, outcome: &Outcome) -> Result<u8, Refusal> {
    let reps = outcome.reps.unwrap_or(1);
    if reps > 1 && facts.rules.reps == Reps::Single {
        return Err(Refusal::OneRepetition(reps));
    }
    Ok(reps)
}

pub(super) fn tally(
    facts: &Facts,
    which: &Which,
    load: Option<&Weight>,
    outcome: &Outcome,
    platform: Option<u8>,
) -> Result<Decided, Refusal> {
    let number = which.number.ok_or(Refusal::NobodyCalled {
        platform: "the card".to_owned(),
    })?;
    let entry = resolve::entry(facts, number)?;
    resolve::open(facts, entry)?;
    let (slot, lift) = resolve::slot_as_lifted(
        facts,
        entry,
        which.lift.as_ref(),
        outcome.caught.as_ref(),
    )?;
    let reps = reps_of(facts, outcome)?;
    let attempt = open_attempt(facts, entry, &slot, which.attempt)?;
    let line = resolve::platform_of_attempt(facts, platform, entry, &slot, attempt)?;
    let ruling = ruling_of(
        facts,
        outcome,
        &[Ruling::Good, Ruling::No, Ruling::Pass, Ruling::Time],
    )?;
    resolve::faults_of(&lift, &outcome.faults)?;
    let load = load
        .cloned()
        .or_else(|| announced_or_asked(facts, entry, &slot, attempt));
    match &load {
        Some(load) => resolve::liftable(facts, load.mass)?,
        None if ruling == Ruling::Pass => {}
        None => {
            return Err(Refusal::LoadOwed { number, attempt });
        }
    }
    let mut fact = fact_of(entry, &slot, &lift, attempt, load.as_ref());
    fact.called_at = called_at(facts, entry, &slot, attempt);
    fact.ruling = ruling;
    fact.reps = reps;
    fact.lights.clone_from(&outcome.lights);
    fact.faults.clone_from(&outcome.faults);
    fact.source = Source::Card;
    Ok(Decided::new(line, vec![Event::Ruled(Box::new(fact))]))
}

/// The load that was announced for an athlete who is called, else the request
/// that stands: what was called stays, whatever became of earlier attempts.
fn announced_or_asked(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
) -> Option<Weight> {
    let call = facts
        .platforms
        .iter()
        .filter_map(|p| p.call.as_ref())
        .find(|c| c.is(entry.key, slot, attempt));
    match call {
        Some(call) => Some(call.load.clone()),
        None => standing_request(facts, entry, slot, attempt).map(|s| s.load),
    }
}

fn called_at(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
) -> Option<crate::day::Stamp> {
    facts
        .platforms
        .iter()
        .filter_map(|p| p.call.as_ref())
        .find(|c| c.is(entry.key, slot, attempt))
        .map(|c| c.at)
}

/// An attempt that can still be entered: the next one, or one named that has
/// no ruling and is allowed.
fn open_attempt(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    named: Option<u8>,
) -> Result<u8, Refusal> {
    let Some(named) = named else {
        return resolve::next_attempt(facts, entry, slot);
    };
    let ruled = facts
        .attempt(entry.key, slot, named)
        .and_then(|a| a.ruled.as_ref());
    if let Some(ruled) = ruled {
        return Err(Refusal::RuledAlready {
            number: entry.number,
            slot: slot.to_string(),
            attempt: named,
            ruling: ruled.fact.ruling.to_string(),
            next: facts
                .next_attempt(entry.key, slot)
                .map_or_else(|| "none: all are ruled".to_owned(), |n| n.to_string()),
        });
    }
    let allowed = facts.attempts_allowed(entry.key, slot);
    if named == 0 || named > allowed {
        return Err(Refusal::NoAttemptLeft {
            number: entry.number,
            slot: slot.to_string(),
            allowed,
        });
    }
    Ok(named)
}

pub(super) fn pass(
    facts: &Facts,
    which: &Which,
    rest: bool,
    platform: Option<u8>,
) -> Result<Decided, Refusal> {
    let (entry, slot, lift, _) = table_act(facts, which, platform)?;
    let next = resolve::next_attempt(facts, entry, &slot)?;
    let line = resolve::platform_of_attempt(facts, platform, entry, &slot, next)?;
    if let Some(attempt) = which.attempt.filter(|a| *a != next) {
        return Err(Refusal::NotThatAttempt {
            number: entry.number,
            slot: slot.to_string(),
            attempt,
            next,
        });
    }
    let last = if rest {
        facts.attempts_allowed(entry.key, &slot)
    } else {
        next
    };
    // What stands for the first stands for all that are passed with it.
    let mut standing = None;
    let events = (next..=last)
        .filter(|n| {
            facts
                .attempt(entry.key, &slot, *n)
                .is_none_or(|a| a.ruled.is_none())
        })
        .map(|n| {
            let asked = standing_request(facts, entry, &slot, n).map(|s| s.load);
            standing = asked.or_else(|| standing.take());
            let mut fact = fact_of(entry, &slot, &lift, n, standing.as_ref());
            fact.loaded = None;
            fact.credited = None;
            fact.ruling = Ruling::Pass;
            fact.source = Source::Table;
            fact.called_at = called_at(facts, entry, &slot, n);
            Event::Ruled(Box::new(fact))
        })
        .collect();
    Ok(Decided::new(line, events))
}

/// Who, slot, variant and line of an act that the table says of an athlete
/// who is called or named.
fn table_act<'a>(
    facts: &'a Facts,
    which: &Which,
    platform: Option<u8>,
) -> Result<(&'a Entry, Slug, Slug, Option<u8>), Refusal> {
    let (entry, call): (&Entry, Option<&Call>) = match which.number {
        Some(number) => (resolve::entry(facts, number)?, None),
        None => {
            let platform = resolve::platform(facts, platform, None)?;
            resolve::called_or_named(facts, which, platform)?
        }
    };
    let line = resolve::platform_for(facts, platform, entry)?;
    resolve::open(facts, entry)?;
    let lift = which.lift.as_ref().or(call.map(|c| &c.slot));
    let (slot, lift) = resolve::slot(facts, entry, lift)?;
    Ok((entry, slot, lift, line))
}

pub(super) fn stop(facts: &Facts, command: &Command) -> Result<Decided, Refusal> {
    let Command::Stop {
        which,
        stop,
        reason,
        platform,
    } = command
    else {
        return Err(Refusal::NoOutcome);
    };
    let (entry, slot, lift, _) = table_act(facts, which, *platform)?;
    let next = resolve::next_attempt(facts, entry, &slot)?;
    let line = resolve::platform_of_attempt(facts, *platform, entry, &slot, next)?;
    if let Some(attempt) = which.attempt.filter(|a| *a != next) {
        return Err(Refusal::NotThatAttempt {
            number: entry.number,
            slot: slot.to_string(),
            attempt,
            next,
        });
    }
    let word = match stop {
        StopFor::Technique => "technique",
        StopFor::Pain => "pain",
        StopFor::Director => "director",
    };
    let load = announced_or_asked(facts, entry, &slot, next);
    let mut fact = fact_of(entry, &slot, &lift, next, load.as_ref());
    fact.ruling = Ruling::Stopped;
    fact.source = Source::Stop;
    fact.called_at = called_at(facts, entry, &slot, next);
    fact.reason = if reason.trim().is_empty() {
        word.to_owned()
    } else {
        format!("{word}; {}", reason.trim())
    };
    let mut events = vec![Event::Ruled(Box::new(fact))];
    if *stop == StopFor::Pain && entry.presence != Presence::Away {
        events.push(Event::RollAnswered {
            entry: entry.key,
            presence: Presence::Away,
            back: false,
            reason: "stopped: pain".to_owned(),
        });
    }
    Ok(Decided::new(line, events))
}

pub(super) fn extra(
    facts: &Facts,
    which: &Which,
    reason: &str,
    platform: Option<u8>,
) -> Result<Decided, Refusal> {
    let (entry, slot, _, line) = table_act(facts, which, platform)?;
    if facts.attempts_allowed(entry.key, &slot) >= 20 {
        return Err(Refusal::NoAttemptLeft {
            number: entry.number,
            slot: slot.to_string(),
            allowed: 20,
        });
    }
    Decided::one(
        line,
        Event::ExtraGranted {
            entry: entry.key,
            slot,
            reason: reason.trim().to_owned(),
        },
    )
}
