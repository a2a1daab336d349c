//! Invented days for papers, told event by event.

use chrono::NaiveDate;
use maxday::day::{
    Day, Event, Facts, FaultGiven, RecordKey, RecordMark, Recorded, RuledFact, Ruling,
    Source, Stamp, apply,
};
use maxday::lift::Slug;
use maxday::measure::{Unit, Weight};
use maxday::roster::{Change, Clearance, EntryKey, Presence, Sex, SlotLine};
use maxday::rules::format_named;

/// A day that is being told.
pub struct Told {
    day: Day,
    next: u64,
    unit: Unit,
}

/// When everything happens: 2026-11-17, 14:05 at six hours west.
pub const NOW: Stamp = Stamp {
    ms: 1_794_945_900_000,
    offset: -360,
    loose: false,
};

pub fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

/// `clean=power-clean+hang-power-clean`, or a lift alone.
fn slot(text: &str) -> SlotLine {
    let (slot, variants) = text.split_once('=').unwrap_or((text, text));
    SlotLine {
        slot: slug(slot),
        variants: variants.split('+').map(slug).collect(),
    }
}

impl Told {
    pub fn new(
        name: &str,
        format: &str,
        unit: Unit,
        lifts: &[&str],
        platforms: u8,
    ) -> Self {
        let rules = format_named(format).unwrap().rules(unit).unwrap();
        let mut told = Self {
            day: Day::new(),
            next: 1,
            unit,
        };
        told.tell(Event::DayMade {
            name: name.to_owned(),
            date: NaiveDate::from_ymd_opt(2026, 11, 17).unwrap(),
            format: format.to_owned(),
            bar_unit: unit,
            scale_unit: unit,
            rules: rules.words(),
            slots: lifts.iter().map(|l| slot(l)).collect(),
            platforms,
        });
        told
    }

    pub fn tell(&mut self, event: Event) {
        let recorded = Recorded {
            seq: self.next,
            act: self.next,
            id: format!("e{}", self.next),
            at: NOW,
            happened: None,
            hand: "Table".to_owned(),
            platform: None,
            event,
        };
        self.next += 1;
        apply(&mut self.day, &recorded);
    }

    pub fn set(&mut self, key: &str, value: &str) {
        self.tell(Event::SettingChanged {
            key: key.to_owned(),
            value: value.to_owned(),
        });
    }

    pub fn flight(&mut self, name: &str, platform: u8) {
        self.tell(Event::FlightMade {
            session: "1".to_owned(),
            flight: name.to_owned(),
            platform,
        });
    }

    pub fn weight(&self, text: &str) -> Weight {
        Weight::parse(text, self.unit).unwrap()
    }

    /// Somebody with openers: `variant load`, a variant alone, or `-`; one a
    /// slot, in the order of the programme.
    pub fn add(
        &mut self,
        number: u16,
        name: (&str, &str),
        flight: &str,
        openers: &[&str],
    ) {
        let mut changes = vec![
            Change::Given(name.0.to_owned()),
            Change::Family(name.1.to_owned()),
            Change::Place {
                session: "1".to_owned(),
                flight: flight.to_owned(),
            },
        ];
        let lines = self.day.facts().slots.clone();
        for (line, opener) in lines.iter().zip(openers) {
            let (variant, load) = match opener.split_once(' ') {
                Some((variant, load)) => (slug(variant), Some(self.weight(load))),
                None if *opener == "-" => continue,
                None if opener.parse::<f32>().is_ok() => {
                    (line.default_variant().clone(), Some(self.weight(opener)))
                }
                None => (slug(opener), None),
            };
            changes.push(Change::Slot {
                slot: line.slot.clone(),
                variant: Some(variant),
                opener: load,
            });
        }
        self.tell(Event::EntryAdded {
            entry: EntryKey(u32::from(number)),
            number,
            changes,
        });
    }

    pub fn edit(&mut self, number: u16, changes: Vec<Change>) {
        self.tell(Event::EntryEdited {
            entry: EntryKey(u32::from(number)),
            changes,
        });
    }

    /// A record of the book, such as `F 63 novice`; with no load nobody has set it.
    pub fn record(
        &mut self,
        lift: &str,
        (sex, category, division): (Option<Sex>, &str, &str),
        load: Option<Weight>,
        holder: [&str; 3],
    ) {
        let [holder, date, place] = holder.map(str::to_owned);
        self.tell(Event::RecordListed {
            record: RecordKey::new(slug(lift), sex, category, division),
            mark: Some(RecordMark {
                load,
                holder,
                date,
                place,
            }),
        });
    }

    pub fn body(&mut self, number: u16, sex: Sex, weight: &str, grade: &str, team: &str) {
        let bodyweight = Some(self.weight(weight));
        self.edit(
            number,
            vec![
                Change::Sex(Some(sex)),
                Change::Bodyweight(bodyweight),
                Change::Grade(grade.to_owned()),
                Change::Team(team.to_owned()),
            ],
        );
    }

    pub fn request(&mut self, number: u16, slot: &str, attempt: u8, load: &str) {
        let load = self.weight(load);
        self.tell(Event::Requested {
            entry: EntryKey(u32::from(number)),
            slot: slug(slot),
            attempt,
            load,
            change: false,
            record: false,
        });
    }

    /// Attempts from the first on: `62.5`, `65 no`, `65 no:press-out`, `pass`.
    pub fn lifts(&mut self, number: u16, slot: &str, attempts: &[&str]) {
        for (n, text) in (1..).zip(attempts) {
            let (load, word) = match text.split_once(' ') {
                Some((load, word)) => (Some(self.weight(load)), word),
                None if *text == "pass" => (None, "pass"),
                None => (Some(self.weight(text)), "good"),
            };
            let (word, code) = word.split_once(':').unwrap_or((word, ""));
            let key = EntryKey(u32::from(number));
            let entry = &self.day.facts().entries[&key];
            let fact = RuledFact {
                entry: key,
                slot: slug(slot),
                lift: entry.variant(&slug(slot)).unwrap().clone(),
                attempt: n,
                session: entry.session.clone(),
                flight: entry.flight.clone(),
                requested: load.clone(),
                loaded: load.clone(),
                credited: load,
                ruling: Ruling::parse(word).unwrap(),
                lights: Vec::new(),
                faults: (!code.is_empty())
                    .then(|| FaultGiven {
                        judge: None,
                        code: code.to_owned(),
                    })
                    .into_iter()
                    .collect(),
                called_at: None,
                reps: 1,
                source: Source::Card,
                reason: String::new(),
            };
            self.tell(Event::Ruled(Box::new(fact)));
        }
    }

    pub fn clear(&mut self, number: u16, lift: Option<&str>, clearance: Clearance) {
        self.tell(Event::Cleared {
            entry: EntryKey(u32::from(number)),
            slot: lift.map(slug),
            clearance,
            until: None,
            who: "Nurse".to_owned(),
            why: "left knee operated on".to_owned(),
        });
    }

    pub fn away(&mut self, number: u16, presence: Presence) {
        self.tell(Event::RollAnswered {
            entry: EntryKey(u32::from(number)),
            presence,
            back: false,
            reason: "ill".to_owned(),
        });
    }

    pub fn facts(&self) -> &Facts {
        self.day.facts()
    }

    pub fn day(&self) -> &Day {
        &self.day
    }
}

/// A max day in pounds on two racks: names in four scripts, a long one, a tie,
/// caps, somebody who isn't cleared, somebody absent, every ruling.
pub fn max_day() -> Told {
    let mut told = Told::new(
        "Fall max day",
        "max-day",
        Unit::Lb,
        &[
            "clean=power-clean+hang-power-clean",
            "back-squat",
            "bench-press",
        ],
        2,
    );
    told.set("venue", "Weight room, lower gym");
    told.set("platform.1", "Rack 1");
    told.set("platform.2", "Rack 2");
    told.flight("A", 1);
    told.flight("B", 2);
    let clean = "hang-power-clean";
    told.add(4, ("Łukasz", "Świerk"), "A", &["135", "225", "155"]);
    told.add(
        7,
        ("Þóra", "Jónsdóttir"),
        "A",
        &[&format!("{clean} 75"), "135", "70"],
    );
    told.add(9, ("Ελένη", "Μαύρου"), "A", &["85", "155", "-"]);
    told.add(12, ("Мария", "Белая"), "A", &["85", "145", "80"]);
    told.add(
        15,
        (
            "Maximiliana Konstantina",
            "Wolfeschlegelstein-Featherstonehaugh",
        ),
        "A",
        &["power-clean", "115", "65"],
    );
    told.add(21, ("Bo", "Lee"), "B", &["185", "315", "225"]);
    told.add(22, ("Ada", "Quist"), "B", &["95", "back-squat", "75"]);
    for (number, sex, body, grade, team) in [
        (4, Sex::M, "162.4", "11", "Otters track"),
        (7, Sex::F, "128", "10", "Otters rugby"),
        (9, Sex::F, "141.2", "12", "Otters track"),
        (12, Sex::F, "133", "9", ""),
        (15, Sex::F, "150.8", "10", "Otters volleyball"),
        (21, Sex::M, "204", "12", "Otters wrestling"),
    ] {
        told.body(number, sex, body, grade, team);
    }
    told.clear(7, None, Clearance::Yes);
    told.clear(9, None, Clearance::Yes);
    told.clear(9, Some("back-squat"), Clearance::No);
    let cap = told.weight("155");
    told.clear(12, None, Clearance::UpTo(cap));
    told.edit(
        4,
        vec![
            Change::Setup {
                name: "rack squat".to_owned(),
                value: "14".to_owned(),
            },
            Change::Setup {
                name: "arms squat".to_owned(),
                value: "5".to_owned(),
            },
        ],
    );
    told.away(22, Presence::Absent);
    told.lifts(4, "clean", &["135", "155", "165 no:caught-too-low"]);
    told.lifts(7, "clean", &["75", "85", "90"]);
    told.lifts(9, "clean", &["85", "95 no:elbow-on-thigh", "95"]);
    told.lifts(12, "clean", &["85", "95", "100 stopped"]);
    told.lifts(21, "clean", &["185 no", "185 no", "pass"]);
    told.lifts(4, "back-squat", &["225"]);
    told.request(4, "back-squat", 2, "245");
    let load = |text: &str| Some(Weight::parse(text, Unit::Lb).unwrap());
    let (girls, boys) = (Some(Sex::F), Some(Sex::M));
    let gym = "Weight room, lower gym";
    told.record(
        "hang-power-clean",
        (girls, "", ""),
        load("85"),
        ["Mara Olden", "2019-05-04", gym],
    );
    told.record(
        "power-clean",
        (girls, "", ""),
        load("95"),
        ["Tess Burrow-Vandersteen", "spring 2021", gym],
    );
    told.record("power-clean", (boys, "", ""), load("70 kg"), ["", "", ""]);
    told.record(
        "back-squat",
        (boys, "", ""),
        load("405"),
        ["Gus Pale", "1998", "Old gym"],
    );
    told.record("back-squat", (boys, "74", ""), None, ["", "", ""]);
    told.record("back-squat", (None, "", "novice"), None, ["", "", ""]);
    told
}

/// A weightlifting meet in kilograms with categories, ties and a bomb-out.
pub fn meet() -> Told {
    let mut told = Told::new(
        "Quillback autumn meet",
        "weightlifting",
        Unit::Kg,
        &["snatch", "clean-and-jerk"],
        1,
    );
    told.set("venue", "Old gym");
    told.flight("A", 1);
    for (number, given, family, sex, body, snatch, jerk) in [
        (1, "Adaeze", "Nwokoforah", Sex::F, "62.45", "60", "75"),
        (2, "Ελένη", "Μαύρου", Sex::F, "61.8", "58", "75"),
        (3, "Ione", "Verhaegen-Obi", Sex::F, "55.1", "40", "52"),
        (5, "Kwaku", "Mensahdom", Sex::M, "72.9", "87", "108"),
        (8, "Łukasz", "Świerkowicz", Sex::M, "74.3", "76", "100"),
    ] {
        told.add(number, (given, family), "A", &[snatch, jerk]);
        told.body(number, sex, body, "11", "Quillback");
        let division = if number < 4 { "Varsity" } else { "Novice" };
        told.edit(number, vec![Change::Divisions(vec![division.to_owned()])]);
    }
    told.lifts(1, "snatch", &["60", "63", "65 no:press-out"]);
    told.lifts(2, "snatch", &["58 no", "58", "63"]);
    told.lifts(3, "snatch", &["40 no", "40 no", "40 time"]);
    told.lifts(5, "snatch", &["87", "91", "94"]);
    told.lifts(8, "snatch", &["76", "80 no", "80"]);
    told.lifts(1, "clean-and-jerk", &["75", "78", "80"]);
    told.lifts(2, "clean-and-jerk", &["75", "78", "80"]);
    told.lifts(3, "clean-and-jerk", &["52", "54.5", "pass"]);
    told.lifts(5, "clean-and-jerk", &["108", "112 no"]);
    told.request(5, "clean-and-jerk", 3, "113");
    let load = |text: &str| Some(Weight::parse(text, Unit::Kg).unwrap());
    let (girls, boys) = (Some(Sex::F), Some(Sex::M));
    told.record(
        "snatch",
        (girls, "69", ""),
        load("60"),
        ["Mara Olden", "2019-05-04", "Old gym"],
    );
    told.record(
        "snatch",
        (girls, "", "Varsity"),
        load("140 lb"),
        ["Tess Burrow", "2021", "Old gym"],
    );
    told.record(
        "snatch",
        (boys, "", ""),
        load("93.5"),
        ["Gus Pale", "1998", ""],
    );
    told.record("clean-and-jerk", (girls, "53", ""), None, ["", "", ""]);
    told.record(
        "clean-and-jerk",
        (girls, "69", ""),
        load("78"),
        ["Mara Olden", "2019-05-04", "Old gym"],
    );
    told.record(
        "clean-and-jerk",
        (boys, "75", ""),
        load("107"),
        ["Gus Pale", "1998", ""],
    );
    told
}

/// Many athletes in flights of twelve, with as many attempts as are asked for.
pub fn big(athletes: u16, attempts: u8, lifts: &[&str]) -> Told {
    let mut told = Told::new("Winter test week", "max-day", Unit::Lb, lifts, 4);
    told.set("attempts", &attempts.to_string());
    let given = [
        "Ann",
        "Bartholomew",
        "Chidi",
        "Dagny",
        "Eszter",
        "Ferdinand",
    ];
    let family = [
        "Ó Súilleabháin",
        "Li",
        "Featherstonehaugh",
        "Nakamoto",
        "de la Cruz-Vey",
    ];
    for flight in 0..athletes.div_ceil(12) {
        let name = char::from(b'A' + u8::try_from(flight).unwrap()).to_string();
        told.flight(&name, u8::try_from(flight % 4).unwrap() + 1);
        let first = flight * 12 + 1;
        for number in first..(first + 12).min(athletes + 1) {
            let at = usize::from(number);
            let load = (95 + 5 * (number % 17)).to_string();
            let openers: Vec<&str> = lifts.iter().map(|_| load.as_str()).collect();
            told.add(number, (given[at % 6], family[at % 5]), &name, &openers);
            told.body(number, Sex::F, "131.5", "10", "Otters track");
            if number % 3 > 0 {
                let slots = told.facts().slots.clone();
                for line in slots {
                    let more = (105 + 5 * (number % 17)).to_string() + " no";
                    told.lifts(number, line.slot.as_str(), &[&load, &more]);
                }
            }
        }
    }
    told
}

/// What no table was drawn for: names without a space, four-digit lots, loads
/// with decimals, nine attempts, six slots, long labels, every ruling.
pub fn hard() -> Told {
    let mut told = Told::new(
        &"The seventy-third annual winter test week ".repeat(4),
        "max-day",
        Unit::Kg,
        &[
            "clean=power-clean+hang-power-clean+clean",
            "back-squat",
            "bench-press",
            "push-jerk",
            "deadlift",
            "overhead-squat",
        ],
        2,
    );
    told.set("venue", &"Weight room, lower gym, east wing ".repeat(5));
    told.set("attempts", "9");
    told.set("platform.1", &"Rack by the window ".repeat(6));
    told.flight("A-and-a-long-name-of-a-flight-that-nobody-needs", 1);
    let long = "Wolfeschlegelsteinhausenbergerdorff".repeat(4);
    for number in 9990..9998_u16 {
        let openers = [
            "hang-power-clean 112.5",
            "212.5",
            "102.5",
            "97.5",
            "242.5",
            "62.5",
        ];
        let name = if number % 2 == 0 { long.as_str() } else { "Li" };
        let flight = "A-and-a-long-name-of-a-flight-that-nobody-needs";
        told.add(number, (name, name), flight, &openers);
        told.body(number, Sex::M, "102.45", "year eleven", &long);
        let cap = told.weight("142.5");
        told.clear(number, None, Clearance::UpTo(cap));
        told.away(number, Presence::Absent);
        for slot in ["clean", "back-squat", "deadlift"] {
            told.lifts(
                number,
                slot,
                &[
                    "112.5",
                    "112.5 no",
                    "112.5 time",
                    "112.5 stopped",
                    "pass",
                    "117.5",
                ],
            );
        }
    }
    told
}
