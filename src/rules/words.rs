//! Reading and printing the words of rules.

use super::choices::{
    Again, Allowance, BarRule, ChallengeCloses, ChangeClock, Changes, Credit,
    FollowingEnds, Gate, Grant, Judging, Jumps, NameShown, OrderKey, Queue, Reps,
    TableNumber, TeamScores, TeamTie, TieKey, WrongCatch,
};
use super::model::Rules;
use super::scores::{Equipment, Formula};
use crate::bar::Discs;
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
    "previous" => OrderKey::Previous, "number" => OrderKey::Number,
    "rest" => OrderKey::Rest);
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
words!(FollowingEnds: "call" => FollowingEnds::Call, "ruling" => FollowingEnds::Ruling);
words!(ChangeClock: "stop" => ChangeClock::Stop, "run" => ChangeClock::Run);
words!(Credit: "loaded" => Credit::Loaded, "step" => Credit::Step);
words!(Grant: "keep" => Grant::Keep, "repeat" => Grant::Repeat, "again" => Grant::Again);
words!(Jumps: "off" => Jumps::Off, "advice" => Jumps::Advice, "required" => Jumps::Required);
words!(ChallengeCloses: "call" => ChallengeCloses::Call, "off" => ChallengeCloses::Off);
words!(Reps: "single" => Reps::Single, "multiple" => Reps::Multiple);
words!(TeamScores: "total" => TeamScores::Total, "lifts" => TeamScores::Lifts,
    "all" => TeamScores::All);
words!(TeamTie: "places" => TeamTie::Places, "sum" => TeamTie::Sum,
    "shared" => TeamTie::Shared);
words!(Equipment: "classic" => Equipment::Classic, "equipped" => Equipment::Equipped);
words!(Formula: "ratio" => Formula::Ratio, "allometric" => Formula::Allometric,
    "sinclair" => Formula::Sinclair, "robi" => Formula::Robi, "ipf-gl" => Formula::IpfGl,
    "dots" => Formula::Dots, "wilks" => Formula::Wilks,
    "wilks-2020" => Formula::Wilks2020);
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
        Some(Allowance::Load(load)) => show_mass(load, unit),
        Some(Allowance::Percent(percent)) => format!("{percent}%"),
    }
}

/// A mass as a word that reads as the very same mass: in `unit`, or in the
/// other one where its decimal is shorter there or exact there alone (a bar of
/// 25 kg on a day in pounds).
pub(super) fn show_mass(mass: Mass, unit: Unit) -> String {
    let exact = |unit: Unit| Some(format!("{} {unit}", mass.exact(unit)?));
    [exact(unit), exact(unit.other())]
        .into_iter()
        .flatten()
        .min_by_key(String::len)
        .unwrap_or_else(|| mass.show_with_unit(unit))
}

/// Reads `off` or a load above 0.
pub(super) fn load_or_off(place: &mut Option<Mass>, word: &str, unit: Unit) -> bool {
    if word.eq_ignore_ascii_case("off") {
        *place = None;
        return true;
    }
    match Weight::parse(word, unit) {
        Ok(w) if w.mass > Mass::ZERO && w.mass <= Mass::whole(50, Unit::Kg) => {
            *place = Some(w.mass);
            true
        }
        _ => false,
    }
}

pub(super) fn show_load(load: Option<Mass>, unit: Unit) -> String {
    load.map_or_else(|| "off".to_owned(), |m| show_mass(m, unit))
}

/// Reads `equal`, `above`, or a load by which a record has to be beaten.
pub(super) fn record_beats(place: &mut Mass, word: &str, unit: Unit) -> bool {
    let mut by = None;
    let read = match word {
        "equal" => Some(Mass::ZERO),
        "above" => Some(Mass::from_counts(1)),
        "off" => None,
        word if load_or_off(&mut by, word, unit) => by,
        _ => None,
    };
    if let Some(read) = read {
        *place = read;
    }
    read.is_some()
}

pub(super) fn show_record_beats(by: Mass, unit: Unit) -> String {
    match by.counts() {
        0 => "equal".to_owned(),
        1 => "above".to_owned(),
        _ => show_mass(by, unit),
    }
}

/// Reads `any` or a small whole number.
pub(super) fn any_or_small(place: &mut Option<u8>, word: &str) -> bool {
    if word.eq_ignore_ascii_case("any") {
        *place = None;
        return true;
    }
    let mut n = 0;
    let ok = small(&mut n, word, 0..=9);
    if ok {
        *place = Some(n);
    }
    ok
}

pub(super) fn show_any(value: Option<u32>) -> String {
    value.map_or_else(|| "any".to_owned(), |n| n.to_string())
}

/// Reads `all` or a whole number from 1.
pub(super) fn all_or_number(place: &mut Option<u32>, word: &str, most: u32) -> bool {
    if word.eq_ignore_ascii_case("all") {
        *place = None;
        return true;
    }
    !word.eq_ignore_ascii_case("off") && optional(place, word, most)
}

pub(super) fn show_all(value: Option<u32>) -> String {
    value.map_or_else(|| "all".to_owned(), |n| n.to_string())
}

/// Reads a category set's name, a way of grouping, or an own set.
pub(super) fn categories(rules: &mut Rules, word: &str) -> bool {
    let own = super::CategorySet::own(word);
    let ok = matches!(word, "none" | "flight" | "auto" | "iwf" | "ipf")
        || super::set_named(word).is_some()
        || own.is_some();
    if ok {
        // Days made before there were two bodies say auto for the first.
        let word = if word == "auto" { "iwf" } else { word };
        word.clone_into(&mut rules.categories);
        rules.own_set = own;
    }
    ok
}

/// Reads a stock of discs: a set's name, or pairs such as `20x2 10x1`.
pub(super) fn discs(rules: &mut Rules, word: &str) -> bool {
    let read = Discs::named(word, rules.step_unit);
    let ok = read.is_ok();
    if let Ok(discs) = read {
        rules.discs = (word.to_owned(), discs);
    }
    ok
}

/// Reads the name of a list that some category set has.
pub(super) fn age_group(rules: &mut Rules, word: &str) -> bool {
    let known = super::category_sets().iter().any(|set| set.has_list(word));
    if known {
        word.clone_into(&mut rules.age_group);
    }
    known
}

/// Reads `none` or the name of a set of age groups.
pub(super) fn ages(rules: &mut Rules, word: &str) -> bool {
    let ok = word == "none" || super::ages_named(word).is_some();
    if ok {
        word.clone_into(&mut rules.ages);
    }
    ok
}

/// Reads `none` or points by place, with `...` behind a last one that goes on.
pub(super) fn points(rules: &mut Rules, word: &str) -> bool {
    if word.eq_ignore_ascii_case("none") {
        rules.teams.points.clear();
        rules.teams.goes_on = false;
        return true;
    }
    let (list, goes_on) = match word.trim_end().strip_suffix("...") {
        Some(list) => (list, true),
        None => (word, false),
    };
    let read: Option<Vec<u32>> = list
        .split([' ', ','])
        .filter(|w| !w.is_empty())
        .map(|w| w.parse().ok().filter(|n| *n <= 1000))
        .collect();
    match read {
        Some(points) if !points.is_empty() && points.len() <= 200 => {
            rules.teams.points = points;
            rules.teams.goes_on = goes_on;
            true
        }
        _ => false,
    }
}

pub(super) fn show_points(rules: &Rules) -> String {
    if rules.teams.points.is_empty() {
        return "none".to_owned();
    }
    let list: Vec<String> = rules.teams.points.iter().map(u32::to_string).collect();
    let on = if rules.teams.goes_on { "..." } else { "" };
    format!("{}{on}", list.join(" "))
}

/// Reads `none` or pairs of athletes and seconds, rising by athletes.
pub(super) fn round_rest(place: &mut Vec<(u32, u32)>, word: &str) -> bool {
    if word.eq_ignore_ascii_case("none") {
        place.clear();
        return true;
    }
    let read: Option<Vec<(u32, u32)>> = word
        .split([' ', ','])
        .filter(|w| !w.is_empty())
        .map(|pair| {
            let (most, seconds) = pair.split_once(':')?;
            let most = most.parse().ok().filter(|n| (1..=200).contains(n))?;
            let seconds = seconds.parse().ok().filter(|n| (1..=3600).contains(n))?;
            Some((most, seconds))
        })
        .collect();
    match read {
        Some(pairs) if !pairs.is_empty() && pairs.is_sorted_by(|a, b| a.0 < b.0) => {
            *place = pairs;
            true
        }
        _ => false,
    }
}

pub(super) fn show_round_rest(pairs: &[(u32, u32)]) -> String {
    if pairs.is_empty() {
        return "none".to_owned();
    }
    let list: Vec<String> = pairs.iter().map(|(n, s)| format!("{n}:{s}")).collect();
    list.join(" ")
}
