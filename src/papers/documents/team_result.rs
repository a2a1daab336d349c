//! The team result: a paper of its own, and the last section of the results.

use super::revision::{all_sessions, state};
use super::shared::{frame, hide, hide_empty, title};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, TableStyle};
use crate::rules::{TeamScores, TeamTie};
use crate::sheets::{Audience, Table, team_scores_table, team_table};

/// The team result alone, to hang beside the results.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let mut blocks = Vec::new();
    let table = team_table(facts, order.audience);
    if table.is_empty() {
        let why = if facts.rules.teams.points.is_empty() {
            "This day's rules give teams no points."
        } else if facts.entries.is_empty() {
            "Nobody is entered yet."
        } else {
            "No team has points yet."
        };
        blocks.push(Block::paragraph(why));
    } else {
        blocks.extend(shown(facts, order, &table));
    }
    let frame = frame(facts, order, &title("Team result", order.audience)).state(state(
        facts,
        &all_sessions(facts),
        order.audience,
    ));
    Draft::new(frame, blocks, vec![("team-result".to_owned(), table)])
}

/// Adds the team result, where the rules give points and anybody has a team;
/// returns its table.
pub(super) fn section(
    facts: &Facts,
    order: &Order,
    blocks: &mut Vec<Block>,
) -> Option<Table> {
    let table = team_table(facts, order.audience);
    if table.is_empty() {
        return None;
    }
    let mut together = vec![Block::space(16.0), Block::heading("Team result")];
    together.extend(shown(facts, order, &table));
    blocks.push(Block::KeepTogether(together));
    Some(table)
}

/// The teams in a table, then in another whose places count.
fn shown(facts: &Facts, order: &Order, table: &Table) -> Vec<Block> {
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    let style = style.bold(["place", "team", "points"]).lines(3);
    let mut shown = table.clone();
    hide_empty(&mut shown, &["place"]);
    hide(&mut shown, "athletes");
    let mut blocks = vec![Block::table(shown, style), Block::small(words(facts))];
    let whose = team_scores_table(facts, order.audience);
    if !whose.groups.is_empty() {
        let style = TableStyle::working()
            .size(10.0)
            .row_height(15.0)
            .bold(["sum"]);
        blocks.push(Block::heading("Whose places count"));
        blocks.push(Block::table(whose, style.lines(3)));
    }
    blocks
}

/// How the points come about.
fn words(facts: &Facts) -> String {
    let rules = &facts.rules.teams;
    let of = match rules.scores {
        TeamScores::Total => "in the total",
        TeamScores::Lifts => "in each lift",
        TeamScores::All => "in each lift and in the total",
    };
    let points: Vec<String> = rules.points.iter().map(u32::to_string).collect();
    let on = if rules.goes_on { " and so on" } else { "" };
    let mut words = format!("Points by place {of}: {}{on}.", points.join(" "));
    if let Some(most) = rules.per_group {
        words.push_str(&format!(" At most {most} of a team score in one group."));
    }
    if let Some(best) = rules.best {
        words.push_str(&format!(" The best {best} scores of a team count."));
    }
    let ties = rules.ties.iter().take_while(|t| **t != TeamTie::Shared);
    let ties: Vec<&str> = ties
        .map(|tie| match tie {
            TeamTie::Places => "more first places, then seconds and so on",
            TeamTie::Sum => "the higher sum of the totals that scored",
            TeamTie::Shared => "",
        })
        .collect();
    if !ties.is_empty() {
        words.push_str(&format!(" Equal points: {}.", ties.join("; then ")));
    }
    words
}
