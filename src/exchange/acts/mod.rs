//! Acts as rows: reading them, and what command each of them is.

mod book;
mod command;
mod outcome;
mod pairs;
mod reader;
mod words;

pub use command::command;
pub use outcome::{parse_outcome, show_outcome};
pub(in crate::exchange) use pairs::show_id;
pub use pairs::{pairs, show_pairs, split_id};
pub use reader::{ActReader, read_acts};

use chrono::NaiveDate;

use crate::day::Stamp;

/// The columns of acts, in the order in which they are written.
pub const COLUMNS: [&str; 10] = [
    "act", "athlete", "lift", "attempt", "load", "detail", "platform", "at", "by", "id",
];

/// All act words.
pub const WORDS: [&str; 36] = [
    "add",
    "edit",
    "place",
    "here",
    "absent",
    "away",
    "back",
    "withdraw",
    "disqualify",
    "number",
    "weigh",
    "clear",
    "cap",
    "set",
    "record",
    "check",
    "start",
    "break",
    "close",
    "reopen",
    "request",
    "call",
    "clock",
    "lights",
    "tally",
    "pass",
    "stop",
    "extra",
    "loaded",
    "overrule",
    "challenge",
    "correct",
    "annul",
    "undo",
    "redo",
    "note",
];

/// One row of an acts file, as written.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ActRow {
    /// The physical line on which it starts; 0 where it wasn't read.
    pub line: u64,
    /// The act word.
    pub act: String,
    /// Table number.
    pub athlete: String,
    /// Slot or variant.
    pub lift: String,
    /// Attempt number.
    pub attempt: String,
    /// Load, with or without a unit.
    pub load: String,
    /// What else the act needs.
    pub detail: String,
    /// Platform number.
    pub platform: String,
    /// When.
    pub at: String,
    /// Who says it.
    pub by: String,
    /// The act's identifier.
    pub id: String,
}

impl ActRow {
    /// The cells in the order of [`COLUMNS`].
    pub fn cells(&self) -> [&str; 10] {
        [
            &self.act,
            &self.athlete,
            &self.lift,
            &self.attempt,
            &self.load,
            &self.detail,
            &self.platform,
            &self.at,
            &self.by,
            &self.id,
        ]
    }

    fn cell_mut(&mut self, column: usize) -> Option<&mut String> {
        Some(match column {
            0 => &mut self.act,
            1 => &mut self.athlete,
            2 => &mut self.lift,
            3 => &mut self.attempt,
            4 => &mut self.load,
            5 => &mut self.detail,
            6 => &mut self.platform,
            7 => &mut self.at,
            8 => &mut self.by,
            9 => &mut self.id,
            _ => return None,
        })
    }
}

/// When a row's act took place; `None` where it doesn't say.
///
/// A bare time is on `date`; a missing offset is `offset` minutes east of UTC.
///
/// # Errors
/// A sentence that says how a time is written.
pub fn stamp(
    row: &ActRow,
    date: NaiveDate,
    offset: i16,
) -> Result<Option<Stamp>, String> {
    let text = row.at.trim();
    if text.is_empty() {
        return Ok(None);
    }
    Stamp::parse(text, date, offset).map(Some).ok_or_else(|| {
        format!(
            "“{text}” is no time; write it as {date}T09:05:30, or 09:05 on the day itself."
        )
    })
}

/// The act to which a row with a numbered id belongs: `X/2` is number 2 of `X`.
///
/// `None` for an id that stands alone.
pub fn group_of(id: &str) -> Option<(&str, u32)> {
    let (group, number) = id.trim().rsplit_once('/')?;
    let digits = !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit());
    let number = number.parse::<u32>().ok().filter(|n| digits && *n > 0)?;
    (!group.is_empty()).then_some((group, number))
}

#[cfg(test)]
mod tests;
