//! A card as a grid: athletes down, attempts across.

use super::card::{CardId, entries};
use super::read::{attempt_of, load_column, read_row};
use crate::day::{Facts, Ruled, Ruling, standing_request};
use crate::desk::widget::grid::{Cell, Column, Enter, Grid, Mark, Sheet};
use crate::lift::Slug;
use crate::measure::Unit;
use crate::roster::{Entry, EntryKey, Presence};
use crate::sheets::{not_made, ruling_words};

/// A card's cells.
pub struct CardSheet<'a> {
    facts: &'a Facts,
    slot: Slug,
    slot_at: u32,
    entries: Vec<&'a Entry>,
    attempts: u8,
    columns: Vec<Column>,
}

/// How many slots a row's name can tell apart.
const SLOTS: u32 = 64;

/// The entry and the slot of a row's name.
pub fn row_of(facts: &Facts, key: u32) -> Option<(&Entry, &Slug)> {
    let entry = facts.entries.get(&EntryKey(key / SLOTS))?;
    let at = usize::try_from(key % SLOTS).ok()?;
    Some((entry, &facts.slots.get(at)?.slot))
}

impl<'a> CardSheet<'a> {
    /// The cells of a card.
    pub fn new(facts: &'a Facts, id: &'a CardId) -> Self {
        let attempts = facts.widest(&id.slot);
        let at = facts.slots.iter().position(|l| l.slot == id.slot);
        let entries = entries(facts, id);
        let letters = entries.iter().map(|e| e.name().chars().count()).max();
        let letters = u16::try_from(letters.unwrap_or(0)).unwrap_or(u16::MAX);
        // In hand, words are set larger.
        let name = letters.saturating_add(2).clamp(21, 27);
        let mut columns = vec![Column::figures("Lot", 5), Column::words("Athlete", name)];
        // In pounds half a unit is seldom asked for.
        let load = match facts.bar_unit {
            Unit::Kg => 10,
            Unit::Lb => 9,
        };
        for n in 1..=attempts {
            columns.push(Column::figures(format!("Load {n}"), load));
            // A ruling with its reason, where there is room for it.
            let room = if attempts <= 3 { 19 } else { 9 };
            columns.push(Column::words(format!("Ruling {n}"), room));
        }
        columns.push(Column::words("Best, and what is owed", 16).growing());
        Self {
            facts,
            slot: id.slot.clone(),
            slot_at: at.and_then(|a| u32::try_from(a).ok()).unwrap_or(0),
            entries,
            attempts,
            columns,
        }
    }

    /// The slot of the card.
    pub const fn slot(&self) -> &Slug {
        &self.slot
    }

    /// The entry of a row.
    pub fn entry(&self, row: usize) -> Option<&'a Entry> {
        self.entries.get(row).copied()
    }

    /// The row of a table number.
    pub fn row_of_number(&self, number: u16) -> Option<usize> {
        self.entries.iter().position(|e| e.number == number)
    }

    fn ruled(&self, entry: &Entry, attempt: u8) -> Option<&'a Ruled> {
        self.facts
            .attempt(entry.key, &self.slot, attempt)?
            .ruled
            .as_ref()
    }

    fn attempt_cell(&self, entry: &Entry, attempt: u8, ruling: bool) -> Cell {
        if attempt > self.facts.attempts_allowed(entry.key, &self.slot) {
            return Cell::default();
        }
        let unit = self.facts.bar_unit;
        if let Some(ruled) = self.ruled(entry, attempt) {
            let fact = &ruled.fact;
            let load = fact.credited.as_ref().or(fact.requested.as_ref());
            let text = if ruling {
                let codes = fact.faults.iter().map(|f| f.code.clone());
                let ruling = ruling_words(&fact.ruling, fact.reps);
                match codes.collect::<Vec<String>>().join(", ") {
                    codes if codes.is_empty() => ruling,
                    codes => format!("{ruling}: {}", codes.replace('-', " ")),
                }
            } else {
                load.filter(|_| fact.ruling != Ruling::Pass)
                    .map(|w| w.show(unit))
                    .unwrap_or_default()
            };
            let struck = fact.ruling.is_no_lift() && !ruling;
            return Cell {
                text,
                mark: if struck { Mark::Struck } else { Mark::Plain },
                open: true,
                stop: false,
            };
        }
        let asked = standing_request(self.facts, entry, &self.slot, attempt)
            .filter(|_| !ruling)
            .map(|s| s.load.show(unit))
            .unwrap_or_default();
        Cell {
            text: asked,
            mark: Mark::Asked,
            open: true,
            stop: entry.is_present() && entry.takes_part(&self.slot),
        }
    }

    fn remark(&self, entry: &Entry) -> String {
        let mut parts = Vec::new();
        if let Some((_, best)) = self.facts.best(entry.key, &self.slot)
            && let Some(load) = &best.fact.credited
        {
            parts.push(format!("best {}", load.show(self.facts.bar_unit)));
        }
        if entry.guest {
            parts.push("guest".to_owned());
        }
        if entry.is_disqualified(&self.slot) {
            parts.push("disqualified".to_owned());
        } else if entry.withdrawn || entry.withdrawn_slots.contains(&self.slot) {
            parts.push("withdrawn".to_owned());
        } else {
            match entry.presence {
                Presence::Absent => parts.push("absent".to_owned()),
                Presence::Away => parts.push("away".to_owned()),
                Presence::Expected | Presence::Here => {}
            }
        }
        if self.facts.clearance(entry, &self.slot) == Some(&crate::roster::Clearance::No)
        {
            parts.push("not cleared".to_owned());
        }
        let reasons_owed = (1..=self.attempts)
            .filter(|n| {
                self.ruled(entry, *n).is_some_and(|r| {
                    r.fact.ruling == Ruling::No && r.fact.faults.is_empty()
                })
            })
            .count();
        // A request of a load that the discs can't make.
        if let Some(next) = self.facts.next_attempt(entry.key, &self.slot)
            && let Some(stands) = standing_request(self.facts, entry, &self.slot, next)
            && let Some(platform) = self.facts.platform_of(entry)
            && not_made(self.facts, platform, entry, stands.load.mass).is_some()
        {
            let load = stands.load.show(self.facts.bar_unit);
            parts.push(format!("discs can't make {load}"));
        }
        if reasons_owed > 0 {
            parts.push(format!("{reasons_owed} reason owed"));
        }
        parts.join(", ")
    }

    /// What a row's name is.
    pub fn name_of(&self, entry: &Entry) -> u32 {
        entry
            .key
            .0
            .saturating_mul(SLOTS)
            .saturating_add(self.slot_at)
    }

    /// What Enter will do, as a sentence.
    pub fn line(&self, grid: &Grid) -> String {
        let Some(entry) = self.entry(grid.cursor.row) else {
            return "Nobody is entered in this lift here; PageDown turns to the next card."
                .to_owned();
        };
        if let Some(text) = grid.finding() {
            return match self.found(grid.cursor.row, text) {
                true => format!("Enter goes to lot {}, {}.", entry.number, entry.name()),
                false => format!(
                    "No lot here begins with {text}; Enter looks on the other cards."
                ),
            };
        }
        let key = self.name_of(entry);
        let typed = |column: usize| grid.draft(key, column).map(|d| d.text.clone());
        let read = read_row(self.facts, entry, &self.slot, &typed);
        let differs = read.differs.iter().map(|differs| {
            format!(
                "attempt {} stands as {}, the card says {}: compares them",
                differs.attempt, differs.stands, differs.card
            )
        });
        let steps = read.steps.iter().map(|s| s.words.clone());
        let words: Vec<String> = steps.chain(differs).collect();
        if !words.is_empty() {
            return format!("Enter, lot {}: {}.", entry.number, words.join("; "));
        }
        match attempt_of(grid.cursor.column) {
            _ if grid.cursor.column == 0 => {
                "Type a lot to go to it; Enter takes it from there.".to_owned()
            }
            Some((n, _)) if n <= self.attempts => match self.ruled(entry, n) {
                Some(ruled) => format!(
                    "Attempt {n} of lot {} is {}. Typing over it and Enter compares the two.",
                    entry.number,
                    super::read::ruled_words(self.facts, ruled)
                ),
                None => self.prompt(entry, n),
            },
            _ => "Tab goes to the next attempt that isn't in.".to_owned(),
        }
    }

    fn prompt(&self, entry: &Entry, n: u8) -> String {
        let stands = standing_request(self.facts, entry, &self.slot, n)
            .map(|s| {
                let load = s.load.mass.show_with_unit(self.facts.bar_unit);
                format!(" {load} was asked for, so g alone will do.")
            })
            .unwrap_or_default();
        let unmade = standing_request(self.facts, entry, &self.slot, n)
            .zip(self.facts.platform_of(entry))
            .and_then(|(s, at)| not_made(self.facts, at, entry, s.load.mass))
            .map(|words| format!(" {words}."))
            .unwrap_or_default();
        format!(
            "Lot {}, attempt {n}: type the load, then g good, n no lift, p pass (n, a blank and \
             a reason names the fault).{stands}{unmade}",
            entry.number
        )
    }
}

impl Sheet for CardSheet<'_> {
    fn columns(&self) -> &[Column] {
        &self.columns
    }

    fn rows(&self) -> usize {
        self.entries.len()
    }

    fn key(&self, row: usize) -> u32 {
        self.entry(row).map_or(u32::MAX, |e| self.name_of(e))
    }

    fn cell(&self, row: usize, column: usize) -> Cell {
        let Some(entry) = self.entry(row) else {
            return Cell::default();
        };
        match attempt_of(column) {
            None if column == 0 => Cell::fixed(entry.number.to_string()),
            None => Cell::fixed(entry.name()),
            Some((n, _)) if n > self.attempts => Cell::fixed(self.remark(entry)),
            Some((n, ruling)) => self.attempt_cell(entry, n, ruling),
        }
    }

    fn enter(&self) -> Enter {
        Enter::NextRow
    }

    fn whole_row(&self, _row: usize) -> bool {
        true
    }

    fn finder(&self) -> Option<usize> {
        Some(0)
    }

    fn found(&self, row: usize, text: &str) -> bool {
        self.entry(row)
            .is_some_and(|e| e.number.to_string().starts_with(text.trim()))
    }

    fn complete(&self, row: usize, column: usize, text: &str) -> bool {
        let Some((attempt, true)) = attempt_of(column) else {
            return false;
        };
        if !self.cell(row, column).stop {
            return false;
        }
        // The last ruling of a row waits for Enter or the next load, so that
        // Enter never skips a row and a reason can follow.
        let last = self
            .entry(row)
            .is_some_and(|e| attempt >= self.facts.attempts_allowed(e.key, &self.slot));
        !last && matches!(text, "g" | "n" | "p" | "G" | "N" | "P")
    }

    fn spill(&self, row: usize, column: usize, text: &str) -> Option<usize> {
        if !self.cell(row, column).stop {
            return None;
        }
        let (_, ruling) = attempt_of(column)?;
        if ruling {
            // `g95` or `gg`: the ruling is done, the rest is the next attempt.
            let rest = text.strip_prefix(['g', 'n', 'p', 'G', 'N', 'P'])?;
            let next = |c: char| c.is_ascii_digit() || "gnpGNP".contains(c);
            return (rest.chars().count() == 1 && rest.starts_with(next)).then_some(1);
        }
        // `135g`: the load is done, g is its ruling.
        let at = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ' ')))?;
        let rest = &text[at..];
        let one_letter = rest.chars().count() == 1;
        (one_letter && rest.starts_with(['g', 'n', 'p', 't', 'G', 'N', 'P', 'T']))
            .then_some(at)
    }

    fn extends(&self, _row: usize, column: usize, text: &str) -> bool {
        matches!(attempt_of(column), Some((_, true))) && matches!(text, "n" | "N")
    }
}

/// The first cell of an attempt's column that belongs to a card.
pub fn first_column() -> usize {
    load_column(1)
}
