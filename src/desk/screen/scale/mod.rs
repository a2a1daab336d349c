//! The scale: weigh-in, openers, clearances and set-ups.
//!
//! An athlete is found by a lot or the beginning of a name. Enter on the
//! bodyweight goes to what is still owed, else to the openers, which it
//! confirms; then the next athlete is looked for.

mod edge;
mod fields;
mod find;
mod hand;
mod line;
mod owed;
mod panel;
mod sheet;
#[cfg(test)]
mod tests;
mod view;

use iced::Task;

use crate::day::{Command, Day, Facts};
use crate::desk::call_line::finished_signed;
use crate::desk::keys::Press;
use crate::desk::screen::Out;
use crate::desk::screen::roster::entry_of;
use crate::desk::widget::grid::{
    self, Event, Grid, Handed, Key, Said, Sheet, Spot, Waiting,
};

use find::Found;
use owed::{after, next_owing, next_to_weigh, to_weigh};
use sheet::ScaleSheet;

/// The name of the scale's cell.
pub const FIELD: &str = "scale-cell";
/// The column in which athletes are looked for.
const FINDER: usize = 0;

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
    /// The row that was chosen among those who may be meant.
    chosen: Option<usize>,
    /// The row from which somebody is being looked for.
    from: Option<usize>,
    /// Who was in hand last, by the entry's lasting name.
    last: Option<u32>,
}

/// Whether no cell behind this one is to be filled in.
fn is_last(at: Spot, sheet: &ScaleSheet<'_>) -> bool {
    (at.column + 1..sheet.columns().len()).all(|c| !sheet.cell(at.row, c).stop)
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
            let sheet = ScaleSheet::new(facts);
            if sheet.rows() > 0 {
                self.grid.clamp(&sheet);
                self.take(event, &sheet, facts);
            }
        }
        (task, self.waiting.send().map(Out::Submit))
    }

    /// Tab finishes who signs or why, where that is begun in a cell; else it goes
    /// on, as the message says.
    pub fn finishing(&self, message: Message, day: &Day) -> Message {
        let sheet = ScaleSheet::new(day.facts());
        let Message::Grid(Event::Pressed(Key::Tab, _)) = &message else {
            return message;
        };
        if sheet.rows() == 0 {
            return message;
        }
        let key = sheet.key(self.grid.cursor.row.min(sheet.rows() - 1));
        let draft = self.grid.draft(key, self.grid.cursor.column);
        let finished =
            draft.and_then(|d| finished_signed(&d.text, day).into_iter().next());
        match finished {
            Some(text) => Message::Grid(Event::Typed(text)),
            None => message,
        }
    }

    fn take(&mut self, event: Event, sheet: &ScaleSheet<'_>, facts: &Facts) {
        let at = self.grid.cursor;
        let looking = self.grid.finding().map(str::to_owned);
        match (&event, looking.as_deref()) {
            (Event::Pressed(Key::Enter | Key::Tab, _), Some(text)) => {
                if let Some(row) = self.meant(sheet, text) {
                    self.take_in_hand(row, sheet);
                }
            }
            (Event::Pressed(Key::Enter, _), None) if at.column == FINDER => {
                if let Some(row) = self.next(sheet) {
                    self.take_in_hand(row, sheet);
                } else if let Some((row, column)) = self.owing(facts, sheet) {
                    self.grid.go(Spot { row, column });
                }
            }
            (Event::Pressed(Key::Enter, _), None) => self.enter(event, sheet, facts),
            // Tab never goes on to somebody who wasn't looked for.
            (Event::Pressed(Key::Tab, _), None) if is_last(at, sheet) => {
                self.enter(event, sheet, facts);
            }
            (Event::Pressed(Key::Up | Key::Down, _), Some(text)) => {
                let up = matches!(event, Event::Pressed(Key::Up, _));
                self.choose(up, sheet, text);
            }
            (Event::Pressed(Key::Escape, _), None) if self.is_idle(sheet) => {
                self.look(at.row);
            }
            _ => {
                // Where nothing can be typed, typing looks for an athlete.
                let typing =
                    matches!(event, Event::Typed(_) | Event::Pressed(Key::Char(_), _));
                if typing && !sheet.cell(at.row, at.column).open {
                    self.grid.cursor.column = FINDER;
                }
                let moves = !typing
                    && !matches!(
                        event,
                        Event::Pressed(Key::Escape | Key::Backspace | Key::Delete, _)
                    );
                self.say_all(event, sheet, facts);
                if moves {
                    self.from = None;
                }
                self.point(sheet, self.from.unwrap_or(at.row));
            }
        }
        if self.grid.cursor.column != FINDER {
            self.last = Some(sheet.key(self.grid.cursor.row));
        }
    }

    fn say_all(&mut self, event: Event, sheet: &ScaleSheet<'_>, facts: &Facts) {
        for said in self.grid.update(event, sheet) {
            self.said(said, facts);
        }
    }

    /// Enter in a cell: takes what is typed and goes on; what can't be read
    /// stays in hand.
    fn enter(&mut self, event: Event, sheet: &ScaleSheet<'_>, facts: &Facts) {
        let at = self.grid.cursor;
        let key = sheet.key(at.row);
        let typed = self.grid.draft(key, at.column).is_some();
        self.say_all(event, sheet, facts);
        let refused = self.grid.draft(key, at.column);
        if refused.is_some_and(|d| d.refused.is_some()) {
            self.grid.go(at);
            return;
        }
        let on = entry_of(facts, key)
            .and_then(|entry| after(facts, entry, &sheet.fields, at.column, typed));
        match on {
            Some(column) => self.grid.go(Spot { column, ..at }),
            None => self.look(at.row),
        }
    }

    /// Looks for the next athlete, with nothing typed yet.
    fn look(&mut self, row: usize) {
        self.chosen = None;
        self.grid.go(Spot {
            row,
            column: FINDER,
        });
    }

    fn take_in_hand(&mut self, row: usize, sheet: &ScaleSheet<'_>) {
        (self.chosen, self.from) = (None, None);
        let stop = (0..sheet.columns().len()).find(|c| sheet.cell(row, *c).stop);
        self.grid.go(Spot {
            row,
            column: stop.unwrap_or(FINDER),
        });
    }

    /// Moves the choice among those who may be meant.
    fn choose(&mut self, up: bool, sheet: &ScaleSheet<'_>, text: &str) {
        let Found::Several(rows) = sheet.find(text) else {
            return;
        };
        let now = self.chosen.and_then(|c| rows.iter().position(|r| *r == c));
        let to = match (now, up) {
            (None, _) => 0,
            (Some(at), true) => at.saturating_sub(1),
            (Some(at), false) => (at + 1).min(rows.len() - 1),
        };
        self.chosen = rows.get(to).copied();
        self.grid.point(rows[to]);
    }

    /// After something was typed to look for: the choice is open again, and
    /// the row in hand is the first that may be meant, or the one `from` which
    /// the search began.
    fn point(&mut self, sheet: &ScaleSheet<'_>, from: usize) {
        self.chosen = None;
        let Some(text) = self.grid.finding() else {
            if self.from.take().is_some() && self.grid.cursor.column == FINDER {
                self.grid.point(from);
            }
            return;
        };
        self.from = Some(from);
        self.grid.point(match sheet.find(text) {
            Found::One(row) => row,
            Found::Several(rows) => rows.first().copied().unwrap_or(from),
            Found::Nobody => from,
        });
    }

    /// The row that is meant by what is looked for, if it is certain.
    fn meant(&self, sheet: &ScaleSheet<'_>, text: &str) -> Option<usize> {
        match sheet.find(text) {
            Found::One(row) => Some(row),
            Found::Several(rows) => self.chosen.filter(|c| rows.contains(c)),
            Found::Nobody => None,
        }
    }

    /// To whom Enter goes while nothing is typed to look for: to the one to
    /// whose row the cursor was moved, else to the next who is to be weighed.
    fn next(&self, sheet: &ScaleSheet<'_>) -> Option<usize> {
        let row = self.grid.cursor.row;
        let fresh = match self.last {
            None => row > 0 || sheet.entries().first().is_some_and(|e| to_weigh(e)),
            Some(key) => sheet.key(row) != key,
        };
        if fresh {
            return Some(row);
        }
        next_to_weigh(sheet.entries(), row)
    }

    /// To whom Enter goes once all are weighed: the next who owes anything.
    fn owing(&self, facts: &Facts, sheet: &ScaleSheet<'_>) -> Option<(usize, usize)> {
        let row = self.grid.cursor.row;
        next_owing(facts, sheet.entries(), &sheet.fields, row)
    }

    /// Whether Escape has nothing to drop in the cell in hand, and the cursor
    /// isn't where athletes are looked for.
    fn is_idle(&self, sheet: &ScaleSheet<'_>) -> bool {
        let at = self.grid.cursor;
        at.column != FINDER && self.grid.draft(sheet.key(at.row), at.column).is_none()
    }

    /// Whether what is looked for is nobody.
    fn lost(&self, facts: &Facts) -> bool {
        let sheet = ScaleSheet::new(facts);
        let looking = self.grid.finding();
        looking.is_some_and(|text| sheet.find(text) == Found::Nobody)
    }

    /// A key that no text field has taken.
    pub fn key(&mut self, press: &Press, _facts: &Facts) -> Option<Message> {
        let key = grid::key_of(&press.key, press.modifiers)?;
        let idle = key == Key::Escape
            && !self.grid.has_drafts()
            && self.grid.finding().is_none()
            && self.grid.cursor.column == FINDER;
        let held = press.repeat && key == Key::Enter;
        (!idle && !held).then_some(Message::Grid(Event::Pressed(key, 0)))
    }

    /// The answer to the act that was handed in last; what is refused is in
    /// hand again, unless somebody else is being looked for by now.
    pub fn answered(
        &mut self,
        answer: Result<(), String>,
        facts: &Facts,
    ) -> Task<Message> {
        let sent = self.waiting.answered(&answer, &mut self.grid);
        if let (Err(_), Some(sent)) = (&answer, sent)
            && self.grid.finding().is_none()
        {
            let sheet = ScaleSheet::new(facts);
            let row = (0..sheet.rows()).find(|row| sheet.key(*row) == sent.row);
            if let (Some(row), Some(column)) = (row, sent.columns.first()) {
                self.last = Some(sent.row);
                self.grid.go(Spot {
                    row,
                    column: *column,
                });
            }
        }
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
