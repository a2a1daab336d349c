//! A powerlifting meet lifted again from its sheet, flight by flight and round
//! by round.

use std::collections::BTreeMap;

use maxday::day::{Command, NewEntry, Refusal, queue, standing_request};
use maxday::measure::Unit;
use maxday::roster::Change;

use crate::meet::Draw;
use crate::sheet::{Lifter, Try};
use crate::support::{Table, call_first, entry_in, kg, request, slug, who};

/// The three lifts, in the order of the sheets' columns.
pub const LIFTS: [&str; 3] = ["back-squat", "bench-press", "deadlift"];

/// What was counted on the way.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counts {
    /// Attempts that were called from the queue and got lights.
    pub called: usize,
    /// Attempts that the sheet leaves blank, passed.
    pub passed: usize,
    /// Next attempts for which nothing was handed in, since what is filled in
    /// is what the sheet has.
    pub filled_in: usize,
    /// Requests off the step, made for a record.
    pub records: usize,
    /// Calls out of order that were refused.
    pub out_of_order: usize,
}

/// A day of one sheet.
pub struct Rounds<'a> {
    /// The day.
    pub table: Table,
    /// Rows by lot, each with its flight.
    pub by_lot: BTreeMap<u16, (&'a Lifter, String)>,
    /// What was counted.
    pub counts: Counts,
}

impl<'a> Rounds<'a> {
    /// Makes a powerlifting day of that date and lifts all three lifts, each by
    /// one flight after the other in the order of the rows.
    pub fn of(
        date: &str,
        rows: &'a [Lifter],
        draw: Draw,
        flight: impl Fn(&Lifter) -> String,
    ) -> Self {
        let by_lot: BTreeMap<u16, _> = (0..)
            .zip(rows)
            .map(|(i, row)| (draw.lot(i, rows.len()), (row, flight(row))))
            .collect();
        assert_eq!(by_lot.len(), rows.len());
        let mut table = Table::new("powerlifting", Unit::Kg, &LIFTS, 1);
        table.set("date", date);
        let entries = by_lot.iter().map(|(lot, (row, f))| entered(*lot, row, f));
        let _ = table.ok(Command::Add(entries.collect()));
        let mut rounds = Self {
            table,
            by_lot,
            counts: Counts::default(),
        };
        let mut flights: Vec<String> = rows.iter().map(flight).collect();
        flights.dedup();
        for (lift, slot) in LIFTS.iter().enumerate() {
            for flight in &flights {
                rounds.table.start_for(slot, flight);
                for round in 1..=3 {
                    rounds.round(lift, flight, round);
                }
                let left = rounds.table.order();
                assert!(left.is_empty(), "{flight}: {left:?} are left");
            }
        }
        rounds
    }

    fn tried(&self, lot: u16, lift: usize, attempt: u8) -> Option<&'a Try> {
        self.by_lot[&lot].0.tries[lift][usize::from(attempt) - 1].as_ref()
    }

    /// One round of a flight, in the order of loads, then of lots.
    ///
    /// World Para Powerlifting as published: the lowest load first, equal
    /// loads by the lowest lot.
    fn round(&mut self, lift: usize, flight: &str, round: u8) {
        let mut order: Vec<_> = self
            .by_lot
            .iter()
            .filter(|(_, (_, f))| f == flight)
            .filter_map(|(lot, _)| {
                let tried = self.tried(*lot, lift, round)?;
                Some((tried.load.mass, *lot))
            })
            .collect();
        order.sort_unstable();
        let lots: Vec<u16> = order.iter().map(|(_, lot)| *lot).collect();
        for (done, lot) in lots.iter().enumerate() {
            let place = format!("lot {lot}, {} {round}", LIFTS[lift]);
            let queue = queue(self.table.facts(), 1);
            let of_round = queue.iter().take_while(|q| q.attempt == round);
            let queued: Vec<u16> = of_round.map(|q| q.number).collect();
            assert_eq!(queued, lots[done..], "{place}");
            if let Some(other) = lots.get(done + 1) {
                let refused = self.table.no(Command::Call {
                    which: who(*other, LIFTS[lift]),
                    load: None,
                    platform: Some(1),
                });
                assert!(matches!(refused, Refusal::NotNext { .. }), "{refused}");
                self.counts.out_of_order += 1;
            }
            let _ = self.table.ok(call_first());
            let call = self.table.facts().platform(1).unwrap().call.clone();
            let call = call.unwrap();
            let tried = self.tried(*lot, lift, round).unwrap();
            assert_eq!(self.table.called(), Some(*lot), "{place}");
            assert_eq!(call.attempt, round, "{place}");
            assert_eq!(call.load.mass, tried.load.mass, "{place}");
            let _ = self.table.wait(35);
            self.table.lights(if tried.good { "wrw" } else { "rwr" });
            let _ = self.table.wait(15);
            self.counts.called += 1;
            if round < 3 {
                self.hand_in(*lot, lift, round + 1);
            }
        }
    }

    /// What is handed in for a next attempt, if anything has to be.
    fn hand_in(&mut self, lot: u16, lift: usize, attempt: u8) {
        let Some(tried) = self.tried(lot, lift, attempt) else {
            let tries = &self.by_lot[&lot].0.tries[lift];
            let left = tries.iter().skip(usize::from(attempt) - 1);
            self.counts.passed += left.inspect(|t| assert!(t.is_none())).count();
            let _ = self.table.ok(Command::Pass {
                which: who(lot, LIFTS[lift]),
                rest: true,
                platform: None,
            });
            return;
        };
        let facts = self.table.facts();
        let entry = facts.entry_by_number(lot).unwrap();
        let stands = standing_request(facts, entry, &slug(LIFTS[lift]), attempt);
        // IPL 2019: 2.5 kg more after a good lift, the same after a miss.
        if stands.is_some_and(|s| s.load.mass == tried.load.mass) {
            self.counts.filled_in += 1;
            return;
        }
        let mut asks = request(lot, LIFTS[lift], &tried.load);
        if !tried.load.mass.is_multiple_of(kg("2.5").mass) {
            let refused = self.table.no(asks.clone());
            assert!(matches!(refused, Refusal::OffStep { .. }), "{refused}");
            if let Command::Request { record, .. } = &mut asks {
                *record = true;
            }
            self.counts.records += 1;
        }
        let _ = self.table.ok(asks);
    }
}

fn entered(lot: u16, row: &Lifter, flight: &str) -> NewEntry {
    let openers: Vec<_> = LIFTS
        .iter()
        .zip(&row.tries)
        .map(|(lift, tries)| (*lift, tries[0].as_ref().unwrap().load.clone()))
        .collect();
    let mut entry = entry_in(lot, flight, 1, &openers);
    entry.changes.extend([
        Change::Sex(Some(row.sex)),
        Change::Bodyweight(Some(row.bodyweight.clone())),
        Change::Divisions(vec![row.group()]),
        Change::Guest(row.guest),
    ]);
    entry
}
