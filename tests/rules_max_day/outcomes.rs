//! What a finished attempt is: good, no, stopped, another variant, several
//! repetitions.

use super::{Table, racks};

#[test]
fn a_stop_for_technique_is_kept_apart_from_a_miss() {
    // 1RM power cleans of trained boys (JSCR 2012;26(2):432): the load was
    // raised only with correct technique, so a stop is no miss.
    let mut table = racks();
    table.play(
        "tally|1|clean|1|95|good
        request|1|clean||105
        call|1|clean||||1
        stop|||||technique; back rounded|1
        ? attempts 1 clean: 95 good, 105 stopped
        ? bests clean: 1=95 2= 3= 7=
        ? advice 1 clean: most -, less -, many -
        tally|1|clean|3|105|no
        ? attempts 1 clean: 95 good, 105 stopped, 105 no
        extra|1|clean
        ? advice 1 clean: most -, less 90, many -",
    );
    let facts = table.day.facts();
    let entry = facts.entry_by_number(1).unwrap();
    let slot = &facts.slots[0].slot;
    let attempt = facts.attempt(entry.key, slot, 2).unwrap();
    let fact = &attempt.ruled.as_ref().unwrap().fact;
    assert_eq!(fact.reason, "technique; back rounded");
    assert!(!fact.ruling.is_good() && !fact.ruling.is_no_lift());
}

#[test]
fn a_stop_for_pain_takes_the_athlete_out_until_back() {
    // Common practice: who is hurt doesn't lift until somebody says so.
    racks().play(
        "call|1
        stop|||||pain; wrist|1
        ? queue 1: 3@100 2@105
        ! call|1 => say back first
        back|1
        ? queue 1: 3@100 2@105 1@",
    );
}

#[test]
fn strictly_another_catch_is_no_lift_of_that_variant() {
    // Trade naming (power = caught above parallel): a power clean that is
    // caught in a full squat is another lift.
    racks().play(
        "lights|1|||95|r:caught-too-low
        ! lights|1|hang-power-clean||105|w => not entered in hang-power-clean
        ! tally|1|hang-power-clean||105|good => not entered in hang-power-clean
        ? attempts 1 clean: 95 no",
    );
}

#[test]
fn strictly_the_lights_of_a_called_athlete_name_no_other_variant() {
    // Trade naming: the call was for the power clean.
    racks().play(
        "call|1
        ! lights|1|hang-power-clean|||w => power-clean",
    );
}

#[test]
fn reclassified_it_is_entered_as_the_variant_that_it_was() {
    // Trade naming: first the catch, then the lift, then the start.
    let mut table = racks();
    table.play(
        "set|||||wrong-catch=reclassify
        call|1
        lights|1|hang-power-clean|||w|1
        ? attempts 1 clean: 95 good hang-power-clean
        ? bests clean: 1=95 2= 3= 7=
        tally|2|clean||105|good
        tally|7|clean||65|good
        ? places clean: 1=1 2=1 3= 7=2
        ? lifts: all power-clean: 2 7 3; all hang-power-clean: 1; all back-squat: 1 2 7",
    );
    // The word behind the ruling says the same.
    racks().play(
        "set|||||wrong-catch=reclassify
        lights|1|||95|w; as=hang-power-clean
        ? attempts 1 clean: 95 good hang-power-clean
        ! lights|3|||100|w; as=back-squat => back-squat",
    );
    // An attempt of the variant entered comes before any other, however heavy.
    table.play(
        "tally|1|clean||90|good
        ? bests clean: 1=90 2=105 3= 7=65
        ? places clean: 1=2 2=1 3= 7=3
        ! tally|1|back-squat||135|r:caught-too-low => no fault of the
        ! tally|3|push-jerk||100|good => not on this day's programme",
    );
}

#[test]
fn one_repetition_is_the_rule() {
    // Common practice: a max test is one repetition.
    racks().play(
        "! tally|1|clean||95|good; reps=3 => one repetition only; 3 can't be entered",
    );
}

#[test]
fn several_repetitions_are_an_attempt_but_never_a_best() {
    // NSCA's load chart estimates from several repetitions; common practice
    // shows the estimate apart, behind whoever was tested.
    let mut table = racks();
    table.play(
        "set|||||reps=multiple
        tally|1|back-squat|1|135|good; reps=5
        ? attempts 1 back-squat: 135 good x5
        ? bests back-squat: 1= 2= 3= 7=
        tally|2|back-squat|1|95|good
        ? places back-squat: 1=2 2=1 3= 7=
        ? totals: 1= 2= 3= 7=
        tally|1|back-squat|2|140|good
        ? bests back-squat: 1=140 2=95 3= 7=
        ? places back-squat: 1=1 2=2 3= 7=
        tally|1|back-squat|3|140|no; reps=2
        ? attempts 1 back-squat: 135 good x5, 140 good, 140 no x2",
    );
}

#[test]
fn an_estimate_is_the_load_chart_cut_down() {
    // NSCA's training load chart: 1 = 100, 2 = 95, 3 = 93, 4 = 90, 5 = 87,
    // 6 = 85, 7 = 83, 8 = 80, 9 = 77, 10 = 75 %.
    use maxday::standings::{Basis, standings};
    for (reps, estimate) in [
        (2, "142.1"),
        (3, "145.1"),
        (4, "150"),
        (5, "155.1"),
        (6, "158.8"),
        (7, "162.6"),
        (8, "168.7"),
        (9, "175.3"),
        (10, "180"),
    ] {
        let mut table = racks();
        table.play(&format!(
            "set|||||reps=multiple
            tally|1|back-squat|1|135|good; reps={reps}"
        ));
        let facts = table.day.facts();
        let groups = standings(facts, Basis::Category);
        let entry = facts.entry_by_number(1).unwrap().key;
        let line = groups[0].lines.iter().find(|l| l.entry == entry).unwrap();
        let (_, mass) = line.slots[1].estimate.unwrap();
        assert_eq!(mass.show(facts.bar_unit), estimate, "{reps}");
    }
    // Above ten repetitions the published values differ: no estimate.
    let mut table = racks();
    table.play(
        "set|||||reps=multiple
        tally|1|back-squat|1|135|good; reps=11
        ? places back-squat: 1= 2= 3= 7=",
    );
}

#[test]
fn equal_maxes_share_a_place() {
    // Common practice.
    let mut table = racks();
    table.play(
        "tally|1|clean||95|good
        tally|2|clean||95|good
        tally|3|clean||90|good
        ? places clean: 1=1 2=1 3=3 7=",
    );
}

#[test]
fn a_load_may_go_down_after_a_miss() {
    // NSCA's protocol: less after a miss.
    racks().play(
        "lights|1|||95|r
        request|1|||90
        lights|3|||100|w
        lights|2|||105|w
        lights|1|||90|w
        ? bests clean: 1=90 2=105 3=100 7=",
    );
}

#[test]
fn a_knee_that_re_bends_is_a_fault_of_the_push_press() {
    // Published exercise texts: the push press is pressed out with straight
    // legs; the push jerk re-bends, the split jerk splits.
    use maxday::measure::Unit;
    let mut table = Table::new("max-day", Unit::Kg, "push-press,push-jerk,split-jerk", 1);
    table.enter("1 A 50 60 70");
    table.play(
        "start||push-press|||A
        lights|1|||50|r:knees-re-bent
        ! tally|1|push-jerk||60|no:knees-re-bent => no fault of the
        tally|1|push-jerk||60|no:not-re-bent
        tally|1|split-jerk||70|no:not-split",
    );
}
