//! How fast a platform goes, and when somebody is likely to be called.
//!
//! Forecasts are estimates: each comes with how far off it may be.

use super::Stamp;
use super::event::Source;
use super::facts::{Facts, Ruled};
use super::queue::{Queued, queue};
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::{Entry, EntryKey};
use crate::rules::{BarRule, OrderKey};

/// How many attempts at the rules' pace the first forecast is worth.
const PRIOR: i64 = 4;

/// The time from one attempt to the next on a platform.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pace {
    /// Milliseconds an attempt.
    pub ms: i64,
    /// How far single attempts lie from it on the average, in milliseconds.
    pub spread: i64,
    /// How many intervals it was taken from.
    pub seen: u32,
}

/// When something is likely to happen, give or take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Expected {
    /// When.
    pub at: Stamp,
    /// How far off that may be, in milliseconds.
    pub give_or_take: i64,
}

/// The pace of a platform so far: the intervals between its rulings, with the
/// rules' pace counting as four of them, so that it is there from the start.
///
/// Pauses of more than four attempts don't count, and neither do cards.
pub fn pace(facts: &Facts, platform: u8) -> Pace {
    let usual = i64::from(facts.rules.pace.max(1)) * 1000;
    let mut ruled: Vec<&Ruled> = facts
        .runs
        .values()
        .flat_map(|runs| runs.values())
        .flat_map(|run| run.attempts.values())
        .filter_map(|a| a.ruled.as_ref())
        .filter(|r| r.platform == Some(platform) && r.fact.source == Source::Lights)
        .filter(|r| !r.at.loose)
        .collect();
    ruled.sort_by_key(|r| r.seq);
    let intervals: Vec<i64> = ruled
        .windows(2)
        .map(|pair| pair[1].at.since(pair[0].at))
        .filter(|ms| (1..=usual * 4).contains(ms))
        .collect();
    let seen = i64::try_from(intervals.len()).unwrap_or(0);
    let ms = (usual * PRIOR + intervals.iter().sum::<i64>()) / (PRIOR + seen);
    let apart: i64 = intervals.iter().map(|i| (i - ms).abs()).sum();
    // Before anything was seen an attempt may well be a third off.
    let spread = (usual / 3 * PRIOR + apart) / (PRIOR + seen);
    Pace {
        ms,
        spread,
        seen: u32::try_from(seen).unwrap_or(0),
    }
}

/// When each of a platform's queue is likely to be called, with the attempts
/// of others that are likely to come before, and the rest between rounds.
pub fn calls(facts: &Facts, platform: u8, order: &[Queued], now: Stamp) -> Vec<Expected> {
    let pace = pace(facts, platform);
    let begin = begins(facts, platform, now);
    let rest = i64::from(round_rest(facts, platform).unwrap_or(0)) * 1000;
    let first = order.first().map_or(0, |q| q.attempt);
    order
        .iter()
        .zip(outs(facts, order))
        .map(|(q, out)| {
            let rounds = i64::from(q.attempt.saturating_sub(first));
            Expected {
                at: begin.plus_ms(i64::from(out) * pace.ms + rounds * rest),
                give_or_take: pace.spread * isqrt(i64::from(out)),
            }
        })
        .collect()
}

/// The seconds of rest between two rounds of what runs on a platform, where
/// the rules give any to a flight of its size.
///
/// Small flights rest (powerlifting; the seconds are the rules' data).
pub fn round_rest(facts: &Facts, platform: u8) -> Option<u32> {
    if facts.rules.bar != BarRule::Rounds {
        return None;
    }
    let running = facts.platform(platform)?.running.as_ref()?;
    let size = facts
        .entries_of(&running.session, &running.flight)
        .filter(|e| e.is_present() && e.takes_part(&running.slot))
        .count();
    let size = u32::try_from(size).unwrap_or(u32::MAX);
    let pairs = facts.rules.round_rest.iter();
    pairs
        .into_iter()
        .find(|(most, _)| size <= *most)
        .map(|p| p.1)
}

/// When what runs on a platform is likely to end, and after how many attempts;
/// `None` where nothing runs.
pub fn flight_end(facts: &Facts, platform: u8, now: Stamp) -> Option<(u32, Expected)> {
    let running = facts.platform(platform)?.running.as_ref()?;
    let left: u32 = facts
        .entries_of(&running.session, &running.flight)
        .map(|e| left_of(facts, e, &running.slot))
        .sum();
    Some((left, after(facts, platform, left, 0, now)))
}

/// When a session is likely to end on a platform, and after how many attempts
/// there, in all lifts of the programme; `None` where it has no flight there.
///
/// The rules' break is taken between two lifts.
pub fn session_end(
    facts: &Facts,
    platform: u8,
    session: &str,
    now: Stamp,
) -> Option<(u32, Expected)> {
    let flights: Vec<&str> = facts
        .flights
        .iter()
        .filter(|f| f.platform == platform && f.session == session)
        .map(|f| f.name.as_str())
        .collect();
    if flights.is_empty() {
        return None;
    }
    let (mut left, mut slots) = (0, 0_u32);
    for line in &facts.slots {
        let of_slot: u32 = flights
            .iter()
            .flat_map(|f| facts.entries_of(session, f))
            .map(|e| left_of(facts, e, &line.slot))
            .sum();
        left += of_slot;
        slots += u32::from(of_slot > 0);
    }
    let breaks = slots.saturating_sub(1);
    Some((left, after(facts, platform, left, breaks, now)))
}

/// How many attempts of others are likely to come before an athlete's next
/// one on a platform; `None` where the athlete isn't in its queue.
pub fn attempts_out(facts: &Facts, platform: u8, entry: EntryKey) -> Option<u32> {
    let order = queue(facts, platform);
    let at = order.iter().position(|q| q.entry == entry)?;
    outs(facts, &order).get(at).copied()
}

/// How many attempts are likely to come before each one of a queue.
///
/// Where the order goes by load alone, others lift until they are past the
/// athlete's load; each is taken to rise by a twentieth, up to a multiple of
/// the step (common practice when attempts are counted for a warm-up).
/// Elsewhere it is the place in the queue.
pub(super) fn outs(facts: &Facts, order: &[Queued]) -> Vec<u32> {
    let places = || (0_u32..).take(order.len());
    if facts.rules.order.first() != Some(&OrderKey::Load) {
        return places().collect();
    }
    let key = |load: Mass, attempt: u8, q: &Queued| (load, attempt, q.number);
    let mut to_come = Vec::new();
    for q in order {
        let Some(mut load) = q.load.as_ref().map(|w| w.mass) else {
            continue;
        };
        for attempt in q.attempt..=facts.attempts_allowed(q.entry, &q.slot) {
            to_come.push(key(load, attempt, q));
            load = risen(load, facts.rules.step);
        }
    }
    to_come.sort_unstable();
    order
        .iter()
        .zip(places())
        .map(|(q, place)| {
            let before = q.load.as_ref().map_or(to_come.len(), |load| {
                let own = key(load.mass, q.attempt, q);
                to_come.partition_point(|other| *other < own)
            });
            // Whoever is called lifts first, whatever the others' loads.
            let before = if q.called { 0 } else { before };
            u32::try_from(before).unwrap_or(u32::MAX).max(place)
        })
        .collect()
}

fn risen(load: Mass, step: Mass) -> Mass {
    let next = load.percent(105).ceil_to(step);
    next.max(load + step)
}

fn left_of(facts: &Facts, entry: &Entry, slot: &Slug) -> u32 {
    if !entry.is_present() || !entry.takes_part(slot) {
        return 0;
    }
    let allowed = facts.attempts_allowed(entry.key, slot);
    let next = facts.next_attempt(entry.key, slot);
    next.map_or(0, |n| u32::from(allowed + 1 - n))
}

fn begins(facts: &Facts, platform: u8, now: Stamp) -> Stamp {
    facts
        .platform(platform)
        .and_then(|p| p.break_until)
        .filter(|until| until.ms > now.ms)
        .unwrap_or(now)
}

fn after(
    facts: &Facts,
    platform: u8,
    attempts: u32,
    breaks: u32,
    now: Stamp,
) -> Expected {
    let pace = pace(facts, platform);
    let breaks = i64::from(breaks) * i64::from(facts.rules.break_minutes) * 60_000;
    let ms = i64::from(attempts) * pace.ms + breaks;
    Expected {
        at: begins(facts, platform, now).plus_ms(ms),
        give_or_take: pace.spread * isqrt(i64::from(attempts)),
    }
}

/// The whole root: errors of single attempts add up by it.
pub(super) fn isqrt(n: i64) -> i64 {
    n.max(0).isqrt()
}
