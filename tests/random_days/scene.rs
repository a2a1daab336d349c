//! What a random day begins with.

use maxday::day::{Command, NewEntry, Place};
use maxday::measure::{Unit, Weight};
use maxday::roster::{Change, Clearance};

use crate::dice::Dice;
use crate::support::{Table, slug};

/// What a random day begins with.
#[derive(Debug, Clone)]
pub struct Scene {
    /// A weightlifting meet in kilograms; else a max day in pounds.
    pub sport: bool,
    /// Platforms.
    pub platforms: u8,
    /// Entries.
    pub athletes: u8,
    /// Settings that hold from the start.
    settings: Vec<(&'static str, &'static str)>,
    /// How the entries differ.
    seed: u64,
}

const KILOS: [u8; 5] = [60, 61, 62, 63, 65];
const POUNDS: [u8; 5] = [95, 115, 135, 155, 185];

impl Scene {
    /// The scene of a seed.
    pub fn of(dice: &mut Dice) -> Self {
        let sport = dice.chance(45);
        let platforms = if sport {
            dice.within(1, 2)
        } else {
            dice.within(1, 4)
        };
        let mut settings = Vec::new();
        let mut maybe = |percent, key, value| {
            if dice.chance(percent) {
                settings.push((key, value));
            }
        };
        if !sport {
            maybe(40, "clock", "60");
            maybe(30, "judges", "3");
            maybe(25, "bar", "rising");
            maybe(15, "bar", "free");
            maybe(15, "changes", "1");
        }
        maybe(20, "attempts", "4");
        maybe(15, "station-check", "required");
        maybe(15, "clearance", "required");
        Self {
            sport,
            platforms,
            athletes: dice.within(4, 8),
            settings,
            seed: dice.next(),
        }
    }

    /// One of the few loads that are asked for.
    pub fn load(&self, dice: &mut Dice) -> Weight {
        let (set, unit) = if self.sport {
            (KILOS, Unit::Kg)
        } else {
            (POUNDS, Unit::Lb)
        };
        let n = dice.pick(&set).copied().unwrap_or(60);
        Weight::parse(&n.to_string(), unit).unwrap()
    }

    /// Slots of the programme.
    pub const fn slots(&self) -> [&'static str; 2] {
        if self.sport {
            ["snatch", "clean-and-jerk"]
        } else {
            ["clean", "back-squat"]
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
            let owed = dice.chance(if self.sport { 5 } else { 25 });
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
                until: None,
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
        let (format, unit, lifts) = if self.sport {
            ("weightlifting", Unit::Kg, ["snatch", "clean-and-jerk"])
        } else {
            let clean = "clean=power-clean+hang-power-clean";
            ("max-day", Unit::Lb, [clean, "back-squat"])
        };
        let mut table = Table::new(format, unit, &lifts, self.platforms);
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
