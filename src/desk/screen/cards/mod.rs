//! The card grid: finished rack cards, typed like a spreadsheet.
//!
//! One card at a time, a flight in a slot. A load, then a letter for its
//! ruling; the cursor moves on by itself, and a row that is left or ended by
//! Enter is handed in, one act an attempt. What is refused stays typed, with
//! the sentence at its cell.

mod card;
mod read;
mod sheet;
#[cfg(test)]
mod tests;
mod view;

use iced::Task;
use iced::keyboard::Key as Pressed;
use iced::keyboard::key::Named;

use crate::day::{Command, Facts};
use crate::desk::keys::Press;
use crate::desk::screen::Out;
use crate::desk::widget::grid::{
    self, Event, Grid, Handed, Key, Said, Sheet, Spot, Waiting,
};
use crate::lift::Slug;
use crate::roster::Entry;

pub use card::{CardId, Count};
use sheet::CardSheet;

/// The name of the card grid's text field.
pub const FIELD: &str = "cards-cell";

/// What happens on the card grid.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something happened to the grid.
    Grid(Event),
    /// To another flight's card: so many on, in the order of the flights.
    Flight(isize),
    /// To the same flight's card of another slot.
    Slot(isize),
    /// To a card that was clicked.
    Open(CardId),
    /// The next act that waits is to be handed in.
    Next,
}

/// The card grid.
#[derive(Debug, Clone, Default)]
pub struct Cards {
    grid: Grid,
    card: Option<CardId>,
    waiting: Waiting<Command>,
}

impl Cards {
    /// The card grid with no card in hand yet.
    pub fn new() -> Self {
        Self {
            grid: Grid::new(),
            ..Self::default()
        }
    }

    /// To be called when the screen is shown: gives the keyboard to the cell
    /// in hand.
    pub fn shown(&mut self, facts: &Facts) -> Task<Message> {
        self.settle_card(facts);
        grid::focus(FIELD)
    }

    /// The card in hand.
    pub fn card(&self) -> Option<&CardId> {
        self.card.as_ref()
    }

    /// The athlete and the slot of the row in hand.
    pub fn in_hand<'a>(&self, facts: &'a Facts) -> Option<(&'a Entry, Slug)> {
        let card = self.card.as_ref()?;
        let entries = card::entries(facts, card);
        let entry = entries.get(self.grid.cursor.row)?;
        let entry = facts.entries.get(&entry.key)?;
        Some((entry, card.slot.clone()))
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
        self.settle_card(facts);
        match message {
            Message::Grid(Event::Pressed(Key::PageDown, _)) => self.turn_flight(1, facts),
            Message::Grid(Event::Pressed(Key::PageUp, _)) => self.turn_flight(-1, facts),
            Message::Grid(event) => {
                let Some(card) = self.card.clone() else {
                    return (Task::none(), None);
                };
                let sheet = CardSheet::new(facts, &card);
                let clicked = matches!(event, Event::Clicked(_));
                let said = self.grid.update(event, &sheet);
                for said in said {
                    self.said(said, facts);
                }
                let task = if clicked {
                    grid::focus(FIELD)
                } else {
                    Task::none()
                };
                return (task, self.next());
            }
            Message::Flight(by) => self.turn_flight(by, facts),
            Message::Slot(by) => self.turn_slot(by, facts),
            Message::Open(card) => self.open(card, facts),
            Message::Next => {}
        }
        (grid::focus(FIELD), self.next())
    }

    /// A key that no text field has taken.
    pub fn key(&mut self, press: &Press, _facts: &Facts) -> Option<Message> {
        let control = press.modifiers.command() || press.modifiers.control();
        match &press.key {
            Pressed::Named(Named::PageDown) if control => Some(Message::Slot(1)),
            Pressed::Named(Named::PageUp) if control => Some(Message::Slot(-1)),
            key => {
                let key = grid::key_of(key, press.modifiers)?;
                let idle = key == Key::Escape && !self.grid.has_drafts();
                (!idle).then_some(Message::Grid(Event::Pressed(key, 0)))
            }
        }
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
        match said {
            Said::Row { row, at } => self.hand_in(row, at, facts),
            Said::Cell { .. } => {}
            Said::NotFound(text) => self.find_elsewhere(&text, facts),
        }
    }

    /// Puts a row's acts in the line of those that wait.
    fn hand_in(&mut self, row: u32, at: Option<usize>, facts: &Facts) {
        let Some((entry, slot)) = sheet::row_of(facts, row) else {
            return;
        };
        let typed = |column: usize| self.grid.draft(row, column).map(|d| d.text.clone());
        let read = read::read_row(facts, entry, slot, &typed, at);
        for step in read.steps {
            let column = read::load_column(step.attempt);
            self.waiting.push(Handed {
                row,
                columns: vec![column, column + 1],
                what: step.command,
            });
        }
        for (column, sentence) in read.faults {
            self.grid.refuse(row, column, sentence);
        }
        // A cell that was only emptied holds nothing to hand in.
        let blank: Vec<usize> = self
            .grid
            .drafts_of(row)
            .filter(|(_, d)| d.text.trim().is_empty() && d.refused.is_none())
            .map(|(column, _)| column)
            .collect();
        for column in blank {
            self.grid.settle(row, column);
        }
    }

    fn next(&mut self) -> Option<Out> {
        self.waiting.send().map(Out::Submit)
    }

    /// Takes up a card if there is none, or if its flight has gone.
    fn settle_card(&mut self, facts: &Facts) {
        let gone = self.card.as_ref().is_none_or(|card| {
            facts.slot(card.slot.as_str()).is_none()
                || facts
                    .entries_of(&card.session, &card.flight)
                    .next()
                    .is_none()
        });
        if gone && let Some(card) = card::first(facts) {
            self.take_up(card, facts);
        }
    }

    fn take_up(&mut self, card: CardId, facts: &Facts) {
        let sheet = CardSheet::new(facts, &card);
        let row = (0..sheet.rows()).find(|row| {
            (0..sheet.columns().len()).any(|column| sheet.cell(*row, column).stop)
        });
        let row = row.unwrap_or(0);
        let column = (0..sheet.columns().len())
            .find(|c| sheet.rows() > 0 && sheet.cell(row, *c).stop)
            .unwrap_or_else(sheet::first_column);
        self.grid.go(Spot { row, column });
        self.card = Some(card);
    }

    /// Turns to another card; the row in hand is handed in first.
    fn open(&mut self, to: CardId, facts: &Facts) {
        if let Some(card) = self.card.clone() {
            let sheet = CardSheet::new(facts, &card);
            if self.grid.cursor.row < sheet.rows() {
                let row = sheet.key(self.grid.cursor.row);
                self.hand_in(row, None, facts);
            }
        }
        self.take_up(to, facts);
    }

    fn turn_flight(&mut self, by: isize, facts: &Facts) {
        let Some(card) = self.card.clone() else {
            return;
        };
        let flights = card::flights(facts);
        let now = flights
            .iter()
            .position(|(s, f)| *s == card.session && *f == card.flight);
        if let Some((session, flight)) = turned(&flights, now, by) {
            let to = CardId {
                session: session.clone(),
                flight: flight.clone(),
                slot: card.slot,
            };
            self.open(to, facts);
        }
    }

    fn turn_slot(&mut self, by: isize, facts: &Facts) {
        let Some(card) = self.card.clone() else {
            return;
        };
        let now = facts.slots.iter().position(|l| l.slot == card.slot);
        if let Some(line) = turned(&facts.slots, now, by) {
            let slot = line.slot.clone();
            self.open(CardId { slot, ..card }, facts);
        }
    }

    fn find_elsewhere(&mut self, text: &str, facts: &Facts) {
        let Some(card) = self.card.clone() else {
            return;
        };
        let found = text
            .trim()
            .parse::<u16>()
            .ok()
            .and_then(|number| facts.entry_by_number(number));
        let Some(entry) = found else { return };
        let number = entry.number;
        let to = CardId {
            session: entry.session.clone(),
            flight: entry.flight.clone(),
            slot: card.slot,
        };
        self.open(to.clone(), facts);
        let sheet = CardSheet::new(facts, &to);
        if let Some(row) = sheet.row_of_number(number) {
            let column = (0..sheet.columns().len()).find(|c| sheet.cell(row, *c).stop);
            self.grid.go(Spot {
                row,
                column: column.unwrap_or_else(sheet::first_column),
            });
        }
    }
}

/// The one that is `by` further on, round the end.
fn turned<T>(list: &[T], now: Option<usize>, by: isize) -> Option<&T> {
    let many = isize::try_from(list.len()).ok().filter(|n| *n > 0)?;
    let now = now.and_then(|n| isize::try_from(n).ok()).unwrap_or(0);
    let at = usize::try_from((now + by).rem_euclid(many)).ok()?;
    list.get(at)
}
