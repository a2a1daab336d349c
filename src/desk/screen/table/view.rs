//! What the table screen shows, in the order in which the eye needs it.

use iced::widget::{Column, Row, column, container, responsive, row, space, text};
use iced::{Element, Fill, alignment};

use super::{Message, Table};
use crate::day::{Clock, Facts, Queued, Stamp, show_left};
use crate::desk::call_line::owed;
use crate::desk::see::{self, State, Up};
use crate::desk::theme::{self, size};
use crate::desk::widget::lamp::{attempts, cell, heading, heavy, lights};
use crate::desk::{font, widget::list};
use crate::roster::Entry;

/// The height of a row of the queue.
const QUEUE_ROW: f32 = 34.0;
/// The width of one attempt in the queue.
const ATTEMPT: f32 = 54.0;

impl Table {
    /// Shows the table for the platform in hand.
    pub fn view<'a>(
        &'a self,
        facts: &'a Facts,
        platform: u8,
        now: Stamp,
    ) -> Element<'a, Message> {
        let up = see::up(facts, platform, now);
        let main = column![
            self.athlete(facts, platform, up.as_ref()),
            bar_and_clock(facts, platform, up.as_ref(), now),
            self.owing(facts, platform, now),
            space().height(Fill),
            self.call_line(facts, platform),
        ]
        .spacing(10);
        let side = queue_panel(facts, platform, up);
        row![
            container(main).width(iced::FillPortion(62)),
            container(side).width(iced::FillPortion(38)),
        ]
        .spacing(16)
        .padding([10, 14])
        .into()
    }

    fn athlete<'a>(
        &self,
        facts: &'a Facts,
        platform: u8,
        up: Option<&Up<'a>>,
    ) -> Element<'a, Message> {
        let place = place_line(facts, platform);
        let Some(up) = up else {
            return column![
                heading(place),
                heavy(4.0),
                text("Nobody is up.").size(size::NAME),
            ]
            .spacing(4)
            .into();
        };
        let what = match &up.state {
            State::Called(call) if call.following => "Called again",
            State::Called(_) => "Called",
            State::Ruled(ruled) if ruled.fact.ruling.is_good() => "Good lift",
            State::Ruled(_) => "No lift",
            State::Next => "Next, not called yet",
        };
        let name = up.entry.name();
        let name_size = name_size(&name);
        let name = row![
            text(up.entry.number.to_string())
                .size(size::NAME)
                .font(font::BOLD),
            text(name)
                .size(name_size)
                .font(font::BOLD)
                .wrapping(text::Wrapping::None),
        ]
        .align_y(alignment::Vertical::Center)
        .height(size::NAME * 1.36)
        .spacing(18);
        let allowed = facts.attempts_allowed(up.entry.key, &up.slot);
        let mut under = Row::new().spacing(18).align_y(alignment::Vertical::Center);
        under = under.push(text(what).size(size::LARGE).font(font::BOLD));
        under = under.push(
            text(format!(
                "{}, attempt {} of {allowed}",
                see::lift_name(&up.lift),
                up.attempt
            ))
            .size(size::LARGE),
        );
        if !up.entry.team.is_empty() {
            under = under.push(
                text(up.entry.team.clone())
                    .size(size::LARGE)
                    .style(theme::text::muted),
            );
        }
        column![
            heading(place),
            heavy(4.0),
            container(name).clip(true),
            under,
        ]
        .spacing(4)
        .into()
    }

    fn owing<'a>(&self, facts: &Facts, platform: u8, now: Stamp) -> Element<'a, Message> {
        let list = owed(facts, platform, now);
        let mut lines = Column::new().spacing(3);
        lines = lines.push(heading("Owed"));
        if list.is_empty() {
            lines = lines.push(text("Nothing.").size(size::LARGE));
        }
        for (i, sentence) in list.into_iter().take(4).enumerate() {
            let shown = text(sentence);
            lines = lines.push(if i == 0 {
                shown.size(size::LARGE).font(font::BOLD)
            } else {
                shown.size(size::BODY)
            });
        }
        lines.into()
    }
}

/// The platform after one, round again.
pub(super) fn next_of(facts: &Facts, platform: u8) -> u8 {
    if usize::from(platform) >= facts.platforms.len() {
        1
    } else {
        platform + 1
    }
}

/// The type size of a name: a long one is set smaller, so that all of it is
/// read.
fn name_size(name: &str) -> f32 {
    let chars = u16::try_from(name.chars().count().max(1)).unwrap_or(u16::MAX);
    // The line holds 700 pixels of name; an average bold character is 0.6 of
    // the type size wide.
    (700.0 / (f32::from(chars) * 0.6)).clamp(size::BODY, size::NAME)
}

/// Which platform, lift and flight.
fn place_line(facts: &Facts, platform: u8) -> String {
    let label = facts.platform_label(platform);
    let label = see::capital(&label);
    match facts.platform(platform).and_then(|p| p.running.as_ref()) {
        Some(running) => format!(
            "{label}, {}, session {}, flight {}",
            see::lift_name(&running.slot),
            running.session,
            running.flight
        ),
        None => format!("{label}, nothing started"),
    }
}

fn bar_and_clock<'a>(
    facts: &Facts,
    platform: u8,
    up: Option<&Up<'_>>,
    now: Stamp,
) -> Element<'a, Message> {
    let load = up.and_then(|u| u.load);
    let (own, other) = match load {
        Some(mass) => (
            see::load(facts, mass),
            see::other_unit(mass, facts.bar_unit),
        ),
        None if up.is_some() => ("load owed".to_owned(), String::new()),
        None => (String::new(), String::new()),
    };
    let what = match up.map(|u| &u.state) {
        Some(State::Next) => "Next on the bar",
        _ => "On the bar",
    };
    let bar = column![
        heading(what),
        row![
            text(own)
                .size(size::HUGE)
                .font(font::BOLD)
                .line_height(1.1)
                .wrapping(text::Wrapping::None),
            text(other).size(size::TITLE).style(theme::text::muted),
        ]
        .spacing(16)
        .align_y(alignment::Vertical::Center)
    ]
    .width(iced::FillPortion(5));
    let clock = up.and_then(|u| match &u.state {
        State::Called(call) => call.clock,
        State::Ruled(_) | State::Next => None,
    });
    let mut sides = Row::new().spacing(16).push(bar);
    if facts.rules.clock.is_some() {
        sides = sides.push(clock_area(clock, now));
    }
    let given = match up.map(|u| &u.state) {
        Some(State::Ruled(ruled)) => ruled.fact.lights.clone(),
        _ => Vec::new(),
    };
    let said = match up.map(|u| &u.state) {
        Some(State::Ruled(ruled)) => {
            let mut faults: Vec<String> = ruled
                .fact
                .faults
                .iter()
                .map(|f| {
                    crate::lift::catalogue()
                        .fault(&f.code)
                        .map_or_else(|| f.code.clone(), |f| f.text.clone())
                })
                .collect();
            faults.dedup();
            faults.join(", ")
        }
        Some(State::Called(_)) => "to give".to_owned(),
        _ => last_words(facts, platform),
    };
    let lamps = column![
        heading("Lights"),
        row![
            lights(&given, facts.rules.judges, 56.0),
            text(said).size(size::BODY).style(theme::text::muted),
        ]
        .spacing(16)
        .align_y(alignment::Vertical::Center)
    ]
    .spacing(4);
    column![sides, lamps].spacing(6).into()
}

fn clock_area<'a>(clock: Option<Clock>, now: Stamp) -> Element<'a, Message> {
    let Some(clock) = clock else {
        return column![
            heading("Clock"),
            text("not in use")
                .size(size::TITLE)
                .style(theme::text::muted),
        ]
        .width(iced::FillPortion(3))
        .into();
    };
    let left = clock.left_at(now);
    let remark = match (clock.runs(), left) {
        (_, 0) => "time is up; rule it: time",
        (true, _) => "runs",
        (false, _) => "stands",
    };
    column![
        heading(format!("Clock {remark}")),
        text(show_left(left))
            .size(size::HUGE)
            .font(font::BOLD)
            .line_height(1.1)
            .wrapping(text::Wrapping::None),
    ]
    .width(iced::FillPortion(3))
    .into()
}

/// What was given last, in words.
fn last_words(facts: &Facts, platform: u8) -> String {
    see::last_ruled(facts, platform).map_or_else(String::new, |(entry, _, n, ruled)| {
        format!(
            "last: lot {}, attempt {n}, {}",
            entry.number,
            if ruled.fact.ruling.is_good() {
                "good lift".to_owned()
            } else if ruled.fact.ruling.is_no_lift() {
                "no lift".to_owned()
            } else {
                ruled.fact.ruling.to_string()
            }
        )
    })
}

fn queue_panel<'a>(
    facts: &'a Facts,
    platform: u8,
    up: Option<Up<'a>>,
) -> Element<'a, Message> {
    let list = see::following(facts, platform, up.as_ref());
    let total = list.len();
    let wide = facts
        .platform(platform)
        .and_then(|p| p.running.as_ref())
        .map_or(3, |r| facts.widest(&r.slot));
    let mut head = Row::new()
        .push(cell("No.", 44, size::SMALL, false, true))
        .push(space().width(10))
        .push(cell("Name", Fill, size::SMALL, false, false));
    for n in 1..=wide {
        head = head.push(cell(n.to_string(), ATTEMPT, size::SMALL, false, true));
    }
    let mut panel = Column::new()
        .push(heading(match total {
            0 => "Nobody follows".to_owned(),
            1 => "1 follows".to_owned(),
            n => format!("{n} follow, in order"),
        }))
        .push(head)
        .push(heavy(2.0));
    // The athlete in hand first, with a heavy rule below.
    if let Some(up) = up.filter(|u| matches!(u.state, State::Called(_))) {
        let load = up.load.map(|m| m.show(facts.bar_unit));
        panel = panel
            .push(queue_row(facts, up.entry, &up.slot, load, true))
            .push(heavy(3.0));
    }
    let rows = responsive(move |room| {
        let fits = list::rows_in(room.height * size::ROW / QUEUE_ROW);
        let mut rows = Column::new();
        for queued in list.iter().take(fits) {
            rows = rows.push(queued_row(facts, queued));
        }
        rows.width(Fill).into()
    });
    panel = panel.push(rows).spacing(2);
    if facts.platforms.len() > 1 {
        panel = panel.push(others(facts, platform));
    }
    panel.into()
}

/// The other platforms, a line each: who is called or next, and at what.
fn others<'a>(facts: &Facts, platform: u8) -> Element<'a, Message> {
    let mut list = Column::new()
        .spacing(2)
        .push(heading("Elsewhere"))
        .push(heavy(2.0));
    for (number, place) in (1..).zip(&facts.platforms).take(12) {
        if number == platform {
            continue;
        }
        let order = crate::day::queue(facts, number);
        let owing = order.iter().filter(|q| q.load.is_none()).count();
        let first = order.iter().find(|q| q.called).or(order.first());
        let mut words = match first.and_then(|q| Some((q, facts.entries.get(&q.entry)?)))
        {
            Some((q, entry)) => {
                let state = if q.called { "called" } else { "next" };
                format!(
                    "{} {}, {} {state}",
                    entry.number,
                    entry.name(),
                    see::maybe(facts, q.load.as_ref())
                )
            }
            None if place.running.is_some() => "done".to_owned(),
            None => "nothing started".to_owned(),
        };
        if owing > 0 {
            words = format!("{words}; {owing} owed");
        }
        let label = facts.platform_label(number);
        list = list.push(
            row![
                cell(label, 96, size::BODY, true, false),
                cell(words, Fill, size::BODY, false, false),
            ]
            .spacing(8),
        );
    }
    list.into()
}

fn queued_row<'a>(facts: &'a Facts, queued: &Queued) -> Element<'a, Message> {
    let Some(entry) = facts.entries.get(&queued.entry) else {
        return space().into();
    };
    let load = see::maybe(facts, queued.load.as_ref());
    queue_row(facts, entry, &queued.slot, Some(load), false)
}

fn queue_row<'a>(
    facts: &Facts,
    entry: &Entry,
    slot: &crate::lift::Slug,
    load: Option<String>,
    in_hand: bool,
) -> Element<'a, Message> {
    let type_size = if in_hand {
        size::LARGE
    } else {
        size::BODY + 1.0
    };
    let runs = see::written(facts, entry.key, slot);
    let blocked = matches!(
        entry.clearance_for(slot),
        Some(crate::roster::Clearance::No)
    );
    let name = if blocked {
        format!("{} (not cleared)", entry.name())
    } else {
        entry.name()
    };
    row![
        cell(entry.number.to_string(), 44, type_size, true, true),
        space().width(10),
        cell(name, Fill, type_size, in_hand, false),
        attempts(&runs, load, ATTEMPT, type_size),
    ]
    .height(QUEUE_ROW)
    .align_y(alignment::Vertical::Center)
    .into()
}
