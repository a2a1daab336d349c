//! The protocol of the day for the archive: rules, entries, every attempt, requests,
//! what was corrected or taken back, revisions, and the journal's digest.

use super::revision::{all_sessions, state};
use super::shared::{capital, frame_with_units, hide, hide_empty, slot_name, title};
use super::{Archive, Draft, Order};
use crate::day::{Day, Event, Facts, Stamp};
use crate::lift::catalogue;
use crate::papers::{Block, TableStyle};
use crate::rules::keys;
use crate::sheets::{
    Align, Audience, Cell, Column, Group, Table, attempts_table, corrected_words,
    event_words, lift_name, start_list,
};

/// Headings of what may go on over pages, which say so again on each.
const ATTEMPTS: &str = "Attempts in the order in which they were ruled";
const ASKED: &str = "Loads asked for";
const CHANGED: &str = "Corrected, annulled, undone and ruled anew";

/// Everything in the order in which an archive asks for it.
pub(super) fn draft(
    facts: &Facts,
    archive: Option<&Archive<'_>>,
    order: &Order,
) -> Draft {
    let mut frame = frame_with_units(
        facts,
        order,
        &title("Protocol of the day", Audience::Private),
    )
    .state(state(facts, &all_sessions(facts), Audience::Private));
    frame.landscape = true;
    if facts.entries.is_empty() {
        let blocks = vec![Block::paragraph("Nobody is entered yet.")];
        return Draft::new(frame, blocks, Vec::new());
    }
    let (rules, attempts) = (rules(facts), attempts_table(facts, Audience::Private));
    let requests = requests(facts);
    let acts = archive.map(|archive| acts(archive.day));
    let mut blocks = vec![Block::key_values(about(facts))];
    blocks.push(Block::heading("Rules in force"));
    blocks.push(Block::table(
        side_by_side(&with_units(&rules)),
        small()
            .lines(12)
            .parted(["second rule"])
            .goes_on_as("Rules in force"),
    ));
    blocks.push(Block::heading("Entries"));
    let mut entries = start_list(facts, Audience::Private);
    let keys: Vec<String> = entries.columns.iter().map(|c| c.key.clone()).collect();
    let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
    hide_empty(&mut entries, &keys);
    blocks.push(Block::table(entries, small().lines(3)));
    blocks.push(Block::heading(ATTEMPTS));
    let mut shown = attempts.clone();
    in_words(&mut shown);
    for key in ["session", "platform"] {
        one_value(&mut shown, key);
    }
    hide_empty(
        &mut shown,
        &["lights", "faults", "called at", "flight", "session"],
    );
    blocks.push(Block::table(
        shown,
        small()
            .lines(3)
            .empty("No attempt yet.")
            .goes_on_as(ATTEMPTS),
    ));
    blocks.push(Block::heading(ASKED));
    let mut shown = requests.clone();
    in_words(&mut shown);
    hide_empty(&mut shown, &["note"]);
    blocks.push(Block::table(
        shown,
        small()
            .empty("No load was asked for at the table.")
            .goes_on_as(ASKED),
    ));
    blocks.push(Block::heading(CHANGED));
    match &acts {
        Some(acts) => {
            let mut shown = acts.clone();
            in_words(&mut shown);
            hide_empty(&mut shown, &["reason"]);
            let style = small()
                .lines(6)
                .empty("Nothing was changed afterwards.")
                .goes_on_as(CHANGED);
            blocks.push(Block::table(shown, style));
        }
        None => blocks.push(Block::paragraph(
            "The journal wasn't at hand when this was printed.",
        )),
    }
    blocks.push(Block::KeepTogether(signed_end(facts, archive)));
    let mut tables = vec![
        ("protocol-rules".to_owned(), rules),
        ("protocol-attempts".to_owned(), attempts),
        ("protocol-requests".to_owned(), requests),
    ];
    tables.extend(acts.map(|acts| ("protocol-acts".to_owned(), acts)));
    Draft::new(frame, blocks, tables)
}

/// What is signed at the end stands on one page with the lines to sign on, so that
/// no signature lies alone.
fn signed_end(facts: &Facts, archive: Option<&Archive<'_>>) -> Vec<Block> {
    let mut blocks = vec![Block::heading("Closings")];
    blocks.push(Block::paragraph(closings(facts)));
    if let Some(archive) = archive {
        blocks.push(Block::heading("Journal"));
        blocks.push(Block::paragraph(format!(
            "{} events. Digest of the last one (SHA-256, over all before it): {}",
            archive.day.journal().len(),
            archive.digest
        )));
        blocks.push(Block::small(
            "The digest shows damage and careless edits; it is no proof against a \
             forger. Undone and annulled acts stay in the journal.",
        ));
    }
    blocks.push(Block::space(10.0));
    blocks.push(Block::signatures([
        "Director of the day",
        "Judge",
        "Table official",
        "Date",
    ]));
    blocks
}

fn small() -> TableStyle {
    TableStyle::working().size(8.5).row_height(13.0)
}

fn about(facts: &Facts) -> Vec<(String, String)> {
    let slots: Vec<String> = facts
        .slots
        .iter()
        .map(|line| {
            let lifts: Vec<String> = line.variants.iter().map(lift_name).collect();
            match lifts.as_slice() {
                [_] => slot_name(line),
                several => format!("{} ({})", slot_name(line), several.join(", ")),
            }
        })
        .collect();
    let platforms: Vec<String> = (1_u8..)
        .take(facts.platforms.len())
        .map(|number| facts.platform_label(number))
        .collect();
    let pair = |key: &str, value: String| (key.to_owned(), value);
    vec![
        pair("Format", facts.format.clone()),
        pair("Programme", slots.join(", ")),
        pair("Platforms", platforms.join(", ")),
        pair(
            "Units",
            format!("bar in {}, scale in {}", facts.bar_unit, facts.scale_unit),
        ),
        pair(
            "Entries",
            format!("{}, all by the names as entered", facts.entries.len()),
        ),
    ]
}

/// Every rule's key and word.
fn rules(facts: &Facts) -> Table {
    let words = facts.rules.words().into_iter();
    Table {
        columns: vec![
            Column::new("rule", "Rule", Align::Left),
            Column::new("value", "Value", Align::Left),
        ],
        groups: vec![Group {
            rows: words
                .map(|(key, value)| vec![Cell::text(key), Cell::text(value)])
                .collect(),
            ..Group::default()
        }],
    }
}

/// The rules as they are read: a bare number of seconds or minutes with its unit.
fn with_units(rules: &Table) -> Table {
    let mut shown = rules.clone();
    for row in shown.groups.iter_mut().flat_map(|g| &mut g.rows) {
        let [Cell::Text(key), Cell::Text(value)] = row.as_slice() else {
            continue;
        };
        let allowed = keys()
            .iter()
            .find(|k| k.name == key)
            .map_or("", |k| k.allowed);
        let unit = if allowed.contains("seconds from") {
            "s"
        } else if allowed.contains("minutes from") {
            "min"
        } else {
            continue;
        };
        if !value.is_empty() && value.bytes().all(|b| b.is_ascii_digit()) {
            row[1] = Cell::text(format!("{value} {unit}"));
        }
    }
    shown
}

/// The rules in two columns, to be read down the first, then the second.
fn side_by_side(rules: &Table) -> Table {
    let mut table = rules.clone();
    for column in &rules.columns {
        let mut second = column.clone();
        second.key = format!("second {}", column.key);
        table.columns.push(second);
    }
    for group in &mut table.groups {
        let half = group.rows.len().div_ceil(2);
        let rest = group.rows.split_off(half);
        let mut rest = rest.into_iter();
        for row in &mut group.rows {
            row.extend(rest.next().unwrap_or_else(|| vec![Cell::Blank; 2]));
        }
    }
    table
}

/// Every load that was asked for at the table, by athlete, lift and attempt.
fn requests(facts: &Facts) -> Table {
    use Align::{Left, Right};
    let mut rows = Vec::new();
    for entry in facts.entries_by_number() {
        for line in &facts.slots {
            let Some(run) = facts.run(entry.key, &line.slot) else {
                continue;
            };
            for (n, attempt) in &run.attempts {
                for request in &attempt.requests {
                    let mut note = Vec::new();
                    note.extend(request.change.then_some("change"));
                    note.extend(request.record.then_some("for a record"));
                    rows.push(vec![
                        Cell::Count(i64::from(entry.number)),
                        Cell::text(entry.name()),
                        Cell::text(line.slot.as_str()),
                        Cell::Count(i64::from(*n)),
                        Cell::mass(Some(request.load.mass), facts.bar_unit),
                        Cell::text(facts.bar_unit.symbol()),
                        Cell::text(note.join(", ")),
                        Cell::text(time(request.at)),
                    ]);
                }
            }
        }
    }
    Table {
        columns: vec![
            Column::new("lot", "Lot", Right),
            Column::new("name", "Name", Left),
            Column::new("lift", "Lift", Left),
            Column::new("attempt", "No.", Right),
            Column::new("load", "Load", Right),
            Column::new("bar unit", "", Left),
            Column::new("note", "Note", Left),
            Column::new("at", "At", Left),
        ],
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    }
}

/// What says that something before it was otherwise, in the journal's order.
fn acts(day: &Day) -> Table {
    use Align::{Left, Right};
    let mut rows = Vec::new();
    for recorded in day.journal() {
        let reason = match &recorded.event {
            Event::Corrected { reason, .. }
            | Event::Annulled { reason, .. }
            | Event::Reruled { reason, .. }
            | Event::ChallengeLost { reason, .. }
            | Event::ExtraGranted { reason, .. }
            | Event::Reopened { reason, .. } => reason.as_str(),
            Event::Undone { .. } | Event::Redone { .. } | Event::LoadFound { .. } => "",
            _ => continue,
        };
        let what = match &recorded.event {
            Event::Corrected { target, event, .. } => {
                corrected_words(day, *target, event, recorded.seq)
                    .map(|words| format!("corrected: {words}"))
            }
            _ => None,
        };
        let what = what.unwrap_or_else(|| event_words(day, &recorded.event));
        let stands = day.stands_now(recorded.seq);
        rows.push(vec![
            Cell::text(recorded.seq.to_string()),
            Cell::text(time(recorded.at)),
            Cell::text(capital(&what)),
            Cell::text(reason),
            Cell::text(if stands { "" } else { "taken back" }),
            Cell::text(&recorded.hand),
        ]);
    }
    Table {
        columns: vec![
            Column::new("event", "Event", Right),
            Column::new("at", "At", Left),
            Column::new("what", "What", Left),
            Column::new("reason", "Reason", Left),
            Column::new("stands", "Since", Left),
            Column::new("by", "By", Left),
        ],
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    }
}

/// Slugs as names, and times of day without the date, for the eye.
fn in_words(table: &mut Table) {
    let columns: Vec<(usize, String)> = table
        .columns
        .iter()
        .enumerate()
        .map(|(at, column)| (at, column.key.clone()))
        .collect();
    for row in table.groups.iter_mut().flat_map(|group| &mut group.rows) {
        for (at, key) in &columns {
            let Some(Cell::Text(text)) = row.get(*at) else {
                continue;
            };
            let shown = match key.as_str() {
                "lift" => text.replace('-', " "),
                "faults" => {
                    let words: Vec<String> = text.split(' ').map(fault_words).collect();
                    words.join(", ")
                }
                "called at" | "ruled at" | "at" => {
                    text.split_once('T').map_or("", |(_, time)| time).to_owned()
                }
                _ => continue,
            };
            row[*at] = Cell::text(shown);
        }
    }
}

/// A fault in the judges' words.
fn fault_words(code: &str) -> String {
    let known = catalogue().fault(code);
    known.map_or_else(|| code.replace('-', " "), |fault| fault.text.clone())
}

/// Hides a column that says the same in every row.
fn one_value(table: &mut Table, key: &str) {
    let Some(at) = table.columns.iter().position(|c| c.key == key) else {
        return;
    };
    let mut cells = table.groups.iter().flat_map(|g| &g.rows).map(|r| r.get(at));
    let first = cells.next().flatten();
    if cells.all(|cell| cell == first) {
        hide(table, key);
    }
}

/// Every closing and reopening as sentences.
fn closings(facts: &Facts) -> String {
    let words: Vec<String> = facts
        .revisions
        .iter()
        .map(|revision| {
            let what = revision
                .session
                .as_ref()
                .map_or_else(|| "The day".to_owned(), |s| format!("Session {s}"));
            let closed = minute(revision.closed_at);
            match &revision.reopened {
                None => format!("{what} was closed on {closed}."),
                Some((at, why, hand)) => {
                    let why = why.trim_end_matches('.');
                    let at = minute(*at);
                    format!(
                        "{what} was closed on {closed} and reopened on {at} by {hand}: {why}."
                    )
                }
            }
        })
        .collect();
    if words.is_empty() {
        return "Nothing is closed yet.".to_owned();
    }
    words.join("\n")
}

fn time(stamp: Stamp) -> String {
    stamp.local().format("%Y-%m-%dT%H:%M:%S").to_string()
}

fn minute(stamp: Stamp) -> String {
    stamp.local().format("%-d %B %Y at %H:%M").to_string()
}
