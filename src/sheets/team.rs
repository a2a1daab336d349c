//! Teams, as a table.

use std::collections::BTreeMap;

use super::posting::{Audience, name_for};
use super::{Align, Cell, Column, Group, Table};
use crate::day::Facts;
use crate::roster::EntryKey;
use crate::standings::{TeamLine, teams};

/// The teams by their points, with whose places brought them.
///
/// Each athlete is named as the audience may see it, with the points of every
/// place that counts, the highest first: `Ada Quinn (28 + 25)`. No row where
/// the rules give teams no points.
pub fn team_table(facts: &Facts, audience: Audience) -> Table {
    use Align::{Left, Right};
    let rows: Vec<Vec<Cell>> = teams(facts)
        .iter()
        .map(|line| {
            vec![
                Cell::count(line.place),
                Cell::text(&line.team),
                Cell::Count(i64::from(line.points)),
                Cell::text(athletes(facts, line, audience)),
            ]
        })
        .collect();
    let group = Group {
        rows,
        ..Group::default()
    };
    Table {
        columns: vec![
            Column::new("place", "Place", Right),
            Column::new("team", "Team", Left),
            Column::new("points", "Points", Right),
            Column::new("athletes", "Athletes", Left),
        ],
        groups: if group.rows.is_empty() {
            Vec::new()
        } else {
            vec![group]
        },
    }
}

fn athletes(facts: &Facts, line: &TeamLine, audience: Audience) -> String {
    let mut points: BTreeMap<EntryKey, Vec<String>> = BTreeMap::new();
    let mut order = Vec::new();
    for score in &line.scores {
        let own = points.entry(score.entry).or_default();
        if own.is_empty() {
            order.push(score.entry);
        }
        own.push(score.points.to_string());
    }
    let words: Vec<String> = order
        .into_iter()
        .filter_map(|key| {
            let entry = facts.entries.get(&key)?;
            let points = points.get(&key)?;
            let name = match name_for(facts, entry, audience) {
                name if name.is_empty() => format!("lot {}", entry.number),
                name => name,
            };
            Some(format!("{name} ({})", points.join(" + ")))
        })
        .collect();
    words.join("; ")
}
