//! The order of call from now on.

use super::facts::Facts;
use super::requests::standing_request;
use super::{Stamp, fold};
use crate::lift::Slug;
use crate::measure::Weight;
use crate::roster::{Entry, EntryKey};
use crate::rules::{Again, OrderKey};

/// One who is still to lift.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Queued {
    /// Who.
    pub entry: EntryKey,
    /// Table number.
    pub number: u16,
    /// The slot.
    pub slot: Slug,
    /// The variant.
    pub lift: Slug,
    /// Attempt number.
    pub attempt: u8,
    /// The load that stands; `None` where it is owed.
    pub load: Option<Weight>,
    /// Whether this is the athlete who is called.
    pub called: bool,
    /// When the advised rest after the last attempt ends.
    pub rests_until: Option<Stamp>,
    /// Whether the attempt is taken anew at the end of its round.
    waits: bool,
    /// The place in the journal of the attempt before.
    previous: Option<u64>,
}

/// The order from now on, on a platform: the running slot of the running
/// flight.
///
/// Whoever is absent, away, withdrawn or out of attempts is left out. Who has
/// not asked for a load yet comes last. Weightlifting's order (TCRR 6.5:
/// load, attempt, who took the previous attempt earlier, number) and a max
/// day's (round, load, number) are both the rules' `order`.
pub fn queue(facts: &Facts, platform: u8) -> Vec<Queued> {
    let Some(running) = facts.platform(platform).and_then(|p| p.running.as_ref()) else {
        return Vec::new();
    };
    let mut queue: Vec<Queued> = facts
        .entries_of(&running.session, &running.flight)
        .filter_map(|entry| queued(facts, entry, &running.slot))
        .collect();
    queue.sort_by_cached_key(|queued| turn(&facts.rules.order, queued));
    queue
}

/// Where an entry stands in a slot, if it is still to lift.
pub(super) fn queued(facts: &Facts, entry: &Entry, slot: &Slug) -> Option<Queued> {
    if !entry.is_present() || !entry.takes_part(slot) {
        return None;
    }
    let run = facts.run(entry.key, slot);
    let attempt = facts.next_in(run)?;
    if facts.rules.out_after_no_good && is_out(facts, entry, slot) {
        return None;
    }
    let waits = facts.rules.again == Again::RoundEnd
        && run
            .and_then(|run| run.attempts.get(&attempt))
            .is_some_and(|a| !a.void.is_empty());
    let before = run
        .and_then(|run| run.attempts.range(..attempt).next_back())
        .and_then(|(_, a)| a.ruled.as_ref());
    let called = facts
        .platforms
        .iter()
        .filter_map(|p| p.call.as_ref())
        .find(|c| c.is(entry.key, slot, attempt));
    let load = match called {
        Some(call) => Some(call.load.clone()),
        None => standing_request(facts, entry, slot, attempt).map(|s| s.load),
    };
    Some(Queued {
        entry: entry.key,
        number: entry.number,
        slot: slot.clone(),
        lift: entry.variant(slot)?.clone(),
        attempt,
        load,
        called: called.is_some(),
        rests_until: before
            .filter(|_| facts.rules.rest > 0)
            .map(|r| r.at.plus_ms(i64::from(facts.rules.rest) * 1000)),
        waits,
        previous: before.map(|r| fold::taken(r).0),
    })
}

/// Whether an earlier slot ended without a good attempt.
fn is_out(facts: &Facts, entry: &Entry, slot: &Slug) -> bool {
    facts
        .slots
        .iter()
        .take_while(|line| line.slot != *slot)
        .filter(|line| entry.takes_part(&line.slot))
        .any(|line| {
            facts.next_attempt(entry.key, &line.slot).is_none()
                && facts.best(entry.key, &line.slot).is_none()
        })
}

/// What decides the order of call, as numbers of which the first that differs
/// decides and the smaller goes first; the table number is the last word.
pub(super) fn turn(order: &[OrderKey], queued: &Queued) -> [i64; 6] {
    let number = i64::from(queued.number);
    let mut turn = [number; 6];
    let mut seen: [Option<OrderKey>; 5] = [None; 5];
    let mut n = 0;
    for key in order {
        // A key that was asked already decides nothing more.
        if n == seen.len() || seen.contains(&Some(*key)) {
            continue;
        }
        turn[n] = match key {
            // Who has not asked for a load yet comes last.
            OrderKey::Load => queued
                .load
                .as_ref()
                .map_or(i64::MAX, |load| load.mass.counts()),
            OrderKey::Attempt => 2 * i64::from(queued.attempt) + i64::from(queued.waits),
            OrderKey::Previous => queued
                .previous
                .map_or(-1, |seq| i64::try_from(seq).unwrap_or(i64::MAX)),
            OrderKey::Number => number,
            OrderKey::Rest => queued.rests_until.map_or(i64::MIN, |until| until.ms),
        };
        seen[n] = Some(*key);
        n += 1;
    }
    turn
}
