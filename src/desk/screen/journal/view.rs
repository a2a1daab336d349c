//! What the journal screen shows.

use iced::widget::{column, container, row, text, text_input};
use iced::{Element, Fill, alignment};

use super::{FIELD, Journal, Line, Message, read_line};
use crate::day::Day;
use crate::desk::theme::{self, size};
use crate::desk::widget::lamp::{cell, heading, heavy};
use crate::desk::widget::list;

impl Journal {
    /// Shows the screen.
    pub fn view<'a>(&'a self, day: &'a Day) -> Element<'a, Message> {
        let acts = self.acts(day);
        let total = acts.len();
        let title = match self.filter {
            Some(number) => format!("{total} acts about lot {number}, newest first"),
            None => format!("{total} acts, newest first"),
        };
        let head = row![
            cell("Time", 84, size::SMALL, false, false),
            cell("Where", 110, size::SMALL, false, false),
            cell("By", 190, size::SMALL, false, false),
            cell("What", Fill, size::SMALL, false, false),
        ]
        .padding([0, 6]);
        let rows = list::view(total, self.cursor, move |at| {
            match acts.get(at).and_then(|act| Self::shown(day, *act)) {
                Some(act) => self.row(at, &act),
                None => text("").into(),
            }
        });
        let (said, warning) = match &self.said {
            Some(Ok(sentence)) => (sentence.clone(), false),
            Some(Err(sentence)) => (sentence.clone(), true),
            None => (self.promise(), false),
        };
        let field = text_input("", &self.line)
            .id(FIELD)
            .on_input(Message::Typed)
            .on_submit(Message::Entered)
            .size(size::LARGE)
            .padding([6, 10])
            .style(theme::field::plain);
        let under = text(said).size(size::BODY).style(if warning {
            theme::text::warning
        } else {
            theme::text::promise
        });
        container(
            column![
                heading(title),
                head,
                heavy(2.0),
                rows,
                heading("A table number, annul and a reason, or load=85; ruling=good for the act in hand"),
                field,
                container(under).padding([0, 2]),
            ]
            .spacing(4),
        )
        .padding([8, 14])
        .into()
    }

    fn promise(&self) -> String {
        match read_line(&self.line) {
            Line::Empty => {
                "Up and Down choose an act; Ctrl+D shows what annulling it would change."
                    .to_owned()
            }
            Line::Filter(number) => {
                format!("Shows only acts about lot {number}; Esc shows all.")
            }
            Line::Annul(_) => {
                "Enter shows what annulling the act in hand would change.".to_owned()
            }
            Line::Correct(_) => {
                "Enter shows what the correction would change.".to_owned()
            }
            Line::Wrong(_) => String::new(),
        }
    }

    fn row<'a>(&self, at: usize, act: &super::Act) -> Element<'a, Message> {
        let in_hand = at == self.cursor;
        let words = if act.stands {
            act.words.clone()
        } else {
            format!("annulled: {}", act.words)
        };
        let what = text(words)
            .size(size::BODY)
            .wrapping(text::Wrapping::None)
            .style(if act.stands {
                |_: &iced::Theme| text::Style::default()
            } else {
                theme::text::muted
            });
        let line = row![
            cell(act.time.clone(), 84, size::BODY, in_hand, false),
            cell(act.place.clone(), 110, size::BODY, false, false),
            cell(act.hand.clone(), 190, size::BODY, false, false),
            container(what).width(Fill).clip(true),
        ]
        .align_y(alignment::Vertical::Center)
        .height(size::ROW - 2.0);
        list::pickable(line, in_hand, Message::Picked(at))
    }
}
