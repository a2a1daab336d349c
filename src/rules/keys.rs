//! The keys of a rules file: name, meaning, allowed words, reading, printing.
//!
//! One table serves the shipped files, the `set` act, the stored day and the
//! printed list of formats.

use super::model::{
    BarRule, Changes, Gate, Judging, NameShown, OrderKey, Queue, Rules, TableNumber,
    TieKey, WrongCatch,
};
use crate::measure::{Mass, Weight};

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

/// The words of a choice, both ways.
trait Word: Copy + PartialEq + 'static {
    const WORDS: &'static [(&'static str, Self)];

    fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, v)| *v == self)
            .map_or("", |(w, _)| w)
    }

    fn read(word: &str) -> Option<Self> {
        Self::WORDS
            .iter()
            .find(|(w, _)| w.eq_ignore_ascii_case(word))
            .map(|(_, v)| *v)
    }
}

macro_rules! words {
    ($type:ty: $($word:literal => $value:expr),+ $(,)?) => {
        impl Word for $type {
            const WORDS: &'static [(&'static str, Self)] = &[$(($word, $value)),+];
        }
    };
}

words!(Queue: "law" => Queue::Law, "advice" => Queue::Advice);
words!(BarRule: "rising" => BarRule::Rising, "rounds" => BarRule::Rounds, "free" => BarRule::Free);
words!(OrderKey: "load" => OrderKey::Load, "attempt" => OrderKey::Attempt,
    "previous" => OrderKey::Previous, "number" => OrderKey::Number);
words!(TableNumber: "lot" => TableNumber::Lot, "start" => TableNumber::Start);
words!(TieKey: "best-attempt" => TieKey::BestAttempt, "previous" => TieKey::Previous,
    "last-slot-lower" => TieKey::LastSlotLower, "bodyweight" => TieKey::Bodyweight,
    "earlier" => TieKey::Earlier, "number" => TieKey::Number, "shared" => TieKey::Shared);
words!(WrongCatch: "strict" => WrongCatch::Strict, "reclassify" => WrongCatch::Reclassify);
words!(Gate: "off" => Gate::Off, "owed" => Gate::Owed, "required" => Gate::Required);
words!(Judging: "entered" => Judging::Entered, "weighed" => Judging::Weighed);
words!(NameShown: "full" => NameShown::Full, "initial" => NameShown::Initial,
    "number" => NameShown::Number);
words!(bool: "yes" => true, "no" => false);

fn put<T: Word>(place: &mut T, word: &str) -> bool {
    T::read(word).map(|v| *place = v).is_some()
}

fn list<T: Word>(place: &mut Vec<T>, word: &str) -> bool {
    let read: Option<Vec<T>> = word
        .split([' ', ','])
        .filter(|w| !w.is_empty())
        .map(T::read)
        .collect();
    match read {
        Some(list) if !list.is_empty() => {
            *place = list;
            true
        }
        _ => false,
    }
}

fn show_list<T: Word>(list: &[T]) -> String {
    list.iter().map(|v| v.word()).collect::<Vec<_>>().join(" ")
}

fn number(place: &mut u32, word: &str, most: u32) -> bool {
    match word.parse::<u32>() {
        Ok(n) if n <= most => {
            *place = n;
            true
        }
        _ => false,
    }
}

fn optional(place: &mut Option<u32>, word: &str, most: u32) -> bool {
    if word.eq_ignore_ascii_case("off") {
        *place = None;
        return true;
    }
    let mut n = 0;
    let ok = number(&mut n, word, most) && n > 0;
    if ok {
        *place = Some(n);
    }
    ok
}

fn show_optional(value: Option<u32>) -> String {
    value.map_or_else(|| "off".to_owned(), |n| n.to_string())
}

fn small(place: &mut u8, word: &str, allowed: std::ops::RangeInclusive<u8>) -> bool {
    match word.parse::<u8>() {
        Ok(n) if allowed.contains(&n) => {
            *place = n;
            true
        }
        _ => false,
    }
}

fn mass(place: &mut Mass, word: &str, rules_unit: crate::measure::Unit) -> bool {
    match Weight::parse(word, rules_unit) {
        Ok(w)
            if w.mass >= Mass::ZERO
                && w.mass <= Mass::whole(100, crate::measure::Unit::Kg) =>
        {
            *place = w.mass;
            true
        }
        _ => false,
    }
}

fn step(rules: &mut Rules, word: &str) -> bool {
    let Ok(w) = Weight::parse(word, rules.step_unit) else {
        return false;
    };
    if w.mass <= Mass::ZERO || w.mass > Mass::whole(50, crate::measure::Unit::Kg) {
        return false;
    }
    rules.step = w.mass;
    rules.step_unit = w.unit;
    true
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
        |r| match r.changes {
            Changes::Any => "any".into(),
            Changes::Of(n) => n.to_string(),
        },
        |r, w| {
            if w.eq_ignore_ascii_case("any") {
                r.changes = Changes::Any;
                return true;
            }
            let mut n = 0;
            let ok = small(&mut n, w, 0..=9);
            if ok {
                r.changes = Changes::Of(n);
            }
            ok
        }
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
        "no-total, counts-nothing",
        "What a slot without a good attempt means for the total.",
        |r| if r.total_needs_all {
            "no-total".into()
        } else {
            "counts-nothing".into()
        },
        |r, w| match w {
            "no-total" => {
                r.total_needs_all = true;
                true
            }
            "counts-nothing" => {
                r.total_needs_all = false;
                true
            }
            _ => false,
        }
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

fn step_or_none(place: &mut bool, word: &str) -> bool {
    match word {
        "step" => *place = true,
        "none" => *place = false,
        _ => return false,
    }
    true
}
