//! Corrections, annulments, wrong loads, overruling.

use super::Table;

const RULED: &str = "
    add|||||given=Ana; family=Dorn; lot=5; flight=A; snatch=60; clean-and-jerk=75
    add|||||given=Bea; family=Kell; lot=7; flight=A; snatch=60; clean-and-jerk=76
    start||snatch|||A
    lights|5|snatch|1|60|www
    lights|7|snatch|1|60|rrr
    lights|7|snatch|2|60|www
";

#[test]
fn a_ruling_is_corrected_however_old_and_what_was_lifted_stays() {
    let mut table = Table::meet();
    table.play(RULED);
    table.play(
        "lights|5|snatch|2|61|www
        ? bests snatch: 5=61 7=60
        correct|5|snatch|1||no
        ? bests snatch: 5=61 7=60
        correct|5|snatch|2||no:press-out
        ? bests snatch: 5= 7=60
        undo
        ? bests snatch: 5=61 7=60
        ! correct|5|snatch|2||good => nothing changes
        correct|7|snatch|2|62
        ? bests snatch: 5=61 7=62",
    );
}

#[test]
fn an_act_that_others_hang_on_cant_be_annulled() {
    let mut table = Table::meet();
    table.play(RULED);
    let first = table.day.journal().iter().find(|r| matches!(&r.event, maxday::day::Event::Ruled(f) if f.attempt == 1 && f.ruling == maxday::day::Ruling::No)).unwrap().id.clone();
    let last = table.day.journal().last().unwrap().id.clone();
    table.play(&format!(
        "! annul|||||{first} => lot 7 snatch attempt 2
        annul|||||{last}; typed for the wrong athlete
        ? bests snatch: 5=60 7=
        annul|||||{first}
        ? queue 1: 7@60 5@61
        ! annul|||||{first} => no act"
    ));
}

#[test]
fn a_wrong_load_is_kept_or_the_attempt_taken_again() {
    let mut table = Table::meet();
    table.play(RULED);
    table.play(
        "loaded|5|snatch|1|58|keep
        ? bests snatch: 5=58 7=60
        ! correct|5|snatch|1|61 => loaded again
        loaded|7|snatch|2|59|again
        ? bests snatch: 5=58 7=
        ? queue 1: 5@59 7@60
        ! loaded|7|snatch|3|59|keep => no ruling yet",
    );
}

#[test]
fn a_jury_overrules_with_a_reason() {
    let mut table = Table::meet();
    table.play(RULED);
    table.play(
        "! overrule|5|snatch|1||no => reason
        overrule|5|snatch|1||no.press-out: seen on review
        ? bests snatch: 5= 7=60
        ! correct|5|snatch|1||good => overruled
        ! challenge|5|snatch|1||good: the elbow was straight => has been called since
        overrule|5|snatch|1||good: the elbow was straight
        ? bests snatch: 5=60 7=60",
    );
}

#[test]
fn a_call_doesnt_come_back_for_whoever_was_edited_out_of_the_lift() {
    // Found by the reference model: a call, its undo, an edit, its redo.
    let mut table = Table::meet();
    table.play(
        "add|||||given=Ana; family=Dorn; lot=5; flight=A; snatch=60; clean-and-jerk=75
        add|||||given=Bea; family=Kell; lot=7; flight=A; snatch=62; clean-and-jerk=76
        start||snatch|||A
        call|5
        undo
        edit|5||||snatch=-
        ! redo => Later acts hang on it: change of lot 5
        ? queue 1: 7@62
        ! lights|||||www => Nobody is called
        call
        lights|||||www
        ? bests snatch: 5= 7=62",
    );
}

#[test]
fn a_call_that_comes_back_under_a_voided_attempt_is_over() {
    // Found by the reference model: a call, its annulling, a voided attempt
    // before it, and the annulling annulled.
    let mut table = Table::meet();
    table.play(
        "add|||||given=Ana; family=Dorn; lot=5; flight=A; snatch=60; clean-and-jerk=75
        start||snatch|||A
        lights|5|snatch|1|60|rrr
        call|5",
    );
    let last = |table: &Table| table.day.journal().last().unwrap().id.clone();
    let call = last(&table);
    table.play(&format!("annul|||||{call}"));
    let annul = last(&table);
    table.play(&format!(
        "loaded|5|snatch|1|58|repeat
        annul|||||{annul}
        ? queue 1: 5@60
        ! lights|||||www => Nobody is called"
    ));
}

#[test]
fn a_load_named_at_the_call_is_judged_like_a_request() {
    // Found by the reference model: the openers must add up to the entry total
    // less 20 kg (the 20 kg rule of the TCRR as published) also where the last
    // opener is named at the call.
    let mut table = Table::meet();
    table.play(
        "set|||||queue=advice
        add|||||given=Ana; family=Dorn; sex=F; lot=5; flight=A; snatch=; clean-and-jerk=75; entry total=160
        start||snatch|||A
        ! call|5|||60 => 140
        call|5|||65",
    );
}

#[test]
fn what_a_call_stands_on_isnt_undone() {
    // Found by the reference model: an edit of the variant, a call, the undo of
    // the edit.
    let mut table = Table::racks();
    table.play(
        "add|||||given=Ana; family=Dorn; lot=2; flight=A; power-clean=95; back-squat=135
        start||clean|||A|1
        edit|2||||hang-power-clean=85
        call|2|||||1
        ! undo|||||roster => Later acts hang on it: call of lot 2
        lights|||||w|1
        ? bests clean: 2=85",
    );
}

#[test]
fn an_attempt_that_the_rules_give_no_more_stands_on_its_call() {
    // Found by the reference model: the rules give fewer attempts while
    // somebody is called.
    let mut table = Table::meet();
    table.play(
        "add|||||given=Ana; family=Dorn; lot=5; flight=A; snatch=60; clean-and-jerk=75
        start||snatch|||A
        lights|5|snatch|1|60|www
        lights|5|snatch|2|61|rrr
        call|5",
    );
    let call = table.day.journal().last().unwrap().id.clone();
    table.play(&format!(
        "set|||||attempts=2
        lights|||||www
        ? bests snatch: 5=61
        ! annul|||||{call} => Later acts hang on it"
    ));
}

#[test]
fn a_call_doesnt_come_back_over_another_variant() {
    // Found by the reference model: a call, its undo, an edit of the variant, and
    // the redo.
    let mut table = Table::racks();
    table.play(
        "add|||||given=Ana; family=Dorn; lot=2; flight=A; power-clean=95; back-squat=135
        start||clean|||A|1
        call|2|||||1
        undo||||||1
        edit|2||||hang-power-clean=85
        ! redo||||||1 => Later acts hang on it: change of lot 2
        call|2|||||1
        lights|||||w|1
        ? bests clean: 2=85",
    );
}
