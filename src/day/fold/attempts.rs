//! Calls, rulings and found loads, folded.

use std::collections::BTreeMap;

use super::leave_call;
use crate::day::clock::Clock;
use crate::day::event::{Event, Granted, Recorded, RuledFact, Source};
use crate::day::facts::{Call, Facts, Platform, Ruled};
use crate::lift::Slug;
use crate::measure::Mass;
use crate::rules::FollowingEnds;

pub(super) fn called(facts: &mut Facts, recorded: &Recorded, event: &Event) {
    let Event::Called {
        entry,
        slot,
        lift,
        attempt,
        load,
        clock,
        following,
    } = event
    else {
        return;
    };
    let by_leave = *attempt > facts.rules.attempts;
    let ends = facts.rules.following_ends;
    leave_call(facts, *entry, None);
    let Some(p) = recorded.platform.and_then(|n| facts.platform_mut(n)) else {
        return;
    };
    p.call = Some(Call {
        entry: *entry,
        slot: slot.clone(),
        lift: lift.clone(),
        attempt: *attempt,
        load: load.clone(),
        at: recorded.at,
        following: *following,
        clock: clock.map(|seconds| Clock::started(seconds, recorded.at)),
    });
    p.break_until = None;
    p.last_call = Some(recorded.seq);
    if ends == FollowingEnds::Call
        && p.last.as_ref().is_some_and(|(last, _, _)| last != entry)
    {
        p.last = None;
    }
    // After a correction another slot may run than the one of the call.
    let runs = p.running.as_ref().is_some_and(|r| r.slot == *slot);
    if !by_leave && runs {
        raise_bar(p, *attempt, load.mass);
    }
}

/// The highest loads that the flight has had on the bar in a slot, by attempt
/// number: a slot that is started again goes on from there. Cards don't
/// count, and neither do attempts by leave.
pub(super) fn bar_so_far(
    facts: &Facts,
    session: &str,
    flight: &str,
    slot: &Slug,
) -> BTreeMap<u8, Mass> {
    let mut bar: BTreeMap<u8, Mass> = BTreeMap::new();
    for run in facts.runs.values().filter_map(|runs| runs.get(slot)) {
        for (n, attempt) in run.attempts.range(..=facts.rules.attempts) {
            let Some(fact) = attempt.ruled.as_ref().map(|r| &r.fact) else {
                continue;
            };
            let live = fact.source == Source::Lights
                || (fact.source == Source::Stop && fact.called_at.is_some());
            if let Some(load) = fact.loaded.as_ref()
                && live
                && fact.session == session
                && fact.flight == flight
            {
                let highest = bar.entry(*n).or_insert(load.mass);
                *highest = (*highest).max(load.mass);
            }
        }
    }
    bar
}

fn raise_bar(platform: &mut Platform, attempt: u8, mass: Mass) {
    let bar = platform.bar.entry(attempt).or_insert(mass);
    *bar = (*bar).max(mass);
}

pub(super) fn ruled(facts: &mut Facts, recorded: &Recorded, fact: &RuledFact) {
    let by_leave = fact.attempt > facts.rules.attempts;
    if let Some(p) = recorded.platform.and_then(|n| facts.platform_mut(n)) {
        let was_called = p
            .call
            .as_ref()
            .is_some_and(|c| c.is(fact.entry, &fact.slot, fact.attempt));
        let runs_here = p.running.as_ref().is_some_and(|r| r.slot == fact.slot);
        if matches!(fact.source, Source::Lights | Source::Stop) && was_called && runs_here
        {
            p.last = Some((fact.entry, fact.slot.clone(), fact.attempt));
            if let Some(load) = fact.loaded.as_ref().filter(|_| !by_leave) {
                raise_bar(p, fact.attempt, load.mass);
            }
        }
    }
    for p in &mut facts.platforms {
        if p.call
            .as_ref()
            .is_some_and(|c| c.is(fact.entry, &fact.slot, fact.attempt))
        {
            p.call = None;
        }
    }
    facts
        .attempt_mut(fact.entry, &fact.slot, fact.attempt)
        .ruled = Some(Ruled {
        fact: fact.clone(),
        first: None,
        found: false,
        at: recorded.at,
        happened: recorded.happened,
        hand: recorded.hand.clone(),
        platform: recorded.platform,
        seq: recorded.seq,
    });
}

pub(super) fn load_found(facts: &mut Facts, event: &Event) {
    let Event::LoadFound {
        entry,
        slot,
        attempt,
        loaded,
        credited,
        granted,
    } = event
    else {
        return;
    };
    let attempt = facts.attempt_mut(*entry, slot, *attempt);
    let Some(ruled) = attempt.ruled.as_mut() else {
        return;
    };
    ruled.fact.loaded = Some(loaded.clone());
    ruled.found = true;
    match granted {
        Granted::Keep => ruled.fact.credited = Some(credited.clone()),
        Granted::Repeat | Granted::Again => {
            attempt.void.extend(attempt.ruled.take());
            leave_call(facts, *entry, Some(slot));
        }
    }
}
