//! `maxday new`

use std::path::Path;

use crate::cli::args::New;
use crate::cli::{Failure, moment};
use crate::day::{
    Command, Event, NewDay, new_day, new_day_by, new_day_like, settings_like,
};
use crate::file::Live;
use crate::measure::Unit;
use crate::rules::own_format;

pub(in crate::cli) fn run(new: &New) -> Result<(), Failure> {
    let unit = |word: &Option<String>| match word {
        None => Ok(None),
        Some(word) => Unit::parse(word)
            .map(Some)
            .ok_or_else(|| Failure(format!("“{word}” is no unit; allowed: kg, lb."))),
    };
    let date = match &new.date {
        None => moment::today(),
        Some(text) => text.parse().map_err(|_| {
            Failure(format!("“{text}” is no date; write it as 2026-11-17."))
        })?,
    };
    let old = match &new.like {
        Some(path) => Some(Live::open_read(path)?),
        None => None,
    };
    let like = old.as_ref().map(|live| live.day().facts());
    let stem = new
        .file
        .file_stem()
        .map_or_else(|| "day".to_owned(), |s| s.to_string_lossy().into_owned());
    let wish = NewDay {
        name: new
            .name
            .clone()
            .or_else(|| like.map(|f| f.name.clone()))
            .unwrap_or(stem),
        date,
        format: new.format.clone().unwrap_or_default(),
        bar: match (unit(&new.unit)?, like) {
            (Some(unit), Some(old)) if unit != old.bar_unit => {
                return Err(Failure(format!(
                    "The day to be like is in {}; its rules can't be taken in {unit}.",
                    old.bar_unit
                )));
            }
            (Some(unit), _) => unit,
            (None, Some(old)) => old.bar_unit,
            (None, None) => Unit::Kg,
        },
        scale: unit(&new.scale)?.or_else(|| like.map(|f| f.scale_unit)),
        judges: new.judges,
        categories: new.categories.clone(),
        tie: new.tie.clone(),
        step: new.step.clone(),
        lifts: new.lifts.clone(),
        platforms: new.platforms,
    };
    let event = match (like, &new.rules) {
        (Some(old), _) => new_day_like(old, &wish),
        (None, Some(path)) => by_own_rules(path, &wish),
        (None, None) => new_day(&wish),
    }
    .map_err(Failure)?;
    let context = moment::context("", new.seed);
    let mut live = Live::create(&new.file, event, &context)?;
    let mut settings =
        like.map_or_else(Vec::new, |old| settings_like(old, new.platforms));
    if let Some(seed) = new.seed {
        settings.push(("seed".to_owned(), seed.to_string()));
    }
    if !settings.is_empty() {
        let _ = live.submit(&Command::Set(settings), &context, None)?;
    }
    live.close()?;
    Ok(())
}

/// A day by the rules that a school wrote.
fn by_own_rules(path: &Path, wish: &NewDay) -> Result<Event, String> {
    let text = std::fs::read_to_string(path)
        .map_err(|e| format!("The rules {} can't be read: {e}.", path.display()))?;
    let (format, rules) = own_format(&text, wish.bar)
        .map_err(|e| format!("The rules {} can't be taken: {e}", path.display()))?;
    new_day_by(&format, rules, wish)
}
