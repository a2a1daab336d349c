//! The quick guide over a screen: one page, in two columns.

use iced::widget::{Column, column, container, row, scrollable, text};
use iced::{Element, Fill, FillPortion};

use super::action::{Action, key_of_label, key_words};
use super::app::Message;
use super::font;
use super::theme::{self, size};
use super::view::HELP;
use super::widget::lamp;
use crate::sheets::{Part, quick_guide_with};

/// The width of what is pressed or typed.
const KEYS: f32 = 150.0;

/// The guide, with the keys of the table of actions.
pub(super) fn view<'a>() -> Element<'a, Message> {
    let parts = quick_guide_with(key_of_label);
    let half = half(&parts);
    let (mut left, mut right) = (Column::new().spacing(14), Column::new().spacing(14));
    for (at, shown) in parts.iter().enumerate() {
        if at < half {
            left = left.push(part(shown));
        } else {
            right = right.push(part(shown));
        }
    }
    let title = row![
        text("Quick guide to the table")
            .size(size::TITLE)
            .font(font::BOLD)
            .width(Fill),
        text(format!(
            "Esc closes it. {} lists all keys.",
            key_words(Action::Help)
        ))
        .size(size::BODY)
        .style(theme::text::muted),
    ]
    .align_y(iced::Center);
    let foot = text(
        "General education. Local policy and the qualified supervisor on site come first.",
    )
    .size(size::SMALL)
    .style(theme::text::muted);
    let page = column![
        title,
        lamp::heavy(3.0),
        row![left.width(FillPortion(1)), right.width(FillPortion(1))].spacing(36),
        foot,
    ]
    .spacing(12);
    scrollable(container(page).padding([12, 28]))
        .id(HELP)
        .width(Fill)
        .height(Fill)
        .into()
}

/// After how many parts the second column begins: where both are about as
/// long.
fn half(parts: &[Part]) -> usize {
    let long = |parts: &[Part]| parts.iter().map(|p| p.lines.len() + 3).sum::<usize>();
    (0..=parts.len())
        .min_by_key(|at| {
            let (left, right) = parts.split_at(*at);
            long(left).abs_diff(long(right))
        })
        .unwrap_or(0)
}

fn part<'a>(part: &Part) -> Element<'a, Message> {
    let mut shown = Column::new().spacing(4);
    shown = shown.push(text(part.title.clone()).size(size::LARGE).font(font::BOLD));
    if !part.text.is_empty() {
        shown = shown.push(text(part.text.clone()).size(size::BODY));
    }
    for (typed, meaning) in &part.lines {
        shown = shown.push(
            row![
                text(typed.clone())
                    .size(size::BODY)
                    .font(font::BOLD)
                    .width(KEYS),
                text(meaning.clone()).size(size::BODY).width(Fill),
            ]
            .spacing(10),
        );
    }
    shown.into()
}
