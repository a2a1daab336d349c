//! What comes too late, and what the openers must add up to.

use crate::day::command::Context;
use crate::day::facts::{Call, Facts, Running};
use crate::day::{Refusal, Stamp, standing_request};
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::Entry;
use crate::rules::Sex;

/// Refuses what comes too late on the called athlete's own clock.
///
/// TCRR 6.5.11-12: declaration and changes before the final call. On the long
/// clock the declaration in the first 30 s (2007 notice).
pub(super) fn in_time(
    facts: &Facts,
    entry: &Entry,
    call: &Call,
    declared: bool,
    context: &Context,
) -> Result<(), Refusal> {
    let Some(clock) = &call.clock else {
        return Ok(());
    };
    if context.at.loose || call.at.loose {
        return Ok(());
    }
    let left = clock.left_at(context.at);
    let late = |what: &str, limit: String| {
        Err(Refusal::TooLate {
            number: entry.number,
            what: what.to_owned(),
            limit,
            load: call.load.mass.show_with_unit(facts.bar_unit),
        })
    };
    let what = if declared { "changes" } else { "declaration" };
    if let Some(seconds) = facts.rules.declare_within
        && call.following
        && !declared
        && clock.allowance - left > i64::from(seconds) * 1000
    {
        return late(what, format!("after the first {seconds} s"));
    }
    if let Some(seconds) = facts.rules.final_call
        && left < i64::from(seconds) * 1000
    {
        return late(
            what,
            format!("at the final call, {seconds} s before the end"),
        );
    }
    Ok(())
}

/// Refuses a next attempt that is handed in too long after the last one.
///
/// Powerlifting: within a minute of finishing (read in several federations'
/// rulebooks); what is filled in stands then.
pub(super) fn handed_in(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    attempt: u8,
    context: &Context,
) -> Result<(), Refusal> {
    let Some(seconds) = facts.rules.hand_in else {
        return Ok(());
    };
    let before = facts
        .attempt(entry.key, slot, attempt - 1)
        .and_then(|a| a.ruled.as_ref());
    let Some(before) = before.filter(|b| !b.at.loose && !context.at.loose) else {
        return Ok(());
    };
    if context.at.since(before.at) <= i64::from(seconds) * 1000 {
        return Ok(());
    }
    Err(Refusal::TooLate {
        number: entry.number,
        what: "the declaration".to_owned(),
        limit: format!("{seconds} s after the last attempt"),
        load: standing(facts, entry, slot, attempt),
    })
}

fn standing(facts: &Facts, entry: &Entry, slot: &Slug, attempt: u8) -> String {
    standing_request(facts, entry, slot, attempt).map_or_else(
        || "nothing".to_owned(),
        |s| s.load.mass.show_with_unit(facts.bar_unit),
    )
}

/// Refuses a changed opener that comes too late: some minutes before the
/// planned start of the first flight, or with few attempts left in the flight
/// before.
///
/// Powerlifting (WDFPF and World Para Powerlifting as published: 5 minutes, 5
/// attempts).
pub(super) fn opener_open(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    context: &Context,
) -> Result<(), Refusal> {
    let late = |limit: String| {
        Err(Refusal::TooLate {
            number: entry.number,
            what: "the opener".to_owned(),
            limit,
            load: standing(facts, entry, slot, 1),
        })
    };
    let rules = &facts.rules;
    if rules.first_closes.is_none() && rules.first_closes_left.is_none() {
        return Ok(());
    }
    let begun = (entry.session.clone(), entry.flight.clone(), slot.clone());
    if facts.begun.contains(&begun) {
        return late("when the flight began".to_owned());
    }
    let Some(place) = facts.platform_of(entry).and_then(|n| facts.platform(n)) else {
        return Ok(());
    };
    let same_session = |r: &&Running| r.session == entry.session;
    let running = place.running.as_ref().filter(same_session);
    if let Some(running) = running.filter(|r| r.slot == *slot) {
        if let Some(few) = rules.first_closes_left
            && comes_next(facts, entry, slot)
        {
            let left: usize = facts
                .entries_of(&running.session, &running.flight)
                .filter(|e| e.is_present() && e.takes_part(slot))
                .map(|e| {
                    let allowed = facts.attempts_allowed(e.key, slot);
                    let open = facts.next_attempt(e.key, slot);
                    open.map_or(0, |n| usize::from(allowed + 1 - n))
                })
                .sum();
            if left <= usize::try_from(few).unwrap_or(usize::MAX) {
                return late(format!("with {few} attempts left in the flight before"));
            }
        }
        return Ok(());
    }
    let Some(minutes) = rules.first_closes else {
        return Ok(());
    };
    if !comes_next(facts, entry, slot) {
        return Ok(());
    }
    // What is planned is the start of the first lift; a later one has a break.
    let first = facts.slots.first().is_some_and(|line| line.slot == *slot);
    let planned = running
        .and(place.break_until)
        .or_else(|| planned_start(facts, entry, context.at).filter(|_| first));
    match planned {
        Some(start)
            if !context.at.loose
                && !start.loose
                && start.since(context.at) < i64::from(minutes) * 60_000 =>
        {
            late(format!("{minutes} minutes before the start"))
        }
        _ => Ok(()),
    }
}

/// Whether the entry's flight is the next one of the session to begin the
/// slot on its platform: the first in order that hasn't.
fn comes_next(facts: &Facts, entry: &Entry, slot: &Slug) -> bool {
    let platform = facts.platform_of(entry);
    let mut to_come = facts.flights.iter().filter(|f| {
        let begun = (f.session.clone(), f.name.clone(), slot.clone());
        f.session == entry.session
            && Some(f.platform) == platform
            && !facts.begun.contains(&begun)
    });
    to_come.next().is_some_and(|f| f.name == entry.flight)
}

/// The planned start of the entry's session on the day, in the offset of
/// `like`.
fn planned_start(facts: &Facts, entry: &Entry, like: Stamp) -> Option<Stamp> {
    let start = facts.sessions.get(&entry.session)?.start?;
    Stamp::parse(&start.format("%H:%M").to_string(), facts.date, like.offset)
}

/// Refuses an opener that brings the openers' sum too far under the entry
/// total; judged once every slot has an opener.
///
/// Weightlifting's 20 kg rule (TCRR as published; variants are data).
pub(super) fn openers_sum(
    facts: &Facts,
    entry: &Entry,
    slot: &Slug,
    load: &Weight,
) -> Result<(), Refusal> {
    let allowance = match entry.sex {
        Some(Sex::F) => facts.rules.entry_total_f,
        Some(Sex::M) => facts.rules.entry_total_m,
        None => None,
    };
    let (Some(allowance), Some(total)) = (allowance, &entry.entry_total) else {
        return Ok(());
    };
    let least = allowance.least(total.mass);
    let mut sum = Mass::ZERO;
    for line in &facts.slots {
        if line.slot == *slot {
            sum = sum + load.mass;
        } else {
            let Some(other) = standing_request(facts, entry, &line.slot, 1) else {
                return Ok(());
            };
            sum = sum + other.load.mass;
        }
    }
    if sum >= least {
        return Ok(());
    }
    let unit = facts.bar_unit;
    Err(Refusal::OpenersTooLow {
        number: entry.number,
        sum: sum.show_with_unit(unit),
        least: least.show_with_unit(unit),
        entry_total: total.mass.show_with_unit(unit),
    })
}
