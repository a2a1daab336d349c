//! What command a row is.

use super::ActRow;
use super::outcome::{parse_outcome, with_more};
use super::pairs::{pairs, split_id};
use super::words::{
    act, athlete, attempt, entry, lift, load, needed_lift, number, place, relative, unit,
};
use crate::day::{
    Authority, ClockMove, Command, CorrectionOf, Day, Facts, Granted, Line, LoadAsked,
    Roll, StopFor, Which,
};
use crate::exchange::platform;
use crate::roster::{Change, Column};

/// The command of a row.
///
/// # Errors
/// A sentence that says what would be right; what the day itself refuses is
/// left to [`crate::day::decide`].
pub fn command(day: &Day, row: &ActRow) -> Result<Command, String> {
    let facts = day.facts();
    let word = row.act.trim().to_lowercase();
    let detail = row.detail.trim();
    Ok(match word.as_str() {
        "add" => Command::Add(vec![entry(facts, row)?]),
        "edit" => Command::Edit {
            number: athlete(row)?,
            changes: edits(facts, detail)?,
        },
        "place" => Command::Place(vec![(athlete(row)?, place(facts, row)?)]),
        "here" | "absent" | "away" | "back" => Command::Roll {
            number: athlete(row)?,
            roll: match word.as_str() {
                "here" => Roll::Here,
                "absent" => Roll::Absent,
                "away" => Roll::Away,
                _ => Roll::Back,
            },
            reason: detail.to_owned(),
        },
        "withdraw" => Command::Withdraw {
            number: athlete(row)?,
            lift: lift(facts, &row.lift)?,
            reason: detail.to_owned(),
        },
        "disqualify" => Command::Disqualify {
            number: athlete(row)?,
            lift: lift(facts, &row.lift)?,
            reason: detail.to_owned(),
        },
        "number" => Command::Number {
            given: given_numbers(detail)?,
        },
        "weigh" => Command::Weigh {
            number: athlete(row)?,
            bodyweight: facts
                .reading()
                .bodyweight(row.load.trim(), None)
                .map_err(|e| format!("{e}."))?,
        },
        "clear" | "cap" => gate(facts, row, word == "clear")?,
        "set" => Command::Set(pairs(detail)?),
        "record" => super::book::command(facts, row)?,
        "check" => Command::Check {
            platform: on(facts, row)?,
            who: if detail.is_empty() {
                row.by.trim().to_owned()
            } else {
                detail.to_owned()
            },
        },
        "start" => start(facts, row)?,
        "break" => Command::Break {
            platform: on(facts, row)?,
            minutes: minutes(detail)?,
        },
        "close" => Command::Close {
            session: (!detail.is_empty()).then(|| detail.to_owned()),
        },
        "reopen" => reopen(facts, detail)?,
        "correct" => correct(day, row)?,
        "annul" => {
            let (id, reason) = split_id(detail);
            Command::Annul {
                act: act(day, &id)?,
                reason: reason.to_owned(),
            }
        }
        "undo" => Command::Undo(line(facts, row)?),
        "redo" => Command::Redo(line(facts, row)?),
        "note" => note(day, row)?,
        _ => return attempt_act(facts, row, &word),
    })
}

/// Acts about an attempt or the platform's clock.
fn attempt_act(facts: &Facts, row: &ActRow, word: &str) -> Result<Command, String> {
    let detail = row.detail.trim();
    Ok(match word {
        "request" => Command::Request {
            which: which(facts, row)?,
            load: asked(facts, row)?,
            record: is_record(detail),
            platform: on(facts, row)?,
        },
        "call" => Command::Call {
            which: which(facts, row)?,
            load: load(facts, &row.load)?,
            platform: on(facts, row)?,
        },
        "clock" => Command::Clock {
            platform: on(facts, row)?,
            movement: clock(detail)?,
        },
        "lights" => Command::Lights {
            which: which(facts, row)?,
            load: load(facts, &row.load)?,
            outcome: parse_outcome(detail)?,
            platform: on(facts, row)?,
        },
        "tally" => Command::Tally {
            which: which(facts, row)?,
            load: load(facts, &row.load)?,
            outcome: parse_outcome(detail)?,
            platform: on(facts, row)?,
        },
        "pass" => Command::Pass {
            which: which(facts, row)?,
            rest: one_of(detail, &[("", false), ("rest", true)], "blank, rest")?,
            platform: on(facts, row)?,
        },
        "stop" => {
            let (what, reason) = detail.split_once(';').unwrap_or((detail, ""));
            Command::Stop {
                which: which(facts, row)?,
                stop: one_of(
                    what,
                    &[
                        ("technique", StopFor::Technique),
                        ("pain", StopFor::Pain),
                        ("director", StopFor::Director),
                    ],
                    "technique, pain, director; a remark may stand behind a semicolon",
                )?,
                reason: reason.trim().to_owned(),
                platform: on(facts, row)?,
            }
        }
        "extra" => Command::Extra {
            which: which(facts, row)?,
            reason: detail.to_owned(),
            platform: on(facts, row)?,
        },
        "loaded" => Command::Loaded {
            which: which(facts, row)?,
            load: load(facts, &row.load)?
                .ok_or("Say in load what was really on the bar.".to_owned())?,
            granted: one_of(
                detail,
                &[
                    ("keep", Granted::Keep),
                    ("repeat", Granted::Repeat),
                    ("again", Granted::Again),
                ],
                "keep, repeat, again",
            )?,
            platform: on(facts, row)?,
        },
        "overrule" | "challenge" => {
            let (outcome, reason) = detail.split_once(':').unwrap_or((detail, ""));
            Command::Rerule {
                which: which(facts, row)?,
                outcome: parse_outcome(outcome)?,
                authority: if word == "overrule" {
                    Authority::Overrule
                } else {
                    Authority::Challenge
                },
                reason: reason.trim().to_owned(),
            }
        }
        "" => return Err(format!("The act is blank; {}.", there_is())),
        other => return Err(format!("“{other}” is no act; {}.", there_is())),
    })
}

fn there_is() -> String {
    format!("there is {}", super::WORDS.join(", "))
}

fn one_of<T: Copy>(text: &str, words: &[(&str, T)], allowed: &str) -> Result<T, String> {
    let text = text.trim();
    words
        .iter()
        .find(|(word, _)| text.eq_ignore_ascii_case(word))
        .map(|(_, value)| *value)
        .ok_or_else(|| format!("“{text}” can't stand in detail here; write {allowed}."))
}

fn on(facts: &Facts, row: &ActRow) -> Result<Option<u8>, String> {
    let text = row.platform.trim();
    if text.is_empty() {
        return Ok(None);
    }
    platform(facts, text).map(Some)
}

fn which(facts: &Facts, row: &ActRow) -> Result<Which, String> {
    Ok(Which {
        number: number(row)?,
        lift: lift(facts, &row.lift)?,
        attempt: attempt(row)?,
    })
}

fn asked(facts: &Facts, row: &ActRow) -> Result<LoadAsked, String> {
    let detail = row.detail.trim();
    let detail = detail.strip_suffix("record").unwrap_or(detail).trim();
    let text = match (row.load.trim(), detail) {
        ("", text) => text,
        (text, _) => text,
    };
    if let Some(rise) = relative(facts, text)? {
        return Ok(LoadAsked::Relative(rise));
    }
    load(facts, text)?.map(LoadAsked::Exactly).ok_or_else(|| {
        "Say the load, such as 85, or a rise over what stands, such as +5.".to_owned()
    })
}

/// Whether a request is made for a record.
fn is_record(detail: &str) -> bool {
    detail.split_whitespace().next_back() == Some("record")
}

/// `12=1; 5=2`: old and new numbers.
fn given_numbers(detail: &str) -> Result<Vec<(u16, u16)>, String> {
    pairs(detail)?
        .into_iter()
        .map(|(old, new)| {
            let number = |text: &str| {
                let n = text.trim().parse().ok().filter(|n| (1..=9_999).contains(n));
                n.ok_or_else(|| {
                    format!("“{text}” is no table number; write 1 to 9999, such as 12=1.")
                })
            };
            Ok((number(&old)?, number(&new)?))
        })
        .collect()
}

fn edits(facts: &Facts, detail: &str) -> Result<Vec<Change>, String> {
    let pairs = pairs(detail)?;
    let reading = facts.reading();
    let mut columns = Vec::new();
    for (key, value) in &pairs {
        columns.push((super::words::column(facts, key)?, key, value));
    }
    let unit = columns
        .iter()
        .find(|(column, ..)| *column == Column::Unit)
        .map(|(_, _, value)| unit(value))
        .transpose()?;
    let mut changes = Vec::new();
    for (column, key, value) in &columns {
        if matches!(column, Column::Session | Column::Platform | Column::Flight) {
            return Err(format!("“{key}” is changed by the act place, not by edit."));
        }
        let read = reading.read(column, value, unit);
        changes.extend(read.map_err(|e| format!("{key}: {e}."))?);
    }
    Ok(changes)
}

/// `clear` and `cap`.
fn gate(facts: &Facts, row: &ActRow, clears: bool) -> Result<Command, String> {
    let detail = row.detail.trim();
    let (word, rest) = match (clears, detail.split_once(';')) {
        (true, Some((word, rest))) => (word.trim(), rest),
        (true, None) => (detail, ""),
        (false, _) => ("", detail),
    };
    let (mut who, mut why, mut until) = (String::new(), String::new(), None);
    for (key, value) in pairs(rest)? {
        match key.to_lowercase().as_str() {
            "who" => who = value,
            "why" => why = value,
            "until" if clears => {
                until =
                    Some(crate::roster::last_day(&value).map_err(|e| format!("{e}."))?);
            }
            _ => return Err(format!("“{key}” can't stand here; write who=…; why=….")),
        }
    }
    let (number, lift) = (athlete(row)?, lift(facts, &row.lift)?);
    Ok(if clears {
        let (clearance, last) = facts
            .reading()
            .clearance_word(word)
            .map_err(|e| format!("{e}."))?;
        Command::Clear {
            number,
            lift,
            clearance,
            until: until.or(last),
            who,
            why,
        }
    } else {
        Command::Cap {
            number,
            lift,
            load: load(facts, &row.load)?,
            who,
            why,
        }
    })
}

fn start(facts: &Facts, row: &ActRow) -> Result<Command, String> {
    let detail = row.detail.trim();
    // A known flight first, since names may have a slash.
    let known = facts
        .flights
        .iter()
        .find(|f| format!("{}/{}", f.session, f.name) == detail);
    let bare = facts.flights.iter().any(|f| f.name == detail);
    let (session, flight) = match (known, detail.split_once('/')) {
        (Some(f), _) => (Some(f.session.clone()), Some(f.name.clone())),
        (None, Some((session, flight))) if !bare => (
            Some(session.trim().to_owned()),
            Some(flight.trim().to_owned()),
        ),
        _ => (None, Some(detail.to_owned())),
    };
    Ok(Command::Start {
        platform: on(facts, row)?,
        lift: needed_lift(facts, &row.lift)?,
        session,
        flight: flight.filter(|f| !f.is_empty()),
    })
}

fn minutes(detail: &str) -> Result<Option<u32>, String> {
    let text = detail.trim().trim_end_matches("min").trim();
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().map(Some).map_err(|_| {
        format!("“{detail}” is no length of a break; write whole minutes, 1 to 240.")
    })
}

fn clock(detail: &str) -> Result<ClockMove, String> {
    match detail.trim().to_lowercase().as_str() {
        "stop" => return Ok(ClockMove::Stop),
        "resume" => return Ok(ClockMove::Resume),
        _ => {}
    }
    millis(detail).map(ClockMove::Set).ok_or_else(|| {
        format!("“{detail}” can't be done to a clock; write stop, resume, or what is left, such as 0:42.")
    })
}

/// `0:42` or `1:05.250` in milliseconds.
fn millis(text: &str) -> Option<i64> {
    let (minutes, seconds) = text.trim().split_once(':')?;
    let (seconds, part) = seconds.split_once('.').unwrap_or((seconds, "0"));
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    if !digits(minutes) || seconds.len() != 2 || !digits(seconds) || !digits(part) {
        return None;
    }
    let part: i64 = format!("{part:0<3}").get(..3)?.parse().ok()?;
    let (minutes, seconds): (i64, i64) = (minutes.parse().ok()?, seconds.parse().ok()?);
    (minutes <= 60 && seconds < 60).then_some((minutes * 60 + seconds) * 1000 + part)
}

fn reopen(facts: &Facts, detail: &str) -> Result<Command, String> {
    let (session, rest) = if detail.to_lowercase().starts_with("reason=") {
        (String::new(), detail)
    } else {
        split_id(detail)
    };
    // A reason may stand alone; a session is one that the day has.
    let known = facts.sessions.contains_key(&session);
    if !session.is_empty() && !known && rest.is_empty() {
        return Ok(Command::Reopen {
            session: None,
            reason: session,
        });
    }
    let rest = rest.trim();
    Ok(Command::Reopen {
        session: (!session.is_empty()).then_some(session),
        reason: if rest.contains('=') {
            reason(pairs(rest)?)?
        } else {
            rest.to_owned()
        },
    })
}

/// The reason from pairs that can have no other key.
fn reason(pairs: Vec<(String, String)>) -> Result<String, String> {
    let mut found = String::new();
    for (key, value) in pairs {
        if !key.eq_ignore_ascii_case("reason") {
            return Err(format!("“{key}” can't stand here; write reason=…."));
        }
        found = value;
    }
    Ok(found)
}

fn correct(day: &Day, row: &ActRow) -> Result<Command, String> {
    let facts = day.facts();
    let detail = row.detail.trim();
    if number(row)?.is_some() {
        let (outcome, rest) = detail.split_once(';').unwrap_or((detail, ""));
        let (more, why): (Vec<_>, Vec<_>) = pairs(rest)?
            .into_iter()
            .partition(|(key, _)| matches!(key.to_lowercase().as_str(), "reps" | "as"));
        let outcome = with_more(outcome.trim(), &more);
        return Ok(Command::Correct {
            of: CorrectionOf::Attempt {
                which: which(facts, row)?,
                load: load(facts, &row.load)?,
                outcome: outcome.map(|o| parse_outcome(&o)).transpose()?,
            },
            reason: reason(why)?,
        });
    }
    let (id, rest) = split_id(detail);
    if id.is_empty() {
        return Err(
            "Say what is corrected: athlete, lift and attempt, or in detail the act's id; key=value."
                .to_owned(),
        );
    }
    let (why, values): (Vec<_>, Vec<_>) = pairs(rest)?
        .into_iter()
        .partition(|(key, _)| key.eq_ignore_ascii_case("reason"));
    Ok(Command::Correct {
        of: CorrectionOf::Act {
            act: act(day, &id)?,
            values,
        },
        reason: why.into_iter().next().map(|(_, v)| v).unwrap_or_default(),
    })
}

fn line(facts: &Facts, row: &ActRow) -> Result<Line, String> {
    let most = facts.platforms.len();
    match row.detail.trim().to_lowercase().as_str() {
        "" => {}
        "roster" => return Ok(Line::Roster),
        "scale" => return Ok(Line::Scale),
        "flights" => return Ok(Line::Flights),
        "day" => return Ok(Line::Day),
        other => {
            return Err(format!(
                "“{other}” has nothing to undo; name the platform, or write roster, scale, \
                 flights or day in detail."
            ));
        }
    }
    match on(facts, row)? {
        Some(platform) => Ok(Line::Platform(platform)),
        None if most <= 1 => Ok(Line::Platform(1)),
        None => Err(format!(
            "Say on which platform, 1 to {most}, or write roster, scale, flights or day in \
             detail."
        )),
    }
}

/// `text`, or `ID; text` where there is such an act; text that looks so
/// stands behind a semicolon.
fn note(day: &Day, row: &ActRow) -> Result<Command, String> {
    let facts = day.facts();
    let detail = row.detail.trim();
    let (id, rest) = split_id(detail);
    let (found, text) = if let Some(text) = detail.strip_prefix(';') {
        (None, text.trim())
    } else if let Some(found) = act(day, &id).ok().filter(|_| !rest.is_empty()) {
        (Some(found), rest)
    } else {
        (None, detail)
    };
    Ok(Command::Note {
        number: number(row)?,
        act: found,
        text: text.to_owned(),
        platform: on(facts, row)?,
    })
}
