//! What a day's plan says of the times before a session, and until when
//! openers may be changed.

use chrono::NaiveTime;

use crate::day::{Facts, Stamp, show_left};
use crate::roster::Entry;

/// The session that is next to lift on a platform: the first one with an open
/// attempt there.
pub fn session_of(facts: &Facts, platform: u8) -> Option<&str> {
    let open = |session: &str, flight: &str| {
        facts.sessions.get(session).is_some_and(|s| !s.closed)
            && facts
                .slots
                .iter()
                .any(|l| flight_has_attempts(facts, session, flight, &l.slot))
    };
    facts
        .flights
        .iter()
        .filter(|f| f.platform == platform && open(&f.session, &f.name))
        .map(|f| f.session.as_str())
        .min()
}

/// The times before a session's planned start, as a sentence. With `now`, what
/// of it is next.
pub fn before_start(facts: &Facts, session: &str, now: Option<Stamp>) -> Option<String> {
    let times = times(facts, session, now)?;
    Some(format!("Session {session}: {}.", times.join(", ")))
}

/// Weigh-in, introduction, countdown and start of a session, each in a few
/// words; `None` where no start is planned.
pub fn times(facts: &Facts, session: &str, now: Option<Stamp>) -> Option<Vec<String>> {
    let start = facts.sessions.get(session)?.start?;
    let now = now
        .map(Stamp::local)
        .filter(|local| local.date() == facts.date)
        .map(|local| local.time());
    let mut parts = Vec::new();
    if let Some((from, to)) = facts.weigh_in(session) {
        let state = match now {
            Some(now) if now < from => format!(" (opens in {})", until(now, from)),
            Some(now) if now < to => format!(" (open, {} left)", until(now, to)),
            Some(_) => " (over)".to_owned(),
            None => String::new(),
        };
        parts.push(format!("weigh-in {} to {}{state}", clock(from), clock(to)));
    }
    let (introduction, countdown) = facts.before_start(session);
    for (word, time) in [("introduction", introduction), ("countdown", countdown)] {
        if let Some(time) = time {
            let state = now
                .filter(|now| *now < time)
                .map(|now| format!(" (in {})", until(now, time)));
            parts.push(format!(
                "{word} {}{}",
                clock(time),
                state.unwrap_or_default()
            ));
        }
    }
    let state = match now {
        Some(now) if now < start => format!(" (in {})", until(now, start)),
        _ => String::new(),
    };
    parts.push(format!("start {}{state}", clock(start)));
    Some(parts)
}

/// Whether a time before a session's start is counted down on a platform.
pub fn counts_down(facts: &Facts, platform: u8, now: Stamp) -> bool {
    let waits = facts
        .platform(platform)
        .is_some_and(|p| p.running.is_none());
    let start = session_of(facts, platform)
        .filter(|_| waits)
        .and_then(|s| facts.sessions.get(s)?.start);
    let local = now.local();
    start.is_some_and(|start| local.date() == facts.date && local.time() < start)
}

fn clock(time: NaiveTime) -> String {
    time.format("%H:%M").to_string()
}

/// What lies between two times of a day: `12 min`, or `0:42` in the last
/// minutes.
fn until(now: NaiveTime, then: NaiveTime) -> String {
    let ms = (then - now).num_milliseconds();
    if ms < 10 * 60_000 {
        return show_left(ms);
    }
    let minutes = (ms + 59_999) / 60_000;
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, minutes) => format!("{hours} h {minutes:02} min"),
    }
}

/// Until when openers of what lifts next on a platform may be changed, as a
/// sentence, where the rules close them.
///
/// Powerlifting (WDFPF and World Para Powerlifting as published): some minutes
/// before a first flight, and with some attempts left in the flight before.
pub fn openers_close(facts: &Facts, platform: u8, now: Stamp) -> Option<String> {
    let rules = &facts.rules;
    let place = facts.platform(platform)?;
    if let Some(running) = place.running.as_ref()
        && flight_has_attempts(facts, &running.session, &running.flight, &running.slot)
    {
        let few = rules.first_closes_left?;
        let next = facts.flights.iter().find(|f| {
            f.platform == platform
                && f.session == running.session
                && f.name != running.flight
                && waits(facts, &f.session, &f.name, &running.slot)
        })?;
        let left: usize = facts
            .entries_of(&running.session, &running.flight)
            .filter(|e| e.is_present() && e.takes_part(&running.slot))
            .map(|e| open_attempts(facts, e, &running.slot))
            .sum();
        let few = usize::try_from(few).unwrap_or(usize::MAX);
        return Some(if left > few {
            format!(
                "Openers of flight {} close with {few} attempts left in flight {}; {left} are \
                 left.",
                next.name, running.flight
            )
        } else {
            format!("Openers of flight {} are closed.", next.name)
        });
    }
    if place.running.is_some() && place.break_until.is_none() {
        return None;
    }
    let minutes = i64::from(rules.first_closes?);
    let session = session_of(facts, platform)?;
    let start = match place.break_until {
        Some(until) => until,
        None => {
            let start = facts.sessions.get(session)?.start?;
            let text = start.format("%H:%M").to_string();
            Stamp::parse(&text, facts.date, now.offset)?
        }
    };
    let left = start.since(now) - minutes * 60_000;
    if start.since(now) <= 0 || left > 6 * 3_600_000 {
        return None;
    }
    Some(if left > 0 {
        format!(
            "Openers close {minutes} minutes before the start, in {}.",
            show_left(left)
        )
    } else {
        "Openers are closed.".to_owned()
    })
}

fn flight_has_attempts(
    facts: &Facts,
    session: &str,
    flight: &str,
    slot: &crate::lift::Slug,
) -> bool {
    facts
        .entries_of(session, flight)
        .any(|e| e.is_present() && open_attempts(facts, e, slot) > 0)
}

/// Whether a flight has an athlete in a slot and none of its attempts there
/// is ruled yet.
fn waits(facts: &Facts, session: &str, flight: &str, slot: &crate::lift::Slug) -> bool {
    let mut some = false;
    for entry in facts.entries_of(session, flight) {
        if !entry.is_present() || !entry.takes_part(slot) {
            continue;
        }
        some = true;
        if facts.next_attempt(entry.key, slot) != Some(1) {
            return false;
        }
    }
    some
}

fn open_attempts(facts: &Facts, entry: &Entry, slot: &crate::lift::Slug) -> usize {
    if !entry.takes_part(slot) {
        return 0;
    }
    let allowed = facts.attempts_allowed(entry.key, slot);
    let next = facts.next_attempt(entry.key, slot);
    next.map_or(0, |n| usize::from(allowed + 1 - n))
}
