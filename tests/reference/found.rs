//! Stories that the model found, each as short as it could be made.
//!

use crate::compare::Pair;
use crate::plain::{
    Act, Asked, At, Cleared, Edit, Given, Grant, Line, Load, No, Outcome, Roll, Ruling,
};
use crate::rules::{Categories, Format, Gate, Rules, Tie};
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
        outcome: Given::Lights(vec![white]).into(),
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
        let _ = pair.engine.try_act(act, At::from(*at), &[]).unwrap();
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
    let pair = told(&shipped(Format::Weightlifting), &story);
    let lift = "power-clean".to_owned();
    let second = (2, lift, "stopped".to_owned(), Some(4000));
    assert_eq!(pair.engine.rulings(1, 0).last(), Some(&second));
}

/// The queue's first line tells the loaders what is on the bar (seed 69).
#[test]
fn the_queue_shows_the_load_that_was_announced() {
    let pair = told(&shipped(Format::Weightlifting), &called_then_overruled());
    assert_eq!(pair.engine.queue(1), [(1, 2, Some(4000), true)]);
}

/// Lights do rule the load that was announced.
#[test]
fn lights_rule_the_load_that_was_announced() {
    let mut story = called_then_overruled();
    story.push((50_000, light(true)));
    let pair = told(&shipped(Format::Weightlifting), &story);
    let lift = "power-clean".to_owned();
    let second = (2, lift, "good".to_owned(), Some(4000));
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
    let pair = told(&shipped(Format::Weightlifting), &story);
    assert_eq!(pair.engine.left(1, At::from(80_000)), Some(50_000));
}

/// A place is among those who are placed together; without a category there
/// is nobody to be placed with, so the place is blank (seed 23).
#[test]
fn nobody_without_a_category_has_a_place() {
    let mut rules = shipped(Format::Weightlifting);
    rules.categories = Categories::Iwf2026;
    let mut athlete = entry(1, 4000);
    athlete.bodyweight = None;
    let story = [(0, Act::Add(athlete)), (0, tally(1, 4000, Ruling::Good))];
    let line = &told(&rules, &story).engine.standings()[&1];
    assert_eq!(line.group, "");
    assert_eq!((line.slots[0].place, line.place), (None, None));
}

/// Tells a story to both, which agree all the way; whether the last act was
/// taken.
fn both(rules: &Rules, story: Vec<(i64, Act)>) -> (Pair, bool) {
    let mut pair = Pair::new(rules);
    let mut taken = false;
    for (at, act) in story {
        taken = pair.act(&act, At::from(at)).unwrap();
    }
    (pair, taken)
}

/// Lots 1 and 2 with openers of 40 and 41, the lift begun.
fn two() -> Vec<(i64, Act)> {
    vec![
        (0, Act::Add(entry(1, 4000))),
        (0, Act::Add(entry(2, 4100))),
        (0, Act::Start(1, 0, 0)),
    ]
}

fn request(no: No, load: Load, record: bool) -> Act {
    Act::Request {
        no,
        slot: 0,
        attempt: None,
        load: Asked::Exactly(load),
        record,
    }
}

const fn challenge(no: No, good: bool) -> Act {
    Act::Rerule {
        no,
        slot: 0,
        attempt: 1,
        good,
        challenge: true,
    }
}

/// Whoever is disqualified asks for nothing more (seed 4).
#[test]
fn a_disqualified_athlete_asks_for_nothing() {
    let mut story = two();
    story.push((1000, Act::Disqualify(1, None)));
    story.push((2000, request(1, 4200, false)));
    assert!(!both(&shipped(Format::Weightlifting), story).1);
}

/// A strict wrong catch is no other variant (seed 50).
#[test]
fn a_strict_day_takes_no_other_variant() {
    let mut rules = shipped(Format::Weightlifting);
    rules.slots = vec![2];
    let lights = |variant| Act::Lights {
        platform: 1,
        no: None,
        load: None,
        outcome: Outcome {
            given: Given::Lights(vec![true]),
            reps: None,
            variant,
        },
    };
    let mut story = two();
    story.push((1000, call()));
    story.push((2000, lights(Some(1))));
    assert!(!both(&rules, story.clone()).1);
    let _ = story.pop();
    story.push((2000, lights(Some(0))));
    assert!(both(&rules, story).1);
}

/// Only the next call closes a challenge, not the next flight (seed 315).
#[test]
fn the_next_call_closes_a_challenge() {
    let mut story = two();
    story.extend([(1000, call()), (2000, light(false))]);
    let mut begun = story.clone();
    begun.push((3000, Act::Start(1, 1, 0)));
    begun.push((4000, challenge(1, true)));
    assert!(both(&shipped(Format::Weightlifting), begun).1);
    story.push((3000, call()));
    story.push((4000, Act::Undo(Line::Platform(1))));
    story.push((5000, call()));
    story.push((6000, challenge(1, true)));
    assert!(!both(&shipped(Format::Weightlifting), story).1);
}

/// Annulling numbers can't leave two of the same (seed 351).
#[test]
fn no_two_stand_under_one_number() {
    let mut rules = shipped(Format::Weightlifting);
    rules.start_numbers = true;
    let story = vec![
        (0, Act::Add(entry(5, 4000))),
        (0, Act::Add(entry(2, 4100))),
        (0, Act::Number(Vec::new())),
        (0, Act::Number(vec![(1, 5)])),
        (0, Act::Annul(2)),
    ];
    assert!(!both(&rules, story).1);
}

/// An attempt of somebody no longer entered hangs in the air (seed 89).
#[test]
fn an_edit_that_entered_somebody_stands_while_an_attempt_does() {
    let mut out = entry(1, 4000);
    out.slots = vec![None];
    let story = vec![
        (0, Act::Add(out)),
        (0, Act::Edit(1, Edit::Slot(0, Some((0, Some(4000)))))),
        (0, tally(1, 4000, Ruling::Good)),
        (0, Act::Undo(Line::Roster)),
    ];
    assert!(!both(&shipped(Format::Weightlifting), story).1);
}

/// A challenge that is lost leaves the ruling as it was, also for a later
/// correction (seed 58).
#[test]
fn a_lost_challenge_changes_nothing_but_the_challenges() {
    let mut story = two();
    story.extend([
        (1000, call()),
        (2000, light(false)),
        (3000, challenge(1, false)),
    ]);
    story.push((
        4000,
        Act::Correct {
            no: 1,
            slot: 0,
            attempt: 1,
            load: None,
            ruling: Some(Ruling::Good),
            reps: None,
            variant: None,
        },
    ));
    let (pair, taken) = both(&shipped(Format::Weightlifting), story);
    assert!(taken);
    let (_, _, ruling, _) = &pair.engine.rulings(1, 0)[0];
    assert_eq!(ruling, "good");
}

/// A call hangs on the start of what it was called for (seed 201).
#[test]
fn a_start_with_a_call_stays() {
    let mut rules = shipped(Format::MaxDay);
    rules.slots = vec![1, 1];
    let mut athlete = entry(1, 4000);
    athlete.slots.push(Some((0, Some(9000))));
    athlete.last.push(None);
    let story = vec![
        (0, Act::Add(athlete)),
        (0, Act::Start(1, 0, 0)),
        (0, Act::Start(1, 0, 1)),
        (0, call()),
        (0, Act::Annul(2)),
    ];
    assert!(!both(&rules, story).1);
}

/// Whoever is called on a platform stays there (seed 61446).
#[test]
fn a_place_stays_while_it_called_somebody() {
    let mut rules = shipped(Format::MaxDay);
    rules.platforms = 2;
    let story = vec![
        (0, Act::Add(entry(1, 4000))),
        (0, Act::Start(2, 1, 0)),
        (0, Act::Place(1, 1)),
        (
            0,
            Act::Call {
                platform: 2,
                no: None,
                load: None,
            },
        ),
        (0, Act::Undo(Line::Flights)),
    ];
    assert!(!both(&rules, story).1);
}

/// Once a flight has begun a lift its openers are closed for good (seed 117).
#[test]
fn openers_stay_closed_once_a_flight_has_begun() {
    let mut story = two();
    story.push((60_000, Act::Start(1, 1, 0)));
    story.push((61_000, request(2, 4250, false)));
    assert!(!both(&shipped(Format::Powerlifting), story).1);
}

/// Found on the bar: the record step counts only where the request was made
/// for a record (seeds 311 and 604).
#[test]
fn a_wrong_load_counts_by_the_step_of_its_request() {
    let rules = shipped(Format::Powerlifting);
    let keep = |load| Act::Loaded {
        no: 1,
        slot: 0,
        attempt: 1,
        load,
        grant: Grant::Keep,
    };
    for (record, counts) in [(true, 3950), (false, 3750)] {
        let story = vec![
            (0, Act::Add(entry(1, 4000))),
            (0, Act::Start(1, 0, 0)),
            (1000, request(1, 4000, record)),
            (2000, call()),
            (3000, light(true)),
            (4000, keep(3980)),
        ];
        let (pair, _) = both(&rules, story);
        assert_eq!(pair.engine.rulings(1, 0)[0].3, Some(counts));
    }
}

/// Whoever is gone isn't called any more (seeds 75 and 160).
#[test]
fn a_call_ends_with_the_athletes_presence() {
    let mut story = two();
    story.extend([
        (1000, call()),
        (2000, light(true)),
        (3000, Act::Roll(1, Roll::Absent)),
        (4000, Act::Undo(Line::Platform(1))),
    ]);
    let (pair, _) = both(&shipped(Format::Weightlifting), story);
    assert_eq!(pair.engine.left(1, At::from(5000)), None);
}

/// A record request that is allowed as it stands forces nobody up (seed 1040).
#[test]
fn a_record_request_is_no_cause_for_a_free_change() {
    let mut story = two();
    story.extend([
        (1000, call()),
        (2000, light(true)),
        (3000, request(1, 4050, true)),
        (4000, request(1, 4250, false)),
    ]);
    let mut rules = shipped(Format::Powerlifting);
    rules.changes_last = None;
    assert!(!both(&rules, story).1);
}

/// A clearance up to a load is overridden by name and reason (seed 2136).
#[test]
fn a_clearance_is_widened_under_a_name() {
    let clear = |cleared, signed| Act::Clear {
        no: 1,
        slot: None,
        cleared,
        over: false,
        signed,
    };
    let story = vec![
        (0, Act::Add(entry(1, 4000))),
        (0, clear(Cleared::UpTo(5000), false)),
        (0, clear(Cleared::Yes, false)),
    ];
    assert!(!both(&shipped(Format::MaxDay), story).1);
}

/// What a lift counts is what the tie goes by, too (seed 5428).
#[test]
fn ties_go_by_what_counts() {
    let mut rules = shipped(Format::Weightlifting);
    rules.ties_lift = vec![Tie::Previous, Tie::Number];
    let story = vec![
        (0, Act::Add(entry(1, 4000))),
        (0, Act::Add(entry(2, 4000))),
        (0, tally(1, 4000, Ruling::Good)),
        (0, tally(2, 4000, Ruling::Good)),
        (
            0,
            Act::Loaded {
                no: 1,
                slot: 0,
                attempt: 1,
                load: 4050,
                grant: Grant::Keep,
            },
        ),
        (0, tally(1, 4200, Ruling::Good)),
        (0, tally(2, 4200, Ruling::Good)),
    ];
    let (pair, _) = both(&rules, story);
    assert_eq!(pair.engine.standings()[&1].slots[0].place, Some(1));
}

/// A session's openers close by its own plan (seed 5787).
#[test]
fn each_session_closes_its_openers_by_its_own_plan() {
    let mut rules = shipped(Format::Powerlifting);
    rules.two_sessions = true;
    rules.planned = [Some(300_000), None];
    let story = vec![
        (0, Act::Add(entry(1, 4000))),
        (0, Act::Start(1, 1, 0)),
        (60_000, request(1, 4250, false)),
    ];
    assert!(!both(&rules, story).1);
}

/// Rounding a record request down is in time before the call only (seed 6874).
#[test]
fn a_record_is_rounded_down_before_the_call() {
    let mut rules = shipped(Format::Powerlifting);
    rules.change_called = true;
    rules.final_call = Some(30);
    let story = vec![
        (0, Act::Add(entry(1, 4000))),
        (0, request(1, 4050, true)),
        (0, Act::Start(1, 0, 0)),
        (1000, call()),
        (40_000, request(1, 4000, false)),
    ];
    assert!(!both(&rules, story.clone()).1);
    let mut early = story;
    let _ = early.remove(3);
    assert!(both(&rules, early).1);
}

/// A load named at the call is asked for first (seed 23845).
#[test]
fn a_load_named_at_the_call_keeps_the_jump() {
    let mut rules = shipped(Format::MaxDay);
    rules.jumps = Gate::Required;
    let story = vec![
        (0, Act::Add(entry(1, 4000))),
        (0, tally(1, 4000, Ruling::Good)),
        (0, Act::Start(1, 0, 0)),
        (
            0,
            Act::Call {
                platform: 1,
                no: None,
                load: Some(5000),
            },
        ),
    ];
    assert!(!both(&rules, story).1);
}

/// Nobody is taken out of a lift while called in it (seed 280).
#[test]
fn an_entry_stays_as_it_is_while_called() {
    let mut story = two();
    story.push((1000, call()));
    story.push((2000, Act::Edit(1, Edit::Slot(0, None))));
    assert!(!both(&shipped(Format::Weightlifting), story).1);
}

/// A call doesn't come back over another variant (seed 5116032).
#[test]
fn a_call_stays_undone_where_the_variant_is_another() {
    let mut rules = shipped(Format::MaxDay);
    rules.slots[0] = 2;
    let story = vec![
        (0, Act::Add(entry(1, 4000))),
        (0, Act::Start(1, 0, 0)),
        (1000, call()),
        (2000, Act::Undo(Line::Platform(1))),
        (2000, Act::Edit(1, Edit::Slot(0, Some((1, None))))),
        (3000, Act::Redo(Line::Platform(1))),
    ];
    assert!(!both(&rules, story).1);
}
