//! The engine, driven by the model's acts and read back in its words.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use maxday::day::{
    self, Authority, ClockMove, Command, Context, CorrectionOf, Day, Event, Granted,
    Light, LoadAsked, NewDay, NewEntry, Outcome, Recorded, Refusal, Stamp, StopFor,
    Which,
};
use maxday::lift::Slug;
use maxday::measure::{Mass, Unit, Weight};
use maxday::roster::{Change, EntryKey, Sex};
use maxday::standings::{Basis, standings};

use crate::places::Result as Line;
use crate::plain::{
    Act, Athlete, Bar, Categories, Given, Grant, Key, Load, Move, No, Roll, Rules,
    Ruling, Tie,
};

/// The lifts of a slot with so many variants.
const LIFTS: [[&str; 2]; 3] = [
    ["power-clean", "hang-power-clean"],
    ["back-squat", "front-squat"],
    ["bench-press", "incline-bench-press"],
];

fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

pub struct Engine {
    pub day: Day,
    unit: Unit,
    slots: Vec<usize>,
}

/// One place in the engine's queue: number, attempt, load and whether called.
pub type Place = (No, u8, Option<i64>, bool);

impl Engine {
    pub fn new(rules: &Rules) -> Self {
        let unit = if rules.pounds { Unit::Lb } else { Unit::Kg };
        let lifts: Vec<String> = rules
            .slots
            .iter()
            .enumerate()
            .map(|(i, n)| format!("{}={}", SLOTS[i], LIFTS[i][..*n].join("+")))
            .collect();
        let format = if rules.weightlifting {
            "weightlifting"
        } else {
            "max-day"
        };
        let mut made = day::new_day(&NewDay {
            name: "Reference".to_owned(),
            date: NaiveDate::from_ymd_opt(2026, 11, 14).unwrap(),
            format: format.to_owned(),
            bar: unit,
            scale: Some(Unit::Kg),
            judges: None,
            categories: None,
            tie: None,
            step: None,
            lifts: Some(lifts.join(",")),
            platforms: Some(rules.platforms),
        })
        .unwrap();
        if let Event::DayMade { rules: words, .. } = &mut made {
            for (key, word) in words_of(rules) {
                assert!(words.insert(key.to_owned(), word).is_some(), "no key {key}");
            }
        }
        let mut engine = Self {
            day: Day::new(),
            unit,
            slots: rules.slots.clone(),
        };
        let _ = engine.record(vec![made], None, 0);
        for (name, platform) in [("A", 1), ("B", rules.platforms)] {
            let _ = engine.record(
                vec![Event::FlightMade {
                    session: "1".to_owned(),
                    flight: name.to_owned(),
                    platform,
                }],
                None,
                0,
            );
        }
        engine
    }

    fn record(&mut self, events: Vec<Event>, platform: Option<u8>, at: i64) -> u64 {
        let act = self.day.next_seq();
        for event in events {
            let seq = self.day.next_seq();
            let recorded = Recorded {
                seq,
                act,
                id: format!("a{act}"),
                at: stamp(at),
                happened: None,
                hand: "table".to_owned(),
                platform,
                event,
            };
            day::apply(&mut self.day, &recorded);
        }
        act
    }

    /// Asks the engine; the act's place in the journal if it is taken, or
    /// `None` where it was taken without a trace.
    pub fn try_act(
        &mut self,
        act: &Act,
        at: i64,
        seqs: &[Option<u64>],
    ) -> Result<Option<u64>, Refusal> {
        let command = self.command(act, seqs);
        let context = Context {
            at: stamp(at),
            hand: "table".to_owned(),
            draw: 1,
        };
        let decided = day::decide(&self.day, &command, &context)?;
        if decided.events.is_empty() {
            return Ok(None);
        }
        Ok(Some(self.record(decided.events, decided.platform, at)))
    }

    pub fn weight(&self, load: Load) -> Weight {
        Weight::parse(&decimal(load), self.unit).unwrap()
    }

    fn load(&self, mass: Mass) -> Load {
        let one = Mass::parse("0.01", self.unit).unwrap();
        mass.counts() / one.counts()
    }

    fn slot(&self, slot: usize) -> Slug {
        slug(SLOTS[slot])
    }

    fn which(&self, no: No, slot: usize, attempt: Option<u8>) -> Which {
        Which {
            number: Some(no),
            lift: Some(self.slot(slot)),
            attempt,
        }
    }

    fn entry(&self, a: &Athlete) -> NewEntry {
        let mut changes = vec![
            Change::Given("G".to_owned()),
            Change::Family(format!("F{}", a.no)),
            Change::Sex(Some(if a.girl { Sex::F } else { Sex::M })),
        ];
        if let Some(b) = a.bodyweight {
            changes.push(Change::Bodyweight(Some(
                Weight::parse(&decimal(b), Unit::Kg).unwrap(),
            )));
        }
        if !a.category.is_empty() {
            changes.push(Change::Category(a.category.clone()));
        }
        for (i, slot) in a.slots.iter().enumerate() {
            changes.push(Change::Slot {
                slot: self.slot(i),
                variant: slot.map(|(v, _)| slug(LIFTS[i][v])),
                opener: slot.and_then(|(_, o)| o).map(|o| self.weight(o)),
            });
        }
        NewEntry {
            number: Some(a.no),
            changes,
            place: day::Place {
                session: Some("1".to_owned()),
                flight: Some(["A", "B"][a.flight].to_owned()),
                platform: None,
            },
        }
    }

    fn command(&self, act: &Act, seqs: &[Option<u64>]) -> Command {
        match act {
            Act::Add(a) => Command::Add(vec![self.entry(a)]),
            Act::Weigh(no, b) => Command::Weigh {
                number: *no,
                bodyweight: Weight::parse(&decimal(*b), Unit::Kg).unwrap(),
            },
            Act::Roll(no, roll) => Command::Roll {
                number: *no,
                roll: match roll {
                    Roll::Here => day::Roll::Here,
                    Roll::Absent => day::Roll::Absent,
                    Roll::Away => day::Roll::Away,
                    Roll::Back => day::Roll::Back,
                },
                reason: String::new(),
            },
            Act::Withdraw(no, slot) => Command::Withdraw {
                number: *no,
                lift: slot.map(|s| self.slot(s)),
                reason: "unwell".to_owned(),
            },
            Act::Start(platform, flight, slot) => Command::Start {
                platform: Some(*platform),
                lift: self.slot(*slot),
                session: Some("1".to_owned()),
                flight: Some(["A", "B"][*flight].to_owned()),
            },
            Act::Request {
                no,
                slot,
                attempt,
                load,
            } => Command::Request {
                which: self.which(*no, *slot, *attempt),
                load: LoadAsked::Exactly(self.weight(*load)),
                platform: None,
            },
            Act::Call { platform, no, load } => Command::Call {
                which: Which {
                    number: *no,
                    ..Which::default()
                },
                load: load.map(|l| self.weight(l)),
                platform: Some(*platform),
            },
            Act::Clock(platform, step) => Command::Clock {
                platform: Some(*platform),
                movement: match step {
                    Move::Stop => ClockMove::Stop,
                    Move::Resume => ClockMove::Resume,
                    Move::Set(s) => ClockMove::Set(s * 1000),
                },
            },
            Act::Lights {
                platform,
                no,
                load,
                given,
            } => Command::Lights {
                which: Which {
                    number: *no,
                    ..Which::default()
                },
                load: load.map(|l| self.weight(l)),
                outcome: outcome(given),
                platform: Some(*platform),
            },
            Act::Tally {
                no,
                slot,
                attempt,
                load,
                given,
            } => Command::Tally {
                which: self.which(*no, *slot, *attempt),
                load: load.map(|l| self.weight(l)),
                outcome: outcome(given),
                platform: None,
            },
            Act::Pass {
                platform,
                who,
                rest,
            } => Command::Pass {
                which: who.map_or_else(Which::default, |(no, s)| self.which(no, s, None)),
                rest: *rest,
                platform: who.is_none().then_some(*platform),
            },
            Act::Stop {
                platform,
                who,
                pain,
            } => Command::Stop {
                which: who.map_or_else(Which::default, |(no, s)| self.which(no, s, None)),
                stop: if *pain {
                    StopFor::Pain
                } else {
                    StopFor::Technique
                },
                reason: String::new(),
                platform: who.is_none().then_some(*platform),
            },
            Act::Extra(no, slot) => Command::Extra {
                which: self.which(*no, *slot, None),
                reason: "spotter's error".to_owned(),
                platform: None,
            },
            Act::Loaded {
                no,
                slot,
                attempt,
                load,
                grant,
            } => Command::Loaded {
                which: self.which(*no, *slot, Some(*attempt)),
                load: self.weight(*load),
                granted: match grant {
                    Grant::Keep => Granted::Keep,
                    Grant::Repeat => Granted::Repeat,
                    Grant::Again => Granted::Again,
                },
                platform: None,
            },
            Act::Rerule {
                no,
                slot,
                attempt,
                good,
                challenge,
            } => Command::Rerule {
                which: self.which(*no, *slot, Some(*attempt)),
                outcome: outcome(&Given::Word(if *good {
                    Ruling::Good
                } else {
                    Ruling::No
                })),
                authority: if *challenge {
                    Authority::Challenge
                } else {
                    Authority::Overrule
                },
                reason: "seen again".to_owned(),
            },
            Act::Correct {
                no,
                slot,
                attempt,
                load,
                ruling,
            } => Command::Correct {
                of: CorrectionOf::Attempt {
                    which: self.which(*no, *slot, Some(*attempt)),
                    load: load.map(|l| self.weight(l)),
                    outcome: ruling.map(|r| outcome(&Given::Word(r))),
                },
                reason: String::new(),
            },
            Act::Annul(index) => Command::Annul {
                act: seqs.get(*index).copied().flatten().unwrap_or(u64::MAX),
                reason: "typed by mistake".to_owned(),
            },
            Act::Undo(line) => Command::Undo(self.line(*line)),
            Act::Redo(line) => Command::Redo(self.line(*line)),
        }
    }

    const fn line(&self, line: crate::plain::Line) -> day::Line {
        match line {
            crate::plain::Line::Platform(n) => day::Line::Platform(n),
            crate::plain::Line::Roster => day::Line::Roster,
            crate::plain::Line::Scale => day::Line::Scale,
        }
    }

    fn key(&self, no: No) -> Option<EntryKey> {
        self.day.facts().entry_by_number(no).map(|e| e.key)
    }

    pub fn queue(&self, platform: u8) -> Vec<Place> {
        day::queue(self.day.facts(), platform)
            .iter()
            .map(|q| {
                let load = q.load.as_ref().map(|w| self.load(w.mass));
                (q.number, q.attempt, load, q.called)
            })
            .collect()
    }

    /// Next attempt and the request that stands for it.
    pub fn request(&self, no: No, slot: usize) -> (Option<u8>, Option<Load>) {
        let facts = self.day.facts();
        let (Some(key), slot) = (self.key(no), self.slot(slot)) else {
            return (None, None);
        };
        let next = facts.next_attempt(key, &slot);
        let load = next.and_then(|n| {
            day::standing_request(facts, facts.entries.get(&key)?, &slot, n)
        });
        (next, load.map(|s| self.load(s.load.mass)))
    }

    /// Rulings of a slot, with the load that was credited or lifted.
    pub fn rulings(&self, no: No, slot: usize) -> Vec<(u8, String, Option<Load>)> {
        let facts = self.day.facts();
        let Some(run) = self.key(no).and_then(|k| facts.run(k, &self.slot(slot))) else {
            return Vec::new();
        };
        run.attempts
            .iter()
            .filter_map(|(n, a)| {
                let fact = &a.ruled.as_ref()?.fact;
                let load = fact.credited.as_ref().or(fact.loaded.as_ref());
                Some((
                    *n,
                    fact.ruling.word().to_owned(),
                    load.map(|w| self.load(w.mass)),
                ))
            })
            .collect()
    }

    /// What is left on a platform's clock, if an athlete is called.
    pub fn left(&self, platform: u8, at: i64) -> Option<i64> {
        let call = self.day.facts().platform(platform)?.call.as_ref()?;
        call.clock.as_ref().map(|c| c.left_at(stamp(at)))
    }

    pub fn standings(&self) -> BTreeMap<No, Line> {
        let facts = self.day.facts();
        let mut all = BTreeMap::new();
        for group in standings(facts, Basis::Category) {
            for line in group.lines {
                let no = facts.entries[&line.entry].number;
                assert!(
                    all.insert(
                        no,
                        Line {
                            group: group.label.clone(),
                            slots: line
                                .slots
                                .iter()
                                .map(|s| (
                                    s.best.map(|(n, m)| (n, self.load(m))),
                                    s.place
                                ))
                                .collect(),
                            total: line.total.map(|m| self.load(m)),
                            place: line.place,
                        },
                    )
                    .is_none(),
                    "lot {no} stands in two groups"
                );
            }
        }
        all
    }

    pub fn slots(&self) -> usize {
        self.slots.len()
    }
}

/// The slots' own names.
pub const SLOTS: [&str; 3] = ["clean", "squat", "bench"];

fn outcome(given: &Given) -> Outcome {
    match given {
        Given::Lights(lights) => Outcome {
            lights: lights
                .iter()
                .map(|w| if *w { Light::White } else { Light::Red })
                .collect(),
            ..Outcome::default()
        },
        Given::Word(ruling) => Outcome {
            ruling: Some(match ruling {
                Ruling::Good => day::Ruling::Good,
                Ruling::No => day::Ruling::No,
                Ruling::Pass => day::Ruling::Pass,
                Ruling::Time => day::Ruling::Time,
                Ruling::Stopped => day::Ruling::Stopped,
            }),
            ..Outcome::default()
        },
    }
}

/// 14 November 2026, 09:00 UTC, and so many milliseconds.
const fn stamp(ms: i64) -> Stamp {
    Stamp {
        ms: 1_794_646_800_000 + ms,
        offset: 0,
        loose: false,
    }
}

pub fn decimal(cents: i64) -> String {
    format!("{}.{:02}", cents / 100, cents % 100)
}

fn words_of(r: &Rules) -> Vec<(&'static str, String)> {
    let secs = |s: Option<i64>| s.map_or_else(|| "off".to_owned(), |s| s.to_string());
    let yes =
        |b: bool, yes: &str, no: &str| if b { yes.to_owned() } else { no.to_owned() };
    let ties = |t: &[Tie]| {
        t.iter()
            .map(|t| match t {
                Tie::BestAttempt => "best-attempt",
                Tie::Previous => "previous",
                Tie::LastSlotLower => "last-slot-lower",
                Tie::Bodyweight => "bodyweight",
                Tie::Earlier => "earlier",
                Tie::Number => "number",
                Tie::Shared => "shared",
            })
            .collect::<Vec<_>>()
            .join(" ")
    };
    let order: Vec<&str> = r
        .order
        .iter()
        .map(|k| match k {
            Key::Load => "load",
            Key::Attempt => "attempt",
            Key::Previous => "previous",
            Key::Number => "number",
        })
        .collect();
    let unit = if r.pounds { "lb" } else { "kg" };
    vec![
        ("queue", yes(r.law, "law", "advice")),
        (
            "bar",
            match r.bar {
                Bar::Rising => "rising",
                Bar::Rounds => "rounds",
                Bar::Free => "free",
            }
            .to_owned(),
        ),
        ("order", order.join(" ")),
        ("attempts", r.attempts.to_string()),
        ("judges", r.judges.to_string()),
        ("step", format!("{} {unit}", decimal(r.step))),
        ("least-rise", yes(r.least, "step", "none")),
        ("automatic", yes(r.automatic, "step", "none")),
        ("declare", yes(r.declare, "yes", "no")),
        (
            "changes",
            r.changes
                .map_or_else(|| "any".to_owned(), |n| n.to_string()),
        ),
        ("final-call", secs(r.final_call)),
        ("declare-within", secs(r.within)),
        ("clock", secs(r.clock)),
        ("clock-following", secs(r.following)),
        ("ties-lift", ties(&r.ties_lift)),
        ("ties-total", ties(&r.ties_total)),
        ("total", yes(r.total, "all", "none")),
        ("no-good", yes(r.needs_all, "no-total", "counts-nothing")),
        ("category", yes(r.weighed, "weighed", "entered")),
        (
            "categories",
            match r.categories {
                Categories::None => "none",
                Categories::Flight => "flight",
                Categories::Iwf2026 => "iwf-2026",
            }
            .to_owned(),
        ),
    ]
}
