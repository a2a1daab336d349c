//! Score sheets: a flight's slots side by side, filled in so far or blank.

use std::collections::{BTreeMap, BTreeSet};

use super::revision::{all_sessions, state};
use super::shared::{
    Squad, frame, hide, hide_empty, hide_slot, repetitions, slot_name, squad_label,
    squads, whereabouts,
};
use super::{Draft, Order};
use crate::day::{Facts, standing_request};
use crate::lift::Slug;
use crate::measure::Mass;
use crate::papers::{Block, Field, Form, Frame, Head, TableStyle, pages};
use crate::roster::{Entry, EntryKey, SlotLine};
use crate::sheets::{
    Align, Audience, Cell, Column, Group, Table, attempt_cell, lift_short,
    shows_category, standing_note,
};
use crate::standings::{Basis, Line, standings};

/// Heights of a row in points, the first with which a flight fits on a page:
/// 12, 10.5 and 9.2 mm.
const ROWS: [f32; 3] = [34.0, 30.0, 26.0];

/// Most boxes side by side on a sheet, without total and place.
const BOXES: usize = 15;

/// The score sheets of all flights, each on a page of its own; blank ones show
/// only what is known before the first attempt.
pub(super) fn draft(facts: &Facts, order: &Order, blank: bool) -> Draft {
    let title = if blank {
        "Score sheets, blank, private"
    } else {
        "Score sheets, private"
    };
    let frame = frame(facts, order, title).landscape().head(Head::Slim);
    let lines = lines(facts);
    let programme: Vec<Programmed<'_>> = facts
        .slots
        .iter()
        .map(|line| Programmed {
            line,
            attempts: facts.widest(&line.slot),
        })
        .collect();
    let mut table = Table {
        columns: columns(&programme),
        groups: Vec::new(),
    };
    let mut sessions = Vec::new();
    for squad in squads(facts) {
        sessions.push(squad.session.to_owned());
        let rows = squad.entries.iter();
        table.groups.push(Group {
            label: squad_label(facts, &squad),
            remark: String::new(),
            rows: rows
                .map(|e| row(facts, &programme, &squad, e, lines.get(&e.key), blank))
                .collect(),
        });
    }
    let mut shown = table.clone();
    for column in shown.columns.iter_mut().filter(|c| c.key == "bodyweight") {
        column.label = format!("{} {}", column.label, facts.scale_unit);
    }
    let mut spare = vec!["name", "group", "bodyweight"];
    if !facts.rules.total {
        spare.push("total");
    }
    hide_empty(&mut shown, &spare);
    hide(&mut shown, "team");
    // A session's sheets say what its own state is; blank ones have none.
    let frame_of = |sessions: &BTreeSet<&str>| {
        let frame = frame.clone();
        if blank {
            frame
        } else {
            frame.state(state(facts, sessions, order.audience))
        }
    };
    let mut sheets: Vec<(String, Frame, Vec<Block>)> = Vec::new();
    let parts = parts(&programme);
    let groups = std::mem::take(&mut shown.groups);
    for (group, session) in groups.into_iter().zip(sessions) {
        if sheets.last().is_none_or(|(own, ..)| *own != session) {
            let own = if session.is_empty() {
                all_sessions(facts)
            } else {
                BTreeSet::from([session.as_str()])
            };
            let frame = frame_of(&own);
            sheets.push((session, frame, Vec::new()));
        }
        let Some((_, frame, blocks)) = sheets.last_mut() else {
            continue;
        };
        for (index, part) in parts.iter().enumerate() {
            if !blocks.is_empty() {
                blocks.push(Block::PageBreak);
            }
            let mut one = Table {
                columns: shown.columns.clone(),
                groups: vec![group.clone()],
            };
            if parts.len() > 1 {
                let names: Vec<String> = part.iter().map(|p| slot_name(p.line)).collect();
                let only = format!(": {}", names.join(", "));
                one.groups[0].label.push_str(&only);
                let others = parts.iter().filter(|p| *p != part).copied().flatten();
                others.for_each(|p| hide_slot(&mut one, p.line));
            }
            if index + 1 < parts.len() {
                hide(&mut one, "total");
                hide(&mut one, "place");
            }
            let sheet = |height: f32| {
                vec![
                    Block::table(one.clone(), style(part, blank).row_height(height)),
                    Block::KeepTogether(foot(facts, blank)),
                ]
            };
            let mut fitting = ROWS.iter().map(|height| sheet(*height));
            let fitting = fitting.find(|blocks| pages(frame, blocks).len() == 1);
            blocks.extend(fitting.unwrap_or_else(|| sheet(ROWS[0])));
        }
    }
    if sheets.is_empty() {
        let blocks = vec![Block::paragraph("Nobody is entered yet.")];
        sheets.push((String::new(), frame_of(&all_sessions(facts)), blocks));
    }
    let stem = if blank {
        "score-sheets-blank"
    } else {
        "score-sheets"
    };
    Draft {
        title: title.to_owned(),
        parts: sheets.into_iter().map(|(_, f, b)| (f, b)).collect(),
        tables: vec![(stem.to_owned(), table)],
    }
}

/// A slot of the programme and how many attempts anybody has in it.
#[derive(Clone, Copy, PartialEq)]
struct Programmed<'a> {
    line: &'a SlotLine,
    attempts: u8,
}

/// The programme in parts that fit side by side on a sheet, with about as many
/// slots each.
fn parts<'a, 'b>(programme: &'b [Programmed<'a>]) -> Vec<&'b [Programmed<'a>]> {
    let boxes = |part: &[Programmed<'_>]| -> usize {
        part.iter().map(|p| usize::from(p.attempts) + 1).sum()
    };
    (1..=programme.len())
        .map(|count| programme.chunks(programme.len().div_ceil(count)).collect())
        .find(|parts: &Vec<&[Programmed<'_>]>| {
            parts
                .iter()
                .all(|part| boxes(part) <= BOXES || part.len() == 1)
        })
        .unwrap_or_else(|| vec![programme])
}

/// Everybody's line in the standings, with the label of its group.
fn lines(facts: &Facts) -> BTreeMap<EntryKey, (String, Line)> {
    let mut lines = BTreeMap::new();
    for group in standings(facts, Basis::Category) {
        for line in group.lines {
            let _ = lines.insert(line.entry, (group.label.clone(), line));
        }
    }
    lines
}

fn columns(programme: &[Programmed<'_>]) -> Vec<Column> {
    use Align::{Left, Right};
    let mut columns = vec![
        Column::new("session", "", Left),
        Column::new("flight", "", Left),
        Column::new("platform", "", Right),
        Column::new("lot", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("note", "", Left),
        Column::new("team", "Team", Left),
        Column::new("group", "Category", Left),
        Column::new("bodyweight", "Body", Right),
    ];
    for Programmed { line, attempts } in programme {
        let slot = line.slot.as_str();
        let span = slot_name(line);
        if line.variants.len() > 1 {
            columns.push(Column::new(&format!("{slot} lift"), "Lift", Left).under(&span));
        }
        for n in 1..=*attempts {
            columns.push(Column::new(&format!("{slot} {n} asked"), "", Right));
            let column = Column::new(&format!("{slot} {n}"), &n.to_string(), Right);
            columns.push(column.under(&span).attempts());
        }
        columns.push(Column::new(&format!("{slot} best"), "Best", Right).under(&span));
    }
    columns.push(Column::new("total", "Total", Right));
    columns.push(Column::new("place", "Place", Right));
    columns
}

fn row(
    facts: &Facts,
    programme: &[Programmed<'_>],
    squad: &Squad<'_>,
    entry: &Entry,
    line: Option<&(String, Line)>,
    blank: bool,
) -> Vec<Cell> {
    let unit = facts.bar_unit;
    let one_group =
        facts.rules.categories == "none" || facts.rules.categories == "flight";
    // A blank sheet lies about in the gym.
    let category = !one_group && (!blank || shows_category(facts, Audience::Posted));
    let label = line.map_or("", |(label, _)| label.as_str());
    let body = entry.bodyweight.as_ref().filter(|_| !blank);
    let line = line.map(|(_, line)| line).filter(|_| !blank);
    let mut row = vec![
        Cell::text(squad.session),
        Cell::text(squad.flight),
        Cell::count(squad.platform),
        Cell::Count(i64::from(entry.number)),
        Cell::text(entry.name()),
        Cell::text(note(entry)),
        Cell::text(&entry.team),
        Cell::text(if category { label } else { "" }),
        Cell::mass(body.map(|w| w.mass), facts.scale_unit),
    ];
    for (
        index,
        Programmed {
            line: own,
            attempts,
        },
    ) in programme.iter().enumerate()
    {
        let slot = &own.slot;
        let variant = entry.variant(slot);
        if own.variants.len() > 1 {
            row.push(Cell::text(variant.map(lift_short).unwrap_or_default()));
        }
        for n in 1..=*attempts {
            let allowed = facts.attempts_allowed(entry.key, slot);
            let open = entry.takes_part(slot) && n <= allowed;
            let ruled = attempt_cell(facts, entry, slot, n);
            row.push(Cell::mass(asked(facts, entry, slot, n, blank), unit));
            let empty = ruled.shown().is_empty();
            row.push(match (open, blank || empty) {
                (false, true) => Cell::text("–"),
                (true, true) => Cell::Blank,
                (_, false) => ruled,
            });
        }
        let best = line.and_then(|l| l.slots.get(index)?.best);
        row.push(Cell::mass(best.map(|(_, mass)| mass), unit));
    }
    row.push(Cell::mass(line.and_then(|l| l.total), unit));
    row.push(Cell::count(line.and_then(|l| l.place)));
    row
}

/// Why somebody isn't there, or isn't placed.
fn note(entry: &Entry) -> String {
    let away = whereabouts(entry, None);
    let standing = standing_note(entry);
    let words = [away, &standing].into_iter();
    let mut words: Vec<&str> = words.filter(|w| !w.is_empty()).collect();
    words.dedup();
    words.join(", ")
}

/// The load asked for; on a blank sheet only the opener.
fn asked(facts: &Facts, entry: &Entry, slot: &Slug, n: u8, blank: bool) -> Option<Mass> {
    if !entry.takes_part(slot) {
        return None;
    }
    if blank {
        let opener = entry.slots.get(slot)?.opener.as_ref()?;
        return (n == 1).then_some(opener.mass);
    }
    let ruled = facts
        .attempt(entry.key, slot, n)
        .and_then(|a| a.ruled.as_ref());
    match ruled {
        Some(ruled) => ruled.fact.requested.as_ref().map(|w| w.mass),
        None => standing_request(facts, entry, slot, n).map(|s| s.load.mass),
    }
}

fn style(part: &[Programmed<'_>], blank: bool) -> TableStyle {
    let mut boxes = Vec::new();
    let mut parted = Vec::new();
    let mut bold = vec!["lot".to_owned(), "name".to_owned(), "total".to_owned()];
    let mut style = TableStyle::to_fill_in();
    for Programmed { line, attempts } in part {
        let slot = line.slot.as_str();
        for n in 1..=*attempts {
            let key = format!("{slot} {n}");
            style = style.above(key.clone(), format!("{slot} {n} asked"));
            boxes.push(key);
        }
        let first = if line.variants.len() > 1 { "lift" } else { "1" };
        parted.push(format!("{slot} {first}"));
        boxes.push(format!("{slot} best"));
        bold.push(format!("{slot} best"));
    }
    parted.push("total".to_owned());
    boxes.extend(["total".to_owned(), "place".to_owned()]);
    style
        .boxes(boxes)
        .box_width(if blank { 34.0 } else { 30.0 })
        .parted(parted)
        .bold(bold)
        .beneath("name", "note")
        .lines(4)
}

fn foot(facts: &Facts, blank: bool) -> Vec<Block> {
    let mut words = format!(
        "Loads in {}. Small at the top left of a box: the load asked for. Struck \
         through: no lift. A dash: no attempt.",
        facts.bar_unit
    );
    if !blank {
        words.push_str(repetitions(facts));
    }
    if blank {
        words.push_str(
            " Write the load asked for at the top left and the load lifted large; \
             strike a no lift through.",
        );
    }
    let judges = if facts.rules.judges > 1 {
        "Judges"
    } else {
        "Judge"
    };
    let form = Form::new().row_height(30.0).row([
        Field::new("Table official"),
        Field::new(judges).weight(2.0),
        Field::new("Signed"),
        Field::new("At").weight(0.5),
    ]);
    vec![Block::Form(form), Block::small(words)]
}
