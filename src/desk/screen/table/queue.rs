//! The queue on the table screen: who follows, with attempts and rest.

use std::collections::BTreeMap;

use iced::widget::{Column, Row, responsive, row, space};
use iced::{Element, Fill, alignment};

use super::Message;
use super::elsewhere::{ending_line, others};
use crate::day::pace::{Expected, calls};
use crate::day::{Facts, Queued, Stamp};
use crate::desk::see::{self, State, Up};
use crate::desk::theme::size;
use crate::desk::widget::figures;
use crate::desk::widget::grid::shortened;
use crate::desk::widget::lamp::{Shown, attempts, cell, heading, heavy};
use crate::desk::widget::list;
use crate::lift::Slug;
use crate::measure::Mass;
use crate::roster::{Clearance, Entry, EntryKey};
use crate::rules::Reps;
use crate::sheets::{ending, expected_words, to_minute};

/// The height of a row of the queue.
const QUEUE_ROW: f32 = 34.0;
/// The width of one attempt in the queue.
const ATTEMPT: f32 = 58.0;
/// The same where repetitions stand behind a load.
const ATTEMPT_OF_REPS: f32 = 74.0;
/// The width of what is said of rest in the queue.
const MARK: f32 = 80.0;
/// The same where somebody asks for a record.
const MARK_OF_RECORD: f32 = 110.0;
/// The width of a predicted call.
const ABOUT: f32 = 52.0;
/// What the queue's columns share on a small screen, the number left out.
const ROOM: f32 = 472.0;
/// What a short name needs of it.
const NAME: f32 = 130.0;
/// What a letter of a longer one needs of it.
const LETTER: f32 = 9.2;

/// The columns of the queue.
#[derive(Debug, Clone)]
struct Columns {
    /// How many attempts are shown.
    attempts: u8,
    /// The width of an attempt.
    width: f32,
    /// The width of what is said of rest and records, if anything is.
    mark: Option<f32>,
    /// The width of a predicted call, where there is room for it.
    about: Option<f32>,
    /// The room for a name on a small screen.
    name: f32,
    /// How many figures stand behind the point of a load of each attempt.
    points: Vec<usize>,
}

/// What a row says of time; the athlete in hand has none of it.
struct Times {
    /// Rest, or a record's request.
    mark: String,
    /// When the call is likely.
    about: String,
}

impl Columns {
    /// A row of the queue; without times it is the athlete in hand, in larger
    /// type.
    fn row<'a>(
        &self,
        facts: &Facts,
        entry: &Entry,
        slot: &Slug,
        load: Option<String>,
        times: Option<Times>,
    ) -> Element<'a, Message> {
        let in_hand = times.is_none();
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
        // Widths are told for ordinary type.
        let name = match in_hand {
            true => shortened(&name, self.name * 17.0 / type_size, true),
            false => shortened(&name, self.name * size::BODY / type_size, false),
        };
        let (mark, about) = times.map(|t| (t.mark, t.about)).unzip();
        let small = |words: Option<String>, width: Option<f32>| {
            words
                .zip(width)
                .map(|(words, width)| cell(words, width, size::SMALL, false, true))
        };
        let (mark, about) = (small(mark, self.mark), small(about, self.about));
        row![
            cell(entry.number.to_string(), 44, type_size, true, true),
            space().width(10),
            cell(name, Fill, type_size, in_hand, false),
        ]
        .push(about)
        .push(mark)
        .push(attempts(&runs, load, (self.width, &self.points), type_size))
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
    let width = match facts.rules.reps {
        Reps::Single => ATTEMPT,
        Reps::Multiple => ATTEMPT_OF_REPS,
    };
    // Beside many attempts there is no room for marks.
    let mark = match longest {
        0 => None,
        _ if wide > 4 => None,
        1..=10 => Some(MARK),
        _ => Some(MARK_OF_RECORD),
    };
    let names = list.iter().filter_map(|q| facts.entries.get(&q.entry));
    let letters = names.map(|e| e.name().chars().count()).max().unwrap_or(0);
    let letters = u16::try_from(letters).unwrap_or(u16::MAX);
    let room = ROOM - f32::from(wide) * width;
    let need = (f32::from(letters) * LETTER).max(NAME);
    let fits = |mark: Option<f32>, about: Option<f32>| {
        room - mark.unwrap_or(0.0) - about.unwrap_or(0.0) >= need
    };
    // A name is shown whole before the call is predicted, and that before it is
    // said that everybody is rested.
    let only_rested = list
        .iter()
        .map(|q| see::mark(facts, q, now))
        .all(|m| m.is_empty() || m == see::RESTED);
    let (mark, about) = if fits(mark, Some(ABOUT)) {
        (mark, Some(ABOUT))
    } else if only_rested && fits(None, Some(ABOUT)) {
        (None, Some(ABOUT))
    } else if only_rested && !fits(mark, None) {
        (None, None)
    } else {
        (mark, None)
    };
    let columns = Columns {
        attempts: wide,
        width,
        mark,
        about,
        name: room - mark.unwrap_or(0.0) - about.unwrap_or(0.0),
        points: points(facts, &list, up.as_ref(), wide),
    };
    let predicted = Predicted::of(facts, platform, now);
    let mut head = Row::new()
        .push(cell(
            see::number_heading(facts),
            44,
            size::SMALL,
            false,
            true,
        ))
        .push(space().width(10))
        .push(cell("Name", Fill, size::SMALL, false, false))
        .push(
            columns
                .about
                .map(|w| cell("About", w, size::SMALL, false, true)),
        )
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
        .push(predicted.sentence(&list).map(heading))
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
            let times = Times {
                mark: see::mark(facts, queued, now),
                about: predicted.about(queued),
            };
            rows = rows.push(columns.row(
                facts,
                entry,
                &queued.slot,
                Some(load),
                Some(times),
            ));
        }
        rows.width(Fill).into()
    });
    panel = panel.push(rows).spacing(2);
    if let Some(ending) = ending(facts, platform, now) {
        panel = panel.push(ending_line(&ending));
    }
    if facts.platforms.len() > 1 {
        panel = panel.push(others(facts, platform, now));
    }
    panel.into()
}

/// How many figures stand behind the points of the loads of each attempt.
fn points(facts: &Facts, list: &[Queued], up: Option<&Up<'_>>, wide: u8) -> Vec<usize> {
    let load = |mass: Mass| mass.show(facts.bar_unit);
    let in_hand = up.map(|up| {
        (
            up.entry.key,
            &up.slot,
            up.load.map(load).unwrap_or_default(),
        )
    });
    let queued = list
        .iter()
        .map(|q| (q.entry, &q.slot, see::maybe(facts, q.load.as_ref())));
    let runs = queued.chain(in_hand).map(|(entry, slot, load)| {
        let runs = see::written(facts, entry, slot).into_iter().flatten();
        let runs = runs.map(|run| run.text).chain([load]);
        runs.collect::<Vec<String>>()
    });
    let runs: Vec<Vec<String>> = runs.collect();
    (0..usize::from(wide))
        .map(|n| figures::most(runs.iter().filter_map(|run| run.get(n).cloned())))
        .collect()
}

/// When those of a queue are likely to be called.
struct Predicted(BTreeMap<EntryKey, Expected>);

impl Predicted {
    fn of(facts: &Facts, platform: u8, now: Stamp) -> Self {
        let order = crate::day::queue(facts, platform);
        let calls = calls(facts, platform, &order, now);
        Self(order.iter().map(|q| q.entry).zip(calls).collect())
    }

    /// The minute, for a column.
    fn about(&self, queued: &Queued) -> String {
        let at = self.0.get(&queued.entry).map(|e| to_minute(e.at));
        at.map(Stamp::clock_time).unwrap_or_default()
    }

    /// The first and the last of those who follow, as a sentence; the last is
    /// the least sure.
    fn sentence(&self, list: &[Queued]) -> Option<String> {
        let of = |q: &Queued| self.0.get(&q.entry);
        let (first, last) = (of(list.first()?)?, of(list.last()?)?);
        let last = expected_words(last);
        Some(match list.len() {
            1 => format!("Likely to be called about {last}."),
            _ => {
                let first = to_minute(first.at).clock_time();
                format!("First about {first}, last about {last}.")
            }
        })
    }
}
