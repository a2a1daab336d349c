//! Records: those set on the day, with what stood before, and the whole book.

use super::revision::{all_sessions, state};
use super::shared::{capital, frame_with_units, hide, hide_empty, title};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, TableStyle};
use crate::sheets::{
    Audience, Cell, Table, hides_records, new_records_table, records_table,
};

/// Columns that are left out of both tables, and of the one or the other.
const NEVER: [&str; 4] = ["lift", "today", "old unit", "old place"];
const NOT_OF_SET: [&str; 2] = ["date", "place"];
const NOT_OF_BOOK: [&str; 3] = ["old load", "old holder", "old date"];

/// The records set on the day first, then all as they now stand.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let set = new_records_table(facts, order.audience);
    let book = records_table(facts, order.audience);
    let mut blocks = Vec::new();
    if facts.records.is_empty() {
        blocks.push(Block::paragraph("This day carries no record book."));
    } else if set.is_empty() {
        blocks.push(Block::paragraph("No record has fallen on this day."));
    } else {
        let mut shown = shown(facts, &set, &NOT_OF_SET);
        hide_empty(&mut shown, &NOT_OF_BOOK);
        blocks.push(Block::heading("Set on this day"));
        blocks.push(Block::table(shown, style(order)));
    }
    if !book.is_empty() {
        blocks.push(Block::space(14.0));
        blocks.push(Block::heading("All records as they stand"));
        let shown = shown(facts, &book, &NOT_OF_BOOK);
        blocks.push(Block::table(shown, style(order).bold(["load"])));
    }
    blocks.push(Block::small(words(facts, order)));
    let frame = frame_with_units(facts, order, &title("Records", order.audience))
        .state(state(facts, &all_sessions(facts), order.audience));
    let tables = vec![
        ("records-set".to_owned(), set),
        ("records".to_owned(), book),
    ];
    Draft::new(frame, blocks, tables)
}

/// The table as it is printed: loads of another unit than the day's say it.
fn shown(facts: &Facts, table: &Table, hidden: &[&str]) -> Table {
    let mut shown = table.clone();
    let place = |key: &str| table.columns.iter().position(|c| c.key == key);
    for (load, unit) in [("load", "unit"), ("old load", "old unit")] {
        let (Some(load), Some(unit)) = (place(load), place(unit)) else {
            continue;
        };
        for row in shown.groups.iter_mut().flat_map(|g| &mut g.rows) {
            let other = row[unit] != Cell::text(facts.bar_unit.symbol());
            if other && row[unit] != Cell::Blank {
                let words = format!("{} {}", row[load].shown(), row[unit].shown());
                row[load] = Cell::Text(words);
            }
        }
    }
    for group in &mut shown.groups {
        group.label = capital(&group.label);
    }
    for key in NEVER.iter().chain(hidden) {
        hide(&mut shown, key);
    }
    hide_empty(
        &mut shown,
        &["sex", "category", "division", "holder", "date", "place"],
    );
    shown
}

fn style(order: &Order) -> TableStyle {
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    style.bold(["load", "holder"]).parted(["old load"])
}

fn words(facts: &Facts, order: &Order) -> String {
    let mut words =
        "Blank sex, category or division: open to all. No load: nobody has set it yet."
            .to_owned();
    if hides_records(facts, order.audience) {
        words.push_str(" Records by bodyweight category aren't posted.");
    }
    words
}
