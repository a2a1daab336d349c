//! All small days: up to three athletes with two attempts each, all outcomes,
//! all orders of equal and unequal openers, in the three formats.

use crate::compare::{Counts, replay};
use crate::plain::{Act, Asked, At, Athlete, Given, Grant, Load, No, Outcome, Ruling};
use crate::rules::{
    AgeGroup, Ages, Bar, Categories, Format, Gate, Grants, Key, NoGood, Rules, Scores,
    TeamTie, Teams, Tie,
};

/// The rules of a shipped format, with two attempts and one slot.
pub fn shipped(format: Format) -> Rules {
    use Grant::{Again, Keep, Repeat};
    let lifting = format == Format::Weightlifting;
    let power = format == Format::Powerlifting;
    let meet = lifting || power;
    let on = |s| lifting.then_some(s);
    let grants = |good: &[Grant], no: &[Grant]| Grants {
        good: good.to_vec(),
        no: no.to_vec(),
    };
    let any = [Keep, Repeat, Again];
    let ties = |total: bool| match (format, total) {
        (Format::MaxDay, _) => vec![Tie::Shared],
        (Format::Powerlifting, _) => vec![Tie::Bodyweight, Tie::Earlier, Tie::Number],
        (Format::Weightlifting, false) => {
            vec![Tie::BestAttempt, Tie::Previous, Tie::Number]
        }
        (Format::Weightlifting, true) => vec![
            Tie::LastSlotLower,
            Tie::BestAttempt,
            Tie::Previous,
            Tie::Number,
        ],
    };
    Rules {
        format,
        pounds: false,
        law: meet,
        bar: if lifting { Bar::Rising } else { Bar::Rounds },
        order: if lifting {
            vec![Key::Load, Key::Attempt, Key::Previous, Key::Number]
        } else {
            vec![Key::Attempt, Key::Load, Key::Number]
        },
        start_numbers: false,
        attempts: 2,
        multiple: false,
        judges: 1,
        reclassify: false,
        step: if lifting { 100 } else { 250 },
        record_step: power.then_some(50),
        least: meet,
        automatic: meet,
        declare: meet,
        changes: match format {
            Format::MaxDay => None,
            Format::Weightlifting => Some(2),
            Format::Powerlifting => Some(0),
        },
        changes_first: power.then_some(Some(1)),
        changes_last: power.then_some(Some(2)),
        change_called: !power,
        first_closes: power.then_some(5),
        first_closes_left: power.then_some(5),
        hand_in: power.then_some(60),
        entry_total_f: None,
        entry_total_m: None,
        jumps: if meet { Gate::Off } else { Gate::Owed },
        jump_upper: (!meet).then_some(10),
        jump_lower: (!meet).then_some(20),
        clock: meet.then_some(60),
        following: on(120),
        following_by_ruling: false,
        final_call: on(30),
        within: on(30),
        change_runs: power,
        round_end: power,
        credit_step: meet,
        grants: match format {
            Format::MaxDay => {
                [grants(&any, &any), grants(&any, &any), grants(&any, &any)]
            }
            Format::Weightlifting => [
                grants(&any, &[Repeat, Again]),
                grants(&any, &[Repeat, Again]),
                grants(&any, &[Repeat, Again]),
            ],
            Format::Powerlifting => [
                grants(&[Keep, Repeat], &[Repeat, Again]),
                grants(&[Keep], &[Repeat, Again]),
                grants(&[Keep, Repeat], &[Repeat, Again]),
            ],
        },
        challenges: on(1).map(|_| 1),
        challenge_closes: lifting,
        ties_lift: ties(false),
        ties_total: ties(true),
        total: true,
        no_good: NoGood::NoTotal,
        weighed: meet,
        categories: Categories::None,
        age_group: AgeGroup::Usual,
        ages: match format {
            Format::MaxDay => Ages::None,
            Format::Weightlifting => Ages::Iwf,
            Format::Powerlifting => Ages::Ipf,
        },
        teams: Teams {
            points: if meet {
                vec![12, 9, 8, 7, 6]
            } else {
                Vec::new()
            },
            goes_on: power,
            scores: if lifting { Scores::All } else { Scores::Total },
            best: None,
            per_group: meet.then_some(2),
            ties: if power {
                vec![TeamTie::Places, TeamTie::Sum]
            } else {
                vec![TeamTie::Places]
            },
        },
        station_check: Gate::Owed,
        clearance: Gate::Owed,
        idle: Vec::new(),
        slots: vec![1],
        platforms: 1,
        two_sessions: false,
        planned: [None, None],
    }
}

pub fn entry(no: No, opener: Load) -> Athlete {
    Athlete {
        no,
        girl: true,
        bodyweight: Some(6000),
        slots: vec![Some((0, Some(opener)))],
        last: vec![None],
        ..Athlete::default()
    }
}

/// One day: openers, and the outcome of every attempt in the order of call.
fn story(rules: &Rules, openers: &[Load], mut outcomes: usize) -> Vec<(At, Act)> {
    let zero = At::default();
    let mut story: Vec<(At, Act)> = (1..)
        .zip(openers)
        .map(|(no, load)| (zero, Act::Add(entry(no, *load))))
        .collect();
    story.push((zero, Act::Start(1, 0, 0)));
    let mut model = crate::model::Model::new(rules.clone());
    for (at, act) in &story {
        model.try_act(act, *at).unwrap();
    }
    for turn in 0..2 * openers.len() {
        let at = At::from(10_000 * (i64::try_from(turn).unwrap() + 1));
        let s = model.state();
        let queue = s.queue(1);
        let first = queue.first().unwrap();
        let mut acts = Vec::new();
        if first.load.is_none() {
            acts.push(Act::Request {
                no: first.no,
                slot: 0,
                attempt: None,
                load: Asked::Exactly(
                    s.bar(0, 0, first.attempt)
                        .max(openers[usize::from(first.no) - 1] + rules.step),
                ),
                record: false,
            });
        }
        acts.push(Act::Call {
            platform: 1,
            no: None,
            load: None,
        });
        acts.push(match outcomes % 3 {
            2 => Act::Pass {
                platform: 1,
                who: None,
                rest: false,
            },
            good => Act::Lights {
                platform: 1,
                no: None,
                load: None,
                outcome: Given::Lights(vec![good == 0]).into(),
            },
        });
        outcomes /= 3;
        for act in acts {
            model.try_act(&act, at).unwrap();
            story.push((at, act));
        }
    }
    story
}

/// Small days of the three formats through model and engine; how many.
///
/// Of the days of three athletes every `stride`th, spread over all outcomes.
pub fn all(stride: usize) -> usize {
    let mut days = 0;
    for format in Format::ALL {
        let rules = shipped(format);
        for athletes in 1..=3_u32 {
            for pattern in 0..3_usize.pow(athletes) {
                let openers: Vec<Load> = (0..athletes)
                    .map(|a| {
                        let more = pattern / 3_usize.pow(a) % 3;
                        4000 + i64::try_from(more).unwrap() * rules.step
                    })
                    .collect();
                let stride = if athletes < 3 { 1 } else { stride };
                let outcomes = 3_usize.pow(2 * athletes);
                for outcomes in (pattern % stride..outcomes).step_by(stride) {
                    let story = story(&rules, &openers, outcomes);
                    let answer: Result<Counts, _> = replay(&rules, &story);
                    if let Err((at, why)) = answer {
                        panic!("{why}\n{rules:?}\n{:#?}", &story[..=at]);
                    }
                    days += 1;
                }
            }
        }
    }
    days
}

/// An attempt from a card.
pub const fn tally(no: No, load: Load, ruling: Ruling) -> Act {
    Act::Tally {
        no,
        slot: 0,
        attempt: None,
        load: Some(load),
        outcome: Outcome {
            given: Given::Word(ruling),
            reps: None,
            variant: None,
        },
    }
}
