//! The hall board: who is up, the load, the clock, the lights, the next
//! three and the leaders, in type that is read across a gym.
//!
//! Obeys the day's posting policy.

use iced::widget::{Column, Row, column, container, responsive, row, space, text};
use iced::{Element, Fill, Size, alignment};

use super::{fitting, frame, inner, widest};
use crate::day::{Facts, Stamp, show_left};
use crate::desk::font;
use crate::desk::see::{self, State, Up};
use crate::desk::widget::lamp::{heavy, lights};
use crate::measure::Mass;
use crate::roster::Entry;
use crate::rules::Sex;

/// The type size of load and clock, as a part of the window's height.
const BIG: f32 = 0.19;

/// The type size of what heads a list, and of a list, as parts of the window's
/// height.
const SMALL: f32 = 0.042;
const LIST: f32 = 0.058;

/// The type sizes of what is read from afar, in logical pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizes {
    /// The name: as large as its line holds, never below the least size.
    pub name: f32,
    /// The load.
    pub load: f32,
    /// The athlete's clock.
    pub clock: f32,
    /// A break, and the times before a session.
    pub times: f32,
}

/// The type sizes for a name in a window of that size.
pub fn sizes(name: &str, room: Size) -> Sizes {
    let h = room.height;
    Sizes {
        name: fitting(name, inner(room), h * 0.14, h),
        load: h * BIG,
        clock: h * BIG,
        times: frame::times_size(h),
    }
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
    let up = see::up(facts, platform, now);
    let mut body = Column::new().spacing(h * 0.012);
    body = match &up {
        Some(up) => body
            .push(athlete(facts, up, room))
            .push(bar(facts, platform, up, now, room)),
        None => body.push(frame::times(facts, platform, now, h)),
    };
    let best = match up.as_ref().and_then(|up| up.entry.sex) {
        Some(Sex::F) => "Best so far, women",
        Some(Sex::M) => "Best so far, men",
        None => "Best so far",
    };
    let up = up.as_ref();
    let shown = [
        ("Next", next(facts, platform, up)),
        (best, leaders(facts, platform, up)),
    ];
    body = body.push(space().height(Fill)).push(lists(shown, room));
    frame::framed(facts, platform, "", h, body)
}

fn athlete<'a, M: 'a>(facts: &Facts, up: &Up<'_>, room: Size) -> Element<'a, M> {
    let name = see::posted_name(facts, up.entry);
    let h = room.height;
    let size = sizes(&name, room).name;
    let allowed = facts.attempts_allowed(up.entry.key, &up.slot);
    let mut under = vec![format!("attempt {} of {allowed}", up.attempt)];
    if see::for_record(facts, up.entry.key, &up.slot, up.attempt) {
        under.push("for a record".to_owned());
    }
    if up.entry.guest {
        under.push("guest".to_owned());
    }
    if !up.entry.team.is_empty() {
        under.insert(0, up.entry.team.clone());
    }
    if facts.rules.posting.category && facts.rules.posting.bodyweight {
        let label = crate::standings::category_label(facts, up.entry);
        if !label.is_empty() {
            under.insert(0, format!("category {label}"));
        }
    }
    if up.state == State::Next {
        under.insert(0, "next".to_owned());
    }
    column![
        text(name).size(size).font(font::BOLD).line_height(1.15),
        text(under.join("   "))
            .size(h * 0.045)
            .wrapping(text::Wrapping::None),
    ]
    .into()
}

fn bar<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    up: &Up<'_>,
    now: Stamp,
    room: Size,
) -> Element<'a, M> {
    let h = room.height;
    let sizes = sizes("", room);
    let (own, other) = match up.load {
        Some(mass) => (
            see::load(facts, mass),
            see::other_unit(mass, facts.bar_unit),
        ),
        None => (String::new(), String::new()),
    };
    let small = |words: String| text(words).size(h * 0.06).wrapping(text::Wrapping::None);
    let mut beside = column![small(other)];
    if let Some(words) = see::posted_record(facts, up) {
        beside = beside.push(small(words).font(font::BOLD));
    }
    let load = row![
        text(own)
            .size(sizes.load)
            .font(font::BOLD)
            .line_height(1.1)
            .wrapping(text::Wrapping::None),
        beside,
    ]
    .spacing(h * 0.03)
    .align_y(alignment::Vertical::Center);
    let right: Element<'a, M> = match &up.state {
        State::Ruled(ruled) => {
            let word = if ruled.fact.ruling.is_good() {
                "good lift"
            } else if ruled.fact.ruling.is_no_lift() {
                "no lift"
            } else {
                ruled.fact.ruling.word()
            };
            column![
                lights(&ruled.fact.lights, facts.rules.judges, h * 0.13),
                text(word.to_owned()).size(h * 0.06).font(font::BOLD),
            ]
            .align_x(alignment::Horizontal::Center)
            .into()
        }
        State::Called(call) => match call.clock {
            Some(clock) => text(show_left(clock.left_at(now)))
                .size(sizes.clock)
                .font(font::BOLD)
                .line_height(1.1)
                .wrapping(text::Wrapping::None)
                .into(),
            None => space().into(),
        },
        State::Next => text(frame::break_words(facts, platform, now).unwrap_or_default())
            .size(sizes.times)
            .font(font::BOLD)
            .into(),
    };
    Row::new()
        .push(load)
        .push(space().width(Fill))
        .push(right)
        .height(h * 0.23)
        .align_y(alignment::Vertical::Center)
        .into()
}

/// A line of a list: a name and a load.
type Line = (String, String);

fn next(facts: &Facts, platform: u8, up: Option<&Up<'_>>) -> Vec<Line> {
    let following = see::following(facts, platform, up);
    let lines = following.iter().take(3).filter_map(|queued| {
        let entry = facts.entries.get(&queued.entry)?;
        let load = queued.load.as_ref().map(|w| w.show(facts.bar_unit));
        Some((see::posted_name(facts, entry), load.unwrap_or_default()))
    });
    lines.collect()
}

fn leaders(facts: &Facts, platform: u8, up: Option<&Up<'_>>) -> Vec<Line> {
    let leaders = see::leaders(facts, platform, up, 3).into_iter();
    let line = |(entry, mass): (&Entry, Mass)| {
        (see::posted_name(facts, entry), mass.show(facts.bar_unit))
    };
    leaders.map(line).collect()
}

/// Two lists beside each other, in one type size: the longest name sets it.
fn lists<'a, M: 'a>(lists: [(&'static str, Vec<Line>); 2], room: Size) -> Element<'a, M> {
    let full = room.height * LIST;
    let for_name = inner(room) * 0.5 - full * 3.4;
    let names = lists.iter().flat_map(|(_, lines)| lines);
    let size = names
        // A name in a list is set in the narrower face.
        .map(|(name, _)| widest(name, for_name) * 1.12)
        .fold(full, f32::min)
        .max(full * 0.6);
    let lists = lists.map(|(title, lines)| {
        let title = text(title).size(room.height * SMALL);
        let mut list = Column::new().push(title).push(heavy(2.0));
        for (name, load) in lines {
            let name = text(name).size(size).wrapping(text::Wrapping::None);
            let load = text(load).size(size).font(font::BOLD);
            let load = load.wrapping(text::Wrapping::None);
            let name = container(name).width(Fill).clip(true);
            list = list.push(row![name, load].spacing(size * 0.4));
        }
        list.width(iced::FillPortion(1)).into()
    });
    row(lists).spacing(room.height * 0.04).into()
}
