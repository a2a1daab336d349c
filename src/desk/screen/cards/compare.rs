//! Attempts that stand otherwise than a card says: side by side, with the
//! choice to keep what stands or to correct it.

use super::read::{Differs, read_row};
use super::sheet::row_of;
use crate::day::{Command, Context, Day, Facts, Ruled};
use crate::desk::tell;
use crate::desk::widget::grid::Grid;
use crate::roster::Entry;

/// How many changes of a preview are shown at once.
pub const CHANGES: usize = 8;

/// One attempt that stands otherwise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Case {
    /// The row's name.
    pub row: u32,
    /// Table number and name.
    pub who: String,
    /// The slot.
    pub slot: crate::lift::Slug,
    /// How it came to what stands: when, and by whose hand.
    pub typed: String,
    /// The two.
    pub differs: Differs,
}

/// What is compared.
#[derive(Debug, Clone, Default)]
pub struct Compare {
    /// Which case is in hand.
    pub at: usize,
    /// The first change that is shown.
    pub from: usize,
    preview: Option<Preview>,
}

#[derive(Debug, Clone)]
struct Preview {
    /// The place in the journal up to which it was made.
    seq: u64,
    command: Command,
    changes: Result<Vec<String>, String>,
}

/// All attempts whose drafts differ from what stands, on all cards.
pub fn cases(facts: &Facts, grid: &Grid) -> Vec<Case> {
    let mut list = Vec::new();
    for row in grid.rows_with_drafts() {
        let Some((entry, slot)) = row_of(facts, row) else {
            continue;
        };
        let typed = |column: usize| grid.draft(row, column).map(|d| d.text.clone());
        for differs in read_row(facts, entry, slot, &typed).differs {
            let stands = facts.attempt(entry.key, slot, differs.attempt);
            let typed = stands.and_then(|a| a.ruled.as_ref()).map(typed_words);
            list.push(Case {
                row,
                who: who(entry),
                slot: slot.clone(),
                typed: typed.unwrap_or_default(),
                differs,
            });
        }
    }
    list
}

fn who(entry: &Entry) -> String {
    format!("lot {} {}", entry.number, entry.name())
}

fn typed_words(ruled: &Ruled) -> String {
    format!("typed at {} by {}", ruled.at.clock_time(), ruled.hand)
}

impl Compare {
    /// With a case in hand.
    pub fn at(at: usize) -> Self {
        Self {
            at,
            ..Self::default()
        }
    }

    /// What correcting the case in hand would change; `None` before it is
    /// worked out.
    pub fn changes(&self) -> Option<&Result<Vec<String>, String>> {
        self.preview.as_ref().map(|preview| &preview.changes)
    }

    /// Works out what correcting a case would change, where that isn't known
    /// yet.
    pub fn foresee(&mut self, case: &Case, day: &Day, context: &Context) {
        let seq = day.next_seq();
        let known = self
            .preview
            .as_ref()
            .is_some_and(|p| p.seq == seq && p.command == case.differs.command);
        if known {
            return;
        }
        let command = case.differs.command.clone();
        self.from = 0;
        self.preview = Some(Preview {
            seq,
            changes: tell::changes(day, &command, context),
            command,
        });
    }

    /// To another case; `many` is how many there are.
    pub fn turn(&mut self, on: bool, many: usize) {
        let last = many.saturating_sub(1);
        self.at = if on {
            (self.at + 1).min(last)
        } else {
            self.at.saturating_sub(1)
        };
    }

    /// On or back in what would change.
    pub fn page(&mut self, on: bool) {
        let all = match self.changes() {
            Some(Ok(changes)) => changes.len(),
            _ => 0,
        };
        let next = self.from + CHANGES;
        if !on {
            self.from = self.from.saturating_sub(CHANGES);
        } else if next < all {
            self.from = next;
        }
    }
}
