//! The table's shorthand: text in, what Enter would do out.
//!
//! Pure: never changes anything. A text that isn't understood gives a
//! sentence that says what would be.

mod athlete;
mod attempt;
mod by_key;
mod by_name;
pub mod faults;
mod finish;
mod hand_in;
mod moves;
mod owed;
mod platform;
mod read;
mod records;
mod remarks;
mod say;
mod start;
mod words;

pub use by_key::{
    MOST_REASONS, ReasonFor, lights_by_key, lights_words, reason_by_key, reasons_by_key,
    reasons_words, rise_by_key,
};
pub use finish::{finished, finished_signed};
pub use hand_in::hands_in;
pub use owed::{Asked, asked, owed, suggestion};
pub use read::{letters_of, read, reps_of};
pub use remarks::remarks;
pub use say::say;
pub use words::load_of;

use crate::day::Command;

/// What Enter would do.
#[derive(Debug, Clone, PartialEq)]
pub enum Meaning {
    /// Enter this; the sentence says it in words.
    Do {
        /// What is entered.
        command: Box<Command>,
        /// The same in words.
        sentence: String,
    },
    /// Nothing is entered: an answer to a question.
    Know(String),
    /// The shell's undo or redo, with its preview.
    Undo,
    /// As [`Meaning::Undo`], forward.
    Redo,
}

impl Meaning {
    /// The sentence.
    pub fn sentence(&self) -> &str {
        match self {
            Self::Do { sentence, .. } | Self::Know(sentence) => sentence,
            Self::Undo => "Shows what would be undone on this platform.",
            Self::Redo => "Shows what would come back on this platform.",
        }
    }

    /// The command, if there is one.
    pub fn command(&self) -> Option<&Command> {
        match self {
            Self::Do { command, .. } => Some(command),
            Self::Know(_) | Self::Undo | Self::Redo => None,
        }
    }
}

/// The shorthand, for the help sheet: what is typed and what it does.
pub const SHORTHAND: &[(&str, &str)] = &[
    ("12 85", "lot 12 asks for 85; 12 +5 for five more than last"),
    (
        "85",
        "the athlete who is named as owing a request asks for 85",
    ),
    (
        "5",
        "lighter than any bar: that athlete asks for five more than last; also +5",
    ),
    (
        "mar 85",
        "the start of a given or family name does as well as the number",
    ),
    ("12 182.5 record", "the request is made for a record"),
    (
        "wwr",
        "the judges' lights, one letter each; w or r with one judge",
    ),
    (
        "r press-out",
        "with the reason; the start of its word is enough",
    ),
    (
        "wrr 2 knees",
        "the failure card, 1 red, 2 blue, 3 yellow; 1 alone where it has one reason",
    ),
    ("12 85 w", "calls lot 12 at 85 and rules in one"),
    (
        "www as hang-clean",
        "caught as another variant of the slot, where the rules reclassify",
    ),
    ("call", "calls the next; call 12 where the queue is advice"),
    (
        "pass",
        "who is called, or owes a request; 12 pass; 12 rest for all",
    ),
    ("time", "the clock ran out before the bar was lifted"),
    ("stop pain", "stopped; also technique, director"),
    (
        "fault press-out",
        "or press-out alone right after: names the reason of the last no lift; fault alone lists them",
    ),
    ("12", "who is lot 12 (who 12 while a request is owed)"),
    (
        "12 to 3",
        "lot 12 goes to platform 3 with all attempts; to 3 moves who is next here",
    ),
    (
        "12 away",
        "also back, here, absent, withdraw; of any word the start is enough",
    ),
    (
        "12 disqualify why",
        "out of the day; 12 disqualify LIFT why for one lift; guest; guest no",
    ),
    (
        "12 tally 185 good",
        "a finished attempt from a card; no, no:press-out, pass",
    ),
    (
        "12 85x5 good",
        "a finished test of five repetitions, where the rules have them",
    ),
    (
        "12 loaded 87 keep",
        "what was really on the bar; keep, repeat or again; 12 2 loaded 87 keep for attempt 2",
    ),
    ("12 extra timing", "one more attempt by leave, with why"),
    (
        "12 overrule good why",
        "a new ruling by jury or director; also challenge",
    ),
    (
        "start snatch A",
        "opens a slot for a flight; break 10; check NAME",
    ),
    (
        "close 1",
        "closes session 1; close alone closes the day (the Day screen opens it again)",
    ),
    ("clock 0:42", "sets the clock; clock stop; clock go"),
    ("note text", "a remark; undo and redo work here too"),
    (
        "Tab",
        "finishes a name or remark that is begun; again: the next",
    ),
];

#[cfg(test)]
mod tests;
