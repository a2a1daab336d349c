//! Athletes who go to another platform with all their attempts: to which
//! flight there, and who might.

use super::time::{InTime, ending};
use crate::day::pace::{pace, session_end};
use crate::day::{Facts, Place, Stamp, queue};
use crate::roster::Entry;
use crate::rules::Queue;

/// Where an athlete goes who moves to a platform: to the flight of the same
/// session that runs there, else to the first one there; `None` in its place
/// lets one be made.
pub fn place_on(facts: &Facts, entry: &Entry, platform: u8) -> Place {
    let running = facts.platform(platform).and_then(|p| p.running.as_ref());
    let runs = running
        .filter(|r| r.session == entry.session)
        .map(|r| r.flight.clone());
    let there = || {
        let own = |f: &&crate::day::Flight| {
            f.session == entry.session && f.platform == platform
        };
        facts.flights.iter().find(own).map(|f| f.name.clone())
    };
    Place {
        session: (!entry.session.is_empty()).then(|| entry.session.clone()),
        flight: runs.or_else(there),
        platform: Some(platform),
    }
}

/// A move that would help a platform to end in time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Move {
    /// Who.
    pub number: u16,
    /// From which platform.
    pub from: u8,
    /// To which platform.
    pub to: u8,
}

/// Who might go from a platform to which other one; `None` unless it is
/// clearly right.
///
/// Only where the queue is advice and the platform won't end its session in
/// time. It is the last of its queue, and the other platform runs the same
/// lift of the same session, ends in time with the attempts that come over as
/// well, and no later than the first one then does. Our choice.
pub fn suggested_move(facts: &Facts, from: u8, now: Stamp) -> Option<Move> {
    if facts.rules.queue != Queue::Advice {
        return None;
    }
    let running = facts.platform(from)?.running.as_ref()?;
    let here = ending(facts, from, now).filter(|e| e.session == running.session)?;
    let bell = here.bell.filter(|_| here.in_time() == Some(InTime::No))?;
    let last = queue(facts, from).into_iter().rfind(|q| !q.called)?;
    let moving = i64::from(left(facts, facts.entries.get(&last.entry)?));
    let then = here.takes - moving * pace(facts, from).ms;
    let others = (1..).zip(&facts.platforms).filter(|(to, platform)| {
        let same = |r: &crate::day::Running| {
            r.session == running.session && r.slot == running.slot
        };
        *to != from && platform.running.as_ref().is_some_and(same)
    });
    let ends = others.filter_map(|(to, _)| {
        let (_, end) = session_end(facts, to, &running.session, now)?;
        let takes = end.at.since(now) + moving * pace(facts, to).ms;
        let in_time = takes + end.give_or_take <= bell;
        (in_time && takes <= then).then_some((takes, to))
    });
    let (_, to) = ends.min()?;
    Some(Move {
        number: last.number,
        from,
        to,
    })
}

/// How many attempts an athlete has left, in all lifts.
fn left(facts: &Facts, entry: &Entry) -> u32 {
    let of = |slot| {
        let allowed = u32::from(facts.attempts_allowed(entry.key, slot));
        let next = facts.next_attempt(entry.key, slot).map(u32::from);
        next.map_or(0, |next| (allowed + 1).saturating_sub(next))
    };
    let slots = facts.slots.iter().map(|line| &line.slot);
    slots.filter(|slot| entry.takes_part(slot)).map(of).sum()
}

impl Move {
    /// It as a sentence, with what is typed to do it.
    pub fn sentence(&self, facts: &Facts) -> String {
        let label = |n| facts.platform_label(n);
        format!(
            "{} has time for lot {} of {}: type {} to {}.",
            capital(&label(self.to)),
            self.number,
            label(self.from),
            self.number,
            self.to
        )
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}
