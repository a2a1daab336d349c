//! What every board has: its margin, its head, and the times while nobody is
//! up.

use iced::widget::{Column, column, container, row, space, text};
use iced::{Element, Fill};

use super::least_size;
use crate::day::{Facts, Stamp, show_left};
use crate::desk::widget::lamp::heavy;
use crate::desk::{font, plan, see};

/// The margin, as a part of the window's height.
pub(super) const MARGIN: f32 = 0.025;

/// A board's content under its head; the head has the board's title, or the
/// day's name where that is empty.
pub(super) fn framed<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    title: &'static str,
    h: f32,
    body: Column<'a, M>,
) -> Element<'a, M> {
    let all = column![
        head(facts, platform, title, h),
        heavy((h * 0.006).max(2.0)),
        body.height(Fill),
    ];
    container(all.spacing(h * 0.012))
        .padding(h * MARGIN)
        .width(Fill)
        .height(Fill)
        .into()
}

fn head<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    title: &'static str,
    h: f32,
) -> Element<'a, M> {
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
    let left = match title {
        "" => facts.name.clone(),
        title => title.to_owned(),
    };
    row![
        text(left).size(h * 0.038).wrapping(text::Wrapping::None),
        space().width(Fill),
        text(what).size(h * 0.038).wrapping(text::Wrapping::None),
    ]
    .into()
}

/// The break that lasts on a platform, with what is left of it.
pub(super) fn break_words(facts: &Facts, platform: u8, now: Stamp) -> Option<String> {
    let until = facts.platform(platform)?.break_until?;
    let left = until.since(now);
    (left > 0).then(|| format!("Break, {} left", show_left(left)))
}

/// A break, and the times before the session that is next here, a line each;
/// none of them once something was started.
pub(super) fn times<'a, M: 'a>(
    facts: &Facts,
    platform: u8,
    now: Stamp,
    h: f32,
) -> Column<'a, M> {
    let waits = facts
        .platform(platform)
        .is_some_and(|p| p.running.is_none());
    let session = plan::session_of(facts, platform).filter(|_| waits);
    let mut lines: Vec<String> = break_words(facts, platform, now).into_iter().collect();
    if let Some(session) = session
        && let Some(times) = plan::times(facts, session, Some(now))
    {
        lines.push(format!("Session {session}"));
        lines.extend(times.iter().map(|time| see::capital(time)));
    }
    let lines = lines
        .into_iter()
        .map(|line| text(line).size(times_size(h)).font(font::BOLD).into());
    Column::with_children(lines).spacing(h * 0.012)
}

/// The type size of a break and of a session's times.
pub(super) fn times_size(h: f32) -> f32 {
    least_size(h) * 1.05
}
