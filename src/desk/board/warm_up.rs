//! The warm-up board: who is still to lift, how many attempts are out before
//! each, and when each is likely to be called.
//!
//! Obeys the day's posting policy, and shows no bodyweight.

pub mod sets;

use iced::widget::{Column, Row, column, container, responsive, row, text};
use iced::{Element, Fill, FillPortion, Size, alignment};

use super::{frame, inner, least_size, widest};
use crate::day::pace::{attempts_out, calls, flight_end};
use crate::day::{Facts, Stamp, queue};
use crate::desk::see;
use crate::desk::widget::lamp::{cell, hair};
use crate::sheets::{Audience, expected_words, name_for, to_minute};

/// The smallest type of a row, as a part of the window's height.
const SMALLEST: f32 = 0.03;

/// The height of a row, as a multiple of its type size.
const ROW: f32 = 1.45;

/// The distance between two columns of rows, as a part of the window's height.
const BETWEEN: f32 = 0.04;

/// The widths of the columns beside the name, as multiples of the type size:
/// number, attempt, load, attempts out, call, give or take.
const WIDTHS: [f32; 6] = [1.9, 1.9, 3.6, 3.0, 3.9, 3.0];

/// How wide a name is at least, as a multiple of the type size.
const NAME: f32 = 7.2;

/// One who is still to lift, as it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Table number.
    pub number: u16,
    /// The name by the posting policy; empty where it says the number only.
    pub name: String,
    /// The next attempt.
    pub attempt: u8,
    /// Its load in the day's unit, or that it is owed.
    pub load: String,
    /// How many attempts of others come before; empty where it can't be told.
    pub out: String,
    /// When the call is likely, to the minute, or that it was made.
    pub call: String,
    /// How far off that may be; empty where nothing lies between.
    pub off: String,
}

/// Everybody who is still to lift in what runs on a platform, in the order of
/// call.
pub fn lines(facts: &Facts, platform: u8, now: Stamp) -> Vec<Line> {
    let order = queue(facts, platform);
    let expected = calls(facts, platform, &order, now);
    let mut list = Vec::new();
    for (queued, expected) in order.iter().zip(&expected) {
        let Some(entry) = facts.entries.get(&queued.entry) else {
            continue;
        };
        let (call, off, out) = if queued.called {
            ("called".to_owned(), None, None)
        } else {
            let minutes = (expected.give_or_take.max(0) + 59_999) / 60_000;
            let off = (minutes > 0).then(|| format!("{minutes} min"));
            let out = attempts_out(facts, platform, queued.entry);
            (to_minute(expected.at).clock_time(), off, out)
        };
        list.push(Line {
            number: queued.number,
            name: name_for(facts, entry, Audience::Posted),
            attempt: queued.attempt,
            load: see::maybe(facts, queued.load.as_ref()),
            out: out.map(|n| n.to_string()).unwrap_or_default(),
            call,
            off: off.unwrap_or_default(),
        });
    }
    list
}

/// How a number of rows is laid out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layout {
    /// Columns of rows, one or two.
    pub columns: usize,
    /// Rows in a column.
    pub rows: usize,
    /// Their type size in logical pixels.
    pub size: f32,
}

/// The layout of so many rows in a window of that size, with a line for a
/// break on top or without: as large as all of them allow.
///
/// Up to seven rows (six with a break) have at least the least size for a
/// hall; more are smaller, then in two columns, and what is left over is
/// counted.
pub fn layout(rows: usize, with_break: bool, room: Size) -> Layout {
    layout_beside(rows, with_break, 0.0, room)
}

/// The same where something under the rows takes a part of the height.
fn layout_beside(rows: usize, with_break: bool, under: f32, room: Size) -> Layout {
    let h = room.height;
    let high = h * (if with_break { 0.66 } else { 0.77 } - under);
    let size_of = |rows: usize, columns: usize| {
        let rows = u16::try_from(rows.max(1)).unwrap_or(u16::MAX);
        let by_width = wide(columns, room) / (beside() + NAME);
        (high / (f32::from(rows) * ROW))
            .min(by_width)
            .min(least_size(h) * 1.15)
    };
    let smallest = h * SMALLEST;
    let one = size_of(rows, 1);
    if one >= smallest {
        let columns = 1;
        return Layout {
            columns,
            rows,
            size: one,
        };
    }
    let most = (1..=rows.div_ceil(2))
        .rev()
        .find(|n| size_of(*n, 2) >= smallest)
        .unwrap_or(1);
    Layout {
        columns: 2,
        rows: most,
        size: size_of(most, 2),
    }
}

/// The width of one column of rows.
fn wide(columns: usize, room: Size) -> f32 {
    match columns {
        1 => inner(room),
        _ => (inner(room) - room.height * BETWEEN) / 2.0,
    }
}

/// The width of all columns beside the name, as a multiple of the type size.
fn beside() -> f32 {
    WIDTHS.iter().sum()
}

/// Shows the board of a platform.
pub fn view<'a, M: 'a>(facts: &'a Facts, platform: u8, now: Stamp) -> Element<'a, M> {
    responsive(move |room| board(facts, platform, now, room)).into()
}

fn board<'a, M: 'a>(
    facts: &'a Facts,
    platform: u8,
    now: Stamp,
    room: Size,
) -> Element<'a, M> {
    let h = room.height;
    let lines = lines(facts, platform, now);
    let mut body = frame::times(facts, platform, now, h);
    let sets = sets::lines(facts, platform, now);
    if !lines.is_empty() {
        let breaks = frame::break_words(facts, platform, now).is_some();
        let layout = layout_beside(lines.len(), breaks, sets::height(sets.len()), room);
        body = body.push(table(facts, &lines, layout, room));
        body = body.push(sets::block(see::number_heading(facts), &sets, h));
        let shown = layout.columns * layout.rows;
        let mut foot: Vec<String> = Vec::new();
        if lines.len() > shown {
            foot.push(format!("And {} more.", lines.len() - shown));
        }
        foot.extend(flight_words(facts, platform, now));
        body = body.push(text(foot.join(" ")).size(h * 0.036));
    } else {
        body = body.push(sets::block(see::number_heading(facts), &sets, h));
    }
    frame::framed(facts, platform, "Warm-up", h, body)
}

/// When what runs is likely to be over.
fn flight_words(facts: &Facts, platform: u8, now: Stamp) -> Option<String> {
    let running = facts.platform(platform)?.running.as_ref()?;
    let (left, end) = flight_end(facts, platform, now)?;
    let s = if left == 1 { "" } else { "s" };
    Some(format!(
        "Flight {}: {left} attempt{s} left, over about {}.",
        running.flight,
        expected_words(&end)
    ))
}

fn table<'a, M: 'a>(
    facts: &Facts,
    lines: &[Line],
    layout: Layout,
    room: Size,
) -> Element<'a, M> {
    let h = room.height;
    let named = lines.iter().any(|line| !line.name.is_empty());
    let load = format!("load, {}", facts.bar_unit);
    // Small rows have no room for long words in type that is read.
    let heads = match layout.columns == 1 && layout.size >= h * 0.058 {
        true => [
            "attempt",
            &load,
            "attempts out",
            "call about",
            "give or take",
        ],
        false => ["att.", &load, "out", "about", "off by"],
    };
    let name = if named { "Name" } else { "" };
    let [attempt, load, out, call, off] = heads;
    let heading = [
        see::number_heading(facts),
        name,
        attempt,
        load,
        out,
        call,
        off,
    ]
    .map(str::to_owned);
    let small = (layout.size * 0.42).max(h * 0.024);
    let columns = lines.chunks(layout.rows.max(1)).take(layout.columns);
    let columns = columns.map(|some| {
        let heads = cells(&heading, layout.size, [small; 7], false);
        let mut list = Column::new().push(heads).push(hair());
        for line in some {
            list = list.push(one(line, layout, room));
        }
        list.width(FillPortion(1)).into()
    });
    Row::with_children(columns).spacing(h * BETWEEN).into()
}

fn one<'a, M: 'a>(line: &Line, layout: Layout, room: Size) -> Element<'a, M> {
    let size = layout.size;
    let for_name = wide(layout.columns, room) - beside() * size;
    let name = widest(&line.name, for_name * 0.95).min(size);
    let name = name.max(room.height * SMALLEST);
    let words = [
        line.number.to_string(),
        line.name.clone(),
        line.attempt.to_string(),
        line.load.clone(),
        line.out.clone(),
        line.call.clone(),
        line.off.clone(),
    ];
    let sizes = [size, name, size, size, size, size, size * 0.62];
    column![
        container(cells(&words, size, sizes, true))
            .height(size * ROW - 1.0)
            .align_y(alignment::Vertical::Center),
        hair(),
    ]
    .into()
}

/// Number and name to the left, all else to the right.
fn cells<'a, M: 'a>(
    words: &[String; 7],
    size: f32,
    sizes: [f32; 7],
    bold: bool,
) -> Element<'a, M> {
    let [number, name, attempt, load, out, call, off] = words.clone();
    let [w_number, w_attempt, w_load, w_out, w_call, w_off] = WIDTHS;
    let right =
        |words, width: f32, at: f32, bold| cell(words, width * size, at, bold, true);
    row![
        cell(number, w_number * size, sizes[0], false, false),
        cell(name, Fill, sizes[1], bold, false),
        right(attempt, w_attempt, sizes[2], false),
        right(load, w_load, sizes[3], bold),
        right(out, w_out, sizes[4], bold),
        right(call, w_call, sizes[5], bold),
        right(off, w_off, sizes[6], false),
    ]
    .align_y(alignment::Vertical::Center)
    .into()
}
