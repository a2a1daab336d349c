//! What is true of the day now: the fold of the acts that stand.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{NaiveDate, NaiveTime, TimeDelta};

use super::clock::Clock;
use super::event::RuledFact;
use super::picture::School;
use super::{RecordKey, RecordMark, Ruling, Stamp};
use crate::bar::Discs;
use crate::lift::Slug;
use crate::measure::{Mass, Unit, Weight};
use crate::roster::{Clearance, Entry, EntryKey, SlotLine};
use crate::rules::{Rules, Sex};

/// A class period, weigh-in group or evening.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Session {
    /// Planned start.
    pub start: Option<NaiveTime>,
    /// Planned end: the bell.
    pub end: Option<NaiveTime>,
    /// Whether it was closed.
    pub closed: bool,
}

/// The group that lifts together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flight {
    /// Its session.
    pub session: String,
    /// Its name within the session.
    pub name: String,
    /// The platform on which it lifts.
    pub platform: u8,
}

/// What runs on a platform: a slot for a flight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Running {
    /// The session.
    pub session: String,
    /// The flight.
    pub flight: String,
    /// The slot.
    pub slot: Slug,
}

/// The athlete who was called and isn't ruled yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call {
    /// Who.
    pub entry: EntryKey,
    /// The slot.
    pub slot: Slug,
    /// The variant.
    pub lift: Slug,
    /// Attempt number.
    pub attempt: u8,
    /// The announced load.
    pub load: Weight,
    /// When.
    pub at: Stamp,
    /// Whether the athlete follows himself or herself.
    pub following: bool,
    /// The clock, where there is one.
    pub clock: Option<Clock>,
}

/// A platform or rack.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Platform {
    /// Its label; empty means its number.
    pub label: String,
    /// Its own discs, where they aren't the rules'.
    pub discs: Option<Discs>,
    /// Its own empty bar with collars, where it has only one.
    pub bar_on_hand: Option<Weight>,
    /// What runs on it.
    pub running: Option<Running>,
    /// Who was called.
    pub call: Option<Call>,
    /// The highest load called in the running slot, by attempt number.
    pub bar: BTreeMap<u8, Mass>,
    /// The last attempt that was ruled live here: whose, slot, number.
    pub last: Option<(EntryKey, Slug, u8)>,
    /// The place in the journal of the last call here.
    pub last_call: Option<u64>,
    /// When a break ends.
    pub break_until: Option<Stamp>,
    /// Who signed the station check.
    pub checked: Option<String>,
}

/// A load that was asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Request {
    /// The load.
    pub load: Weight,
    /// Whether it used up a change.
    pub change: bool,
    /// Whether it was made for a record.
    pub record: bool,
    /// When.
    pub at: Stamp,
}

/// A ruling, with where it stands in the journal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ruled {
    /// The facts.
    pub fact: RuledFact,
    /// The ruling as first given, where it was overruled since.
    pub first: Option<Ruling>,
    /// Whether another load was found to have been on the bar.
    pub found: bool,
    /// When.
    pub at: Stamp,
    /// When it took place, if that was before it was typed.
    pub happened: Option<Stamp>,
    /// By whose hand.
    pub hand: String,
    /// On which platform.
    pub platform: Option<u8>,
    /// Its place in the journal.
    pub seq: u64,
}

/// A session or the day that was closed, and what became of that.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Revision {
    /// The session; `None` is the day.
    pub session: Option<String>,
    /// When it was closed.
    pub closed_at: Stamp,
    /// When and why it was reopened, and by whose hand, if it was.
    pub reopened: Option<(Stamp, String, String)>,
}

/// One try.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Attempt {
    /// Loads asked for, in order.
    pub requests: Vec<Request>,
    /// The ruling, once there is one.
    pub ruled: Option<Ruled>,
    /// Rulings that became void by a wrong load.
    pub void: Vec<Ruled>,
}

/// An entry's attempts in one slot.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Run {
    /// Attempts by number.
    pub attempts: BTreeMap<u8, Attempt>,
    /// Attempts granted beyond the rules.
    pub extra: u8,
    /// Challenges that were lost.
    pub challenges_lost: u8,
}

/// What is true of the day now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facts {
    /// Its name.
    pub name: String,
    /// Its date.
    pub date: NaiveDate,
    /// A line about the place, for papers.
    pub venue: String,
    /// The school's name and picture, for papers.
    pub school: School,
    /// The format's name, for show only.
    pub format: String,
    /// Seed of the drawing of lots, where it was to be repeatable.
    pub seed: Option<u64>,
    /// Bar unit.
    pub bar_unit: Unit,
    /// Scale unit.
    pub scale_unit: Unit,
    /// The rules.
    pub rules: Rules,
    /// The programme.
    pub slots: Vec<SlotLine>,
    /// Sessions by name.
    pub sessions: BTreeMap<String, Session>,
    /// Flights in the order in which they were made.
    pub flights: Vec<Flight>,
    /// Platforms, the first is number 1.
    pub platforms: Vec<Platform>,
    /// Entries by their lasting name.
    pub entries: BTreeMap<EntryKey, Entry>,
    /// Entries by table number.
    pub numbers: BTreeMap<u16, EntryKey>,
    /// Attempts by entry and slot.
    pub runs: BTreeMap<EntryKey, BTreeMap<Slug, Run>>,
    /// Whether the day was closed.
    pub closed: bool,
    /// What was ever started: session, flight and slot.
    pub begun: BTreeSet<(String, String, Slug)>,
    /// Closings of the day and of sessions, in order.
    pub revisions: Vec<Revision>,
    /// Whether any clearance was ever recorded, so that gates are on.
    pub gates_on: bool,
    /// Remarks, in order.
    pub notes: Vec<String>,
    /// The school's record book, as it was when the day began.
    pub records: BTreeMap<RecordKey, RecordMark>,
}

impl Facts {
    /// A day of which nothing is known yet.
    pub(super) fn empty() -> Self {
        Self {
            name: String::new(),
            date: NaiveDate::default(),
            venue: String::new(),
            school: School::default(),
            format: String::new(),
            seed: None,
            bar_unit: Unit::Kg,
            scale_unit: Unit::Kg,
            rules: Rules::blank(Unit::Kg),
            slots: Vec::new(),
            sessions: BTreeMap::new(),
            flights: Vec::new(),
            platforms: Vec::new(),
            entries: BTreeMap::new(),
            numbers: BTreeMap::new(),
            runs: BTreeMap::new(),
            closed: false,
            begun: BTreeSet::new(),
            revisions: Vec::new(),
            gates_on: false,
            notes: Vec::new(),
            records: BTreeMap::new(),
        }
    }

    /// How entries' cells are read on this day.
    pub fn reading(&self) -> crate::roster::Reading<'_> {
        crate::roster::Reading {
            slots: &self.slots,
            bar: self.bar_unit,
            scale: self.scale_unit,
            today: self.date,
            month_first: None,
            comma_decimals: false,
        }
    }

    /// The entry of a table number.
    pub fn entry_by_number(&self, number: u16) -> Option<&Entry> {
        self.entries.get(self.numbers.get(&number)?)
    }

    /// The programme's line of a slot.
    pub fn slot(&self, slot: &str) -> Option<&SlotLine> {
        self.slots.iter().find(|l| l.slot.as_str() == slot)
    }

    /// The slot that a slot's or variant's slug names, and the variant if it
    /// named one.
    pub fn slot_of(&self, lift: &str) -> Option<(&SlotLine, Option<&Slug>)> {
        if let Some(line) = self.slot(lift) {
            return Some((line, line.variants.iter().find(|v| v.as_str() == lift)));
        }
        self.slots.iter().find_map(|line| {
            let variant = line.variants.iter().find(|v| v.as_str() == lift)?;
            Some((line, Some(variant)))
        })
    }

    /// A flight by session and name.
    pub fn flight(&self, session: &str, name: &str) -> Option<&Flight> {
        self.flights
            .iter()
            .find(|f| f.session == session && f.name == name)
    }

    /// The platform of an entry's flight.
    pub fn platform_of(&self, entry: &Entry) -> Option<u8> {
        self.flight(&entry.session, &entry.flight)
            .map(|f| f.platform)
    }

    /// A platform by number, from 1.
    pub fn platform(&self, number: u8) -> Option<&Platform> {
        self.platforms.get(usize::from(number).checked_sub(1)?)
    }

    /// A platform by number, to be changed.
    pub(super) fn platform_mut(&mut self, number: u8) -> Option<&mut Platform> {
        self.platforms.get_mut(usize::from(number).checked_sub(1)?)
    }

    /// The discs on hand on a platform.
    pub fn discs(&self, platform: u8) -> &Discs {
        self.platform(platform)
            .and_then(|p| p.discs.as_ref())
            .unwrap_or(&self.rules.discs.1)
    }

    /// The empty bar with collars for an athlete on a platform; the lighter
    /// one where the sex isn't known.
    pub fn empty_bar(&self, platform: u8, entry: &Entry) -> Mass {
        let own = self.platform(platform).and_then(|p| p.bar_on_hand.as_ref());
        match (own, entry.sex) {
            (Some(own), _) => own.mass,
            (None, Some(Sex::F)) => self.rules.bar_f,
            (None, Some(Sex::M)) => self.rules.bar_m,
            (None, None) => self.rules.bar_f.min(self.rules.bar_m),
        }
    }

    /// A platform's label for people: its own, or `platform 2`.
    pub fn platform_label(&self, number: u8) -> String {
        match self.platform(number) {
            Some(p) if !p.label.is_empty() => p.label.clone(),
            _ => format!("platform {number}"),
        }
    }

    /// An entry's attempts in a slot.
    pub fn run(&self, entry: EntryKey, slot: &Slug) -> Option<&Run> {
        self.runs.get(&entry)?.get(slot)
    }

    /// An attempt.
    pub fn attempt(&self, entry: EntryKey, slot: &Slug, attempt: u8) -> Option<&Attempt> {
        self.run(entry, slot)?.attempts.get(&attempt)
    }

    pub(super) fn attempt_mut(
        &mut self,
        entry: EntryKey,
        slot: &Slug,
        n: u8,
    ) -> &mut Attempt {
        self.runs
            .entry(entry)
            .or_default()
            .entry(slot.clone())
            .or_default()
            .attempts
            .entry(n)
            .or_default()
    }

    /// How many attempts an entry has in a slot, with those granted by leave.
    pub fn attempts_allowed(&self, entry: EntryKey, slot: &Slug) -> u8 {
        let extra = self.run(entry, slot).map_or(0, |r| r.extra);
        self.rules.attempts.saturating_add(extra)
    }

    /// The number of the first attempt without a ruling, if one is left.
    pub fn next_attempt(&self, entry: EntryKey, slot: &Slug) -> Option<u8> {
        self.next_in(self.run(entry, slot))
    }

    /// The same for what was done in a slot so far, which may be nothing.
    pub(super) fn next_in(&self, run: Option<&Run>) -> Option<u8> {
        let extra = run.map_or(0, |r| r.extra);
        (1..=self.rules.attempts.saturating_add(extra)).find(|n| {
            run.and_then(|r| r.attempts.get(n))
                .is_none_or(|a| a.ruled.is_none())
        })
    }

    /// The heaviest good attempt of one repetition in a slot: its number and
    /// ruling.
    ///
    /// Variants are different lifts: an attempt of the variant entered comes
    /// before any that was entered as another one. Of equal ones the earlier
    /// attempt.
    pub fn best(&self, entry: EntryKey, slot: &Slug) -> Option<(u8, &Ruled)> {
        let entered = self.entries.get(&entry).and_then(|e| e.variant(slot));
        entered
            .and_then(|lift| self.best_of(entry, slot, |l| l == lift))
            .or_else(|| self.best_of(entry, slot, |_| true))
    }

    /// The heaviest good attempt of one repetition among some variants.
    pub fn best_of(
        &self,
        entry: EntryKey,
        slot: &Slug,
        counts: impl Fn(&Slug) -> bool,
    ) -> Option<(u8, &Ruled)> {
        let mut best: Option<(u8, &Ruled)> = None;
        for (n, attempt) in &self.run(entry, slot)?.attempts {
            let Some(ruled) = &attempt.ruled else {
                continue;
            };
            let Some(load) = &ruled.fact.credited else {
                continue;
            };
            let heavier = best
                .and_then(|(_, b)| b.fact.credited.as_ref())
                .is_none_or(|b| load.mass > b.mass);
            let tested = ruled.fact.ruling.is_good() && ruled.fact.reps <= 1;
            if tested && heavier && counts(&ruled.fact.lift) {
                best = Some((*n, ruled));
            }
        }
        best
    }

    /// The variant that counts for an entry in a slot: that of the best, else
    /// the one entered.
    pub fn counted_lift(&self, entry: &Entry, slot: &Slug) -> Option<&Slug> {
        let entered = self.entries.get(&entry.key)?.variant(slot)?;
        let best = self.best(entry.key, slot);
        Some(best.map_or(entered, |(_, ruled)| &ruled.fact.lift))
    }

    /// The clearance that holds for an entry in a slot on the day.
    pub fn clearance<'a>(&self, entry: &'a Entry, slot: &Slug) -> Option<&'a Clearance> {
        entry.clearance_on(slot, self.date)
    }

    /// The lowest load that neither a cap nor a clearance of the day lets an
    /// entry exceed in a slot.
    pub fn ceiling<'a>(&self, entry: &'a Entry, slot: &Slug) -> Option<&'a Weight> {
        entry.ceiling_on(slot, self.date)
    }

    /// From when to when a session weighs in, by its planned start and the
    /// rules; `None` where either is open.
    pub fn weigh_in(&self, session: &str) -> Option<(NaiveTime, NaiveTime)> {
        let start = self.sessions.get(session)?.start?;
        let opens = i64::from(self.rules.weigh_in_opens?);
        let lasts = i64::from(self.rules.weigh_in_lasts?);
        let from = start.overflowing_sub_signed(TimeDelta::minutes(opens)).0;
        Some((
            from,
            from.overflowing_add_signed(TimeDelta::minutes(lasts)).0,
        ))
    }

    /// When a session's athletes are introduced, and when its countdown begins.
    pub fn before_start(&self, session: &str) -> (Option<NaiveTime>, Option<NaiveTime>) {
        let start = self.sessions.get(session).and_then(|s| s.start);
        let before = |minutes: Option<u32>| {
            let minutes = TimeDelta::minutes(i64::from(minutes?));
            Some(start?.overflowing_sub_signed(minutes).0)
        };
        (
            before(self.rules.introduction),
            before(self.rules.countdown),
        )
    }

    /// Challenges that an athlete has lost on the day.
    pub fn challenges_lost(&self, entry: EntryKey) -> u8 {
        let runs = self.runs.get(&entry);
        runs.into_iter()
            .flat_map(BTreeMap::values)
            .fold(0, |lost, run| lost.saturating_add(run.challenges_lost))
    }

    /// Entries of a flight, by table number.
    pub fn entries_of<'a>(
        &'a self,
        session: &'a str,
        flight: &'a str,
    ) -> impl Iterator<Item = &'a Entry> + 'a {
        self.numbers
            .values()
            .filter_map(|key| self.entries.get(key))
            .filter(move |e| e.session == session && e.flight == flight)
    }

    /// Entries by table number.
    pub fn entries_by_number(&self) -> impl Iterator<Item = &Entry> {
        self.numbers
            .values()
            .filter_map(|key| self.entries.get(key))
    }

    /// Names of all teams, for filters.
    pub fn teams(&self) -> BTreeSet<&str> {
        self.entries
            .values()
            .map(|e| e.team.as_str())
            .filter(|t| !t.is_empty())
            .collect()
    }

    /// The largest attempt number in a slot; at least what the rules give.
    pub fn widest(&self, slot: &Slug) -> u8 {
        let used = self.runs.values().filter_map(|r| r.get(slot)).map(|run| {
            let last = run.attempts.keys().next_back().copied().unwrap_or(0);
            last.max(self.rules.attempts.saturating_add(run.extra))
        });
        used.max().unwrap_or(0).max(self.rules.attempts)
    }
}
