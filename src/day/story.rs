//! The whole story of a day: every act, and what is true now.

use std::collections::{BTreeMap, BTreeSet};

use super::event::{Event, Line, Recorded};
use super::facts::Facts;
use super::fold::fold;

/// A day: its journal in memory and the facts that follow from it.
///
/// Limits: acts are kept for ever; an undo, an annulment or a correction
/// folds the journal anew, which is linear in its length.
#[derive(Debug, Clone)]
pub struct Day {
    facts: Facts,
    journal: Vec<Recorded>,
    /// By place in the journal less one: whether the event's act stands.
    on: Vec<bool>,
    /// Highest entry key ever given, also by acts that no longer stand.
    highest_key: u32,
}

/// Folds one recorded event into the day.
///
/// Total: an event that is in the journal is a fact, so there is nothing to
/// refuse.
pub fn apply(day: &mut Day, recorded: &Recorded) {
    if let Event::EntryAdded { entry, .. } = &recorded.event {
        day.highest_key = day.highest_key.max(entry.0);
    }
    let anew = recorded.event.is_about_acts()
        || matches!(recorded.event, Event::Corrected { .. });
    day.journal.push(recorded.clone());
    day.on.push(true);
    if anew {
        day.fold_anew();
    } else {
        fold(&mut day.facts, recorded, &recorded.event);
    }
}

impl Default for Day {
    fn default() -> Self {
        Self::new()
    }
}

impl Day {
    /// A day of which nothing is known yet.
    pub fn new() -> Self {
        Self {
            facts: Facts::empty(),
            journal: Vec::new(),
            on: Vec::new(),
            highest_key: 0,
        }
    }

    /// What is true now.
    pub const fn facts(&self) -> &Facts {
        &self.facts
    }

    /// Everything that was ever recorded, in order.
    pub fn journal(&self) -> &[Recorded] {
        &self.journal
    }

    /// Whether the day was made.
    pub fn has_begun(&self) -> bool {
        !self.journal.is_empty()
    }

    /// The place of the next event.
    pub fn next_seq(&self) -> u64 {
        self.journal.last().map_or(1, |r| r.seq + 1)
    }

    /// A key that no entry ever had.
    pub(super) const fn next_key(&self) -> u32 {
        self.highest_key + 1
    }

    /// The event at a place in the journal.
    pub fn recorded(&self, seq: u64) -> Option<&Recorded> {
        self.journal.get(self.index(seq)?)
    }

    /// Whether the act of the event at a place stands.
    pub fn stands_now(&self, seq: u64) -> bool {
        self.index(seq)
            .and_then(|i| self.on.get(i).copied())
            .unwrap_or(false)
    }

    /// The act with that identifier, by the place of its first event.
    pub fn act_by_id(&self, id: &str) -> Option<u64> {
        self.journal.iter().find(|r| r.id == id).map(|r| r.act)
    }

    /// The events of an act.
    pub fn act(&self, act: u64) -> impl Iterator<Item = &Recorded> {
        let from = self.index(act).unwrap_or(self.journal.len());
        // A file's rows of one act may come in several transactions, but
        // never with another act between them.
        self.journal[from..]
            .iter()
            .take_while(move |r| r.act == act)
    }

    /// The line on which an act is undone.
    ///
    /// That of its events which comes first in the order of [`Line`], so that
    /// an entry that makes its flight belongs to the roster. What is said
    /// about another act belongs to that act's line.
    pub fn line_of(&self, act: u64) -> Line {
        let of_event = |r: &Recorded| match (r.platform, &r.event) {
            (None, Event::Undone { act, .. } | Event::Annulled { act, .. })
                if *act < r.act =>
            {
                self.line_of(*act)
            }
            (None, Event::Redone { undo }) if *undo < r.act => self.line_of(*undo),
            _ => r.line(),
        };
        self.act(act).map(of_event).min().unwrap_or(Line::Day)
    }

    /// Whether nothing stands that came after an act, other than undos of what
    /// came after it: without it the day is as it was once before.
    pub(super) fn is_newest(&self, act: u64) -> bool {
        self.journal
            .iter()
            .zip(&self.on)
            .rev()
            .take_while(|(r, _)| r.act > act)
            .all(|(r, on)| {
                !on || matches!(r.event, Event::Undone { act: undone, .. } if undone > act)
            })
    }

    /// The newest act that `undo` on this line would annul.
    pub fn undoable(&self, line: Line) -> Option<u64> {
        self.journal
            .iter()
            .zip(&self.on)
            .rev()
            .find(|(r, on)| {
                **on && self.line_of(r.act) == line
                    && !matches!(
                        r.event,
                        Event::Undone { .. }
                            | Event::Redone { .. }
                            | Event::DayMade { .. }
                    )
            })
            .map(|(r, _)| r.act)
    }

    /// The undo that `redo` on this line would take back, by its place.
    pub fn redoable(&self, line: Line) -> Option<u64> {
        for (r, on) in self.journal.iter().zip(&self.on).rev() {
            if self.line_of(r.act) != line {
                continue;
            }
            match r.event {
                Event::Undone { .. } if *on => return Some(r.seq),
                Event::Undone { .. } | Event::Redone { .. } => {}
                _ => return None,
            }
        }
        None
    }

    /// The facts as they would be without an act (or with it again, if the
    /// act is an undo), and the later events that would hang in the air.
    pub(super) fn without(&self, act: u64) -> (Facts, Vec<u64>) {
        let mut trial = self.clone();
        let annulled = Recorded {
            seq: self.next_seq(),
            act: self.next_seq(),
            id: String::new(),
            at: self.last_stamp(),
            happened: None,
            hand: String::new(),
            platform: None,
            event: Event::Annulled {
                act,
                reason: String::new(),
            },
        };
        trial.journal.push(annulled);
        trial.on.push(true);
        trial.fold_anew();
        let hanging = newly_hanging(self, &trial);
        (trial.facts, hanging)
    }

    /// The later events that would hang in the air if an event were replaced.
    pub(super) fn with_correction(
        &self,
        target: u64,
        event: &Event,
    ) -> (Facts, Vec<u64>) {
        let mut trial = self.clone();
        trial.journal.push(Recorded {
            seq: self.next_seq(),
            act: self.next_seq(),
            id: String::new(),
            at: self.last_stamp(),
            happened: None,
            hand: String::new(),
            platform: None,
            event: Event::Corrected {
                target,
                event: Box::new(event.clone()),
                reason: String::new(),
            },
        });
        trial.on.push(true);
        trial.fold_anew();
        let hanging = newly_hanging(self, &trial);
        (trial.facts, hanging)
    }

    /// The event at a place as it stands, with the corrections made to it.
    pub fn effective(&self, seq: u64) -> Option<&Event> {
        let corrected =
            self.journal
                .iter()
                .zip(&self.on)
                .rev()
                .find_map(|(r, on)| match &r.event {
                    Event::Corrected { target, event, .. } if *on && *target == seq => {
                        Some(event.as_ref())
                    }
                    _ => None,
                });
        corrected.or_else(|| self.recorded(seq).map(|r| &r.event))
    }

    /// A day folded from recorded events.
    pub fn from_journal(journal: impl IntoIterator<Item = Recorded>) -> Self {
        let mut day = Self::new();
        for recorded in journal {
            if let Event::EntryAdded { entry, .. } = &recorded.event {
                day.highest_key = day.highest_key.max(entry.0);
            }
            day.journal.push(recorded);
            day.on.push(true);
        }
        day.fold_anew();
        day
    }

    fn last_stamp(&self) -> super::Stamp {
        self.journal.last().map_or(
            super::Stamp {
                ms: 0,
                offset: 0,
                loose: true,
            },
            |r| r.at,
        )
    }

    fn index(&self, seq: u64) -> Option<usize> {
        let first = self.journal.first()?.seq;
        let guess = usize::try_from(seq.checked_sub(first)?).ok()?;
        match self.journal.get(guess) {
            Some(r) if r.seq == seq => Some(guess),
            _ => self.journal.binary_search_by_key(&seq, |r| r.seq).ok(),
        }
    }

    /// Settles which acts stand and folds them from the start.
    fn fold_anew(&mut self) {
        self.settle();
        self.facts = Facts::empty();
        self.replay();
    }

    /// An act stands unless a later act that stands annuls it, so the newest
    /// are settled first.
    fn settle(&mut self) {
        let mut annulled: BTreeSet<u64> = BTreeSet::new();
        for (r, on) in self.journal.iter().zip(&mut self.on).rev() {
            *on = !annulled.contains(&r.act);
            if *on {
                match r.event {
                    Event::Annulled { act, .. } | Event::Undone { act, .. } => {
                        let _ = annulled.insert(act);
                    }
                    Event::Redone { undo } => {
                        let _ = annulled.insert(undo);
                    }
                    _ => {}
                }
            }
        }
    }

    fn corrections(&self) -> BTreeMap<u64, Event> {
        let mut corrections = BTreeMap::new();
        for (r, on) in self.journal.iter().zip(&self.on) {
            if let (true, Event::Corrected { target, event, .. }) = (*on, &r.event) {
                let _ = corrections.insert(*target, event.as_ref().clone());
            }
        }
        corrections
    }

    fn replay(&mut self) {
        let corrections = self.corrections();
        for (r, on) in self.journal.iter().zip(&self.on) {
            if !*on || !gives_its_clock_back(&self.journal, &self.facts, r) {
                continue;
            }
            let event = corrections.get(&r.seq).unwrap_or(&r.event);
            fold(&mut self.facts, r, event);
        }
    }

    /// The places of events that hang in the air when folded in order.
    fn hanging(&self) -> BTreeMap<u64, super::stands::Dangling> {
        let corrections = self.corrections();
        let mut facts = Facts::empty();
        let mut hanging = BTreeMap::new();
        for (r, on) in self.journal.iter().zip(&self.on) {
            if *on {
                let event = corrections.get(&r.seq).unwrap_or(&r.event);
                if let Some(dangling) = super::stands::hangs(&facts, event, r.platform) {
                    let _ = hanging.insert(r.seq, dangling);
                }
                fold(&mut facts, r, event);
            }
        }
        hanging
    }
}

/// Whether an undo that gives a clock back finds the call that it is for.
///
/// Undone further back, the call may be gone and an earlier one have come
/// back, which has a clock of its own. Everything else is always folded.
fn gives_its_clock_back(journal: &[Recorded], facts: &Facts, undo: &Recorded) -> bool {
    let Event::Undone {
        act,
        clock: Some(_),
    } = undo.event
    else {
        return true;
    };
    let call = undo
        .platform
        .and_then(|n| facts.platform(n))
        .and_then(|p| p.call.as_ref());
    let from = journal.partition_point(|r| r.seq < act);
    let ruled = journal[from..]
        .iter()
        .take_while(|r| r.act == act)
        .find_map(|r| match &r.event {
            Event::Ruled(fact) => Some(fact),
            _ => None,
        });
    match (call, ruled) {
        (Some(call), Some(fact)) => call.is(fact.entry, &fact.slot, fact.attempt),
        _ => false,
    }
}

/// Events that stand in `after` and hang there, but didn't hang in `before`
/// (or didn't stand there).
///
/// A card may be entered before the one of the attempt before it, so an act
/// that is brought back may leave that gap again.
fn newly_hanging(before: &Day, after: &Day) -> Vec<u64> {
    let old = before.hanging();
    after
        .hanging()
        .into_iter()
        .filter(|(seq, dangling)| {
            let brought_back = !before.stands_now(*seq);
            let card = matches!(
                after.recorded(*seq).map(|r| &r.event),
                Some(Event::Ruled(fact)) if fact.source == super::Source::Card
            );
            let gap = matches!(dangling, super::stands::Dangling::NoAttemptBefore(_));
            old.get(seq) != Some(dangling) && !(brought_back && card && gap)
        })
        .map(|(seq, _)| seq)
        .collect()
}
