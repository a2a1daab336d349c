//! The engine, driven by the model's acts and read back in its words.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use maxday::day::{self, Context, Day, Event, NewDay, Recorded, Refusal, Stamp};
use maxday::lift::Slug;
use maxday::measure::{Mass, Unit, Weight};
use maxday::roster::EntryKey;
use maxday::standings::{Basis, standings, teams};

use crate::ask::Limits;
use crate::places::{Result as Line, SlotResult};
use crate::plain::{Act, At, Load, No};
use crate::rules::Rules;
use crate::teams::TeamResult;
use crate::words::{decimal, words_of};

/// The slots' own names.
pub const SLOTS: [&str; 3] = ["clean", "squat", "bench"];

/// The lifts of a slot with so many variants.
pub const LIFTS: [[&str; 2]; 3] = [
    ["power-clean", "hang-power-clean"],
    ["back-squat", "front-squat"],
    ["bench-press", "incline-bench-press"],
];

pub fn slug(text: &str) -> Slug {
    Slug::new(text).unwrap()
}

pub struct Engine {
    pub day: Day,
    pub rules: Rules,
    pub unit: Unit,
}

/// One place in the engine's queue: number, attempt, load and whether called.
pub type Place = (No, u8, Option<i64>, bool);

/// A ruled attempt: number, variant, ruling and load.
pub type Ruled = (u8, String, String, Option<Load>);

impl Engine {
    pub fn new(rules: &Rules) -> Self {
        let unit = if rules.pounds { Unit::Lb } else { Unit::Kg };
        let lifts: Vec<String> = rules
            .slots
            .iter()
            .enumerate()
            .map(|(i, n)| format!("{}={}", SLOTS[i], LIFTS[i][..*n].join("+")))
            .collect();
        let mut made = day::new_day(&NewDay {
            name: "Reference".to_owned(),
            date: NaiveDate::from_ymd_opt(2026, 11, 14).unwrap(),
            format: rules.format.name().to_owned(),
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
            rules: rules.clone(),
            unit,
        };
        // One act, so that nothing of it is undone on its own.
        let mut events = vec![made];
        for (flight, name) in ["A", "B"].into_iter().enumerate() {
            let session = rules.session_of(flight);
            events.push(Event::FlightMade {
                session: session.to_string(),
                flight: name.to_owned(),
                platform: rules.platform_of(flight),
            });
        }
        let _ = engine.record(events, None, At::default());
        let sessions = if rules.two_sessions { 2 } else { 1 };
        for (session, planned) in (1..=sessions).zip(rules.planned) {
            let Some(ms) = planned else {
                continue;
            };
            let minutes = 9 * 60 + ms / 60_000;
            let key = format!("session.{session}");
            let word = format!("start {:02}:{:02}", minutes / 60, minutes % 60);
            let set = day::Command::Set(vec![(key, word)]);
            engine.first(&set);
        }
        engine
    }

    /// An act as the day is made; it belongs to the making.
    fn first(&mut self, command: &day::Command) {
        let context = Context {
            at: stamp(At::default()),
            hand: "table".to_owned(),
            draw: 1,
        };
        let decided = day::decide(&self.day, command, &context).unwrap();
        for event in decided.events {
            let seq = self.day.next_seq();
            let recorded = Recorded {
                seq,
                act: 1,
                id: "a1".to_owned(),
                at: stamp(At::default()),
                happened: None,
                hand: "table".to_owned(),
                platform: None,
                event,
            };
            day::apply(&mut self.day, &recorded);
        }
    }

    fn record(&mut self, events: Vec<Event>, platform: Option<u8>, at: At) -> u64 {
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
        at: At,
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

    fn slot(slot: usize) -> Slug {
        slug(SLOTS[slot])
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
        let (Some(key), slot) = (self.key(no), Self::slot(slot)) else {
            return (None, None);
        };
        let next = facts.next_attempt(key, &slot);
        let load = next.and_then(|n| {
            day::standing_request(facts, facts.entries.get(&key)?, &slot, n)
        });
        (next, load.map(|s| self.load(s.load.mass)))
    }

    /// What may be asked for in an attempt.
    pub fn limits(&self, no: No, slot: usize, attempt: u8) -> Limits {
        let facts = self.day.facts();
        let entry = facts.entry_by_number(no).unwrap();
        let limits = day::limits(facts, entry, &Self::slot(slot), attempt);
        Limits {
            least: limits.least.map(|m| self.load(m)).filter(|l| *l > 0),
            most: limits.most.map(|m| self.load(m)),
            changes_left: limits.changes_left.map(usize::from),
        }
    }

    /// Rulings of a slot, with the load that was credited or lifted.
    pub fn rulings(&self, no: No, slot: usize) -> Vec<Ruled> {
        let facts = self.day.facts();
        let Some(run) = self.key(no).and_then(|k| facts.run(k, &Self::slot(slot))) else {
            return Vec::new();
        };
        run.attempts
            .iter()
            .filter_map(|(n, a)| {
                let fact = &a.ruled.as_ref()?.fact;
                let load = fact.credited.as_ref().or(fact.loaded.as_ref());
                Some((
                    *n,
                    fact.lift.as_str().to_owned(),
                    fact.ruling.word().to_owned(),
                    load.map(|w| self.load(w.mass)),
                ))
            })
            .collect()
    }

    /// What is left on a platform's clock, if an athlete is called.
    pub fn left(&self, platform: u8, at: At) -> Option<i64> {
        let call = self.day.facts().platform(platform)?.call.as_ref()?;
        call.clock.as_ref().map(|c| c.left_at(stamp(at)))
    }

    pub fn standings(&self) -> BTreeMap<No, Line> {
        let mut all = BTreeMap::new();
        for ((_, no), line) in self.lines(Basis::Category) {
            assert!(
                all.insert(no, line).is_none(),
                "lot {no} stands in two groups"
            );
        }
        all
    }

    /// Results in the divisions.
    pub fn divisions(&self) -> BTreeMap<(String, No), Line> {
        let mut all = self.lines(Basis::Division);
        all.retain(|(label, _), _| !label.is_empty());
        all
    }

    fn lines(&self, basis: Basis) -> BTreeMap<(String, No), Line> {
        let facts = self.day.facts();
        let mut all = BTreeMap::new();
        for group in standings(facts, basis) {
            for line in group.lines {
                let no = facts.entries[&line.entry].number;
                let slots = (0..).zip(&line.slots).map(|(i, s)| SlotResult {
                    variant: s.lift.as_ref().and_then(|lift| {
                        LIFTS[i].iter().position(|l| *l == lift.as_str())
                    }),
                    best: s.best.map(|(n, m)| (n, self.load(m))),
                    estimate: s.estimate.map(|(n, m)| (n, self.load(m))),
                    place: s.place,
                });
                let result = Line {
                    group: group.label.clone(),
                    slots: slots.collect(),
                    total: line.total.map(|m| self.load(m)),
                    place: line.place,
                };
                let _ = all.insert((group.label.clone(), no), result);
            }
        }
        all
    }
}

impl Engine {
    /// The teams by name, with place and points.
    pub fn teams(&self) -> BTreeMap<u8, TeamResult> {
        teams(self.day.facts())
            .into_iter()
            .map(|t| (t.team.parse().unwrap(), (t.place, t.points)))
            .collect()
    }
}

/// 14 November 2026, 09:00 UTC, and so many milliseconds.
const fn stamp(at: At) -> Stamp {
    Stamp {
        ms: 1_794_646_800_000 + at.ms,
        offset: 0,
        loose: at.loose,
    }
}
