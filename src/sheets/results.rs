//! Standings and attempts, as tables.

use super::cell::ruling_words;
use super::posting::{Audience, name_for, shows_bodyweight, shows_category};
use super::scores::Beside;
use super::{Align, Cell, Column, Group, Table};
use crate::day::{Facts, Light, Ruled, Ruling};
use crate::lift::{Slug, catalogue};
use crate::measure::Unit;
use crate::roster::Entry;
use crate::rules::Reps;
use crate::standings::{Basis, Line, category_label, day_scores, standings};

/// A lift's name for people, or its slug where the catalogue has none.
pub fn lift_name(slug: &Slug) -> String {
    catalogue()
        .get(slug.as_str())
        .map_or_else(|| slug.to_string(), |l| l.name.clone())
}

/// A lift's short name for a narrow heading.
pub fn lift_short(slug: &Slug) -> String {
    catalogue()
        .get(slug.as_str())
        .map_or_else(|| slug.to_string(), |l| l.short.clone())
}

/// The standings: one row an entry, grouped; see the CSV's columns. At their end a
/// column for each of the day's scores, and its clubs.
///
/// Hidden details of a posted sheet are blank; a hidden category is named
/// only by a running number. Who isn't placed has neither place nor, when
/// disqualified, a total; [`with_notes`](super::with_notes) says why.
pub fn standings_table(facts: &Facts, basis: Basis, audience: Audience) -> Table {
    let beside = Beside::new(facts, day_scores(facts), audience);
    let groups = standings(facts, basis);
    table_of(facts, groups, basis == Basis::Division, beside, audience)
}

/// Standings as a table, with what stands beside the results at its end.
///
/// Divisions may be named where bodyweight categories are hidden.
pub(super) fn table_of(
    facts: &Facts,
    groups: Vec<crate::standings::Group>,
    divisions: bool,
    mut beside: Beside<'_>,
    audience: Audience,
) -> Table {
    let widths: Vec<u8> = facts.slots.iter().map(|l| facts.widest(&l.slot)).collect();
    let groups = groups
        .into_iter()
        .enumerate()
        .map(|(i, group)| {
            let hides = !divisions
                && !shows_category(facts, audience)
                && !matches!(facts.rules.categories.as_str(), "none" | "flight");
            let label = if hides && !group.label.is_empty() {
                format!("group {}", i + 1)
            } else {
                group.label
            };
            let mut row = |line: &Line| {
                let entry = facts.entries.get(&line.entry)?;
                let mut row = standing_row(facts, entry, line, &label, audience, &widths);
                row.extend(beside.cells(line, group.slot.as_ref()));
                Some(row)
            };
            Group {
                rows: group.lines.iter().filter_map(&mut row).collect(),
                remark: if hides { String::new() } else { group.remark },
                label,
            }
        })
        .collect();
    let mut columns = standing_columns(facts);
    columns.extend(beside.columns());
    Table { columns, groups }
}

fn standing_columns(facts: &Facts) -> Vec<Column> {
    use Align::{Left, Right};
    let mut columns = vec![
        Column::new("group", "", Left),
        Column::new("place", "Place", Right),
        Column::new("lot", "Lot", Right),
        Column::new("id", "", Left),
        Column::new("name", "Name", Left),
        Column::new("sex", "Sex", Left),
        Column::new("grade", "Grade", Left),
        Column::new("category", "Category", Left),
        Column::new("division", "Division", Left),
        Column::new("team", "Team", Left),
        Column::new("session", "", Left),
        Column::new("bodyweight", "Body", Right),
        Column::new("scale unit", "", Left),
        Column::new("bar unit", "", Left),
    ];
    for line in &facts.slots {
        let slot = line.slot.as_str();
        let span = slot_heading(line);
        let label = if line.variants.len() > 1 { "Lift" } else { "" };
        columns.push(Column::new(&format!("{slot} lift"), label, Left).under(&span));
        for n in 1..=facts.widest(&line.slot) {
            columns.push(
                Column::new(&format!("{slot} {n}"), &n.to_string(), Right)
                    .under(&span)
                    .attempts(),
            );
        }
        columns.push(Column::new(&format!("{slot} best"), "Best", Right).under(&span));
        columns.push(Column::new(&format!("{slot} place"), "Pl.", Right).under(&span));
        if facts.rules.reps == Reps::Multiple {
            let key = format!("{slot} estimate");
            columns.push(Column::new(&key, "Est.", Right).under(&span));
        }
    }
    columns.push(Column::new("total", "Total", Right));
    columns
}

/// The heading of a slot: the lift's name, or the slot's own.
fn slot_heading(line: &crate::roster::SlotLine) -> String {
    let name = match line.variants.as_slice() {
        [only] => lift_name(only),
        _ => line.slot.as_str().replace('-', " "),
    };
    let mut letters = name.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => name,
    }
}

fn standing_row(
    facts: &Facts,
    entry: &Entry,
    line: &Line,
    label: &str,
    audience: Audience,
    widths: &[u8],
) -> Vec<Cell> {
    let posted = audience == Audience::Posted;
    let bodyweight = entry
        .bodyweight
        .as_ref()
        .filter(|_| shows_bodyweight(facts, audience));
    let category = if shows_category(facts, audience) {
        category_label(facts, entry)
    } else {
        String::new()
    };
    let mut row = vec![
        Cell::text(label),
        Cell::count(line.place),
        Cell::Count(i64::from(entry.number)),
        Cell::text(if posted { "" } else { &entry.id }),
        Cell::text(name_for(facts, entry, audience)),
        Cell::text(entry.sex.map_or("", |s| s.letter())),
        Cell::text(&entry.grade),
        Cell::text(category),
        Cell::text(entry.divisions.join("; ")),
        Cell::text(&entry.team),
        Cell::text(&entry.session),
        Cell::mass(bodyweight.map(|w| w.mass), facts.scale_unit),
        Cell::text(facts.scale_unit.symbol()),
        Cell::text(facts.bar_unit.symbol()),
    ];
    for ((slot, result), width) in facts.slots.iter().zip(&line.slots).zip(widths) {
        row.push(Cell::text(
            result.lift.as_ref().map_or("", |lift| lift.as_str()),
        ));
        for n in 1..=*width {
            row.push(attempt_cell(facts, entry, &slot.slot, n));
        }
        row.push(Cell::mass(result.best.map(|(_, m)| m), facts.bar_unit));
        row.push(Cell::count(result.place));
        if facts.rules.reps == Reps::Multiple {
            row.push(result.estimate.map_or(Cell::Blank, |(_, mass)| {
                Cell::Estimate(mass, facts.bar_unit)
            }));
        }
    }
    row.push(Cell::mass(line.total, facts.bar_unit));
    row
}

/// A ruled attempt as a cell; blank where it isn't ruled. A pass has no load.
pub fn attempt_cell(facts: &Facts, entry: &Entry, slot: &Slug, attempt: u8) -> Cell {
    let ruled = facts
        .attempt(entry.key, slot, attempt)
        .and_then(|a| a.ruled.as_ref());
    match ruled {
        None => Cell::Attempt {
            load: None,
            unit: facts.bar_unit,
            ruling: None,
            reps: 1,
        },
        Some(ruled) => ruled_cell(ruled, facts.bar_unit),
    }
}

fn ruled_cell(ruled: &Ruled, unit: Unit) -> Cell {
    let fact = &ruled.fact;
    let load = fact.credited.as_ref().or(fact.loaded.as_ref());
    Cell::Attempt {
        load: load.filter(|_| fact.ruling != Ruling::Pass).map(|w| w.mass),
        unit,
        ruling: Some(fact.ruling.clone()),
        reps: fact.reps,
    }
}

/// Every ruled attempt, one row each, in the order in which they were taken.
pub fn attempts_table(facts: &Facts, audience: Audience) -> Table {
    use Align::{Left, Right};
    let columns = vec![
        Column::new("lot", "Lot", Right),
        Column::new("id", "", Left),
        Column::new("name", "Name", Left),
        Column::new("session", "Session", Left),
        Column::new("platform", "Platform", Right),
        Column::new("flight", "Flight", Left),
        Column::new("slot", "", Left),
        Column::new("lift", "Lift", Left),
        Column::new("attempt", "No.", Right),
        Column::new("requested", "Asked", Right),
        Column::new("loaded", "Loaded", Right),
        Column::new("credited", "Credited", Right),
        Column::new("bar unit", "", Left),
        Column::new("ruling", "Ruling", Left),
        Column::new("lights", "Lights", Left),
        Column::new("faults", "Faults", Left),
        Column::new("called at", "Called", Left),
        Column::new("ruled at", "Ruled", Left),
        Column::new("by", "By", Left),
    ];
    let mut ruled: Vec<(&Entry, &Ruled)> = Vec::new();
    for (key, slots) in &facts.runs {
        let Some(entry) = facts.entries.get(key) else {
            continue;
        };
        for attempt in slots.values().flat_map(|run| run.attempts.values()) {
            ruled.extend(
                attempt
                    .void
                    .iter()
                    .chain(&attempt.ruled)
                    .map(|r| (entry, r)),
            );
        }
    }
    ruled.sort_by_key(|(_, r)| r.seq);
    let rows = ruled
        .into_iter()
        .map(|(entry, r)| attempt_row(facts, entry, r, audience))
        .collect();
    Table {
        columns,
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    }
}

fn attempt_row(
    facts: &Facts,
    entry: &Entry,
    ruled: &Ruled,
    audience: Audience,
) -> Vec<Cell> {
    let fact = &ruled.fact;
    let unit = facts.bar_unit;
    let posted = audience == Audience::Posted;
    let mass =
        |w: &Option<crate::measure::Weight>| Cell::mass(w.as_ref().map(|w| w.mass), unit);
    let credited = fact.credited.as_ref().filter(|_| fact.ruling.is_good());
    let stamp = |s: crate::day::Stamp| s.local().format("%Y-%m-%dT%H:%M:%S").to_string();
    vec![
        Cell::Count(i64::from(entry.number)),
        Cell::text(if posted { "" } else { &entry.id }),
        Cell::text(name_for(facts, entry, audience)),
        Cell::text(&fact.session),
        Cell::count(ruled.platform),
        Cell::text(&fact.flight),
        Cell::text(fact.slot.as_str()),
        Cell::text(fact.lift.as_str()),
        Cell::Count(i64::from(fact.attempt)),
        mass(&fact.requested),
        mass(&fact.loaded),
        Cell::mass(credited.map(|w| w.mass), unit),
        Cell::text(unit.symbol()),
        Cell::text(ruling_words(&fact.ruling, fact.reps)),
        Cell::text(lights_word(&fact.lights)),
        Cell::text(faults_word(ruled)),
        Cell::text(fact.called_at.map(stamp).unwrap_or_default()),
        Cell::text(stamp(ruled.happened.unwrap_or(ruled.at))),
        // Who typed is a person too, often a pupil.
        Cell::text(if posted { "" } else { &ruled.hand }),
    ]
}

/// One letter a judge, `w` or `r`.
pub fn lights_word(lights: &[Light]) -> String {
    lights
        .iter()
        .map(|l| match l {
            Light::White => 'w',
            Light::Red => 'r',
        })
        .collect()
}

/// Fault codes, each once, parted by spaces.
fn faults_word(ruled: &Ruled) -> String {
    let mut codes: Vec<&str> = Vec::new();
    for fault in &ruled.fact.faults {
        if !codes.contains(&fault.code.as_str()) {
            codes.push(&fault.code);
        }
    }
    codes.join(" ")
}
