//! What the table owes, and what it would do next.

use super::by_key::{ReasonFor, reasons_by_key};
use super::say::say;
use super::{Meaning, faults, hand_in};
use crate::day::{
    Call, Command, Facts, LoadAsked, Origin, Ruling, Source, Stamp, Which, limits, queue,
    standing_request,
};
use crate::desk::see;
use crate::lift::Slug;
use crate::measure::{Mass, Unit, Weight};
use crate::roster::Entry;
use crate::rules::Gate;

/// A named athlete whose request is owed on a platform.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// Table number.
    pub number: u16,
    /// The slot.
    pub slot: Slug,
    /// For which attempt.
    pub attempt: u8,
    /// Where the athlete lifts.
    pub platform: u8,
}

impl Asked {
    /// The request of a load, as a command; perhaps for a record.
    pub fn request(&self, load: Weight, record: bool) -> Command {
        Command::Request {
            which: Which {
                number: Some(self.number),
                lift: Some(self.slot.clone()),
                attempt: Some(self.attempt),
            },
            load: LoadAsked::Exactly(load),
            record,
            platform: Some(self.platform),
        }
    }

    /// The request of a rise over the last load, as a command.
    pub fn rise(&self, rise: Mass, record: bool) -> Command {
        let mut command = self.request(Weight::computed(rise, Unit::Kg), record);
        if let Command::Request { load, .. } = &mut command {
            *load = LoadAsked::Relative(rise);
        }
        command
    }

    /// What is left to declare as it is filled in, if anything is.
    fn filled_in(&self, facts: &Facts) -> Option<Weight> {
        let entry = facts.entry_by_number(self.number)?;
        let stands = standing_request(facts, entry, &self.slot, self.attempt)?;
        (stands.origin == Origin::Automatic).then_some(stands.load)
    }
}

/// Whose request is owed on a platform now: the athlete called, else who was
/// ruled last, else the first in the queue without a load.
pub fn asked(facts: &Facts, platform: u8) -> Option<Asked> {
    let place = facts.platform(platform)?;
    let of = |entry: &Entry, slot: &Slug, attempt: u8| Asked {
        number: entry.number,
        slot: slot.clone(),
        attempt,
        platform,
    };
    if let Some(call) = &place.call {
        let entry = facts.entries.get(&call.entry)?;
        if facts.rules.declare
            && facts.rules.change_called
            && limits(facts, entry, &call.slot, call.attempt).declaration_owed
        {
            return Some(of(entry, &call.slot, call.attempt));
        }
    }
    if let Some((entry, slot, attempt)) = owes_next(facts, platform) {
        return Some(of(entry, &slot, attempt));
    }
    let first = queue(facts, platform)
        .into_iter()
        .find(|q| q.load.is_none() && !q.called)?;
    Some(of(
        facts.entries.get(&first.entry)?,
        &first.slot,
        first.attempt,
    ))
}

/// The athlete ruled last, if the next attempt is still to be asked for.
pub(super) fn owes_next(facts: &Facts, platform: u8) -> Option<(&Entry, Slug, u8)> {
    let (entry, slot, _, _) = see::last_ruled(facts, platform)?;
    let running = facts.platform(platform)?.running.as_ref()?;
    if running.slot != slot || !entry.is_present() || !entry.takes_part(&slot) {
        return None;
    }
    let next = facts.next_attempt(entry.key, &slot)?;
    let owes = limits(facts, entry, &slot, next).declaration_owed;
    let stands = standing_request(facts, entry, &slot, next).is_some();
    (owes && (facts.rules.declare || !stands)).then_some((entry, slot, next))
}

/// What the table owes on a platform, most urgent first.
pub fn owed(facts: &Facts, platform: u8, now: Stamp) -> Vec<String> {
    let mut list = Vec::new();
    if let Some(call) = facts.platform(platform).and_then(|p| p.call.as_ref()) {
        list.extend(of_call(facts, call, now));
    }
    if let Some((entry, slot, next)) = owes_next(facts, platform)
        && let Some(limit) = hand_in::limit(facts, entry, &slot, next, now)
    {
        let stands = standing_request(facts, entry, &slot, next)
            .map(|s| format!(" {} stands until then.", see::load(facts, s.load.mass)));
        list.push(format!(
            "Lot {} owes the request for attempt {next}{limit}: type the load.{}",
            entry.number,
            stands.unwrap_or_default()
        ));
    }
    list.extend(hand_in::others(facts, platform, now));
    if let Some(until) = facts.platform(platform).and_then(|p| p.break_until)
        && until.since(now) > 0
    {
        let left = crate::day::show_left(until.since(now));
        list.push(format!("Break until {}; {left} left.", until.clock_time()));
    }
    let place = facts.platform(platform);
    if place.is_some_and(|p| p.checked.is_none())
        && facts.rules.station_check != Gate::Off
    {
        list.push(format!(
            "The station check of {} is not signed: type check and a name.",
            facts.platform_label(platform)
        ));
    }
    list.extend(loads_owed(facts, platform));
    list.extend(reasons(facts, platform));
    list
}

/// What can still be changed for the athlete called, and until when.
fn of_call(facts: &Facts, call: &Call, now: Stamp) -> Option<String> {
    let entry = facts.entries.get(&call.entry)?;
    if !facts.rules.change_called {
        return None;
    }
    let limits = limits(facts, entry, &call.slot, call.attempt);
    let standing = standing_request(facts, entry, &call.slot, call.attempt)?;
    let load = see::load(facts, standing.load.mass);
    let clock = call.clock?;
    let left = clock.left_at(now);
    let declaring = limits.declaration_owed && facts.rules.declare;
    let final_call = i64::from(facts.rules.final_call.unwrap_or(0)) * 1000;
    let mut closes = left - final_call;
    if let Some(first) = facts.rules.declare_within
        && call.following
        && declaring
    {
        closes = closes.min(i64::from(first) * 1000 - (clock.allowance - left));
    }
    if left <= 0 {
        return Some(
            "The time is up: type time, unless the bar was lifted in time.".to_owned(),
        );
    }
    if closes <= 0 {
        return Some(format!("{load} stands; changes are closed."));
    }
    let seconds = (closes + 999) / 1000;
    let when = if clock.runs() {
        format!("closes in {seconds} s")
    } else {
        format!("the clock stands, {seconds} s before it closes")
    };
    if declaring {
        return Some(format!(
            "Lot {} has not declared: {load} stands; {when}.",
            entry.number
        ));
    }
    let how = match standing.origin {
        Origin::Opener => "is the opener",
        Origin::Automatic => "stands",
        Origin::Declared => "declared",
    };
    Some(match limits.changes_left {
        None => return None,
        Some(0) => format!("{load} {how}; no change left."),
        Some(1) => format!("{load} {how}; 1 change left; {when}."),
        Some(n) => format!("{load} {how}; {n} changes left; {when}."),
    })
}

fn loads_owed(facts: &Facts, platform: u8) -> Option<String> {
    let last = owes_next(facts, platform).map(|(e, _, _)| e.number);
    let list: Vec<_> = queue(facts, platform)
        .into_iter()
        .filter(|q| q.load.is_none() && Some(q.number) != last)
        .collect();
    let what = if list.iter().all(|q| q.attempt == 1) {
        "opener"
    } else {
        "request"
    };
    let numbers: Vec<String> =
        list.iter().take(6).map(|q| q.number.to_string()).collect();
    let more = list.len().saturating_sub(6);
    let more = if more > 0 {
        format!(" and {more} more")
    } else {
        String::new()
    };
    match list.len() {
        0 => None,
        1 => Some(format!("Lot {} owes the {what}.", numbers.join(", "))),
        _ => Some(
            format!("{what}s owed by lots {}{more}.", numbers.join(", ")).replacen(
                what,
                &capital(what),
                1,
            ),
        ),
    }
}

fn capital(word: &str) -> String {
    let mut chars = word.chars();
    chars
        .next()
        .map(|c| c.to_uppercase().chain(chars).collect())
        .unwrap_or_default()
}

fn reasons(facts: &Facts, platform: u8) -> Option<String> {
    let (entry, _, attempt, ruled) = see::last_ruled(facts, platform)?;
    let fact = &ruled.fact;
    let missing = fact.ruling == Ruling::No
        && fact.faults.is_empty()
        && matches!(fact.source, Source::Lights);
    missing.then(|| {
        let named = reasons_by_key(facts, platform).map(|(what, _)| what);
        let how = if !matches!(named, Some(ReasonFor::Given(_))) {
            "type fault and its word"
        } else if faults::has_cards(&fact.lift) {
            "Alt and its number, its word, or fault and its card (1 red, 2 blue, 3 yellow)"
        } else {
            "Alt and its number, or its word"
        };
        format!(
            "The reason for the no lift of lot {}, attempt {attempt}, is missing: {how}.",
            entry.number
        )
    })
}

/// What an empty line with Enter does: declare what is filled in for the athlete
/// ruled last, start the next lift, or call the next athlete.
///
/// Nothing while somebody is called: lights are never given by an empty line.
pub fn suggestion(facts: &Facts, platform: u8) -> Option<Meaning> {
    let place = facts.platform(platform)?;
    if place.call.is_some() || facts.closed {
        return None;
    }
    if owes_next(facts, platform).is_some()
        && let Some(asked) = asked(facts, platform)
        && let Some(load) = asked.filled_in(facts)
    {
        let command = asked.request(load, false);
        return Some(Meaning::Do {
            sentence: say(facts, platform, &command),
            command: Box::new(command),
        });
    }
    let order = queue(facts, platform);
    let command = match order.first() {
        Some(first) => {
            let _ = first.load.as_ref()?;
            Command::Call {
                which: Which::default(),
                load: None,
                platform: Some(platform),
            }
        }
        None => next_start(facts, platform)?,
    };
    Some(Meaning::Do {
        sentence: say(facts, platform, &command),
        command: Box::new(command),
    })
}

/// The next slot of a flight on a platform in which attempts are open.
fn next_start(facts: &Facts, platform: u8) -> Option<Command> {
    let running = facts.platform(platform)?.running.as_ref();
    for (name, session) in &facts.sessions {
        if session.closed {
            continue;
        }
        for line in &facts.slots {
            let flight = facts.flights.iter().find(|f| {
                let runs = running.is_some_and(|r| {
                    r.session == f.session && r.flight == f.name && r.slot == line.slot
                });
                let open = facts.entries_of(&f.session, &f.name).any(|e| {
                    e.is_present()
                        && e.takes_part(&line.slot)
                        && facts.next_attempt(e.key, &line.slot).is_some()
                });
                f.platform == platform && f.session == *name && !runs && open
            });
            if let Some(flight) = flight {
                return Some(Command::Start {
                    platform: Some(platform),
                    lift: line.slot.clone(),
                    session: Some(flight.session.clone()),
                    flight: Some(flight.name.clone()),
                });
            }
        }
    }
    None
}

/// What could be typed where an empty line does nothing.
pub(super) fn hint(facts: &Facts, platform: u8) -> String {
    let label = facts.platform_label(platform);
    let Some(place) = facts.platform(platform) else {
        return format!("There is no {label}.");
    };
    if let Some(call) = &place.call {
        let lot = facts.entries.get(&call.entry).map_or(0, |e| e.number);
        let letters = "wwr".chars().take(usize::from(facts.rules.judges));
        let letters: String = letters.collect();
        if !facts.rules.change_called {
            return format!(
                "Lot {lot} is called: type the lights, such as {letters}; or pass."
            );
        }
        return format!(
            "Lot {lot} is called: type the lights, such as {letters}; pass; or a new load."
        );
    }
    if facts.closed {
        return "The day is closed; reopen it on the Day screen.".to_owned();
    }
    if let Some(asked) = asked(facts, platform) {
        return format!(
            "Lot {} owes the request for attempt {}: type the load.",
            asked.number, asked.attempt
        );
    }
    if facts.entries.is_empty() {
        return "Nobody is entered yet; enter athletes or import a file on the Roster \
                screen (F3)."
            .to_owned();
    }
    if facts.flights.iter().all(|f| f.platform != platform) {
        return format!(
            "No flight is on {label}; make flights on the Flights screen (F5)."
        );
    }
    format!("All attempts on {label} are done.")
}

/// Who somebody is, in one line: no bodyweight, no health detail.
pub(super) fn who(facts: &Facts, entry: &Entry) -> String {
    let mut parts = vec![format!("Lot {}: {}", entry.number, entry.name())];
    if !entry.team.is_empty() {
        parts.push(entry.team.clone());
    }
    if !entry.flight.is_empty() {
        let label = facts
            .platform_of(entry)
            .map(|p| format!(" on {}", facts.platform_label(p)))
            .unwrap_or_default();
        parts.push(format!("flight {}/{}{label}", entry.session, entry.flight));
    }
    for line in &facts.slots {
        if !entry.takes_part(&line.slot) {
            continue;
        }
        let Some(attempt) = facts.next_attempt(entry.key, &line.slot) else {
            parts.push(format!("{} done", line.slot));
            continue;
        };
        let load = standing_request(facts, entry, &line.slot, attempt).map(|s| s.load);
        parts.push(format!(
            "{} attempt {attempt}: {}",
            line.slot,
            see::maybe(facts, load.as_ref())
        ));
    }
    if entry.withdrawn {
        parts.push("withdrawn".to_owned());
    } else if !entry.is_present() {
        let away = entry.presence == crate::roster::Presence::Away;
        parts.push(if away { "away" } else { "absent" }.to_owned());
    }
    if entry.guest {
        parts.push("guest".to_owned());
    }
    if entry.disqualified {
        parts.push("disqualified".to_owned());
    }
    for slot in &entry.disqualified_slots {
        parts.push(format!("disqualified in {slot}"));
    }
    let blocked = facts.slots.iter().any(|l| {
        matches!(
            facts.clearance(entry, &l.slot),
            Some(crate::roster::Clearance::No)
        )
    });
    if blocked {
        parts.push("not cleared".to_owned());
    }
    format!("{}.", parts.join("; "))
}
