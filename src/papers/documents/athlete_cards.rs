//! Athlete cards: what an athlete asks for, attempt by attempt, two a page.
//!
//! The card goes from the athlete to the table and back: the opener is printed,
//! each further request is written, signed and timed. How many changes have a box
//! is the rules' word, so the same paper is a change card for weightlifting, a card
//! of next attempts for powerlifting and a card of requests for a max day.

use super::card_row::barred;
use super::shared::{Squad, capital, frame, squad_label, squads, title, whereabouts};
use super::{Draft, Order};
use crate::day::{Facts, changes_of, standing_request};
use crate::lift::Slug;
use crate::papers::{Block, Cards, Head, TableStyle};
use crate::roster::{Entry, SlotLine};
use crate::rules::Changes;
use crate::sheets::{
    Align, Audience, Cell, Column, Group, Table, lift_name, name_for, setup_names,
    shows_category,
};
use crate::standings::category_label;

/// Cards one above another.
const DOWN: usize = 2;

/// Most boxes for changes of an attempt; where the rules set no number, one.
const MOST: u8 = 4;
const ANY: u8 = 1;

/// Heights of a row in points, by how many rows a card has at most: two cards fit
/// on a page, and above the last number one has it to itself.
const ROWS: [(usize, f32); 4] = [(7, 26.0), (9, 21.0), (10, 19.0), (usize::MAX, 24.0)];

/// A card for everybody who is entered, flight by flight.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let audience = order.audience;
    let most = most_changes(facts);
    let mut all = Table {
        columns: columns(facts, most),
        groups: Vec::new(),
    };
    let mut cards = Vec::new();
    for squad in squads(facts) {
        let mut group = Group {
            label: squad_label(facts, &squad),
            ..Group::default()
        };
        for entry in &squad.entries {
            let rows = rows(facts, &squad, entry, most, audience);
            cards.push(card(facts, &squad, entry, &all.columns, &rows, audience));
            group.rows.extend(rows);
        }
        all.groups.push(group);
    }
    let title = title("Athlete cards", audience);
    let frame = frame(facts, order, &title).head(Head::Slim);
    let blocks = if cards.is_empty() {
        vec![Block::paragraph("Nobody is entered yet.")]
    } else {
        vec![Block::Cards(Cards::new(1, DOWN, cards))]
    };
    Draft::new(frame, blocks, vec![("athlete-cards".to_owned(), all)])
}

/// How many boxes for changes an attempt has.
fn changes(facts: &Facts, slot: &Slug, attempt: u8) -> u8 {
    match changes_of(facts, slot, attempt) {
        Changes::Any => ANY,
        Changes::Of(n) => n.min(MOST),
    }
}

fn most_changes(facts: &Facts) -> u8 {
    let of = |line: &SlotLine| {
        let attempts = 1..=facts.widest(&line.slot);
        attempts.map(|n| changes(facts, &line.slot, n)).max()
    };
    facts.slots.iter().filter_map(of).max().unwrap_or(0)
}

fn columns(facts: &Facts, most: u8) -> Vec<Column> {
    use Align::{Centre, Left, Right};
    let asked = if facts.rules.declare {
        "Declared"
    } else {
        "Asked for"
    };
    let mut columns = vec![
        Column::new("session", "", Left),
        Column::new("flight", "", Left),
        Column::new("platform", "", Right),
        Column::new("lot", "", Right),
        Column::new("name", "", Left),
        Column::new("slot", "", Left),
        Column::new("lift", "Lift", Left),
        Column::new("note", "", Left),
        Column::new("attempt", "No.", Right),
        Column::new("opener", asked, Right),
    ];
    for n in 1..=most {
        let label = if most == 1 {
            "Changed to".to_owned()
        } else {
            format!("Change {n}")
        };
        columns.push(Column::new(&format!("change {n}"), &label, Centre));
    }
    columns.push(Column::new("signed", "Signed", Left));
    columns.push(Column::new("time", "Time", Left));
    columns
}

fn rows(
    facts: &Facts,
    squad: &Squad<'_>,
    entry: &Entry,
    most: u8,
    audience: Audience,
) -> Vec<Vec<Cell>> {
    let mut rows = Vec::new();
    for line in &facts.slots {
        let slot = &line.slot;
        let lift = entry.variant(slot).map(lift_name);
        for n in 1..=facts.attempts_allowed(entry.key, slot) {
            let Some(lift) = lift.as_ref().filter(|_| entry.takes_part(slot)) else {
                break;
            };
            let opener = standing_request(facts, entry, slot, 1).filter(|_| n == 1);
            let note = if n == 1 {
                note(facts, entry, slot, audience)
            } else {
                String::new()
            };
            let mut row = vec![
                Cell::text(squad.session),
                Cell::text(squad.flight),
                Cell::count(squad.platform),
                Cell::Count(i64::from(entry.number)),
                Cell::text(name_for(facts, entry, audience)),
                Cell::text(slot.as_str()),
                Cell::text(capital(lift)),
                Cell::text(note),
                Cell::Count(i64::from(n)),
                Cell::mass(opener.map(|s| s.load.mass), facts.bar_unit),
            ];
            let own = changes(facts, slot, n);
            let change = |at: u8| Cell::text(if at > own { "–" } else { "" });
            row.extend((1..=most).map(change));
            row.extend([Cell::Blank, Cell::Blank]);
            rows.push(row);
        }
    }
    rows
}

/// That a lift isn't to be attempted, or at most what; why is nobody's business, and
/// that it is so nobody's but the table's.
fn note(facts: &Facts, entry: &Entry, slot: &Slug, audience: Audience) -> String {
    if audience == Audience::Posted {
        return String::new();
    }
    if barred(facts, entry, slot) {
        return "not cleared".to_owned();
    }
    let most = facts.ceiling(entry, slot);
    most.map_or_else(String::new, |most| {
        format!("at most {}", most.show(facts.bar_unit))
    })
}

fn card(
    facts: &Facts,
    squad: &Squad<'_>,
    entry: &Entry,
    columns: &[Column],
    rows: &[Vec<Cell>],
    audience: Audience,
) -> Vec<Block> {
    let name = name_for(facts, entry, audience);
    let heading = if name.is_empty() {
        format!("Lot {}", entry.number)
    } else {
        format!("Lot {}, {name}", entry.number)
    };
    let at = |key: &str| columns.iter().position(|c| c.key == key);
    let (lift, slot, note) = (at("lift"), at("slot"), at("note"));
    let mut printed: Vec<Vec<Cell>> = Vec::new();
    let mut last = None;
    for row in rows {
        let mut own = row.clone();
        let of = slot.map(|at| row[at].clone());
        // A lift is named once, over its attempts.
        if let (Some(lift), true) = (lift, of == last) {
            own[lift] = Cell::Blank;
        }
        if let Some(note) = note {
            own[note] = Cell::text(capital(&own[note].shown()));
        }
        last = of;
        printed.push(own);
    }
    let own = ROWS.iter().find(|(most, _)| rows.len() <= *most);
    let height = own.map_or(ROWS[0].1, |(_, height)| *height);
    let table = Table {
        columns: columns.to_vec(),
        groups: vec![Group {
            rows: printed,
            ..Group::default()
        }],
    };
    vec![
        Block::heading(heading),
        Block::small(who(facts, squad, entry, audience)),
        Block::table(table, style(columns, height).empty(nothing(entry))),
        Block::small(foot(facts, audience)),
    ]
}

fn style(columns: &[Column], height: f32) -> TableStyle {
    let changes = || columns.iter().filter(|c| c.key.starts_with("change "));
    let mut boxes = vec!["opener".to_owned(), "signed".to_owned(), "time".to_owned()];
    boxes.extend(changes().map(|c| c.key.clone()));
    let mut widths = vec![("opener".to_owned(), 62.0), ("time".to_owned(), 52.0)];
    widths.extend(changes().map(|c| (c.key.clone(), 62.0)));
    TableStyle::to_fill_in()
        .size(11.0)
        .row_height(height)
        .boxes(boxes)
        .box_width(80.0)
        .widths(widths)
        .bold(["lift", "opener"])
        .beneath("lift", "note")
        .lines(2)
}

/// Why no attempt stands on a card.
fn nothing(entry: &Entry) -> String {
    match whereabouts(entry, None) {
        word @ ("disqualified" | "withdrawn") => {
            format!("{}: no more attempts.", capital(word))
        }
        _ => "Entered in no lift.".to_owned(),
    }
}

/// Where the athlete lifts, for whom, in which class, and at which set-ups.
fn who(facts: &Facts, squad: &Squad<'_>, entry: &Entry, audience: Audience) -> String {
    let mut words = vec![squad_label(facts, squad), entry.team.clone()];
    if shows_category(facts, audience) {
        let category = category_label(facts, entry);
        if !category.is_empty() {
            words.push(format!("category {category}"));
        }
    }
    words.push(whereabouts(entry, None).to_owned());
    let known = |name: &String| entry.setups.get(name).filter(|v| !v.is_empty());
    let setups = setup_names(facts).into_iter();
    words.extend(setups.map(|name| match known(&name) {
        Some(value) => format!("{name} {value}"),
        None => format!("{name} ______"),
    }));
    words.retain(|w| !w.is_empty());
    words.join(" · ")
}

fn foot(facts: &Facts, audience: Audience) -> String {
    let mut words = format!(
        "{}, {}, {}. Loads in {}, in steps of {}. Each request is signed and given in \
         at the table.",
        facts.name,
        facts.date.format("%-d %B %Y"),
        audience.word(),
        facts.bar_unit,
        facts.rules.step.show(facts.bar_unit)
    );
    let limited = facts.slots.iter().any(|line| {
        let attempts = 1..=facts.widest(&line.slot);
        attempts
            .map(|n| changes_of(facts, &line.slot, n))
            .any(|c| c != Changes::Any)
    });
    if limited {
        words.push_str(" A dash: no change.");
    }
    words
}
