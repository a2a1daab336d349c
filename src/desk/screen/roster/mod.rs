//! The roster: entries, one a row, each cell durable when it is left.
//!
//! The last row is for somebody new. A roster's file is named in the field at
//! the top, or dropped on the window; the shell reads it and gives back the
//! report.

pub(crate) mod fields;
mod sheet;
#[cfg(test)]
mod tests;
mod view;

use std::path::PathBuf;

use iced::Task;
use iced::keyboard::Key as Pressed;

use crate::day::{Command, Facts};
use crate::desk::keys::Press;
use crate::desk::screen::Out;
use crate::desk::widget::grid::{
    self, Event, Grid, Handed, Key, Said, Sheet, Spot, Waiting,
};
use crate::roster::Change;

pub use sheet::entry_of;
use sheet::{NEW, RosterSheet};

/// The name of the roster's cell.
pub const FIELD: &str = "roster-cell";
/// The name of the field for a roster's file.
pub const FILE: &str = "roster-file";

/// What happens on the roster.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something happened to the grid.
    Grid(Event),
    /// The next act that waits is to be handed in.
    Next,
    /// The keyboard goes to the field for a file.
    FileInHand,
    /// The path of a file was typed.
    PathTyped(String),
    /// The file of that path is to be imported.
    PathEntered,
    /// The report of an import was read.
    ReportRead,
}

/// The roster's screen.
#[derive(Debug, Clone, Default)]
pub struct Roster {
    grid: Grid,
    waiting: Waiting<Command>,
    path: String,
    import: Option<PathBuf>,
    report: Option<Result<String, String>>,
}

impl Roster {
    /// The roster with the cursor in its first cell.
    pub fn new() -> Self {
        let mut grid = Grid::new();
        grid.go(Spot { row: 0, column: 1 });
        Self {
            grid,
            ..Self::default()
        }
    }

    /// To be called when the screen is shown.
    pub fn shown(&mut self, _facts: &Facts) -> Task<Message> {
        grid::focus(FIELD)
    }

    /// Whether anything typed isn't durable yet.
    pub fn has_drafts(&self) -> bool {
        self.grid.has_drafts()
    }

    /// A file was dropped on the window while this screen was shown.
    pub fn dropped(&mut self, path: PathBuf) {
        self.path = path.display().to_string();
        self.import = Some(path);
    }

    /// The file that the shell is to import now, once.
    pub fn take_import(&mut self) -> Option<PathBuf> {
        self.import.take()
    }

    /// The report of an import: what came in, or why nothing did; several
    /// lines.
    pub fn imported(&mut self, report: Result<String, String>) -> Task<Message> {
        if report.is_ok() {
            self.path.clear();
        }
        self.report = Some(report);
        grid::focus(FIELD)
    }

    /// Takes in what happened.
    pub fn update(
        &mut self,
        message: Message,
        facts: &Facts,
    ) -> (Task<Message>, Option<Out>) {
        let mut task = Task::none();
        match message {
            Message::Grid(event) => {
                let from_shell =
                    matches!(event, Event::Pressed(_, 0) | Event::Clicked(_));
                if from_shell {
                    task = grid::focus(FIELD);
                }
                let sheet = RosterSheet::new(facts);
                for said in self.grid.update(event, &sheet) {
                    self.said(said, facts);
                }
            }
            Message::Next => {}
            Message::FileInHand => task = grid::focus(FILE),
            Message::PathTyped(path) => self.path = path,
            Message::PathEntered => {
                let path = self.path.trim().trim_matches('"');
                if !path.is_empty() {
                    self.import = Some(PathBuf::from(path));
                }
            }
            Message::ReportRead => {
                self.report = None;
                task = grid::focus(FIELD);
            }
        }
        (task, self.waiting.send().map(Out::Submit))
    }

    /// A key that no text field has taken.
    pub fn key(&mut self, press: &Press, _facts: &Facts) -> Option<Message> {
        let command = press.modifiers.command() || press.modifiers.control();
        if let Pressed::Character(letter) = &press.key
            && command
            && letter.eq_ignore_ascii_case("i")
        {
            return Some(Message::FileInHand);
        }
        let key = grid::key_of(&press.key, press.modifiers)?;
        if key == Key::Escape && !self.grid.has_drafts() {
            return self.report.is_some().then_some(Message::ReportRead);
        }
        Some(Message::Grid(Event::Pressed(key, 0)))
    }

    /// The answer to the act that was handed in last.
    pub fn answered(
        &mut self,
        answer: Result<(), String>,
        facts: &Facts,
    ) -> Task<Message> {
        let handed = self.waiting.answered(&answer, &mut self.grid);
        if answer.is_ok() && handed.is_some_and(|h| h.row == NEW) {
            self.grid.settle_row(NEW);
            let row = RosterSheet::new(facts).rows().saturating_sub(1);
            self.grid.go(Spot { row, column: 1 });
        }
        grid::go_on(&self.waiting, Message::Next)
    }

    fn said(&mut self, said: Said, facts: &Facts) {
        match said {
            Said::Cell { row, column, text } => {
                let sheet = RosterSheet::new(facts);
                let (Some(entry), Some(field)) =
                    (entry_of(facts, row), sheet.fields.get(column))
                else {
                    return;
                };
                match field.command(facts, entry, &text) {
                    Ok(Some(what)) => self.hand_in(row, column, what),
                    Ok(None) => self.grid.settle(row, column),
                    Err(sentence) => self.grid.refuse(row, column, sentence),
                }
            }
            Said::Row { row: NEW, .. } => self.add(facts),
            Said::Row { .. } => {}
            Said::NotFound(text) => self.renumber(&text, facts),
        }
    }

    fn hand_in(&mut self, row: u32, column: usize, what: Command) {
        self.waiting.push(Handed {
            row,
            columns: vec![column],
            what,
        });
    }

    fn add(&mut self, facts: &Facts) {
        if self
            .grid
            .drafts_of(NEW)
            .all(|(_, d)| d.text.trim().is_empty())
        {
            self.grid.settle_row(NEW);
            return;
        }
        let sheet = RosterSheet::new(facts);
        let typed = |column: usize| self.grid.draft(NEW, column).map(|d| d.text.clone());
        match fields::new_entry(facts, &sheet.fields, &typed) {
            Ok(new) => self.waiting.push(Handed {
                row: NEW,
                columns: (0..sheet.fields.len()).collect(),
                what: Command::Add(vec![new]),
            }),
            Err((column, sentence)) => self.grid.refuse(NEW, column, sentence),
        }
    }

    /// `to 14` in the column of lots gives the athlete in hand that number.
    fn renumber(&mut self, text: &str, facts: &Facts) {
        let sheet = RosterSheet::new(facts);
        let row = sheet.key(self.grid.cursor.row);
        let (Some(entry), Some(number)) =
            (entry_of(facts, row), text.trim().strip_prefix("to "))
        else {
            return;
        };
        let read = facts
            .reading()
            .read(&crate::roster::Column::Lot, number, None);
        match read.as_deref() {
            Ok([Change::Number(new)]) => {
                let what = Command::Edit {
                    number: entry.number,
                    changes: vec![Change::Number(*new)],
                };
                self.hand_in(row, 0, what);
            }
            Ok(_) => {}
            Err(e) => self.grid.refuse(row, 0, format!("{e}.")),
        }
    }
}
