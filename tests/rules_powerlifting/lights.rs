//! The clock, the lights, and the reasons for a no lift.

use maxday::lift::catalogue;
use maxday::measure::Unit;

use super::{Table, squat};

#[test]
fn a_minute_runs_from_the_call_to_the_loaded_bar() {
    // A provincial association's guide: the one-minute rules, from “bar is
    // loaded” (the detail from memory).
    squat("1 A 100 60 120\n2 A 105 60 120").play(
        "@10:00:00 call|1
        ? clock 10.00.00: 1:00
        ? clock 10.00.42: 0:18
        ? clock 10.01.30: 0:00
        ? called 1: 1@100
        @10:01:31 lights|||||time
        ? attempts 1 back-squat: 100 time
        ? stands 1 back-squat: 100 automatic",
    );
}

#[test]
fn world_para_powerlifting_gives_two_minutes() {
    // World Para Powerlifting as published: 2 minutes. A rules file says so.
    let rules = "base = \"powerlifting\"
        title = \"Bench press, seated or lying\"
        lifts = \"bench-press\"
        clock = 120
        categories = \"world-para\"";
    let mut table = Table::by_rules(rules, Unit::Kg);
    table.enter("1 A 100; sex=M; bodyweight=53.9");
    table.play(
        "start||bench-press|||A
        @10:00:00 call|1
        ? clock 10.00.30: 1:30
        ? groups: M 54: 1",
    );
}

#[test]
fn a_late_word_never_stops_the_clock() {
    // Quiz page for referees: a request after the clock has started doesn't
    // stop it. Here for loads, where a day allows them after the call.
    let script = "set|||||change-called=yes; changes=2
        lights|1|||100|www
        @10:00:00 call|1
        @10:00:20 request|1|||105";
    let mut table = squat("1 A 100 60 120");
    table.play(script);
    table.play("? clock 10.00.30: 0:30");
    let mut table = squat("1 A 100 60 120");
    table.play("set|||||change-clock=stop");
    table.play(script);
    table.play("? clock 10.00.30: 0:40 stands");
}

#[test]
fn of_three_referees_the_majority_decides() {
    // USA Powerlifting rulebook 2026, 2.10.2.
    for (lights, ruling) in [
        ("www", "good"),
        ("wwr", "good"),
        ("wrw", "good"),
        ("rww", "good"),
        ("wrr", "no"),
        ("rwr", "no"),
        ("rrw", "no"),
        ("rrr", "no"),
    ] {
        squat("1 A 100 60 120").play(&format!(
            "lights|1|||100|{lights}
            ? attempts 1 back-squat: 100 {ruling}"
        ));
    }
    squat("1 A 100 60 120").play("! lights|1|||100|wr => 3 judges");
}

#[test]
fn a_red_light_is_explained_by_a_reason_of_that_lift() {
    // USA Powerlifting rulebook 2026, 2.10.2: a red light is explained by a
    // card. A reason of another lift is no reason here.
    let mut table = squat("1 A 100 60 120");
    table.play(
        "lights|1|||100|w,r.not-deep-enough,r.knees-not-locked
        ! lights|1|||100|wrr:chest-not-touched => no fault of the
        ! lights|1|||100|wrr:let-drop => no fault of the
        lights|1|||100|wrr",
    );
    let ruled = |attempt| {
        let facts = table.day.facts();
        let entry = facts.entry_by_number(1).unwrap();
        let slot = &facts.slots[0].slot;
        let attempt = facts.attempt(entry.key, slot, attempt).unwrap();
        let faults = &attempt.ruled.as_ref().unwrap().fact.faults;
        faults
            .iter()
            .map(|f| (f.judge, f.code.clone()))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        ruled(1),
        [
            (Some(2), "not-deep-enough".to_owned()),
            (Some(3), "knees-not-locked".to_owned())
        ]
    );
    // A reason that is owed is no cause to refuse the lights.
    assert_eq!(ruled(2), []);
}

/// The lifts in which a judge may name a fault, of the three.
fn lifts_with(code: &str) -> Vec<&'static str> {
    ["back-squat", "bench-press", "deadlift"]
        .into_iter()
        .filter(|lift| {
            let lift = catalogue().get(lift).unwrap();
            lift.faults.iter().any(|f| f == code)
        })
        .collect()
}

#[test]
fn the_squat_has_the_reasons_of_its_failure_cards() {
    // USA Powerlifting rulebook 2026, 2.10.2, and older affiliates' cards:
    // red depth; blue upright, knees, double bounce, downward movement; yellow
    // feet, signals, elbows on legs, spotters, dumping.
    for code in [
        "not-deep-enough",
        "knees-not-locked",
        "double-bounce",
        "downward-movement",
        "feet-moved",
        "signal-ignored",
        "elbows-on-legs",
        "spotter-touched",
        "bar-dumped",
    ] {
        assert!(lifts_with(code).contains(&"back-squat"), "{code}");
    }
    for code in [
        "not-deep-enough",
        "double-bounce",
        "elbows-on-legs",
        "bar-dumped",
    ] {
        assert_eq!(lifts_with(code), ["back-squat"], "{code}");
    }
}

#[test]
fn the_bench_press_has_the_reasons_of_its_failure_cards() {
    // Affiliates' failure cards: red chest, belt; blue downward movement,
    // elbows; yellow heaving, signals, body, spotters, feet on the bench.
    for code in [
        "chest-not-touched",
        "belt-touched",
        "not-locked-out",
        "downward-movement",
        "bar-heaved",
        "body-moved",
        "feet-moved",
        "signal-ignored",
        "spotter-touched",
        "feet-on-bench",
    ] {
        assert!(lifts_with(code).contains(&"bench-press"), "{code}");
    }
    for code in [
        "chest-not-touched",
        "belt-touched",
        "bar-heaved",
        "feet-on-bench",
    ] {
        assert_eq!(lifts_with(code), ["bench-press"], "{code}");
    }
}

#[test]
fn the_deadlift_has_the_reasons_of_its_failure_cards() {
    // A quiz page for referees and affiliates' failure cards: red knees; blue
    // downward movement; yellow lowered early, dropped, stepping. Standing
    // erect and the support on the thighs are from memory.
    for code in [
        "knees-not-locked",
        "not-erect",
        "downward-movement",
        "thighs-helped",
        "lowered-early",
        "let-drop",
        "feet-moved",
    ] {
        assert!(lifts_with(code).contains(&"deadlift"), "{code}");
    }
    for code in ["not-erect", "thighs-helped", "let-drop", "lowered-early"] {
        assert_eq!(lifts_with(code), ["deadlift"], "{code}");
    }
}
