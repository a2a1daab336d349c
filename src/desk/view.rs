//! What the desk's windows show around the screens.

use iced::widget::{
    self, Column, button, column, container, row, scrollable, space, text,
};
use iced::{Element, Fill, FillPortion, alignment, window};

use super::action::{ACTIONS, Action, Place, Row, key_words, row_of};
use super::app::{Desk, Message, Sheet};
use super::board::{Board, hall, loaders, warm_up};
use super::call_line::SHORTHAND;
use super::screen::{ScreenId, journal};
use super::theme::{self, size};
use super::{font, guide, widget::lamp};

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
        let content = match self.sheet {
            Some(Sheet::Keys) => help_sheet(),
            Some(Sheet::Guide) => guide::view(),
            None => self.content(),
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
            Some(ScreenId::Papers) => self.papers.view(facts).map(Message::Papers),
            Some(ScreenId::Journal) => {
                self.journal.view(self.effects.day()).map(Message::Journal)
            }
            Some(ScreenId::Roster) => self.roster.view(facts).map(Message::Roster),
            Some(ScreenId::Scale) => self.scale.view(facts).map(Message::Scale),
            Some(ScreenId::Flights) => self.flights.view(facts).map(Message::Flights),
        }
    }

    fn tabs(&self) -> Element<'_, Message> {
        let mut bar = widget::Row::new().align_y(alignment::Vertical::Center);
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
        let backups = self.effects.backups_told();
        if !backups.age.is_empty() {
            remark = format!("{remark}, {}", backups.age);
        }
        bar = bar.push(space().width(Fill)).push(
            text(remark)
                .size(size::SMALL)
                .style(theme::text::muted)
                .wrapping(text::Wrapping::None),
        );
        bar = bar.push(space().width(6));
        for (action, word) in [(Action::Guide, "Guide"), (Action::Help, "Keys")] {
            let words = format!("{} {word}", key_words(action));
            let words = text(words).size(size::SMALL).wrapping(text::Wrapping::None);
            bar = bar.push(
                button(words)
                    .padding([6, 6])
                    .style(theme::button::tab)
                    .on_press(Message::Act(action)),
            );
        }
        let mut head = Column::new().push(container(bar).style(theme::container::band));
        if let Some(sentence) = self.effects.read_only() {
            head = head.push(
                container(text(sentence).size(size::BODY).font(font::BOLD))
                    .padding([4, 14])
                    .width(Fill)
                    .style(theme::container::in_hand),
            );
        }
        if backups.failing {
            let words = format!(
                "No backup can be made in {}; the day goes on, and it is tried again.",
                backups.folder
            );
            head = head.push(
                container(text(words).size(size::BODY).font(font::BOLD))
                    .padding([4, 14])
                    .width(Fill)
                    .style(theme::container::in_hand),
            );
        }
        head.push(lamp::heavy(2.0)).into()
    }
}

/// How long a key's name may be beside the others.
const LONG_KEY: usize = 8;

/// The height of a line of the list of keys, as a multiple of its type size.
const TIGHT: f32 = 1.2;

/// All keys and all that the lines take, in three columns.
fn help_sheet<'a>() -> Element<'a, Message> {
    let key = |row: &Row| row.key.map(|key| key.to_string()).unwrap_or_default();
    let tab = |row: &&Row| ScreenId::ALL.iter().any(|s| row.action == Action::Show(*s));
    let (tabs, others): (Vec<&Row>, Vec<&Row>) = ACTIONS.iter().partition(tab);
    let (many, others): (Vec<&Row>, Vec<&Row>) = others
        .into_iter()
        .partition(|row| key(row).len() > LONG_KEY);
    let of_screens = |row: &&Row| matches!(row.place, Place::On(_));
    let (single, most): (Vec<&Row>, Vec<&Row>) = others.into_iter().partition(of_screens);
    // The screens' keys stand over them already: a line is enough.
    let names: Vec<&str> = tabs.iter().map(|row| row.label).collect();
    let ends = tabs.first().zip(tabs.last());
    let screens = ends
        .map(|(first, last)| (format!("{}-{}", key(first), key(last)), names.join(", ")));
    let mut most = rows_of(&most);
    most.extend(screens);
    let keys = column![
        part("Keys", &most, 62.0),
        part("Keys by number", &rows_of(&many), 132.0),
    ]
    .spacing(12);
    let typed = column![
        part("The call line", SHORTHAND, 153.0),
        text("Enter on an empty line does what the sentence below it says.")
            .size(size::SMALL),
    ]
    .spacing(4);
    let rest = column![
        part("On one screen", &rows_of(&single), 54.0),
        part("The journal", journal::SHORTHAND, 132.0),
        part("Grids", GRID_KEYS, 132.0),
    ]
    .spacing(12);
    let sheet = row![
        keys.width(FillPortion(336)),
        typed.width(FillPortion(570)),
        rest.width(FillPortion(412)),
    ]
    .spacing(12);
    scrollable(container(sheet).padding([6, 14]))
        .id(HELP)
        .width(Fill)
        .height(Fill)
        .into()
}

/// Keys with what they do and where.
fn rows_of(rows: &[&Row]) -> Vec<(String, String)> {
    let rows = rows.iter().map(|row| {
        let key = row.key.map(|k| k.to_string());
        let place = row.place.words();
        let words = match row.no_key {
            // Calls and lights are given nowhere else.
            "" if place.is_empty() || row.place == Place::Platform => {
                row.label.to_owned()
            }
            "" => format!("{}, {place}", row.label),
            why => format!("{}: {why}", row.label),
        };
        (key.unwrap_or_default(), words)
    });
    rows.collect()
}

fn part<'a, S: AsRef<str>>(
    title: &'a str,
    pairs: &[(S, S)],
    width: f32,
) -> Column<'a, Message> {
    let pairs = pairs.iter().map(|(left, right)| {
        row![
            text(left.as_ref().to_owned())
                .size(size::SMALL)
                .font(font::BOLD)
                .line_height(TIGHT)
                .width(width),
            text(right.as_ref().to_owned())
                .size(size::SMALL)
                .line_height(TIGHT)
                .width(Fill),
        ]
        .spacing(8)
        .into()
    });
    column![text(title).size(size::BODY).font(font::BOLD)].extend(pairs)
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
