//! When sessions are likely to end, and what the other platforms do.

use iced::widget::{Column, column, container, row, text};
use iced::{Element, Fill, alignment};

use super::Message;
use super::line::press;
use super::view::next_of;
use crate::day::{Facts, Stamp};
use crate::desk::action::Action;
use crate::desk::theme::size;
use crate::desk::widget::lamp::{cell, heading, heavy};
use crate::desk::{font, see};
use crate::sheets::{Ending, InTime, Move, ending, suggested_move};

/// To how many other platforms two lines each are given.
const OTHERS: usize = 4;

/// When the platform's own session is likely to end.
pub(super) fn ending_line<'a>(ending: &Ending) -> Element<'a, Message> {
    let words = format!(
        "Left of session {} here: {}.",
        ending.session,
        ending.words()
    );
    text(words)
        .size(size::SMALL)
        .font(ending_font(ending))
        .into()
}

/// Bold where it won't end in time, beside the words that say so.
fn ending_font(ending: &Ending) -> iced::Font {
    match ending.in_time() {
        Some(InTime::No) => font::BOLD,
        _ => font::REGULAR,
    }
}

/// The other platforms: what is owed there, who is called or next and at what,
/// and when their sessions are likely to end. Where there are many, a line
/// each without the athlete.
pub(super) fn others<'a>(
    facts: &Facts,
    platform: u8,
    now: Stamp,
) -> Element<'a, Message> {
    let next = see::capital(&facts.platform_label(next_of(facts, platform)));
    let head = row![
        container(heading("Elsewhere")).width(Fill),
        press(format!("Ctrl+P {next}"), Action::NextPlatform),
    ];
    let mut list = Column::new()
        .spacing(2)
        .push(head.align_y(alignment::Vertical::Bottom))
        .push(heavy(2.0));
    let many = facts.platforms.len() > OTHERS + 1;
    let numbers = (1..).zip(&facts.platforms).map(|(n, _)| n);
    for number in numbers.take(12).filter(|n| *n != platform) {
        let elsewhere = Elsewhere::of(facts, number, now, many);
        let label = see::capital(&facts.platform_label(number));
        let label = cell(label, 96, size::BODY, true, false);
        let bold = elsewhere.font;
        let time = elsewhere.time;
        let (first, second) = match many {
            true => (joined(elsewhere.owed, time.or(Some(elsewhere.who))), None),
            false => (joined(elsewhere.owed, Some(elsewhere.who)), time),
        };
        let small = |words: String| {
            container(
                text(words)
                    .size(size::SMALL)
                    .font(bold)
                    .wrapping(text::Wrapping::None),
            )
            .width(Fill)
            .clip(true)
        };
        let words: Element<'a, Message> = if many {
            small(first).into()
        } else {
            column![cell(first, Fill, size::BODY, false, false)]
                .push(second.map(small))
                .into()
        };
        list = list.push(row![label, words].spacing(8));
    }
    if let Some(moved) = suggestion(facts, platform, now) {
        let words = text(moved.sentence(facts)).size(size::SMALL);
        list = list.push(words.font(font::BOLD));
    }
    list.into()
}

/// Who might go to another platform: from the one in hand, else from the first
/// that won't end in time.
fn suggestion(facts: &Facts, platform: u8, now: Stamp) -> Option<Move> {
    let others = (1..).zip(&facts.platforms).map(|(n, _)| n);
    std::iter::once(platform)
        .chain(others)
        .find_map(|from| suggested_move(facts, from, now))
}

/// What is said of another platform.
struct Elsewhere {
    /// How much is owed, if anything is.
    owed: Option<String>,
    /// Who is called or next.
    who: String,
    /// When its session is likely to end.
    time: Option<String>,
    /// The type of that.
    font: iced::Font,
}

impl Elsewhere {
    fn of(facts: &Facts, number: u8, now: Stamp, many: bool) -> Self {
        let order = crate::day::queue(facts, number);
        let owing = order.iter().filter(|q| q.load.is_none()).count();
        let first = order.iter().find(|q| q.called).or(order.first());
        let who = match first.and_then(|q| Some((q, facts.entries.get(&q.entry)?))) {
            Some((q, entry)) => {
                let state = if q.called { "called" } else { "next" };
                format!(
                    "{state}: {} {}, {}",
                    entry.number,
                    entry.name(),
                    see::maybe(facts, q.load.as_ref())
                )
            }
            None if facts.platform(number).is_some_and(|p| p.running.is_some()) => {
                "done".to_owned()
            }
            None => "nothing started".to_owned(),
        };
        let ending = ending(facts, number, now);
        Self {
            owed: (owing > 0).then(|| format!("{owing} owed")),
            who,
            font: ending.as_ref().map_or(font::REGULAR, ending_font),
            time: ending.map(|e| match many && owing > 0 {
                true => e.time_words(),
                false => e.words(),
            }),
        }
    }
}

fn joined(owed: Option<String>, words: Option<String>) -> String {
    let parts: Vec<String> = owed.into_iter().chain(words).collect();
    parts.join("; ")
}
