//! Day scripts: acts as plain text, what the table answers, and what is true
//! then.
//!
//! A line is an act in the columns of an acts file, parted by `|`:
//! `act|athlete|lift|attempt|load|detail|platform|at`. `@10:05:30 ` before a
//! line gives its time; without one the time is loose, so that no deadline is
//! judged by it. A line that begins with `!` must be refused with a sentence
//! that contains the text after `=>`. A line that begins with `?` asks what is
//! true: `? queue 1: 5@60 7@62`, `? bests clean: 5=60 7=`, and what [`Table`]
//! answers besides.
//!
//! After every line the journal is folded anew and must give the same facts;
//! a refusal must change nothing.

#![allow(dead_code)]

use chrono::NaiveDate;
use maxday::day::pace::{calls, round_rest};
use maxday::day::{
    Context, Day, Event, NewDay, Origin, Recorded, Stamp, advice, apply, decide, limits,
    new_day, new_day_by, queue, show_left, standing_request,
};
use maxday::exchange::acts::{ActRow, command, stamp};
use maxday::lift::Slug;
use maxday::measure::{Mass, Unit};
use maxday::roster::Entry;
use maxday::rules::own_format;
use maxday::standings::{Basis, Line, standings};

/// A day under a script.
pub struct Table {
    /// The day.
    pub day: Day,
    minute: i64,
}

/// A date, written as 2026-11-21.
pub fn day_of(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// What is chosen for a day of a shipped format; no categories.
fn wish(format: &str, unit: Unit, lifts: Option<&str>, platforms: u8) -> NewDay {
    NewDay {
        name: "Script".into(),
        date: day_of("2026-11-21"),
        format: format.into(),
        bar: unit,
        scale: None,
        judges: None,
        categories: Some("none".into()),
        tie: None,
        step: None,
        lifts: lifts.map(str::to_owned),
        platforms: Some(platforms),
    }
}

impl Table {
    /// A day of a shipped format, without categories, on 2026-11-21.
    pub fn new(format: &str, unit: Unit, lifts: &str, platforms: u8) -> Self {
        Self::made(new_day(&wish(format, unit, Some(lifts), platforms)).unwrap())
    }

    /// A day by a school's own rules file, on 2026-11-21.
    pub fn by_rules(text: &str, unit: Unit) -> Self {
        let (format, rules) = own_format(text, unit).unwrap();
        let mut wish = wish("", unit, None, 1);
        wish.categories = None;
        Self::made(new_day_by(&format, rules, &wish).unwrap())
    }

    /// A weightlifting meet in kilograms.
    pub fn meet() -> Self {
        Self::new("weightlifting", Unit::Kg, "snatch,clean-and-jerk", 1)
    }

    /// A max day in pounds on two racks.
    pub fn racks() -> Self {
        Self::new(
            "max-day",
            Unit::Lb,
            "clean=power-clean+hang-power-clean,back-squat",
            2,
        )
    }

    /// A powerlifting meet in kilograms.
    pub fn power() -> Self {
        Self::new(
            "powerlifting",
            Unit::Kg,
            "back-squat,bench-press,deadlift",
            1,
        )
    }

    fn made(event: Event) -> Self {
        let mut table = Self {
            day: Day::new(),
            minute: 0,
        };
        let at = Stamp::parse("08:00", day_of("2026-11-21"), 0).unwrap();
        table.record(at, None, vec![event], "made");
        table
    }

    fn date(&self) -> NaiveDate {
        self.day.facts().date
    }

    fn record(&mut self, at: Stamp, platform: Option<u8>, events: Vec<Event>, id: &str) {
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

    /// Says one act; the refusal's sentence where there is one.
    pub fn act(&mut self, line: &str) -> Result<(), String> {
        self.minute += 1;
        let (at, line) = match line.strip_prefix('@') {
            Some(rest) => rest.split_once(' ').unwrap(),
            None => ("", line),
        };
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
            at: if at.is_empty() { cell(7) } else { at.into() },
            by: String::new(),
            id: String::new(),
        };
        let at = stamp(&row, self.date(), 0)?.unwrap_or_else(|| {
            let base = Stamp::parse("09:00", self.date(), 0).unwrap();
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

    /// Enters athletes: rows of lot, flight and openers in the order of the
    /// programme (`-` is not entered), with more details behind a semicolon.
    #[track_caller]
    pub fn enter(&mut self, rows: &str) {
        for row in rows.lines().map(str::trim).filter(|r| !r.is_empty()) {
            let (row, more) = row.split_once(';').unwrap_or((row, ""));
            let mut words = row.split_whitespace();
            let (lot, flight) = (words.next().unwrap(), words.next().unwrap());
            let slots = self.day.facts().slots.clone();
            let openers: String = slots
                .iter()
                .zip(words)
                .map(|(line, load)| format!("; {}={load}", line.default_variant()))
                .collect();
            let act = format!(
                "add|||||given=Given{lot}; family=Family{lot}; lot={lot}; flight={flight}{openers}; {more}"
            );
            if let Err(why) = self.act(&act) {
                panic!("{act} was refused: {why}");
            }
        }
    }

    /// Plays a script.
    #[track_caller]
    pub fn play(&mut self, script: &str) {
        for line in script.lines().map(str::trim).filter(|l| !l.is_empty()) {
            if let Some(question) = line.strip_prefix('?') {
                self.check(question.trim());
            } else if let Some(refused) = line.strip_prefix('!') {
                let (act, part) = refused.split_once("=>").unwrap();
                let before = self.day.facts().clone();
                let Err(why) = self.act(act.trim()) else {
                    panic!("should be refused: {act}");
                };
                assert!(why.contains(part.trim()), "{act} was refused with: {why}");
                assert_eq!(&before, self.day.facts(), "a refusal changed the day");
            } else if let Err(why) = self.act(line) {
                panic!("{line} was refused: {why}");
            }
            let again = Day::from_journal(self.day.journal().to_vec());
            assert_eq!(again.facts(), self.day.facts(), "fold differs after {line}");
        }
    }

    #[track_caller]
    fn check(&self, question: &str) {
        let (what, expected) = question.split_once(':').unwrap();
        let words: Vec<&str> = what.split_whitespace().collect();
        assert_eq!(self.answer(&words), expected.trim(), "{question}");
    }

    /// What is true; times in a question are written with points.
    fn answer(&self, words: &[&str]) -> String {
        let facts = self.day.facts();
        let number = |text: &str| text.parse().unwrap();
        match words {
            ["queue", platform] => self.queue_words(number(platform)),
            ["called", platform] => self.called(number(platform)),
            ["clock", at] => self.clock_left(1, at),
            ["break", platform] => {
                let until = facts.platform(number(platform)).unwrap().break_until;
                until.map_or_else(
                    || "none".into(),
                    |s| s.local().format("%H:%M:%S").to_string(),
                )
            }
            ["rests", platform] => self.rests(number(platform)),
            ["forecast", platform, at] => self.forecast(number(platform), at),
            ["bests", slot] => self.each(|e| self.best(e, slot)),
            ["places", slot] => self.places(slot),
            ["totals"] => self.totals(),
            ["groups"] => self.groups(Basis::Category),
            ["divisions"] => self.groups(Basis::Division),
            ["lifts"] => self.groups(Basis::Slot),
            ["attempts", lot, slot] => self.attempts(lot, slot),
            ["stands", lot, slot] => self.stands(lot, slot),
            ["limits", lot, slot] => self.limits(lot, slot),
            ["advice", lot, slot] => self.advice(lot, slot),
            ["allowed", lot, slot] => {
                let (entry, slot, _) = self.next(lot, slot);
                facts.attempts_allowed(entry.key, &slot).to_string()
            }
            ["weigh-in", session] => facts.weigh_in(session).map_or_else(
                || "none".into(),
                |(from, to)| format!("{}-{}", from.format("%H:%M"), to.format("%H:%M")),
            ),
            ["before", session] => {
                let (introduction, countdown) = facts.before_start(session);
                [introduction, countdown]
                    .map(|t| {
                        t.map_or_else(|| "none".into(), |t| t.format("%H:%M").to_string())
                    })
                    .join(" ")
            }
            ["round-rest", platform] => round_rest(facts, number(platform))
                .map_or_else(|| "none".into(), |s| s.to_string()),
            ["rule", key] => facts.rules.words()[*key].clone(),
            ["revisions"] => facts
                .revisions
                .iter()
                .map(|r| {
                    let what = r.session.as_deref().unwrap_or("day");
                    let reopened =
                        r.reopened.as_ref().map(|(_, why, _)| format!(" ({why})"));
                    format!("{what}{}", reopened.unwrap_or_default())
                })
                .collect::<Vec<_>>()
                .join(", "),
            other => panic!("no such question: {other:?}"),
        }
    }

    fn show(&self, mass: Mass) -> String {
        mass.show(self.day.facts().bar_unit)
    }

    fn queue_words(&self, platform: u8) -> String {
        let queue = queue(self.day.facts(), platform);
        let words = queue.iter().map(|q| {
            let load = q.load.as_ref().map(|w| self.show(w.mass));
            format!("{}@{}", q.number, load.unwrap_or_default())
        });
        words.collect::<Vec<_>>().join(" ")
    }

    /// From when on each of the queue is rested, `now` without an attempt.
    fn rests(&self, platform: u8) -> String {
        let queue = queue(self.day.facts(), platform);
        let words = queue.iter().map(|q| {
            let until = q
                .rests_until
                .map(|s| s.local().format("%H:%M:%S").to_string());
            format!("{}={}", q.number, until.unwrap_or_else(|| "now".into()))
        });
        words.collect::<Vec<_>>().join(" ")
    }

    fn time(&self, text: &str) -> Stamp {
        Stamp::parse(&text.replace('.', ":"), self.date(), 0).unwrap()
    }

    fn forecast(&self, platform: u8, at: &str) -> String {
        let facts = self.day.facts();
        let queue = queue(facts, platform);
        let times = calls(facts, platform, &queue, self.time(at));
        let words = queue.iter().zip(times).map(|(q, call)| {
            format!("{}={}", q.number, call.at.local().format("%H:%M:%S"))
        });
        words.collect::<Vec<_>>().join(" ")
    }

    fn called(&self, platform: u8) -> String {
        let facts = self.day.facts();
        let call = facts.platform(platform).unwrap().call.as_ref();
        call.map_or_else(
            || "nobody".into(),
            |c| {
                let number = facts.entries[&c.entry].number;
                format!("{number}@{}", self.show(c.load.mass))
            },
        )
    }

    fn clock_left(&self, platform: u8, at: &str) -> String {
        let call = self.day.facts().platform(platform).unwrap().call.as_ref();
        let clock = call.and_then(|c| c.clock);
        clock.map_or_else(
            || "none".into(),
            |c| {
                let stands = if c.runs() { "" } else { " stands" };
                format!("{}{stands}", show_left(c.left_at(self.time(at))))
            },
        )
    }

    /// `number=word` of every entry.
    fn each(&self, word: impl Fn(&Entry) -> String) -> String {
        let entries = self.day.facts().entries_by_number();
        let words = entries.map(|e| format!("{}={}", e.number, word(e)));
        words.collect::<Vec<_>>().join(" ")
    }

    fn best(&self, entry: &Entry, slot: &str) -> String {
        let facts = self.day.facts();
        let slot = &facts.slot(slot).unwrap().slot;
        let best = facts.best(entry.key, slot);
        let load = best.and_then(|(_, r)| r.fact.credited.as_ref());
        load.map(|w| self.show(w.mass)).unwrap_or_default()
    }

    fn line(&self, entry: &Entry) -> Line {
        let groups = standings(self.day.facts(), Basis::Category);
        let mut lines = groups.into_iter().flat_map(|g| g.lines);
        lines.find(|l| l.entry == entry.key).unwrap()
    }

    fn places(&self, slot: &str) -> String {
        let slots = &self.day.facts().slots;
        let i = slots.iter().position(|l| l.slot.as_str() == slot).unwrap();
        self.each(|e| {
            let place = self.line(e).slots[i].place;
            place.map(|p| p.to_string()).unwrap_or_default()
        })
    }

    /// `number=total/place`.
    fn totals(&self) -> String {
        self.each(|e| {
            let line = self.line(e);
            let total = line.total.map(|m| self.show(m)).unwrap_or_default();
            let place = line.place.map(|p| format!("/{p}")).unwrap_or_default();
            format!("{total}{place}")
        })
    }

    /// `label: numbers; …` in the order of the lines.
    fn groups(&self, basis: Basis) -> String {
        let facts = self.day.facts();
        let words = standings(facts, basis).into_iter().map(|group| {
            let numbers: Vec<String> = group
                .lines
                .iter()
                .map(|l| facts.entries[&l.entry].number.to_string())
                .collect();
            format!("{}: {}", group.label, numbers.join(" "))
        });
        words.collect::<Vec<_>>().join("; ")
    }

    /// An entry, a slot, and the attempt that is next in it (or the last).
    fn next(&self, lot: &str, slot: &str) -> (&Entry, Slug, u8) {
        let facts = self.day.facts();
        let entry = facts.entry_by_number(lot.parse().unwrap()).unwrap();
        let slot = facts.slot(slot).unwrap().slot.clone();
        let allowed = facts.attempts_allowed(entry.key, &slot);
        let attempt = facts.next_attempt(entry.key, &slot).unwrap_or(allowed);
        (entry, slot, attempt)
    }

    /// `60 good, 62.5 no`: the credited load, the ruling, repetitions.
    fn attempts(&self, lot: &str, slot: &str) -> String {
        let (entry, slot, _) = self.next(lot, slot);
        let Some(run) = self.day.facts().run(entry.key, &slot) else {
            return String::new();
        };
        let ruled = run.attempts.values().filter_map(|a| a.ruled.as_ref());
        let words = ruled.map(|r| {
            let load = r.fact.credited.as_ref().map(|w| self.show(w.mass));
            let reps = match r.fact.reps {
                1 => String::new(),
                n => format!(" x{n}"),
            };
            let lift = Some(&r.fact.lift).filter(|l| entry.variant(&slot) != Some(l));
            let lift = lift.map(|l| format!(" {l}")).unwrap_or_default();
            let load = load.unwrap_or_else(|| "-".into());
            format!("{load} {}{reps}{lift}", r.fact.ruling)
        });
        words.collect::<Vec<_>>().join(", ")
    }

    /// `62.5 automatic`.
    fn stands(&self, lot: &str, slot: &str) -> String {
        let (entry, slot, attempt) = self.next(lot, slot);
        let standing = standing_request(self.day.facts(), entry, &slot, attempt);
        standing.map_or_else(
            || "nothing".into(),
            |s| {
                let origin = match s.origin {
                    Origin::Opener => "opener",
                    Origin::Automatic => "automatic",
                    Origin::Declared => "declared",
                };
                format!("{} {origin}", self.show(s.load.mass))
            },
        )
    }

    /// `least 62.5, most -, 1 change, declaration owed`.
    fn limits(&self, lot: &str, slot: &str) -> String {
        let (entry, slot, attempt) = self.next(lot, slot);
        let limits = limits(self.day.facts(), entry, &slot, attempt);
        let load = |m: Option<Mass>| m.map_or_else(|| "-".into(), |m| self.show(m));
        let changes = limits
            .changes_left
            .map_or_else(|| "any".into(), |n| n.to_string());
        format!(
            "least {}, most {}, changes {changes}, {}",
            load(limits.least),
            load(limits.most),
            if limits.declaration_owed {
                "owed"
            } else {
                "declared"
            }
        )
    }

    /// `most 105, less -, many 5`.
    fn advice(&self, lot: &str, slot: &str) -> String {
        let facts = self.day.facts();
        let (entry, slot, attempt) = self.next(lot, slot);
        let load = |m: Option<Mass>| m.map_or_else(|| "-".into(), |m| self.show(m));
        let many = advice::many(facts, entry, &slot);
        format!(
            "most {}, less {}, many {}",
            load(advice::most(facts, entry, &slot, attempt)),
            load(advice::less(facts, entry, &slot, attempt)),
            many.map_or_else(|| "-".into(), |n| n.to_string())
        )
    }
}
