//! The judges' sheet: a page a lift, to be held at the platform.

use super::card_row::reasons;
use super::shared::{capital, frame_for_all};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, Frame, TableStyle};
use crate::rules::WrongCatch;
use crate::sheets::{
    Align, Cell, Column, Group, JudgingSheet, Table, judging_sheets, judging_table,
};

/// The title of the paper, before the lift's name.
const TITLE: &str = "Judging";

/// All lifts of the programme, each on a page of its own.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = |title: &str| frame_for_all(facts, order, title);
    let mut parts: Vec<(Frame, Vec<Block>)> = judging_sheets(facts)
        .iter()
        .map(|sheet| {
            let title = format!("{TITLE}: {}", sheet.name);
            (frame(&title), page(facts, sheet))
        })
        .collect();
    if parts.is_empty() {
        parts.push((frame(TITLE), vec![Block::paragraph(judges(facts))]));
    }
    Draft {
        title: TITLE.to_owned(),
        parts,
        tables: vec![("judges-sheet".to_owned(), judging_table(facts))],
    }
}

fn page(facts: &Facts, sheet: &JudgingSheet) -> Vec<Block> {
    if sheet.parts.is_empty() {
        return vec![
            Block::paragraph(
                "The school's own lift: the day's director says how it starts and ends, and \
                 what makes it no lift.",
            ),
            Block::paragraph(judges(facts)),
        ];
    }
    let wide = TableStyle::posted()
        .size(13.0)
        .row_height(24.0)
        .bold(["part"])
        .lines(20);
    let close = TableStyle::posted()
        .size(12.0)
        .row_height(19.0)
        .bold(["card"])
        .lines(3);
    let mut words = judges(facts);
    words.push_str(&catch(facts, sheet));
    vec![
        Block::table(told(sheet), wide),
        Block::space(4.0),
        Block::heading("No lift"),
        Block::table(no_lifts(facts, sheet), close),
        Block::paragraph(words),
    ]
}

/// Who decides.
fn judges(facts: &Facts) -> String {
    let mut words = if facts.rules.judges > 1 {
        "Three judges: two of three decide. White is a good lift, red is no lift."
            .to_owned()
    } else {
        "One judge decides: good lift or no lift.".to_owned()
    };
    words.push_str(
        " Name one reason with each no lift. An attempt that is stopped for technique or pain \
         is told as stopped, not as no lift.",
    );
    words
}

/// What is done with a lift that was caught as another variant.
fn catch(facts: &Facts, sheet: &JudgingSheet) -> String {
    let line = facts.slot(sheet.slot.as_str());
    let variants = line.map_or(0, |line| line.variants.len());
    if variants < 2 || facts.rules.wrong_catch == WrongCatch::Strict {
        return String::new();
    }
    " A good lift that was caught as another variant of this slot counts as that variant: \
     say which."
        .to_owned()
}

fn told(sheet: &JudgingSheet) -> Table {
    let parts = sheet.parts.iter();
    Table {
        columns: vec![
            Column::new("part", " ", Align::Left),
            Column::new("text", " ", Align::Left),
        ],
        groups: vec![Group {
            rows: parts
                .map(|(title, text)| vec![Cell::text(capital(title)), Cell::text(*text)])
                .collect(),
            ..Group::default()
        }],
    }
}

/// The reasons with their card and, where a rack card lists it, its number there.
fn no_lifts(facts: &Facts, sheet: &JudgingSheet) -> Table {
    let listed = facts.slot(sheet.slot.as_str()).map(reasons);
    let listed = listed.unwrap_or_default();
    let number = |code: &str| {
        let at = listed.iter().position(|fault| fault.code == code);
        Cell::count(at.and_then(|at| i64::try_from(at + 1).ok()))
    };
    let cards = sheet.no_lifts.iter().any(|no| no.card.is_some());
    let rows = sheet.no_lifts.iter().map(|no| {
        vec![
            Cell::text(no.card.map(|card| card.to_string()).unwrap_or_default()),
            Cell::text(capital(&no.text)),
            number(&no.code),
            Cell::text(&no.code),
        ]
    });
    Table {
        columns: vec![
            Column::new("card", if cards { "Card" } else { "" }, Align::Left),
            Column::new("text", "Reason", Align::Left),
            Column::new("number", "On rack card", Align::Right),
            Column::new("code", "Word at the table", Align::Left),
        ],
        groups: vec![Group {
            rows: rows.collect(),
            ..Group::default()
        }],
    }
}
