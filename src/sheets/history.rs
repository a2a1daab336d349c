//! Earlier days, as a table.

use super::{Align, Cell, Column, Group, Table};
use crate::day::Facts;
use crate::measure::Unit;
use crate::standings::{Found, HistoryRow};

/// The key of the column in which a doubtful match is answered.
const SAME: &str = "same";

/// Each athlete's maxes in each lift over the days, one row a max, a group an
/// athlete.
///
/// Changes are from the row above in the same lift, in the row's unit. The smallest
/// worthwhile change goes by those of the day and sex; error, real change and the
/// verdict stand only where they are published for the lift and sex. A doubtful
/// match has `?` under `same` and counts for nothing. Private: it has all names.
pub fn history_table(facts: &Facts, rows: &[HistoryRow]) -> Table {
    let mut groups: Vec<(crate::roster::EntryKey, Group)> = Vec::new();
    for row in rows {
        let Some(entry) = facts.entries.get(&row.entry) else {
            continue;
        };
        let mut cells = vec![
            Cell::Count(i64::from(entry.number)),
            Cell::text(&entry.id),
            Cell::text(entry.name()),
        ];
        cells.extend(of_row(row));
        match groups.last_mut() {
            Some((key, group)) if *key == row.entry => group.rows.push(cells),
            _ => {
                let group = Group {
                    label: entry.name(),
                    remark: String::new(),
                    rows: vec![cells],
                };
                groups.push((row.entry, group));
            }
        }
    }
    Table {
        columns: columns(),
        groups: groups.into_iter().map(|(_, group)| group).collect(),
    }
}

fn columns() -> Vec<Column> {
    use Align::{Left, Right};
    [
        ("lot", "Lot", Right),
        ("id", "", Left),
        ("name", "Name", Left),
        ("lift", "Lift", Left),
        ("date", "Date", Left),
        ("max", "Max", Right),
        ("unit", "", Left),
        ("source", "From", Left),
        ("source number", "", Right),
        ("change", "Change", Right),
        ("smallest worthwhile change", "Worthwhile", Right),
        ("typical error", "Error", Right),
        ("real change", "Real", Right),
        ("verdict", "", Left),
        ("published", "", Left),
        ("personal best", "Best", Left),
        ("match", "", Left),
        (SAME, "", Left),
    ]
    .map(|(key, label, align)| Column::new(key, label, align))
    .to_vec()
}

fn of_row(row: &HistoryRow) -> Vec<Cell> {
    let unit = row.unit;
    let source = match (&row.source, row.date) {
        (Some(source), _) => source.as_str(),
        (None, Some(_)) => "today",
        (None, None) => "roster",
    };
    let number = row.number.and_then(|n| i64::try_from(n).ok());
    let mut cells = vec![
        Cell::text(row.lift.as_str()),
        Cell::text(row.date.map(|d| d.to_string()).unwrap_or_default()),
        Cell::Mass(row.max, unit),
        Cell::text(unit.symbol()),
        Cell::text(source),
        Cell::count(number),
        Cell::mass(row.change(), unit),
        Cell::text(
            row.worthwhile
                .map(|kg| in_unit(kg, unit))
                .unwrap_or_default(),
        ),
    ];
    match (row.published, row.before, row.change()) {
        (Some(published), Some(before), Some(change)) => cells.extend([
            Cell::text(published.error.of(before).rounded(unit, 2)),
            Cell::text(published.real.of(before).rounded(unit, 2)),
            Cell::text(published.verdict(before, change).word()),
            Cell::text(format!("{}: {}", published.source, published.who)),
        ]),
        _ => cells.extend([Cell::Blank, Cell::Blank, Cell::Blank, Cell::Blank]),
    }
    let (found, same) = match &row.found {
        None => (String::new(), ""),
        Some(Found::Id) => ("id".to_owned(), ""),
        Some(Found::Name) => ("name and birth".to_owned(), ""),
        Some(Found::Told) => ("told".to_owned(), "yes"),
        Some(Found::Doubtful(why)) => (format!("doubtful: {why}"), "?"),
    };
    cells.extend([
        Cell::text(if row.best { "yes" } else { "" }),
        Cell::text(found),
        Cell::text(same),
    ]);
    cells
}

/// Kilograms in a unit, to two places.
fn in_unit(kg: f64, unit: Unit) -> String {
    let per = crate::measure::Mass::whole(1, unit).kg_f64();
    format!("{:.2}", kg / per)
}
