//! What the desk's windows show around the screens.

use iced::widget::{
    Column, Row, button, column, container, row, scrollable, space, text,
};
use iced::{Element, Fill, alignment, window};

use super::action::{ACTIONS, Action, row_of};
use super::app::{Desk, Message};
use super::board::{Board, hall, loaders, warm_up};
use super::call_line::SHORTHAND;
use super::screen::{ScreenId, journal};
use super::theme::{self, size};
use super::{font, widget::lamp};

/// The name of the sheet of keys.
pub(super) const HELP: &str = "help-sheet";

impl Desk {
    /// Shows a window.
    pub fn view(&self, id: window::Id) -> Element<'_, Message> {
        match self.windows.board_in(id) {
            Some(board) => self.on_board(board),
            None => self.main(),
        }
    }

    /// The hall board's content.
    pub fn board(&self) -> Element<'_, Message> {
        self.on_board(Board::Hall)
    }

    /// A board's content, for the platform in hand.
    pub fn on_board(&self, board: Board) -> Element<'_, Message> {
        let (day, now) = (self.effects.day(), self.effects.now());
        match board {
            Board::Hall => hall::view(day.facts(), self.platform, now),
            Board::Loaders => loaders::view(day, self.platform, now),
            Board::WarmUp => warm_up::view(day.facts(), self.platform, now),
        }
    }

    /// The table's own window's content.
    pub fn main(&self) -> Element<'_, Message> {
        let content = if self.help {
            self.help_sheet()
        } else {
            self.content()
        };
        let mut page = Column::new();
        if self.screen.is_some() {
            page = page.push(self.tabs());
        }
        page = page.push(container(content).width(Fill).height(Fill));
        if let Some(said) = &self.said {
            page = page.push(said_line(said));
        }
        page.into()
    }

    fn content(&self) -> Element<'_, Message> {
        let facts = self.effects.facts();
        let now = self.effects.now();
        match self.screen {
            None => self.first.view().map(Message::First),
            Some(ScreenId::Day) => self.day.view(facts).map(Message::Day),
            Some(ScreenId::Table) => self
                .table
                .view(facts, self.platform, now)
                .map(Message::Table),
            Some(ScreenId::Cards) => self.cards.view(facts).map(Message::Cards),
            Some(ScreenId::Standings) => {
                self.standings.view(facts).map(Message::Standings)
            }
            Some(ScreenId::Papers) => self.papers.view().map(Message::Papers),
            Some(ScreenId::Journal) => {
                self.journal.view(self.effects.day()).map(Message::Journal)
            }
            Some(ScreenId::Roster) => self.roster.view(facts).map(Message::Roster),
            Some(ScreenId::Scale) => self.scale.view(facts).map(Message::Scale),
            Some(ScreenId::Flights) => self.flights.view(facts).map(Message::Flights),
        }
    }

    fn tabs(&self) -> Element<'_, Message> {
        let mut bar = Row::new().align_y(alignment::Vertical::Center);
        for screen in ScreenId::ALL {
            let in_hand = self.screen == Some(screen)
                || (screen == ScreenId::Table && self.screen == Some(ScreenId::Cards));
            let key = row_of(Action::Show(screen)).and_then(|r| r.key);
            let key = key.map(|k| k.to_string()).unwrap_or_default();
            let words = row![
                text(key).size(size::SMALL - 2.0),
                text(screen.label()).size(size::BODY).font(if in_hand {
                    font::BOLD
                } else {
                    font::REGULAR
                }),
            ]
            .spacing(5)
            .align_y(alignment::Vertical::Center);
            bar = bar.push(
                button(words)
                    .padding([6, 11])
                    .style(if in_hand {
                        theme::button::tab_in_hand
                    } else {
                        theme::button::tab
                    })
                    .on_press(Message::Act(Action::Show(screen))),
            );
        }
        let mut remark = self.effects.facts().name.clone();
        if self.effects.facts().closed {
            let revisions = self.effects.facts().revisions.iter();
            let n = revisions.filter(|r| r.session.is_none()).count();
            remark = format!("{remark}, closed, revision {n}");
        }
        bar = bar.push(space().width(Fill)).push(
            text(remark)
                .size(size::SMALL)
                .style(theme::text::muted)
                .wrapping(text::Wrapping::None),
        );
        bar = bar.push(space().width(12)).push(
            button(text("F1 Keys").size(size::SMALL))
                .padding([6, 11])
                .style(theme::button::tab)
                .on_press(Message::Act(Action::Help)),
        );
        let mut head = Column::new().push(container(bar).style(theme::container::band));
        if let Some(sentence) = self.effects.read_only() {
            head = head.push(
                container(text(sentence).size(size::BODY).font(font::BOLD))
                    .padding([4, 14])
                    .width(Fill)
                    .style(theme::container::in_hand),
            );
        }
        head.push(lamp::heavy(2.0)).into()
    }

    fn help_sheet(&self) -> Element<'_, Message> {
        let mut keys = Column::new().spacing(3);
        keys = keys.push(text("Keys").size(size::LARGE).font(font::BOLD));
        for row in ACTIONS {
            let key = row.key.map(|k| k.to_string());
            let place = row.place.words();
            let words = match row.no_key {
                "" if place.is_empty() => row.label.to_owned(),
                "" => format!("{}, {place}", row.label),
                why => format!("{}: {why}", row.label),
            };
            keys = keys.push(pair(key.unwrap_or_default(), words, 84.0));
        }
        let mut typed = Column::new().spacing(3);
        typed = typed.push(text("The call line").size(size::LARGE).font(font::BOLD));
        typed = typed.push(
            text(
                "Enter on an empty line does what the sentence below it says. Down and \
                 PageDown show the rest of this sheet.",
            )
            .size(size::SMALL),
        );
        for (shorthand, meaning) in SHORTHAND {
            typed =
                typed.push(pair((*shorthand).to_owned(), (*meaning).to_owned(), 190.0));
        }
        typed = typed.push(space().height(8));
        typed = typed.push(text("The journal").size(size::LARGE).font(font::BOLD));
        for (key, meaning) in journal::SHORTHAND {
            typed = typed.push(pair((*key).to_owned(), (*meaning).to_owned(), 190.0));
        }
        typed = typed.push(space().height(8));
        typed = typed.push(text("Grids").size(size::LARGE).font(font::BOLD));
        for (key, meaning) in GRID_KEYS {
            typed = typed.push(pair((*key).to_owned(), (*meaning).to_owned(), 190.0));
        }
        let sheet = row![
            keys.width(iced::FillPortion(1)),
            typed.width(iced::FillPortion(1)),
        ]
        .spacing(24);
        scrollable(container(sheet).padding([10, 24]))
            .id(HELP)
            .into()
    }
}

/// The keys of roster, scale, flights by hand and rack cards, which the grid
/// itself reads.
const GRID_KEYS: &[(&str, &str)] = &[
    ("Tab, arrows", "to the next cell; leaving a row records it"),
    ("Enter", "records, and goes on"),
    ("Home, then a lot", "goes to that athlete"),
    ("Ctrl+End", "on the roster: the row for somebody new"),
    ("PageDown, PageUp", "on rack cards: other flights"),
    ("Ctrl+PageDown", "on rack cards: the next lift"),
    (
        "Ctrl+V",
        "on rack cards: rows from a spreadsheet, all at once; from the lots' column on they \
         find their athletes",
    ),
    (
        "145 g, 145 n, p",
        "on rack cards: good, no lift, pass; n and a reason; g x5",
    ),
];

fn pair<'a>(left: String, right: String, width: f32) -> Element<'a, Message> {
    row![
        text(left).size(size::SMALL).font(font::BOLD).width(width),
        text(right).size(size::SMALL).width(Fill),
    ]
    .spacing(10)
    .into()
}

fn said_line<'a>(said: &Result<String, String>) -> Element<'a, Message> {
    let shown = match said {
        Ok(sentence) => text(sentence.clone()),
        Err(sentence) => text(format!("Refused. {sentence}")).style(theme::text::warning),
    };
    column![
        lamp::heavy(2.0),
        container(shown.size(size::BODY).font(font::BOLD))
            .padding([6, 14])
            .width(Fill),
    ]
    .into()
}
