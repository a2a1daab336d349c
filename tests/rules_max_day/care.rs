//! Clearances, caps and station checks.

use super::{Table, racks};

#[test]
fn a_clearance_is_given_by_slot() {
    // Position papers on youth (NSCA 2009, international consensus 2014)
    // accept maximal tests with qualified supervision, others (AAP 2008) advise
    // against them until maturity: who may attempt what is the school's word.
    let mut table = racks();
    table.play(
        "clear|1|clean|||no; who=Dr Brandt; why=wrist
        ! call|1 => not cleared for clean
        start||back-squat|||A
        lights|1|back-squat||135|w
        start||clean|||A
        ! clear|1|clean|||yes => needs a name and a reason
        ! clear|1|clean|||yes; who=Dr Brandt => needs a name and a reason
        clear|1|clean|||up to 100; who=Dr Brandt; why=seen today
        ! request|1|||105 => at most 100 lb in clean
        request|1|||100
        lights|1|||100|w",
    );
}

#[test]
fn a_missing_clearance_is_owed_or_required() {
    // Common practice; which of the two is data.
    racks().play(
        "lights|1|||95|w
        set|||||clearance=required
        ! call|3 => not cleared for clean
        clear|3||||yes
        lights|3|||100|w
        clear|2|back-squat|||yes
        ! call|2 => not cleared for clean
        set|||||clearance=off
        lights|2|||105|w",
    );
}

#[test]
fn a_clearance_ends_with_its_last_day() {
    // Common practice: a note from a doctor has a date.
    let script = "clear|1||||yes; until=2026-11-21
        clear|2||||yes until 2026-11-20
        clear|3||||up to 100; until=2026-12-01
        set|||||clearance=required";
    let mut table = racks();
    table.play(script);
    table.play(
        "lights|1|||95|w
        ! call|2 => not cleared
        ! request|3|||105 => at most 100 lb
        lights|3|||100|w",
    );
    let mut table = racks();
    table.play(script);
    table.play(
        "set|||||date=2026-11-22
        ! call|1 => not cleared
        clear|1||||yes; until=2026-11-22
        lights|1|||95|w
        set|||||date=2026-12-02
        ! call|3 => not cleared",
    );
}

#[test]
fn a_bar_that_has_ended_bars_no_more() {
    // A “no” with a last day counts as not recorded after it.
    let mut table = racks();
    table.play(
        "clear|1||||no; until=2026-11-21
        ! call|1 => not cleared
        set|||||date=2026-11-22
        lights|1|||95|w
        clear|1||||yes",
    );
}

#[test]
fn the_slots_own_clearance_goes_before_the_one_for_all() {
    // Common practice: cleared, but not for the squat.
    racks().play(
        "clear|2||||no
        ! clear|2|clean|||yes => needs a name and a reason
        clear|2|clean|||yes; who=Dr Brandt; why=only the back hurts
        lights|2|||105|w
        start||back-squat|||A
        ! call|2 => not cleared for back-squat",
    );
}

#[test]
fn a_cap_is_a_load_that_is_not_to_be_exceeded() {
    // Common practice; to ease one needs a name and a reason.
    racks().play(
        "cap|1|clean||100
        ! request|1|||105 => at most 100 lb in clean today
        request|1|||100
        cap|1|clean||95
        ! call|1 => at most 95 lb
        ! cap|1|clean||110 => needs a name and a reason
        ! cap|1|clean => needs a name and a reason
        cap|1|clean|||who=Coach Amsel; why=warm-up went well
        lights|1|||100|w
        ! cap|1|clean => has no cap there",
    );
    racks().play(
        "cap|1|||100
        ! request|1|back-squat||135 => at most 100 lb in back-squat today",
    );
}

#[test]
fn a_cap_bars_no_card_of_what_was_lifted() {
    // What was lifted was lifted.
    racks().play(
        "cap|1|clean||90
        tally|1|clean||95|good
        ? bests clean: 1=95 2= 3= 7=",
    );
}

#[test]
fn a_station_check_is_owed_or_required_before_the_first_start() {
    // School rulebooks on spotters (three for the squat) and common practice:
    // collars, safety arms, floor clear, spotters named. It is data.
    let mut table = Table::racks();
    table.enter("1 A 95 135");
    table.play(
        "set|||||station-check=required
        ! start||clean|||A => has no signed station check
        check|||||Ms Quist|1
        start||clean|||A",
    );
    let mut table = Table::racks();
    table.enter("1 A 95 135");
    table.play("start||clean|||A");
}

#[test]
fn fast_pulls_and_overhead_lifts_are_not_spotted_and_squats_are() {
    // School rulebooks: three spotters for the squat, the bench press by
    // hands under the bar. That explosive lifts aren't spotted is from memory
    // of NSCA's text, consistent with the published miss drills.
    use maxday::lift::catalogue;
    let spotters = |slug: &str| catalogue().get(slug).unwrap().spotters;
    assert_eq!(spotters("back-squat"), 3);
    assert!(spotters("bench-press") >= 1);
    for slug in [
        "snatch",
        "power-clean",
        "push-press",
        "split-jerk",
        "push-jerk",
    ] {
        assert_eq!(spotters(slug), 0, "{slug}");
    }
}
