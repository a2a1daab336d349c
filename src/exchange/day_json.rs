//! A whole day as JSON.

use serde_json::{Map, Value, json};

use crate::day::{Facts, Stamp};
use crate::lift::Slug;
use crate::measure::{Unit, Weight};
use crate::roster::Entry;
use crate::rules::Sex;
use crate::sheets::{
    Audience, Cell, Table, attempts_table, name_for, records_table, shows_bodyweight,
    shows_category, standings_table, start_list, team_table,
};
use crate::standings::{Basis, category_label, has_divisions};

/// The version of the shape; a reader refuses one that it doesn't know.
///
/// Members may be added without a new version; none is renamed, removed or changes
/// its meaning without one.
pub const VERSION: u32 = 1;

/// The day as JSON, indented, in UTF-8 with a line break at its end.
///
/// Masses are strings of plain decimals, with the unit in their member's name.
/// Everything that the audience may see is taken from the same tables as CSV is;
/// what isn't in them (identity, birth, clearance, remarks, rules) is private.
pub fn day_json(facts: &Facts, audience: Audience, made: Stamp) -> Vec<u8> {
    let private = audience == Audience::Private;
    let mut day = Map::new();
    let mut put = |name: &str, value: Value| drop(day.insert(name.to_owned(), value));
    put("version", json!(VERSION));
    put("audience", json!(audience.word()));
    put("made_at", json!(stamp(made)));
    put("day", about(facts));
    put("programme", programme(facts));
    put("start_list", rows(&start_list(facts, audience), facts));
    let standings = |basis| rows(&standings_table(facts, basis, audience), facts);
    put("results", standings(Basis::Category));
    if has_divisions(facts) {
        put("results_by_division", standings(Basis::Division));
    }
    if !facts.rules.teams.points.is_empty() {
        put("teams", rows(&team_table(facts, audience), facts));
    }
    put("attempts", rows(&attempts_table(facts, audience), facts));
    if !facts.records.is_empty() {
        put("records", rows(&records_table(facts, audience), facts));
    }
    put("athletes", athletes(facts, audience));
    if private {
        put("remarks", json!(facts.notes));
        let rules: Map<String, Value> = facts
            .rules
            .words()
            .into_iter()
            .map(|(key, word)| (member(&key), Value::String(word)))
            .collect();
        put("rules", Value::Object(rules));
    }
    let mut bytes = serde_json::to_vec_pretty(&Value::Object(day)).unwrap_or_default();
    bytes.push(b'\n');
    bytes
}

fn stamp(at: Stamp) -> String {
    at.local().format("%Y-%m-%dT%H:%M:%S").to_string()
}

fn about(facts: &Facts) -> Value {
    json!({
        "name": facts.name,
        "date": facts.date.to_string(),
        "venue": facts.venue,
        "school": facts.school.name,
        "format": facts.format,
        "bar_unit": facts.bar_unit.symbol(),
        "scale_unit": facts.scale_unit.symbol(),
        "closed": facts.closed,
    })
}

fn programme(facts: &Facts) -> Value {
    let slots = facts.slots.iter();
    slots
        .map(|line| {
            let lifts: Vec<&str> = line.variants.iter().map(Slug::as_str).collect();
            json!({ "slot": line.slot.as_str(), "lifts": lifts })
        })
        .collect()
}

/// Every entry once, by table number; what is private only for those who may see it.
fn athletes(facts: &Facts, audience: Audience) -> Value {
    let mut entries: Vec<&Entry> = facts.entries.values().collect();
    entries.sort_by_key(|e| e.number);
    let athletes = entries.into_iter();
    athletes.map(|e| athlete(facts, e, audience)).collect()
}

fn athlete(facts: &Facts, entry: &Entry, audience: Audience) -> Value {
    let mut of = Map::new();
    let mut put = |name: &str, value: Value| drop(of.insert(name.to_owned(), value));
    put("lot", json!(entry.number));
    put("name", text(&name_for(facts, entry, audience)));
    put("sex", json!(entry.sex.map(Sex::letter)));
    put("grade", text(&entry.grade));
    put("team", text(&entry.team));
    put("divisions", json!(entry.divisions));
    put("session", text(&entry.session));
    put("flight", text(&entry.flight));
    if shows_category(facts, audience) {
        put("category", text(&category_label(facts, entry)));
    }
    if shows_bodyweight(facts, audience) {
        let (name, value) =
            mass("bodyweight", entry.bodyweight.as_ref(), facts.scale_unit);
        put(&name, value);
    }
    if audience == Audience::Private {
        let load = |w: &Weight| w.mass.show_with_unit(facts.bar_unit);
        put("id", text(&entry.id));
        put("given", text(&entry.given));
        put("family", text(&entry.family));
        put("born", json!(entry.born.map(|b| b.to_string())));
        put("guest", json!(entry.guest));
        put("withdrawn", json!(entry.withdrawn));
        put("disqualified", json!(entry.disqualified));
        put("clearance", text(&entry.clearance_words(load)));
        let caps: Vec<Value> = entry
            .caps
            .iter()
            .map(|(slot, cap)| {
                let (name, value) = mass("cap", Some(cap), facts.bar_unit);
                json!({ "slot": slot.as_ref().map(Slug::as_str), name: value })
            })
            .collect();
        put("caps", Value::Array(caps));
        put("set_ups", json!(entry.setups));
        let last: Vec<Value> = entry
            .last
            .iter()
            .map(|(lift, max)| {
                let (name, value) = mass("last_max", Some(max), facts.bar_unit);
                json!({ "lift": lift.as_str(), name: value })
            })
            .collect();
        put("last_maxes", Value::Array(last));
        let (name, value) =
            mass("entry_total", entry.entry_total.as_ref(), facts.bar_unit);
        put(&name, value);
    }
    Value::Object(of)
}

fn mass(name: &str, weight: Option<&Weight>, unit: Unit) -> (String, Value) {
    (
        format!("{name}_{unit}"),
        json!(weight.map(|w| w.mass.show(unit))),
    )
}

/// A text, or null where there is nothing to say.
fn text(text: &str) -> Value {
    if text.is_empty() {
        Value::Null
    } else {
        json!(text)
    }
}

/// A table's rows as objects: the members are the CSV's columns with `_` for what is
/// no letter or digit, and those of masses end in their unit.
fn rows(table: &Table, facts: &Facts) -> Value {
    let rows = table.groups.iter().flat_map(|g| &g.rows);
    let units = units(table, facts);
    rows.map(|row| {
        let mut object = Map::new();
        for ((cell, column), unit) in row.iter().zip(&table.columns).zip(&units) {
            let key = member(&column.key);
            let units = ["bar unit", "scale unit", "unit", "old unit"];
            if units.contains(&column.key.as_str()) {
                continue;
            }
            if matches!(column.key.as_str(), "load" | "old load") {
                // A book's records are in units of their own; all are exact in kg.
                let load = match cell {
                    Cell::Mass(mass, _) => json!(mass.show(Unit::Kg)),
                    _ => Value::Null,
                };
                let _ = object.insert(format!("{key}_kg"), load);
                continue;
            }
            let name = match unit {
                Some(unit) => format!("{key}_{unit}"),
                None => key.clone(),
            };
            // The start list's dash says that a lift isn't entered; it is no mass.
            let cell_value = match cell {
                Cell::Text(_) if unit.is_some() => Value::Null,
                cell => value(cell),
            };
            let _ = object.insert(name, cell_value);
            if column.attempt {
                let ruling = cell.csv().into_iter().nth(1).unwrap_or_default();
                let _ = object.insert(format!("{key}_ruling"), text(&ruling));
            }
        }
        Value::Object(object)
    })
    .collect()
}

/// The unit of each column that holds masses. A column has the same name in every
/// row and in every day of its units, also where all of its cells are blank.
fn units(table: &Table, facts: &Facts) -> Vec<Option<Unit>> {
    let is_mass = |key: &str| {
        matches!(key, "requested" | "loaded" | "credited" | "total")
            || [" best", " opener", " estimate"]
                .iter()
                .any(|end| key.ends_with(end))
    };
    let columns = table.columns.iter();
    columns
        .map(|column| match column.key.as_str() {
            "bodyweight" => Some(facts.scale_unit),
            key if column.attempt || is_mass(key) => Some(facts.bar_unit),
            _ => None,
        })
        .collect()
}

fn value(cell: &Cell) -> Value {
    match cell {
        Cell::Blank => Value::Null,
        Cell::Count(n) => json!(n),
        cell => text(&cell.csv().into_iter().next().unwrap_or_default()),
    }
}

fn member(key: &str) -> String {
    let plain = |c: char| if c.is_alphanumeric() { c } else { '_' };
    key.chars().map(plain).collect()
}
