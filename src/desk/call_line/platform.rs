//! Shorthand about a platform: start, break, clock, check, call, and the
//! reason of the last no lift.

use super::read::Line;
use super::{Meaning, by_key, faults, owed};
use crate::day::{ClockMove, Command, Which};
use crate::desk::see;

impl Line<'_> {
    pub(super) fn start(&self, rest: &[&str]) -> Result<Meaning, String> {
        let programme = || {
            let slots: Vec<&str> =
                self.facts.slots.iter().map(|l| l.slot.as_str()).collect();
            slots.join(", ")
        };
        let Some((lift, flight)) = rest.split_first() else {
            return Err(format!("Write which lift starts: {}.", programme()));
        };
        let Some((line, _)) = self.facts.slot_of(&lift.to_lowercase()) else {
            return Err(format!(
                "“{lift}” is not on this day's programme; there is {}.",
                programme()
            ));
        };
        let flight = flight.join(" ");
        let (session, flight) = match flight.split_once('/') {
            Some((session, flight)) => {
                (Some(session.to_owned()), Some(flight.to_owned()))
            }
            None if flight.is_empty() => (None, None),
            None => (None, Some(flight)),
        };
        let here = self.facts.flights.iter().any(|f| {
            f.platform == self.platform
                && flight.as_ref().is_none_or(|name| f.name == *name)
        });
        Ok(self.done(Command::Start {
            platform: here.then_some(self.platform),
            lift: line.slot.clone(),
            session,
            flight,
        }))
    }

    pub(super) fn pause(&self, rest: &[&str]) -> Result<Meaning, String> {
        let minutes = match rest.first() {
            None => None,
            Some(word) => Some(word.parse::<u32>().map_err(|_| {
                format!("“{word}” is no number of minutes; write break 10.")
            })?),
        };
        Ok(self.done(Command::Break {
            platform: Some(self.platform),
            minutes,
        }))
    }

    pub(super) fn clock(&self, rest: &[&str]) -> Result<Meaning, String> {
        let movement = match rest {
            ["stop" | "halt"] => ClockMove::Stop,
            ["go" | "resume" | "start"] => ClockMove::Resume,
            [time] => ClockMove::Set(clock_time(time)?),
            _ => return Err("Write clock stop, clock go, or clock 0:42.".to_owned()),
        };
        Ok(self.done(Command::Clock {
            platform: Some(self.platform),
            movement,
        }))
    }

    pub(super) fn check(&self, rest: &[&str]) -> Result<Meaning, String> {
        if rest.is_empty() {
            return Err(format!(
                "Write who signs the station check of {}: check NAME. Collars, safety arms, \
                 floor clear, spotters named.",
                self.facts.platform_label(self.platform)
            ));
        }
        Ok(self.done(Command::Check {
            platform: Some(self.platform),
            who: rest.join(" "),
        }))
    }

    /// Closes a session, or the day.
    pub(super) fn close(&self, rest: &[&str]) -> Result<Meaning, String> {
        let session = rest.join(" ");
        if !session.is_empty() && !self.facts.sessions.contains_key(&session) {
            let there: Vec<&str> =
                self.facts.sessions.keys().map(String::as_str).collect();
            return Err(format!(
                "There is no session {session}; there is {}. close alone closes the day.",
                there.join(", ")
            ));
        }
        Ok(self.done(Command::Close {
            session: Some(session).filter(|s| !s.is_empty()),
        }))
    }

    /// Names the reason of the last no lift afterwards.
    pub(super) fn fault(&self, rest: &[&str]) -> Result<Meaning, String> {
        let Some((entry, slot, attempt, ruled)) =
            see::last_ruled(self.facts, self.platform)
        else {
            return Err(format!(
                "No attempt was ruled on {} yet.",
                self.facts.platform_label(self.platform)
            ));
        };
        let lift = Some(ruled.fact.lift.clone());
        if rest.is_empty() {
            let list = faults::list(lift.as_ref());
            return Err(format!("Write the reason: {list}."));
        }
        let outcome = self.with_faults(by_key::given_again(ruled), rest, lift)?;
        Ok(self.done(by_key::corrected((entry, slot, attempt), outcome)))
    }

    pub(super) fn note(
        &self,
        number: Option<u16>,
        rest: &[&str],
    ) -> Result<Meaning, String> {
        if rest.is_empty() {
            return Err("Write the remark after note.".to_owned());
        }
        Ok(self.done(Command::Note {
            number,
            act: None,
            text: rest.join(" "),
            platform: Some(self.platform),
        }))
    }

    pub(super) fn call(&self, rest: &[&str]) -> Result<Meaning, String> {
        let Some((number, rest)) = rest.split_first() else {
            return Ok(self.done(Command::Call {
                which: Which::default(),
                load: None,
                platform: Some(self.platform),
            }));
        };
        let entry = self.entry(number)?;
        Ok(self.done(Command::Call {
            which: Which {
                number: Some(entry.number),
                ..Which::default()
            },
            load: self.load(rest).map(|(w, _)| w),
            platform: Some(self.platform_of(entry)),
        }))
    }

    pub(super) fn who(&self, rest: &[&str]) -> Result<Meaning, String> {
        let Some(number) = rest.first() else {
            return Err("Write the number after who: who 12.".to_owned());
        };
        Ok(Meaning::Know(owed::who(self.facts, self.entry(number)?)))
    }
}

/// `0:42`, `1:30` or `42` as milliseconds.
fn clock_time(text: &str) -> Result<i64, String> {
    let wrong = || format!("“{text}” is no clock time; write clock 0:42.");
    let (minutes, seconds) = text.split_once(':').unwrap_or(("0", text));
    let minutes: u16 = minutes.parse().map_err(|_| wrong())?;
    let seconds: u16 = seconds.parse().map_err(|_| wrong())?;
    if seconds > 59 && text.contains(':') {
        return Err(wrong());
    }
    Ok((i64::from(minutes) * 60 + i64::from(seconds)) * 1000)
}
