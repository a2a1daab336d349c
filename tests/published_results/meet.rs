//! A day lifted again from its sheet: the queue says who, the sheet says what.

use std::collections::BTreeMap;

use maxday::day::{Command, Refusal, Ruling, queue};
use maxday::measure::Mass;
use maxday::roster::Change;

use crate::sheet::{Row, Try};
use crate::support::{
    Table, call_first, entry, kg, request, ruling, slug, tally, which, who,
};

/// The two lifts, in the order of the sheets' columns.
pub const LIFTS: [&str; 2] = ["snatch", "clean-and-jerk"];

/// Which request of a sheet: year, row, lift, attempt.
pub type Asked = (u16, u16, &'static str, u8);

/// How lots are drawn, since the sheets don't give them.
#[derive(Debug, Clone, Copy)]
pub enum Draw {
    /// In the order of the sheet, which is by place.
    Sheet,
    /// The other way round.
    Reversed,
    /// Mixed up.
    Mixed,
}

impl Draw {
    /// The lot of one of so many.
    pub fn lot(self, index: usize, of: usize) -> u16 {
        let lot = match self {
            Self::Sheet => index + 1,
            Self::Reversed => of - index,
            // 1009 is a prime, so lots differ.
            Self::Mixed => (index + 1) * 613 % 1009,
        };
        u16::try_from(lot).unwrap()
    }
}

/// What was counted on the way.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Counts {
    /// Attempts that were called from the queue and got lights.
    pub called: usize,
    /// Attempts that the sheet leaves blank, passed.
    pub passed: usize,
    /// Attempts whose request was refused, entered from the sheet as a card.
    pub carded: usize,
}

/// One who is still to lift, as the published order of call sees it.
struct Waiting<'a> {
    row: &'a Row,
    load: Mass,
    attempt: u8,
    previous: Option<usize>,
}

/// A day of one sheet, or of one class of it.
pub struct Replay<'a> {
    /// The day.
    pub table: Table,
    /// Rows by lot.
    pub by_lot: BTreeMap<u16, &'a Row>,
    /// What was counted.
    pub counts: Counts,
    /// Requests that were refused as too light after a good lift.
    pub refused: Vec<Asked>,
    /// Requests off the step, for which the step was half a kilogram.
    pub records: Vec<Asked>,
    year: u16,
    step: &'static str,
}

impl<'a> Replay<'a> {
    /// Makes the day with the rules of its year and lifts both lifts.
    pub fn of(year: u16, step: &'static str, rows: &[&'a Row], draw: Draw) -> Self {
        let by_lot: BTreeMap<u16, &Row> = (0..)
            .zip(rows)
            .map(|(i, row)| (draw.lot(i, rows.len()), *row))
            .collect();
        assert_eq!(by_lot.len(), rows.len());
        let entries = by_lot.iter().map(|(lot, row)| {
            let openers: Vec<_> = LIFTS
                .iter()
                .zip(&row.tries)
                .map(|(lift, tries)| (*lift, tries[0].as_ref().unwrap().load.clone()))
                .collect();
            let mut entry = entry(*lot, &openers);
            entry.changes.push(Change::Sex(Some(row.sex)));
            let bodyweight = Some(row.bodyweight.clone());
            entry.changes.push(Change::Bodyweight(bodyweight));
            entry
        });
        let mut table = Table::meet(entries.collect());
        // The day of the year isn't known; the categories of that year hold.
        table.set("date", &format!("{year}-07-01"));
        table.set("step", step);
        // Before 2017 the lighter of two equal lifters was placed first.
        if year < 2017 {
            table.set("ties-lift", "bodyweight earlier number");
            table.set("ties-total", "bodyweight earlier number");
        }
        let mut replay = Self {
            table,
            by_lot,
            counts: Counts::default(),
            refused: Vec::new(),
            records: Vec::new(),
            year,
            step,
        };
        for lift in 0..LIFTS.len() {
            replay.lift(lift);
        }
        replay
    }

    /// One lift, from the first call to the empty queue.
    fn lift(&mut self, lift: usize) {
        self.table.start(LIFTS[lift]);
        let mut waiting: BTreeMap<u16, Waiting<'a>> = BTreeMap::new();
        for (lot, row) in &self.by_lot {
            let first = Waiting {
                row,
                load: row.tries[lift][0].as_ref().unwrap().load.mass,
                attempt: 1,
                previous: None,
            };
            let _ = waiting.insert(*lot, first);
        }
        let mut bar = kg("0").mass;
        let mut time = 0;
        while !queue(self.table.facts(), 1).is_empty() {
            // IWF order of call: lowest load, lowest attempt, who took the
            // previous attempt earlier, lowest lot.
            let expected = waiting
                .iter()
                .min_by_key(|(lot, w)| (w.load, w.attempt, w.previous, **lot))
                .map(|(lot, _)| *lot);
            let _ = self.table.ok(call_first());
            let lot = self.table.called().unwrap();
            let year = self.year;
            assert_eq!(Some(lot), expected, "{year}: another was called");
            let now = waiting.remove(&lot).unwrap();
            let sheet = now.row.tries[lift][usize::from(now.attempt) - 1].clone();
            let sheet = sheet.unwrap();
            let call = self.table.facts().platform(1).unwrap().call.clone();
            let call = call.unwrap();
            let place = format!("{year} row {} {}", now.row.no, LIFTS[lift]);
            assert_eq!(call.attempt, now.attempt, "{place}");
            assert_eq!(call.load.mass, sheet.load.mass, "{place}");
            assert!(call.load.mass >= bar, "{place}: the bar came down");
            bar = call.load.mass;
            let _ = self.table.wait(20);
            self.table.lights(if sheet.good { "wwr" } else { "rwr" });
            let _ = self.table.wait(10);
            self.counts.called += 1;
            time += 1;
            if let Some((attempt, load)) = self.ask(lot, lift, now.attempt + 1) {
                let next = Waiting {
                    row: now.row,
                    load,
                    attempt,
                    previous: Some(time),
                };
                let _ = waiting.insert(lot, next);
            }
        }
        assert!(waiting.is_empty(), "{}: somebody was forgotten", self.year);
    }

    /// Says what the athlete asks for next; `None` is nothing more.
    fn ask(&mut self, lot: u16, lift: usize, attempt: u8) -> Option<(u8, Mass)> {
        let tries = &self.by_lot[&lot].tries[lift];
        for (n, tried) in (1..).zip(tries).skip(usize::from(attempt) - 1) {
            let Some(tried) = tried else {
                let left = tries.iter().skip(usize::from(n) - 1);
                self.counts.passed += left.inspect(|t| assert!(t.is_none())).count();
                let _ = self.table.ok(Command::Pass {
                    which: who(lot, LIFTS[lift]),
                    rest: true,
                    platform: None,
                });
                return None;
            };
            match self.table.say(&request(lot, LIFTS[lift], &tried.load)) {
                Ok(_) => return Some((n, tried.load.mass)),
                Err(Refusal::OffStep { .. }) => {
                    self.tries_a_record(lot, lift, n, tried);
                    return Some((n, tried.load.mass));
                }
                Err(refusal) => self.slipped(lot, lift, n, tried, &refusal),
            }
        }
        None
    }

    /// A record attempt: half kilograms are allowed for this one request.
    fn tries_a_record(&mut self, lot: u16, lift: usize, attempt: u8, tried: &Try) {
        let no = self.by_lot[&lot].no;
        self.records.push((self.year, no, LIFTS[lift], attempt));
        self.table.set("step", "0.5");
        self.table.request(lot, LIFTS[lift], &tried.load);
        self.table.set("step", self.step);
    }

    /// A request that was refused: only as too light after a good lift, which
    /// no official can have granted. The try counts as the sheet has it.
    fn slipped(
        &mut self,
        lot: u16,
        lift: usize,
        attempt: u8,
        tried: &Try,
        refusal: &Refusal,
    ) {
        let no = self.by_lot[&lot].no;
        let light = matches!(refusal, Refusal::TooLight { why, .. } if why == " after the attempts so far");
        assert!(light, "{} row {no}: {refusal}", self.year);
        self.refused.push((self.year, no, LIFTS[lift], attempt));
        self.counts.carded += 1;
        let outcome = if tried.good { Ruling::Good } else { Ruling::No };
        let which = which(lot, LIFTS[lift], attempt);
        let _ = self
            .table
            .ok(tally(which, Some(tried.load.clone()), ruling(outcome)));
    }

    /// Every attempt stands in the day as it stands in the sheet.
    pub fn agrees_by_attempt(&self) {
        let facts = self.table.facts();
        for (lot, row) in &self.by_lot {
            let key = facts.entry_by_number(*lot).unwrap().key;
            for (lift, tries) in LIFTS.iter().zip(&row.tries) {
                for (n, tried) in (1..).zip(tries) {
                    let ruled = facts.attempt(key, &slug(lift), n).unwrap();
                    let fact = &ruled.ruled.as_ref().unwrap().fact;
                    let (outcome, load) = match tried {
                        None => (Ruling::Pass, None),
                        Some(t) if t.good => (Ruling::Good, Some(t.load.mass)),
                        Some(t) => (Ruling::No, Some(t.load.mass)),
                    };
                    let place = format!("{} row {} {lift} {n}", self.year, row.no);
                    assert_eq!(fact.ruling, outcome, "{place}");
                    assert_eq!(fact.loaded.as_ref().map(|l| l.mass), load, "{place}");
                }
            }
        }
    }
}
