//! What the table screen shows, in the order in which the eye needs it.

use iced::widget::{Column, Row, column, container, row, space, text};
use iced::{Element, Fill, alignment};

use super::queue::queue_panel;
use super::quick::{loads, reasons};
use super::{Message, Table};
use crate::day::{Clock, Facts, Stamp, show_left};
use crate::desk::call_line::{ReasonFor, owed, reasons_by_key, remarks};
use crate::desk::font;
use crate::desk::see::{self, State, Up};
use crate::desk::theme::{self, size};
use crate::desk::widget::lamp::{heading, heavy, lights};
use crate::sheets::{ClockMark, mark_at, one_side};

/// How many lines of what is owed and remarks are shown.
const LINES: usize = 5;

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
            bar_and_clock(facts, platform, up.as_ref(), now, self.clock_to_come),
            Column::new().push(loads(facts, platform)),
            // What is owed is cut off before it pushes the call line out.
            container(self.owing(facts, platform, now))
                .height(Fill)
                .clip(true),
            self.call_line(facts),
        ]
        .spacing(10);
        let side = queue_panel(facts, platform, up, now);
        row![
            container(main).width(iced::FillPortion(60)),
            container(side).width(iced::FillPortion(40)),
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
        // The loads and reasons above take room: all is set smaller under them.
        let quick = usize::from(loads(facts, platform).is_some())
            + usize::from(reasons(facts, platform).is_some());
        let (first, most) = match quick {
            0 => (size::LARGE, LINES),
            rows => (size::BODY, LINES - 1 - rows),
        };
        let mut lines = Column::new().spacing(3);
        lines = lines.push(heading("Owed"));
        if list.is_empty() {
            lines = lines.push(text("Nothing.").size(size::LARGE));
        }
        let owes = list.len().min(most - 1);
        for (i, sentence) in list.into_iter().take(most - 1).enumerate() {
            let shown = text(sentence);
            lines = lines.push(if i == 0 {
                shown.size(first).font(font::BOLD)
            } else {
                shown.size(size::BODY)
            });
        }
        for remark in remarks(facts, platform, now)
            .into_iter()
            .take(most - owes.max(1))
        {
            lines = lines.push(text(remark).size(size::BODY).style(theme::text::muted));
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
        Some(running) => {
            let round = see::round(facts, platform);
            let round = round.map(|n| format!(", round {n}")).unwrap_or_default();
            format!(
                "{label}, {}, session {}, flight {}{round}",
                see::lift_name(&running.slot),
                running.session,
                running.flight
            )
        }
        None => format!("{label}, nothing started"),
    }
}

fn bar_and_clock<'a>(
    facts: &Facts,
    platform: u8,
    up: Option<&Up<'_>>,
    now: Stamp,
    to_come: Option<u32>,
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
    let record =
        up.is_some_and(|u| see::for_record(facts, u.entry.key, &u.slot, u.attempt));
    let what = match (up.map(|u| &u.state), record) {
        (None, _) => "",
        (Some(State::Next), false) => "Next on the bar",
        (Some(State::Next), true) => "Next on the bar, for a record",
        (_, false) => "On the bar",
        (_, true) => "On the bar, for a record",
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
        .align_y(alignment::Vertical::Center),
        side_line(facts, platform, up),
    ]
    .width(iced::FillPortion(5));
    let clock = up.and_then(|u| match &u.state {
        State::Called(call) => call.clock,
        State::Ruled(_) | State::Next => None,
    });
    let mut sides = Row::new().spacing(16).push(bar);
    if let Some(seconds) = facts.rules.clock {
        let called = up.is_some_and(|u| matches!(u.state, State::Called(_)));
        sides = sides.push(match clock {
            None if up.is_none() => space().width(iced::FillPortion(3)).into(),
            None if !called => clock_to_come(to_come.unwrap_or(seconds)),
            clock => clock_area(facts, clock, now),
        });
    }
    let given = match up.map(|u| &u.state) {
        Some(State::Ruled(ruled)) => ruled.fact.lights.clone(),
        _ => Vec::new(),
    };
    let quick = reasons(facts, platform);
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
        Some(State::Called(_)) => to_give(facts.rules.judges),
        _ => last_words(facts, platform),
    };
    // Whose lift the reasons are for: somebody else may be up already.
    let named = reasons_by_key(facts, platform).map(|(what, _)| what);
    let all = if facts.rules.judges == 1 { "" } else { "all " };
    let above = match named {
        None => "Lights".to_owned(),
        Some(ReasonFor::Given(number)) => {
            format!("Just lifted, lot {number}; the reason, with Alt:")
        }
        Some(ReasonFor::Red(number)) => {
            format!("Lights for lot {number}; {all}red with the reason, Alt:")
        }
    };
    let mut beside = Column::new().spacing(3);
    if quick.is_none() || matches!(named, Some(ReasonFor::Red(_))) {
        beside = beside.push(text(said).size(size::BODY).style(theme::text::muted));
    }
    let lamps = column![
        heading(above),
        row![lights(&given, facts.rules.judges, 56.0), beside.push(quick),]
            .spacing(16)
            .align_y(alignment::Vertical::Center)
    ]
    .spacing(4);
    column![sides, lamps].spacing(6).into()
}

/// Which keys give the lights.
fn to_give(judges: u8) -> String {
    if judges == 1 {
        return "Ctrl+G white, Ctrl+R red.".to_owned();
    }
    format!(
        "Ctrl+G all white, Ctrl+R all red. Ctrl+1 to {judges}: only that judge red; with \
         Shift: only that judge white."
    )
}

/// The discs of one side for what is on the bar, or that they can't make it.
fn side_line<'a>(
    facts: &Facts,
    platform: u8,
    up: Option<&Up<'_>>,
) -> Element<'a, Message> {
    let side = up
        .and_then(|up| Some((up.entry, up.load?)))
        .map(|(entry, load)| one_side(facts, platform, entry, load));
    let line = match side {
        Some(Ok(side)) => text(see::capital(&side)),
        Some(Err(why)) => text(format!("{why}.")).style(theme::text::warning),
        None => text(""),
    };
    // The foot of a g reaches far down in the load's type.
    container(line.size(size::BODY))
        .padding(iced::Padding::default().top(8))
        .into()
}

/// The clock before a call: its length, which it starts from.
fn clock_to_come<'a>(seconds: u32) -> Element<'a, Message> {
    column![
        heading("Clock starts with the call"),
        text(show_left(i64::from(seconds) * 1000))
            .size(size::HUGE)
            .line_height(1.1)
            .style(theme::text::muted)
            .wrapping(text::Wrapping::None),
    ]
    .width(iced::FillPortion(3))
    .into()
}

fn clock_area<'a>(
    facts: &Facts,
    clock: Option<Clock>,
    now: Stamp,
) -> Element<'a, Message> {
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
    let final_call = mark_at(&facts.rules, left) == Some(ClockMark::FinalCall);
    let remark = match (clock.runs(), left) {
        (_, 0) => "time is up; rule it: time",
        (true, _) if final_call => "runs: final call",
        (true, _) => "runs",
        (false, _) => "stands",
    };
    // Words and weight say it; the colour only helps.
    let marked = (final_call && clock.runs()) || left == 0;
    let (head, digits) = (format!("Clock {remark}"), show_left(left));
    let (head, digits): (Element<'a, Message>, text::Text<'a>) = if marked {
        // As high as a small heading, so that the digits stay where they are.
        let head = text(head).size(size::BODY).font(font::BOLD);
        let head = head.line_height(size::SMALL * 1.3 / size::BODY);
        let style = theme::text::warning;
        (head.style(style).into(), text(digits).style(style))
    } else {
        (heading(head), text(digits))
    };
    column![
        head,
        digits
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
            "Last: lot {}, attempt {n}, {}",
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
