//! Rules and athletes at random, near one of the shipped formats.

use crate::plain::{Athlete, Grant, Load, No};
use crate::rng::Rng;
use crate::rules::{
    AgeGroup, Ages, Allowance, Bar, Categories, Changes, Format, Gate, Key, NoGood,
    Rules, Scores, TeamTie, Teams, Tie,
};
use crate::small::shipped;

/// Words of keys that change no outcome that is compared.
const IDLE: &[(&str, &[&str])] = &[
    ("pace", &["30", "60", "90"]),
    ("rest", &["0", "60", "120", "300"]),
    ("break", &["5", "10", "15"]),
    ("drop-upper", &["off", "5"]),
    ("drop-lower", &["off", "10"]),
    ("warn-after", &["off", "3", "5"]),
    ("flight-most", &["off", "5", "14"]),
    ("round-rest", &["none", "3:180 4:120 5:60"]),
    ("weigh-in-opens", &["off", "120"]),
    ("weigh-in-lasts", &["off", "60", "90"]),
    ("introduction", &["off", "15"]),
    ("countdown", &["off", "10"]),
    ("posting-name", &["full", "initial", "number"]),
    ("posting-bodyweight", &["yes", "no"]),
    ("posting-category", &["yes", "no"]),
];

/// Days of birth near the edges of age groups on 14 November 2026.
const BORN: [(i32, u32, u32); 12] = [
    (2014, 1, 1),
    (2013, 12, 31),
    (2012, 11, 14),
    (2012, 11, 15),
    (2011, 6, 1),
    (2009, 1, 1),
    (2008, 12, 31),
    (2007, 1, 1),
    (2006, 7, 7),
    (2003, 1, 1),
    (2002, 12, 31),
    (1986, 12, 31),
];

/// Gives another value so often in a hundred.
fn now_and_then<T: Clone>(r: &mut Rng, place: &mut T, percent: usize, list: &[T]) {
    if r.percent(percent) {
        *place = r.pick(list);
    }
}

/// Rules at random, near one of the shipped formats.
pub fn rules(r: &mut Rng) -> Rules {
    let format = r.pick(&Format::ALL);
    let mut rules = shipped(format);
    rules.attempts = 3;
    rules.slots = (0..2 + r.below(2))
        .map(|_| 1 + usize::from(r.percent(25)))
        .collect();
    rules.platforms = if r.percent(30) { 2 } else { 1 };
    rules.two_sessions = r.percent(25);
    rules.pounds = r.percent(20);
    let steps: &[Load] = if rules.pounds {
        &[500, 500, 250, 100]
    } else {
        &[100, 250, 250, 500, 50]
    };
    rules.step = r.pick(steps);
    rules.planned = [0, 1].map(|f| {
        let minutes = 4 + 8 * f + i64::try_from(r.below(8)).unwrap();
        r.percent(60).then_some(minutes * 60_000)
    });
    order(r, &mut rules);
    requests(r, &mut rules);
    errors(r, &mut rules);
    places(r, &mut rules);
    rules.idle = IDLE
        .iter()
        .map(|(key, words)| (*key, r.pick(words)))
        .collect();
    rules
}

fn order(r: &mut Rng, rules: &mut Rules) {
    use Key::{Attempt, Load as ByLoad, Number, Previous, Rest};
    let both = [true, false];
    now_and_then(r, &mut rules.law, 25, &both);
    now_and_then(
        r,
        &mut rules.bar,
        25,
        &[Bar::Rising, Bar::Rounds, Bar::Free],
    );
    let orders = [
        vec![ByLoad, Attempt, Previous, Number],
        vec![Attempt, ByLoad, Number],
        vec![Attempt, ByLoad, Previous, Number],
        vec![ByLoad, Attempt, Number],
        vec![ByLoad, Previous, Number],
        vec![ByLoad, Number],
        vec![Attempt, Number],
        vec![Attempt, Previous, Number],
    ];
    now_and_then(r, &mut rules.order, 35, &orders);
    if rules.bar == Bar::Free && r.percent(50) {
        rules.order = r.pick(&[
            vec![Rest, ByLoad, Number],
            vec![Rest, Number],
            vec![Attempt, Rest, Number],
            vec![ByLoad, Rest, Number],
        ]);
    }
    now_and_then(r, &mut rules.start_numbers, 30, &both);
    now_and_then(r, &mut rules.attempts, 35, &[1, 2, 4, 5]);
    now_and_then(r, &mut rules.judges, 50, &[1, 3]);
    now_and_then(r, &mut rules.reclassify, 50, &both);
    now_and_then(r, &mut rules.multiple, 30, &both);
    let clocks = [None, Some(60), Some(90), Some(45)];
    now_and_then(r, &mut rules.clock, 35, &clocks);
    let long = [None, Some(120), Some(180), Some(100)];
    now_and_then(r, &mut rules.following, 40, &long);
    now_and_then(r, &mut rules.following_by_ruling, 30, &both);
    let calls = [None, Some(30), Some(20), Some(45), Some(10)];
    now_and_then(r, &mut rules.final_call, 40, &calls);
    let within = [None, Some(30), Some(20), Some(60)];
    now_and_then(r, &mut rules.within, 40, &within);
    now_and_then(r, &mut rules.change_runs, 30, &both);
}

fn requests(r: &mut Rng, rules: &mut Rules) {
    let both = [true, false];
    let finer = match rules.step {
        500 => 100,
        250 => 50,
        _ => rules.step / 2,
    };
    rules.record_step = if rules.format == Format::Powerlifting || r.percent(25) {
        Some(finer)
    } else {
        None
    };
    now_and_then(r, &mut rules.record_step, 15, &[None, Some(finer)]);
    now_and_then(r, &mut rules.least, 25, &both);
    now_and_then(r, &mut rules.automatic, 25, &both);
    now_and_then(r, &mut rules.declare, 25, &both);
    let counts: [Changes; 6] = [None, Some(2), Some(0), Some(1), Some(3), Some(2)];
    now_and_then(r, &mut rules.changes, 40, &counts);
    let own = [
        None,
        Some(None),
        Some(Some(0)),
        Some(Some(1)),
        Some(Some(2)),
    ];
    now_and_then(r, &mut rules.changes_first, 30, &own);
    now_and_then(r, &mut rules.changes_last, 30, &own);
    now_and_then(r, &mut rules.change_called, 30, &both);
    now_and_then(
        r,
        &mut rules.first_closes,
        30,
        &[None, Some(5), Some(3), Some(1)],
    );
    let left = [None, Some(5), Some(2), Some(8)];
    now_and_then(r, &mut rules.first_closes_left, 30, &left);
    now_and_then(
        r,
        &mut rules.hand_in,
        30,
        &[None, Some(60), Some(30), Some(90)],
    );
    let allowances = [
        None,
        Some(Allowance::Load(rules.step * 4)),
        Some(Allowance::Load(rules.step * 10)),
        Some(Allowance::Percent(80)),
        Some(Allowance::Percent(95)),
    ];
    now_and_then(r, &mut rules.entry_total_f, 60, &allowances);
    now_and_then(r, &mut rules.entry_total_m, 60, &allowances);
    let gates = [Gate::Off, Gate::Owed, Gate::Required];
    now_and_then(
        r,
        &mut rules.jumps,
        50,
        &[Gate::Off, Gate::Owed, Gate::Required, Gate::Required],
    );
    let jumps = [None, Some(5), Some(10), Some(20)];
    now_and_then(r, &mut rules.jump_upper, 50, &jumps);
    now_and_then(r, &mut rules.jump_lower, 50, &jumps);
    now_and_then(r, &mut rules.station_check, 10, &gates);
    now_and_then(r, &mut rules.clearance, 10, &gates);
}

fn errors(r: &mut Rng, rules: &mut Rules) {
    use Grant::{Again, Keep, Repeat};
    let both = [true, false];
    now_and_then(r, &mut rules.round_end, 30, &both);
    now_and_then(r, &mut rules.credit_step, 40, &both);
    let lists = [
        vec![Keep, Repeat, Again],
        vec![Keep, Repeat],
        vec![Repeat, Again],
        vec![Keep],
        vec![Again],
    ];
    for grants in &mut rules.grants {
        now_and_then(r, &mut grants.good, 20, &lists);
        now_and_then(r, &mut grants.no, 20, &lists);
    }
    let counts = [None, Some(0), Some(1), Some(2)];
    now_and_then(r, &mut rules.challenges, 40, &counts);
    now_and_then(r, &mut rules.challenge_closes, 30, &both);
}

fn places(r: &mut Rng, rules: &mut Rules) {
    let both = [true, false];
    let keys = [
        Tie::BestAttempt,
        Tie::Previous,
        Tie::Bodyweight,
        Tie::Earlier,
        Tie::LastSlotLower,
    ];
    let chain = |r: &mut Rng, list: &mut Vec<Tie>, total: bool| {
        if r.percent(45) {
            return;
        }
        list.clear();
        for _ in 0..r.below(4) {
            let key = r.pick(&keys[..if total { 5 } else { 4 }]);
            if !list.contains(&key) {
                list.push(key);
            }
        }
        if list.is_empty() || r.percent(60) {
            list.push(r.pick(&[Tie::Number, Tie::Shared]));
        }
    };
    chain(r, &mut rules.ties_lift, false);
    chain(r, &mut rules.ties_total, true);
    let no_good = [NoGood::NoTotal, NoGood::Nothing, NoGood::Out];
    now_and_then(r, &mut rules.no_good, 50, &no_good);
    if rules.no_good == NoGood::Nothing {
        // How somebody without a best in the last slot ties is left open.
        let open = |t: &Tie| matches!(t, Tie::Bodyweight | Tie::Number | Tie::Shared);
        rules.ties_total.retain(open);
        if rules.ties_total.is_empty() {
            rules.ties_total.push(Tie::Shared);
        }
    }
    teams(r, &mut rules.teams);
    now_and_then(r, &mut rules.total, 20, &both);
    now_and_then(r, &mut rules.weighed, 25, &both);
    let all = [
        Categories::None,
        Categories::Flight,
        Categories::Iwf,
        Categories::Iwf2025,
        Categories::Iwf2026,
        Categories::Ipf,
        Categories::Ipf,
        Categories::Own,
    ];
    now_and_then(r, &mut rules.categories, 80, &all);
    match rules.categories {
        Categories::Ipf if r.percent(50) => rules.age_group = AgeGroup::Junior,
        Categories::Iwf2025 if r.percent(50) => rules.age_group = AgeGroup::Youth,
        _ => {}
    }
    now_and_then(r, &mut rules.ages, 50, &[Ages::None, Ages::Iwf, Ages::Ipf]);
}

fn teams(r: &mut Rng, teams: &mut Teams) {
    let points = [vec![], vec![12, 9, 8, 7, 6], vec![5, 3, 1], vec![3, 1]];
    now_and_then(r, &mut teams.points, 50, &points);
    now_and_then(r, &mut teams.goes_on, 30, &[true, false]);
    let scores = [Scores::Total, Scores::Lifts, Scores::All];
    now_and_then(r, &mut teams.scores, 40, &scores);
    now_and_then(r, &mut teams.best, 40, &[None, Some(1), Some(3)]);
    now_and_then(r, &mut teams.per_group, 40, &[None, Some(1), Some(2)]);
    let ties = [
        vec![TeamTie::Places],
        vec![TeamTie::Sum],
        vec![TeamTie::Sum, TeamTie::Places],
        vec![],
    ];
    now_and_then(r, &mut teams.ties, 40, &ties);
    if teams.best.is_some() {
        // Which of two equal scores counts is left open.
        teams.ties.retain(|t| *t != TeamTie::Sum);
    }
}

/// Somebody to be entered, with an opener not far from the others'.
pub fn athlete(r: &mut Rng, rules: &Rules, no: No, start: Load) -> Athlete {
    let girl = r.percent(50);
    let labels: &[&str] = match (rules.categories, girl) {
        (Categories::Ipf, true) => &["57", "63", "84+"],
        (Categories::Ipf, false) => &["66", "74", "120+"],
        (Categories::Own, true) => &["57", "61", "61+"],
        (Categories::Own, false) => &["65", "75", "75+"],
        (_, true) => &["57", "61", "69", "86+"],
        (_, false) => &["65", "70", "75", "110+"],
    };
    let mut athlete = Athlete {
        no,
        girl,
        bodyweight: r
            .percent(88)
            .then(|| r.pick(&[5700, 5701, 6100, 6100, 6550, 7000, 8601, 8600, 12_001])),
        category: if r.percent(75) {
            r.pick(labels).to_owned()
        } else {
            String::new()
        },
        flight: usize::from(r.percent(25)),
        guest: r.percent(6),
        born: r.percent(70).then(|| r.pick(&BORN)),
        team: u8::try_from(r.below(4)).unwrap(),
        ..Athlete::default()
    };
    for variants in &rules.slots {
        let steps = i64::try_from(r.below(3)).unwrap();
        let variant = r.below(*variants);
        let line = r.percent(92).then(|| {
            let opener = start + steps * rules.step;
            (variant, r.percent(90).then_some(opener))
        });
        athlete.slots.push(line);
        let max = start + i64::try_from(r.below(6)).unwrap() * rules.step;
        athlete.last.push(r.percent(50).then_some((variant, max)));
    }
    if r.percent(40) {
        let openers: Load = athlete.slots.iter().flatten().filter_map(|s| s.1).sum();
        athlete.entry_total =
            Some(openers + i64::try_from(r.below(8)).unwrap() * rules.step);
    }
    athlete
}
