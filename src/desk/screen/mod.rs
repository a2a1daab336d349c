//! The screens, in the order of the day.
//!
//! A screen holds what is typed and selected; facts are lent to it. It never
//! names another screen's state, a file or a clock: it asks through [`Out`].

pub mod cards;
pub mod day;
pub mod first;
pub mod flights;
pub mod journal;
pub mod papers;
pub mod roster;
pub mod scale;
pub mod standings;
pub mod table;

use crate::day::Command;

/// Names a screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ScreenId {
    /// Settings of the day.
    Day,
    /// Entries.
    Roster,
    /// Weigh-in, openers, set-ups.
    Scale,
    /// Flights.
    Flights,
    /// Run a platform.
    Table,
    /// Places.
    Standings,
    /// Printables.
    Papers,
    /// The list of acts.
    Journal,
    /// Rack cards, typed like a spreadsheet.
    Cards,
}

impl ScreenId {
    /// The eight screens in the order of the day.
    pub const ALL: [Self; 8] = [
        Self::Day,
        Self::Roster,
        Self::Scale,
        Self::Flights,
        Self::Table,
        Self::Standings,
        Self::Papers,
        Self::Journal,
    ];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Day => "Day",
            Self::Roster => "Roster",
            Self::Scale => "Scale",
            Self::Flights => "Flights",
            Self::Table => "Table",
            Self::Standings => "Standings",
            Self::Papers => "Papers",
            Self::Journal => "Journal",
            Self::Cards => "Cards",
        }
    }
}

/// What a screen asks of the shell.
#[derive(Debug, Clone, PartialEq)]
pub enum Out {
    /// Enter this; the answer comes back to the screen.
    Submit(Command),
    /// Enter all of these in one transaction, or none; the answer comes back
    /// to the screen.
    SubmitAll(Vec<Command>),
    /// Show another screen.
    Go(ScreenId),
    /// Show a sentence on the line at the bottom.
    Say(String),
    /// Something about backups; the answer comes back to the screen.
    Backup(Backup),
}

/// What can be asked about backups.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Backup {
    /// Make them in this folder; empty is nowhere.
    Into(String),
    /// Make one now.
    Now,
    /// Go on from this file; empty is the last one.
    Restore(String),
}
