//! Small days told in a few words.

use maxday::day::{Command, NewEntry, Outcome, Ruling, Which};
use maxday::exchange::tables::{Style, csv};
use maxday::lift::Slug;
use maxday::measure::{Mass, Unit, Weight};
use maxday::papers::Paper;
use maxday::papers::documents::{Order, lay};
use maxday::papers::text_of;
use maxday::roster::{Change, Sex};
use maxday::sheets::{Audience, Table as Sheet};
use maxday::standings::{Basis, Group, Line, standings};

use crate::support::{Table, entry, slug, tally, which};

/// A max day in kilograms with these slots, in which all is one group.
pub fn max_day(lifts: &[&str]) -> Table {
    let mut table = Table::new("max-day", Unit::Kg, lifts, 1);
    for (key, word) in [("categories", "none"), ("attempts", "6"), ("total", "all")] {
        table.set(key, word);
    }
    table
}

/// Somebody in flight A, entered in these lifts, with other details.
pub fn somebody(number: u16, lifts: &[&str], details: Vec<Change>) -> NewEntry {
    let mut new = entry(number, &[]);
    new.changes
        .extend(lifts.iter().map(|lift| in_slot(lift, lift)));
    new.changes.extend(details);
    new
}

/// Entered in a slot with a variant.
pub fn in_slot(slot: &str, variant: &str) -> Change {
    Change::Slot {
        slot: slug(slot),
        variant: Some(slug(variant)),
        opener: None,
    }
}

/// Sex and bodyweight, such as `F 57.5` or `M 165 lb`.
pub fn body(text: &str) -> Vec<Change> {
    let (sex, weight) = text.split_once(' ').unwrap();
    let sex = if sex == "F" { Sex::F } else { Sex::M };
    vec![Change::Sex(Some(sex)), Change::Bodyweight(Some(kg(weight)))]
}

pub fn team(name: &str) -> Change {
    Change::Team(name.to_owned())
}

pub fn kg(text: &str) -> Weight {
    Weight::parse(text, Unit::Kg).unwrap()
}

pub fn mass(text: &str) -> Mass {
    kg(text).mass
}

/// `100`, `100 no`, `100 x5`, `100 no x5`: tallies the next attempts.
#[track_caller]
pub fn tallied(table: &mut Table, number: u16, lift: &str, attempts: &[&str]) {
    for text in attempts {
        let mut words = text.split(' ');
        let load = kg(words.next().unwrap());
        let mut outcome = Outcome {
            ruling: Some(Ruling::Good),
            ..Outcome::default()
        };
        for word in words {
            match word.strip_prefix('x') {
                Some(reps) => outcome.reps = Some(reps.parse().unwrap()),
                None => outcome.ruling = Ruling::parse(word),
            }
        }
        let who = Which {
            number: Some(number),
            lift: Some(slug(lift)),
            attempt: None,
        };
        let _ = table.ok(tally(who, Some(load), outcome));
    }
}

/// Corrects a ruled attempt's ruling.
#[track_caller]
pub fn overruled(table: &mut Table, number: u16, lift: &str, attempt: u8, to: Ruling) {
    let _ = table.ok(Command::Rerule {
        which: which(number, lift, attempt),
        outcome: Outcome {
            ruling: Some(to),
            ..Outcome::default()
        },
        authority: maxday::day::Authority::Overrule,
        reason: "the jury saw it".to_owned(),
    });
}

#[track_caller]
pub fn edit(table: &mut Table, number: u16, changes: Vec<Change>) {
    let _ = table.ok(Command::Edit { number, changes });
}

#[track_caller]
pub fn disqualify(table: &mut Table, number: u16, lift: Option<&str>, reason: &str) {
    let _ = table.ok(Command::Disqualify {
        number,
        lift: lift.map(slug),
        reason: reason.to_owned(),
    });
}

/// Groups as label and lines.
pub fn groups(table: &Table, basis: Basis) -> Vec<Group> {
    standings(table.facts(), basis)
}

/// Numbers of a group's lines with their places, in order.
pub fn placed(table: &Table, group: &Group) -> Vec<(u16, Option<u32>)> {
    let lines = group.lines.iter();
    lines.map(|l| (number(table, l), l.place)).collect()
}

/// Numbers of a group's lines with their places in a slot, in order.
pub fn placed_in(table: &Table, group: &Group, slot: usize) -> Vec<(u16, Option<u32>)> {
    let lines = group.lines.iter();
    lines
        .map(|l| (number(table, l), l.slots[slot].place))
        .collect()
}

pub fn number(table: &Table, line: &Line) -> u16 {
    table.facts().entries[&line.entry].number
}

/// The only line of a number in the standings by category.
#[track_caller]
pub fn line(table: &Table, wanted: u16) -> Line {
    let mut lines: Vec<Line> = groups(table, Basis::Category)
        .into_iter()
        .flat_map(|g| g.lines)
        .filter(|l| number(table, l) == wanted)
        .collect();
    assert_eq!(lines.len(), 1, "lines of {wanted}");
    lines.remove(0)
}

/// The labels of the groups with the numbers in them.
pub fn labelled(table: &Table, basis: Basis) -> Vec<(String, Vec<u16>)> {
    groups(table, basis)
        .into_iter()
        .map(|g| {
            let numbers = g.lines.iter().map(|l| number(table, l)).collect();
            (g.label, numbers)
        })
        .collect()
}

/// A sheet as the command line prints it.
pub fn printed(sheet: &Sheet) -> String {
    String::from_utf8(csv(sheet, Style::Stdout)).unwrap()
}

/// The cell of a row in a printed sheet, by the row's lot and the column's name.
#[track_caller]
pub fn cell(sheet: &Sheet, lot: u16, column: &str) -> String {
    let header = sheet.csv_header();
    let at = |name: &str| header.iter().position(|h| h == name).unwrap();
    let lot = lot.to_string();
    let row = sheet.csv_rows().find(|r| r[at("lot")] == lot).unwrap();
    row[at(column)].clone()
}

/// All words of a paper.
#[track_caller]
pub fn paper(table: &Table, name: &str, audience: Audience) -> String {
    let order = Order {
        size: Paper::A4,
        audience,
        made: table.stamp(),
        only: Some(vec![name.to_owned()]),
    };
    text_of(&lay(table.facts(), &order).unwrap()[0].pages)
}

/// Whether a lift's slug is this one.
pub fn is(lift: Option<&Slug>, wanted: &str) -> bool {
    lift.is_some_and(|l| l.as_str() == wanted)
}
