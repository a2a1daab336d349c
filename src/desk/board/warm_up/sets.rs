//! The warm-up sets that are due next, under the rows of the board.

use iced::widget::{Column, row, space};
use iced::{Element, Fill};

use crate::day::{Facts, Stamp};
use crate::desk::see;
use crate::desk::widget::lamp::{cell, heavy};
use crate::sheets::{Audience, name_for, to_minute, warm_up_rows};

/// How many sets are shown.
const MOST: usize = 5;

/// The type size of a set, as a part of the window's height.
const SIZE: f32 = 0.038;

/// The height of a set's line, as a part of the window's height.
const LINE: f32 = 0.054;

/// One set that is due, as it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetLine {
    /// Table number.
    pub number: String,
    /// The name by the posting policy.
    pub name: String,
    /// Before which lift.
    pub lift: String,
    /// Which set: `3 of 4`.
    pub set: String,
    /// Load and repetitions.
    pub load: String,
    /// When, to the minute, or that it is due.
    pub at: String,
    /// About how many attempts out.
    pub out: String,
}

/// The sets that are due next on a platform, in the order of their times.
pub fn lines(facts: &Facts, platform: u8, now: Stamp) -> Vec<SetLine> {
    let rows = warm_up_rows(facts, platform, now).into_iter();
    let rows = rows.filter_map(|row| {
        let entry = facts.entries.get(&row.entry)?;
        let set = &row.set;
        Some(SetLine {
            number: entry.number.to_string(),
            name: name_for(facts, entry, Audience::Posted),
            lift: see::lift_name(&row.lift),
            set: format!("{} of {}", set.number, set.of),
            load: set.load_words(facts),
            at: match set.at.ms <= now.ms {
                true => "now".to_owned(),
                false => to_minute(set.at).clock_time(),
            },
            out: set.out.to_string(),
        })
    });
    rows.take(MOST).collect()
}

/// The part of the window's height that so many sets take.
pub(super) fn height(sets: usize) -> f32 {
    let lines = u16::try_from(sets.min(MOST)).unwrap_or(0);
    match lines {
        0 => 0.0,
        lines => f32::from(lines) * LINE + 0.06,
    }
}

/// The sets as a table, with what heads the numbers; nothing where none is due.
pub(super) fn block<'a, M: 'a>(number: &str, sets: &[SetLine], h: f32) -> Element<'a, M> {
    if sets.is_empty() {
        return space().into();
    }
    let heads = [
        number,
        "Sets by estimate; the coach decides",
        "before",
        "set",
        "load",
        "at",
        "attempts out",
    ];
    let mut list =
        Column::new().push(line(heads.map(str::to_owned), h, h * 0.026, false));
    list = list.push(heavy((h * 0.003).max(1.0)));
    for set in sets {
        let set = set.clone();
        let words = [
            set.number, set.name, set.lift, set.set, set.load, set.at, set.out,
        ];
        list = list.push(line(words, h, h * SIZE, true));
    }
    list.width(Fill).into()
}

fn line<'a, M: 'a>(words: [String; 7], h: f32, size: f32, bold: bool) -> Element<'a, M> {
    let [number, name, lift, set, load, at, out] = words;
    let right = |words, width: f32, bold| cell(words, width * h, size, bold, true);
    row![
        cell(number, 0.08 * h, size, false, false),
        cell(name, Fill, size, bold, false),
        cell(lift, 0.33 * h, size, false, false),
        right(set, 0.13, false),
        right(load, 0.27, bold),
        right(at, 0.16, bold),
        right(out, 0.18, false),
    ]
    .spacing(h * 0.01)
    .width(Fill)
    .into()
}
