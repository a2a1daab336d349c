//! Bests, totals, places and ties.

use maxday::measure::Unit;

use super::Table;

/// A meet that was entered from cards: rows of lot and bodyweight, then the
/// nine attempts in order, a no lift with a minus sign.
fn meet(cards: &str) -> Table {
    let mut table = Table::power();
    let rows: Vec<Vec<&str>> = cards
        .lines()
        .map(|l| l.split_whitespace().collect())
        .filter(|l: &Vec<&str>| !l.is_empty())
        .collect();
    for row in &rows {
        table.enter(&format!("{} A 50 50 50; bodyweight={}", row[0], row[1]));
    }
    for row in &rows {
        for (i, load) in row[2..].iter().enumerate() {
            let lift = ["back-squat", "bench-press", "deadlift"][i / 3];
            let n = i % 3 + 1;
            let outcome = if load.starts_with('-') { "no" } else { "good" };
            let load = load.trim_start_matches('-');
            table.play(&format!("tally|{}|{lift}|{n}|{load}|{outcome}", row[0]));
        }
    }
    table
}

#[test]
fn the_best_of_each_lift_is_added_and_the_heavier_total_placed_first() {
    // IPF Technical Rules 2007, article 1.
    meet(
        "1 70 100 105 -110 60 65 67.5 120 130 140
        2 60 100 110 115 50 -55 -55 120 130 -140",
    )
    .play(
        "? bests back-squat: 1=105 2=115
        ? bests bench-press: 1=67.5 2=50
        ? totals: 1=312.5/1 2=295/2
        ? places back-squat: 1=2 2=1
        ? places bench-press: 1=1 2=2
        ? places deadlift: 1=1 2=2",
    );
}

#[test]
fn equal_totals_go_to_the_lighter_lifter() {
    // IPF Technical Rules 2007, article 1 (d).
    meet(
        "1 70.1 100 105 110 60 62.5 65 120 125 130
        2 70.0 100 105 110 60 62.5 65 120 125 130",
    )
    .play("? totals: 1=305/2 2=305/1");
}

#[test]
fn equal_totals_and_bodyweights_go_to_who_reached_the_total_first() {
    // IPF Technical Rules 2007, article 1 (d). Lot 2's total was complete
    // with the second deadlift, lot 1's with the third.
    let mut table = Table::power();
    table.enter(
        "1 A 100 60 120; bodyweight=70
        2 A 100 60 120; bodyweight=70",
    );
    table.play(
        "tally|1|back-squat|1|100|good
        tally|2|back-squat|1|100|good
        tally|1|bench-press|1|60|good
        tally|2|bench-press|1|60|good
        start||deadlift|||A
        lights|1|deadlift||120|www
        lights|2|deadlift||120|www
        request|2|deadlift||130
        lights|1|deadlift||122.5|rrr
        lights|2|deadlift||130|www
        request|1|deadlift||130
        lights|1|deadlift||130|www
        ? totals: 1=290/2 2=290/1
        ? places deadlift: 1=2 2=1
        ? places back-squat: 1=1 2=2",
    );
}

#[test]
fn the_same_holds_for_the_places_in_a_single_lift() {
    // IPF Technical Rules 2007, article 1 (e).
    meet(
        "1 70.1 100 105 110 60 62.5 65 120 125 130
        2 69.9 100 105 110 60 62.5 65 120 125 132.5
        3 69.9 100 110 110 60 62.5 65 120 125 127.5",
    )
    .play(
        // Of 2 and 3, equally heavy, 2's card came first.
        "? places back-squat: 1=3 2=1 3=2
        ? places deadlift: 1=2 2=1 3=3",
    );
}

#[test]
fn lifters_who_were_not_weighed_come_behind_in_a_tie() {
    // Common sense: an unknown bodyweight is lighter than nobody's.
    let mut table = Table::power();
    table.enter("1 A 100 60 120\n2 A 100 60 120; bodyweight=110");
    table.play(
        "tally|1|back-squat|1|100|good
        tally|2|back-squat|1|100|good
        ? places back-squat: 1=2 2=1
        weigh|1|||90
        ? places back-squat: 1=1 2=2",
    );
}

const BOMBED: &str = "
    1 70 100 105 110 -60 -60 -60 120 130 140
    2 60 100 -110 -115 50 -55 -55 120 -130 -140";

#[test]
fn three_misses_are_no_total_but_a_place_in_the_other_lifts() {
    // IPF outline: out of the total; still placed in the other single lifts.
    meet(BOMBED).play(
        "? totals: 1= 2=270/1
        ? places back-squat: 1=1 2=2
        ? places bench-press: 1= 2=1
        ? places deadlift: 1=1 2=2",
    );
}

#[test]
fn where_three_misses_end_the_day_there_is_no_further_lift() {
    // One district's school rules: three misses are out.
    let mut table = Table::power();
    table.enter("1 A 100 60 120\n2 A 110 60 120");
    table.play(
        "set|||||no-good=out
        start||back-squat|||A
        lights|1|||100|rrr
        lights|2|||110|www
        lights|1|||100|rrr
        lights|2|||112.5|www
        lights|1|||100|rrr
        start||bench-press|||A
        ? queue 1: 2@60
        ! call|1 => an earlier lift ended without a good attempt
        extra|1|back-squat|||the rack slipped
        ? queue 1: 1@60 2@60",
    );
}

#[test]
fn a_single_lift_meet_has_places_and_no_other_lift() {
    // IPF Technical Rules 2007, article 1 (e): single lifts.
    let mut table = Table::new("powerlifting", Unit::Kg, "bench-press", 1);
    table.enter("1 A 60; bodyweight=70\n2 A 60; bodyweight=69");
    table.play(
        "start||bench-press|||A
        lights|1|||60|www
        lights|2|||60|www
        ? places bench-press: 1=2 2=1
        ? totals: 1=60/2 2=60/1",
    );
}

#[test]
fn push_and_pull_is_the_bench_press_and_the_deadlift() {
    // Common practice: two lifts, with the last slot's changes.
    let mut table = Table::new("powerlifting", Unit::Kg, "bench-press,deadlift", 1);
    table.enter("1 A 60 120; bodyweight=70\n2 A 60 120; bodyweight=70");
    table.play(
        "start||bench-press|||A
        lights|1|||60|www
        lights|2|||60|rrr
        lights|2|||60|www
        start||deadlift|||A
        lights|1|||120|www
        lights|2|||120|www
        ? totals: 1=180/1 2=180/2
        lights|1|||122.5|rrr
        lights|2|||122.5|www
        request|1|||130
        request|1|||135
        request|1|||132.5
        lights|2|||125|rrr
        lights|1|||132.5|rrr
        ? totals: 1=180/2 2=182.5/1",
    );
}

#[test]
fn points_of_teams_are_data() {
    // IPF from memory: 12, 9, 8 … 1, then 1 each. Most first places decide a
    // tie (quiz for international referees). At most two of a nation in one
    // class (a national team's page).
    Table::power().play(
        "? rule team-points: 12 9 8 7 6 5 4 3 2 1...
        ? rule team-ties: places sum shared
        ? rule team-per-group: 2
        set|||||team-points=5 3 1
        ? rule team-points: 5 3 1",
    );
}
