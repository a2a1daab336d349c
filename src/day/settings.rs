//! Settings of the day: its name, its rules' words, labels and plans.

use std::sync::Arc;

use chrono::NaiveTime;

use super::Facts;
use super::facts::{Platform, Session};
use super::picture::Picture;
use crate::bar::Discs;
use crate::measure::{Mass, Unit, Weight};

/// Applies one setting.
///
/// # Errors
/// A sentence that says what would be allowed; the facts are as before.
pub(super) fn set(facts: &mut Facts, key: &str, value: &str) -> Result<(), String> {
    let value = value.trim();
    let lower = key.trim().to_lowercase();
    if let Some(number) = lower.strip_prefix("platform.") {
        return label_platform(facts, number, value);
    }
    if let Some(number) = lower.strip_prefix("discs.") {
        return stock_platform(facts, number, value);
    }
    if let Some(number) = lower.strip_prefix("bar.") {
        return bar_of_platform(facts, number, value);
    }
    if let Some(name) = key.trim().strip_prefix("session.") {
        return plan_session(facts, name, value);
    }
    if let Some(flight) = key.trim().strip_prefix("flight.") {
        return move_flight(facts, flight, value);
    }
    match lower.as_str() {
        "name" if value.is_empty() => Err("A day needs a name.".to_owned()),
        "name" => {
            value.clone_into(&mut facts.name);
            Ok(())
        }
        "venue" => {
            value.clone_into(&mut facts.venue);
            Ok(())
        }
        "school" => {
            value.clone_into(&mut facts.school.name);
            Ok(())
        }
        "picture" if value.is_empty() => {
            facts.school.picture = None;
            Ok(())
        }
        "picture" => {
            let picture = Picture::parse(value).map_err(|why| {
                format!("The picture {why}; maxday school makes one that is.")
            })?;
            facts.school.picture = Some(Arc::new(picture));
            Ok(())
        }
        "date" => {
            facts.date = value
                .parse()
                .map_err(|_| format!("“{value}” is no date; write it as 2026-11-17."))?;
            Ok(())
        }
        "seed" => {
            let seed = value.parse();
            facts.seed =
                Some(seed.map_err(|_| {
                    format!("“{value}” is no seed; write a whole number.")
                })?);
            Ok(())
        }
        "tie" => tie(facts, value),
        "platforms" => platforms(facts, value),
        other => {
            let name = other.replace('.', "-");
            facts.rules.set(&name, value).map_err(|e| {
                let keys: Vec<&str> = crate::rules::keys().iter().map(|k| k.name).collect();
                match e {
                    crate::rules::KeyError::Unknown(_) => format!(
                        "There is no setting “{other}”; there is name, date, venue, school, picture, seed, tie, platforms, \
                         platform.N, discs.N, bar.N, session.NAME, flight.SESSION/NAME, {}.",
                        keys.join(", ")
                    ),
                    e => format!("{e}."),
                }
            })
        }
    }
}

/// The chain of keys behind a word: `bodyweight` is lighter, then who lifted
/// it earlier, then table number.
pub(super) fn tie_chain(word: &str) -> Result<&'static str, String> {
    match word.trim() {
        "bodyweight" => Ok("bodyweight earlier number"),
        "earliest" => Ok("earlier number"),
        "shared" => Ok("shared"),
        other => Err(format!(
            "“{other}” is no way to break a tie; allowed: bodyweight, earliest, shared."
        )),
    }
}

fn tie(facts: &mut Facts, value: &str) -> Result<(), String> {
    let chain = tie_chain(value)?;
    for key in ["ties-lift", "ties-total"] {
        facts.rules.set(key, chain).map_err(|e| format!("{e}."))?;
    }
    Ok(())
}

fn platforms(facts: &mut Facts, value: &str) -> Result<(), String> {
    let most = 24;
    let used = facts.flights.iter().map(|f| usize::from(f.platform)).max();
    match value.parse::<usize>() {
        Ok(n) if (1..=most).contains(&n) && n >= used.unwrap_or(1) => {
            facts.platforms.resize_with(n, Default::default);
            Ok(())
        }
        _ => Err(format!(
            "“{value}” is no number of platforms; allowed: {} to {most}.",
            used.unwrap_or(1)
        )),
    }
}

fn platform<'a>(facts: &'a mut Facts, number: &str) -> Result<&'a mut Platform, String> {
    let most = facts.platforms.len();
    number
        .parse::<u8>()
        .ok()
        .and_then(|n| facts.platform_mut(n))
        .ok_or_else(|| {
            format!("There is no platform {number}; this day has 1 to {most}.")
        })
}

fn label_platform(facts: &mut Facts, number: &str, value: &str) -> Result<(), String> {
    value.clone_into(&mut platform(facts, number)?.label);
    Ok(())
}

/// The discs on hand on a platform; blank for the rules'.
fn stock_platform(facts: &mut Facts, number: &str, value: &str) -> Result<(), String> {
    let discs = match value {
        "" => None,
        words => Some(Discs::named(words, facts.bar_unit).map_err(|e| format!("{e}."))?),
    };
    platform(facts, number)?.discs = discs;
    Ok(())
}

/// The only bar of a platform, with its collars; blank for the rules'.
fn bar_of_platform(facts: &mut Facts, number: &str, value: &str) -> Result<(), String> {
    let bar = match value {
        "" => None,
        words => Some(
            Weight::parse(words, facts.bar_unit)
                .ok()
                .filter(|w| w.mass > Mass::ZERO && w.mass <= Mass::whole(100, Unit::Kg))
                .ok_or_else(|| {
                    format!(
                        "“{words}” is no bar; write a load up to 100 kg, such as 45 lb."
                    )
                })?,
        ),
    };
    platform(facts, number)?.bar_on_hand = bar;
    Ok(())
}

fn move_flight(facts: &mut Facts, flight: &str, value: &str) -> Result<(), String> {
    let (session, name) = flight.split_once('/').unwrap_or(("1", flight));
    let most = facts.platforms.len();
    let platform = value
        .parse::<u8>()
        .ok()
        .filter(|n| facts.platform(*n).is_some())
        .ok_or_else(|| {
            format!("There is no platform {value}; this day has 1 to {most}.")
        })?;
    let found = facts
        .flights
        .iter_mut()
        .find(|f| f.session == session && f.name == name)
        .ok_or_else(|| format!("There is no flight {session}/{name}."))?;
    found.platform = platform;
    Ok(())
}

/// Reads `start 10:05; end 10:50`, or `10:05-10:50`.
fn plan_session(facts: &mut Facts, name: &str, value: &str) -> Result<(), String> {
    let error = || {
        format!(
            "“{value}” is no plan of a session; write 10:05-10:50, or start 10:05; end 10:50."
        )
    };
    let name = name.trim();
    if name.is_empty() {
        return Err("A session needs a name.".to_owned());
    }
    let time =
        |text: &str| NaiveTime::parse_from_str(text.trim(), "%H:%M").map_err(|_| error());
    let old = facts.sessions.get(name).cloned().unwrap_or_default();
    let mut session = Session { ..old };
    if let Some((start, end)) = value.split_once('-') {
        session.start = Some(time(start)?);
        session.end = Some(time(end)?);
    } else {
        for part in value.split(';').map(str::trim).filter(|p| !p.is_empty()) {
            if let Some(text) = part.strip_prefix("start ") {
                session.start = Some(time(text)?);
            } else if let Some(text) = part.strip_prefix("end ") {
                session.end = Some(time(text)?);
            } else {
                return Err(error());
            }
        }
    }
    if let (Some(start), Some(end)) = (session.start, session.end)
        && end <= start
    {
        return Err(format!("Session {name} would end before it starts."));
    }
    let _ = facts.sessions.insert(name.to_owned(), session);
    Ok(())
}
