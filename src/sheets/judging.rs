//! What judges go by: start, catch, when a lift is good, what makes it no lift.

use std::sync::OnceLock;

use serde::Deserialize;

use super::results::lift_name;
use super::{Align, Cell, Column, Group, Table};
use crate::day::Facts;
use crate::lift::{Card, Catch, Family, Form, Parts, Slug, Start, catalogue};

/// A part of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Part {
    Start,
    Done,
    Good,
}

/// `resources/judging.toml` as it is written.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Book {
    entry: Vec<Entry>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    part: Part,
    #[serde(default)]
    families: Vec<Family>,
    #[serde(default)]
    starts: Vec<Start>,
    #[serde(default)]
    catches: Vec<Catch>,
    #[serde(default)]
    forms: Vec<Form>,
    text: String,
    /// Where it comes from: for whoever reads the file.
    #[serde(rename = "source")]
    _source: String,
}

impl Entry {
    fn fits(&self, parts: &Parts) -> bool {
        let form = || parts.form.is_some_and(|form| self.forms.contains(&form));
        (self.families.is_empty() || self.families.contains(&parts.family))
            && (self.starts.is_empty() || self.starts.contains(&parts.start))
            && (self.catches.is_empty() || self.catches.contains(&parts.catch))
            && (self.forms.is_empty() || form())
    }
}

fn book() -> &'static Book {
    static BOOK: OnceLock<Book> = OnceLock::new();
    // Compiled in, and a test reads it.
    BOOK.get_or_init(|| {
        toml::from_str(include_str!("../../resources/judging.toml")).unwrap_or_default()
    })
}

fn text_of(part: Part, parts: &Parts) -> Option<&'static str> {
    let mut entries = book().entry.iter();
    let found = entries.find(|entry| entry.part == part && entry.fits(parts));
    found.map(|entry| entry.text.as_str())
}

/// A reason for a no lift.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoLift {
    /// The word that the table types.
    pub code: String,
    /// A few words.
    pub text: String,
    /// The failure card by which it is shown, if there is one.
    pub card: Option<Card>,
}

/// What is told of one lift.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JudgingSheet {
    /// The slot in which it may be lifted.
    pub slot: Slug,
    /// The lift.
    pub lift: Slug,
    /// Its name for people.
    pub name: String,
    /// Titles with a sentence or two: start, catch, when it is good. Empty for
    /// a lift that the school has added itself.
    pub parts: Vec<(&'static str, &'static str)>,
    /// What makes it no lift, by card, the commonest first.
    pub no_lifts: Vec<NoLift>,
}

/// One sheet a lift of the programme, in its order.
///
/// Source: `resources/judging.toml`, and the faults of `resources/faults.toml`
/// as they follow from the parts of the lift.
pub fn judging_sheets(facts: &Facts) -> Vec<JudgingSheet> {
    let lines = facts.slots.iter();
    let lifts =
        lines.flat_map(|line| line.variants.iter().map(|lift| (&line.slot, lift)));
    lifts.map(|(slot, lift)| sheet(slot, lift)).collect()
}

fn sheet(slot: &Slug, slug: &Slug) -> JudgingSheet {
    let mut sheet = JudgingSheet {
        slot: slot.clone(),
        lift: slug.clone(),
        name: lift_name(slug),
        parts: Vec::new(),
        no_lifts: Vec::new(),
    };
    let Some(lift) = catalogue().get(slug.as_str()) else {
        return sheet;
    };
    let done = match lift.parts.catch {
        Catch::None | Catch::Press => "The lift",
        _ => "Catch",
    };
    let titles = [
        (Part::Start, "Start"),
        (Part::Done, done),
        (Part::Good, "Good lift"),
    ];
    let parts = titles.into_iter();
    let told = parts
        .filter_map(|(part, title)| Some((title, text_of(part, &lift.parts)?)))
        .collect();
    sheet.parts = told;
    for group in lift.fault_groups() {
        let faults = group.faults.iter().filter_map(|c| catalogue().fault(c));
        sheet.no_lifts.extend(faults.map(|fault| NoLift {
            code: fault.code.clone(),
            text: fault.text.clone(),
            card: group.card,
        }));
    }
    sheet
}

/// The sheets as a table: lift, part, failure card, code and words.
pub fn judging_table(facts: &Facts) -> Table {
    let groups = judging_sheets(facts).into_iter().map(|sheet| {
        let lift = Cell::text(sheet.lift.as_str());
        let mut rows = Vec::new();
        for (title, text) in &sheet.parts {
            rows.push(vec![
                lift.clone(),
                Cell::text(title.to_lowercase()),
                Cell::Blank,
                Cell::Blank,
                Cell::text(*text),
            ]);
        }
        for no in &sheet.no_lifts {
            rows.push(vec![
                lift.clone(),
                Cell::text("no lift"),
                Cell::text(no.card.map(|card| card.to_string()).unwrap_or_default()),
                Cell::text(&no.code),
                Cell::text(&no.text),
            ]);
        }
        Group {
            label: sheet.name,
            rows,
            ..Group::default()
        }
    });
    Table {
        groups: groups.collect(),
        columns: ["lift", "part", "card", "code", "text"]
            .map(|key| Column::new(key, key, Align::Left))
            .to_vec(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_lift_of_the_catalogue_has_a_start_a_catch_and_an_end() {
        for lift in catalogue().lifts() {
            let sheet = sheet(&lift.slug, &lift.slug);
            assert_eq!(sheet.parts.len(), 3, "{}", lift.slug);
            let codes: Vec<&String> = sheet.no_lifts.iter().map(|n| &n.code).collect();
            assert_eq!(codes.len(), lift.faults.len(), "{}", lift.slug);
            assert!(lift.faults.iter().all(|code| codes.contains(&code)));
        }
        let own = Slug::new("x-tyre-flip").unwrap();
        assert!(sheet(&own, &own).parts.is_empty());
    }

    #[test]
    fn every_entry_is_printed_for_some_lift() {
        for entry in &book().entry {
            let mut lifts = catalogue().lifts().iter();
            let used = lifts.any(|l| text_of(entry.part, &l.parts) == Some(&entry.text));
            assert!(used, "{:?}: {}", entry.part, entry.text);
        }
    }

    #[test]
    fn the_start_and_the_catch_are_those_of_the_parts() {
        let text = |slug: &str| {
            let slug = Slug::new(slug).unwrap();
            let parts = sheet(&slug, &slug).parts;
            parts.into_iter().map(|(_, text)| text).collect::<String>()
        };
        // Hang names the start and power the catch (common practice).
        assert!(text("hang-power-clean").contains("above the floor"));
        assert!(text("hang-power-clean").contains("above parallel"));
        assert!(text("hang-clean").contains("full squat"));
        assert!(text("push-jerk").contains("knees bent again"));
        assert!(text("push-press").contains("knees stay straight"));
        assert!(text("back-squat").contains("below the top of the knee"));
    }
}
