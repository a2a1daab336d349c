//! `maxday training`

use std::path::Path;

use crate::cli::{Failure, print};
use crate::day::Facts;
use crate::exchange::tables::{Style, csv};
use crate::file::Live;
use crate::sheets::{
    Cell, SquadBy, Table, read_percents, training_percents, training_table,
};

pub(in crate::cli) fn run(
    file: &Path,
    team: Option<&str>,
    percents: &[String],
    posted: bool,
) -> Result<(), Failure> {
    if posted {
        return Err(Failure(
            "Training loads are for the athlete and the coach and are never posted; leave \
             --posted out."
                .to_owned(),
        ));
    }
    let percents = match percents {
        [] => training_percents().to_vec(),
        words => read_percents(words.iter().map(String::as_str))?,
    };
    let live = Live::open_read(file)?;
    let facts = live.day().facts();
    let mut table = training_table(facts, &percents, SquadBy::of(facts));
    if let Some(team) = team {
        keep(&mut table, known(facts, team)?);
    }
    print(&csv(&table, Style::Stdout))
}

/// The team as the day writes it.
fn known<'a>(facts: &'a Facts, team: &str) -> Result<&'a str, Failure> {
    let wanted = team.trim().to_lowercase();
    let teams = facts.entries.values().map(|e| e.team.as_str());
    let mut teams: Vec<&str> = teams.filter(|t| !t.is_empty()).collect();
    teams.sort_unstable();
    teams.dedup();
    let found = teams.iter().find(|t| t.to_lowercase() == wanted);
    found.copied().ok_or_else(|| {
        Failure(if teams.is_empty() {
            format!("“{team}” is no team of this day; it has none.")
        } else {
            format!(
                "“{team}” is no team of this day; it has {}.",
                teams.join(", ")
            )
        })
    })
}

/// Keeps the rows of one team.
fn keep(table: &mut Table, team: &str) {
    let at = table.columns.iter().position(|c| c.key == "team");
    let wanted = Cell::text(team);
    for group in &mut table.groups {
        let of = |row: &Vec<Cell>| at.and_then(|at| row.get(at)) == Some(&wanted);
        group.rows.retain(of);
    }
}
