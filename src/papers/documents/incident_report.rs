//! Incident reports: one blank, and one begun for each attempt that was stopped for
//! pain or technique.

use super::shared::{capital, frame, title};
use super::{Draft, Order};
use crate::day::{Facts, Ruled, Ruling};
use crate::papers::{Block, Field, Form};
use crate::roster::Entry;
use crate::sheets::{Align, Audience, Cell, Column, Group, Table, lift_name};

/// The blank form first, then the stopped attempts in the order of the journal.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let mut blocks = Vec::new();
    form(facts, None, &mut blocks);
    let mut rows = Vec::new();
    for (entry, ruled) in stopped(facts) {
        blocks.push(Block::PageBreak);
        form(facts, Some((entry, ruled)), &mut blocks);
        rows.push(row(facts, entry, ruled));
    }
    let table = Table {
        columns: columns(),
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    };
    let frame = frame(facts, order, &title("Incident report", Audience::Private));
    Draft::new(frame, blocks, vec![("incident-report".to_owned(), table)])
}

/// Attempts that were stopped, unless the director alone wished it.
fn stopped(facts: &Facts) -> Vec<(&Entry, &Ruled)> {
    let mut found: Vec<(&Entry, &Ruled)> = Vec::new();
    for (key, slots) in &facts.runs {
        let Some(entry) = facts.entries.get(key) else {
            continue;
        };
        let attempts = slots.values().flat_map(|run| run.attempts.values());
        let ruled = attempts.filter_map(|attempt| attempt.ruled.as_ref());
        let ruled = ruled.filter(|r| {
            r.fact.ruling == Ruling::Stopped && !r.fact.reason.starts_with("director")
        });
        found.extend(ruled.map(|r| (entry, r)));
    }
    found.sort_by_key(|(_, ruled)| ruled.seq);
    found
}

fn columns() -> Vec<Column> {
    use Align::{Left, Right};
    vec![
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("lift", "Lift", Left),
        Column::new("attempt no", "Attempt", Right),
        Column::new("load", "Load", Right),
        Column::new("bar unit", "", Left),
        Column::new("platform", "Platform", Right),
        Column::new("at", "At", Left),
        Column::new("reason", "Reason", Left),
        Column::new("by", "By", Left),
    ]
}

fn row(facts: &Facts, entry: &Entry, ruled: &Ruled) -> Vec<Cell> {
    let fact = &ruled.fact;
    let load = fact.loaded.as_ref().or(fact.requested.as_ref());
    vec![
        Cell::Count(i64::from(entry.number)),
        Cell::text(entry.name()),
        Cell::text(fact.lift.as_str()),
        Cell::Count(i64::from(fact.attempt)),
        Cell::mass(load.map(|w| w.mass), facts.bar_unit),
        Cell::text(facts.bar_unit.symbol()),
        Cell::count(ruled.platform),
        Cell::text(time(ruled, "%Y-%m-%dT%H:%M:%S")),
        Cell::text(&fact.reason),
        Cell::text(&ruled.hand),
    ]
}

fn time(ruled: &Ruled, shape: &str) -> String {
    let stamp = ruled.happened.unwrap_or(ruled.at);
    stamp.local().format(shape).to_string()
}

/// One page: what the journal knows printed, the rest to be written.
fn form(facts: &Facts, of: Option<(&Entry, &Ruled)>, blocks: &mut Vec<Block>) {
    let said = |what: &dyn Fn(&Entry, &Ruled) -> String| {
        of.map(|(entry, ruled)| what(entry, ruled))
            .unwrap_or_default()
    };
    let field = |label: &str, weight: f32, what: &dyn Fn(&Entry, &Ruled) -> String| {
        Field::new(label).weight(weight).value(said(what))
    };
    let platform = |entry: &Entry, ruled: &Ruled| {
        let number = ruled.platform.or_else(|| facts.platform_of(entry));
        number.map_or_else(String::new, |n| facts.platform_label(n))
    };
    let load = |ruled: &Ruled| {
        let fact = &ruled.fact;
        let load = fact.loaded.as_ref().or(fact.requested.as_ref());
        load.map_or_else(String::new, |w| w.mass.show_with_unit(facts.bar_unit))
    };
    blocks.push(Block::paragraph(
        "This is no medical record: write what was seen and done, not what it might be. \
         Local policy and the qualified supervisor on site come first; in an emergency \
         call for help before anything is written.",
    ));
    blocks.push(Block::heading("What happened"));
    blocks.push(Block::Form(
        Form::new()
            .row_height(32.0)
            .row([
                field("Athlete", 2.4, &|e, _| e.name()),
                field("Lot", 0.6, &|e, _| e.number.to_string()),
                field("Team or class", 1.6, &|e, _| e.team.clone()),
                field("Grade", 0.6, &|e, _| e.grade.clone()),
            ])
            .row([
                field("Lift", 2.4, &|_, r| capital(&lift_name(&r.fact.lift))),
                field("Attempt", 0.6, &|_, r| r.fact.attempt.to_string()),
                field("Load on the bar", 1.1, &|_, r| load(r)),
                field("Time", 1.1, &|_, r| time(r, "%H:%M")),
            ])
            .row([
                field("Platform or rack", 1.2, &platform),
                field("Entered at the table by", 1.2, &|_, r| r.hand.clone()),
                field("Stopped for (technique, pain, other)", 2.8, &|_, r| {
                    r.fact.reason.clone()
                }),
            ]),
    ));
    let ruled = |heading: &str, lines: usize, blocks: &mut Vec<Block>| {
        let lines = (0..lines).map(|line| {
            let label = if line == 0 { heading } else { "" };
            [Field::new(label)]
        });
        let form = lines.fold(Form::new().row_height(27.0), Form::row);
        blocks.push(Block::Form(form));
    };
    ruled("What was seen, and by whom", 4, blocks);
    ruled("What was done, and by whom", 3, blocks);
    blocks.push(Block::heading("Who was told"));
    blocks.push(Block::Form(
        [
            "Parent or guardian",
            "Athletic trainer or nurse",
            "Director of the day",
            "School",
        ]
        .into_iter()
        .fold(Form::new().row_height(27.0), |form, who| {
            form.row([
                Field::new(who).weight(2.2),
                Field::new("Name").weight(2.0),
                Field::new("At").weight(0.7),
                Field::new("Told by").weight(1.4),
            ])
        }),
    ));
    blocks.push(Block::ticks([
        "Went on lifting on the day, and who said so: ______________________________",
        "Didn't lift again on the day",
        "Left with: ______________________________",
    ]));
    blocks.push(Block::signatures([
        "Written by",
        "Qualified supervisor",
        "Date and time",
    ]));
}
