//! Loading errors: from memory, hence data of the rules.

use super::meet;
use super::script::Table;

/// A snatch at 60 kg that was good or no; another athlete is still to come.
fn ruled(good: bool) -> Table {
    let mut table = meet("1 A 60 90\n2 A 80 90");
    let lights = if good { "www" } else { "rrr" };
    table.play(&format!("lights|1|||60|{lights}"));
    table
}

/// What may be granted, by what was found and whether it was lifted.
const CELLS: [(&str, bool, &[&str]); 6] = [
    // Lighter: may be accepted at the loaded weight, or refused for a new
    // attempt at the called one; a miss earns a new attempt.
    ("59", true, &["keep", "repeat", "again"]),
    ("59", false, &["repeat", "again"]),
    // Heavier: may be accepted at the loaded weight; a miss earns a new one.
    ("61", true, &["keep", "repeat", "again"]),
    ("61", false, &["repeat", "again"]),
    // Uneven, or changed during the lift: may be kept; a miss is repeated.
    ("60", true, &["keep", "repeat", "again"]),
    ("60", false, &["repeat", "again"]),
];

#[test]
fn every_cell_of_the_loading_errors_grants_what_it_says_and_no_more() {
    // From memory.
    for (found, good, allowed) in CELLS {
        for granted in ["keep", "repeat", "again"] {
            let act = format!("loaded|1|||{found}|{granted}");
            let mut table = ruled(good);
            if !allowed.contains(&granted) {
                table.play(&format!("! {act} => allowed: {}", allowed.join(", ")));
                continue;
            }
            table.play(&act);
            if granted == "keep" {
                table.play(&format!("? bests snatch: 1={found} 2="));
            } else {
                table.play(
                    "? bests snatch: 1= 2=
                    ? stands 1 snatch: 60 opener
                    ? queue 1: 1@60 2@80",
                );
            }
        }
    }
}

#[test]
fn a_load_that_is_no_whole_kilogram_counts_the_kilogram_below() {
    // From memory.
    for (found, credited) in [("59.5", "59"), ("60.5", "60"), ("61.999", "61")] {
        ruled(true).play(&format!(
            "loaded|1|||{found}|keep
            ? bests snatch: 1={credited} 2="
        ));
    }
    ruled(true).play(
        "set|||||credit=loaded
        loaded|1|||59.5|keep
        ? bests snatch: 1=59.5 2=",
    );
}

#[test]
fn what_may_be_granted_is_data() {
    // From memory, so a body that grants less says so in its rules.
    ruled(true).play(
        "set|||||error-heavier-good=keep
        ! loaded|1|||61|again => For a heavier bar and a good lift the rules don't grant “again”; allowed: keep.
        loaded|1|||61|keep",
    );
}

#[test]
fn the_new_attempt_has_the_time_of_a_consecutive_one() {
    // From memory: the time rule of an athlete who follows.
    let mut table = meet("1 A 60 90\n2 A 80 90");
    table.play(
        "@10:00:00 lights|1|||60|rrr
        @10:00:30 loaded|1|||61|again
        @10:01:00 call|1
        ? clock 10.01.00: 2:00
        @10:01:30 lights|||||www
        ? bests snatch: 1=60 2=",
    );
    // Taken at the end of the round instead, where the rules say so.
    ruled(false).play(
        "set|||||again=round-end; bar=rounds; order=attempt load number
        loaded|1|||61|again
        ? queue 1: 2@80 1@60",
    );
}

#[test]
fn nothing_is_taken_again_behind_a_later_attempt() {
    // Common sense: what was lifted since stays; leave is given instead.
    ruled(true).play(
        "lights|1|||61|www
        ! loaded|1||1|59|again => grant one more attempt (extra) instead
        loaded|1||1|59|keep
        ? attempts 1 snatch: 59 good, 61 good
        extra|1||||the bar was wrong
        ? allowed 1 snatch: 4",
    );
}
