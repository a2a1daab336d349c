//! When to take which warm-up set before an opener.
//!
//! General education, as all of it: coaches and local policy decide.

use std::sync::OnceLock;

use serde::Deserialize;

use super::time::to_minute;
use crate::bar::nearest;
use crate::day::pace::pace;
use crate::day::{Facts, Opener, Stamp, openers};
use crate::measure::Mass;
use crate::roster::EntryKey;

/// One step of the warm-up.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Share of the opener in percent, 1 to 99.
    pub percent: u8,
    /// How often it is lifted, in words.
    pub repetitions: String,
}

/// `resources/warmup.toml` as it is written.
#[derive(Debug, Clone, PartialEq, Eq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Book {
    /// Where the steps come from: for whoever reads the file.
    #[serde(rename = "source")]
    _source: String,
    /// Minutes from the last set to the call.
    last: u8,
    /// Minutes from one set to the next.
    between: u8,
    step: Vec<Step>,
}

fn book() -> &'static Book {
    static BOOK: OnceLock<Book> = OnceLock::new();
    // Compiled in, and a test reads it.
    BOOK.get_or_init(|| {
        toml::from_str(include_str!("../../resources/warmup.toml")).unwrap_or_default()
    })
}

/// The steps of the warm-up, from the lightest.
///
/// Source: published protocols for a one-repetition maximum, named in
/// `resources/warmup.toml`.
pub fn warm_up_steps() -> &'static [Step] {
    &book().step
}

/// Further ahead than this, in milliseconds, a set isn't shown.
const AHEAD: i64 = 20 * 60_000;

/// A set is still due so long after its time, in milliseconds.
const DUE: i64 = 90_000;

/// One set of the warm-up before an opener.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WarmUpSet {
    /// Which set, from 1.
    pub number: u8,
    /// Of how many.
    pub of: u8,
    /// Its load; `None` is the empty bar.
    pub load: Option<Mass>,
    /// How often it is lifted, in words.
    pub repetitions: String,
    /// When to take it.
    pub at: Stamp,
    /// How many attempts are then likely to come before the call.
    pub out: u32,
}

/// The sets before an opener on a platform, with when to take them.
///
/// Each load is the heaviest that the discs on hand can make and that is no
/// more than the step's share of the opener; steps of the same load are one
/// set. The last set is some minutes before the call, the others before it
/// (`resources/warmup.toml`).
pub fn warm_up_sets(facts: &Facts, platform: u8, opener: &Opener) -> Vec<WarmUpSet> {
    let queued = &opener.queued;
    let entry = facts.entries.get(&queued.entry);
    let Some((entry, load)) = entry.zip(queued.load.as_ref()) else {
        return Vec::new();
    };
    let bar = facts.empty_bar(platform, entry);
    let mut loads: Vec<(Option<Mass>, &Step)> = Vec::new();
    for step in warm_up_steps() {
        let share = load.mass.percent(i64::from(step.percent));
        let made = nearest(facts.discs(platform), bar, share).below;
        let made = made.filter(|m| *m > bar);
        if loads.last().is_none_or(|(before, _)| *before != made) {
            loads.push((made, step));
        }
    }
    let of = u8::try_from(loads.len()).unwrap_or(u8::MAX);
    let book = book();
    (1..=of)
        .zip(loads)
        .map(|(number, (load, step))| {
            let minutes =
                i64::from(book.last) + i64::from(of - number) * i64::from(book.between);
            let at = opener.call.at.plus_ms(-minutes * 60_000);
            WarmUpSet {
                number,
                of,
                load,
                repetitions: step.repetitions.clone(),
                at,
                out: out_at(facts, platform, opener, at),
            }
        })
        .collect()
}

/// How many attempts are likely to come before an opener from a moment on.
fn out_at(facts: &Facts, platform: u8, opener: &Opener, at: Stamp) -> u32 {
    let pace = pace(facts, platform).ms.max(1);
    let of = |ms: i64| u32::try_from((ms.max(0) + pace / 2) / pace).unwrap_or(u32::MAX);
    if at.ms >= opener.begins.ms {
        return of(opener.call.at.since(at)).min(opener.out);
    }
    opener.out.saturating_add(of(opener.free.since(at)))
}

impl WarmUpSet {
    /// It in words without a full stop: `warm-up set 3 of 4: 45 kg, 2 times, at
    /// 10:42, about 6 attempts out`.
    pub fn words(&self, facts: &Facts) -> String {
        let s = if self.out == 1 { "" } else { "s" };
        format!(
            "warm-up set {} of {}: {} at {}, about {} attempt{s} out",
            self.number,
            self.of,
            self.load_words(facts),
            to_minute(self.at).clock_time(),
            self.out
        )
    }

    /// Its load and repetitions: `45 kg x 2`, `bar x 5`.
    pub fn load_words(&self, facts: &Facts) -> String {
        let load = self.load.map_or_else(
            || "bar".to_owned(),
            |load| load.show_with_unit(facts.bar_unit),
        );
        format!("{load} x {}", self.repetitions)
    }
}

/// The set that an athlete takes next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WarmUpRow {
    /// Who.
    pub entry: EntryKey,
    /// Before which lift.
    pub lift: crate::lift::Slug,
    /// When the opener is likely to be called.
    pub call: Stamp,
    /// The set.
    pub set: WarmUpSet,
}

/// The next set of everybody whose opener is to come on a platform, the
/// earliest first, as far as it is due within twenty minutes.
///
/// While an athlete lifts on the platform, no set for the lift after it is
/// due.
pub fn warm_up_rows(facts: &Facts, platform: u8, now: Stamp) -> Vec<WarmUpRow> {
    let mut rows = Vec::new();
    for opener in openers(facts, platform, now) {
        let from = match opener.lifts_before {
            true => opener.free.ms.max(now.ms - DUE),
            false => now.ms - DUE,
        };
        let sets = warm_up_sets(facts, platform, &opener);
        let next = sets.into_iter().find(|set| set.at.ms >= from);
        if let Some(set) = next.filter(|set| set.at.since(now) <= AHEAD) {
            rows.push(WarmUpRow {
                entry: opener.queued.entry,
                lift: opener.queued.lift.clone(),
                call: opener.call.at,
                set,
            });
        }
    }
    let number = |row: &WarmUpRow| facts.entries.get(&row.entry).map_or(0, |e| e.number);
    rows.sort_by_key(|row| (row.set.at.ms, number(row)));
    rows
}
