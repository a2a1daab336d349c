//! The journal as acts that replay to the same day.

mod act;
mod corrections;
mod details;
mod events;
mod settings;

use std::collections::BTreeMap;

use super::acts::ActRow;
use crate::day::{Day, Event, Recorded, apply};
use crate::measure::{Unit, Weight};
use crate::roster::{Change, ERASED, EntryKey};

/// The whole journal as rows: what the making of the day gave first, then
/// every act in order, also those that no longer stand.
///
/// They replay to the same day on one made with the same format, units, lifts
/// and platforms. An act that needs several rows has its identifier with
/// `/1`, `/2` … behind it.
pub fn rows(day: &Day) -> Vec<ActRow> {
    let journal = day.journal();
    let mut writer = Writer::new(day);
    let mut found = Vec::new();
    let mut from = told_anew(journal);
    journal[..from].iter().for_each(|r| writer.pass(r));
    while let Some(first) = journal.get(from) {
        let count = journal[from..]
            .iter()
            .take_while(|r| r.act == first.act)
            .count();
        let act = &journal[from..from + count];
        from += count;
        let mut rows = match &first.event {
            Event::DayMade { .. } => {
                act.iter().for_each(|r| writer.pass(r));
                settings::made(first, journal)
            }
            _ => writer.act(act),
        };
        if rows.len() > 1 {
            for (row, n) in rows.iter_mut().zip(1..) {
                row.id = format!("{}/{n}", row.id);
            }
        }
        found.append(&mut rows);
    }
    found
}

/// Where a journal begins to tell: past its own making and settings, where
/// the acts of another day were replayed right behind them.
fn told_anew(journal: &[Recorded]) -> usize {
    let told = journal
        .iter()
        .position(|r| r.id == settings::ID)
        .unwrap_or(0);
    let only_made = journal.iter().take(told).all(|r| {
        matches!(
            r.event,
            Event::DayMade { .. } | Event::SettingChanged { .. }
        )
    });
    if only_made { told } else { 0 }
}

/// The row with when, by whom, on which platform, and the identifier.
fn stamped(mut row: ActRow, recorded: &Recorded) -> ActRow {
    row.at = recorded.happened.unwrap_or(recorded.at).to_string();
    row.by.clone_from(&recorded.hand);
    if row.id.is_empty() {
        row.id.clone_from(&recorded.id);
    }
    if let Some(platform) = recorded.platform {
        row.platform = platform.to_string();
    }
    row
}

/// Writes acts, knowing the day as it was before each event.
struct Writer<'a> {
    day: &'a Day,
    bar: Unit,
    scale: Unit,
    numbers: BTreeMap<EntryKey, u16>,
    /// The day before the event in hand; kept only where something in the
    /// journal can't be written without it.
    before: Option<Day>,
}

impl<'a> Writer<'a> {
    fn new(day: &'a Day) -> Self {
        let facts = day.facts();
        let needs_before = day.journal().iter().any(|r| match &r.event {
            Event::Corrected { .. } | Event::Numbered { .. } => true,
            Event::EntryEdited { changes, .. } => changes
                .iter()
                .any(|c| matches!(c, Change::Number(_) | Change::Slot { .. })),
            Event::SettingChanged { key, .. } => key == "wrong-catch",
            _ => false,
        });
        Self {
            day,
            bar: facts.bar_unit,
            scale: facts.scale_unit,
            numbers: BTreeMap::new(),
            before: needs_before.then(Day::new),
        }
    }

    /// The table number of an entry before the event in hand.
    fn number(&self, key: EntryKey) -> String {
        let before = self.before.as_ref();
        before
            .and_then(|day| day.facts().entries.get(&key))
            .map(|e| e.number)
            .or_else(|| self.numbers.get(&key).copied())
            .map_or_else(String::new, |n| n.to_string())
    }

    /// Goes past an event.
    fn pass(&mut self, recorded: &Recorded) {
        if let Event::EntryAdded { entry, number, .. } = &recorded.event {
            let _ = self.numbers.insert(*entry, *number);
        }
        if let Some(before) = &mut self.before {
            apply(before, recorded);
        }
    }

    /// Whether nothing of an event is left to be written, since what it said was
    /// erased; so also what only speaks of such an act.
    fn says_nothing(&self, event: &Event) -> bool {
        match event {
            Event::EntryEdited { changes, .. } => changes.is_empty(),
            Event::Corrected {
                target,
                event,
                reason,
            } => {
                let before = self.before.as_ref().and_then(|d| d.effective(*target));
                self.says_nothing(event)
                    || (reason == ERASED && before == Some(event.as_ref()))
            }
            Event::Annulled { act, .. } | Event::Undone { act, .. } => {
                self.is_silent(*act)
            }
            Event::Redone { undo } => self
                .day
                .recorded(*undo)
                .is_some_and(|r| self.says_nothing(&r.event)),
            _ => false,
        }
    }

    /// Whether an act gives no row.
    fn is_silent(&self, act: u64) -> bool {
        let from = self.day.journal().partition_point(|r| r.seq < act);
        let rows = self.day.journal()[from..].iter();
        let mut rows = rows.take_while(|r| r.act == act).peekable();
        rows.peek().is_some() && rows.all(|r| self.says_nothing(&r.event))
    }

    fn load(&self, weight: &Weight) -> String {
        show(weight, self.bar)
    }

    fn maybe_load(&self, weight: Option<&Weight>) -> String {
        weight.map(|w| self.load(w)).unwrap_or_default()
    }
}

/// A weight as it was typed, with its unit where that isn't the usual one.
///
/// What was computed and can't be written exactly in its unit is written in
/// kilograms, which every mass can.
fn show(weight: &Weight, usual: Unit) -> String {
    let typed = weight.typed.trim_start_matches('+');
    let same = Weight::parse(typed, weight.unit).is_ok_and(|w| w == *weight);
    if !same {
        let exact = weight.mass.exact(Unit::Kg).unwrap_or_default();
        return format!("{exact} kg");
    }
    if weight.unit == usual {
        typed.to_owned()
    } else {
        format!("{typed} {}", weight.unit)
    }
}

#[cfg(test)]
mod tests;
