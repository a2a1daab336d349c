//! Acts and events in words.

use super::lift_name as named;
use crate::day::{
    Authority, ClockMove, Day, Event, Facts, Granted, Recorded, RuledFact, show_left,
};
use crate::lift::{Slug, catalogue};
use crate::measure::Weight;
use crate::roster::{EntryKey, Presence};

/// Whom an event is about.
pub fn entry_of(event: &Event) -> Option<EntryKey> {
    match event {
        Event::EntryAdded { entry, .. }
        | Event::EntryEdited { entry, .. }
        | Event::Placed { entry, .. }
        | Event::RollAnswered { entry, .. }
        | Event::Withdrawn { entry, .. }
        | Event::Disqualified { entry, .. }
        | Event::Weighed { entry, .. }
        | Event::Cleared { entry, .. }
        | Event::Capped { entry, .. }
        | Event::Requested { entry, .. }
        | Event::Called { entry, .. }
        | Event::CallWithdrawn { entry, .. }
        | Event::ExtraGranted { entry, .. }
        | Event::LoadFound { entry, .. }
        | Event::ChallengeLost { entry, .. }
        | Event::Reruled { entry, .. } => Some(*entry),
        Event::Ruled(fact) => Some(fact.entry),
        Event::Noted { entry, .. } => *entry,
        Event::Corrected { event, .. } => entry_of(event),
        Event::DayMade { .. }
        | Event::SettingChanged { .. }
        | Event::FlightMade { .. }
        | Event::Numbered { .. }
        | Event::RecordListed { .. }
        | Event::StationChecked { .. }
        | Event::SlotStarted { .. }
        | Event::BreakCalled { .. }
        | Event::Closed { .. }
        | Event::Reopened { .. }
        | Event::ClockMoved { .. }
        | Event::Annulled { .. }
        | Event::Undone { .. }
        | Event::Redone { .. } => None,
    }
}

/// An event in a few words, without a full stop.
///
/// Bodyweights and clearances are named as such and never told.
pub fn event(day: &Day, event: &Event) -> String {
    let facts = day.facts();
    let load = |w: &Weight| w.mass.show_with_unit(facts.bar_unit);
    let lot = |key: &EntryKey| lot(facts, *key);
    match event {
        Event::DayMade { name, .. } => format!("day made: {name}"),
        Event::SettingChanged { key, value } if key.eq_ignore_ascii_case("picture") => {
            if value.is_empty() {
                "the school's picture taken away".to_owned()
            } else {
                "the school's picture set".to_owned()
            }
        }
        Event::SettingChanged { key, value } => format!("setting {key} is {value}"),
        Event::FlightMade {
            session,
            flight,
            platform,
        } => {
            format!(
                "flight {session}/{flight} on {}",
                facts.platform_label(*platform)
            )
        }
        Event::EntryAdded { entry, .. } => format!("entry of {}", lot(entry)),
        Event::EntryEdited { entry, .. } => format!("details of {}", lot(entry)),
        Event::Placed {
            entry,
            session,
            flight,
        } => {
            format!("{} to flight {session}/{flight}", lot(entry))
        }
        Event::RollAnswered {
            entry,
            presence,
            back,
            ..
        } => {
            let word = match presence {
                _ if *back => "back",
                Presence::Absent => "absent",
                Presence::Away => "away",
                Presence::Here | Presence::Expected => "here",
            };
            format!("{} is {word}", lot(entry))
        }
        Event::Withdrawn { entry, slot, .. } => format!(
            "{} withdraws from {}",
            lot(entry),
            slot.as_ref()
                .map_or_else(|| "the day".to_owned(), lift_words)
        ),
        Event::Disqualified { entry, slot, .. } => format!(
            "{} is disqualified {}",
            lot(entry),
            slot.as_ref().map_or_else(
                || "on the day".to_owned(),
                |s| format!("in {}", lift_words(s))
            )
        ),
        Event::Numbered { .. } => "start numbers given".to_owned(),
        Event::RecordListed { record, mark } => {
            let stands = match mark {
                None => "struck from the book".to_owned(),
                Some(mark) => mark.load.as_ref().map_or("nobody's yet".to_owned(), load),
            };
            let lift = lift_words(&record.lift);
            format!("record in {lift}, {}: {stands}", record.label())
        }
        Event::Weighed { entry, .. } => format!("weigh-in of {}", lot(entry)),
        Event::Cleared { entry, .. } => format!("clearance of {}", lot(entry)),
        Event::Capped { entry, .. } => format!("cap of {}", lot(entry)),
        Event::StationChecked { platform, who } => {
            format!(
                "station check of {} signed by {who}",
                facts.platform_label(*platform)
            )
        }
        Event::SlotStarted {
            slot,
            session,
            flight,
            ..
        } => {
            format!(
                "start of {} for flight {session}/{flight}",
                lift_words(slot)
            )
        }
        Event::BreakCalled { minutes, .. } => format!("break of {minutes} minutes"),
        Event::Closed { session } => {
            format!("closed: {}", session_words(session.as_deref()))
        }
        Event::Reopened { session, reason } => {
            format!("reopened: {}; {reason}", session_words(session.as_deref()))
        }
        Event::Requested {
            entry,
            slot,
            attempt,
            load: asked,
            record,
            ..
        } => format!(
            "{} asks for {}{}, {} attempt {attempt}",
            lot(entry),
            load(asked),
            if *record { " for a record" } else { "" },
            lift_words(slot)
        ),
        Event::Called {
            entry,
            slot,
            attempt,
            load: announced,
            ..
        } => format!(
            "call of {}, {} attempt {attempt} at {}",
            lot(entry),
            lift_words(slot),
            load(announced)
        ),
        Event::CallWithdrawn { entry, .. } => {
            format!("call of {} taken back", lot(entry))
        }
        Event::ClockMoved { movement } => match movement {
            ClockMove::Stop => "clock stopped".to_owned(),
            ClockMove::Resume => "clock goes on".to_owned(),
            ClockMove::Set(ms) => format!("clock set to {}", show_left(*ms)),
        },
        Event::Ruled(fact) => ruled(facts, fact, &ruled_words(fact)),
        Event::ExtraGranted { entry, slot, .. } => {
            let lift = lift_words(slot);
            format!("one more attempt for {} in {lift}", lot(entry))
        }
        Event::LoadFound {
            entry,
            slot,
            attempt,
            loaded,
            granted,
            ..
        } => format!(
            "{} was on the bar for {}, {} attempt {attempt}: {}",
            load(loaded),
            lot(entry),
            lift_words(slot),
            match granted {
                Granted::Keep => "kept",
                Granted::Repeat | Granted::Again => "taken again",
            }
        ),
        Event::Reruled {
            entry,
            slot,
            attempt,
            ruling,
            authority,
            ..
        } => format!(
            "{} for {}, {} attempt {attempt}: {ruling}",
            match authority {
                Authority::Overrule => "overruled",
                Authority::Challenge => "challenge upheld",
            },
            lot(entry),
            lift_words(slot)
        ),
        Event::ChallengeLost {
            entry,
            slot,
            attempt,
            ruling,
            ..
        } => format!(
            "challenge lost for {}, {} attempt {attempt}: {ruling} stands",
            lot(entry),
            lift_words(slot)
        ),
        Event::Corrected { event: new, .. } => {
            format!("corrected to: {}", self::event(day, new))
        }
        Event::Annulled { act: target, .. } => format!("annulled: {}", act(day, *target)),
        Event::Undone { act: target, .. } => format!("undone: {}", act(day, *target)),
        Event::Redone { undo } => match day.recorded(*undo).map(|r| &r.event) {
            Some(Event::Undone { act: target, .. }) => {
                format!("brought back: {}", act(day, *target))
            }
            _ => "brought back".to_owned(),
        },
        Event::Noted { entry, text, .. } => match entry {
            Some(entry) => format!("note on {}: {text}", lot(entry)),
            None => format!("note: {text}"),
        },
    }
}

/// An entry by its table number and name.
pub(super) fn lot(facts: &Facts, key: EntryKey) -> String {
    facts.entries.get(&key).map_or_else(
        || "somebody".to_owned(),
        |e| format!("lot {}, {}", e.number, e.name()),
    )
}

fn session_words(session: Option<&str>) -> String {
    session.map_or_else(|| "the day".to_owned(), |s| format!("session {s}"))
}

/// The slot of an attempt, and the variant where another one was caught than
/// was entered.
fn lift_of(facts: &Facts, fact: &RuledFact) -> String {
    let entry = facts.entries.get(&fact.entry);
    let entered = entry.and_then(|e| e.variant(&fact.slot));
    let slot = lift_words(&fact.slot);
    match entered {
        Some(entered) if *entered != fact.lift => {
            format!("{slot} as {}", lift_words(&fact.lift))
        }
        _ => slot,
    }
}

/// Whose attempt, at which load, and what it was ruled in `words`.
pub(super) fn ruled(facts: &Facts, fact: &RuledFact, words: &str) -> String {
    let load = fact.credited.as_ref();
    let load = load.map(|w| format!(" at {}", w.mass.show_with_unit(facts.bar_unit)));
    format!(
        "{}, {} attempt {}{}: {words}",
        lot(facts, fact.entry),
        lift_of(facts, fact),
        fact.attempt,
        load.unwrap_or_default()
    )
}

/// The ruling, and of how many repetitions.
pub(super) fn ruling_of(fact: &RuledFact) -> String {
    let ruling = match &fact.ruling {
        crate::day::Ruling::Good => "good lift".to_owned(),
        crate::day::Ruling::No => "no lift".to_owned(),
        other => other.to_string(),
    };
    if fact.reps > 1 {
        format!("{ruling} of {} repetitions", fact.reps)
    } else {
        ruling
    }
}

fn ruled_words(fact: &RuledFact) -> String {
    let ruling = ruling_of(fact);
    let mut faults: Vec<String> =
        fact.faults.iter().map(|f| fault_words(&f.code)).collect();
    faults.dedup();
    if faults.is_empty() {
        ruling
    } else {
        format!("{ruling}, {}", faults.join(", "))
    }
}

/// An act in a few words: its first event, and how many more there are.
pub fn act(day: &Day, act: u64) -> String {
    act_as(day, act, event)
}

/// The same with its first event told by `tell`.
pub(super) fn act_as(day: &Day, act: u64, tell: fn(&Day, &Event) -> String) -> String {
    let events: Vec<&Recorded> = day.act(act).collect();
    // A call and its ruling in one act are told by the ruling.
    let first = events
        .iter()
        .find(|r| matches!(r.event, Event::Ruled(_)))
        .or(events.first());
    let Some(first) = first else {
        return "an act".to_owned();
    };
    let words = tell(day, &first.event);
    let rest = events
        .iter()
        .filter(|r| !matches!(r.event, Event::FlightMade { .. } | Event::Called { .. }))
        .count();
    if rest > 1 {
        format!("{words}, and {} more", rest - 1)
    } else {
        words
    }
}

/// A lift's name for people; a slug that the catalogue lacks without its hyphens.
pub(super) fn lift_words(slug: &Slug) -> String {
    let name = named(slug);
    if name == slug.as_str() {
        return name.replace('-', " ");
    }
    name
}

/// A fault in the table's words.
pub(super) fn fault_words(code: &str) -> String {
    catalogue()
        .fault(code)
        .map_or_else(|| code.replace('-', " "), |f| f.text.clone())
}
