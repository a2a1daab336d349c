//! The card grid: finished rack cards, typed like a spreadsheet.
//!
//! One card at a time, a flight in a slot. A load, then a letter for its
//! ruling; the cursor moves on by itself, and a row that is left or ended by
//! Enter is handed in, one act an attempt. What is refused stays typed, with
//! the sentence at its cell. What differs from what stands is compared before
//! it corrects anything; pasted cells are recorded all at once.

mod card;
mod compare;
mod hand_in;
mod lay;
mod list;
mod paste;
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
use crate::desk::widget::grid::{self, Event, Grid, Key, Sheet, Spot, Waiting};
use crate::lift::Slug;
use crate::roster::Entry;

pub use card::{CardId, Count};
use compare::Compare;
use paste::Pasted;
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
    /// The list of all cards, or back to the card.
    List,
    /// What differs from what stands, or back to the card.
    Compare,
    /// On or back in a list; ten is a page.
    Moved(i32),
    /// Enter in a list.
    Entered,
    /// What stands is kept; what the card says is dropped.
    Keep,
    /// What stands is corrected to what the card says.
    Correct,
    /// Back to the card.
    Leave,
}

/// What is shown of the cards.
#[derive(Debug, Clone, Default)]
enum Open {
    /// One card.
    #[default]
    Card,
    /// All cards, with one in hand.
    List(usize),
    /// What differs from what stands.
    Compare(Box<Compare>),
}

/// The card grid.
#[derive(Debug, Clone, Default)]
pub struct Cards {
    grid: Grid,
    card: Option<CardId>,
    waiting: Waiting<Command>,
    open: Open,
    /// Pasted cells that aren't recorded yet.
    pasted: Option<Pasted>,
    /// What was said last, over the line that says what Enter does.
    said: Option<Result<String, String>>,
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

    /// What differs from what stands, on all cards.
    pub fn differing(&self, facts: &Facts) -> usize {
        compare::cases(facts, &self.grid).len()
    }

    /// Takes in what happened.
    pub fn update(
        &mut self,
        message: Message,
        facts: &Facts,
    ) -> (Task<Message>, Option<Out>) {
        self.settle_card(facts);
        if !matches!(message, Message::Next) {
            self.said = None;
        }
        if self.pasted.is_some() && !matches!(message, Message::Next) {
            return self.with_pasted(message, facts);
        }
        match message {
            Message::Grid(Event::Pressed(Key::PageDown, _)) => self.turn_flight(1, facts),
            Message::Grid(Event::Pressed(Key::PageUp, _)) => self.turn_flight(-1, facts),
            Message::Grid(Event::Pasted(text)) => self.paste(&text, facts),
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
            Message::List => self.turn_list(facts),
            Message::Compare => self.turn_compare(facts),
            Message::Moved(by) => self.moved(by, facts),
            Message::Entered => self.entered(facts),
            Message::Keep => self.keep(facts),
            Message::Correct => self.correct(facts),
            Message::Leave => self.open = Open::Card,
        }
        (grid::focus(FIELD), self.next())
    }

    /// A key that no text field has taken.
    pub fn key(&mut self, press: &Press, _facts: &Facts) -> Option<Message> {
        let control = press.modifiers.command() || press.modifiers.control();
        if !matches!(self.open, Open::Card) {
            return self.key_in_list(press);
        }
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

    /// A key in the list of cards, or beside what differs.
    fn key_in_list(&self, press: &Press) -> Option<Message> {
        let comparing = matches!(self.open, Open::Compare(_));
        let moves = [
            (Named::ArrowUp, -1),
            (Named::ArrowDown, 1),
            (Named::PageUp, -10),
            (Named::PageDown, 10),
        ];
        if let Some((_, by)) = moves.iter().find(|(named, _)| press.is(*named)) {
            return Some(Message::Moved(*by));
        }
        if press.is(Named::Escape) {
            return Some(Message::Leave);
        }
        if press.is(Named::Enter) && !comparing {
            return Some(Message::Entered);
        }
        match press.typed()?.to_lowercase().as_str() {
            "k" if comparing => Some(Message::Keep),
            "c" if comparing => Some(Message::Correct),
            _ => None,
        }
    }

    /// The answer to the act that was handed in last.
    pub fn answered(
        &mut self,
        answer: Result<(), String>,
        facts: &Facts,
    ) -> Task<Message> {
        let _ = self.waiting.answered(&answer, &mut self.grid);
        if let (Open::Compare(_), Err(sentence)) = (&self.open, answer) {
            self.said = Some(Err(sentence));
        }
        let back = self.settle_compare(facts);
        Task::batch([back, grid::go_on(&self.waiting, Message::Next)])
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
        self.open = Open::Card;
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
        self.hand_in_row_in_hand(facts);
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
