//! The loading chart: large type, to be read by loaders with their hands full.

use super::shared::{capital, frame_for_all};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, Frame, TableStyle, pages};
use crate::sheets::{Align, Cell, Column, Group, NO_DISCS, Table, loading_chart};

/// Type size in points. Capitals are then 4.5 mm high, ten minutes of arc at
/// 1.5 m: twice what normal sight needs (five minutes of arc, as eye charts are
/// drawn).
const SIZE: f32 = 18.0;

/// The smallest size where the discs of a side take more room.
const SMALLEST: f32 = 14.0;

/// Height of a row in points.
const ROW: f32 = 23.0;

/// More rows than this stand on no page, in points of [`ROW`].
const MOST_ROWS: usize = 40;

/// Discs that don't fit on one line go on beneath it; not one of them is left out.
const DISC_LINES: usize = 4;

/// Places of a chart's columns.
const LOAD: usize = 1;
const SIDE: usize = 3;

/// One chart a bar and set of discs, each on pages of its own, two columns of
/// loads on a page.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = frame_for_all(facts, order, "Loading chart");
    let table = loading_chart(facts);
    let mut blocks = Vec::new();
    for group in &table.groups {
        let mut rest = group.rows.as_slice();
        while !rest.is_empty() {
            let (sheet, taken) = sheet(facts, &frame, group, rest);
            if !blocks.is_empty() {
                blocks.push(Block::PageBreak);
            }
            blocks.extend(sheet);
            rest = &rest[taken..];
        }
    }
    Draft::new(frame, blocks, vec![("loading-chart".to_owned(), table)])
}

/// One page of loads, and how many these are: as many as fit, or fewer where the
/// pages that are needed anyway can be filled evenly.
fn sheet(
    facts: &Facts,
    frame: &Frame,
    group: &Group,
    rest: &[Vec<Cell>],
) -> (Vec<Block>, usize) {
    let from = rest.len().div_ceil(2).min(MOST_ROWS);
    let page = |down: usize| -> (Vec<Block>, usize) {
        let taken = (2 * down).min(rest.len());
        let (left, right) = rest[..taken].split_at(down.min(taken));
        let more = taken < rest.len();
        (blocks(facts, group, left, right, more), taken)
    };
    let fits = |down: &usize| pages(frame, &page(*down).0).len() == 1;
    let most = (1..=from).rev().find(fits).unwrap_or(1);
    let sheets = rest.len().div_ceil(2 * most).max(1);
    page(rest.len().div_ceil(2 * sheets).min(most))
}

fn blocks(
    facts: &Facts,
    group: &Group,
    left: &[Vec<Cell>],
    right: &[Vec<Cell>],
    more: bool,
) -> Vec<Block> {
    let unit = facts.bar_unit;
    let mut columns = Vec::new();
    for n in ["", " on"] {
        columns.push(Column::new(&format!("load{n}"), "Load", Align::Right));
        columns.push(Column::new(&format!("side{n}"), "Each side", Align::Left));
    }
    let cells = |row: Option<&Vec<Cell>>| match row {
        Some(row) => [row[LOAD].clone(), row[SIDE].clone()],
        None => [Cell::Blank, Cell::Blank],
    };
    let rows: Vec<Vec<Cell>> = (0..left.len())
        .map(|n| {
            let mut row = cells(left.get(n)).to_vec();
            row.extend(cells(right.get(n)));
            row
        })
        .collect();
    let dash = left.iter().chain(right);
    let dash = dash.into_iter().any(|row| row[SIDE].shown() == NO_DISCS);
    let table = Table {
        columns,
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    };
    let mut style = TableStyle::posted()
        .size(SIZE)
        .row_height(ROW)
        .bold(["load", "load on"])
        .parted(["load on"])
        .lines(DISC_LINES);
    style.smallest = SMALLEST;
    let mut words = format!(
        "The fewest discs, the heaviest inside. Loads in {unit}, in steps of {}.",
        facts.rules.step.show(unit)
    );
    if dash {
        words.push_str(" A dash: the discs on hand can't make this load.");
    }
    if more {
        words.push_str(" Heavier loads: next page.");
    }
    vec![
        Block::heading(capital(&group.label)),
        Block::table(table, style),
        Block::small(words),
    ]
}
