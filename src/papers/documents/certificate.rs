//! Certificates: one, across the paper, for everybody who is placed 1 to 3.
//!
//! They are handed out, so bodyweight is never on them and the category only where
//! it may be posted; the name is whole, since each goes to the one whose name it is.

use super::shared::{capital, frame};
use super::{Draft, Order};
use crate::day::Facts;
use crate::lift::Slug;
use crate::papers::picture::Image;
use crate::papers::{Block, Head};
use crate::roster::{Entry, SlotLine};
use crate::sheets::{
    Align, Audience, Cell, Column, Group, Table, lift_name, shows_category,
};
use crate::standings::{Basis, Line, standings};

/// What a place by the sum of the bests is in.
const TOTAL: &str = "total";

/// The last place that is given a certificate.
const LAST: u32 = 3;

/// Blanks before the name, after it and before the lines to sign on, in points.
const BLANKS: [f32; 3] = [38.0, 28.0, 48.0];

/// More honours than this need the blanks for themselves.
const AMPLE: usize = 2;

/// The certificates, group by group, by place.
pub(super) fn draft(facts: &Facts, order: &Order) -> Draft {
    let frame = frame(facts, order, "Certificates")
        .landscape()
        .head(Head::Bare)
        .foot("", "");
    let mut blocks = Vec::new();
    let mut rows = Vec::new();
    for group in standings(facts, Basis::Category) {
        let among = among(facts, &group.label);
        for line in &group.lines {
            let Some(entry) = facts.entries.get(&line.entry) else {
                continue;
            };
            let honours = honours(facts, line);
            if honours.is_empty() {
                continue;
            }
            if !blocks.is_empty() {
                blocks.push(Block::PageBreak);
            }
            let among = match with_lifts(facts, &group.lines, line, &honours) {
                with if with.is_empty() => among.clone(),
                with if among.is_empty() => with,
                with => format!("{among}, {with}"),
            };
            certificate(facts, entry, line, &among, &honours, &mut blocks);
            rows.push(row(facts, entry, line, &among, &honours));
        }
    }
    if blocks.is_empty() {
        let why = if facts.entries.is_empty() {
            "Nobody is entered yet."
        } else {
            "Nobody is placed yet."
        };
        blocks.push(Block::paragraph(why));
    }
    let table = Table {
        columns: columns(),
        groups: vec![Group {
            rows,
            ..Group::default()
        }],
    };
    Draft::new(frame, blocks, vec![("certificates".to_owned(), table)])
}

/// A place that is honoured, and what in.
struct Honour {
    place: u32,
    what: String,
    load: String,
}

/// The place by total, where the day has one for this athlete; else those in the
/// lifts.
fn honours(facts: &Facts, line: &Line) -> Vec<Honour> {
    let total = facts.rules.total && facts.slots.len() > 1;
    if total && let Some(place) = line.place {
        let load = line.total.map(|mass| mass.show_with_unit(facts.bar_unit));
        return Some(place)
            .filter(|place| *place <= LAST)
            .map(|place| Honour {
                place,
                what: TOTAL.to_owned(),
                load: load.unwrap_or_default(),
            })
            .into_iter()
            .collect();
    }
    let slots = facts.slots.iter().zip(&line.slots);
    slots
        .filter_map(|(slot, result)| {
            let (_, best) = result.best?;
            let place = result.place.filter(|place| *place <= LAST)?;
            Some(Honour {
                place,
                what: name(slot, result.lift.as_ref()),
                load: best.show_with_unit(facts.bar_unit),
            })
        })
        .collect()
}

fn name(slot: &SlotLine, lift: Option<&Slug>) -> String {
    lift_name(lift.unwrap_or_else(|| slot.default_variant()))
}

/// Among whom, as words that may be handed out.
fn among(facts: &Facts, label: &str) -> String {
    match label {
        "" | "all" => String::new(),
        label if facts.rules.categories == "flight" => format!("flight {label}"),
        label if shows_category(facts, Audience::Posted) => match label.split_once(' ') {
            Some(("F", class)) => format!("girls and women, category {class}"),
            Some(("M", class)) => format!("boys and men, category {class}"),
            _ => label.to_owned(),
        },
        _ => "in the bodyweight group".to_owned(),
    }
}

/// With which lift a total was made, where a slot allows several and others in the
/// group did another: their totals are placed apart.
fn with_lifts(facts: &Facts, group: &[Line], line: &Line, honours: &[Honour]) -> String {
    if honours.iter().any(|honour| honour.what != TOTAL) {
        return String::new();
    }
    let slots = facts.slots.iter().enumerate();
    let names = slots.filter_map(|(at, slot)| {
        let of = |line: &Line| line.slots.get(at).and_then(|s| s.lift.clone());
        let own = of(line)?;
        let several = slot.variants.len() > 1
            && group.iter().filter_map(of).any(|other| other != own);
        several.then(|| lift_name(&own))
    });
    let names: Vec<String> = names.collect();
    if names.is_empty() {
        return String::new();
    }
    format!("with {}", names.join(" and "))
}

fn certificate(
    facts: &Facts,
    entry: &Entry,
    line: &Line,
    among: &str,
    honours: &[Honour],
    blocks: &mut Vec<Block>,
) {
    let date = facts.date.format("%-d %B %Y").to_string();
    let ample = honours.len() <= AMPLE;
    let blank = |points: f32| Block::space(if ample { points } else { points * 0.4 });
    match &facts.school.picture {
        Some(picture) if ample => blocks.push(Block::Picture {
            image: Image::new(picture.clone()),
            height: 46.0,
        }),
        // A space at the head of a page would be dropped.
        _ => blocks.push(Block::centred("", if ample { 26.0 } else { 10.0 }, false)),
    }
    if !facts.school.name.is_empty() {
        blocks.push(Block::centred(&facts.school.name, 14.0, true));
    }
    blocks.push(Block::centred("Certificate", 26.0, true));
    blocks.push(Block::centred(&facts.name, 20.0, false));
    let place = [facts.venue.as_str(), &date];
    let place: Vec<&str> = place.into_iter().filter(|w| !w.is_empty()).collect();
    blocks.push(Block::centred(place.join(" · "), 12.0, false));
    blocks.push(blank(BLANKS[0]));
    blocks.push(Block::centred(entry.name(), 34.0, true));
    if !entry.team.is_empty() {
        blocks.push(Block::centred(&entry.team, 14.0, false));
    }
    blocks.push(blank(BLANKS[1]));
    for honour in honours {
        let words = format!(
            "{} place, {} {}",
            capital(&ordinal(honour.place)),
            honour.what,
            honour.load
        );
        let size = if honours.len() > 1 { 17.0 } else { 22.0 };
        blocks.push(Block::centred(words, size, false));
    }
    if !among.is_empty() {
        blocks.push(Block::centred(capital(among), 14.0, false));
    }
    let bests = bests(facts, line, honours);
    if !bests.is_empty() {
        blocks.push(Block::space(10.0));
        blocks.push(Block::centred(bests, 12.0, false));
    }
    blocks.push(blank(BLANKS[2]));
    blocks.push(Block::signatures(["Director of the day", "Judge", "Date"]));
}

/// The bests behind a total.
fn bests(facts: &Facts, line: &Line, honours: &[Honour]) -> String {
    if honours.iter().any(|honour| honour.what != TOTAL) {
        return String::new();
    }
    let slots = facts.slots.iter().zip(&line.slots);
    let words: Vec<String> = slots
        .filter_map(|(slot, result)| {
            let (_, best) = result.best?;
            let lift = capital(&name(slot, result.lift.as_ref()));
            Some(format!("{lift} {}", best.show_with_unit(facts.bar_unit)))
        })
        .collect();
    words.join("   ·   ")
}

fn ordinal(place: u32) -> String {
    match place {
        1 => "first".to_owned(),
        2 => "second".to_owned(),
        3 => "third".to_owned(),
        other => format!("{other}th"),
    }
}

fn columns() -> Vec<Column> {
    use Align::{Left, Right};
    vec![
        Column::new("number", "Lot", Right),
        Column::new("name", "Name", Left),
        Column::new("team", "Team", Left),
        Column::new("group", "Group", Left),
        Column::new("honours", "Honours", Left),
        Column::new("bests", "Bests", Left),
    ]
}

fn row(
    facts: &Facts,
    entry: &Entry,
    line: &Line,
    among: &str,
    honours: &[Honour],
) -> Vec<Cell> {
    let said: Vec<String> = honours
        .iter()
        .map(|h| format!("{} {} {}", h.place, h.what, h.load))
        .collect();
    vec![
        Cell::Count(i64::from(entry.number)),
        Cell::text(entry.name()),
        Cell::text(&entry.team),
        Cell::text(among),
        Cell::text(said.join("; ")),
        Cell::text(bests(facts, line, honours)),
    ]
}
