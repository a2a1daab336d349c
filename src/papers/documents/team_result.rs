//! The team result, as the last section of the results.

use super::Order;
use super::shared::hide_empty;
use crate::day::Facts;
use crate::papers::{Block, TableStyle};
use crate::rules::{TeamScores, TeamTie};
use crate::sheets::{Audience, Table, team_table};

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
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    let style = style.bold(["place", "team", "points"]).lines(30);
    let mut shown = table.clone();
    hide_empty(&mut shown, &["place", "athletes"]);
    blocks.push(Block::KeepTogether(vec![
        Block::space(16.0),
        Block::heading("Team result"),
        Block::table(shown, style),
        Block::small(words(facts)),
    ]));
    Some(table)
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
