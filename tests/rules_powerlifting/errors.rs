//! Loading errors: a reprint of the IPF's rules, published by an affiliate.

use super::{Table, squat};

/// A squat at 100 kg that was good or no; another lifter is still to come.
fn ruled(good: bool) -> Table {
    let mut table = squat("1 A 100 60 120\n2 A 110 60 120");
    let lights = if good { "wwr" } else { "rrw" };
    table.play(&format!("lights|1|||100|{lights}"));
    table
}

/// Every cell: what was found, whether it was lifted, and what may be granted.
const CELLS: [(&str, bool, &[&str]); 6] = [
    // Lighter than asked: success, accept or repeat at the asked weight; miss,
    // a new attempt.
    ("97.5", true, &["keep", "repeat"]),
    ("97.5", false, &["repeat", "again"]),
    // Heavier: success is granted; miss, a new attempt.
    ("102.5", true, &["keep"]),
    ("102.5", false, &["repeat", "again"]),
    // Unequal sides, or the bar or platform disturbed: success, accept or
    // repeat; miss, a new attempt.
    ("100", true, &["keep", "repeat"]),
    ("100", false, &["repeat", "again"]),
];

#[test]
fn every_cell_of_the_loading_errors_grants_what_it_says_and_no_more() {
    // Reprint of the IPF's loading errors.
    for (found, good, allowed) in CELLS {
        for granted in ["keep", "repeat", "again"] {
            let act = format!("loaded|1|||{found}|{granted}");
            if !allowed.contains(&granted) {
                ruled(good).play(&format!("! {act} => allowed: {}", allowed.join(", ")));
                continue;
            }
            let mut table = ruled(good);
            table.play(&act);
            table.play(match granted {
                // It counts at what was on the bar.
                "keep" if found == "97.5" => "? bests back-squat: 1=97.5 2=",
                "keep" if found == "102.5" => "? bests back-squat: 1=102.5 2=",
                "keep" => "? bests back-squat: 1=100 2=",
                // The attempt is still the first, at the asked load, and
                // comes at the end of the round.
                _ => {
                    "? bests back-squat: 1= 2=
                    ? stands 1 back-squat: 100 opener
                    ? queue 1: 2@110 1@100"
                }
            });
        }
    }
}

#[test]
fn a_kept_attempt_is_the_base_of_the_next_one() {
    // Reprint of the IPF's loading errors: success at a heavier bar is
    // granted. The next attempt goes up from what was credited.
    let mut table = ruled(true);
    table.play(
        "loaded|1|||107.5|keep
        ? stands 1 back-squat: 110 automatic
        ! request|1|||107.5 => 110 kg or more",
    );
}

#[test]
fn what_is_no_multiple_of_the_step_is_recorded_at_the_multiple_below() {
    // Reprint of the IPF's loading errors: an unequal bar's result that is not
    // a multiple of 2.5 kg counts at the multiple below.
    for (found, credited) in [("98.75", "97.5"), ("99", "97.5"), ("101.25", "100")] {
        let mut table = ruled(true);
        table.play(&format!(
            "loaded|1|||{found}|keep
            ? bests back-squat: 1={credited} 2="
        ));
    }
    // It is data.
    ruled(true).play(
        "set|||||credit=loaded
        loaded|1|||98.75|keep
        ? bests back-squat: 1=98.75 2=",
    );
}

#[test]
fn a_record_attempt_is_credited_by_the_step_of_records() {
    // Reprint of the IPF's loading errors for the step; for a record, whose
    // load is no such multiple, common sense: half a kilogram.
    let script = |found: &str, credited: &str| {
        let mut table = squat("1 A 100 60 120\n2 A 110 60 120");
        table.play(&format!(
            "lights|1|||100|www
            lights|2|||110|www
            request|1|||101|record
            lights|1|||101|www
            loaded|1|||{found}|keep
            ? bests back-squat: 1={credited} 2=110"
        ));
    };
    script("101.25", "101");
    script("100.75", "100.5");
    script("102.5", "102.5");
    // A load that was asked for without the flag counts by the ordinary step.
    ruled(true).play(
        "loaded|1|||98|keep
        ? bests back-squat: 1=97.5 2=",
    );
}

#[test]
fn extra_attempts_are_taken_at_the_end_of_the_round() {
    // Reprint of the IPF's loading errors, for all of them.
    let mut table = squat("1 A 100 60 120\n2 A 110 60 120\n3 A 120 60 120");
    table.play(
        "lights|1|||100|rrr
        loaded|1|||102.5|again
        ? queue 1: 2@110 3@120 1@100
        lights|2|||110|rrr
        loaded|2|||107.5|repeat
        ? queue 1: 3@120 1@100 2@110
        lights|3|||120|www
        lights|1|||100|www
        ? queue 1: 2@110 1@102.5 3@122.5
        lights|2|||110|www
        ? queue 1: 1@102.5 2@112.5 3@122.5",
    );
}

#[test]
fn a_spotters_error_is_given_a_new_attempt_at_the_officials_discretion() {
    // A page of the IPF's rules of 2013: a spotter's error that costs a good
    // lift earns a new attempt at the end of the round.
    ruled(false).play(
        "loaded|1|||100|again
        ? queue 1: 2@110 1@100",
    );
}

#[test]
fn a_passed_attempt_had_no_bar() {
    // Common practice.
    let mut table = squat("1 A 100 60 120");
    table.play(
        "pass|1
        ! loaded|1||1|100|again => this one was passed",
    );
}

#[test]
fn when_and_what_is_granted_is_data() {
    // Schools may give the attempt at once, or grant more.
    ruled(false).play(
        "set|||||again=now
        loaded|1|||102.5|again
        ? queue 1: 1@100 2@110",
    );
    ruled(true).play(
        "set|||||error-heavier-good=keep repeat
        loaded|1|||102.5|repeat
        ? bests back-squat: 1= 2=",
    );
    ruled(false).play(
        "set|||||error-same-no=keep
        ! loaded|1|||100|again => allowed: keep
        loaded|1|||100|keep",
    );
}
