//! What a random day begins with.

use chrono::NaiveDate;
use maxday::day::{Command, NewEntry, Place};
use maxday::measure::{Unit, Weight};
use maxday::roster::{Change, Clearance};
use maxday::rules::{Sex, formats, keys};

use crate::dice::Dice;
use crate::support::{Table, slug};

/// Which of the shipped formats a day starts from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A max day in pounds.
    MaxDay,
    /// A weightlifting meet in kilograms.
    Weightlifting,
    /// A powerlifting meet in kilograms.
    Powerlifting,
}

/// What a random day begins with.
#[derive(Debug, Clone)]
pub struct Scene {
    /// Its format.
    pub kind: Kind,
    /// Platforms.
    pub platforms: u8,
    /// Entries.
    pub athletes: u8,
    /// Settings that hold from the start.
    settings: Vec<(&'static str, String)>,
    /// How the entries differ.
    seed: u64,
}

const KILOS: [&str; 5] = ["60", "61", "62", "63", "65"];
const FIVES: [&str; 5] = ["60", "62.5", "65", "67.5", "70"];
const POUNDS: [&str; 5] = ["95", "115", "135", "155", "185"];

impl Scene {
    /// The scene of a seed.
    pub fn of(dice: &mut Dice) -> Self {
        let kind = dice.weighed(&[
            (45, Kind::MaxDay),
            (30, Kind::Weightlifting),
            (25, Kind::Powerlifting),
        ]);
        let most = if kind == Kind::MaxDay { 4 } else { 2 };
        let platforms = dice.within(1, most);
        Self {
            kind,
            platforms,
            athletes: dice.within(4, 8),
            settings: settings(kind, dice),
            seed: dice.next(),
        }
    }

    /// The bar's unit.
    pub fn unit(&self) -> Unit {
        if self.kind == Kind::MaxDay {
            Unit::Lb
        } else {
            Unit::Kg
        }
    }

    /// One of the few loads that are asked for.
    pub fn load(&self, dice: &mut Dice) -> Weight {
        let set = match self.kind {
            Kind::MaxDay => POUNDS,
            Kind::Weightlifting => KILOS,
            Kind::Powerlifting => FIVES,
        };
        Weight::parse(dice.pick(&set).unwrap(), self.unit()).unwrap()
    }

    /// Slots of the programme.
    pub const fn slots(&self) -> [&'static str; 2] {
        match self.kind {
            Kind::MaxDay => ["clean", "back-squat"],
            Kind::Weightlifting => ["snatch", "clean-and-jerk"],
            Kind::Powerlifting => ["back-squat", "bench-press"],
        }
    }

    /// Names of flights; the second half may have to be made.
    pub const fn flights(&self) -> [&'static str; 5] {
        ["A", "B", "C", "D", "E"]
    }

    /// An entry with random openers, some owed and some not entered.
    pub fn entry(&self, number: Option<u16>, flight: u8, dice: &mut Dice) -> NewEntry {
        let mut changes = vec![
            Change::Given("Ann".to_owned()),
            Change::Family(format!("Lee{}", dice.below(1000))),
        ];
        for slot in self.slots() {
            if dice.chance(4) {
                continue;
            }
            let variant = match slot {
                "clean" if dice.chance(30) => "hang-power-clean",
                "clean" => "power-clean",
                other => other,
            };
            let owed = dice.chance(if self.kind == Kind::MaxDay { 25 } else { 5 });
            changes.push(Change::Slot {
                slot: slug(slot),
                variant: Some(slug(variant)),
                opener: (!owed).then(|| self.load(dice)),
            });
        }
        if dice.chance(70) {
            changes.push(Change::Clearance {
                slot: None,
                clearance: Some(Clearance::Yes),
                until: until(dice),
            });
        }
        if dice.chance(15) {
            changes.push(Change::Guest(true));
        }
        if dice.chance(30) {
            changes.push(Change::Sex(Some(Sex::F)));
            let total = dice.pick(&["140", "145", "150"]).unwrap();
            let total = Weight::parse(total, self.unit()).unwrap();
            changes.push(Change::EntryTotal(Some(total)));
        }
        if dice.chance(20) {
            changes.push(Change::Last {
                lift: slug("back-squat"),
                load: Some(self.load(dice)),
            });
        }
        let flight_name = self.flights()[usize::from(flight % 5)];
        NewEntry {
            number,
            changes,
            place: Place {
                session: Some("1".to_owned()),
                flight: Some(flight_name.to_owned()),
                platform: Some(flight % self.platforms + 1),
            },
        }
    }

    /// The day with its entries, before the first act that is counted.
    pub fn open(&self) -> Table {
        let mut dice = Dice::new(self.seed);
        let (format, lifts) = match self.kind {
            Kind::MaxDay => (
                "max-day",
                ["clean=power-clean+hang-power-clean", "back-squat"],
            ),
            Kind::Weightlifting => ("weightlifting", self.slots()),
            Kind::Powerlifting => ("powerlifting", self.slots()),
        };
        let mut table = Table::new(format, self.unit(), &lifts, self.platforms);
        for (key, value) in &self.settings {
            table.set(key, value);
        }
        let entries = (0..self.athletes)
            .map(|i| self.entry(Some(u16::from(i) + 1), i % self.platforms, &mut dice))
            .collect();
        let _ = table.ok(Command::Add(entries));
        table
    }
}

/// A last day of a clearance: mostly none, sometimes passed already.
pub fn until(dice: &mut Dice) -> Option<NaiveDate> {
    let day = dice.weighed(&[(6, ""), (2, "2026-12-01"), (1, "2026-11-16")]);
    day.parse().ok()
}

/// Any rule, with the word that one of the shipped formats has for it.
pub fn any_rule(kind: Kind, dice: &mut Dice) -> (&'static str, String) {
    let unit = if kind == Kind::MaxDay {
        Unit::Lb
    } else {
        Unit::Kg
    };
    let key = dice.pick(keys()).unwrap().name;
    let words = dice.pick(formats()).unwrap().rules(unit).unwrap().words();
    (key, words[key].clone())
}

/// Rules that differ from the format's.
fn settings(kind: Kind, dice: &mut Dice) -> Vec<(&'static str, String)> {
    let mut settings = Vec::new();
    let mut maybe = |percent, key, value| {
        if dice.chance(percent) {
            settings.push((key, String::from(value)));
        }
    };
    match kind {
        Kind::MaxDay => {
            maybe(40, "clock", "60");
            maybe(30, "judges", "3");
            maybe(25, "bar", "rising");
            maybe(15, "bar", "free");
            maybe(15, "changes", "1");
            maybe(40, "reps", "multiple");
            maybe(50, "wrong-catch", "reclassify");
            maybe(20, "record-step", "1 lb");
            maybe(15, "least-rise", "step");
            maybe(15, "automatic", "step");
        }
        Kind::Weightlifting => {
            maybe(30, "record-step", "0.5 kg");
            maybe(30, "change-called", "no");
            maybe(30, "change-clock", "run");
            maybe(30, "following-ends", "ruling");
            maybe(15, "entry-total-f", "80%");
        }
        Kind::Powerlifting => {
            maybe(20, "record-step", "off");
            maybe(20, "change-called", "yes");
            maybe(30, "changes-first", "any");
            maybe(20, "hand-in", "off");
            maybe(20, "first-closes-left", "off");
            maybe(15, "bar", "rising");
            maybe(15, "again", "now");
        }
    }
    maybe(20, "attempts", "4");
    maybe(15, "station-check", "required");
    maybe(15, "clearance", "required");
    maybe(50, "table-number", "start");
    maybe(35, "challenges", "1");
    maybe(30, "challenge-closes", "call");
    maybe(20, "credit", "step");
    maybe(20, "again", "round-end");
    maybe(10, "no-good", "out");
    maybe(10, "jumps", "required");
    maybe(25, "jump-upper", "5");
    maybe(25, "jump-lower", "5");
    maybe(15, "rest", "0");
    maybe(20, "error-lighter-good", "keep");
    maybe(20, "error-heavier-no", "again");
    maybe(20, "error-same-good", "repeat");
    for _ in 0..2 {
        settings.push(any_rule(kind, dice));
    }
    if settings.contains(&("bar", "free".to_owned())) && settings.len() % 2 == 0 {
        settings.push(("order", "rest load number".to_owned()));
    }
    settings
}
