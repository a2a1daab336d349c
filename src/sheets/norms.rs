//! Bands of a coach's norms, as a table.

use super::{Align, Cell, Column, Group, Table, lift_name};
use crate::day::Facts;
use crate::score::{Band, Norms};
use crate::standings::{BandRow, bands};

/// Everybody's results with the bands of percentiles into which they fall, one row a
/// result and table of norms. Private: it compares children by name.
pub fn norms_table(facts: &Facts, norms: &Norms) -> Table {
    use Align::{Left, Right};
    let columns = [
        ("lot", "Lot", Right),
        ("id", "", Left),
        ("name", "Name", Left),
        ("lift", "Lift", Left),
        ("best", "Best", Right),
        ("bar unit", "", Left),
        ("norm", "Norm", Left),
        ("from percentile", "", Right),
        ("below percentile", "", Right),
        ("band", "Percentile", Left),
        ("remark", "", Left),
    ];
    let rows = bands(facts, norms);
    let row = |row: &BandRow| {
        let entry = facts.entries.get(&row.entry)?;
        let lift = row.lift.as_ref().map_or("total", |l| l.as_str());
        let percentile = |of: fn(Band) -> Option<u8>| {
            Cell::count(row.band.and_then(of).map(i64::from))
        };
        Some(vec![
            Cell::Count(i64::from(entry.number)),
            Cell::text(&entry.id),
            Cell::text(entry.name()),
            Cell::text(lift),
            Cell::mass(Some(row.load), facts.bar_unit),
            Cell::text(facts.bar_unit.symbol()),
            Cell::text(row.norm.clone().unwrap_or_default()),
            percentile(|band| band.from),
            percentile(|band| band.below),
            Cell::text(row.band.map_or_else(String::new, Band::words)),
            Cell::text(remark(row)),
        ])
    };
    Table {
        columns: columns
            .into_iter()
            .map(|(key, label, align)| Column::new(key, label, align))
            .collect(),
        groups: vec![Group {
            rows: rows.iter().filter_map(row).collect(),
            ..Group::default()
        }],
    }
}

/// Why there is no band; nothing where there is one.
fn remark(row: &BandRow) -> &'static str {
    match (&row.norm, row.band) {
        (None, _) => "no norm",
        (Some(_), None) => "no bodyweight",
        (Some(_), Some(_)) => "",
    }
}

/// An athlete's bands, a sentence a result, for the own report; nothing where no norm
/// is for them.
pub fn norm_words(facts: &Facts, rows: &[BandRow]) -> Vec<String> {
    let mut words = Vec::new();
    for of_result in rows.chunk_by(|a, b| a.entry == b.entry && a.lift == b.lift) {
        let bands: Vec<String> = of_result
            .iter()
            .filter_map(|row| {
                let (norm, band) = (row.norm.as_ref()?, row.band?);
                Some(format!("{} ({norm})", band.words()))
            })
            .collect();
        let Some(first) = of_result.first().filter(|_| !bands.is_empty()) else {
            continue;
        };
        let lift = first.lift.as_ref();
        let lift = lift.map_or_else(|| "total".to_owned(), lift_name);
        let load = first.load.show_with_unit(facts.bar_unit);
        words.push(format!("{lift} {load}: percentile {}.", bands.join("; ")));
    }
    words
}
