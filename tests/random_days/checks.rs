//! What must hold after every act of a day.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use maxday::day::{
    Clock, Command, Context, Day, Decided, Event, Facts, Queued, Recorded, Refusal,
    decide, queue,
};
use maxday::lift::Slug;
use maxday::measure::Mass;
use maxday::roster::{Entry, EntryKey, Presence};
use maxday::rules::{Again, BarRule, OrderKey};

use crate::records::book_is_sound;
use crate::support::Table;

macro_rules! hold {
    ($holds:expr, $($words:tt)+) => {
        if !$holds {
            return Err(format!($($words)+));
        }
    };
}

/// A table whose day is watched: what it was before, act by act.
pub struct Watched {
    /// The table.
    pub table: Table,
    /// The facts after the last act.
    before: Facts,
    /// The journal after the last act.
    journal: Vec<Recorded>,
    /// Platforms that an act changed when it was taken.
    touched: BTreeMap<u64, BTreeSet<usize>>,
    /// Undo and redo are tried after every act, every second, ...
    every: u64,
}

impl Watched {
    /// Watches a day from now on.
    pub fn new(table: Table, every: u64) -> Self {
        Self {
            before: table.facts().clone(),
            journal: table.day.journal().to_vec(),
            touched: BTreeMap::new(),
            every,
            table,
        }
    }

    /// Says a command and checks all that must hold; the error is what
    /// doesn't.
    pub fn say(
        &mut self,
        command: &Command,
        loose: bool,
    ) -> Result<Result<(), Refusal>, String> {
        let mut context = self.table.context();
        context.at.loose = loose;
        let decided = decide(&self.table.day, command, &context);
        hold!(
            decided == decide(&self.table.day, command, &context),
            "decided otherwise the second time"
        );
        let decided = match decided {
            Ok(decided) => decided,
            Err(refusal) => {
                let sentence = refusal.to_string();
                hold!(sentence.ends_with('.'), "no full stop: {sentence}");
                hold!(
                    *self.table.facts() == self.before,
                    "a refusal changed the facts"
                );
                hold!(
                    self.table.day.journal() == self.journal,
                    "a refusal changed the journal"
                );
                return Ok(Err(refusal));
            }
        };
        hold!(!decided.events.is_empty(), "an act without events");
        for event in &decided.events {
            if let Event::ChallengeLost { entry, .. } = event {
                let lost = self.before.challenges_lost(*entry);
                let most = self.before.rules.challenges;
                hold!(
                    most.is_none_or(|most| lost < most),
                    "one challenge too many"
                );
            }
        }
        let calls = self.bar_of_call(&decided);
        let act = self.table.record(decided, context.at);
        self.after(act, &context)?;
        calls?;
        self.whole()?;
        if act.is_multiple_of(self.every) {
            self.undo_and_redo(act, command, &context)?;
        }
        self.before = self.table.facts().clone();
        let new = &self.table.day.journal()[self.journal.len()..];
        self.journal.extend_from_slice(new);
        Ok(Ok(()))
    }

    /// Platforms that an act touched; others stay as they were by an undo.
    fn after(&mut self, act: u64, context: &Context) -> Result<(), String> {
        let now = self.table.facts();
        let changed: BTreeSet<usize> =
            (0..self.before.platforms.len().max(now.platforms.len()))
                .filter(|i| self.before.platforms.get(*i) != now.platforms.get(*i))
                .collect();
        hold!(
            context.at == self.table.day.journal().last().unwrap().at,
            "another time"
        );
        let first = self.table.day.recorded(act).unwrap();
        let target = match first.event {
            Event::Undone { act, .. } => Some(act),
            Event::Redone { undo } => {
                match self.table.day.recorded(undo).map(|r| &r.event) {
                    Some(Event::Undone { act, .. }) => Some(*act),
                    _ => return Err("a redo of something that is no undo".to_owned()),
                }
            }
            _ => None,
        };
        if let (Some(target), Some(p)) = (target, first.platform) {
            let mut allowed = self.touched.get(&target).cloned().unwrap_or_default();
            let _ = allowed.insert(usize::from(p) - 1);
            // The bar of a flight that was moved follows from all its attempts,
            // wherever they were lifted.
            let beyond_bar = |i: &&usize| {
                let [mut old, mut new] =
                    [&self.before, now].map(|f| f.platforms.get(**i).cloned());
                for place in [&mut old, &mut new].into_iter().flatten() {
                    place.bar.clear();
                }
                old != new
            };
            let touched = changed.difference(&allowed).filter(beyond_bar);
            let touched: Vec<&usize> = touched.collect();
            hold!(
                touched.is_empty(),
                "undo or redo on platform {p} touched {touched:?} (from 0)"
            );
        }
        let _ = self.touched.insert(act, changed);
        Ok(())
    }

    /// Where the bar may not come down, no call is below an earlier one.
    fn bar_of_call(&self, decided: &Decided) -> Result<(), String> {
        let facts = &self.before;
        for event in &decided.events {
            let Event::Called {
                entry,
                slot,
                attempt,
                load,
                ..
            } = event
            else {
                continue;
            };
            // One by leave, or one taken anew after an official error.
            let anew = facts
                .attempt(*entry, slot, *attempt)
                .is_some_and(|a| !a.void.is_empty());
            if anew || *attempt > facts.rules.attempts {
                continue;
            }
            let highest =
                called_so_far(&self.table.day, decided.platform, facts.rules.attempts)
                    .into_iter()
                    .filter(|(n, _)| match facts.rules.bar {
                        BarRule::Rising => true,
                        BarRule::Rounds => n == attempt,
                        BarRule::Free => false,
                    })
                    .map(|(_, mass)| mass)
                    .max();
            hold!(
                highest.is_none_or(|h| h <= load.mass),
                "the bar came down from {highest:?} to {:?}",
                load.mass
            );
        }
        Ok(())
    }

    /// What must hold of any day.
    pub fn whole(&self) -> Result<(), String> {
        let day = &self.table.day;
        let facts = day.facts();
        let again = Day::from_journal(day.journal().to_vec());
        hold!(
            again.facts() == facts,
            "the fold differs from the running state"
        );
        for p in (1_u8..).take(facts.platforms.len()) {
            queue_is_sound(facts, p)?;
        }
        for (number, key) in &facts.numbers {
            let entry = facts.entries.get(key);
            hold!(
                entry.is_some_and(|e| e.number == *number),
                "number {number} names another entry"
            );
        }
        hold!(
            facts.numbers.len() == facts.entries.len(),
            "two entries have one number"
        );
        for entry in facts.entries.values() {
            for line in &facts.slots {
                attempts_are_sound(facts, entry, &line.slot)?;
            }
        }
        let called: Vec<EntryKey> = facts
            .platforms
            .iter()
            .filter_map(|p| p.call.as_ref())
            .map(|c| c.entry)
            .collect();
        hold!(
            called.iter().collect::<BTreeSet<_>>().len() == called.len(),
            "one athlete is called on two platforms"
        );
        // Now and then: it goes over all attempts for each record.
        if day.journal().len().is_multiple_of(16) {
            book_is_sound(facts)?;
        }
        for flight in &facts.flights {
            hold!(
                facts.platform(flight.platform).is_some(),
                "flight {}/{} is on platform {}, which isn't there",
                flight.session,
                flight.name,
                flight.platform
            );
        }
        Ok(())
    }

    /// The newest act can be undone, which brings back what was before, and
    /// redone, which brings back what is now.
    fn undo_and_redo(
        &self,
        act: u64,
        command: &Command,
        context: &Context,
    ) -> Result<(), String> {
        if matches!(command, Command::Undo(_) | Command::Redo(_)) {
            return Ok(());
        }
        let mut trial = self.table.clone();
        trial.now += 5000;
        let line = trial.day.line_of(act);
        hold!(
            trial.day.undoable(line) == Some(act),
            "undo on {line:?} takes another act"
        );
        let undo = trial
            .say(&Command::Undo(line))
            .map_err(|r| format!("undo of the newest act is refused: {r}"))?;
        let expected = called_again(&self.before, &self.table.day, act, context);
        hold!(
            *trial.facts() == expected,
            "undo doesn't bring back what was before:\n{}",
            difference(&expected, trial.facts())
        );
        trial.now += 5000;
        let redo = trial
            .say(&Command::Redo(line))
            .map_err(|r| format!("redo is refused: {r}"))?;
        hold!(
            trial.facts() == self.table.facts(),
            "redo doesn't bring back what was undone:\n{}",
            difference(self.table.facts(), trial.facts())
        );
        let acts: Vec<u64> = trial.day.journal()[self.table.day.journal().len()..]
            .iter()
            .map(|r| r.seq)
            .collect();
        hold!(
            acts == [undo, redo],
            "undo and redo are two acts, not {acts:?}"
        );
        Ok(())
    }
}

/// What was before a ruling, with the ruled athlete called and the clock
/// stopped where it stood.
fn called_again(before: &Facts, day: &Day, act: u64, context: &Context) -> Facts {
    let mut expected = before.clone();
    for recorded in day.act(act) {
        let Event::Ruled(fact) = &recorded.event else {
            continue;
        };
        for platform in &mut expected.platforms {
            if let Some(call) = &mut platform.call
                && call.is(fact.entry, &fact.slot, fact.attempt)
                && let Some(clock) = &mut call.clock
            {
                *clock = Clock {
                    left: clock.left_at(context.at),
                    anchor: None,
                    ..*clock
                };
            }
        }
    }
    expected
}

/// The lines of two facts' long print that differ.
fn difference(expected: &Facts, found: &Facts) -> String {
    let (a, b) = (format!("{expected:#?}"), format!("{found:#?}"));
    let (a, b): (Vec<&str>, Vec<&str>) = (a.lines().collect(), b.lines().collect());
    let only = |x: &[&str], y: &[&str], mark: &str| {
        let mut rest: Vec<&str> = y.to_vec();
        let mut out = Vec::new();
        for line in x {
            match rest.iter().position(|l| l == line) {
                Some(i) => {
                    let _ = rest.remove(i);
                }
                None => out.push(format!("{mark} {line}")),
            }
        }
        out
    };
    let mut out = only(&a, &b, "expected");
    out.extend(only(&b, &a, "found"));
    out.truncate(30);
    out.join("\n")
}

/// Loads of the calls that stand in what runs on a platform now, with their
/// attempt numbers; those by leave aside.
fn called_so_far(day: &Day, platform: Option<u8>, attempts: u8) -> Vec<(u8, Mass)> {
    let mut calls = Vec::new();
    for recorded in day.journal() {
        if !day.stands_now(recorded.seq) || recorded.platform != platform {
            continue;
        }
        match &recorded.event {
            Event::SlotStarted { .. } => calls.clear(),
            Event::Called { attempt, load, .. } if *attempt <= attempts => {
                calls.push((*attempt, load.mass));
            }
            _ => {}
        }
    }
    calls
}

/// Whether an entry should stand in a queue.
fn should_queue(facts: &Facts, entry: &Entry, slot: &Slug) -> bool {
    let gone = matches!(entry.presence, Presence::Absent | Presence::Away)
        || entry.withdrawn
        || entry.withdrawn_slots.contains(slot)
        || entry.disqualified
        || entry.disqualified_slots.contains(slot);
    let out = facts.rules.out_after_no_good && is_out(facts, entry, slot);
    let line = entry.slots.get(slot);
    !gone
        && !out
        && line.is_some_and(|line| line.variant.is_some())
        && first_open(facts, entry.key, slot).is_some()
}

/// Whether an earlier slot that the entry takes part in ended without a best.
fn is_out(facts: &Facts, entry: &Entry, slot: &Slug) -> bool {
    let earlier = facts.slots.iter().take_while(|line| line.slot != *slot);
    earlier.into_iter().any(|line| {
        entry.takes_part(&line.slot)
            && first_open(facts, entry.key, &line.slot).is_none()
            && best_by_hand(facts, entry, &line.slot).is_none()
    })
}

/// The best of a slot, counted by hand: the heaviest good attempt of one
/// repetition, of the variant entered where it has any.
fn best_by_hand(facts: &Facts, entry: &Entry, slot: &Slug) -> Option<(u8, Mass)> {
    let run = facts.runs.get(&entry.key)?.get(slot)?;
    let mut good: Vec<(u8, Mass, bool)> = Vec::new();
    for (n, attempt) in &run.attempts {
        if let Some(ruled) = &attempt.ruled
            && ruled.fact.ruling.is_good()
            && ruled.fact.reps <= 1
            && let Some(load) = &ruled.fact.credited
        {
            let own = entry.variant(slot) == Some(&ruled.fact.lift);
            good.push((*n, load.mass, own));
        }
    }
    let any_own = good.iter().any(|(.., own)| *own);
    good.retain(|(.., own)| *own || !any_own);
    let most = good.iter().map(|(_, mass, _)| *mass).max()?;
    let first = good.iter().find(|(_, mass, _)| *mass == most)?;
    Some((first.0, most))
}

/// The first attempt without a ruling, counted by hand.
fn first_open(facts: &Facts, key: EntryKey, slot: &Slug) -> Option<u8> {
    let run = facts.runs.get(&key).and_then(|runs| runs.get(slot));
    let allowed = facts.rules.attempts + run.map_or(0, |r| r.extra);
    (1..=allowed).find(|n| {
        run.and_then(|r| r.attempts.get(n))
            .is_none_or(|a| a.ruled.is_none())
    })
}

fn queue_is_sound(facts: &Facts, p: u8) -> Result<(), String> {
    let order = queue(facts, p);
    let Some(running) = facts.platform(p).and_then(|p| p.running.as_ref()) else {
        hold!(order.is_empty(), "a queue where nothing runs");
        return Ok(());
    };
    let expected: BTreeSet<u16> = facts
        .entries
        .values()
        .filter(|e| e.session == running.session && e.flight == running.flight)
        .filter(|e| should_queue(facts, e, &running.slot))
        .map(|e| e.number)
        .collect();
    let found: BTreeSet<u16> = order.iter().map(|q| q.number).collect();
    hold!(
        found == expected,
        "the queue has {found:?}, not {expected:?}"
    );
    hold!(
        found.len() == order.len(),
        "somebody stands twice in the queue"
    );
    for (i, a) in order.iter().enumerate() {
        let next = first_open(facts, a.entry, &running.slot);
        hold!(
            next == Some(a.attempt),
            "attempt {} is next, not {next:?}",
            a.attempt
        );
        for b in &order[i + 1..] {
            hold!(
                goes_before(facts, a, b) == Ordering::Less,
                "lot {} stands before lot {} on platform {p}",
                a.number,
                b.number
            );
        }
    }
    Ok(())
}

/// Where the attempt before the next stands in the journal.
fn before(facts: &Facts, q: &Queued) -> Option<u64> {
    let attempt = facts.attempt(q.entry, &q.slot, q.attempt.checked_sub(1)?)?;
    attempt.ruled.as_ref().map(|r| r.seq)
}

/// When the attempt before the next was typed as ruled: who rests since
/// earlier goes first, and who hasn't lifted yet before all.
fn rested(facts: &Facts, q: &Queued) -> Option<i64> {
    let attempt = facts.attempt(q.entry, &q.slot, q.attempt.checked_sub(1)?)?;
    let ruled = attempt.ruled.as_ref().filter(|_| facts.rules.rest > 0)?;
    Some(ruled.at.ms)
}

/// Whether an attempt that is taken anew waits for the end of its round.
fn waits(facts: &Facts, q: &Queued) -> bool {
    facts.rules.again == Again::RoundEnd
        && facts
            .attempt(q.entry, &q.slot, q.attempt)
            .is_some_and(|a| !a.void.is_empty())
}

/// The order of call, once more.
fn goes_before(facts: &Facts, a: &Queued, b: &Queued) -> Ordering {
    let load = |q: &Queued| q.load.as_ref().map_or(i64::MAX, |w| w.mass.counts());
    let mut order = Ordering::Equal;
    for key in &facts.rules.order {
        order = order.then(match key {
            OrderKey::Load => load(a).cmp(&load(b)),
            OrderKey::Attempt => {
                (a.attempt, waits(facts, a)).cmp(&(b.attempt, waits(facts, b)))
            }
            OrderKey::Previous => before(facts, a).cmp(&before(facts, b)),
            OrderKey::Number => a.number.cmp(&b.number),
            OrderKey::Rest => rested(facts, a).cmp(&rested(facts, b)),
        });
    }
    order.then(a.number.cmp(&b.number))
}

fn attempts_are_sound(facts: &Facts, entry: &Entry, slot: &Slug) -> Result<(), String> {
    let next = facts.next_attempt(entry.key, slot);
    hold!(
        next == first_open(facts, entry.key, slot),
        "lot {} has attempt {next:?} next in {slot}",
        entry.number
    );
    let Some(run) = facts.run(entry.key, slot) else {
        return Ok(());
    };
    // Where the rules gave four before, what was lifted stays.
    let allowed = facts.rules.attempts.max(4) + run.extra;
    let best = best_by_hand(facts, entry, slot);
    for (n, attempt) in &run.attempts {
        let Some(ruled) = &attempt.ruled else {
            continue;
        };
        hold!(
            (1..=allowed).contains(n),
            "lot {} has attempt {n} of {allowed} in {slot}",
            entry.number
        );
        hold!(
            ruled.fact.attempt == *n && ruled.fact.entry == entry.key,
            "a ruling under another attempt"
        );
        let variants = facts.slot(slot.as_str()).map(|line| &line.variants);
        hold!(
            variants.is_some_and(|list| list.contains(&ruled.fact.lift)),
            "lot {} lifted {}, which is no variant of {slot}",
            entry.number,
            ruled.fact.lift
        );
    }
    let found = facts.best(entry.key, slot).map(|(n, ruled)| {
        let mass = ruled.fact.credited.as_ref().map_or(Mass::ZERO, |w| w.mass);
        (n, mass)
    });
    hold!(
        found == best,
        "lot {} has best {found:?}, not {best:?}",
        entry.number
    );
    for p in &facts.platforms {
        if let Some(call) = p
            .call
            .as_ref()
            .filter(|c| c.entry == entry.key && c.slot == *slot)
        {
            // Who was called before the rules took the attempt away stays so.
            let taken_away = next.is_none() && call.attempt > facts.rules.attempts;
            hold!(
                next == Some(call.attempt) || taken_away,
                "lot {} is called for attempt {}, but {next:?} is next",
                entry.number,
                call.attempt
            );
        }
    }
    Ok(())
}
