//! The scale: weigh-in, openers, clearances and set-ups.
//!
//! An athlete is found by a lot or the beginning of a name; Enter goes along
//! the row and, at its end, back to looking for the next one.

mod edge;
mod fields;
mod sheet;
#[cfg(test)]
mod tests;
mod view;

use iced::Task;

use crate::day::{Command, Facts};
use crate::desk::keys::Press;
use crate::desk::screen::Out;
use crate::desk::screen::roster::entry_of;
use crate::desk::widget::grid::{
    self, Event, Grid, Handed, Key, Said, Sheet, Spot, Waiting,
};

use sheet::ScaleSheet;

/// The name of the scale's cell.
pub const FIELD: &str = "scale-cell";

/// What happens at the scale.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something happened to the grid.
    Grid(Event),
    /// The next act that waits is to be handed in.
    Next,
}

/// The scale's screen.
#[derive(Debug, Clone, Default)]
pub struct Scale {
    grid: Grid,
    waiting: Waiting<Command>,
}

impl Scale {
    /// The scale, looking for the first athlete.
    pub fn new() -> Self {
        Self {
            grid: Grid::new(),
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

    /// Takes in what happened.
    pub fn update(
        &mut self,
        message: Message,
        facts: &Facts,
    ) -> (Task<Message>, Option<Out>) {
        let mut task = Task::none();
        if let Message::Grid(event) = message {
            if matches!(event, Event::Pressed(_, 0) | Event::Clicked(_)) {
                task = grid::focus(FIELD);
            }
            let enters = matches!(event, Event::Pressed(Key::Enter, _));
            let looked = self.grid.finding().is_some();
            let before = self.grid.cursor;
            let sheet = ScaleSheet::new(facts);
            for said in self.grid.update(event, &sheet) {
                self.said(said, facts);
            }
            let ended = self.grid.cursor.row != before.row
                || self.grid.cursor.column <= before.column;
            if enters && !looked && ended && before.column > 0 {
                // The row is done: look for the next athlete.
                let row = self.grid.cursor.row;
                self.grid.go(Spot { row, column: 0 });
            } else if enters && !looked && before.column == 0 {
                let column =
                    (0..sheet.columns().len()).find(|c| sheet.cell(before.row, *c).stop);
                if let (Some(column), true) = (column, sheet.rows() > 0) {
                    self.grid.go(Spot { column, ..before });
                }
            }
        }
        (task, self.waiting.send().map(Out::Submit))
    }

    /// A key that no text field has taken.
    pub fn key(&mut self, press: &Press, _facts: &Facts) -> Option<Message> {
        let key = grid::key_of(&press.key, press.modifiers)?;
        let idle = key == Key::Escape
            && !self.grid.has_drafts()
            && self.grid.finding().is_none();
        (!idle).then_some(Message::Grid(Event::Pressed(key, 0)))
    }

    /// The answer to the act that was handed in last.
    pub fn answered(
        &mut self,
        answer: Result<(), String>,
        _facts: &Facts,
    ) -> Task<Message> {
        let _ = self.waiting.answered(&answer, &mut self.grid);
        grid::go_on(&self.waiting, Message::Next)
    }

    fn said(&mut self, said: Said, facts: &Facts) {
        let Said::Cell { row, column, text } = said else {
            return;
        };
        let sheet = ScaleSheet::new(facts);
        let (Some(entry), Some(field)) = (entry_of(facts, row), sheet.fields.get(column))
        else {
            return;
        };
        match field.command(facts, entry, &text) {
            Ok(Some(what)) => self.waiting.push(Handed {
                row,
                columns: vec![column],
                what,
            }),
            Ok(None) => self.grid.settle(row, column),
            Err(sentence) => self.grid.refuse(row, column, sentence),
        }
    }
}
