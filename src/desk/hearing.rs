//! What the desk listens to, and how its windows are dressed.

use std::path::PathBuf;
use std::time::Duration;

use iced::keyboard::{self, Key, key::Named};
use iced::widget::{operation, scrollable};
use iced::{Event, Subscription, Task, Theme, event, window};

use super::app::{Desk, Message};
use super::effects::Effects;
use super::keys::Press;
use super::screen::ScreenId;
use super::screen::day::Book;
use super::view::HELP;
use super::work::{LARGE_ROSTER, Work};
use super::{action, keys, see, theme};

impl Desk {
    pub(super) fn pressed(&mut self, id: window::Id, press: &Press) -> Task<Message> {
        if press.is_held_only() {
            return Task::none();
        }
        if let Some(action) = action::of_press(press, self.screen) {
            // A key that is held down does nothing twice.
            if press.repeat {
                return Task::none();
            }
            return self.act(action, Some(id));
        }
        if self.windows.board_in(id).is_some() {
            return Task::none();
        }
        self.armed = None;
        if self.sheet.is_some() {
            return scroll_help(press);
        }
        let facts = self.effects.facts();
        let message = match self.screen {
            None => self.first.key(press).map(Message::First),
            Some(ScreenId::Day) => self.day.key(press, facts).map(Message::Day),
            Some(ScreenId::Table) => self.table.key(press).map(Message::Table),
            Some(ScreenId::Cards) => self.cards.key(press, facts).map(Message::Cards),
            Some(ScreenId::Standings) => {
                self.standings.key(press).map(Message::Standings)
            }
            Some(ScreenId::Papers) => self.papers.key(press).map(Message::Papers),
            Some(ScreenId::Journal) => self.journal.key(press).map(Message::Journal),
            Some(ScreenId::Roster) => self.roster.key(press, facts).map(Message::Roster),
            Some(ScreenId::Scale) => self.scale.key(press, facts).map(Message::Scale),
            Some(ScreenId::Flights) => {
                self.flights.key(press, facts).map(Message::Flights)
            }
        };
        let Some(message) = message else {
            return Task::none();
        };
        // The grids keep the keyboard where they want it.
        let grid = matches!(
            self.screen,
            Some(
                ScreenId::Cards | ScreenId::Roster | ScreenId::Scale | ScreenId::Flights
            )
        );
        let task = self.dispatch(message);
        if grid {
            task
        } else {
            Task::batch([task, self.focus()])
        }
    }

    /// A file was dropped: a day is opened, a picture is the school's, a record book
    /// is taken in, anything else is a roster.
    pub(super) fn dropped(&mut self, path: PathBuf) -> Task<Message> {
        let day = path
            .extension()
            .is_some_and(|e| e.eq_ignore_ascii_case(crate::file::EXTENSION));
        if day || !self.effects.is_open() {
            return self.open(&path);
        }
        if Effects::is_book(&path) {
            let shown = self.show(ScreenId::Day);
            self.day.dropped(path);
            self.book();
            return shown;
        }
        let ends = |end: &str| {
            path.extension()
                .is_some_and(|e| e.eq_ignore_ascii_case(end))
        };
        if ["png", "jpg", "jpeg"].into_iter().any(ends) {
            let said = self.effects.take_picture(&path);
            let shown = self.show(ScreenId::Day);
            self.say(said);
            return shown;
        }
        let shown = self.show(ScreenId::Roster);
        self.roster.dropped(path);
        Task::batch([shown, self.import()])
    }

    /// Does what the day's screen asks about the record book, if it does.
    pub(super) fn book(&mut self) {
        match self.day.take_book() {
            None => {}
            Some(Book::Import(path)) => {
                self.said = None;
                let report = self.effects.import_book(&path);
                self.day.imported(report);
            }
            Some(Book::Write) => {
                let written = self.effects.write_book();
                let said = written
                    .map(|path| format!("The record book is in {}.", path.display()));
                self.say(said);
            }
        }
    }

    /// Imports the roster that the roster's screen asks for, if it does.
    pub(super) fn import(&mut self) -> Task<Message> {
        let Some(path) = self.roster.take_import() else {
            return Task::none();
        };
        let bytes = std::fs::metadata(&path).map_or(0, |m| m.len());
        let what = format!("Reading the roster {}", path.display());
        self.say_then(bytes > LARGE_ROSTER, &what, Work::Import(path))
    }

    /// What the desk listens to.
    pub fn subscription(&self) -> Subscription<Message> {
        let mut list = vec![event::listen_with(hear)];
        if self.effects.is_open() {
            // Who only reads follows closely; who holds the day shows its life.
            let beat = if self.effects.read_only().is_some() {
                1
            } else {
                5
            };
            let beat = iced::time::every(Duration::from_secs(beat));
            list.push(beat.map(|_| Message::Beat));
            if see::moves(self.facts(), self.effects.now()) {
                list.push(
                    iced::time::every(Duration::from_millis(250)).map(|_| Message::Tick),
                );
            }
        }
        Subscription::batch(list)
    }

    /// The title of a window.
    pub fn title(&self, id: window::Id) -> String {
        let name = &self.facts().name;
        match (self.windows.board_in(id), name.is_empty()) {
            (Some(board), _) => format!("{}, {name}", board.label()),
            (None, true) => "Maxday".to_owned(),
            (None, false) => format!("Maxday, {name}"),
        }
    }

    /// The theme of a window.
    pub fn theme(&self, id: window::Id) -> Theme {
        if self.windows.board_in(id).is_some() {
            theme::board()
        } else if self.dark {
            theme::dark()
        } else {
            theme::light()
        }
    }

    /// The style of every window.
    ///
    /// The software renderer leaves stale pixels where rows move, unless the
    /// background changes: then the whole window is painted. So it changes by
    /// less than can be seen.
    pub fn style(&self, theme: &Theme) -> iced::theme::Style {
        let mut style = iced::theme::Style {
            background_color: theme.palette().background,
            text_color: theme.palette().text,
        };
        let step = u16::try_from(self.repaint % 64).unwrap_or(0);
        style.background_color.a -= 1e-6 * f32::from(step);
        style
    }

    /// How much larger than usual a window is drawn.
    pub fn scale(&self, id: window::Id) -> f32 {
        if self.windows.board_in(id).is_some() {
            1.0
        } else {
            self.zoom
        }
    }
}

/// Scrolls the sheet of keys.
fn scroll_help(press: &Press) -> Task<Message> {
    let by = [
        (Named::ArrowDown, 40.0),
        (Named::ArrowUp, -40.0),
        (Named::PageDown, 400.0),
        (Named::PageUp, -400.0),
    ];
    let by = by.into_iter().find(|(key, _)| press.is(*key));
    by.map_or_else(Task::none, |(_, y)| {
        let offset = scrollable::AbsoluteOffset { x: 0.0, y };
        operation::scroll_by(HELP, offset)
    })
}

/// Turns what the windows say into messages.
fn hear(event: Event, status: event::Status, id: window::Id) -> Option<Message> {
    match event {
        Event::Keyboard(keyboard::Event::KeyPressed {
            key,
            modified_key,
            physical_key,
            modifiers,
            repeat,
            ..
        }) => {
            let escape = key == Key::Named(Named::Escape);
            if status == event::Status::Captured && !escape {
                return None;
            }
            let digit = keys::physical_digit(physical_key);
            let key = if let Some(digit) = digit.filter(|_| keys::commands(modifiers)) {
                Key::Character(digit.to_string().into())
            } else if modifiers.command() {
                match key.to_latin(physical_key) {
                    Some(letter) => Key::Character(letter.to_string().into()),
                    None => key,
                }
            } else if matches!(modified_key, Key::Character(_)) {
                modified_key
            } else {
                key
            };
            Some(Message::Pressed(
                id,
                Press {
                    key,
                    modifiers,
                    repeat,
                },
            ))
        }
        Event::Window(window::Event::FileDropped(path)) => Some(Message::Dropped(path)),
        Event::Window(window::Event::Resized(size)) => Some(Message::Resized(id, size)),
        Event::Window(window::Event::Closed) => Some(Message::Closed(id)),
        _ => None,
    }
}
