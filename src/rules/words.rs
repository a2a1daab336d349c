//! Reading and printing the words of rules.

use super::model::{
    Again, Allowance, BarRule, Changes, Gate, Judging, NameShown, OrderKey, Queue, Rules,
    TableNumber, TieKey, WrongCatch,
};
use crate::measure::{Mass, Unit, Weight};

/// The words of a choice, both ways.
pub(super) trait Word: Copy + PartialEq + 'static {
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
words!(Again: "now" => Again::Now, "round-end" => Again::RoundEnd);
words!(bool: "yes" => true, "no" => false);

pub(super) fn put<T: Word>(place: &mut T, word: &str) -> bool {
    T::read(word).map(|v| *place = v).is_some()
}

pub(super) fn list<T: Word>(place: &mut Vec<T>, word: &str) -> bool {
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

pub(super) fn show_list<T: Word>(list: &[T]) -> String {
    list.iter().map(|v| v.word()).collect::<Vec<_>>().join(" ")
}

pub(super) fn number(place: &mut u32, word: &str, most: u32) -> bool {
    match word.parse::<u32>() {
        Ok(n) if n <= most => {
            *place = n;
            true
        }
        _ => false,
    }
}

pub(super) fn optional(place: &mut Option<u32>, word: &str, most: u32) -> bool {
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

pub(super) fn show_optional(value: Option<u32>) -> String {
    value.map_or_else(|| "off".to_owned(), |n| n.to_string())
}

pub(super) fn small(
    place: &mut u8,
    word: &str,
    allowed: std::ops::RangeInclusive<u8>,
) -> bool {
    match word.parse::<u8>() {
        Ok(n) if allowed.contains(&n) => {
            *place = n;
            true
        }
        _ => false,
    }
}

pub(super) fn mass(place: &mut Mass, word: &str, rules_unit: Unit) -> bool {
    match Weight::parse(word, rules_unit) {
        Ok(w) if w.mass >= Mass::ZERO && w.mass <= Mass::whole(100, Unit::Kg) => {
            *place = w.mass;
            true
        }
        _ => false,
    }
}

pub(super) fn step(rules: &mut Rules, word: &str) -> bool {
    let Ok(w) = Weight::parse(word, rules.step_unit) else {
        return false;
    };
    if w.mass <= Mass::ZERO || w.mass > Mass::whole(50, Unit::Kg) {
        return false;
    }
    rules.step = w.mass;
    rules.step_unit = w.unit;
    true
}

pub(super) fn step_or_none(place: &mut bool, word: &str) -> bool {
    match word {
        "step" => *place = true,
        "none" => *place = false,
        _ => return false,
    }
    true
}

/// Reads `any` or a whole number of changes.
pub(super) fn changes(word: &str) -> Option<Changes> {
    if word.eq_ignore_ascii_case("any") {
        return Some(Changes::Any);
    }
    let mut n = 0;
    small(&mut n, word, 0..=9).then_some(Changes::Of(n))
}

pub(super) fn show_changes(changes: Changes) -> String {
    match changes {
        Changes::Any => "any".to_owned(),
        Changes::Of(n) => n.to_string(),
    }
}

/// Reads changes that may be `same` as those of any other attempt.
pub(super) fn own_changes(place: &mut Option<Changes>, word: &str) -> bool {
    if word.eq_ignore_ascii_case("same") {
        *place = None;
        return true;
    }
    let read = changes(word);
    let ok = read.is_some();
    if ok {
        *place = read;
    }
    ok
}

pub(super) fn show_own_changes(own: Option<Changes>) -> String {
    own.map_or_else(|| "same".to_owned(), show_changes)
}

/// Reads `off`, a load such as `20 kg`, or `80%`.
pub(super) fn allowance(place: &mut Option<Allowance>, word: &str, unit: Unit) -> bool {
    let read = if word.eq_ignore_ascii_case("off") {
        None
    } else if let Some(percent) = word.strip_suffix('%') {
        match percent.trim().parse::<u32>() {
            Ok(percent) if (1..=100).contains(&percent) => {
                Some(Allowance::Percent(percent))
            }
            _ => return false,
        }
    } else {
        let mut load = Mass::ZERO;
        if !mass(&mut load, word, unit) {
            return false;
        }
        Some(Allowance::Load(load))
    };
    *place = read;
    true
}

pub(super) fn show_allowance(allowance: Option<Allowance>, unit: Unit) -> String {
    match allowance {
        None => "off".to_owned(),
        Some(Allowance::Load(load)) => load.show_with_unit(unit),
        Some(Allowance::Percent(percent)) => format!("{percent}%"),
    }
}
