//! Stories that the model found, each as short as it could be made.
//!

use crate::compare::Pair;
use crate::plain::{Act, Categories, Given, Line, Rules, Ruling};
use crate::small::{entry, shipped, tally};

fn call() -> Act {
    Act::Call {
        platform: 1,
        no: None,
        load: None,
    }
}

fn light(white: bool) -> Act {
    Act::Lights {
        platform: 1,
        no: None,
        load: None,
        given: Given::Lights(vec![white]),
    }
}

fn overrule(good: bool) -> Act {
    Act::Rerule {
        no: 1,
        slot: 0,
        attempt: 1,
        good,
        challenge: false,
    }
}

/// Tells a story to the engine alone.
fn told(rules: &Rules, story: &[(i64, Act)]) -> Pair {
    let mut pair = Pair::new(rules);
    for (at, act) in story {
        let _ = pair.engine.try_act(act, *at, &[]).unwrap();
    }
    pair
}

/// Lot 1 misses 40, is called for 40 again, and the miss is overruled: the
/// call stands as it was announced.
fn called_then_overruled() -> Vec<(i64, Act)> {
    vec![
        (0, Act::Add(entry(1, 4000))),
        (0, Act::Start(1, 0, 0)),
        (10_000, call()),
        (20_000, light(false)),
        (30_000, call()),
        (40_000, overrule(true)),
    ]
}

/// Later facts stay: what was announced was on the bar (seed 453).
#[test]
fn a_stop_rules_the_load_that_was_announced() {
    let mut story = called_then_overruled();
    story.push((
        50_000,
        Act::Stop {
            platform: 1,
            who: None,
            pain: false,
        },
    ));
    let pair = told(&shipped(true), &story);
    let second = (2, "stopped".to_owned(), Some(4000));
    assert_eq!(pair.engine.rulings(1, 0).last(), Some(&second));
}

/// The queue's first line tells the loaders what is on the bar (seed 69).
#[test]
fn the_queue_shows_the_load_that_was_announced() {
    let pair = told(&shipped(true), &called_then_overruled());
    assert_eq!(pair.engine.queue(1), [(1, 2, Some(4000), true)]);
}

/// Lights do rule the load that was announced.
#[test]
fn lights_rule_the_load_that_was_announced() {
    let mut story = called_then_overruled();
    story.push((50_000, light(true)));
    let pair = told(&shipped(true), &story);
    let second = (2, "good".to_owned(), Some(4000));
    assert_eq!(pair.engine.rulings(1, 0).last(), Some(&second));
}

/// An undone ruling leaves the athlete called, the clock as it was: the first
/// call had 50 s left when it was ruled, whatever the second had (seed 1680).
#[test]
fn each_undone_ruling_gives_its_own_clock_back() {
    let story = [
        (0, Act::Add(entry(1, 4000))),
        (0, Act::Start(1, 0, 0)),
        (10_000, call()),
        (20_000, light(true)),
        (30_000, call()),
        (60_000, light(true)),
        (70_000, Act::Undo(Line::Platform(1))),
        (71_000, Act::Undo(Line::Platform(1))),
        (72_000, Act::Undo(Line::Platform(1))),
    ];
    let pair = told(&shipped(true), &story);
    assert_eq!(pair.engine.left(1, 80_000), Some(50_000));
}

/// A place is among those who are placed together; without a category there
/// is nobody to be placed with, so the place is blank (seed 23).
#[test]
fn nobody_without_a_category_has_a_place() {
    let mut rules = shipped(true);
    rules.categories = Categories::Iwf2026;
    let mut athlete = entry(1, 4000);
    athlete.bodyweight = None;
    let story = [(0, Act::Add(athlete)), (0, tally(1, 4000, Ruling::Good))];
    let line = &told(&rules, &story).engine.standings()[&1];
    assert_eq!(line.group, "");
    assert_eq!((line.slots[0].1, line.place), (None, None));
}
