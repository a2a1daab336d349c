//! Day scripts: acts as plain text, what the table answers, and what the
//! queue and the standings say then.
//!
//! A line is an act in the columns of an acts file, parted by `|`:
//! `act|athlete|lift|attempt|load|detail|platform|at`. A line that begins with
//! `!` must be refused with a sentence that contains the text after `=>`.
//! `? queue 1: 5@60 7@62` and `? bests clean: 5=60 7=` check what is true then.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod corrections;
mod gates;
mod meet;
mod racks;

use chrono::NaiveDate;
use maxday::day::{
    Context, Day, NewDay, Recorded, Stamp, apply, decide, new_day, queue, show_left,
};
use maxday::exchange::acts::{ActRow, command, stamp};
use maxday::measure::Unit;

/// A day under a script.
struct Table {
    day: Day,
    minute: i64,
}

fn date() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 21).unwrap()
}

impl Table {
    fn new(format: &str, unit: Unit, lifts: &str, platforms: u8) -> Self {
        let event = new_day(&NewDay {
            name: "Script".into(),
            date: date(),
            format: format.into(),
            bar: unit,
            scale: None,
            judges: None,
            categories: Some("none".into()),
            tie: None,
            step: None,
            lifts: Some(lifts.into()),
            platforms: Some(platforms),
        })
        .unwrap();
        let mut table = Self {
            day: Day::new(),
            minute: 0,
        };
        let at = Stamp::parse("08:00", date(), 0).unwrap();
        table.record(at, None, vec![event], "made");
        table
    }

    fn meet() -> Self {
        Self::new("weightlifting", Unit::Kg, "snatch,clean-and-jerk", 1)
    }

    fn racks() -> Self {
        Self::new(
            "max-day",
            Unit::Lb,
            "clean=power-clean+hang-power-clean,back-squat",
            2,
        )
    }

    fn record(
        &mut self,
        at: Stamp,
        platform: Option<u8>,
        events: Vec<maxday::day::Event>,
        id: &str,
    ) {
        let act = self.day.next_seq();
        for event in events {
            let recorded = Recorded {
                seq: self.day.next_seq(),
                act,
                id: id.into(),
                at,
                happened: None,
                hand: "table".into(),
                platform,
                event,
            };
            apply(&mut self.day, &recorded);
        }
    }

    fn act(&mut self, line: &str) -> Result<(), String> {
        self.minute += 1;
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        let cell = |i: usize| cells.get(i).copied().unwrap_or("").to_owned();
        let row = ActRow {
            line: 1,
            act: cell(0),
            athlete: cell(1),
            lift: cell(2),
            attempt: cell(3),
            load: cell(4),
            detail: cell(5),
            platform: cell(6),
            at: cell(7),
            by: String::new(),
            id: String::new(),
        };
        let at = stamp(&row, date(), 0)?.unwrap_or_else(|| {
            let base = Stamp::parse("09:00", date(), 0).unwrap();
            base.plus_ms(self.minute * 1000).loosely()
        });
        let command = command(&self.day, &row)?;
        let context = Context {
            at,
            hand: "table".into(),
            draw: 1,
        };
        let decided = decide(&self.day, &command, &context).map_err(|r| r.to_string())?;
        let id = format!("a{}", self.day.next_seq());
        self.record(at, decided.platform, decided.events, &id);
        Ok(())
    }

    fn queue_words(&self, platform: u8) -> String {
        queue(self.day.facts(), platform)
            .iter()
            .map(|q| {
                let load = q.load.as_ref().map(|w| w.show(self.day.facts().bar_unit));
                format!("{}@{}", q.number, load.unwrap_or_default())
            })
            .collect::<Vec<_>>()
            .join(" ")
    }

    fn bests(&self, slot: &str) -> String {
        let facts = self.day.facts();
        let slot = &facts.slot(slot).unwrap().slot;
        facts
            .entries_by_number()
            .map(|e| {
                let best = facts
                    .best(e.key, slot)
                    .and_then(|(_, r)| r.fact.credited.clone());
                let best = best.map(|w| w.show(facts.bar_unit)).unwrap_or_default();
                format!("{}={best}", e.number)
            })
            .collect::<Vec<_>>()
            .join(" ")
    }

    fn clock_left(&self, platform: u8, at: &str) -> Option<String> {
        let now = Stamp::parse(at, date(), 0).unwrap();
        let call = self.day.facts().platform(platform)?.call.as_ref()?;
        call.clock.map(|c| show_left(c.left_at(now)))
    }

    fn check(&self, question: &str) {
        let (what, expected) = question.split_once(':').unwrap();
        let expected = expected.trim();
        let words: Vec<&str> = what.split_whitespace().collect();
        let found = match words.as_slice() {
            ["queue", platform] => self.queue_words(platform.parse().unwrap()),
            ["bests", slot] => self.bests(slot),
            ["clock", at] => {
                let at = at.replace('.', ":");
                self.clock_left(1, &at).unwrap_or_else(|| "none".into())
            }
            ["called", platform] => {
                let facts = self.day.facts();
                facts
                    .platform(platform.parse().unwrap())
                    .unwrap()
                    .call
                    .as_ref()
                    .map_or_else(
                        || "nobody".into(),
                        |c| {
                            let number = facts.entries[&c.entry].number;
                            format!("{number}@{}", c.load.show(facts.bar_unit))
                        },
                    )
            }
            other => panic!("no such question: {other:?}"),
        };
        assert_eq!(found, expected, "{question}");
    }

    fn play(&mut self, script: &str) {
        for line in script.lines().map(str::trim).filter(|l| !l.is_empty()) {
            if let Some(question) = line.strip_prefix('?') {
                self.check(question.trim());
            } else if let Some(refused) = line.strip_prefix('!') {
                let (act, part) = refused.split_once("=>").unwrap();
                let before = self.day.facts().clone();
                let why = self
                    .act(act.trim())
                    .expect_err(&format!("should be refused: {act}"));
                assert!(why.contains(part.trim()), "{act} was refused with: {why}");
                assert_eq!(&before, self.day.facts(), "a refusal changed the day");
            } else if let Err(why) = self.act(line) {
                panic!("{line} was refused: {why}");
            }
            let again = Day::from_journal(self.day.journal().to_vec());
            assert_eq!(again.facts(), self.day.facts(), "fold differs after {line}");
        }
    }
}
