//! The sample days weighed in at the scale, every key counted.
//!
//! The day is made as its sample says, its roster imported with the
//! bodyweights blanked; then an official goes through all athletes. The
//! official knows nothing of the program but the line that says what Enter
//! will do, and presses keys of the real key map.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod bin;
mod desk_support;

use std::collections::BTreeMap;

use bin::{Folder, Sheet};
use desk_support::{desk_on, press, settings};
use iced::Size;
use iced::keyboard::key::Named;
use iced_test::Simulator;
use maxday::day::Facts;
use maxday::desk::action::of_press;
use maxday::desk::app::{Desk, Message};
use maxday::desk::screen::{ScreenId, scale};
use maxday::measure::Mass;
use maxday::roster::{Clearance, Entry};

const SAMPLES: [&str; 3] = ["max-day", "weightlifting", "powerlifting"];
/// The most keys that an athlete may take on average.
const MOST: f64 = 12.0;

fn sample(name: &str, file: &str) -> String {
    let folder = env!("CARGO_MANIFEST_DIR");
    std::fs::read_to_string(format!("{folder}/sample-meets/{name}/{file}")).unwrap()
}

/// A roster without its bodyweights.
fn without_bodyweights(roster: &str) -> String {
    let sheet = Sheet::read(roster);
    let at = sheet.column("Bodyweight");
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(&sheet.header).unwrap();
    for row in &sheet.rows {
        let mut row = row.clone();
        row[at].clear();
        out.write_record(&row).unwrap();
    }
    String::from_utf8(out.into_inner().unwrap()).unwrap()
}

/// A sample's day with a roster, opened at the scale.
fn at_the_scale(folder: &Folder, name: &str, roster: &str) -> Desk {
    let _ = folder.ok(&format!(
        "new day.maxday {}",
        sample(name, "new.txt").trim()
    ));
    let _ = folder.roster("day.maxday", roster);
    let mut desk = desk_on(&folder.file("day.maxday"));
    desk_support::pressed(&mut desk, "F4");
    assert_eq!(desk.screen(), Some(ScreenId::Scale));
    desk
}

/// What the athletes say and the scale shows: the roster's own, else what the
/// sample's acts have for them later on.
struct Truth {
    facts: Facts,
    bodyweights: BTreeMap<u16, String>,
    openers: BTreeMap<(u16, String), String>,
}

impl Truth {
    fn of(name: &str) -> Self {
        let folder = Folder::new();
        let roster = sample(name, "roster.csv");
        let desk = at_the_scale(&folder, name, &roster);
        let facts = desk.facts().clone();
        let acts = sample(name, "acts.csv");
        let acts = Sheet::read(&acts);
        let cell = |row: &Vec<String>, name| row[acts.column(name)].clone();
        let (mut bodyweights, mut openers) = (BTreeMap::new(), BTreeMap::new());
        let (lot, weight) = {
            let sheet = Sheet::read(&roster);
            (sheet.column("Lot"), sheet.column("Bodyweight"))
        };
        for row in &Sheet::read(&roster).rows {
            let _ = bodyweights.insert(row[lot].parse().unwrap(), row[weight].clone());
        }
        bodyweights.retain(|_, w| !w.is_empty());
        for row in &acts.rows {
            let Ok(number) = cell(row, "athlete").parse::<u16>() else {
                continue;
            };
            let load = cell(row, "load");
            match cell(row, "act").as_str() {
                "weigh" => {
                    let _ = bodyweights.entry(number).or_insert(load);
                }
                _ if !load.is_empty() => {
                    let lift = cell(row, "lift");
                    let _ = openers.entry((number, lift)).or_insert(load);
                }
                _ => {}
            }
        }
        Self {
            facts,
            bodyweights,
            openers,
        }
    }

    /// Openers that the roster leaves open.
    fn owed(&self, entry: &Entry) -> Vec<String> {
        let open = |slot: &&maxday::lift::Slug| {
            entry.takes_part(slot) && entry.slots[*slot].opener.is_none()
        };
        entry
            .slots
            .keys()
            .filter(open)
            .map(ToString::to_string)
            .collect()
    }
}

/// Somebody who presses keys and counts them.
struct Official<'a> {
    desk: Desk,
    truth: &'a Truth,
    keys: usize,
    typed_openers: usize,
    /// Whether each opener that stands gets a key of its own, rather than all
    /// of them one.
    one_by_one: bool,
}

impl Official<'_> {
    fn press(&mut self, name: &str) {
        let press = press(name);
        assert_eq!(of_press(&press, self.desk.screen()), None, "{name}");
        let message = Message::Pressed(iced::window::Id::unique(), press);
        let _ = self.desk.update(message);
        self.keys += 1;
    }

    fn types(&mut self, text: &str) {
        for letter in text.chars() {
            self.press(&letter.to_string());
        }
    }

    fn line(&self) -> String {
        self.desk.at_scale().line(self.desk.facts())
    }

    /// Weighs one athlete in: found, weighed, asked for all that is owed.
    fn weigh(&mut self, number: u16) {
        let goes = format!("Enter goes to lot {number}, ");
        if !self.line().starts_with(&goes) {
            self.types(&number.to_string());
            assert!(self.line().starts_with(&goes), "{}", self.line());
        }
        self.press("Enter");
        let (truth, facts) = (self.truth, &self.truth.facts);
        let entry = facts.entry_by_number(number).unwrap();
        let is = format!(
            "Bodyweight in {} of lot {number}, {}. ",
            facts.scale_unit,
            entry.name()
        );
        assert!(self.line().starts_with(&is), "{}", self.line());
        self.types(&truth.bodyweights[&number]);
        self.press("Enter");
        let mut owed = truth.owed(entry).into_iter();
        loop {
            let line = self.line();
            if line.contains("type a lot") || line.starts_with("All are weighed") {
                break;
            }
            if line.starts_with("Opener in ") {
                let slot = owed.next().unwrap();
                self.types(&truth.openers[&(number, slot)]);
                self.typed_openers += 1;
            } else if line.starts_with("Clearance of ") {
                self.types("y");
            } else {
                assert!(line.contains("stand"), "{line}");
                let to_come = line.split("; Tab goes on to ").nth(1);
                if self.one_by_one && to_come.is_some() {
                    self.press("Tab");
                    continue;
                }
            }
            self.press("Enter");
        }
        assert_eq!(owed.next(), None, "lot {number}");
        assert!(!self.desk.at_scale().has_drafts());
    }
}

/// What stands in the day is what the roster says and what was asked for.
fn as_the_roster_says(facts: &Facts, truth: &Truth) {
    assert_eq!(facts.entries.len(), truth.facts.entries.len());
    for entry in facts.entries.values() {
        let number = entry.number;
        let told = truth.facts.entry_by_number(number).unwrap();
        let weight = &truth.bodyweights[&number];
        let weight = Mass::parse(weight, facts.scale_unit).unwrap();
        let found = entry.bodyweight.as_ref().unwrap();
        assert_eq!(found.mass, weight, "lot {number}");
        if let Some(told) = &told.bodyweight {
            assert_eq!(told.mass, weight, "lot {number}");
        }
        assert_eq!(entry.slots.len(), told.slots.len());
        for (slot, line) in &entry.slots {
            let told = &told.slots[slot];
            assert_eq!(line.variant, told.variant, "lot {number}, {slot}");
            match &told.opener {
                None if line.variant.is_some() => {
                    let asked = &truth.openers[&(number, slot.to_string())];
                    let asked = Mass::parse(asked, facts.bar_unit).unwrap();
                    assert_eq!(line.opener.as_ref().unwrap().mass, asked);
                }
                told => assert_eq!(&line.opener, told, "lot {number}, {slot}"),
            }
        }
        for (slot, clearance) in &told.clearance {
            assert_eq!(entry.clearance.get(slot), Some(clearance), "lot {number}");
        }
        if facts.gates_on {
            for line in facts.slots.iter().filter(|l| entry.takes_part(&l.slot)) {
                let clearance = facts.clearance(entry, &line.slot);
                assert!(clearance.is_some(), "lot {number}");
                if told.clearance.is_empty() {
                    assert_eq!(clearance, Some(&Clearance::Yes));
                }
            }
        }
    }
}

/// Numbers in an order that has nothing to do with them.
fn in_any_order(mut numbers: Vec<u16>, mut seed: u64) -> Vec<u16> {
    for at in (1..numbers.len()).rev() {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        let to = usize::try_from(seed >> 33).unwrap() % (at + 1);
        numbers.swap(at, to);
    }
    numbers
}

#[test]
fn a_sample_day_takes_at_most_twelve_keys_an_athlete() {
    for name in SAMPLES {
        let truth = Truth::of(name);
        let by_lot: Vec<&Entry> = truth.facts.entries_by_number().collect();
        let mut by_session = by_lot.clone();
        by_session.sort_by(|a, b| a.session.cmp(&b.session));
        let numbers =
            |list: &[&Entry]| -> Vec<u16> { list.iter().map(|e| e.number).collect() };
        let orders = [
            ("by lot, session by session", numbers(&by_session)),
            ("by lot over the day", numbers(&by_lot)),
            ("in any order", in_any_order(numbers(&by_lot), 7)),
        ];
        let one_by_one = orders.last().map(|o| (o, true));
        let ways = orders.iter().map(|o| (o, false)).chain(one_by_one);
        for ((order, numbers), one_by_one) in ways {
            let folder = Folder::new();
            let roster = without_bodyweights(&sample(name, "roster.csv"));
            let desk = at_the_scale(&folder, name, &roster);
            let weighed = |e: &Entry| e.bodyweight.is_some();
            assert!(!desk.facts().entries.values().any(weighed));
            let mut official = Official {
                desk,
                truth: &truth,
                keys: 0,
                typed_openers: 0,
                one_by_one,
            };
            for number in numbers {
                official.weigh(*number);
            }
            as_the_roster_says(official.desk.facts(), &truth);
            let athletes = f64::from(u16::try_from(numbers.len()).unwrap());
            let keys = f64::from(u32::try_from(official.keys).unwrap());
            let each = keys / athletes;
            println!(
                "{name}, {order}, openers confirmed {}: {keys} keys for {athletes} athletes, \
                 {each:.2} each; {} openers typed",
                if one_by_one { "one by one" } else { "together" },
                official.typed_openers
            );
            assert!(each <= MOST, "{name}, {order}: {each:.2} keys an athlete");
        }
    }
}

#[test]
fn the_window_s_own_fields_take_the_same_keys() {
    // One burst through the text field, as the window hands it on.
    let truth = Truth::of("max-day");
    let folder = Folder::new();
    let roster = without_bodyweights(&sample("max-day", "roster.csv"));
    let mut desk = at_the_scale(&folder, "max-day", &roster);
    let messages: Vec<Message> = {
        let size = Size::new(1366.0, 740.0);
        let mut ui = Simulator::with_size(settings(), size, desk.main());
        let _ = ui.click(iced_test::selector::id(scale::FIELD)).unwrap();
        for number in [47, 4, 60] {
            let _ = ui.typewrite(&format!("{number}"));
            let _ = ui.tap_key(Named::Enter);
            let _ = ui.typewrite(&truth.bodyweights[&number]);
            let _ = ui.tap_key(Named::Enter);
            let _ = ui.tap_key(Named::Enter);
        }
        ui.into_messages().collect()
    };
    for message in messages {
        let _ = desk.update(message);
    }
    for number in [47, 4, 60] {
        let told = truth.facts.entry_by_number(number).unwrap();
        let entry = desk.facts().entry_by_number(number).unwrap();
        assert_eq!(entry.bodyweight, told.bodyweight);
        assert_eq!(entry.slots, told.slots);
    }
    assert!(!desk.at_scale().has_drafts());
    let line = desk.at_scale().line(desk.facts());
    assert!(line.contains("the next to be weighed"), "{line}");
}
