//! The athlete in hand in large type, or who may be meant.

use iced::widget::text::Wrapping;
use iced::widget::{Column, Row, column, container, mouse_area, row, text};
use iced::{Element, Fill, FillPortion, alignment};

use super::hand::{Asked, InHand, to_weigh_words, with_room};
use super::{FINDER, Message};
use crate::day::Facts;
use crate::desk::font;
use crate::desk::theme::{self, size};
use crate::desk::widget::grid::{Event, Spot};
use crate::roster::Entry;

/// The height of the candidates: that of an athlete, so that nothing jumps.
const HEIGHT: f32 = 232.0;
/// The height of its first line.
const HEAD: f32 = 58.0;
/// How many candidates are named.
const NAMED: usize = 8;

/// The athlete in hand. `at` is the cell in hand, `looked_for` what is typed to
/// look for an athlete.
pub fn athlete<'a>(
    facts: &Facts,
    entry: &Entry,
    hand: InHand,
    at: Spot,
    looked_for: &str,
) -> Element<'a, Message> {
    let (count, below) = to_weigh_words(facts, &entry.session);
    let who = row![
        text(hand.number.to_string())
            .size(size::NAME)
            .font(font::BOLD)
            .wrapping(Wrapping::None),
        column![
            text(hand.name)
                .size(size::TITLE)
                .font(font::BOLD)
                .wrapping(Wrapping::None),
            text(hand.detail)
                .size(size::SMALL)
                .style(theme::text::muted)
                .wrapping(Wrapping::None),
        ],
    ]
    .spacing(16)
    .align_y(alignment::Vertical::Center);
    let counts = column![
        text(count).size(size::LARGE).font(font::BOLD),
        text(below).size(size::SMALL).style(theme::text::muted),
    ]
    .align_x(alignment::Horizontal::Right);
    let head = row![container(who).width(Fill).clip(true), counts]
        .spacing(size::GAP)
        .align_y(alignment::Vertical::Center)
        .height(HEAD);
    let mut scale = Row::new()
        .spacing(22)
        .align_y(alignment::Vertical::Center)
        .height(36)
        .push(text(hand.category).size(size::TITLE - 2.0).font(font::BOLD));
    for words in hand.distances {
        scale = scale.push(text(words).size(size::LARGE + 2.0));
    }
    if !hand.other.is_empty() {
        scale = scale.push(text(hand.other).size(size::LARGE).style(theme::text::muted));
    }
    let finder = Asked {
        column: FINDER,
        label: "Lot or name".to_owned(),
        value: looked_for.to_owned(),
        setup: false,
        owed: false,
        refused: false,
    };
    let all = std::iter::once(finder).chain(hand.asked);
    let boxes = boxes(all.collect(), at);
    let owed = text(hand.owed).size(size::LARGE).font(font::BOLD);
    let owed = if hand.owes {
        owed.style(theme::text::warning)
    } else {
        owed
    };
    let odd = with_room(&hand.odd, 460);
    // Two lines of ordinary type, else three smaller ones.
    let (odd_size, odd_height) = match odd.chars().count() {
        0..=300 => (size::BODY, 42.0),
        _ => (size::SMALL, 57.0),
    };
    let odd = text(odd).size(odd_size).style(theme::text::warning);
    column![
        head,
        scale,
        boxes,
        container(owed).height(26),
        container(odd).height(odd_height).clip(true),
    ]
    .spacing(3)
    .width(Fill)
    .into()
}

/// The boxes in one row, or set-ups in a row of their own where there are many.
fn boxes<'a>(asked: Vec<Asked>, at: Spot) -> Element<'a, Message> {
    let many = asked.len() > 9;
    let (below, above): (Vec<Asked>, Vec<Asked>) =
        asked.into_iter().partition(|a| many && a.setup);
    let line = |list: Vec<Asked>, small| {
        let boxes = list.into_iter().map(|a| one_box(a, at, small));
        Row::from_iter(boxes).spacing(6)
    };
    let small = above.len() > 9;
    let mut lines = Column::new().spacing(4).push(line(above, small).height(58));
    if !below.is_empty() {
        lines = lines.push(line(below, true).height(50));
    }
    lines.into()
}

fn one_box<'a>(asked: Asked, at: Spot, small: bool) -> Element<'a, Message> {
    let in_hand = asked.column == at.column;
    let long = asked.value.chars().count();
    let wide = FillPortion(match long {
        0..=14 => 2,
        15..=20 => 3,
        _ => 5,
    });
    let large = match long {
        _ if small => size::BODY,
        0..=7 => size::TITLE - 2.0,
        8..=12 => size::LARGE,
        _ => size::BODY,
    };
    let value = text(asked.value)
        .size(large)
        .font(font::BOLD)
        .wrapping(Wrapping::None);
    let value = if asked.owed || asked.refused {
        value.style(theme::text::warning)
    } else {
        value
    };
    let content = column![
        text(asked.label)
            .size(size::SMALL)
            .style(theme::text::muted)
            .wrapping(Wrapping::None),
        container(value)
            .height(if small { 24 } else { 32 })
            .align_y(alignment::Vertical::Center),
    ];
    let framed = container(content)
        .padding([4, 9])
        .width(Fill)
        .height(Fill)
        .clip(true)
        .style(if in_hand {
            theme::container::in_hand
        } else {
            theme::container::panel
        });
    let spot = Spot {
        row: at.row,
        column: asked.column,
    };
    container(mouse_area(framed).on_press(Message::Grid(Event::Clicked(spot))))
        .width(wide)
        .into()
}

/// Those who may be meant by what is looked for, or that nobody is; `chosen` is the row to which
/// Enter goes, if one was chosen, and `column` the one that a click takes in
/// hand.
pub fn candidates<'a>(
    text_looked_for: &str,
    entries: &[&Entry],
    rows: &[usize],
    chosen: Option<usize>,
    column: usize,
) -> Element<'a, Message> {
    let title = match rows.len() {
        0 => format!("Nobody begins with “{text_looked_for}”"),
        1 => format!("1 begins with “{text_looked_for}”"),
        n => format!("{n} begin with “{text_looked_for}”"),
    };
    let first = chosen
        .and_then(|c| rows.iter().position(|r| *r == c))
        .map_or(0, |at| at / NAMED * NAMED);
    let mut left = Column::new().width(FillPortion(1));
    let mut right = Column::new().width(FillPortion(1));
    for (at, row) in rows.iter().skip(first).take(NAMED).enumerate() {
        let Some(entry) = entries.get(*row) else {
            continue;
        };
        let words = format!("{}  {}", entry.number, entry.name());
        let line = container(
            text(words)
                .size(size::LARGE + 2.0)
                .font(if chosen == Some(*row) {
                    font::BOLD
                } else {
                    font::REGULAR
                })
                .wrapping(Wrapping::None),
        )
        .padding([2, 9])
        .height(38)
        .width(Fill)
        .clip(true);
        let line = if chosen == Some(*row) {
            line.style(theme::container::in_hand)
        } else {
            line
        };
        let spot = Spot { row: *row, column };
        let line = mouse_area(line).on_press(Message::Grid(Event::Clicked(spot)));
        if at < NAMED / 2 {
            left = left.push(line);
        } else {
            right = right.push(line);
        }
    }
    let more = rows.len().saturating_sub(first + NAMED);
    let mut head = row![text(title).size(size::TITLE).font(font::BOLD)]
        .spacing(16)
        .align_y(alignment::Vertical::Center)
        .height(HEAD);
    if more > 0 {
        head = head.push(
            text(format!("and {more} more"))
                .size(size::LARGE)
                .style(theme::text::muted),
        );
    }
    column![head, row![left, right].spacing(12)]
        .height(HEIGHT)
        .width(Fill)
        .into()
}
