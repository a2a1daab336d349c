//! Jumps, drops, rest, and when it is enough.

use maxday::measure::Unit;

use super::{Table, racks};

/// A day in pounds with an upper-body and a lower-body lift.
fn table(more: &str) -> Table {
    let rules = format!(
        "base = \"max-day\"\nlifts = \"back-squat, bench-press\"\nattempts = 6\n{more}"
    );
    let mut table = Table::by_rules(&rules, Unit::Lb);
    table.enter("1 A 200 100\n2 A 205 105; back-squat last=200; bench-press last=100");
    table.play("start||back-squat|||A");
    table
}

#[test]
fn after_a_good_lift_the_jump_is_ten_or_twenty_percent_at_most() {
    // NSCA's protocol: upper body up 5 to 10 %, lower body up 10 to 20 %; a
    // college programme says the same.
    table("").play(
        "tally|1|back-squat|1|200|good
        tally|1|bench-press|1|100|good
        ? advice 1 back-squat: most 240, less -, many -
        ? advice 1 bench-press: most 110, less -, many -",
    );
}

#[test]
fn after_a_miss_the_drop_is_five_or_ten_percent() {
    // NSCA's protocol: upper body down 2.5 to 5 %, lower body down 5 to 10 %;
    // down to the step.
    table("").play(
        "tally|1|back-squat|1|200|no
        tally|1|bench-press|1|100|no
        ? advice 1 back-squat: most -, less 180, many -
        ? advice 1 bench-press: most -, less 95, many -
        tally|1|back-squat|2|195|no
        ? advice 1 back-squat: most -, less 175, many -",
    );
}

#[test]
fn an_opener_goes_by_the_last_max() {
    // The same jumps over the last known max: this program's own choice.
    table("").play(
        "? advice 2 back-squat: most 240, less -, many -
        ? advice 2 bench-press: most 110, less -, many -
        ? advice 1 back-squat: most -, less -, many -",
    );
}

#[test]
fn one_step_up_is_always_within_the_advice() {
    // Common practice: the smallest discs can't be too much.
    table("").play(
        "tally|1|bench-press|1|20|good
        ? advice 1 bench-press: most 25, less -, many -",
    );
}

#[test]
fn advice_never_refuses() {
    // Published protocols advise; the coach decides.
    table("").play(
        "tally|1|bench-press|1|100|good
        request|1|bench-press||200
        tally|1|bench-press||200|no
        request|1|bench-press||45",
    );
}

#[test]
fn where_jumps_are_required_a_larger_one_is_refused() {
    // Rule of thumb from the protocols: above 10 % (upper) or 20 % (lower).
    let mut table = table("jumps = \"required\"");
    table.play(
        "tally|1|back-squat|1|200|good
        tally|1|bench-press|1|100|good
        ! request|1|back-squat||245 => 245 lb is too far up for lot 1; 240 lb or less is allowed
        request|1|back-squat||240
        ! request|1|bench-press||115 => 110 lb or less
        request|1|bench-press||110
        ! request|2|back-squat||245 => 240 lb or less
        request|2|back-squat||240",
    );
    // After a miss, or with nothing to go by, there is no limit.
    table.play(
        "tally|1|back-squat||240|no
        request|1|back-squat||300",
    );
    // A test of what was lifted elsewhere is entered as it was.
    table.play("tally|1|bench-press||150|good");
}

#[test]
fn the_percentages_are_data() {
    // ACSM (9th edition): up 2.5 to 20 kg. A school may set its own or none.
    table("jump-upper = 20\njumps = \"required\"").play(
        "tally|1|bench-press|1|100|good
        request|1|bench-press||120",
    );
    table("jump-upper = \"off\"\ndrop-lower = \"off\"\njumps = \"required\"").play(
        "tally|1|bench-press|1|100|good
        ? advice 1 bench-press: most -, less -, many -
        request|1|bench-press||200
        tally|1|back-squat|1|200|no
        ? advice 1 back-squat: most -, less -, many -",
    );
}

#[test]
fn after_five_maximal_attempts_the_table_says_so() {
    // NSCA's protocol: within about 5 sets; a college programme: never more
    // than 5. ACSM: within 4 trials, and Kraemer and Fry's way: 3 to 5. A pass
    // is no attempt.
    let mut table = table("");
    for (n, outcome) in [(1, "good"), (2, "good"), (3, "pass"), (4, "no"), (5, "no")] {
        table.play(&format!("tally|1|back-squat|{n}|{}|{outcome}", 200 + 5 * n));
    }
    table.play(
        "? advice 1 back-squat: most -, less 200, many -
        tally|1|back-squat|6|225|no
        extra|1|back-squat|||one more
        ? advice 1 back-squat: most -, less 200, many 5
        set|||||warn-after=4
        ? advice 1 back-squat: most -, less 200, many 5
        set|||||warn-after=off
        ? advice 1 back-squat: most -, less 200, many -",
    );
}

#[test]
fn the_rest_after_an_attempt_is_shown_and_is_data() {
    // NSCA's protocol: 2 to 4 minutes; Kraemer and Fry's way and ACSM: 3 to 5.
    racks().play(
        "@10:00:00 lights|1|||95|w
        ? rests 1: 3=now 2=now 1=10:02:00
        set|||||rest=240
        ? rests 1: 3=now 2=now 1=10:04:00
        @10:00:30 lights|1|||100|w
        ? bests clean: 1=100 2= 3= 7=",
    );
}

#[test]
fn three_attempts_are_the_usual_card_and_the_number_is_data() {
    // ACSM (9th edition): within 4 trials; NSCA: 3 to 5.
    racks().play(
        "? rule attempts: 3
        set|||||attempts=5
        ? allowed 1 clean: 5
        ! set|||||attempts=10 => attempts",
    );
}
