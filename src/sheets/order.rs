//! The queue and the start list, as tables.

use super::posting::{Audience, name_for, shows_bodyweight, shows_category};
use super::time::to_minute;
use super::{Align, Cell, Column, Group, Table};
use crate::day::{Facts, Stamp, pace, queue};
use crate::measure::Weight;
use crate::standings::category_label;

/// The order of call from `now` on, on one platform or on all; when each is
/// likely to be called goes by the pace so far, to the minute.
pub fn queue_table(
    facts: &Facts,
    platform: Option<u8>,
    now: Stamp,
    audience: Audience,
) -> Table {
    use Align::{Left, Right};
    let columns = vec![
        Column::new("position", "", Right),
        Column::new("platform", "Platform", Right),
        Column::new("session", "", Left),
        Column::new("flight", "Flight", Left),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("lift", "Lift", Left),
        Column::new("attempt", "No.", Right),
        Column::new("load", "Load", Right),
        Column::new("bar unit", "", Left),
        Column::new("rests until", "Rests until", Left),
        Column::new("predicted", "About", Left),
    ];
    let platforms = (1_u8..)
        .zip(&facts.platforms)
        .map(|(n, _)| n)
        .filter(|n| platform.is_none_or(|p| p == *n));
    let time = |s: Stamp| s.local().format("%Y-%m-%dT%H:%M:%S").to_string();
    let mut rows = Vec::new();
    for number in platforms {
        let order = queue(facts, number);
        let predicted = pace::calls(facts, number, &order, now);
        for ((position, queued), predicted) in (1_i64..).zip(&order).zip(predicted) {
            let Some(entry) = facts.entries.get(&queued.entry) else {
                continue;
            };
            rows.push(vec![
                Cell::Count(position),
                Cell::Count(i64::from(number)),
                Cell::text(&entry.session),
                Cell::text(&entry.flight),
                Cell::Count(i64::from(entry.number)),
                Cell::text(name_for(facts, entry, audience)),
                Cell::text(queued.lift.as_str()),
                Cell::Count(i64::from(queued.attempt)),
                Cell::mass(queued.load.as_ref().map(|w| w.mass), facts.bar_unit),
                Cell::text(facts.bar_unit.symbol()),
                Cell::text(queued.rests_until.map(time).unwrap_or_default()),
                Cell::text(time(to_minute(predicted.at))),
            ]);
        }
    }
    Table {
        columns,
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    }
}

/// The start list: who lifts where, flight by flight, with openers.
pub fn start_list(facts: &Facts, audience: Audience) -> Table {
    use Align::{Left, Right};
    let bodyweight = shows_bodyweight(facts, audience);
    let category = shows_category(facts, audience);
    let hidden = |shown: bool, label: &str| {
        if shown {
            label.to_owned()
        } else {
            String::new()
        }
    };
    let mut columns = vec![
        Column::new("session", "", Left),
        Column::new("flight", "", Left),
        Column::new("platform", "", Right),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("sex", "Sex", Left),
        Column::new("grade", "Grade", Left),
        Column::new("category", &hidden(category, "Category"), Left),
        Column::new("team", "Team", Left),
        Column::new("bodyweight", &hidden(bodyweight, "Body"), Right),
    ];
    for line in &facts.slots {
        let slot = line.slot.as_str();
        let label = super::lift_short(&line.slot);
        if line.variants.len() > 1 {
            columns.push(Column::new(&format!("{slot} lift"), "Lift", Left));
        }
        columns.push(Column::new(&format!("{slot} opener"), &label, Right));
    }
    let mut groups = Vec::new();
    let mut flights: Vec<(String, String, Option<u8>)> = facts
        .flights
        .iter()
        .map(|f| (f.session.clone(), f.name.clone(), Some(f.platform)))
        .collect();
    flights.extend(
        facts
            .sessions
            .keys()
            .map(|s| (s.clone(), String::new(), None)),
    );
    for (session, flight, platform) in flights {
        let rows: Vec<Vec<Cell>> = facts
            .entries_of(&session, &flight)
            .map(|entry| {
                let body = entry.bodyweight.as_ref().filter(|_| bodyweight);
                let mut row = vec![
                    Cell::text(&entry.session),
                    Cell::text(&entry.flight),
                    Cell::count(platform),
                    Cell::Count(i64::from(entry.number)),
                    Cell::text(name_for(facts, entry, audience)),
                    Cell::text(entry.sex.map_or("", |s| s.letter())),
                    Cell::text(&entry.grade),
                    Cell::text(if category {
                        category_label(facts, entry)
                    } else {
                        String::new()
                    }),
                    Cell::text(&entry.team),
                    Cell::mass(body.map(|w| w.mass), facts.scale_unit),
                ];
                for line in &facts.slots {
                    let entered = entry.slots.get(&line.slot);
                    if line.variants.len() > 1 {
                        let variant = entered.and_then(|e| e.variant.as_ref());
                        row.push(Cell::text(
                            variant.map(super::lift_short).unwrap_or_default(),
                        ));
                    }
                    row.push(opener(entered, facts.bar_unit));
                }
                row
            })
            .collect();
        if rows.is_empty() {
            continue;
        }
        let label = match platform {
            Some(p) => format!(
                "Session {session}, flight {flight}, {}",
                facts.platform_label(p)
            ),
            None => format!("Session {session}, no flight yet"),
        };
        groups.push(Group {
            label,
            remark: String::new(),
            rows,
        });
    }
    Table { columns, groups }
}

/// An opener: blank where it is owed, a dash where not entered.
fn opener(entered: Option<&crate::roster::Entered>, unit: crate::measure::Unit) -> Cell {
    match entered {
        Some(e) if e.variant.is_some() => {
            Cell::mass(e.opener.as_ref().map(|w: &Weight| w.mass), unit)
        }
        _ => Cell::text("-"),
    }
}
