//! The record book, as a table.

use super::posting::{Audience, shows_category};
use super::{Align, Cell, Column, Group, Table, lift_name, name_for};
use crate::day::{Facts, lifts_of_total};
use crate::lift::Slug;
use crate::roster::split_name;
use crate::rules::NameShown;
use crate::standings::{RecordLine, records};

/// The record book as it stands, one row a record, a group a lift; what the day
/// broke is marked `new` under `today`, with what stood before behind it.
///
/// The first columns are those of a book that is taken in, so that a printed one
/// is the book of the next day. For posting, names are shown as the policy has
/// them, and records by category are left out where categories are hidden.
pub fn records_table(facts: &Facts, audience: Audience) -> Table {
    table_of(facts, records(facts).iter(), audience)
}

/// The records that the day broke, as [`records_table`] shows them.
pub fn new_records_table(facts: &Facts, audience: Audience) -> Table {
    let lines = records(facts);
    table_of(facts, lines.iter().filter(|l| !l.set.is_empty()), audience)
}

/// Whether the book has records that may not be posted.
pub fn hides_records(facts: &Facts, audience: Audience) -> bool {
    let mut keys = facts.records.keys();
    !shows_category(facts, audience) && keys.any(|key| !key.category.is_empty())
}

/// A lift's name, or a total's in words.
pub(super) fn record_name(lift: &Slug) -> String {
    match lifts_of_total(lift.as_str()) {
        Some(_) => lift.as_str().replace('-', " "),
        None => lift_name(lift),
    }
}

fn table_of<'a>(
    facts: &'a Facts,
    lines: impl Iterator<Item = &'a RecordLine<'a>>,
    audience: Audience,
) -> Table {
    let mut groups: Vec<(&Slug, Group)> = Vec::new();
    for line in lines {
        if !line.key.category.is_empty() && !shows_category(facts, audience) {
            continue;
        }
        let row = row(facts, line, audience);
        match groups.last_mut() {
            Some((lift, group)) if **lift == line.key.lift => group.rows.push(row),
            _ => groups.push((
                &line.key.lift,
                Group {
                    label: record_name(&line.key.lift),
                    remark: String::new(),
                    rows: vec![row],
                },
            )),
        }
    }
    Table {
        columns: columns(),
        groups: groups.into_iter().map(|(_, group)| group).collect(),
    }
}

fn columns() -> Vec<Column> {
    use Align::{Left, Right};
    vec![
        Column::new("lift", "", Left),
        Column::new("sex", "Sex", Left),
        Column::new("category", "Category", Left),
        Column::new("division", "Division", Left),
        Column::new("load", "Record", Right),
        Column::new("unit", "", Left),
        Column::new("holder", "Holder", Left),
        Column::new("date", "Date", Left),
        Column::new("place", "Place", Left),
        Column::new("today", "Today", Left),
        Column::new("old load", "Load", Right).under("Before"),
        Column::new("old unit", "", Left).under("Before"),
        Column::new("old holder", "Holder", Left).under("Before"),
        Column::new("old date", "Date", Left).under("Before"),
        Column::new("old place", "", Left).under("Before"),
    ]
}

fn row(facts: &Facts, line: &RecordLine<'_>, audience: Audience) -> Vec<Cell> {
    let key = line.key;
    let mut row = vec![
        Cell::text(key.lift.as_str()),
        Cell::text(key.sex.map_or("", |s| s.letter())),
        Cell::text(&key.category),
        Cell::text(&key.division),
    ];
    let book = book_cells(facts, line, audience);
    match line.set.last() {
        None => {
            row.extend(book);
            row.resize(15, Cell::Blank);
        }
        Some(set) => {
            let holder = facts.entries.get(&set.entry);
            let unit = set.load.unit;
            row.extend([
                Cell::Mass(set.load.mass, unit),
                Cell::text(unit.symbol()),
                Cell::text(holder.map_or_else(String::new, |e| {
                    match name_for(facts, e, audience) {
                        name if name.is_empty() => format!("lot {}", e.number),
                        name => name,
                    }
                })),
                Cell::text(facts.date.to_string()),
                Cell::text(if facts.venue.is_empty() {
                    &facts.name
                } else {
                    &facts.venue
                }),
                Cell::text("new"),
            ]);
            row.extend(book);
        }
    }
    row
}

/// Load, unit, holder, date and place as the book has them.
fn book_cells(facts: &Facts, line: &RecordLine<'_>, audience: Audience) -> [Cell; 5] {
    let mark = line.mark;
    let load = mark.load.as_ref();
    let unit = load.map_or("", |w| w.unit.symbol());
    [
        load.map_or(Cell::Blank, |w| Cell::Mass(w.mass, w.unit)),
        Cell::text(unit),
        Cell::text(holder(facts, &mark.holder, audience)),
        Cell::text(&mark.date),
        Cell::text(&mark.place),
    ]
}

/// The holder's name as the audience may see it; many were pupils themselves.
fn holder(facts: &Facts, name: &str, audience: Audience) -> String {
    match (audience, facts.rules.posting.name) {
        (Audience::Private, _) | (_, NameShown::Full) => name.to_owned(),
        (Audience::Posted, NameShown::Number) => String::new(),
        (Audience::Posted, NameShown::Initial) => {
            let (given, family) = split_name(name);
            let initial: String = family.chars().take(1).collect();
            match (given.is_empty(), initial.is_empty()) {
                (_, true) => given,
                (true, false) => format!("{initial}."),
                (false, false) => format!("{given} {initial}."),
            }
        }
    }
}
