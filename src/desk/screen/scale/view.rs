//! The scale on the screen.

use iced::widget::{column, row, text};
use iced::{Element, Fill};

use super::fields::Field;
use super::find::Found;
use super::hand::InHand;
use super::sheet::ScaleSheet;
use super::{FIELD, FINDER, Message, Scale, panel};
use crate::day::Facts;
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
        let categories = match crate::standings::category_set(facts) {
            Some(set) => format!("Categories: {}.", set.title),
            None => "This day has no bodyweight categories.".to_owned(),
        };
        let sheet = ScaleSheet::new(facts);
        let head = self.head(facts, &sheet);
        let in_hand = sheet.entries().get(self.grid.cursor.row);
        let times = in_hand
            .and_then(|e| facts.weigh_in(&e.session))
            .map_or_else(String::new, |(from, to)| {
                format!(
                    "Weigh-in {} to {}. ",
                    from.format("%H:%M"),
                    to.format("%H:%M")
                )
            });
        let shown = Shown {
            id: FIELD,
            line: self.line(facts),
            warning: self.lost(facts),
        };
        let numbers = if facts.rules.table_number == TableNumber::Start {
            " Ctrl+N gives start numbers once all are weighed."
        } else {
            ""
        };
        let foot = row![
            text(format!(
                "Bodyweights are shown here and nowhere else at the table. Esc goes back to \
                 looking for an athlete.{numbers}"
            ))
            .size(size::SMALL)
            .style(theme::text::muted)
            .width(Fill),
            text(format!("{times}{categories}")).size(size::SMALL).style(theme::text::muted),
        ]
        .spacing(size::GAP);
        column![
            head,
            grid::view(&self.grid, sheet, shown, Message::Grid),
            foot
        ]
        .spacing(6)
        .padding([8, 14])
        .into()
    }

    /// The athlete in hand, or those who may be meant.
    fn head<'a>(&self, facts: &Facts, sheet: &ScaleSheet<'_>) -> Element<'a, Message> {
        if let Some(text) = self.grid.finding() {
            let rows = match sheet.find(text) {
                Found::One(_) => None,
                Found::Several(rows) => Some(rows),
                Found::Nobody => Some(Vec::new()),
            };
            if let Some(rows) = rows {
                let column = sheet.fields.iter().position(|f| *f == Field::Bodyweight);
                let column = column.unwrap_or(FINDER);
                let all = sheet.entries();
                return panel::candidates(text.trim(), all, &rows, self.chosen, column);
            }
        }
        let cursor = self.grid.cursor;
        match sheet.entries().get(cursor.row) {
            Some(entry) => {
                let hand = InHand::of(facts, entry, &sheet.fields, &self.grid);
                let looked_for = self.grid.finding().unwrap_or("");
                panel::athlete(facts, entry, hand, cursor, looked_for)
            }
            None => column![].into(),
        }
    }
}
