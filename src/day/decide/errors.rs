//! What may be granted for an official error, and what may be challenged.

use super::{Decided, platform as place, resolve, rulings};
use crate::day::command::{Command, Which};
use crate::day::event::{Authority, Event, Granted, Source};
use crate::day::facts::{Facts, Ruled};
use crate::day::requests::asked_for_record;
use crate::day::{Refusal, Ruling};
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::Entry;
use crate::rules::{ChallengeCloses, Credit, FoundLoad};

pub(super) fn loaded(
    facts: &Facts,
    which: &Which,
    load: &Weight,
    granted: Granted,
    platform: Option<u8>,
) -> Result<Decided, Refusal> {
    let number = which.number.ok_or(Refusal::ReasonNeeded)?;
    let entry = resolve::entry(facts, number)?;
    resolve::open(facts, entry)?;
    let (slot, _) = resolve::slot(facts, entry, which.lift.as_ref())?;
    let (attempt, ruled) = resolve::ruled(facts, entry, &slot, which.attempt)?;
    let line = match platform {
        Some(named) => Some(resolve::existing(facts, named)?),
        None => ruled.platform,
    };
    resolve::liftable(facts, load.mass)?;
    if ruled.fact.ruling == Ruling::Pass {
        return Err(Refusal::WrongOutcome {
            given: "loaded".to_owned(),
            allowed: "an attempt that was taken; this one was passed".to_owned(),
        });
    }
    may_grant(facts, ruled, load.mass, granted)?;
    if granted != Granted::Keep {
        let called = facts.platforms.iter().zip(1_u8..).find_map(|(p, n)| {
            let call = p.call.as_ref()?;
            (call.entry == entry.key && call.slot == slot).then_some((call, n))
        });
        if let Some((call, n)) = called {
            return Err(place::somebody_called(facts, n, call));
        }
        let later = facts.run(entry.key, &slot).and_then(|run| {
            run.attempts
                .range(attempt + 1..)
                .find(|(_, a)| a.ruled.is_some())
                .map(|(n, _)| *n)
        });
        if let Some(later) = later {
            return Err(Refusal::LaterAttemptRuled {
                number,
                attempt,
                later,
            });
        }
    }
    let credited = credited(facts, entry, &slot, attempt, load);
    Decided::one(
        line,
        Event::LoadFound {
            entry: entry.key,
            slot,
            attempt,
            loaded: load.clone(),
            credited,
            granted,
        },
    )
}

pub(super) fn rerule(facts: &Facts, command: &Command) -> Result<Decided, Refusal> {
    let Command::Rerule {
        which,
        outcome,
        authority,
        reason,
    } = command
    else {
        return Err(Refusal::NoOutcome);
    };
    let number = which.number.ok_or(Refusal::ReasonNeeded)?;
    let entry = resolve::entry(facts, number)?;
    let (slot, lift) = resolve::slot(facts, entry, which.lift.as_ref())?;
    let (attempt, ruled) = resolve::ruled(facts, entry, &slot, which.attempt)?;
    if reason.trim().is_empty() {
        return Err(Refusal::ReasonNeeded);
    }
    if outcome.reps.is_some() || outcome.caught.is_some() {
        return Err(Refusal::WrongOutcome {
            given: "reps or as".to_owned(),
            allowed:
                "good, no, or the lights; correct changes repetitions and the variant"
                    .to_owned(),
        });
    }
    let ruling = rulings::ruling_of(facts, outcome, &[Ruling::Good, Ruling::No])?;
    resolve::faults_of(&lift, &outcome.faults)?;
    if *authority == Authority::Challenge {
        challenge_open(facts, entry, attempt, ruled)?;
    }
    if ruled.fact.ruling == Ruling::Pass {
        return Err(Refusal::WrongOutcome {
            given: ruling.word().to_owned(),
            allowed: "nothing: this attempt was passed; correct it if it was taken"
                .to_owned(),
        });
    }
    if ruling == ruled.fact.ruling {
        if *authority == Authority::Overrule {
            return Err(Refusal::AlreadySo(format!(
                "Attempt {attempt} of lot {number} in {slot} is {ruling} already; the overrule changes nothing."
            )));
        }
        return Decided::one(
            ruled.platform,
            Event::ChallengeLost {
                entry: entry.key,
                slot,
                attempt,
                ruling,
                reason: reason.trim().to_owned(),
            },
        );
    }
    Decided::one(
        ruled.platform,
        Event::Reruled {
            entry: entry.key,
            slot,
            attempt,
            ruling,
            faults: outcome.faults.clone(),
            authority: *authority,
            reason: reason.trim().to_owned(),
        },
    )
}

/// Refuses what the rules don't grant for a load that was found.
///
/// Powerlifting (a reprint of the IPF's loading errors): a lighter bar that
/// was lifted may be accepted or repeated, a heavier one is granted, a miss is
/// a new attempt.
fn may_grant(
    facts: &Facts,
    ruled: &Ruled,
    found: Mass,
    granted: Granted,
) -> Result<(), Refusal> {
    let asked = ruled.fact.requested.as_ref().map_or(found, |w| w.mass);
    let how = FoundLoad::of(found, asked);
    let good = ruled.fact.ruling.is_good();
    let allowed = facts.rules.errors.allowed(how, good);
    if allowed.contains(&granted) {
        return Ok(());
    }
    let words: Vec<&str> = allowed.iter().map(|g| g.word()).collect();
    let ruling = if good { "a good lift" } else { "no lift" };
    Err(Refusal::NotGranted {
        what: format!("{} and {ruling}", how.words()),
        granted: granted.word(),
        allowed: words.join(", "),
    })
}

/// What a found load counts: itself, or the multiple of the step below it; of
/// a record's step, where it was asked for as one.
fn credited(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    found: &Weight,
) -> Weight {
    if facts.rules.credit == Credit::Loaded {
        return found.clone();
    }
    let step = match facts.rules.record_step {
        Some(record) if asked_for_record(facts, entry, slot, attempt) => record,
        _ => facts.rules.step,
    };
    let counts = found.mass.floor_to(step);
    if counts == found.mass {
        return found.clone();
    }
    Weight::computed(counts, facts.bar_unit)
}

/// Refuses a challenge that comes too late, or of an athlete who has none
/// left.
///
/// Weightlifting (a continental federation on video review): one card an
/// athlete, kept while challenges succeed; handed in before the next athlete
/// is on the stage with the clock started.
fn challenge_open(
    facts: &Facts,
    entry: &Entry,
    attempt: u8,
    ruled: &Ruled,
) -> Result<(), Refusal> {
    let refused = |why: &str| {
        Err(Refusal::NoChallenge {
            number: entry.number,
            attempt,
            why: why.to_owned(),
        })
    };
    if let Some(most) = facts.rules.challenges
        && facts.challenges_lost(entry.key) >= most
    {
        return refused("no challenge is left; a jury or the director may overrule");
    }
    let live = matches!(ruled.fact.source, Source::Lights | Source::Stop);
    let since = ruled
        .platform
        .and_then(|n| facts.platform(n))
        .and_then(|p| p.last_call)
        .is_some_and(|call| call > ruled.seq);
    if facts.rules.challenge_closes == ChallengeCloses::Call && live && since {
        return refused(
            "the next athlete has been called since; a jury or the director may overrule",
        );
    }
    Ok(())
}
