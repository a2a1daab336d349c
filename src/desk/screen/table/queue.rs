//! The queue on the table screen: who follows, with attempts and rest.

use iced::widget::{Column, Row, responsive, row, space};
use iced::{Element, Fill, alignment};

use super::Message;
use crate::day::{Facts, Stamp};
use crate::desk::see::{self, State, Up};
use crate::desk::theme::size;
use crate::desk::widget::lamp::{Shown, attempts, cell, heading, heavy};
use crate::desk::widget::list;
use crate::lift::Slug;
use crate::roster::{Clearance, Entry};
use crate::rules::Reps;

/// The height of a row of the queue.
const QUEUE_ROW: f32 = 34.0;
/// The width of one attempt in the queue.
const ATTEMPT: f32 = 54.0;
/// The same where repetitions stand behind a load.
const ATTEMPT_OF_REPS: f32 = 72.0;
/// The width of what is said of rest in the queue.
const MARK: f32 = 72.0;
/// The same where somebody asks for a record.
const MARK_OF_RECORD: f32 = 102.0;

/// The columns of the queue.
#[derive(Debug, Clone, Copy)]
struct Columns {
    /// How many attempts are shown.
    attempts: u8,
    /// The width of an attempt.
    width: f32,
    /// The width of what is said of rest and records, if anything is.
    mark: Option<f32>,
}

impl Columns {
    /// A row of the queue; without a mark it is the athlete in hand, in larger
    /// type.
    fn row<'a>(
        self,
        facts: &Facts,
        entry: &Entry,
        slot: &Slug,
        load: Option<String>,
        mark: Option<String>,
    ) -> Element<'a, Message> {
        let in_hand = mark.is_none();
        let type_size = if in_hand {
            size::LARGE
        } else {
            size::BODY + 1.0
        };
        let mut runs = see::written(facts, entry.key, slot);
        // Whoever has fewer attempts than another leaves the last ones blank.
        let blank = Some(Shown {
            text: String::new(),
            struck: false,
        });
        runs.resize(runs.len().max(usize::from(self.attempts)), blank);
        let blocked = matches!(facts.clearance(entry, slot), Some(Clearance::No));
        let name = if blocked {
            format!("{} (not cleared)", entry.name())
        } else {
            entry.name()
        };
        let mark = mark
            .zip(self.mark)
            .map(|(mark, width)| cell(mark, width, size::SMALL, false, true));
        row![
            cell(entry.number.to_string(), 44, type_size, true, true),
            space().width(10),
            cell(name, Fill, type_size, in_hand, false),
        ]
        .push(mark)
        .push(attempts(&runs, load, self.width, type_size))
        .height(QUEUE_ROW)
        .align_y(alignment::Vertical::Center)
        .into()
    }
}

/// The queue of a platform, and the other platforms a line each.
pub(super) fn queue_panel<'a>(
    facts: &'a Facts,
    platform: u8,
    up: Option<Up<'a>>,
    now: Stamp,
) -> Element<'a, Message> {
    let list = see::following(facts, platform, up.as_ref());
    let total = list.len();
    let wide = facts
        .platform(platform)
        .and_then(|p| p.running.as_ref())
        .map_or(3, |r| facts.widest(&r.slot));
    let marks = list.iter().map(|q| see::mark(facts, q, now));
    let longest = marks.map(|m| m.len()).max().unwrap_or(0);
    let columns = Columns {
        attempts: wide,
        width: match facts.rules.reps {
            Reps::Single => ATTEMPT,
            Reps::Multiple => ATTEMPT_OF_REPS,
        },
        // Beside many attempts there is no room for marks.
        mark: match longest {
            0 => None,
            _ if wide > 4 => None,
            1..=10 => Some(MARK),
            _ => Some(MARK_OF_RECORD),
        },
    };
    let mut head = Row::new()
        .push(cell("No.", 44, size::SMALL, false, true))
        .push(space().width(10))
        .push(cell("Name", Fill, size::SMALL, false, false))
        .push(
            columns
                .mark
                .map(|w| cell("Rest", w, size::SMALL, false, true)),
        );
    for n in 1..=wide {
        head = head.push(cell(n.to_string(), columns.width, size::SMALL, false, true));
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
            .push(columns.row(facts, up.entry, &up.slot, load, None))
            .push(heavy(3.0));
    }
    let rows = responsive(move |room| {
        let fits = list::rows_in(room.height * size::ROW / QUEUE_ROW);
        let mut rows = Column::new();
        for queued in list.iter().take(fits) {
            let Some(entry) = facts.entries.get(&queued.entry) else {
                continue;
            };
            let load = see::maybe(facts, queued.load.as_ref());
            let mark = see::mark(facts, queued, now);
            rows = rows.push(columns.row(
                facts,
                entry,
                &queued.slot,
                Some(load),
                Some(mark),
            ));
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
