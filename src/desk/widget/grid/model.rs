//! The model of the grid: what keys do, without a window.

use std::collections::BTreeMap;

use super::moves::{along, back, first_stop, next_row};
use super::sheet::{Enter, Sheet};

/// A key that means something to the grid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Key {
    /// Commits, and moves as [`Sheet::enter`] says.
    Enter,
    /// To the next cell that can be filled in.
    Tab,
    /// To the one before.
    BackTab,
    /// A row up.
    Up,
    /// A row down.
    Down,
    /// A cell to the left.
    Left,
    /// A cell to the right.
    Right,
    /// A screenful up.
    PageUp,
    /// A screenful down.
    PageDown,
    /// To the first cell of the row.
    Home,
    /// To the last cell of the row that can be filled in.
    End,
    /// To the first row.
    First,
    /// To the last row.
    Last,
    /// Drops the draft.
    Escape,
    /// Opens the cell's text for changes, or takes a character back.
    Backspace,
    /// Empties the cell.
    Delete,
    /// A character that is typed.
    Char(char),
}

/// What happened to the grid.
#[derive(Debug, Clone, PartialEq)]
pub enum Event {
    /// The cell in hand holds this text now.
    Typed(String),
    /// A key was pressed while so many rows were in sight.
    Pressed(Key, usize),
    /// A cell was clicked.
    Clicked(Spot),
    /// The wheel was turned, in rows.
    Turned(i32),
    /// Cells came from the clipboard: tabs part them, line ends part rows. A
    /// screen that takes them in sees to it itself; the grid only types what
    /// came into the cell in hand.
    Pasted(String),
}

/// A place in the grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Spot {
    /// Row, from 0.
    pub row: usize,
    /// Column, from 0.
    pub column: usize,
}

/// What was typed into a cell and isn't durable yet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Draft {
    /// The text.
    pub text: String,
    /// Why it was refused, as a sentence.
    pub refused: Option<String>,
    /// Whether it was kept back for a decision rather than refused.
    pub held: bool,
}

/// What the grid says to its screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said {
    /// A cell's draft is to be made durable.
    Cell {
        /// The row's name.
        row: u32,
        /// The column.
        column: usize,
        /// The text.
        text: String,
    },
    /// A row's drafts are to be made durable. `at` is the column in which
    /// Enter was pressed; `None` where the row was only left.
    Row {
        /// The row's name.
        row: u32,
        /// Where Enter was pressed.
        at: Option<usize>,
    },
    /// No row here is the one that was looked for.
    NotFound(String),
}

/// The cursor, the drafts and the refusals.
///
/// Limits: one cursor; drafts are kept until they are settled or dropped.
#[derive(Debug, Clone, Default)]
pub struct Grid {
    /// Where the cursor is.
    pub cursor: Spot,
    drafts: BTreeMap<(u32, usize), Draft>,
    finding: Option<String>,
    page: usize,
}

impl Grid {
    /// A grid with its cursor in the first cell.
    pub fn new() -> Self {
        Self {
            page: 12,
            ..Self::default()
        }
    }

    /// The draft of a cell.
    pub fn draft(&self, row: u32, column: usize) -> Option<&Draft> {
        self.drafts.get(&(row, column))
    }

    /// The drafts of a row, by column.
    pub fn drafts_of(&self, row: u32) -> impl Iterator<Item = (usize, &Draft)> {
        self.drafts
            .range((row, 0)..=(row, usize::MAX))
            .map(|((_, column), draft)| (*column, draft))
    }

    /// Whether anything typed isn't durable yet.
    pub fn has_drafts(&self) -> bool {
        !self.drafts.is_empty()
    }

    /// The first refusal of a row.
    pub fn refused(&self, row: u32) -> Option<&str> {
        self.drafts_of(row).find_map(|(_, d)| d.refused.as_deref())
    }

    /// What is being looked for.
    pub fn finding(&self) -> Option<&str> {
        self.finding.as_deref()
    }

    /// What is typed in the cell in hand, if anything is.
    pub fn in_hand<'a>(&'a self, sheet: &dyn Sheet) -> Option<&'a str> {
        if let Some(text) = &self.finding {
            return Some(text);
        }
        if self.cursor.row >= sheet.rows() {
            return None;
        }
        let draft = self.draft(sheet.key(self.cursor.row), self.cursor.column)?;
        Some(&draft.text)
    }

    /// Puts a text into a cell as if it had been typed.
    pub fn write(&mut self, row: u32, column: usize, text: impl Into<String>) {
        let draft = Draft {
            text: text.into(),
            ..Draft::default()
        };
        let _ = self.drafts.insert((row, column), draft);
    }

    /// What was typed in a cell is durable, or isn't wanted: forgets it.
    pub fn settle(&mut self, row: u32, column: usize) {
        let _ = self.drafts.remove(&(row, column));
    }

    /// Forgets a whole row's drafts.
    pub fn settle_row(&mut self, row: u32) {
        self.drafts.retain(|(key, _), _| *key != row);
    }

    /// What was typed in a cell is refused: the text stays, with the sentence.
    pub fn refuse(&mut self, row: u32, column: usize, sentence: impl Into<String>) {
        let draft = self.drafts.entry((row, column)).or_default();
        draft.refused = Some(sentence.into());
        draft.held = false;
    }

    /// What was typed in a cell waits for a decision: the text stays, with the
    /// sentence.
    pub fn hold(&mut self, row: u32, column: usize, sentence: impl Into<String>) {
        self.refuse(row, column, sentence);
        self.drafts.entry((row, column)).or_default().held = true;
    }

    /// The rows that have drafts, by name.
    pub fn rows_with_drafts(&self) -> Vec<u32> {
        let mut rows: Vec<u32> = self.drafts.keys().map(|(row, _)| *row).collect();
        rows.dedup();
        rows
    }

    /// Moves the cursor; what is being looked for is forgotten.
    pub fn go(&mut self, spot: Spot) {
        self.finding = None;
        self.cursor = spot;
    }

    /// Moves the cursor to a row while it is being looked for.
    pub fn point(&mut self, row: usize) {
        self.cursor.row = row;
    }

    /// Keeps the cursor inside the sheet.
    pub fn clamp(&mut self, sheet: &dyn Sheet) {
        self.cursor.row = self.cursor.row.min(sheet.rows().saturating_sub(1));
        let columns = sheet.columns().len();
        self.cursor.column = self.cursor.column.min(columns.saturating_sub(1));
    }

    /// Takes in what happened; what the screen has to do comes back, in order.
    pub fn update(&mut self, event: Event, sheet: &dyn Sheet) -> Vec<Said> {
        self.clamp(sheet);
        if sheet.rows() == 0 {
            return Vec::new();
        }
        match event {
            Event::Typed(text) => self.typed(text, sheet),
            Event::Pressed(key, page) => {
                if page > 0 {
                    self.page = page;
                }
                self.pressed(key, sheet)
            }
            Event::Clicked(spot) => self.leave_for(spot, None, sheet),
            Event::Pasted(text) => {
                let mut typed = self.in_hand(sheet).unwrap_or("").to_owned();
                typed.extend(text.chars().filter(|c| !c.is_control()));
                self.typed(typed, sheet)
            }
            Event::Turned(rows) => {
                let by = usize::try_from(rows.unsigned_abs()).unwrap_or(1);
                let spot = self.moved_rows(rows < 0, by, sheet);
                self.leave_for(spot, None, sheet)
            }
        }
    }

    fn typed(&mut self, text: String, sheet: &dyn Sheet) -> Vec<Said> {
        let Spot { row, column } = self.cursor;
        let cell = sheet.cell(row, column);
        if sheet.finder() == Some(column) && !cell.open {
            return self.find(text, sheet);
        }
        if !cell.open {
            return Vec::new();
        }
        if text == " " {
            return self.extend(sheet);
        }
        if let Some((own, rest)) = sheet
            .spill(row, column, &text)
            .and_then(|at| text.split_at_checked(at))
        {
            if !own.is_empty() {
                self.write(sheet.key(row), column, own);
            }
            let mut said = self.next_stop(sheet);
            if self.cursor != (Spot { row, column }) {
                said.extend(self.typed(rest.to_owned(), sheet));
            }
            return said;
        }
        let complete = sheet.complete(row, column, &text);
        self.write(sheet.key(row), column, text);
        if complete {
            return self.next_stop(sheet);
        }
        Vec::new()
    }

    /// Goes to the next cell that is to be filled in, in this row or below.
    fn next_stop(&mut self, sheet: &dyn Sheet) -> Vec<Said> {
        let from = self.cursor;
        match along(from, sheet) {
            Some(spot) => self.leave_for(spot, None, sheet),
            None => self.leave_for(next_row(from, sheet), Some(from.column), sheet),
        }
    }

    /// A blank at the beginning of a cell: goes on with the cell before, if
    /// the sheet says so.
    fn extend(&mut self, sheet: &dyn Sheet) -> Vec<Said> {
        let Spot { row, column } = self.cursor;
        let key = sheet.key(row);
        if let Some(before) = column.checked_sub(1)
            && let Some(draft) = self.draft(key, before)
            && sheet.extends(row, before, &draft.text)
        {
            let text = format!("{} ", draft.text);
            self.write(key, before, text);
            self.cursor.column = before;
        }
        Vec::new()
    }

    fn find(&mut self, text: String, sheet: &dyn Sheet) -> Vec<Said> {
        let row = (0..sheet.rows()).find(|row| sheet.found(*row, &text));
        match row {
            Some(row) if !text.is_empty() => self.cursor.row = row,
            _ => {}
        }
        self.finding = (!text.is_empty()).then_some(text);
        Vec::new()
    }

    fn pressed(&mut self, key: Key, sheet: &dyn Sheet) -> Vec<Said> {
        let Spot { row, column } = self.cursor;
        let last = sheet.rows() - 1;
        let spot = match key {
            Key::Enter => return self.enter(sheet),
            Key::Escape => return self.escape(sheet),
            Key::Backspace => {
                let text = match self.in_hand(sheet) {
                    Some(text) => {
                        let mut chars = text.chars();
                        let _ = chars.next_back();
                        chars.as_str().to_owned()
                    }
                    None => sheet.cell(row, column).text,
                };
                return self.rewrite(text, sheet);
            }
            Key::Delete => return self.rewrite(String::new(), sheet),
            Key::Char(c) => {
                let mut text = self.in_hand(sheet).unwrap_or("").to_owned();
                text.push(c);
                return self.typed(text, sheet);
            }
            Key::Tab => return self.next_stop(sheet),
            Key::BackTab => back(self.cursor, sheet).unwrap_or(self.cursor),
            Key::Up => self.moved_rows(true, 1, sheet),
            Key::Down => self.moved_rows(false, 1, sheet),
            Key::PageUp => self.moved_rows(true, self.page, sheet),
            Key::PageDown => self.moved_rows(false, self.page, sheet),
            Key::First => Spot { row: 0, column },
            Key::Last => Spot { row: last, column },
            Key::Left => Spot {
                row,
                column: column.saturating_sub(1),
            },
            Key::Right => Spot {
                row,
                column: (column + 1).min(sheet.columns().len() - 1),
            },
            Key::Home => Spot { row, column: 0 },
            Key::End => Spot {
                row,
                column: (0..sheet.columns().len())
                    .rev()
                    .find(|c| sheet.cell(row, *c).open)
                    .unwrap_or(column),
            },
        };
        self.leave_for(spot, None, sheet)
    }

    /// Replaces what is typed in the cell in hand, without moving on.
    fn rewrite(&mut self, text: String, sheet: &dyn Sheet) -> Vec<Said> {
        let Spot { row, column } = self.cursor;
        if sheet.cell(row, column).open {
            self.write(sheet.key(row), column, text);
            Vec::new()
        } else if self.finding.is_some() {
            self.find(text, sheet)
        } else {
            Vec::new()
        }
    }

    fn enter(&mut self, sheet: &dyn Sheet) -> Vec<Said> {
        let from = self.cursor;
        if let Some(text) = self.finding.take() {
            if !sheet.found(from.row, &text) {
                return vec![Said::NotFound(text)];
            }
            self.cursor = first_stop(from.row, sheet);
            return Vec::new();
        }
        let below = (from.row + 1).min(sheet.rows() - 1);
        let spot = match sheet.enter() {
            Enter::Down => Spot { row: below, ..from },
            Enter::Along => along(from, sheet).unwrap_or(next_row(from, sheet)),
            Enter::NextRow => next_row(from, sheet),
        };
        self.leave_for(spot, Some(from.column), sheet)
    }

    fn escape(&mut self, sheet: &dyn Sheet) -> Vec<Said> {
        if self.finding.take().is_none() {
            self.settle(sheet.key(self.cursor.row), self.cursor.column);
        }
        Vec::new()
    }

    fn moved_rows(&self, up: bool, by: usize, sheet: &dyn Sheet) -> Spot {
        let row = if up {
            self.cursor.row.saturating_sub(by)
        } else {
            (self.cursor.row + by).min(sheet.rows() - 1)
        };
        Spot { row, ..self.cursor }
    }

    /// Goes to `spot` and hands in what is left behind.
    fn leave_for(
        &mut self,
        spot: Spot,
        enter_at: Option<usize>,
        sheet: &dyn Sheet,
    ) -> Vec<Said> {
        let from = self.cursor;
        let key = sheet.key(from.row);
        self.go(spot);
        self.clamp(sheet);
        let entered = enter_at.is_some();
        if sheet.whole_row(from.row) {
            let left = self.cursor.row != from.row;
            if (left || entered) && self.drafts_of(key).next().is_some() {
                return vec![Said::Row {
                    row: key,
                    at: enter_at,
                }];
            }
            return Vec::new();
        }
        match self.draft(key, from.column) {
            Some(draft) if self.cursor != from || entered => vec![Said::Cell {
                row: key,
                column: from.column,
                text: draft.text.clone(),
            }],
            _ => Vec::new(),
        }
    }
}
