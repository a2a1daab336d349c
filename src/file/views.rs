//! The read views: a promise to anyone with an SQLite tool.
//!
//! `v1_athlete`, `v1_attempt` and `v1_standing` show tables that are written
//! from the fold: when a day is let go, when it is backed up, with a large
//! batch, and on demand. An act isn't slowed by them, so after a crash they
//! may lag behind the journal; `seen_upto` in `meta` says how far they go.
//! Loads and bodyweights are decimal texts in the unit in the column beside
//! them, which is the unit in which they were typed.

use rusqlite::types::Value;
use rusqlite::{Connection, OptionalExtension, params_from_iter};

use super::error::{FileError, one_line};
use super::open::Store;
use crate::day::{Day, Facts, Light, Ruled};
use crate::lift::Slug;
use crate::measure::{Mass, Weight};
use crate::roster::{Entry, Presence};
use crate::standings::{Basis, standings};

/// How rows are worked out; to be raised when that changes.
const REVISION: u32 = 1;

/// A view, the columns that it shows, and how its rows are made.
struct View {
    name: &'static str,
    table: &'static str,
    columns: &'static [&'static str],
    rows: fn(&Day) -> Vec<Vec<Value>>,
}

const VIEWS: [View; 3] = [
    View {
        name: "v1_athlete",
        table: "seen_athlete",
        columns: &[
            "lot",
            "id",
            "given",
            "family",
            "sex",
            "born",
            "grade",
            "team",
            "category",
            "division",
            "session",
            "flight",
            "platform",
            "bodyweight",
            "bodyweight_unit",
            "clearance",
            "presence",
            "withdrawn",
        ],
        rows: athlete_rows,
    },
    View {
        name: "v1_attempt",
        table: "seen_attempt",
        columns: &[
            "lot",
            "slot",
            "lift",
            "attempt",
            "session",
            "flight",
            "platform",
            "requested",
            "requested_unit",
            "loaded",
            "loaded_unit",
            "credited",
            "credited_unit",
            "ruling",
            "lights",
            "faults",
            "called_at",
            "ruled_at",
            "hand",
            "seq",
        ],
        rows: attempt_rows,
    },
    View {
        name: "v1_standing",
        table: "seen_standing",
        columns: &[
            "lot",
            "slot",
            "lift",
            "best",
            "unit",
            "placing_group",
            "place",
        ],
        rows: standing_rows,
    },
];

/// Makes the tables and the views on them.
pub(super) fn lay_out(conn: &Connection) -> rusqlite::Result<()> {
    for view in &VIEWS {
        let View {
            name,
            table,
            columns,
            ..
        } = view;
        let columns = columns.join(", ");
        conn.execute_batch(&format!(
            "CREATE TABLE {table} ({columns}); \
             CREATE VIEW {name} AS SELECT {columns} FROM {table};"
        ))?;
    }
    Ok(())
}

/// The place in the journal up to which the views go, once they were written.
pub(super) fn upto(store: &Store) -> Result<Option<u64>, FileError> {
    Ok(meta(store, "seen_upto")?.and_then(|t| t.parse().ok()))
}

/// What `meta` says under a key; nothing where it was damaged, since all of it
/// can be worked out anew from the journal.
pub(super) fn meta(store: &Store, key: &str) -> Result<Option<String>, FileError> {
    let found = store
        .conn
        .query_row("SELECT value FROM meta WHERE key = ?1", [key], |row| {
            Ok(row.get_ref(0)?.as_str().ok().map(str::to_owned))
        })
        .optional();
    found.map(Option::flatten).map_err(|e| store.fail(&e))
}

/// Writes the views anew, inside the caller's transaction, where they lag behind.
pub(super) fn follow(store: &Store, day: &Day, last: u64) -> Result<(), FileError> {
    if upto(store)? == Some(last) {
        return Ok(());
    }
    rebuild(store, day, last)
}

/// Writes all views anew inside the caller's transaction.
pub(super) fn rebuild(store: &Store, day: &Day, upto: u64) -> Result<(), FileError> {
    let write = || -> rusqlite::Result<()> {
        for view in &VIEWS {
            let table = view.table;
            let _ = store.conn.execute(&format!("DELETE FROM {table}"), [])?;
            let marks = vec!["?"; view.columns.len()].join(", ");
            let mut insert = store
                .conn
                .prepare_cached(&format!("INSERT INTO {table} VALUES ({marks})"))?;
            for row in (view.rows)(day) {
                let _ = insert.execute(params_from_iter(row))?;
            }
        }
        for (key, value) in [
            ("seen_upto", upto.to_string()),
            ("seen_as", REVISION.to_string()),
        ] {
            let _ = store.conn.execute(
                "INSERT OR REPLACE INTO meta (key, value) VALUES (?1, ?2)",
                [key, &value],
            )?;
        }
        Ok(())
    };
    write().map_err(|e| store.fail(&e))
}

/// What the views say otherwise than the fold, one sentence a view.
///
/// Views that a program with another [`REVISION`] wrote aren't compared: they
/// lag behind, and are written anew when the day is next let go.
pub(super) fn differences(store: &Store, day: &Day) -> Vec<String> {
    let revision = meta(store, "seen_as").ok().flatten();
    if revision.as_deref() != Some(REVISION.to_string().as_str()) {
        return Vec::new();
    }
    VIEWS
        .iter()
        .filter_map(|view| {
            let expected = (view.rows)(day);
            match stored_rows(&store.conn, view) {
                Ok(found) if found == expected => None,
                Ok(found) => {
                    let same = found.iter().zip(&expected).take_while(|(a, b)| a == b);
                    Some(format!(
                        "The view {} differs from the journal at its row {}.",
                        view.name,
                        same.count() + 1
                    ))
                }
                Err(error) => Some(format!(
                    "The view {} can't be read: {}.",
                    view.name,
                    one_line(&error.to_string())
                )),
            }
        })
        .collect()
}

fn stored_rows(conn: &Connection, view: &View) -> rusqlite::Result<Vec<Vec<Value>>> {
    let columns = view.columns.join(", ");
    let mut query = conn.prepare(&format!(
        "SELECT {columns} FROM {} ORDER BY rowid",
        view.table
    ))?;
    let rows = query.query_map([], |row| {
        (0..view.columns.len()).map(|n| row.get(n)).collect()
    })?;
    rows.collect()
}

fn text(text: impl Into<String>) -> Value {
    Value::Text(text.into())
}

/// A text, or nothing where it is empty.
fn said(words: &str) -> Value {
    if words.is_empty() {
        Value::Null
    } else {
        text(words)
    }
}

fn number(n: impl Into<i64>) -> Value {
    Value::Integer(n.into())
}

fn or_null<T>(value: Option<T>, show: impl FnOnce(T) -> Value) -> Value {
    value.map_or(Value::Null, show)
}

/// A decimal and its unit, in two columns.
fn weight(weight: Option<&Weight>) -> [Value; 2] {
    match weight {
        Some(w) => [text(w.mass.show(w.unit)), text(w.unit.symbol())],
        None => [Value::Null, Value::Null],
    }
}

fn athlete_rows(day: &Day) -> Vec<Vec<Value>> {
    let facts = day.facts();
    facts
        .entries_by_number()
        .map(|entry| athlete_row(facts, entry))
        .collect()
}

fn athlete_row(facts: &Facts, entry: &Entry) -> Vec<Value> {
    let presence = match entry.presence {
        Presence::Expected => "expected",
        Presence::Here => "here",
        Presence::Absent => "absent",
        Presence::Away => "away",
    };
    let [bodyweight, unit] = weight(entry.bodyweight.as_ref());
    vec![
        number(entry.number),
        said(&entry.id),
        said(&entry.given),
        said(&entry.family),
        or_null(entry.sex, |sex| text(sex.letter())),
        or_null(entry.born, |born| text(born.to_string())),
        said(&entry.grade),
        said(&entry.team),
        said(&entry.category),
        said(&entry.divisions.join(";")),
        said(&entry.session),
        said(&entry.flight),
        or_null(facts.platform_of(entry), number),
        bodyweight,
        unit,
        said(&entry.clearance_words(|w| w.mass.show_with_unit(w.unit))),
        text(presence),
        text(if entry.withdrawn { "yes" } else { "no" }),
    ]
}

fn attempt_rows(day: &Day) -> Vec<Vec<Value>> {
    let facts = day.facts();
    let mut rows = Vec::new();
    for entry in facts.entries_by_number() {
        let Some(runs) = facts.runs.get(&entry.key) else {
            continue;
        };
        for line in &facts.slots {
            let Some(run) = runs.get(&line.slot) else {
                continue;
            };
            for (n, attempt) in &run.attempts {
                if let Some(ruled) = &attempt.ruled {
                    rows.push(attempt_row(entry, &line.slot, *n, ruled));
                }
            }
        }
    }
    rows
}

fn attempt_row(entry: &Entry, slot: &Slug, attempt: u8, ruled: &Ruled) -> Vec<Value> {
    let fact = &ruled.fact;
    let lights: String = fact
        .lights
        .iter()
        .map(|light| match light {
            Light::White => 'w',
            Light::Red => 'r',
        })
        .collect();
    let faults: Vec<&str> = fact.faults.iter().map(|f| f.code.as_str()).collect();
    let [requested, requested_unit] = weight(fact.requested.as_ref());
    let [loaded, loaded_unit] = weight(fact.loaded.as_ref());
    let [credited, credited_unit] = weight(fact.credited.as_ref());
    vec![
        number(entry.number),
        text(slot.as_str()),
        text(fact.lift.as_str()),
        number(attempt),
        said(&fact.session),
        said(&fact.flight),
        or_null(ruled.platform, number),
        requested,
        requested_unit,
        loaded,
        loaded_unit,
        credited,
        credited_unit,
        text(fact.ruling.word()),
        said(&lights),
        said(&faults.join(";")),
        or_null(fact.called_at, |at| text(at.to_string())),
        text(ruled.happened.unwrap_or(ruled.at).to_string()),
        said(&ruled.hand),
        Value::Integer(i64::try_from(ruled.seq).unwrap_or(i64::MAX)),
    ]
}

/// One row an entry and slot, and one for its total, as the standings by
/// category say.
fn standing_rows(day: &Day) -> Vec<Vec<Value>> {
    let facts = day.facts();
    let mut rows = Vec::new();
    for group in standings(facts, Basis::Category) {
        for line in &group.lines {
            let Some(entry) = facts.entries.get(&line.entry) else {
                continue;
            };
            let mut row = |slot: &str,
                           lift: Option<&str>,
                           best: Option<Mass>,
                           place: Option<u32>| {
                let best = best.map(|mass| Weight::computed(mass, facts.bar_unit));
                let [best, best_unit] = weight(best.as_ref());
                rows.push(vec![
                    number(entry.number),
                    text(slot),
                    or_null(lift, text),
                    best,
                    best_unit,
                    text(&group.label),
                    or_null(place, number),
                ]);
            };
            for (slot, result) in facts.slots.iter().zip(&line.slots) {
                let Some(lift) = &result.lift else { continue };
                let best = result.best.map(|(_, mass)| mass);
                row(slot.slot.as_str(), Some(lift.as_str()), best, result.place);
            }
            if line.total.is_some() {
                row("total", None, line.total, line.place);
            }
        }
    }
    rows
}
