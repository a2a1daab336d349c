//! Clubs and their members, as a part of a paper.

use super::Order;
use super::shared::{capital, hide_empty};
use crate::day::Facts;
use crate::papers::{Block, TableStyle};
use crate::sheets::{Audience, Table, clubs_table, hides_clubs};

/// Adds the clubs that may be seen, and gives their table; `None` where the day has
/// none.
pub(super) fn section(
    facts: &Facts,
    order: &Order,
    blocks: &mut Vec<Block>,
) -> Option<Table> {
    if facts.rules.clubs.is_empty() {
        return None;
    }
    let table = clubs_table(facts, order.audience);
    blocks.push(Block::heading("Clubs"));
    if !table.groups.is_empty() {
        let mut shown = table.clone();
        for group in &mut shown.groups {
            group.label = capital(&group.label);
        }
        hide_empty(&mut shown, &["name", "sex", "team", "times"]);
        blocks.push(Block::table(shown, style(order)));
    }
    let mut words = "Good attempts of one repetition count, in the very lifts that are \
                     named; loads are compared exactly, whatever their unit."
        .to_owned();
    if hides_clubs(facts, order.audience) {
        words.push_str(
            " Clubs by bodyweight aren't posted where bodyweights are hidden: who is in \
             one, and who isn't, would tell of a bodyweight.",
        );
    }
    blocks.push(Block::small(words));
    Some(table)
}

fn style(order: &Order) -> TableStyle {
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    style
        .bold(["name"])
        .parted(["load"])
        .lines(3)
        .empty("Nobody yet.")
}
