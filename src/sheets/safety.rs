//! What hangs at a platform: clear zone, spotting, how to miss, what is checked.
//!
//! General education; it defers to local policy and the supervisor on site.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::results::lift_name;
use super::{Align, Cell, Column, Group, Table};
use crate::day::Facts;
use crate::lift::{Family, Form, Lift, Slug, Start, catalogue};

/// The key of the caution that defers to local policy; the foot says it.
const POLICY: &str = "policy";

/// A part of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Part {
    Clear,
    Spotting,
    Miss,
    Before,
}

impl Part {
    const ALL: [Self; 4] = [Self::Clear, Self::Spotting, Self::Miss, Self::Before];

    const fn title(self) -> &'static str {
        match self {
            Self::Clear => "Clear zone",
            Self::Spotting => "Spotting",
            Self::Miss => "How to miss",
            Self::Before => "Set-up",
        }
    }
}

/// `resources/safety.toml` as it is written.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Book {
    policy: String,
    parts: BTreeMap<Part, Vec<String>>,
    more: Vec<More>,
    check: Vec<Check>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct More {
    part: Part,
    families: Vec<Family>,
    #[serde(default)]
    forms: Vec<Form>,
    text: String,
    /// Where it comes from: for whoever reads the file.
    #[serde(rename = "source")]
    _source: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Check {
    text: String,
    #[serde(default)]
    families: Vec<Family>,
    #[serde(default)]
    starts: Vec<Start>,
    #[serde(default)]
    spotted: bool,
    /// Where it comes from: for whoever reads the file.
    #[serde(rename = "source")]
    _source: String,
}

fn book() -> &'static Book {
    static BOOK: OnceLock<Book> = OnceLock::new();
    // Compiled in, and a test reads it.
    BOOK.get_or_init(|| {
        toml::from_str(include_str!("../../resources/safety.toml")).unwrap_or_default()
    })
}

/// The sentence by which a safety sheet defers to local policy and the
/// supervisor on site.
pub fn safety_policy() -> &'static str {
    &book().policy
}

/// What is told of one lift.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SafetySheet {
    /// The lift.
    pub lift: Slug,
    /// Its name for people.
    pub name: String,
    /// Titles of the parts, each with its sentences; no part is empty.
    pub parts: Vec<(&'static str, Vec<String>)>,
    /// Boxes to tick before the first attempt at a station.
    pub checks: Vec<&'static str>,
}

/// One sheet a lift of the programme, in its order; a lift that stands in two
/// slots has one.
///
/// A lift that the school has added itself has only what holds for every lift.
/// Source: the cautions of `resources/lifts.toml`, and `resources/safety.toml`.
pub fn safety_sheets(facts: &Facts) -> Vec<SafetySheet> {
    let mut lifts: Vec<&Slug> = Vec::new();
    for lift in facts.slots.iter().flat_map(|line| &line.variants) {
        if !lifts.contains(&lift) {
            lifts.push(lift);
        }
    }
    lifts.into_iter().map(sheet).collect()
}

fn sheet(slug: &Slug) -> SafetySheet {
    let lift = catalogue().get(slug.as_str());
    let parts = Part::ALL.map(|part| (part.title(), sentences(slug, lift, part)));
    let checks = book().check.iter().filter(|check| check.fits(lift));
    SafetySheet {
        lift: slug.clone(),
        name: lift_name(slug),
        parts: parts.into_iter().filter(|(_, s)| !s.is_empty()).collect(),
        checks: checks.map(|check| check.text.as_str()).collect(),
    }
}

fn sentences(slug: &Slug, lift: Option<&Lift>, part: Part) -> Vec<String> {
    let Some(lift) = lift else {
        return match part {
            Part::Before => vec![format!(
                "{slug} is the school's own lift: the supervisor on site says how it is \
                 spotted and missed, and how much room it needs."
            )],
            _ => Vec::new(),
        };
    };
    let mut sentences = Vec::new();
    if part == Part::Spotting {
        sentences.push(match lift.spotters {
            0 => "No spotters.".to_owned(),
            1 => "At least 1 spotter.".to_owned(),
            n => format!("At least {n} spotters."),
        });
    }
    let of = |part: Part, key: &String| {
        let keys = book().parts.get(&part);
        keys.is_some_and(|keys| keys.contains(key))
    };
    let named = lift.caution_keys.iter().zip(&lift.cautions);
    for (key, text) in named.filter(|(key, _)| *key != POLICY) {
        let here = match part {
            Part::Before => !Part::ALL.into_iter().any(|part| of(part, key)),
            part => of(part, key),
        };
        if here {
            sentences.push(text.clone());
        }
    }
    let more = book().more.iter().filter(|more| {
        let form = more.forms.is_empty()
            || lift
                .parts
                .form
                .is_some_and(|form| more.forms.contains(&form));
        more.part == part && form && more.families.contains(&lift.parts.family)
    });
    sentences.extend(more.map(|more| more.text.clone()));
    sentences
}

impl Check {
    /// Whether it is asked for a lift; one that isn't known has only what is
    /// asked for all.
    fn fits(&self, lift: Option<&Lift>) -> bool {
        let Some(lift) = lift else {
            return self.families.is_empty() && self.starts.is_empty() && !self.spotted;
        };
        (self.families.is_empty() || self.families.contains(&lift.parts.family))
            && (self.starts.is_empty() || self.starts.contains(&lift.parts.start))
            && (!self.spotted || lift.spotters > 0)
    }
}

/// The sheets as a table: lift, part and sentence, the boxes to tick as part
/// `check`.
pub fn safety_table(facts: &Facts) -> Table {
    let mut groups = Vec::new();
    for sheet in safety_sheets(facts) {
        let row = |part: &str, text: &str| {
            let lift = Cell::text(sheet.lift.as_str());
            vec![lift, Cell::text(part), Cell::text(text)]
        };
        let mut rows = Vec::new();
        for (title, sentences) in &sheet.parts {
            rows.extend(
                sentences
                    .iter()
                    .map(|text| row(&title.to_lowercase(), text)),
            );
        }
        rows.extend(sheet.checks.iter().map(|text| row("check", text)));
        groups.push(Group {
            label: sheet.name.clone(),
            rows,
            ..Group::default()
        });
    }
    Table {
        columns: ["lift", "part", "text"]
            .map(|key| Column::new(key, key, Align::Left))
            .to_vec(),
        groups,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_lift_of_the_catalogue_has_every_part_and_boxes() {
        for lift in catalogue().lifts() {
            let sheet = sheet(&lift.slug);
            let titles: Vec<&str> = sheet.parts.iter().map(|(title, _)| *title).collect();
            assert_eq!(titles, Part::ALL.map(Part::title), "{}", lift.slug);
            assert!(sheet.checks.len() >= 4, "{}", lift.slug);
            let all: Vec<&String> = sheet.parts.iter().flat_map(|(_, s)| s).collect();
            for (key, text) in lift.caution_keys.iter().zip(&lift.cautions) {
                let told = all.contains(&text);
                assert_eq!(told, key != POLICY, "{}: {key}", lift.slug);
            }
            let spotters = all.iter().any(|s| s.contains("At least"));
            assert_eq!(spotters, lift.spotters > 0, "{}", lift.slug);
        }
    }

    #[test]
    fn every_key_is_a_caution_of_some_lift() {
        let known = |key: &String| {
            let mut lifts = catalogue().lifts().iter();
            lifts.any(|lift| lift.caution_keys.contains(key))
        };
        let keys: Vec<&String> = book().parts.values().flatten().collect();
        assert!(keys.len() > 8 && keys.into_iter().all(known));
        assert!(safety_policy().contains("supervisor on site come first"));
    }

    #[test]
    fn what_is_lifted_fast_is_not_spotted() {
        // NSCA textbook advice on spotting (from memory), and common practice.
        let text = |slug: &str| {
            let sheet = sheet(&Slug::new(slug).unwrap());
            format!("{:?} {:?}", sheet.parts, sheet.checks)
        };
        for slug in ["power-clean", "snatch", "push-jerk", "clean-and-jerk"] {
            let text = text(slug);
            assert!(text.contains("No spotters.") && text.contains("4 m by 4 m"));
            assert!(!text.contains("Safety arms"), "{text}");
        }
        for slug in ["back-squat", "bench-press"] {
            let text = text(slug);
            assert!(text.contains("Safety arms") && text.contains("Spotters named"));
        }
        assert!(text("block-jerk").contains("Blocks level"));
        let own = text("x-tyre-flip");
        assert!(own.contains("school's own lift") && own.contains("Collars"));
    }
}
