//! Relative-strength scores: beside the standings, as standings, and who leads.

use super::posting::{Audience, name_for, shows_category, shows_score};
use super::results::{lift_name, table_of};
use super::{Align, Cell, Column, Group, Table};
use crate::day::Facts;
use crate::lift::Slug;
use crate::roster::SlotLine;
use crate::score::Scoring;
use crate::standings::{
    Basis, Leaders, Line, Over, leaders, score_of, standings, standings_by_score,
};

/// The standings with a column for each score at their end: of the lift where
/// they stand by lift, else of the total.
///
/// A cell is blank where there is no score, and where the audience may not see
/// it.
pub fn scored_standings_table(
    facts: &Facts,
    basis: Basis,
    scorings: &[Scoring],
    audience: Audience,
) -> Table {
    let groups = standings(facts, basis);
    table_of(facts, groups, basis == Basis::Division, scorings, audience)
}

/// The standings by a score, with its column and those of more scores at their
/// end.
///
/// The column `place` is the place by the first score. Where the audience may
/// not see scores, their columns are blank and the places stand alone.
pub fn standings_by_score_table(
    facts: &Facts,
    by: &Scoring,
    more: &[Scoring],
    audience: Audience,
) -> Table {
    let mut scorings = vec![by.clone()];
    scorings.extend(more.iter().cloned());
    let groups = standings_by_score(facts, by);
    // Its groups are no bodyweight categories, so their names hide nothing.
    table_of(facts, groups, true, &scorings, audience)
}

/// The column of a score.
pub(super) fn score_column(scoring: &Scoring) -> Column {
    let header = scoring.header();
    let label = scoring.formula.title();
    Column::new(&header, label, Align::Right)
}

/// A line's score as a cell: blank where there is none, or where the audience
/// may not see it.
pub(super) fn score_cell(
    facts: &Facts,
    line: &Line,
    slot: Option<&Slug>,
    scoring: &Scoring,
    audience: Audience,
) -> Cell {
    if !shows_score(facts, scoring, audience) {
        return Cell::Blank;
    }
    match score_of(facts, line, slot, scoring) {
        Ok(score) => Cell::text(score.shown()),
        Err(_) => Cell::Blank,
    }
}

/// Who leads by a score in each group, for boards and papers.
///
/// Each with the load that was scored (`load`) and the score; where the audience
/// may not see the score, the place stands beside the load alone. A hidden
/// bodyweight category is named only by a running number.
pub fn leaders_table(
    facts: &Facts,
    scoring: &Scoring,
    slot: Option<&Slug>,
    over: Over,
    most: Option<u32>,
    audience: Audience,
) -> Table {
    use Align::{Left, Right};
    let shown = shows_score(facts, scoring, audience);
    let mut columns = vec![
        Column::new("group", "", Left),
        Column::new("place", "Place", Right),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("sex", "Sex", Left),
        Column::new("team", "Team", Left),
        Column::new("load", &format!("Load {}", facts.bar_unit), Right),
        Column::new("bar unit", "", Left),
    ];
    if shown {
        columns.push(score_column(scoring));
    }
    let hides = over == Over::Category
        && !shows_category(facts, audience)
        && !matches!(facts.rules.categories.as_str(), "none" | "flight");
    let mut numbers: Vec<String> = Vec::new();
    let groups = leaders(facts, scoring, slot, over, most)
        .into_iter()
        .map(|mut of| {
            if hides {
                if !numbers.contains(&of.label) {
                    numbers.push(of.label.clone());
                }
                let at = numbers.iter().position(|l| *l == of.label);
                of.label = format!("group {}", at.unwrap_or_default() + 1);
            }
            let label = heading(facts, &of, slot);
            let row = |l: &crate::standings::Leader| {
                let entry = facts.entries.get(&l.entry)?;
                let mut row = vec![
                    Cell::text(&label),
                    Cell::count(Some(l.place)),
                    Cell::Count(i64::from(entry.number)),
                    Cell::text(name_for(facts, entry, audience)),
                    Cell::text(entry.sex.map_or("", |s| s.letter())),
                    Cell::text(&entry.team),
                    Cell::mass(Some(l.load), facts.bar_unit),
                    Cell::text(facts.bar_unit.symbol()),
                ];
                if shown {
                    row.push(Cell::text(l.score.shown()));
                }
                Some(row)
            };
            Group {
                rows: of.leaders.iter().filter_map(row).collect(),
                remark: String::new(),
                label,
            }
        })
        .collect();
    Table { columns, groups }
}

/// The group's label, with the lifts where they aren't the programme's own or
/// where only one of a programme of several is scored.
fn heading(facts: &Facts, of: &Leaders, slot: Option<&Slug>) -> String {
    let own = facts.slots.iter().map(SlotLine::default_variant);
    if slot.is_none() && of.lifts.iter().eq(own) {
        return of.label.clone();
    }
    let names: Vec<String> = of.lifts.iter().map(lift_name).collect();
    format!("{}, {}", of.label, names.join(", "))
}

/// What a sheet with such scores says at its foot, in sentences: formulas,
/// sources, what of them is from memory, and why scores may be missing.
pub fn score_notes(
    facts: &Facts,
    scorings: &[Scoring],
    audience: Audience,
) -> Vec<String> {
    let mut notes = Vec::new();
    for scoring in scorings {
        notes.extend(scoring.notes(facts.date));
    }
    if scorings.iter().any(|s| !shows_score(facts, s, audience)) {
        notes.push(
            "Only places by score are shown: beside a load the score would give the \
             bodyweight or the age away."
                .to_owned(),
        );
    }
    notes
}
