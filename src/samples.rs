//! The built-in sample days, made afresh from `sample-meets/`.
//!
//! They stop in the middle of their day, so that there is something to run.

use std::path::Path;

use crate::day::{Command, Context, Day, NewDay, Stamp, new_day};
use crate::exchange::acts::{ActRow, command, read_acts, stamp};
use crate::exchange::roster::read_roster;
use crate::file::{Live, SubmitError};
use crate::measure::Unit;

/// Which sample.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sample {
    /// A max day in pounds on four racks.
    MaxDay,
    /// A weightlifting meet in kilograms on one platform.
    Meet,
    /// A powerlifting meet in kilograms, two flights on one platform.
    Powerlifting,
}

impl Sample {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::MaxDay, Self::Meet, Self::Powerlifting];

    /// A file name for a copy of it.
    pub const fn file_stem(self) -> &'static str {
        match self {
            Self::MaxDay => "sample-max-day",
            Self::Meet => "sample-meet",
            Self::Powerlifting => "sample-powerlifting",
        }
    }

    /// Its roster, as CSV.
    pub const fn roster(self) -> &'static str {
        match self {
            Self::MaxDay => include_str!("../sample-meets/max-day/roster.csv"),
            Self::Meet => include_str!("../sample-meets/weightlifting/roster.csv"),
            Self::Powerlifting => {
                include_str!("../sample-meets/powerlifting/roster.csv")
            }
        }
    }

    /// Its acts, as CSV.
    pub const fn acts(self) -> &'static str {
        match self {
            Self::MaxDay => include_str!("../sample-meets/max-day/acts.csv"),
            Self::Meet => include_str!("../sample-meets/weightlifting/acts.csv"),
            Self::Powerlifting => include_str!("../sample-meets/powerlifting/acts.csv"),
        }
    }

    /// What `maxday new` is given for it.
    pub const fn arguments(self) -> &'static str {
        match self {
            Self::MaxDay => include_str!("../sample-meets/max-day/new.txt"),
            Self::Meet => include_str!("../sample-meets/weightlifting/new.txt"),
            Self::Powerlifting => include_str!("../sample-meets/powerlifting/new.txt"),
        }
    }

    /// The time of day at which the copy stops.
    const fn until(self) -> &'static str {
        match self {
            Self::MaxDay => "08:47:00",
            Self::Meet => "09:22:00",
            Self::Powerlifting => "10:24:00",
        }
    }
}

/// Makes a fresh copy of a sample at `path`; `now` is when it is made.
///
/// # Errors
/// A sentence; a file that was there is left as it is.
pub fn make(path: &Path, sample: Sample, now: Stamp) -> Result<(), String> {
    let context = Context {
        at: now.loosely(),
        hand: String::new(),
        draw: 7,
    };
    let event = new_day(&wish(sample.arguments())?)?;
    let mut live = Live::create(path, event, &context).map_err(|e| e.to_string())?;
    let read = read_roster(sample.roster().as_bytes(), live.day().facts(), None)
        .map_err(|faults| faults.first().map(ToString::to_string).unwrap_or_default())?;
    let rows = read_acts(sample.acts()).map_err(|e| e.to_string())?;
    live.batch(|batch| {
        let _ = batch.submit(&Command::Add(read.entries.clone()), &context, None)?;
        for row in &rows {
            let Some((command, context)) = act(batch.day(), row, sample.until()) else {
                break;
            };
            let id = Some(row.id.as_str()).filter(|id| !id.is_empty());
            let _ = batch.submit(&command, &context, id)?;
        }
        Ok::<(), SubmitError>(())
    })
    .map_err(|e| e.to_string())?;
    live.close().map_err(|e| e.to_string())
}

/// The command of a row, until the sample's end.
fn act(day: &Day, row: &ActRow, until: &str) -> Option<(Command, Context)> {
    let at = stamp(row, day.facts().date, 0).ok()??;
    if at.local().format("%H:%M:%S").to_string().as_str() > until {
        return None;
    }
    let context = Context {
        at,
        hand: row.by.clone(),
        draw: 7,
    };
    Some((command(day, row).ok()?, context))
}

/// Reads the arguments of `maxday new` as the samples write them.
///
/// # Errors
/// A sentence that names what is missing.
pub fn wish(arguments: &str) -> Result<NewDay, String> {
    let words = split_words(arguments);
    let value = |name: &str| {
        words
            .iter()
            .position(|w| w == name)
            .and_then(|i| words.get(i + 1))
            .cloned()
    };
    let missing = |name: &str| format!("The sample has no {name}.");
    let date = value("--date").ok_or_else(|| missing("date"))?;
    Ok(NewDay {
        name: value("--name").ok_or_else(|| missing("name"))?,
        date: date.parse().map_err(|_| missing("date"))?,
        format: value("--format").ok_or_else(|| missing("format"))?,
        bar: value("--unit")
            .and_then(|u| Unit::parse(&u))
            .ok_or_else(|| missing("unit"))?,
        scale: None,
        judges: value("--judges").and_then(|j| j.parse().ok()),
        categories: value("--categories"),
        tie: None,
        step: None,
        lifts: value("--lifts"),
        platforms: value("--platforms").and_then(|p| p.parse().ok()),
    })
}

/// Words parted by spaces; double quotes keep spaces.
fn split_words(text: &str) -> Vec<String> {
    let mut words = Vec::new();
    for (i, part) in text.trim().split('"').enumerate() {
        if i % 2 == 1 {
            words.push(part.to_owned());
        } else {
            words.extend(part.split_whitespace().map(str::to_owned));
        }
    }
    words
}
