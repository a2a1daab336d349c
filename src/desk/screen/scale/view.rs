//! The scale on the screen.

use iced::widget::{column, row, text};
use iced::{Element, Fill};

use super::sheet::ScaleSheet;
use super::{FIELD, Message, Scale};
use crate::day::Facts;
use crate::desk::font;
use crate::desk::theme::{self, size};
use crate::desk::widget::grid::{self, Shown};
use crate::desk::widget::next;
use crate::rules::TableNumber;

impl Scale {
    /// Shows the scale.
    pub fn view<'a>(&'a self, facts: &'a Facts) -> Element<'a, Message> {
        if facts.entries.is_empty() {
            return next::alone(facts);
        }
        let weighed = facts
            .entries
            .values()
            .filter(|e| e.bodyweight.is_some())
            .count();
        let title = format!("Scale: {weighed} of {} weighed", facts.entries.len());
        let categories = match crate::standings::category_set(facts) {
            Some(set) => format!("Categories: {}.", set.title),
            None => "This day has no bodyweight categories.".to_owned(),
        };
        let head = row![
            text(title).size(size::TITLE).font(font::BOLD).width(Fill),
            text(categories).size(size::BODY),
        ]
        .spacing(size::GAP)
        .align_y(iced::Center);
        let sheet = ScaleSheet::new(facts);
        let line = sheet.line(&self.grid);
        let shown = Shown {
            id: FIELD,
            line,
            warning: false,
        };
        column![
            head,
            grid::view(&self.grid, sheet, shown, Message::Grid),
            text(format!(
                "Bodyweights are shown here and nowhere else at the table. Home, then a lot or \
                 a name: the next athlete.{}",
                if facts.rules.table_number == TableNumber::Start {
                    " Ctrl+N gives start numbers once all are weighed."
                } else {
                    ""
                }
            ))
            .size(size::SMALL)
            .style(theme::text::muted),
        ]
        .spacing(6)
        .padding([10, 14])
        .into()
    }
}
