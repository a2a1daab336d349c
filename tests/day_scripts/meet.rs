//! A weightlifting platform (IWF TCRR in the parts that federations publish).

use super::Table;

const THREE: &str = "
    add|||||given=Ana; family=Dorn; lot=5; flight=A; snatch=60; clean-and-jerk=75
    add|||||given=Bea; family=Kell; lot=7; flight=A; snatch=60; clean-and-jerk=76
    add|||||given=Cid; family=Moor; lot=9; flight=A; snatch=62; clean-and-jerk=80
    start||snatch|||A
";

#[test]
fn the_queue_is_law_and_refusals_name_who_is_next() {
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "? queue 1: 5@60 7@60 9@62
        ! call|7 => lot 5, attempt 1, at 60 kg
        ! lights|5|snatch|1|61|www => asked for 60 kg, not 61 kg
        ! lights|||||www => Nobody is called
        call|5
        ! lights|||||ww => 3 judges
        ! call|7 => Lot 5 is called
        lights|||||wwr:press-out
        ? queue 1: 7@60 5@61 9@62
        ? bests snatch: 5=60 7= 9=",
    );
}

#[test]
fn an_undone_ruling_leaves_the_athlete_called_with_the_clock_as_it_was() {
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "call|5||||||09:10:00
        ? clock 09.10.18: 0:42
        lights|||||rrr||09:10:18
        ? called 1: nobody
        undo|||||||09:10:40
        ? called 1: 5@60
        ? clock 09.11.30: 0:42 stands
        lights|||||www||09:11:40
        ? bests snatch: 5=60 7= 9=
        undo|||||||09:11:50
        redo|||||||09:11:55
        ? bests snatch: 5=60 7= 9=
        ! redo => Nothing is left to redo",
    );
}

#[test]
fn lights_that_name_the_athlete_call_and_rule_in_one_act() {
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "lights|5|snatch|1|60|www
        ? queue 1: 7@60 5@61 9@62
        undo
        ? called 1: nobody
        ? queue 1: 5@60 7@60 9@62
        redo
        ? queue 1: 7@60 5@61 9@62",
    );
}

#[test]
fn the_bar_never_comes_down_and_the_sentence_says_so() {
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "lights|5|snatch|1|60|www
        request|5|snatch||66
        lights|7|snatch|1|60|rrr
        request|7|snatch||65
        lights|9|snatch|1|62|www
        request|9|snatch||70
        lights|7|snatch|2|65|www
        ! request|5|snatch||64 => the bar is at 65 kg
        ! request|9|snatch||62.5 => not a multiple of 1 kg
        ! request|5|snatch||65kgs of lead => 65
        request|5|snatch||67
        ! request|5|snatch||68.0001 => multiple",
    );
}

#[test]
fn a_new_act_ends_the_redo_line() {
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "lights|5|snatch|1|60|www
        undo
        lights|5|snatch|1|60|rrr
        ! redo => Nothing is left to redo
        ? bests snatch: 5= 7= 9=",
    );
}

#[test]
fn a_pass_uses_up_an_attempt_and_rest_uses_up_all() {
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "pass|5|snatch
        ? queue 1: 7@60 5@60 9@62
        pass|5|snatch|||rest
        ? queue 1: 7@60 9@62
        ! request|5|snatch||70 => no attempt left
        extra|5|snatch|||the timer failed
        ? queue 1: 7@60 5@60 9@62",
    );
}

#[test]
fn what_is_filled_in_could_always_be_asked_for() {
    // After an overruling: more lies behind than the last attempt shows.
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "lights|5|snatch|1|60|rrr
        lights|7|snatch|1|60|www
        lights|5|snatch|2|60|rrr
        overrule|5|snatch|1||good: seen on review
        ? queue 1: 7@61 5@61 9@62
        request|7|snatch||62
        request|5|snatch||61
        lights|5|snatch|3|61|www",
    );
    // After a load off the step: it may be kept after a miss, and a step more
    // is rounded up to the step after a good lift.
    let mut table = Table::meet();
    table.play(THREE);
    table.play(
        "set|||||step=0.5
        request|5|snatch||60.5
        request|7|snatch||60.5
        set|||||step=2.5
        lights|5|snatch|1|60.5|rrr
        lights|7|snatch|1|60.5|www
        ? queue 1: 5@60.5 9@62 7@65
        request|5|snatch||60.5
        lights|5|snatch|2|60.5|rrr",
    );
}

#[test]
fn the_openers_add_up_to_the_entry_total_less_twenty() {
    // IWF TCRR as published: entry total 139, so the openers need 119 or more.
    let mut table = Table::meet();
    table.play(
        "add|||||given=Ana; family=Dorn; sex=F; lot=5; flight=A; entry total=139; snatch=54; clean-and-jerk=66
        start||snatch|||A
        ! request|5|snatch||52 => they need 119 kg or more
        request|5|snatch||53
        ! request|5|clean-and-jerk||65 => would add up to 118 kg
        set|||||entry-total-f=80%
        request|5|clean-and-jerk||65",
    );
}

/// Powerlifting's way with requests, as rules of a school's own.
const ROUNDS: &str = "
    set|||||bar=rounds; order=attempt load number; step=2.5; changes=0; changes-first=1; changes-last=2; hand-in=60; first-closes=5; first-closes-left=5; again=round-end; clock-following=off
    add|||||given=Ana; family=Dorn; lot=5; flight=A; snatch=60; clean-and-jerk=80
    add|||||given=Bea; family=Kell; lot=7; flight=A; snatch=60; clean-and-jerk=80
    add|||||given=Cid; family=Moor; lot=9; flight=B; snatch=70; clean-and-jerk=80
";

#[test]
fn rounds_go_by_load_then_number_and_a_miss_waits_for_the_next() {
    // World Para Powerlifting as published: lowest load, then lowest lot; the
    // lifter waits for the next round after a miss.
    let mut table = Table::meet();
    table.play(ROUNDS);
    table.play(
        "start||snatch|||A
        ? queue 1: 5@60 7@60
        lights|5|snatch|1|60|rrr||09:10:00
        ? queue 1: 7@60 5@60
        ! request|5|snatch||57.5|||09:10:30 => 60 kg or more
        request|5|snatch||60|||09:10:30
        ! request|5|snatch||62.5|||09:10:40 => no change left
        lights|7|snatch|1|60|www||09:11:00
        ? queue 1: 5@60 7@62.5
        ! request|7|snatch||65|||09:12:01 => 60 s after the last attempt
        ? queue 1: 5@60 7@62.5",
    );
}

#[test]
fn an_opener_may_be_changed_once_and_in_time() {
    // WDFPF and World Para Powerlifting as published: once; five minutes
    // before the start, or until five attempts are left in the flight before.
    let mut table = Table::meet();
    table.play(ROUNDS);
    table.play(
        "set|||||session.1=\"10:00-12:00\"
        request|5|snatch||57.5|||09:54:00
        ! request|5|snatch||60|||09:54:30 => no change left
        ! request|7|snatch||57.5|||09:56:00 => 5 minutes before the start
        start||snatch|||A||10:00:00
        ! request|7|snatch||57.5|||10:00:10 => when the flight began
        lights|5|snatch|1|57.5|www||10:01:00
        ! request|9|snatch||72.5|||10:01:10 => 5 attempts left",
    );
}

#[test]
fn the_last_attempt_of_the_last_slot_has_changes_of_its_own() {
    // WDFPF as published: two changes of the third deadlift, none elsewhere.
    let mut table = Table::meet();
    table.play(ROUNDS);
    table.play(
        "start||clean-and-jerk|||A
        lights|5|clean-and-jerk|1|80|www||09:10:00
        request|5|clean-and-jerk||85|||09:10:10
        ! request|5|clean-and-jerk||87.5|||09:10:20 => no change left
        lights|7|clean-and-jerk|1|80|www||09:11:00
        lights|7|clean-and-jerk|2|82.5|www||09:12:00
        lights|5|clean-and-jerk|2|85|www||09:13:00
        request|5|clean-and-jerk||90|||09:13:10
        request|5|clean-and-jerk||95|||09:13:20
        request|5|clean-and-jerk||92.5|||09:13:30
        ! request|5|clean-and-jerk||95|||09:13:40 => no change left",
    );
}

#[test]
fn an_attempt_taken_anew_waits_for_the_rounds_end() {
    // IPF text on loading errors as reprinted: extra attempts at the end of
    // the round.
    let mut table = Table::meet();
    table.play(ROUNDS);
    table.play(
        "start||snatch|||A
        lights|5|snatch|1|60|rrr
        loaded|5|snatch|1|65|again
        ? queue 1: 7@60 5@60
        lights|7|snatch|1|60|www
        ? queue 1: 5@60 7@62.5
        lights|5|snatch|1|60|www",
    );
}

#[test]
fn out_means_no_further_slot() {
    // Texas high-school rules as published: no total, eliminated.
    let mut table = Table::meet();
    table.play(ROUNDS);
    table.play(
        "set|||||no-good=out
        start||snatch|||A
        pass|5|snatch|||rest
        start||clean-and-jerk|||A
        ? queue 1: 7@80
        ! call|5|clean-and-jerk => without a good attempt",
    );
}
