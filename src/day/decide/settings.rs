//! Settings, closing and reopening, notes.

use super::{Decided, resolve};
use crate::day::event::Event;
use crate::day::facts::{Call, Facts};
use crate::day::{Day, Refusal, settings};

pub(super) fn set(
    facts: &Facts,
    values: &[(String, String)],
) -> Result<Decided, Refusal> {
    let mut trial = facts.clone();
    let mut events = Vec::new();
    for (key, value) in values {
        settings::set(&mut trial, key, value).map_err(Refusal::Setting)?;
        events.push(Event::SettingChanged {
            key: key.trim().to_owned(),
            value: value.trim().to_owned(),
        });
    }
    if events.is_empty() {
        return Err(Refusal::Setting(
            "Nothing is set; write key=value.".to_owned(),
        ));
    }
    Ok(Decided::new(None, events))
}

fn session_exists(facts: &Facts, session: &str) -> Result<bool, Refusal> {
    match facts.sessions.get(session) {
        Some(session) => Ok(session.closed),
        None => {
            let list: Vec<&str> = facts.sessions.keys().map(String::as_str).collect();
            Err(Refusal::NoSuchSession {
                session: session.to_owned(),
                allowed: list.join(", "),
            })
        }
    }
}

fn what(session: Option<&str>) -> String {
    match session {
        Some(session) => format!("Session {session}"),
        None => "The day".to_owned(),
    }
}

pub(super) fn close(facts: &Facts, session: Option<&str>) -> Result<Decided, Refusal> {
    let closed = match session {
        Some(name) => session_exists(facts, name)?,
        None => facts.closed,
    };
    if closed {
        return Err(Refusal::IsClosed {
            what: what(session),
        });
    }
    for (place, number) in facts.platforms.iter().zip(1_u8..) {
        let here = |call: &&Call| {
            let who = facts.entries.get(&call.entry);
            session.is_none_or(|s| who.is_some_and(|e| e.session == s))
        };
        if let Some(call) = place.call.as_ref().filter(here) {
            return Err(super::platform::somebody_called(facts, number, call));
        }
    }
    Decided::one(
        None,
        Event::Closed {
            session: session.map(str::to_owned),
        },
    )
}

pub(super) fn reopen(
    facts: &Facts,
    session: Option<&str>,
    reason: &str,
) -> Result<Decided, Refusal> {
    let closed = match session {
        Some(name) => session_exists(facts, name)?,
        None => facts.closed,
    };
    if !closed {
        return Err(Refusal::NotClosed {
            what: what(session),
        });
    }
    if reason.trim().is_empty() {
        return Err(Refusal::ReasonNeeded);
    }
    Decided::one(
        None,
        Event::Reopened {
            session: session.map(str::to_owned),
            reason: reason.trim().to_owned(),
        },
    )
}

pub(super) fn note(
    day: &Day,
    number: Option<u16>,
    act: Option<u64>,
    text: &str,
    platform: Option<u8>,
) -> Result<Decided, Refusal> {
    let facts = day.facts();
    let entry = match number {
        Some(number) => Some(resolve::entry(facts, number)?.key),
        None => None,
    };
    if let Some(act) = act
        && day.recorded(act).is_none()
    {
        return Err(Refusal::NoSuchAct(act.to_string()));
    }
    if text.trim().is_empty() {
        return Err(Refusal::ReasonNeeded);
    }
    let platform = match platform {
        Some(platform) => Some(resolve::existing(facts, platform)?),
        None => None,
    };
    Decided::one(
        platform,
        Event::Noted {
            entry,
            act,
            text: text.trim().to_owned(),
        },
    )
}
