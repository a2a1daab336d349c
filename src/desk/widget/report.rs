//! What came of a file that was taken in: a panel over the screen's list.

use iced::widget::{button, column, container, row, scrollable, text};
use iced::{Element, Fill};

use crate::desk::font;
use crate::desk::theme::{self, size};

/// A report of several lines under a few words in bold, with a button that closes
/// it.
pub fn panel<'a, M: Clone + 'a>(
    report: &'a Result<String, String>,
    read: M,
) -> Element<'a, M> {
    let (head, words) = match report {
        Ok(words) => ("Imported.", words),
        Err(words) => ("Nothing was imported.", words),
    };
    let style = if report.is_ok() {
        theme::text::promise
    } else {
        theme::text::warning
    };
    // As high as its lines are, up to half of an old laptop's screen.
    let lines = u16::try_from(words.lines().count()).unwrap_or(u16::MAX);
    let high = (f32::from(lines) * size::BODY * 1.3 + 4.0).min(320.0);
    let close = button(text("Close (Esc)").size(size::SMALL))
        .style(theme::button::plain)
        .on_press(read);
    container(
        column![
            row![text(head).font(font::BOLD).style(style).width(Fill), close],
            scrollable(text(words.as_str()).size(size::BODY).width(Fill)).height(high),
        ]
        .spacing(4),
    )
    .padding(8)
    .style(theme::container::panel)
    .into()
}
