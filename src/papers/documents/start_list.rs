//! The start list: who lifts where, and with which openers.

use std::cmp::Ordering;

use super::revision::{all_sessions, state};
use super::shared::{
    capital, frame_with_units, hide, hide_empty, notes_beneath, place_order, squads,
    title,
};
use super::{Draft, Order};
use crate::day::Facts;
use crate::papers::{Block, TableStyle};
use crate::sheets::{Audience, Cell, Group, start_list, with_notes};

/// The start list, flight by flight.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let mut table = start_list(facts, order.audience);
    table.groups.sort_by(by_place);
    let mut shown = with_notes(table.clone(), facts);
    hide_empty(
        &mut shown,
        &["name", "sex", "grade", "category", "team", "bodyweight"],
    );
    notes_beneath(&mut shown);
    for column in &mut shown.columns {
        column.label = capital(&column.label);
        if column.key == "bodyweight" && !column.label.is_empty() {
            column.label = format!("{} {}", column.label, facts.scale_unit);
        }
    }
    for group in &mut shown.groups {
        group.remark = times(facts, group);
    }
    if facts.sessions.len() < 2 {
        for group in &mut shown.groups {
            if let Some((_, rest)) = group.label.split_once(", ") {
                group.label = capital(rest);
            }
        }
    }
    if squads(facts).iter().all(|s| s.flight.is_empty()) && facts.sessions.len() < 2 {
        // Nobody waits for a flight on a day without flights.
        shown.groups.iter_mut().for_each(|g| g.label.clear());
    }
    for cell in shown.groups.iter_mut().flat_map(|g| &mut g.rows).flatten() {
        if *cell == Cell::text("-") {
            *cell = Cell::text("–");
        }
    }
    if order.audience == Audience::Posted {
        hide(&mut shown, "sex");
    }
    let style = match order.audience {
        Audience::Posted => TableStyle::posted(),
        Audience::Private => TableStyle::working().size(11.5).row_height(18.0),
    };
    let style = style
        .bold(["name"])
        .beneath("name", "note")
        .lines(3)
        .empty("Nobody is entered yet.");
    let words = format!(
        "Openers in {}. A dash: not entered. Blank: the opener is owed.",
        facts.bar_unit
    );
    let title = title("Start list", order.audience);
    let frame = frame_with_units(facts, order, &title).state(state(
        facts,
        &all_sessions(facts),
        order.audience,
    ));
    Draft::new(
        frame,
        vec![Block::table(shown, style), Block::small(words)],
        vec![("start-list".to_owned(), table)],
    )
}

/// When a group's session weighs in and begins, as far as that is planned.
fn times(facts: &Facts, group: &Group) -> String {
    let session = group.rows.first().and_then(|row| row.first());
    let session = session.map(Cell::shown).unwrap_or_default();
    let mut words = Vec::new();
    if let Some((from, to)) = facts.weigh_in(&session) {
        let (from, to) = (from.format("%H:%M"), to.format("%H:%M"));
        words.push(format!("weighs in from {from} to {to}"));
    }
    if let Some(start) = facts.sessions.get(&session).and_then(|s| s.start) {
        words.push(format!("session from {}", start.format("%H:%M")));
    }
    words.join(", ")
}

/// The order of two groups by the session and flight of their rows.
fn by_place(a: &Group, b: &Group) -> Ordering {
    let place = |group: &Group| -> Vec<String> {
        let row = group.rows.first();
        let cells = row.into_iter().flatten().take(2);
        cells.map(Cell::shown).collect()
    };
    match (place(a).as_slice(), place(b).as_slice()) {
        ([a, flight_a], [b, flight_b]) => place_order((a, flight_a), (b, flight_b)),
        (a, b) => a.len().cmp(&b.len()),
    }
}
