//! The model's rules in the words of a rules file.

use crate::plain::{Grant, Load};
use crate::rules::{
    AgeGroup, Ages, Allowance, Bar, Categories, Changes, Gate, Key, NoGood, Rules,
    Scores, TeamTie, Tie,
};

pub fn decimal(cents: i64) -> String {
    let sign = if cents < 0 { "-" } else { "" };
    format!("{sign}{}.{:02}", cents.abs() / 100, cents.abs() % 100)
}

const fn yes(b: bool, yes: &'static str, no: &'static str) -> &'static str {
    if b { yes } else { no }
}

fn off(number: Option<i64>) -> String {
    number.map_or_else(|| "off".to_owned(), |n| n.to_string())
}

fn changes(n: Changes) -> String {
    n.map_or_else(|| "any".to_owned(), |n| n.to_string())
}

fn own_changes(n: Option<Changes>) -> String {
    n.map_or_else(|| "same".to_owned(), changes)
}

fn gate(gate: Gate) -> &'static str {
    match gate {
        Gate::Off => "off",
        Gate::Owed => "owed",
        Gate::Required => "required",
    }
}

fn list<T: Copy>(list: &[T], word: impl Fn(T) -> &'static str) -> String {
    list.iter().map(|t| word(*t)).collect::<Vec<_>>().join(" ")
}

const fn tie(tie: Tie) -> &'static str {
    match tie {
        Tie::BestAttempt => "best-attempt",
        Tie::Previous => "previous",
        Tie::LastSlotLower => "last-slot-lower",
        Tie::Bodyweight => "bodyweight",
        Tie::Earlier => "earlier",
        Tie::Number => "number",
        Tie::Shared => "shared",
    }
}

const fn key(key: Key) -> &'static str {
    match key {
        Key::Load => "load",
        Key::Attempt => "attempt",
        Key::Previous => "previous",
        Key::Number => "number",
        Key::Rest => "rest",
    }
}

const fn grant(grant: Grant) -> &'static str {
    match grant {
        Grant::Keep => "keep",
        Grant::Repeat => "repeat",
        Grant::Again => "again",
    }
}

const fn categories(categories: Categories) -> &'static str {
    match categories {
        Categories::None => "none",
        Categories::Flight => "flight",
        Categories::Iwf => "iwf",
        Categories::Iwf2025 => "iwf-2025",
        Categories::Iwf2026 => "iwf-2026",
        Categories::Ipf => "ipf",
        Categories::Own => "F 57 61 +61; M 65 75 +75 kg",
    }
}

/// Every key that the model knows, with its word.
pub fn words_of(r: &Rules) -> Vec<(&'static str, String)> {
    let unit = if r.pounds { "lb" } else { "kg" };
    let load = |l: Load| format!("{} {unit}", decimal(l));
    let allowance = |a: Option<Allowance>| match a {
        None => "off".to_owned(),
        Some(Allowance::Load(l)) => load(l),
        Some(Allowance::Percent(p)) => format!("{p}%"),
    };
    let bar = match r.bar {
        Bar::Rising => "rising",
        Bar::Rounds => "rounds",
        Bar::Free => "free",
    };
    let no_good = match r.no_good {
        NoGood::NoTotal => "no-total",
        NoGood::Nothing => "counts-nothing",
        NoGood::Out => "out",
    };
    let jumps = match r.jumps {
        Gate::Off => "off",
        Gate::Owed => "advice",
        Gate::Required => "required",
    };
    let challenges = r.challenges.map(|n| i64::try_from(n).unwrap());
    let left = r.first_closes_left.map(|n| i64::try_from(n).unwrap());
    let grants = |i: usize, good: bool| {
        let of = &r.grants[i];
        list(if good { &of.good } else { &of.no }, grant)
    };
    let some = |s: &str| s.to_owned();
    let all = |n: Option<usize>| n.map_or_else(|| "all".to_owned(), |n| n.to_string());
    let points: Vec<String> = r.teams.points.iter().map(u32::to_string).collect();
    let points = match (points.is_empty(), r.teams.goes_on) {
        (true, _) => "none".to_owned(),
        (false, on) => format!("{}{}", points.join(" "), yes(on, "...", "")),
    };
    let age_group = match r.age_group {
        AgeGroup::Usual => "usual",
        AgeGroup::Junior => "junior",
        AgeGroup::Youth => "youth",
    };
    let ages = match r.ages {
        Ages::None => "none",
        Ages::Iwf => "iwf",
        Ages::Ipf => "ipf",
    };
    let scores = match r.teams.scores {
        Scores::Total => "total",
        Scores::Lifts => "lifts",
        Scores::All => "all",
    };
    let mut team_ties: Vec<&str> = r
        .teams
        .ties
        .iter()
        .map(|t| match t {
            TeamTie::Places => "places",
            TeamTie::Sum => "sum",
        })
        .collect();
    team_ties.push("shared");
    let mut words = vec![
        ("queue", some(yes(r.law, "law", "advice"))),
        ("bar", some(bar)),
        ("order", list(&r.order, key)),
        ("table-number", some(yes(r.start_numbers, "start", "lot"))),
        ("attempts", r.attempts.to_string()),
        ("reps", some(yes(r.multiple, "multiple", "single"))),
        ("judges", r.judges.to_string()),
        (
            "wrong-catch",
            some(yes(r.reclassify, "reclassify", "strict")),
        ),
        ("step", load(r.step)),
        (
            "record-step",
            r.record_step.map_or_else(|| some("off"), load),
        ),
        ("least-rise", some(yes(r.least, "step", "none"))),
        ("automatic", some(yes(r.automatic, "step", "none"))),
        ("declare", some(yes(r.declare, "yes", "no"))),
        ("changes", changes(r.changes)),
        ("changes-first", own_changes(r.changes_first)),
        ("changes-last", own_changes(r.changes_last)),
        ("change-called", some(yes(r.change_called, "yes", "no"))),
        ("first-closes", off(r.first_closes)),
        ("first-closes-left", off(left)),
        ("hand-in", off(r.hand_in)),
        ("entry-total-f", allowance(r.entry_total_f)),
        ("entry-total-m", allowance(r.entry_total_m)),
        ("jumps", some(jumps)),
        ("jump-upper", off(r.jump_upper)),
        ("jump-lower", off(r.jump_lower)),
        ("clock", off(r.clock)),
        ("clock-following", off(r.following)),
        (
            "following-ends",
            some(yes(r.following_by_ruling, "ruling", "call")),
        ),
        ("final-call", off(r.final_call)),
        ("declare-within", off(r.within)),
        ("change-clock", some(yes(r.change_runs, "run", "stop"))),
        ("again", some(yes(r.round_end, "round-end", "now"))),
        ("credit", some(yes(r.credit_step, "step", "loaded"))),
        ("error-lighter-good", grants(0, true)),
        ("error-lighter-no", grants(0, false)),
        ("error-heavier-good", grants(1, true)),
        ("error-heavier-no", grants(1, false)),
        ("error-same-good", grants(2, true)),
        ("error-same-no", grants(2, false)),
        (
            "challenges",
            challenges.map_or_else(|| some("any"), |n| n.to_string()),
        ),
        (
            "challenge-closes",
            some(yes(r.challenge_closes, "call", "off")),
        ),
        ("ties-lift", list(&r.ties_lift, tie)),
        ("ties-total", list(&r.ties_total, tie)),
        ("total", some(yes(r.total, "all", "none"))),
        ("no-good", some(no_good)),
        ("category", some(yes(r.weighed, "weighed", "entered"))),
        ("categories", some(categories(r.categories))),
        ("age-group", some(age_group)),
        ("ages", some(ages)),
        ("team-points", points),
        ("team-scores", some(scores)),
        ("team-best", all(r.teams.best)),
        ("team-per-group", all(r.teams.per_group)),
        ("team-ties", team_ties.join(" ")),
        ("station-check", some(gate(r.station_check))),
        ("clearance", some(gate(r.clearance))),
    ];
    words.extend(r.idle.iter().map(|(key, word)| (*key, some(word))));
    words
}

/// The word that a setting gives its key.
pub fn word(rules: &Rules, setting: &crate::rules::Setting) -> String {
    let mut after = rules.clone();
    setting.apply(&mut after);
    words_of(&after)
        .into_iter()
        .find(|(key, _)| *key == setting.key())
        .map(|(_, word)| word)
        .unwrap()
}
