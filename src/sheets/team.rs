//! Teams, as a table.

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

/// Whose places count for each team, in the order of the teams: the points of each
/// place, and their sum.
pub fn team_scores_table(facts: &Facts, audience: Audience) -> Table {
    use Align::{Left, Right};
    let groups = teams(facts)
        .into_iter()
        .filter(|line| !line.scores.is_empty());
    let groups = groups.map(|line| Group {
        rows: scores(&line)
            .into_iter()
            .filter_map(|(key, points)| {
                let sum: u32 = points.iter().sum();
                let points: Vec<String> = points.iter().map(u32::to_string).collect();
                Some(vec![
                    Cell::text(named(facts, key, audience)?),
                    Cell::text(points.join(" + ")),
                    Cell::Count(i64::from(sum)),
                ])
            })
            .collect(),
        label: line.team,
        ..Group::default()
    });
    Table {
        columns: vec![
            Column::new("athlete", "Athlete", Left),
            Column::new("places", "Points of each place", Left),
            Column::new("sum", "Points", Right),
        ],
        groups: groups.collect(),
    }
}

/// The points of each athlete's places, in the order of the best of them.
fn scores(line: &TeamLine) -> Vec<(EntryKey, Vec<u32>)> {
    let mut own: Vec<(EntryKey, Vec<u32>)> = Vec::new();
    for score in &line.scores {
        match own.iter_mut().find(|(key, _)| *key == score.entry) {
            Some((_, points)) => points.push(score.points),
            None => own.push((score.entry, vec![score.points])),
        }
    }
    own
}

/// An athlete as the audience may see it; the lot where that is all.
fn named(facts: &Facts, key: EntryKey, audience: Audience) -> Option<String> {
    let entry = facts.entries.get(&key)?;
    Some(match name_for(facts, entry, audience) {
        name if name.is_empty() => format!("lot {}", entry.number),
        name => name,
    })
}

fn athletes(facts: &Facts, line: &TeamLine, audience: Audience) -> String {
    let words = scores(line).into_iter().filter_map(|(key, points)| {
        let points: Vec<String> = points.iter().map(u32::to_string).collect();
        let name = named(facts, key, audience)?;
        Some(format!("{name} ({})", points.join(" + ")))
    });
    let words: Vec<String> = words.collect();
    words.join("; ")
}
