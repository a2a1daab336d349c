//! The percent table of whole squads, for the coach's wall or clipboard.

use super::shared::{capital, frame_with_units};
use super::training_sheets::{EMPTY, legend};
use super::{Draft, Order};
use crate::day::Facts;
use crate::lift::Slug;
use crate::papers::{Block, TableStyle};
use crate::sheets::{
    Cell, SquadBy, Table, lift_short, training_percents, training_rows, training_table,
};

/// All maxes with their loads in one table, squad by squad.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let percents = training_percents();
    let by = SquadBy::of(facts);
    let twin = training_table(facts, percents, by);
    let rows = training_rows(facts, percents);
    let frame = frame_with_units(facts, order, "Training loads, private").landscape();
    let mut shown = twin.clone();
    for group in &mut shown.groups {
        group.label = capital(&group.label);
    }
    named(&mut shown);
    let style = TableStyle::working()
        .size(12.0)
        .row_height(19.0)
        .bold(["name", "max"])
        .lines(2)
        .empty(EMPTY);
    let mut blocks = vec![Block::table(shown, style)];
    let lacking = without(facts, &rows.iter().map(|r| r.entry).collect::<Vec<_>>());
    let mut words = format!(
        "Private: for the coach. Percentages of the max on the athlete's own bar, rounded \
         down to the discs on hand.{}",
        legend(rows.iter())
    );
    if !lacking.is_empty() && !rows.is_empty() {
        words.push_str(&format!(" No max yet: {lacking}."));
    }
    blocks.push(Block::small(words));
    Draft::new(frame, blocks, vec![("training-squad".to_owned(), twin)])
}

/// Lifts are named for people. Names stand on every row: a page may begin with
/// an athlete's second lift.
fn named(table: &mut Table) {
    let Some(lift) = table.columns.iter().position(|c| c.key == "lift") else {
        return;
    };
    for row in table.groups.iter_mut().flat_map(|g| &mut g.rows) {
        if let Ok(slug) = Slug::new(row[lift].shown()) {
            row[lift] = Cell::text(capital(&lift_short(&slug)));
        }
    }
}

/// The lots of those who have no max, in words.
fn without(facts: &Facts, known: &[crate::roster::EntryKey]) -> String {
    let lots: Vec<String> = facts
        .entries_by_number()
        .filter(|e| !known.contains(&e.key))
        .map(|e| e.number.to_string())
        .collect();
    match lots.len() {
        0 => String::new(),
        1 => format!("lot {}", lots[0]),
        n if n > 40 => format!("{n} athletes"),
        _ => format!("lots {}", lots.join(", ")),
    }
}
