//! The hall board: who is up, the load, the clock, the lights, the next
//! three and the leaders, in type that is read across a gym.
//!
//! Obeys the day's posting policy.

use iced::widget::{Column, Row, column, container, responsive, row, space, text};
use iced::{Element, Fill, Size, alignment};

use crate::day::{Facts, Stamp, show_left};
use crate::desk::see::{self, State, Up};
use crate::desk::widget::lamp::{heavy, lights};
use crate::desk::{font, plan};

/// The least height of a capital letter of name, load and clock, as a part
/// of the window's height (legibility across a hall, common practice).
pub const LEAST_CAPITAL: f32 = 1.0 / 20.0;

/// The type size of load and clock, as a part of the window's height.
const BIG: f32 = 0.19;

/// The least type size for a window of that height.
pub fn least_size(height: f32) -> f32 {
    height * LEAST_CAPITAL / font::CAP_HEIGHT
}

/// The type size of a name: as large as its line holds, never below the
/// least size.
pub fn name_size(name: &str, room: Size) -> f32 {
    let chars = u16::try_from(name.chars().count().max(1)).unwrap_or(u16::MAX);
    // An average bold character is 0.62 of the type size wide.
    let fits = room.width * 0.94 / (f32::from(chars) * 0.62);
    fits.min(room.height * 0.14).max(least_size(room.height))
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
    let mut body = Column::new()
        .spacing(h * 0.012)
        .push(head(facts, platform, h));
    body = body.push(heavy((h * 0.006).max(2.0)));
    body = match &up {
        Some(up) => body
            .push(athlete(facts, up, room))
            .push(bar(facts, platform, up, now, h)),
        None => body
            .push(
                text(empty_words(facts, platform, now))
                    .size(least_size(h) * 1.2)
                    .font(font::BOLD),
            )
            .push(before_start(facts, platform, now, h)),
    };
    body = body.push(space().height(Fill)).push(
        row![
            next(facts, platform, up.as_ref(), h),
            leaders(facts, platform, up.as_ref(), h),
        ]
        .spacing(h * 0.04),
    );
    container(body)
        .padding(h * 0.025)
        .width(Fill)
        .height(Fill)
        .into()
}

fn head<'a, M: 'a>(facts: &Facts, platform: u8, h: f32) -> Element<'a, M> {
    let label = facts.platform_label(platform);
    let mut what = match facts.platform(platform).and_then(|p| p.running.as_ref()) {
        Some(r) => {
            let round = see::round(facts, platform);
            let round = round.map(|n| format!(", round {n}")).unwrap_or_default();
            format!("{}, flight {}{round}", see::lift_name(&r.slot), r.flight)
        }
        None => String::new(),
    };
    if facts.platforms.len() > 1 {
        let label = see::capital(&label);
        what = if what.is_empty() {
            label
        } else {
            format!("{label}, {what}")
        };
    }
    row![
        text(facts.name.clone())
            .size(h * 0.038)
            .wrapping(text::Wrapping::None),
        space().width(Fill),
        text(what).size(h * 0.038).wrapping(text::Wrapping::None),
    ]
    .into()
}

fn empty_words(facts: &Facts, platform: u8, now: Stamp) -> String {
    match facts.platform(platform).and_then(|p| p.break_until) {
        Some(until) if until.since(now) > 0 => {
            format!("Break, {} left", show_left(until.since(now)))
        }
        _ => String::new(),
    }
}

/// The times before the session that is next here, a line each; nothing once
/// something was started.
fn before_start<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    now: Stamp,
    h: f32,
) -> Element<'a, M> {
    let waits = facts
        .platform(platform)
        .is_some_and(|p| p.running.is_none());
    let session = plan::session_of(facts, platform).filter(|_| waits);
    let mut lines = Vec::new();
    if let Some(session) = session
        && let Some(times) = plan::times(facts, session, Some(now))
    {
        lines.push(format!("Session {session}"));
        lines.extend(times.iter().map(|time| see::capital(time)));
    }
    let lines = lines
        .into_iter()
        .map(|line| text(line).size(h * 0.06).into());
    Column::with_children(lines).spacing(h * 0.012).into()
}

fn athlete<'a, M: 'a>(facts: &Facts, up: &Up<'_>, room: Size) -> Element<'a, M> {
    let name = see::posted_name(facts, up.entry);
    let h = room.height;
    let size = name_size(&name, room);
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
    h: f32,
) -> Element<'a, M> {
    let big = h * BIG;
    let (own, other) = match up.load {
        Some(mass) => (
            see::load(facts, mass),
            see::other_unit(mass, facts.bar_unit),
        ),
        None => (String::new(), String::new()),
    };
    let load = row![
        text(own)
            .size(big)
            .font(font::BOLD)
            .line_height(1.1)
            .wrapping(text::Wrapping::None),
        text(other).size(h * 0.06).wrapping(text::Wrapping::None),
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
                .size(big)
                .font(font::BOLD)
                .line_height(1.1)
                .wrapping(text::Wrapping::None)
                .into(),
            None => space().into(),
        },
        State::Next => text(empty_words(facts, platform, now))
            .size(h * 0.06)
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

fn next<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    up: Option<&Up<'_>>,
    h: f32,
) -> Element<'a, M> {
    let mut list = Column::new().push(text("Next").size(h * 0.032));
    list = list.push(heavy(2.0));
    for queued in see::following(facts, platform, up).iter().take(3) {
        let Some(entry) = facts.entries.get(&queued.entry) else {
            continue;
        };
        let load = queued.load.as_ref().map(|w| w.show(facts.bar_unit));
        list = list.push(line(
            see::posted_name(facts, entry),
            load.unwrap_or_default(),
            h,
        ));
    }
    list.width(iced::FillPortion(1)).into()
}

fn leaders<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    up: Option<&Up<'_>>,
    h: f32,
) -> Element<'a, M> {
    let sex = up.and_then(|u| u.entry.sex);
    let title = match sex {
        Some(sex) => format!("Best so far, {sex}"),
        None => "Best so far".to_owned(),
    };
    let mut list = Column::new().push(text(title).size(h * 0.032));
    list = list.push(heavy(2.0));
    for (entry, mass) in see::leaders(facts, platform, up, 3) {
        list = list.push(line(
            see::posted_name(facts, entry),
            mass.show(facts.bar_unit),
            h,
        ));
    }
    list.width(iced::FillPortion(1)).into()
}

fn line<'a, M: 'a>(name: String, load: String, h: f32) -> Element<'a, M> {
    let size = h * 0.048;
    row![
        container(text(name).size(size).wrapping(text::Wrapping::None))
            .width(Fill)
            .clip(true),
        text(load)
            .size(size)
            .font(font::BOLD)
            .wrapping(text::Wrapping::None),
    ]
    .spacing(h * 0.02)
    .into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn capitals_are_a_twentieth_of_the_window_however_long_the_name() {
        for (width, height) in [(1920.0, 1080.0), (1366.0, 768.0), (640.0, 480.0)] {
            let room = Size::new(width, height);
            for name in [
                "Bo",
                "Ana Ruiz",
                "Wilhelmina Featherstonehaugh-Cholmondeley",
            ] {
                let capital = name_size(name, room) * font::CAP_HEIGHT;
                assert!(capital >= height / 20.0 - 0.01, "{name}: {capital}");
            }
            assert!(height * BIG * font::CAP_HEIGHT >= height / 20.0);
        }
    }
}
