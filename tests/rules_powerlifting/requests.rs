//! Openers, declarations, changes, and how late they may come.

use super::{Table, squat};

const TWO: &str = "
    1 A 100 60 120
    2 A 110 70 140";

#[test]
fn openers_stand_from_the_weigh_in() {
    // IPF outline and IPL 2019: all lifts are declared at weigh-in.
    squat(TWO).play(
        "? stands 1 back-squat: 100 opener
        ? stands 1 deadlift: 120 opener
        ? limits 1 back-squat: least -, most -, changes 1, declared",
    );
}

#[test]
fn loads_are_multiples_of_two_and_a_half_kilograms() {
    // IPF outline and IPL 2019.
    squat(TWO).play(
        "! request|1|bench-press||61 => not a multiple of 2.5 kg; the nearest are 60 kg and 62.5 kg
        request|1|bench-press||62.5",
    );
}

#[test]
fn an_opener_may_be_changed_once_up_or_down() {
    // WDFPF 2007.
    let mut table = Table::power();
    table.enter(TWO);
    table.play(
        "request|1|back-squat||95
        request|1|back-squat||95
        ! request|1|back-squat||100 => no change left for attempt 1: 95 kg stands
        request|2|back-squat||120
        ! request|2|back-squat||110 => no change left
        request|1|deadlift||125",
    );
}

#[test]
fn an_opener_of_the_first_flight_closes_five_minutes_before_the_round() {
    // WDFPF 2007 and World Para Powerlifting: 5 minutes.
    let mut table = Table::power();
    table.enter(TWO);
    table.play(
        "set|||||session.1=\"10:00-12:00\"
        @09:55:00 request|1|back-squat||95
        ! @09:55:01 request|2|back-squat||105 => the opener closed 5 minutes before the start; 110 kg stands
        @10:00:00 start||back-squat|||A
        ! @10:00:05 request|2|back-squat||105 => the opener closed when the flight began",
    );
}

#[test]
fn an_opener_of_the_next_lift_closes_five_minutes_before_the_break_ends() {
    // WDFPF 2007: five minutes before the first round of that lift.
    let script = |time: &str, answer: &str| {
        let mut table = squat("1 A 100 60 120");
        table.play(&format!(
            "set|||||session.1=\"10:00-12:00\"
            @10:00:00 lights|1|||100|www
            @10:02:00 request|1|deadlift||122.5
            @10:05:00 break|||||20
            {answer}@{time} request|1|bench-press||62.5"
        ));
    };
    script("10:20:00", "");
    let mut table = squat("1 A 100 60 120");
    table.play(
        "set|||||session.1=\"10:00-12:00\"
        @10:05:00 break|||||20
        ! @10:20:01 request|1|bench-press||62.5 => 5 minutes before the start",
    );
}

#[test]
fn that_newer_texts_say_three_minutes_is_data() {
    // IPF from memory: 3 minutes.
    let mut table = Table::power();
    table.enter(TWO);
    table.play(
        "set|||||session.1=\"10:00-12:00\"; first-closes=3
        @09:57:00 request|1|back-squat||95
        ! @09:57:01 request|2|back-squat||105 => 3 minutes before the start",
    );
}

#[test]
fn an_opener_of_a_later_flight_closes_with_five_attempts_left_before_it() {
    // WDFPF 2007: until 5 attempts are left in the flight before.
    let mut table = Table::power();
    table.enter(
        "1 A 100 60 120
        2 A 110 60 120
        3 B 120 60 120
        4 B 130 60 120",
    );
    table.play(
        "@10:00:00 start||back-squat|||A
        @10:01:00 request|3|back-squat||122.5
        @10:01:10 lights|1|||100|www
        ! @10:02:00 request|4|back-squat||122.5 => with 5 attempts left in the flight before; 130 kg stands
        @10:02:10 request|4|deadlift||122.5
        set|||||first-closes-left=4
        @10:02:30 request|4|back-squat||122.5",
    );
}

#[test]
fn the_flight_before_is_the_one_directly_before() {
    // WDFPF 2007: five attempts left in the flight before. While A lifts,
    // flight C still has B before it.
    let mut table = Table::power();
    table.enter(
        "1 A 100 60 120
        2 B 110 60 120
        3 C 120 60 120
        4 C 130 60 120",
    );
    table.play(
        "@10:00:00 start||back-squat|||A
        ! @10:00:10 request|2|back-squat||112.5 => with 5 attempts left
        @10:00:20 request|3|back-squat||122.5
        @10:10:00 start||back-squat|||B
        ! @10:10:10 request|4|back-squat||132.5 => with 5 attempts left",
    );
}

#[test]
fn an_opener_stays_closed_once_its_flight_began() {
    // WDFPF 2007: before the first round. Another flight that starts later
    // opens nothing again.
    let mut table = Table::power();
    table.enter(
        "1 A 100 60 120
        2 A 110 60 120
        3 B 120 60 120",
    );
    table.play(
        "start||back-squat|||A
        lights|1|||100|www
        start||back-squat|||B
        ! request|2|back-squat||112.5 => the opener closed when the flight began",
    );
}

#[test]
fn a_record_request_may_not_be_changed_to_another_load() {
    // From memory: no change of second attempts, be they for a record or not.
    squat(TWO).play(
        "lights|1|||100|www
        request|1|||101.5|record
        ! request|1|||105 => no change left for attempt 2: 101.5 kg stands",
    );
}

#[test]
fn the_next_attempt_is_handed_in_within_a_minute() {
    // World Para Powerlifting, WDFPF 2007, IPL 2019 and a provincial guide:
    // 1 minute after finishing.
    for time in ["10:01:59", "10:02:00"] {
        squat(TWO).play(&format!(
            "@10:01:00 lights|1|||100|www
            @{time} request|1|||110
            ? stands 1 back-squat: 110 declared"
        ));
    }
    squat(TWO).play(
        "@10:01:00 lights|1|||100|www
        ! @10:02:01 request|1|||110 => the declaration closed 60 s after the last attempt; 102.5 kg stands
        ? stands 1 back-squat: 102.5 automatic",
    );
}

#[test]
fn what_is_not_handed_in_is_filled_in() {
    // IPL 2019: 2.5 kg more after a success, the same load after a miss (IPF
    // from memory).
    squat(TWO).play(
        "@10:01:00 lights|1|||100|wwr
        @10:02:00 lights|2|||110|wrr
        ? stands 1 back-squat: 102.5 automatic
        ? stands 2 back-squat: 110 automatic
        @10:05:00 lights|1|||102.5|www
        @10:06:00 lights|2|||110|www",
    );
}

#[test]
fn where_it_is_forfeited_instead_nothing_is_filled_in() {
    // WDFPF 2007: the attempt is forfeited. The table enters the pass.
    let mut table = Table::power();
    table.enter(TWO);
    table.play(
        "set|||||automatic=none
        @10:00:00 start||back-squat|||A
        @10:01:00 lights|1|||100|www
        ? stands 1 back-squat: nothing
        @10:02:00 lights|2|||110|www
        @10:02:10 request|2|||120
        ! @10:02:01 request|1|||110 => 60 s after the last attempt; nothing stands
        ? queue 1: 2@120 1@
        pass|1|back-squat
        lights|2|||120|www
        ? attempts 1 back-squat: 100 good, - pass",
    );
}

#[test]
fn second_attempts_and_third_squats_and_bench_presses_stand() {
    // From memory, and consistent with WDFPF's count of slips (three for the
    // squat, three for the bench press, five for the deadlift).
    let mut table = squat("1 A 100 60 120");
    table.play(
        "lights|1|||100|www
        ? limits 1 back-squat: least 102.5, most -, changes 0, owed
        request|1|||105
        ! request|1|||110 => no change left for attempt 2: 105 kg stands
        lights|1|||105|www
        request|1|||110
        ! request|1|||112.5 => no change left for attempt 3
        lights|1|||110|www
        start||bench-press|||A
        lights|1|||60|www
        lights|1|||62.5|www
        request|1|||65
        ! request|1|||67.5 => no change left for attempt 3
        start||deadlift|||A
        lights|1|||120|www
        request|1|||125
        ! request|1|||130 => no change left for attempt 2",
    );
    // It is data.
    squat("1 A 100 60 120").play(
        "set|||||changes=1
        lights|1|||100|www
        request|1|||105
        request|1|||110
        ! request|1|||112.5 => no change left",
    );
}

#[test]
fn a_third_deadlift_may_be_changed_twice_up_or_down() {
    // WDFPF 2007: two changes, hence five deadlift slips.
    let mut table = Table::power();
    table.enter("1 A 100 60 120");
    table.play(
        "start||deadlift|||A
        lights|1|||120|www
        lights|1|||122.5|www
        request|1|||130
        ? limits 1 deadlift: least 125, most -, changes 2, declared
        request|1|||140
        request|1|||127.5
        ! request|1|||130 => no change left for attempt 3: 127.5 kg stands",
    );
}

#[test]
fn a_third_deadlift_never_goes_below_the_bar() {
    // From memory: not below what is on the bar.
    let mut table = Table::power();
    table.enter(
        "1 A 100 60 120
        2 A 110 70 122.5",
    );
    table.play(
        "start||deadlift|||A
        lights|1|||120|www
        lights|2|||122.5|www
        lights|1|||122.5|www
        lights|2|||125|www
        request|1|||135
        request|2|||132.5
        lights|2|||132.5|www
        ! request|1|||130 => 132.5 kg or more: the bar is at 132.5 kg
        request|1|||132.5",
    );
}

#[test]
fn in_a_bench_press_event_the_third_bench_press_has_the_two_changes() {
    // From memory: the last attempt of the last lift has them.
    let mut table =
        Table::new("powerlifting", maxday::measure::Unit::Kg, "bench-press", 1);
    table.enter("1 A 100");
    table.play(
        "start||bench-press|||A
        lights|1|||100|www
        lights|1|||102.5|www
        request|1|||105
        request|1|||110
        request|1|||107.5
        ! request|1|||110 => no change left",
    );
}

#[test]
fn the_next_attempt_is_never_lighter_than_a_missed_one() {
    // IPL 2019.
    squat(TWO).play(
        "lights|1|||100|rrr
        ! request|1|||97.5 => may ask for 100 kg or more
        request|1|||100
        lights|2|||110|www
        ! request|2|||110 => may ask for 112.5 kg or more
        lights|1|||100|www
        ? limits 1 back-squat: least 102.5, most -, changes 0, owed",
    );
}

#[test]
fn a_record_may_be_tried_in_steps_of_half_a_kilogram() {
    // IPF outline and a national affiliate's records page: at least 0.5 kg
    // above the record, said when the attempt is handed in, in any of the
    // three attempts. After it the step counts again: 2.5 kg more at least, on a
    // multiple of it.
    squat(TWO).play(
        "lights|1|||100|www
        ! request|1|||100.5 => not a multiple of 2.5 kg
        ! request|1|||100.25|record => not a multiple of 0.5 kg
        ! request|1|||100|record => may ask for 100.5 kg or more
        request|1|||100.5|record
        lights|2|||110|www
        request|2|||+0.5|record
        lights|1|||100.5|www
        ? stands 1 back-squat: 105 automatic
        lights|2|||110.5|www
        ? bests back-squat: 1=100.5 2=110.5",
    );
}

#[test]
fn an_opener_may_be_a_record_too() {
    // A national affiliate's records page: valid in any of the three attempts.
    let mut table = Table::power();
    table.enter(TWO);
    table.play(
        "request|1|back-squat||100.5|record
        start||back-squat|||A
        lights|1|||100.5|rrr
        ? stands 1 back-squat: 100.5 automatic
        request|1|||100.5
        lights|2|||110|www
        lights|1|||100.5|www",
    );
}

#[test]
fn a_day_without_a_step_for_records_refuses_them() {
    // The step of records is data.
    squat(TWO).play(
        "set|||||record-step=off
        lights|1|||100|www
        ! request|1|||100.5|record => no step for records; ask for a multiple of 2.5 kg",
    );
    squat(TWO).play(
        "set|||||record-step=1
        lights|1|||100|www
        ! request|1|||100.5|record => not a multiple of 1 kg
        request|1|||101|record",
    );
}

#[test]
fn a_record_request_that_was_overtaken_falls_back_to_the_step_below() {
    // Quiz page for referees (weak): rounded down to the lower multiple of
    // 2.5 kg when another breaks the record first. No change is used up, and
    // it is in time until the call.
    squat(TWO).play(
        "@10:00:00 lights|1|||100|www
        @10:00:10 request|1|||106|record
        @10:01:00 lights|2|||110|www
        ! @10:05:00 request|1|||107.5 => no change left for attempt 2: 106 kg stands
        @10:05:10 request|1|||105
        ? stands 1 back-squat: 105 declared
        @10:06:00 lights|1|||105|www",
    );
    // Once the lifter is called the load stands here too.
    squat(TWO).play(
        "lights|1|||100|www
        request|1|||106|record
        lights|2|||110|www
        call|1
        ! request|1|||105 => is called to 106 kg, which stands",
    );
}

#[test]
fn the_load_of_a_called_lifter_stands() {
    // From memory: not once the lifter is called to the loaded bar.
    let mut table = Table::power();
    table.enter("1 A 100 60 120");
    let third = "start||deadlift|||A
        lights|1|||120|www
        lights|1|||122.5|www
        request|1|||130
        call|1";
    table.play(third);
    table.play("! request|1|||135 => called to 130 kg, which stands");
    // It is data.
    let mut table = Table::power();
    table.enter("1 A 100 60 120");
    table.play(third);
    table.play(
        "set|||||change-called=yes
        request|1|||135
        ? called 1: 1@135",
    );
}
