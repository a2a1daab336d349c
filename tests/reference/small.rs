//! All small days: up to three athletes with two attempts each, all outcomes,
//! all orders of equal and unequal openers, in both formats.

use crate::compare::{Counts, replay};
use crate::plain::{
    Act, Athlete, Bar, Categories, Given, Key, Load, No, Rules, Ruling, Tie,
};

/// The rules of a shipped format, with two attempts and one slot.
pub fn shipped(weightlifting: bool) -> Rules {
    let on = |s| weightlifting.then_some(s);
    Rules {
        weightlifting,
        pounds: false,
        law: weightlifting,
        bar: if weightlifting {
            Bar::Rising
        } else {
            Bar::Rounds
        },
        order: if weightlifting {
            vec![Key::Load, Key::Attempt, Key::Previous, Key::Number]
        } else {
            vec![Key::Attempt, Key::Load, Key::Number]
        },
        attempts: 2,
        judges: 1,
        step: if weightlifting { 100 } else { 250 },
        least: weightlifting,
        automatic: weightlifting,
        declare: weightlifting,
        changes: weightlifting.then_some(2),
        final_call: on(30),
        within: on(30),
        clock: on(60),
        following: on(120),
        ties_lift: if weightlifting {
            vec![Tie::BestAttempt, Tie::Previous, Tie::Number]
        } else {
            vec![Tie::Shared]
        },
        ties_total: if weightlifting {
            vec![
                Tie::LastSlotLower,
                Tie::BestAttempt,
                Tie::Previous,
                Tie::Number,
            ]
        } else {
            vec![Tie::Shared]
        },
        total: true,
        needs_all: true,
        weighed: weightlifting,
        categories: Categories::None,
        slots: vec![1],
        platforms: 1,
    }
}

pub fn entry(no: No, opener: Load) -> Athlete {
    Athlete {
        no,
        girl: true,
        bodyweight: Some(6000),
        category: String::new(),
        flight: 0,
        slots: vec![Some((0, Some(opener)))],
    }
}

/// One day: openers, and the outcome of every attempt in the order of call.
fn story(rules: &Rules, openers: &[Load], mut outcomes: usize) -> Vec<(i64, Act)> {
    let mut story: Vec<(i64, Act)> = (1..)
        .zip(openers)
        .map(|(no, load)| (0, Act::Add(entry(no, *load))))
        .collect();
    story.push((0, Act::Start(1, 0, 0)));
    let mut model = crate::model::Model::new(rules.clone());
    for (at, act) in &story {
        model.try_act(act, *at).unwrap();
    }
    for turn in 0..2 * openers.len() {
        let at = 10_000 * (i64::try_from(turn).unwrap() + 1);
        let queue = model.queue(&model.state(), 1);
        let first = queue.first().unwrap();
        let mut acts = Vec::new();
        if first.load.is_none() {
            acts.push(Act::Request {
                no: first.no,
                slot: 0,
                attempt: None,
                load: model
                    .bar(&model.state(), 0, 0, first.attempt)
                    .max(openers[usize::from(first.no) - 1] + rules.step),
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
                given: Given::Lights(vec![good == 0]),
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

/// Small days of both formats through model and engine; how many.
///
/// Of the days of three athletes every `stride`th, spread over all outcomes.
pub fn all(stride: usize) -> usize {
    let mut days = 0;
    for weightlifting in [true, false] {
        let rules = shipped(weightlifting);
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
        given: Given::Word(ruling),
    }
}
