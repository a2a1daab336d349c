//! Judges' lights and written attempts.

use iced::widget::{Row, container, rich_text, row, space, span, text};
use iced::{Element, Fill, Length, Padding, alignment};

use crate::day::Light;
pub use crate::desk::see::Written as Shown;
use crate::desk::see::Written;
use crate::desk::theme::{self, size};
use crate::desk::widget::figures;
use crate::desk::{font, see};

/// The judges' lights in a row: the given ones, else empty rings.
///
/// A light has its word in it, so that its colour isn't all that tells it.
pub fn lights<'a, M: 'a>(given: &[Light], judges: u8, height: f32) -> Element<'a, M> {
    let rings = usize::from(judges).max(given.len());
    let lamps = (0..rings).map(|i| lamp(given.get(i).copied(), height));
    row(lamps).spacing(height * 0.25).into()
}

fn lamp<'a, M: 'a>(light: Option<Light>, height: f32) -> Element<'a, M> {
    let (word, style): (&str, fn(&iced::Theme) -> container::Style) = match light {
        Some(Light::White) => ("white", theme::container::white_light),
        Some(Light::Red) => ("red", theme::container::red_light),
        None => ("", theme::container::no_light),
    };
    container(text(word).size(height * 0.27).font(font::BOLD))
        .width(height)
        .height(height)
        .align_x(alignment::Horizontal::Center)
        .align_y(alignment::Vertical::Center)
        .style(style)
        .into()
}

/// A written attempt: plain, or struck through for a no lift.
pub fn written<'a, M: 'a>(written: &Written, type_size: f32) -> Element<'a, M> {
    if written.struck {
        rich_text::<(), _, _, _>([span(written.text.clone())
            .strikethrough(true)
            .size(type_size)])
        .wrapping(text::Wrapping::None)
        .into()
    } else {
        text(written.text.clone())
            .size(type_size)
            .wrapping(text::Wrapping::None)
            .into()
    }
}

/// A run of attempts in columns of one width, with so many figures behind their
/// points; the next one may be shown.
pub fn attempts<'a, M: 'a>(
    list: &[Option<see::Written>],
    next: Option<String>,
    (width, points): (f32, &[usize]),
    type_size: f32,
) -> Element<'a, M> {
    let mut cells = Row::new();
    let mut next = next;
    for (n, one) in list.iter().enumerate() {
        let points = points.get(n).copied().unwrap_or(0);
        let mut after = 0.0;
        let cell: Element<'a, M> = match one {
            Some(one) => {
                after = figures::after(&one.text, points, type_size);
                written(one, type_size)
            }
            None => match next.take() {
                Some(asked) => {
                    after = figures::after(&asked, points, type_size);
                    text(asked)
                        .size(type_size)
                        .font(font::BOLD)
                        .wrapping(text::Wrapping::None)
                        .into()
                }
                None => text("·").size(type_size).style(theme::text::muted).into(),
            },
        };
        cells = cells.push(
            container(cell)
                .width(width)
                .padding(Padding::ZERO.right(after))
                .align_x(alignment::Horizontal::Right)
                .clip(true),
        );
    }
    cells.into()
}

/// A heavy rule across.
pub fn heavy<'a, M: 'a>(thick: f32) -> Element<'a, M> {
    container(space())
        .height(thick)
        .width(Fill)
        .style(theme::container::heavy)
        .into()
}

/// A thin rule across.
pub fn hair<'a, M: 'a>() -> Element<'a, M> {
    container(space())
        .height(1)
        .width(Fill)
        .style(theme::container::hair)
        .into()
}

/// A small heading.
pub fn heading<'a, M: 'a>(words: impl Into<String>) -> Element<'a, M> {
    text(words.into())
        .size(size::SMALL)
        .style(theme::text::muted)
        .into()
}

/// A text cell of one width that is cut where it is too long.
pub fn cell<'a, M: 'a>(
    words: impl Into<String>,
    width: impl Into<Length>,
    type_size: f32,
    bold: bool,
    right: bool,
) -> Element<'a, M> {
    container(
        text(words.into())
            .size(type_size)
            .font(if bold { font::BOLD } else { font::REGULAR })
            .wrapping(text::Wrapping::None),
    )
    .width(width)
    .align_x(if right {
        alignment::Horizontal::Right
    } else {
        alignment::Horizontal::Left
    })
    .clip(true)
    .into()
}
