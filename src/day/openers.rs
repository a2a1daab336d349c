//! When openers are likely to be called: of what runs on a platform, and of
//! what comes after it.

use super::pace::{self, Expected, flight_end, isqrt, outs};
use super::queue::{Queued, queue, queued, turn};
use super::{Facts, Stamp};
use crate::lift::Slug;

/// Further from its planned start than this, in milliseconds, a session isn't
/// waited for: the day is then looked at on another one, or long before it.
const FAR: i64 = 6 * 3_600_000;

/// An opener that is still to come, with what is likely.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opener {
    /// Whose, in which slot, and at which load.
    pub queued: Queued,
    /// When the call is likely.
    pub call: Expected,
    /// How many attempts of its own flight are likely to come before.
    pub out: u32,
    /// When its flight is likely to begin; now, where it runs.
    pub begins: Stamp,
    /// When what runs before it is likely to be over; now, where it runs.
    pub free: Stamp,
    /// Whether the athlete lifts in what runs before it.
    pub lifts_before: bool,
}

/// The openers still to come in what runs on a platform, then those of what
/// comes next there in the same session: the next flight in the lift, else the
/// first one in the next lift, after the rules' break. Nobody who is called or
/// owes the load is among them.
///
/// Before anything runs they are those of the session that is next, from its
/// planned start on; none where no start is planned.
pub fn openers(facts: &Facts, platform: u8, now: Stamp) -> Vec<Opener> {
    let mut list = Vec::new();
    let running = facts.platform(platform).and_then(|p| p.running.as_ref());
    let Some(running) = running else {
        if let Some((session, start)) = next_session(facts, platform, now) {
            let first = blocks(facts, platform, &session).into_iter().next();
            if let Some((slot, flight)) = first {
                let block = Block {
                    slot,
                    flight,
                    session,
                    begins: start,
                    free: now,
                    left: 0,
                };
                list.extend(block.openers(facts, platform));
            }
        }
        return list;
    };
    let order = queue(facts, platform);
    let calls = pace::calls(facts, platform, &order, now);
    let out = outs(facts, &order);
    for ((queued, call), out) in order.into_iter().zip(calls).zip(out) {
        if queued.attempt == 1 && !queued.called && queued.load.is_some() {
            list.push(Opener {
                queued,
                call,
                out,
                begins: now,
                free: now,
                lifts_before: false,
            });
        }
    }
    let Some((left, end)) = flight_end(facts, platform, now) else {
        return list;
    };
    let next = blocks(facts, platform, &running.session)
        .into_iter()
        .find(|(slot, flight)| (slot, flight) != (&running.slot, &running.flight));
    if let Some((slot, flight)) = next {
        let minutes = match slot == running.slot {
            true => 0,
            false => facts.rules.break_minutes,
        };
        let block = Block {
            slot,
            flight,
            session: running.session.clone(),
            begins: end.at.plus_ms(i64::from(minutes) * 60_000),
            free: end.at,
            left,
        };
        list.extend(block.openers(facts, platform));
    }
    list
}

/// A flight in a slot that hasn't begun.
struct Block {
    slot: Slug,
    flight: String,
    session: String,
    begins: Stamp,
    /// When what runs before is over.
    free: Stamp,
    /// How many attempts are left in that.
    left: u32,
}

impl Block {
    fn openers(self, facts: &Facts, platform: u8) -> Vec<Opener> {
        let pace = pace::pace(facts, platform);
        let mut order: Vec<Queued> = facts
            .entries_of(&self.session, &self.flight)
            .filter_map(|entry| queued(facts, entry, &self.slot))
            .collect();
        order.sort_by_cached_key(|queued| turn(&facts.rules.order, queued));
        let out = outs(facts, &order);
        let busy = queue(facts, platform);
        order
            .into_iter()
            .zip(out)
            .filter(|(queued, _)| queued.attempt == 1 && queued.load.is_some())
            .map(|(queued, out)| Opener {
                call: Expected {
                    at: self.begins.plus_ms(i64::from(out) * pace.ms),
                    give_or_take: pace.spread * isqrt(i64::from(self.left + out)),
                },
                out,
                begins: self.begins,
                free: self.free,
                lifts_before: busy.iter().any(|q| q.entry == queued.entry),
                queued,
            })
            .collect()
    }
}

/// Flights of a session on a platform in each slot, in the order of the
/// programme, where nobody has begun.
fn blocks(facts: &Facts, platform: u8, session: &str) -> Vec<(Slug, String)> {
    let flights = || {
        facts
            .flights
            .iter()
            .filter(|f| f.platform == platform && f.session == session)
    };
    let fresh = |slot: &Slug, flight: &str| {
        let mut any = false;
        for entry in facts.entries_of(session, flight) {
            if let Some(q) = queued(facts, entry, slot) {
                any = true;
                if q.attempt > 1 {
                    return false;
                }
            }
        }
        any
    };
    let mut list = Vec::new();
    for line in &facts.slots {
        for flight in flights().filter(|f| fresh(&line.slot, &f.name)) {
            list.push((line.slot.clone(), flight.name.clone()));
        }
    }
    list
}

/// The first session on a platform in which somebody is still to begin, with
/// its planned start, or now where that is past.
fn next_session(facts: &Facts, platform: u8, now: Stamp) -> Option<(String, Stamp)> {
    let (name, session) = facts
        .sessions
        .iter()
        .find(|(name, s)| !s.closed && !blocks(facts, platform, name).is_empty())?;
    let text = session.start?.format("%H:%M").to_string();
    let start = Stamp::parse(&text, facts.date, now.offset)?;
    if start.since(now).abs() > FAR {
        return None;
    }
    let begins = if start.ms < now.ms { now } else { start };
    Some((name.clone(), begins))
}
