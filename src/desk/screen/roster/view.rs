//! The roster on the screen.

use iced::widget::{column, row, text, text_input};
use iced::{Element, Fill};

use super::sheet::RosterSheet;
use super::{FIELD, FILE, Message, Roster};
use crate::day::Facts;
use crate::desk::action::{Action, key_words};
use crate::desk::font;
use crate::desk::theme::{self, size};
use crate::desk::widget::field::steady;
use crate::desk::widget::grid::{self, Shown};
use crate::desk::widget::{next, report};

impl Roster {
    /// Shows the roster.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        let sheet = RosterSheet::new(facts);
        let line = sheet.line(&self.grid);
        let shown = Shown {
            id: FIELD,
            line,
            warning: false,
        };
        let title = match facts.entries.len() {
            0 => "Roster: nobody is entered yet".to_owned(),
            1 => "Roster: 1 entry".to_owned(),
            n => format!("Roster: {n} entries"),
        };
        let file = text_input("Path of a roster file (.csv or .xlsx)", &self.path)
            .id(FILE)
            .on_input(Message::PathTyped)
            .on_submit(Message::PathEntered)
            .size(size::BODY)
            .padding([4, 8])
            .width(420)
            .style(theme::field::plain);
        let head = row![
            text(title).size(size::TITLE).font(font::BOLD).width(Fill),
            text(format!("Import ({}):", key_words(Action::Import))).size(size::BODY),
            steady(file),
        ]
        .spacing(size::GAP)
        .align_y(iced::Center);
        let mut page = column![head].spacing(6).padding([10, 14]);
        if let Some(report) = &self.report {
            page = page.push(report::panel(report, Message::ReportRead));
        }
        page.push(grid::view(&self.grid, sheet, shown, Message::Grid))
            .push(foot(facts))
            .into()
    }
}

/// What comes next while nobody is entered or in a flight; how to move.
fn foot<'a>(facts: &Facts) -> Element<'a, Message> {
    let moves = text(
        "Each cell is recorded when it is left. Home, then a lot or a name: go to it. \
         Ctrl+End: the row for somebody new.",
    )
    .size(size::SMALL)
    .style(theme::text::muted);
    if facts.entries.is_empty() {
        let import = key_words(Action::Import);
        let words = format!(
            "Type the first athlete above. Or take a whole list: {import}, the path of its \
             .csv or .xlsx file, Enter; or drop the file on this window. Only names are needed, the \
             rest can come later."
        );
        return column![next::words(words), moves].spacing(6).into();
    }
    column![next::line(facts), moves].spacing(6).into()
}
