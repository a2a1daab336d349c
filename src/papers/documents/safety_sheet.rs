//! The platform safety sheet: a page a lift, to hang at a station.

use super::shared::{capital, frame_for_all};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, Field, Form, Frame, TableStyle};
use crate::sheets::{
    Align, Cell, Column, Group, SafetySheet, Table, safety_policy, safety_sheets,
    safety_table,
};

/// The title of the paper, before the lift's name.
const TITLE: &str = "Platform safety";

/// All lifts of the programme, each on a page of its own.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = |title: &str| frame_for_all(facts, order, title);
    let sheets = safety_sheets(facts);
    let mut parts: Vec<(Frame, Vec<Block>)> = sheets
        .iter()
        .map(|sheet| {
            let title = format!("{TITLE}: {}", sheet.name);
            (frame(&title), page(sheet))
        })
        .collect();
    if parts.is_empty() {
        parts.push((frame(TITLE), vec![Block::small(safety_policy())]));
    }
    Draft {
        title: TITLE.to_owned(),
        parts,
        tables: vec![("safety-sheet".to_owned(), safety_table(facts))],
    }
}

fn page(sheet: &SafetySheet) -> Vec<Block> {
    let mut blocks = vec![
        Block::table(told(sheet), style()),
        Block::space(6.0),
        Block::heading("Station check, before the first attempt"),
        Block::ticks(sheet.checks.iter().copied()),
    ];
    let form = Form::new().row([
        Field::new("Station").weight(1.0),
        Field::new("Checked by").weight(1.6),
        Field::new("Supervisor on site").weight(1.6),
        Field::new("Date and time"),
    ]);
    blocks.push(Block::Form(form));
    blocks.push(Block::paragraph(safety_policy()));
    blocks
}

fn style() -> TableStyle {
    TableStyle::posted()
        .size(14.0)
        .row_height(24.0)
        .bold(["part"])
        .lines(40)
}

/// Parts and their sentences; a part's title stands beside its first sentence.
fn told(sheet: &SafetySheet) -> Table {
    let mut rows = Vec::new();
    for (title, sentences) in &sheet.parts {
        rows.push(vec![
            Cell::text(capital(title)),
            Cell::text(sentences.join(" ")),
        ]);
    }
    Table {
        columns: vec![
            Column::new("part", " ", Align::Left),
            Column::new("text", " ", Align::Left),
        ],
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    }
}
