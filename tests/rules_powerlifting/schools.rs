//! School powerlifting: pounds, and rules of states and districts.

use maxday::measure::Unit;

use super::Table;

/// A school meet in pounds.
fn pounds() -> Table {
    Table::new(
        "powerlifting",
        Unit::Lb,
        "back-squat,bench-press,deadlift",
        1,
    )
}

#[test]
fn a_meet_in_pounds_has_steps_of_five_pounds() {
    // Common practice in school meets that load in pounds; Louisiana's rules
    // (LHSPLA 2015-16) have an article on pound weights in sanctioned meets.
    let mut table = pounds();
    table.enter("1 A 225 135 315\n2 A 230 135 315");
    table.play(
        "start||back-squat|||A
        ! request|1|bench-press||137.5 => not a multiple of 5 lb; the nearest are 135 lb and 140 lb
        lights|1|||225|www
        ? stands 1 back-squat: 230 automatic
        lights|2|||230|rrr
        ? stands 2 back-squat: 230 automatic
        ! request|2|||225 => 230 lb or more",
    );
}

#[test]
fn a_record_in_pounds_is_tried_by_the_pound() {
    // About 0.5 kg: this program's own value.
    let mut table = pounds();
    table.enter("1 A 225 135 315");
    table.play(
        "start||back-squat|||A
        lights|1|||225|www
        ! request|1|||226.5|record => not a multiple of 1 lb
        request|1|||226|record",
    );
}

#[test]
fn in_texas_the_best_squat_bench_press_and_deadlift_are_added() {
    // Texas boys (THSPA 2014, 2018) and girls (THSWPA 2015-2018): in that
    // order, three attempts each, the best of each counts; the lighter lifter
    // on equal totals; no total is eliminated.
    let mut table = Table::by_rules(
        "base = \"powerlifting\"
        title = \"Texas school meet\"
        no-good = \"out\"
        categories = \"none\"
        ages = \"none\"",
        Unit::Lb,
    );
    let slots: Vec<&str> = table
        .day
        .facts()
        .slots
        .iter()
        .map(|l| l.slot.as_str())
        .collect();
    assert_eq!(slots, ["back-squat", "bench-press", "deadlift"]);
    table.enter(
        "1 A 225 135 315; bodyweight=148.2
        2 A 225 135 315; bodyweight=147.8
        3 A 405 225 455; bodyweight=180",
    );
    for lot in ["1", "2"] {
        for (lift, loads) in [
            ("back-squat", ["225", "235", "245"]),
            ("bench-press", ["135", "140", "145"]),
            ("deadlift", ["315", "325", "335"]),
        ] {
            for (n, load) in loads.iter().enumerate() {
                // The last of each is missed.
                let outcome = if n == 2 { "no" } else { "good" };
                table.play(&format!("tally|{lot}|{lift}|{}|{load}|{outcome}", n + 1));
            }
        }
    }
    table.play(
        "tally|3|back-squat|1|405|no
        tally|3|back-squat|2|405|no
        tally|3|back-squat|3|405|no
        ? totals: 1=700/2 2=700/1 3=
        start||bench-press|||A
        ! call|3 => an earlier lift ended without a good attempt",
    );
}

#[test]
fn in_a_district_nobody_goes_below_the_own_opener() {
    // One district's school rules: not below one's own opener; a pass is
    // allowed, but the attempt can't be taken later; three misses are out; the
    // lighter lifter wins a tie.
    let mut table = pounds();
    table.enter("1 A 225 135 315; bodyweight=150\n2 A 225 135 315; bodyweight=149");
    table.play(
        "set|||||no-good=out
        start||back-squat|||A
        lights|1|||225|rrr
        lights|2|||225|www
        ! request|1|||220 => 225 lb or more
        pass|1
        ! tally|1|back-squat|2|225|good => ruled already (pass)
        pass|2
        lights|1|||225|www
        ? attempts 1 back-squat: 225 no, - pass, 225 good
        ? places back-squat: 1=2 2=1",
    );
}

#[test]
fn a_clean_and_jerk_with_a_bench_press_is_a_programme_like_any_other() {
    // Florida's school weightlifting (FHSAA) has these two, from memory.
    let mut table = Table::new("powerlifting", Unit::Lb, "bench-press,clean-and-jerk", 1);
    table.enter("1 A 135 115");
    table.play(
        "start||clean-and-jerk|||A
        lights|1|||115|www
        ? bests clean-and-jerk: 1=115",
    );
}

#[test]
fn classes_of_a_school_may_be_its_own_in_pounds() {
    // State associations print classes in pounds (their tables of contents
    // name articles on them); the limits here are made up.
    let mut table = Table::by_rules(
        "base = \"powerlifting\"
        categories = \"F 105 114 +114; M 114 123 +123 lb\"",
        Unit::Lb,
    );
    table.enter(
        "1 A 100 60 120; sex=F; bodyweight=105
        2 A 100 60 120; sex=F; bodyweight=105.1
        3 A 100 60 120; sex=M; bodyweight=123.1",
    );
    table.play("? groups: F 105: 1; F 114: 2; M 123+: 3");
}
