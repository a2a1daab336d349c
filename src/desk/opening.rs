//! How the desk comes from the first screen to a day.

use std::path::Path;

use iced::Task;

use super::action::{Action, label};
use super::app::{Desk, Message};
use super::screen::ScreenId;
use super::screen::cards::Cards;
use super::screen::day::DayScreen;
use super::screen::first;
use super::screen::flights::Flights;
use super::screen::journal::Journal;
use super::screen::roster::Roster;
use super::screen::scale::Scale;
use super::screen::standings::Standings;
use super::screen::table::Table;
use crate::day::Facts;

impl Desk {
    pub(super) fn at_first(&mut self, message: first::Message) -> Task<Message> {
        let Some(ask) = self.first.update(message) else {
            return self.first.focus();
        };
        self.at_first_asked(ask)
    }

    /// Does what the first screen asks.
    pub(super) fn at_first_asked(&mut self, ask: first::Ask) -> Task<Message> {
        let made = matches!(ask, first::Ask::Make { .. });
        let done = match ask {
            first::Ask::Open(path) => self.effects.open(&path),
            first::Ask::Make { path, wish, like } => {
                self.effects.begin(path.as_deref(), &wish, like.as_deref())
            }
            first::Ask::Sample(sample) => self.effects.sample(sample),
            first::Ask::Restore(backup) => {
                let restored = self.effects.restore(&backup);
                let task = self.opened(restored.clone().map(drop));
                if restored.is_ok() {
                    self.say(restored);
                }
                return task;
            }
        };
        let made = made && done.is_ok();
        let task = self.opened(done);
        if let Some(path) = self.effects.path().filter(|_| made) {
            let day = label(Action::Show(ScreenId::Day));
            self.said = Some(Ok(format!(
                "The day is made and kept in {}. {day} has its settings.",
                path.display()
            )));
        }
        task
    }

    pub(super) fn open(&mut self, path: &Path) -> Task<Message> {
        let done = self.effects.open(path);
        self.opened(done)
    }

    /// After a day was opened, or wasn't.
    pub(super) fn opened(&mut self, done: Result<(), String>) -> Task<Message> {
        self.first.answered(done.clone());
        if let Err(sentence) = done {
            // The first screen says it at the field in hand.
            if self.screen.is_some() {
                self.say(Err(sentence));
            }
            return self.focus();
        }
        self.said = None;
        self.sheet = None;
        self.table = Table::new();
        self.day = DayScreen::new();
        self.roster = Roster::new();
        self.scale = Scale::new();
        self.flights = Flights::new();
        self.cards = Cards::new();
        self.standings = Standings::new();
        self.journal = Journal::new();
        self.platform = self.first_platform();
        let screen = opening(self.facts());
        self.show(screen)
    }

    /// The first platform on which something runs or has a flight.
    pub(super) fn first_platform(&self) -> u8 {
        let facts = self.facts();
        let runs = (1..).zip(&facts.platforms).find(|(_, p)| p.call.is_some());
        let runs = runs.or_else(|| {
            (1..)
                .zip(&facts.platforms)
                .find(|(_, p)| p.running.is_some())
        });
        runs.map(|(n, _)| n)
            .or_else(|| facts.flights.iter().map(|f| f.platform).min())
            .unwrap_or(1)
    }
}

/// The screen that a day opens with: where nobody is entered, the roster.
pub(super) fn opening(facts: &Facts) -> ScreenId {
    if facts.entries.is_empty() {
        ScreenId::Roster
    } else {
        ScreenId::Table
    }
}
