//! Flights: a proposal for a session, accepted as one act, then put right by
//! hand.
//!
//! One line asks for the proposal and shows it as it is typed; Enter accepts.
//! By hand, a flight's name is typed beside an athlete.

mod plan;
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
use crate::desk::screen::roster::entry_of;
use crate::desk::widget::grid::{self, Event, Grid, Handed, Key, Said, Spot, Waiting};

use sheet::FlightSheet;

/// The name of the cell in hand.
pub const FIELD: &str = "flights-cell";
/// The name of the line that asks for a proposal.
pub const PLAN: &str = "flights-plan";

/// What happens on the screen of flights.
#[derive(Debug, Clone)]
pub enum Message {
    /// Something happened to the grid.
    Grid(Event),
    /// The next act that waits is to be handed in.
    Next,
    /// The line of the proposal holds this text now.
    PlanTyped(String),
    /// The proposal is accepted.
    Accepted,
    /// The other of proposal and grid is in hand.
    Turned,
}

/// The screen of flights.
#[derive(Debug, Clone, Default)]
pub struct Flights {
    grid: Grid,
    waiting: Waiting<Command>,
    /// What was typed for a proposal; `None` before anything was.
    plan: Option<String>,
    by_hand: bool,
    /// It was shown already, so it stays as it was left.
    seen: bool,
    accepting: bool,
    /// It was said that the session has begun; the next Enter moves all the same.
    warned: bool,
    refused: Option<String>,
}

impl Flights {
    /// The screen with its proposal in hand.
    pub fn new() -> Self {
        let mut grid = Grid::new();
        grid.go(Spot {
            row: 0,
            column: sheet::flight_column(),
        });
        Self {
            grid,
            ..Self::default()
        }
    }

    /// To be called when the screen is shown.
    ///
    /// The first time the proposal is in hand, but where everybody has a
    /// flight already the flights are.
    pub fn shown(&mut self, facts: &Facts) -> Task<Message> {
        if !self.seen && !facts.entries.is_empty() {
            self.seen = true;
            self.by_hand = facts.entries.values().all(|e| !e.flight.is_empty());
        }
        self.focus()
    }

    /// Whether anything typed isn't durable yet.
    pub fn has_drafts(&self) -> bool {
        self.grid.has_drafts()
    }

    fn focus(&self) -> Task<Message> {
        grid::focus(if self.by_hand { FIELD } else { PLAN })
    }

    fn plan_text(&self, facts: &Facts) -> String {
        self.plan.clone().unwrap_or_else(|| plan::usual(facts))
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
                if matches!(event, Event::Pressed(_, 0) | Event::Clicked(_)) {
                    task = grid::focus(FIELD);
                }
                let sheet = FlightSheet::new(facts);
                for said in self.grid.update(event, &sheet) {
                    self.said(said, facts);
                }
            }
            Message::Next => {}
            Message::PlanTyped(text) => {
                self.refused = None;
                self.warned = false;
                self.plan = Some(text);
            }
            Message::Accepted => {
                let accepted =
                    plan::read_plan(facts, &self.plan_text(facts)).and_then(|plan| {
                        let proposal = plan.propose(facts);
                        let command = plan.accept(facts, &proposal)?;
                        if self.warned {
                            return Ok(command);
                        }
                        match plan.begun(facts, &proposal) {
                            Some(sentence) => {
                                self.warned = true;
                                Err(sentence)
                            }
                            None => Ok(command),
                        }
                    });
                match accepted {
                    Ok(command) if self.waiting.is_empty() && !self.accepting => {
                        self.accepting = true;
                        self.warned = false;
                        return (task, Some(Out::Submit(command)));
                    }
                    Ok(_) => {}
                    Err(sentence) => self.refused = Some(sentence),
                }
            }
            Message::Turned => {
                self.by_hand = !self.by_hand;
                self.warned = false;
                self.refused = None;
                task = self.focus();
            }
        }
        if self.accepting {
            return (task, None);
        }
        (task, self.waiting.send().map(Out::Submit))
    }

    /// A key that no text field has taken.
    pub fn key(&mut self, press: &Press, _facts: &Facts) -> Option<Message> {
        let command = press.modifiers.command() || press.modifiers.control();
        if let Pressed::Character(letter) = &press.key
            && command
            && letter.eq_ignore_ascii_case("f")
        {
            return Some(Message::Turned);
        }
        if !self.by_hand {
            let on = matches!(
                press.key,
                Pressed::Named(Named::Tab | Named::ArrowDown | Named::PageDown)
            );
            return on.then_some(Message::Turned);
        }
        let key = grid::key_of(&press.key, press.modifiers)?;
        if key == Key::Escape && !self.grid.has_drafts() && self.grid.finding().is_none()
        {
            return Some(Message::Turned);
        }
        Some(Message::Grid(Event::Pressed(key, 0)))
    }

    /// The answer to the act that was handed in last.
    pub fn answered(
        &mut self,
        answer: Result<(), String>,
        _facts: &Facts,
    ) -> Task<Message> {
        if self.accepting {
            self.accepting = false;
            match answer {
                Ok(()) => {
                    self.refused = None;
                    self.by_hand = true;
                }
                Err(sentence) => self.refused = Some(sentence),
            }
            return self.focus();
        }
        let _ = self.waiting.answered(&answer, &mut self.grid);
        grid::go_on(&self.waiting, Message::Next)
    }

    fn said(&mut self, said: Said, facts: &Facts) {
        let Said::Cell { row, column, text } = said else {
            return;
        };
        let Some(entry) = entry_of(facts, row) else {
            return;
        };
        match sheet::command(facts, entry, column, &text) {
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
