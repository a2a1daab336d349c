//! Cells of a row as values.

use super::pairs::pairs;
use super::{ActRow, group_of};
use crate::day::{Day, Facts, NewEntry, Place};
use crate::exchange::entry::{Given, said};
use crate::exchange::platform;
use crate::lift::Slug;
use crate::measure::{Mass, Unit, Weight};
use crate::roster::Column;

pub(super) fn unit(text: &str) -> Result<Unit, String> {
    Unit::parse(text)
        .ok_or_else(|| format!("“{text}” is no unit of a bodyweight; write kg or lb."))
}

/// The table number of a row, if it has one.
pub(super) fn number(row: &ActRow) -> Result<Option<u16>, String> {
    let text = row.athlete.trim();
    if text.is_empty() {
        return Ok(None);
    }
    text.parse::<u16>()
        .ok()
        .filter(|n| (1..=9_999).contains(n))
        .map(Some)
        .ok_or_else(|| {
            format!("“{text}” is no table number; write a whole number from 1 to 9999.")
        })
}

pub(super) fn athlete(row: &ActRow) -> Result<u16, String> {
    number(row)?.ok_or_else(|| {
        format!(
            "The act {} needs an athlete; write the table number.",
            row.act.trim()
        )
    })
}

/// The slot or variant that a text names, as the programme writes it.
pub(super) fn lift(facts: &Facts, text: &str) -> Result<Option<Slug>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let hyphened = text.to_lowercase().replace([' ', '_'], "-");
    if let Some((line, variant)) = facts.slot_of(&hyphened) {
        let own = line.slot.as_str() == hyphened;
        return Ok(Some(match variant {
            Some(variant) if !own => variant.clone(),
            _ => line.slot.clone(),
        }));
    }
    match facts.reading().lift(text) {
        Some((_, variant)) => Ok(Some(variant)),
        None => Err(format!(
            "“{text}” is not on this day's programme; there is {}.",
            facts.reading().slot_words()
        )),
    }
}

pub(super) fn needed_lift(facts: &Facts, text: &str) -> Result<Slug, String> {
    lift(facts, text)?.ok_or_else(|| {
        format!("Say which lift is meant: {}.", facts.reading().slot_words())
    })
}

pub(super) fn attempt(row: &ActRow) -> Result<Option<u8>, String> {
    let text = row.attempt.trim();
    if text.is_empty() {
        return Ok(None);
    }
    text.parse::<u8>()
        .ok()
        .filter(|n| (1..=20).contains(n))
        .map(Some)
        .ok_or_else(|| {
            format!("“{text}” is no attempt; write its number, 1 for the first.")
        })
}

pub(super) fn load(facts: &Facts, text: &str) -> Result<Option<Weight>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let load = facts.reading().load(text);
    load.map(Some).map_err(|e| format!("{e}."))
}

/// A rise (`+5`) or fall (`-2.5`), if the text is one.
pub(super) fn relative(facts: &Facts, text: &str) -> Result<Option<Mass>, String> {
    let text = text.trim();
    if !text.starts_with(['+', '-']) {
        return Ok(None);
    }
    let mass = Mass::parse(text, facts.bar_unit);
    mass.map(Some).map_err(|e| format!("{e}."))
}

/// The act with that identifier, also where it is one row of a group.
pub(super) fn act(day: &Day, id: &str) -> Result<u64, String> {
    let id = id.trim();
    day.act_by_id(id)
        .or_else(|| group_of(id).and_then(|(group, _)| day.act_by_id(group)))
        .ok_or_else(|| {
            format!("There is no act “{id}”; the journal lists the acts with their ids.")
        })
}

/// The roster column that a key names.
pub(super) fn column(facts: &Facts, key: &str) -> Result<Column, String> {
    Column::named(key, &facts.slots).ok_or_else(|| {
        format!(
            "“{key}” is no detail of an entry; there is lot, id, name, given, family, sex, \
             born, grade, team, category, division, bodyweight, unit, clearance, entry \
             total, session, platform, flight, and the lifts: {}.",
            facts.reading().slot_words()
        )
    })
}

/// The entry of an `add` row; `athlete` may give the number instead of `lot`.
pub(super) fn entry(facts: &Facts, row: &ActRow) -> Result<NewEntry, String> {
    let pairs = pairs(row.detail.trim())?;
    let mut columns: Vec<(Column, &str, &str)> = Vec::new();
    for (key, value) in &pairs {
        let column = column(facts, key)?;
        if let Some((_, first, _)) = columns.iter().find(|(c, ..)| *c == column) {
            return Err(format!(
                "“{first}” and “{key}” both mean {}; leave one of them.",
                column.word()
            ));
        }
        columns.push((column, key, value));
    }
    let given: Vec<Given<'_>> = columns
        .iter()
        .map(|(column, label, text)| Given {
            column,
            label,
            text: text.trim().to_owned(),
        })
        .collect();
    let (said, wrong) = said(&given, facts, &facts.reading());
    if let Some((key, message)) = wrong.first() {
        let end = if message.ends_with('.') { "" } else { "." };
        return Err(format!("{key}: {message}{end}"));
    }
    if said.name().is_empty() {
        return Err("An entry needs a name; write given=…; family=….".to_owned());
    }
    let number = match (said.number, number(row)?) {
        (Some(lot), Some(athlete)) if lot != athlete => {
            return Err(format!(
                "athlete says {athlete} and lot says {lot}; leave one of them."
            ));
        }
        (lot, athlete) => lot.or(athlete),
    };
    Ok(NewEntry {
        number,
        changes: said.for_new(),
        place: said.place,
    })
}

/// The place of a `place` row: pairs, or just a flight as `B` or `2/H`; the
/// platform may stand in its own column.
pub(super) fn place(facts: &Facts, row: &ActRow) -> Result<Place, String> {
    let mut place = Place::default();
    let detail = row.detail.trim();
    if !row.platform.trim().is_empty() {
        place.platform = Some(platform(facts, &row.platform)?);
    }
    if !detail.is_empty() && !detail.contains('=') {
        let (session, flight) = match detail.split_once('/') {
            Some((session, flight)) => (Some(session.trim().to_owned()), flight.trim()),
            None => (None, detail),
        };
        place.session = session;
        place.flight = Some(flight.to_owned());
        return Ok(place);
    }
    for (key, value) in pairs(detail)? {
        let value = value.trim().to_owned();
        match key.to_lowercase().as_str() {
            "session" => place.session = Some(value),
            "flight" => place.flight = Some(value),
            "platform" => place.platform = Some(platform(facts, &value)?),
            _ => {
                return Err(format!(
                    "“{key}” is no place; write flight=…; platform=…; session=…, or any of \
                     them."
                ));
            }
        }
    }
    if place == Place::default() {
        return Err("Say where to: flight=…; platform=…; session=….".to_owned());
    }
    Ok(place)
}
