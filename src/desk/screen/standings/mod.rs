//! The standings as a plain table.

use iced::Element;
use iced::keyboard::key::Named;
use iced::widget::{button, column, container, row, text};

use crate::day::Facts;
use crate::desk::action::{Action, label};
use crate::desk::font;
use crate::desk::keys::Press;
use crate::desk::theme::{self, size};
use crate::desk::widget::{list, sheet};
use crate::sheets::{Audience, Table, standings_table};
use crate::standings::Basis;

/// Columns that the screen leaves to the papers: what describes a body, and
/// what only files need.
const HIDDEN: &[&str] = &["id", "bodyweight", "scale unit", "bar unit", "group"];

/// What happens on the standings screen.
#[derive(Debug, Clone)]
pub enum Message {
    /// The cursor moves.
    Moved(i32),
    /// A button was pressed.
    Pressed(Action),
}

/// The state of the standings screen.
#[derive(Debug, Clone)]
pub struct Standings {
    basis: Basis,
    cursor: usize,
}

impl Default for Standings {
    fn default() -> Self {
        Self::new()
    }
}

impl Standings {
    /// By category.
    pub const fn new() -> Self {
        Self {
            basis: Basis::Category,
            cursor: 0,
        }
    }

    /// The next way to rank.
    pub fn turn(&mut self) {
        self.basis = match self.basis {
            Basis::Category => Basis::Division,
            Basis::Division => Basis::Slot,
            Basis::Slot => Basis::Category,
        };
        self.cursor = 0;
    }

    fn table(&self, facts: &Facts) -> Table {
        standings_table(facts, self.basis, Audience::Private)
    }

    /// Takes a message.
    pub fn update(&mut self, message: Message, facts: &Facts) -> Option<Action> {
        match message {
            Message::Moved(by) => {
                let total = sheet::lines(&self.table(facts)).len();
                self.cursor = list::moved(self.cursor, by, total);
                None
            }
            Message::Pressed(action) => Some(action),
        }
    }

    /// The message of a key.
    pub fn key(&self, press: &Press) -> Option<Message> {
        let by = [
            (Named::ArrowUp, -1),
            (Named::ArrowDown, 1),
            (Named::PageUp, -15),
            (Named::PageDown, 15),
            (Named::Home, -100_000),
            (Named::End, 100_000),
        ];
        by.iter()
            .find(|(named, _)| press.is(*named))
            .map(|(_, by)| Message::Moved(*by))
    }

    /// Shows the screen.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let by = match self.basis {
            Basis::Category => "By category",
            Basis::Division => "By division",
            Basis::Slot => "By lift",
        };
        let head = row![
            text(by).size(size::LARGE).font(font::BOLD),
            button(text(label(Action::NextRanking)).size(size::SMALL))
                .padding([4, 10])
                .style(theme::button::plain)
                .on_press(Message::Pressed(Action::NextRanking)),
        ]
        .spacing(16);
        if facts.entries.is_empty() {
            let words = "Nobody is entered yet, so there are no places.";
            return container(text(words).size(size::LARGE)).padding(24).into();
        }
        container(
            column![head, sheet::view(self.table(facts), HIDDEN, self.cursor)].spacing(8),
        )
        .padding([10, 14])
        .into()
    }
}
