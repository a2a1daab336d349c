//! What comes next on a day that has hardly begun, as screens show it.

use iced::widget::{column, container, space, text};
use iced::{Element, Fill};

use crate::day::Facts;
use crate::desk::font;
use crate::desk::next::next_step;
use crate::desk::theme::{self, size};

/// A line above or below what a screen shows; nothing once lifting has begun.
pub fn line<'a, M: 'a>(facts: &Facts) -> Element<'a, M> {
    match next_step(facts) {
        Some(sentence) => words(sentence),
        None => space().into(),
    }
}

/// Such a line with words of the screen's own.
pub fn words<'a, M: 'a>(sentence: String) -> Element<'a, M> {
    let sentence = text(sentence).size(size::BODY).font(font::BOLD);
    container(sentence.style(theme::text::promise))
        .padding([2, 6])
        .width(Fill)
        .into()
}

/// All that a screen shows where it has nothing else to show.
pub fn alone<'a, M: 'a>(facts: &Facts) -> Element<'a, M> {
    let sentence = next_step(facts).unwrap_or_default();
    container(column![text(sentence).size(size::LARGE)])
        .padding(24)
        .into()
}
