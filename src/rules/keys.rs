//! The keys of a rules file: name, meaning, allowed words, reading, printing.
//!
//! One table serves the shipped files, the `set` act, the stored day and the
//! printed list of formats.

use super::model::Rules;
use super::words::{
    Word, allowance, changes, list, mass, number, optional, own_changes, put,
    show_allowance, show_changes, show_list, show_optional, show_own_changes, small,
    step, step_or_none,
};

/// One key of a rules file.
#[derive(Debug)]
pub struct Key {
    /// Its name.
    pub name: &'static str,
    /// What it means, in one sentence.
    pub meaning: &'static str,
    /// The words that are allowed.
    pub allowed: &'static str,
    /// Prints its word.
    pub get: fn(&Rules) -> String,
    /// Reads a word; false where it isn't allowed.
    pub set: fn(&mut Rules, &str) -> bool,
}

/// Why a key can't be taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// No such key.
    #[error("there is no rule “{0}”")]
    Unknown(String),
    /// A key that every format must give.
    #[error("the rule “{0}” is missing")]
    Missing(String),
    /// A word that the key doesn't allow.
    #[error("“{word}” is not allowed for {key}; allowed: {allowed}")]
    Word {
        /// The key.
        key: String,
        /// The word.
        word: String,
        /// What would be allowed.
        allowed: String,
    },
}

/// All keys, in the order in which they are listed.
pub fn keys() -> &'static [Key] {
    KEYS
}

macro_rules! key {
    ($name:literal, $allowed:literal, $meaning:literal, $get:expr, $set:expr) => {
        Key {
            name: $name,
            meaning: $meaning,
            allowed: $allowed,
            get: $get,
            set: $set,
        }
    };
}

static KEYS: &[Key] = &[
    key!(
        "queue",
        "law, advice",
        "Whether only the first in the queue may be called.",
        |r| r.queue.word().into(),
        |r, w| put(&mut r.queue, w)
    ),
    key!(
        "bar",
        "rising, rounds, free",
        "Whether the bar may come down: never within a flight, never within a round, or freely.",
        |r| r.bar.word().into(),
        |r, w| put(&mut r.bar, w)
    ),
    key!(
        "order",
        "load, attempt, previous, number (several, in order)",
        "The keys of the order of call, the first deciding first.",
        |r| show_list(&r.order),
        |r, w| list(&mut r.order, w)
    ),
    key!(
        "table-number",
        "lot",
        "The number that names an entry at the table.",
        |r| r.table_number.word().into(),
        |r, w| w.eq_ignore_ascii_case("lot") && put(&mut r.table_number, w)
    ),
    key!(
        "attempts",
        "a whole number from 1 to 9",
        "Attempts in each slot.",
        |r| r.attempts.to_string(),
        |r, w| small(&mut r.attempts, w, 1..=9)
    ),
    key!(
        "judges",
        "1, 3",
        "Judges at a platform.",
        |r| r.judges.to_string(),
        |r, w| matches!(w, "1" | "3") && small(&mut r.judges, w, 1..=3)
    ),
    key!(
        "step",
        "a load above 0 and at most 50 kg",
        "The smallest increment, the least rise and the automatic increase after a good lift.",
        |r| r.step.show_with_unit(r.step_unit),
        step
    ),
    key!(
        "least-rise",
        "step, none",
        "Whether the next attempt must rise by a step after a good lift and may not sink after a no lift.",
        |r| if r.least_rise {
            "step".into()
        } else {
            "none".into()
        },
        |r, w| step_or_none(&mut r.least_rise, w)
    ),
    key!(
        "automatic",
        "step, none",
        "Whether the next request is filled in: a step more after a good lift, the same after a no lift.",
        |r| if r.automatic {
            "step".into()
        } else {
            "none".into()
        },
        |r, w| step_or_none(&mut r.automatic, w)
    ),
    key!(
        "declare",
        "yes, no",
        "Whether the next attempt must be declared.",
        |r| r.declare.word().into(),
        |r, w| put(&mut r.declare, w)
    ),
    key!(
        "changes",
        "any, or a whole number from 0 to 9",
        "Changes of a declared attempt.",
        |r| show_changes(r.changes),
        |r, w| changes(w).map(|c| r.changes = c).is_some()
    ),
    key!(
        "changes-first",
        "same, any, or a whole number from 0 to 9",
        "Changes of a first attempt, where they differ.",
        |r| show_own_changes(r.changes_first),
        |r, w| own_changes(&mut r.changes_first, w)
    ),
    key!(
        "changes-last",
        "same, any, or a whole number from 0 to 9",
        "Changes of the last attempt in the last slot, where they differ.",
        |r| show_own_changes(r.changes_last),
        |r, w| own_changes(&mut r.changes_last, w)
    ),
    key!(
        "first-closes",
        "off, or minutes from 1 to 240",
        "Changes of a first attempt close so many minutes before its flight's planned start.",
        |r| show_optional(r.first_closes),
        |r, w| optional(&mut r.first_closes, w, 240)
    ),
    key!(
        "first-closes-left",
        "off, or attempts from 1 to 100",
        "Changes of a later flight's first attempt close when so many attempts are left in the flight before.",
        |r| show_optional(r.first_closes_left),
        |r, w| optional(&mut r.first_closes_left, w, 100)
    ),
    key!(
        "hand-in",
        "off, or seconds from 1 to 600",
        "A next attempt must be handed in so many seconds after the last one.",
        |r| show_optional(r.hand_in),
        |r, w| optional(&mut r.hand_in, w, 600)
    ),
    key!(
        "again",
        "now, round-end",
        "When an attempt that is granted for an official error is taken.",
        |r| r.again.word().into(),
        |r, w| put(&mut r.again, w)
    ),
    key!(
        "final-call",
        "off, or seconds from 1 to 600",
        "Declarations and changes of the called athlete close so many seconds before the clock's end.",
        |r| show_optional(r.final_call),
        |r, w| optional(&mut r.final_call, w, 600)
    ),
    key!(
        "declare-within",
        "off, or seconds from 1 to 600",
        "On the long clock the declaration must come in so many first seconds.",
        |r| show_optional(r.declare_within),
        |r, w| optional(&mut r.declare_within, w, 600)
    ),
    key!(
        "clock",
        "off, or seconds from 1 to 600",
        "The clock of an attempt.",
        |r| show_optional(r.clock),
        |r, w| {
            if w.eq_ignore_ascii_case("on") {
                r.clock = r.clock.or(Some(60));
                true
            } else {
                optional(&mut r.clock, w, 600)
            }
        }
    ),
    key!(
        "clock-following",
        "off, or seconds from 1 to 600",
        "The clock of an athlete who follows himself or herself.",
        |r| show_optional(r.clock_following),
        |r, w| optional(&mut r.clock_following, w, 600)
    ),
    key!(
        "ties-lift",
        "best-attempt, previous, last-slot-lower, bodyweight, earlier, number, shared (several, in order)",
        "The chain that breaks a tie in a slot.",
        |r| show_list(&r.ties_lift),
        |r, w| list(&mut r.ties_lift, w)
    ),
    key!(
        "ties-total",
        "best-attempt, previous, last-slot-lower, bodyweight, earlier, number, shared (several, in order)",
        "The chain that breaks a tie in the total.",
        |r| show_list(&r.ties_total),
        |r, w| list(&mut r.ties_total, w)
    ),
    key!(
        "total",
        "all, none",
        "Whether the bests of all slots are added to a total.",
        |r| if r.total { "all".into() } else { "none".into() },
        |r, w| match w {
            "all" => {
                r.total = true;
                true
            }
            "none" => {
                r.total = false;
                true
            }
            _ => false,
        }
    ),
    key!(
        "no-good",
        "no-total, counts-nothing, out",
        "What a slot without a good attempt means: no total, nothing, or no further slot either.",
        |r| match (r.total_needs_all, r.out_after_no_good) {
            (_, true) => "out".into(),
            (true, false) => "no-total".into(),
            (false, false) => "counts-nothing".into(),
        },
        |r, w| {
            let read = match w {
                "no-total" => (true, false),
                "counts-nothing" => (false, false),
                "out" => (true, true),
                _ => return false,
            };
            (r.total_needs_all, r.out_after_no_good) = read;
            true
        }
    ),
    key!(
        "entry-total-f",
        "off, a load, or percent such as 80%",
        "How far the openers' sum may lie under the entry total, for girls and women.",
        |r| show_allowance(r.entry_total_f, r.step_unit),
        |r, w| allowance(&mut r.entry_total_f, w, r.step_unit)
    ),
    key!(
        "entry-total-m",
        "off, a load, or percent such as 80%",
        "How far the openers' sum may lie under the entry total, for boys and men.",
        |r| show_allowance(r.entry_total_m, r.step_unit),
        |r, w| allowance(&mut r.entry_total_m, w, r.step_unit)
    ),
    key!(
        "category",
        "entered, weighed",
        "What decides a bodyweight category.",
        |r| r.category.word().into(),
        |r, w| put(&mut r.category, w)
    ),
    key!(
        "categories",
        "none, flight, auto, or the name of a category set",
        "The bodyweight categories.",
        |r| r.categories.clone(),
        |r, w| {
            let ok =
                matches!(w, "none" | "flight" | "auto") || super::set_named(w).is_some();
            if ok {
                w.clone_into(&mut r.categories);
            }
            ok
        }
    ),
    key!(
        "wrong-catch",
        "strict, reclassify",
        "Whether a lift caught as another variant is no lift or entered as that variant.",
        |r| r.wrong_catch.word().into(),
        |r, w| put(&mut r.wrong_catch, w)
    ),
    key!(
        "bar-f",
        "a load up to 100 kg",
        "The empty bar with collars for girls and women.",
        |r| r.bar_f.show_with_unit(r.step_unit),
        |r, w| mass(&mut r.bar_f, w, r.step_unit)
    ),
    key!(
        "bar-m",
        "a load up to 100 kg",
        "The empty bar with collars for boys and men.",
        |r| r.bar_m.show_with_unit(r.step_unit),
        |r, w| mass(&mut r.bar_m, w, r.step_unit)
    ),
    key!(
        "jump-upper",
        "off, or percent from 1 to 100",
        "The largest advised rise over the last max in an upper-body lift.",
        |r| show_optional(r.jump_upper),
        |r, w| optional(&mut r.jump_upper, w, 100)
    ),
    key!(
        "jump-lower",
        "off, or percent from 1 to 100",
        "The largest advised rise over the last max in a lower-body lift.",
        |r| show_optional(r.jump_lower),
        |r, w| optional(&mut r.jump_lower, w, 100)
    ),
    key!(
        "pace",
        "seconds from 0 to 3600",
        "Seconds that an attempt takes, for forecasts.",
        |r| r.pace.to_string(),
        |r, w| number(&mut r.pace, w, 3600)
    ),
    key!(
        "rest",
        "seconds from 0 to 3600",
        "Seconds of rest advised between two attempts of one athlete.",
        |r| r.rest.to_string(),
        |r, w| number(&mut r.rest, w, 3600)
    ),
    key!(
        "break",
        "minutes from 0 to 240",
        "Minutes of the break between two slots.",
        |r| r.break_minutes.to_string(),
        |r, w| number(&mut r.break_minutes, w, 240)
    ),
    key!(
        "posting-name",
        "full, initial, number",
        "How names are shown on what is posted.",
        |r| r.posting.name.word().into(),
        |r, w| put(&mut r.posting.name, w)
    ),
    key!(
        "posting-bodyweight",
        "yes, no",
        "Whether bodyweights are posted.",
        |r| r.posting.bodyweight.word().into(),
        |r, w| put(&mut r.posting.bodyweight, w)
    ),
    key!(
        "posting-category",
        "yes, no",
        "Whether bodyweight categories are posted.",
        |r| r.posting.category.word().into(),
        |r, w| put(&mut r.posting.category, w)
    ),
    key!(
        "station-check",
        "off, owed, required",
        "How strictly a platform's station check is asked for.",
        |r| r.station_check.word().into(),
        |r, w| put(&mut r.station_check, w)
    ),
    key!(
        "clearance",
        "off, owed, required",
        "How strictly a clearance is asked for.",
        |r| r.clearance.word().into(),
        |r, w| put(&mut r.clearance, w)
    ),
];
