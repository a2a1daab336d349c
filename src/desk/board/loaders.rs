//! The loader board: in words what to do with the bar as it stands, then the
//! discs of one side, the load, and what comes after.
//!
//! Obeys the day's posting policy.

use iced::widget::{Column, Row, column, container, responsive, row, space, text};
use iced::{Element, Fill, Size, alignment};

use super::{fitting, frame, inner, least_size, widest};
use crate::day::{Day, Facts, Stamp};
use crate::desk::widget::lamp::hair;
use crate::desk::{font, see, theme};
use crate::sheets::{Loading, loading};

/// How many lines what is to be done may take before it is written smaller.
const LINES: f32 = 2.0;

/// The type sizes of what is read from afar, in logical pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizes {
    /// What is to be done: as large as its lines hold.
    pub words: f32,
    /// The discs of one side: as large as their line holds.
    pub discs: f32,
    /// The load.
    pub load: f32,
    /// The name: as large as its line holds.
    pub name: f32,
    /// The load after this, and a break.
    pub then: f32,
}

/// The type sizes for words, discs and a name in a window of that size; none
/// is below the least size.
pub fn sizes(words: &str, discs: &[String], name: &str, room: Size) -> Sizes {
    let (h, w) = (room.height, inner(room));
    // Each disc is as wide as its number and a margin.
    let side: String = discs.iter().map(|d| format!("{d}  ")).collect();
    Sizes {
        // Not every line is filled to its end.
        words: fitting(words, w * LINES * 0.88, h * 0.115, h),
        discs: widest(&side, w).min(h * 0.12).max(least_size(h)),
        load: h * 0.14,
        name: fitting(name, w * 0.5, h * 0.1, h),
        then: frame::times_size(h),
    }
}

/// Shows the board of a platform.
pub fn view<'a, M: 'a>(day: &'a Day, platform: u8, now: Stamp) -> Element<'a, M> {
    responsive(move |room| board(day, platform, now, room)).into()
}

fn board<'a, M: 'a>(
    day: &'a Day,
    platform: u8,
    now: Stamp,
    room: Size,
) -> Element<'a, M> {
    let (facts, h) = (day.facts(), room.height);
    let body = match loading(day, platform) {
        Some(told) => told_body(facts, platform, &told, now, room),
        None => frame::times(facts, platform, now, h),
    };
    frame::framed(facts, platform, "Loaders", h, body)
}

fn told_body<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    told: &Loading,
    now: Stamp,
    room: Size,
) -> Column<'a, M> {
    let h = room.height;
    let entry = facts.entries.get(&told.entry);
    let name = entry.map(|e| see::posted_name(facts, e));
    let name = name.unwrap_or_default();
    let words = match &told.words {
        Ok(words) => see::capital(words),
        Err(sentence) => format!("{}.", see::capital(sentence)),
    };
    let sizes = sizes(&words, &told.side, &name, room);
    let small = h * 0.045;
    let shown = text(words).size(sizes.words).font(font::BOLD);
    let mut body = Column::new()
        .spacing(h * 0.012)
        .push(shown.line_height(1.2));
    if let Some((from, was)) = &told.was {
        let from = see::load(facts, *from);
        body = body.push(text(format!("Not done yet? From {from}: {was}.")).size(small));
    }
    if told.words.is_ok() && told.load.is_some() {
        let label = format!("One side, from the inside, on {}", told.bar);
        body = body.push(text(label).size(small));
        body = body.push(discs(&told.side, sizes.discs));
    }
    if let Some(left) = frame::break_words(facts, platform, now) {
        body = body.push(text(left).size(sizes.then).font(font::BOLD));
    }
    body.push(space().height(Fill))
        .push(hair())
        .push(for_whom(facts, told, name, sizes, h))
        .push(after(facts, told, sizes, h))
}

fn discs<'a, M: 'a>(side: &[String], size: f32) -> Element<'a, M> {
    if side.is_empty() {
        return text("no discs").size(size).font(font::BOLD).into();
    }
    let cells = side.iter().map(|disc| {
        let number = text(disc.clone()).size(size).font(font::BOLD);
        container(number.line_height(1.15).wrapping(text::Wrapping::None))
            .padding([0.0, size * 0.25])
            .style(theme::container::disc)
            .into()
    });
    Row::with_children(cells).spacing(size * 0.15).wrap().into()
}

/// The load in both units, and whose it is.
fn for_whom<'a, M: 'a>(
    facts: &Facts,
    told: &Loading,
    name: String,
    sizes: Sizes,
    h: f32,
) -> Element<'a, M> {
    let (own, other) = match told.load {
        Some(load) => (
            see::load(facts, load),
            see::other_unit(load, facts.bar_unit),
        ),
        None => ("load owed".to_owned(), String::new()),
    };
    let state = if told.called { "called" } else { "next" };
    let attempt = format!("{state}, attempt {} of {}", told.attempt, told.allowed);
    let name = text(name).size(sizes.name).font(font::BOLD);
    let name = name.align_x(alignment::Horizontal::Right);
    row![
        text(own)
            .size(sizes.load)
            .font(font::BOLD)
            .line_height(1.1)
            .wrapping(text::Wrapping::None),
        text(other).size(h * 0.06).wrapping(text::Wrapping::None),
        space().width(Fill),
        column![name.line_height(1.15), text(attempt).size(h * 0.045)]
            .align_x(alignment::Horizontal::Right),
    ]
    .spacing(h * 0.03)
    .align_y(alignment::Vertical::Center)
    .into()
}

/// The load after this, and what the bar stands at.
fn after<'a, M: 'a>(
    facts: &Facts,
    told: &Loading,
    sizes: Sizes,
    h: f32,
) -> Element<'a, M> {
    let (then, name) = match &told.then {
        Some((key, load)) => {
            let load = load.map(|l| see::load(facts, l));
            let load = load.unwrap_or_else(|| "load owed".to_owned());
            let entry = facts.entries.get(key);
            let name = entry.map(|e| see::posted_name(facts, e));
            (format!("then {load}"), name.unwrap_or_default())
        }
        None => ("then nobody".to_owned(), String::new()),
    };
    let stands = match told.stands {
        Some(load) => format!("the bar stands at {}", see::load(facts, load)),
        None => "nothing was called yet".to_owned(),
    };
    let name = text(name).size(sizes.then).wrapping(text::Wrapping::None);
    row![
        text(then)
            .size(sizes.then)
            .font(font::BOLD)
            .wrapping(text::Wrapping::None),
        container(name).width(Fill).clip(true),
        text(stands).size(h * 0.045).wrapping(text::Wrapping::None),
    ]
    .spacing(h * 0.03)
    .align_y(alignment::Vertical::Center)
    .into()
}
