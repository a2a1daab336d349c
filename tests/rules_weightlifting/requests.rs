//! What may be asked for, how often, and until when.

use maxday::day::{ClockMove, Command, LoadAsked, Origin, Refusal, limits};

use super::support::{kg, request, slug, who};
use super::{clock, meet, refused, snatch, stands};

#[test]
fn after_a_good_lift_one_kilogram_more_is_filled_in() {
    // Athlete-card guide and federation rules page: at least 1 kg more.
    let mut table = snatch(&[(1, "60")]);
    table.lift(1, "wwr");
    assert_eq!(stands(&table, 1), (kg("61"), Origin::Automatic));
    let refusal = refused(&mut table, 1, "60");
    assert!(
        matches!(&refusal, Refusal::TooLight { least, .. } if least == "61 kg"),
        "{refusal}"
    );
}

#[test]
fn after_a_no_lift_the_same_load_stands() {
    // Same load allowed: a sport museum's rules page; that it is filled in:
    // from memory.
    let mut table = snatch(&[(1, "60")]);
    table.lift(1, "wrr");
    assert_eq!(stands(&table, 1), (kg("60"), Origin::Automatic));
    let refusal = refused(&mut table, 1, "59");
    assert!(matches!(refusal, Refusal::TooLight { .. }), "{refusal}");
    table.request(1, "snatch", &kg("60"));
}

#[test]
fn loads_are_whole_kilograms() {
    // IWF notice of 29 January 2007: multiples of 1 kg.
    let mut table = snatch(&[(1, "60")]);
    let refusal = refused(&mut table, 1, "60.5");
    assert!(
        matches!(&refusal, Refusal::OffStep { below, above, .. }
            if below == "60 kg" && above == "61 kg"),
        "{refusal}"
    );
}

#[test]
fn the_first_request_after_a_ruling_declares_and_two_changes_follow() {
    // Federation magazine for first meets, athlete-card guide and
    // competitor's-card page: two changes beside the declaration.
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    table.lift(1, "www");
    // Even the automatic load is declared.
    table.request(1, "snatch", &kg("61"));
    assert_eq!(stands(&table, 1), (kg("61"), Origin::Declared));
    table.request(1, "snatch", &kg("61"));
    table.request(1, "snatch", &kg("63"));
    table.request(1, "snatch", &kg("62"));
    let refusal = refused(&mut table, 1, "64");
    assert!(
        matches!(refusal, Refusal::NoChangeLeft { attempt: 2, .. }),
        "{refusal}"
    );
    assert!(refusal.to_string().contains("62 kg stands"), "{refusal}");
    // Saying again what stands is no change.
    table.request(1, "snatch", &kg("62"));
}

#[test]
fn every_attempt_has_its_own_changes() {
    // Two changes per attempt: competitor's-card page.
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    table.request(1, "snatch", &kg("61"));
    table.request(1, "snatch", &kg("62"));
    let refusal = refused(&mut table, 1, "63");
    assert!(
        matches!(refusal, Refusal::NoChangeLeft { attempt: 1, .. }),
        "{refusal}"
    );
    table.lift(1, "www");
    for load in ["64", "65", "66"] {
        table.request(1, "snatch", &kg(load));
    }
}

#[test]
fn an_opener_is_declared_on_the_card() {
    // Athlete-card guide: openers are written and signed at weigh-in.
    let table = snatch(&[(1, "60")]);
    let entry = table.facts().entry_by_number(1).unwrap();
    let limits = limits(table.facts(), entry, &slug("snatch"), 1);
    assert!(!limits.declaration_owed);
    assert_eq!(limits.changes_left, Some(2));
}

#[test]
fn on_the_short_clock_changes_close_at_the_final_call() {
    // TCRR 6.5.11-12: before the final call, 30 s before the end.
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    let _ = table.call();
    let _ = table.wait(29);
    table.request(1, "snatch", &kg("61"));
    let _ = table.ok(clock(ClockMove::Resume));
    let _ = table.wait(2);
    let refusal = refused(&mut table, 1, "62");
    assert!(
        matches!(&refusal, Refusal::TooLate { load, .. } if load == "61 kg"),
        "{refusal}"
    );
    assert_eq!(stands(&table, 1).0, kg("61"));
}

#[test]
fn on_the_short_clock_the_declaration_closes_at_the_final_call() {
    // TCRR 6.5.11-12.
    let late = |seconds| {
        let mut table = snatch(&[(1, "60"), (2, "60"), (3, "80")]);
        table.lift(1, "www");
        table.lift(2, "rrr");
        table.lift(2, "www");
        // Lot 1 hasn't declared; 61 is filled in and called.
        assert_eq!(table.call(), 1);
        assert_eq!(table.left(), 60);
        table
            .wait(seconds)
            .say(&request(1, "snatch", &kg("62")))
            .err()
    };
    assert_eq!(late(29), None);
    let refusal = late(31).unwrap();
    assert!(
        matches!(&refusal, Refusal::TooLate { what, .. } if what == "declaration"),
        "{refusal}"
    );
}

/// Lot 1 follows itself on the long clock; after so many seconds it asks.
fn on_the_long_clock(asked: &[(i64, &str)]) -> Vec<Option<Refusal>> {
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    table.lift(1, "www");
    assert_eq!(table.call(), 1);
    let from = table.now;
    asked
        .iter()
        .map(|(second, load)| {
            table.now = from + second * 1000;
            let refusal = table.say(&request(1, "snatch", &kg(load))).err();
            // A change stops the clock; the timekeeper starts it again.
            let _ = table.say(&clock(ClockMove::Resume));
            refusal
        })
        .collect()
}

#[test]
fn on_the_long_clock_the_declaration_closes_after_thirty_seconds() {
    // IWF notice of 29 January 2007: within the first 30 s, or the two
    // changes are lost.
    assert_eq!(on_the_long_clock(&[(29, "62")]), [None]);
    let all = on_the_long_clock(&[(31, "62"), (50, "63")]);
    for refusal in all {
        let refusal = refusal.unwrap();
        assert!(
            matches!(&refusal, Refusal::TooLate { what, .. } if what == "declaration"),
            "{refusal}"
        );
    }
}

#[test]
fn on_the_long_clock_changes_close_at_the_final_call() {
    // IWF notice of 29 January 2007.
    let all = on_the_long_clock(&[(20, "62"), (60, "63"), (89, "64")]);
    assert_eq!(all, [None, None, None]);
    let all = on_the_long_clock(&[(20, "62"), (91, "63")]);
    assert_eq!(all[0], None);
    assert!(matches!(&all[1], Some(Refusal::TooLate { what, .. }) if what == "changes"));
}

#[test]
fn another_athletes_clock_closes_nothing() {
    // The limits are those of the athlete who is called (TCRR 6.5.11-12).
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    let _ = table.call();
    let _ = table.wait(50);
    table.request(2, "snatch", &kg("64"));
}

#[test]
fn a_rise_is_over_the_last_attempt() {
    // Common practice: "plus five" counts from what was last on the bar.
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    table.lift(1, "www");
    let _ = table.ok(Command::Request {
        which: who(1, "snatch"),
        load: LoadAsked::Relative(kg("5").mass),
        record: false,
        platform: None,
    });
    assert_eq!(stands(&table, 1).0, kg("65"));
}

#[test]
fn thirty_seconds_exactly_are_in_time_on_the_short_clock() {
    // TCRR 6.5.11-12: before the final call, 30 s before the end.
    for (time, in_time) in [("10:00:30", true), ("10:00:30.001", false)] {
        // A change of the opener.
        let mut table = meet("1 A 60 90\n2 A 80 90");
        table.play("@10:00:00 call|1");
        let asked = table.act(&format!("@{time} request|1|||61"));
        assert_eq!(asked.is_ok(), in_time, "change at {time}: {asked:?}");
        // A declaration, of the load that is filled in.
        let mut table = meet("1 A 60 90\n2 A 60 90\n3 A 80 90");
        table.play(
            "lights|1|||60|www
            lights|2|||60|rrr
            lights|2|||60|rrr
            @10:00:00 call|2
            @10:00:01 lights|||||www
            @10:00:00 call|1",
        );
        let asked = table.act(&format!("@{time} request|1|||62"));
        assert_eq!(asked.is_ok(), in_time, "declaration at {time}: {asked:?}");
        table.play(if in_time {
            "? stands 1 snatch: 62 declared"
        } else {
            "? stands 1 snatch: 61 automatic"
        });
    }
}

#[test]
fn thirty_seconds_exactly_are_in_time_on_the_long_clock() {
    // IWF notice of 29 January 2007: the declaration in the first 30 s, else
    // the two changes are lost; changes until the final call.
    let long = || {
        let mut table = meet("1 A 60 90\n2 A 80 90");
        table.play(
            "@10:00:00 lights|1|||60|www
            @10:01:00 call|1
            ? clock 10.01.00: 2:00",
        );
        table
    };
    long().play("@10:01:30 request|1|||61");
    long().play(
        "! @10:01:30.001 request|1|||61 => declaration closed after the first 30 s; 61 kg stands
        ! @10:01:40 request|1|||65 => declaration closed
        @10:02:50 lights|||||www
        ? attempts 1 snatch: 60 good, 61 good",
    );
    long().play(
        "@10:01:10 request|1|||61
        @10:02:30 request|1|||62
        ! @10:02:30 request|1|||61.5 => not a multiple of 1 kg",
    );
    long().play(
        "@10:01:10 request|1|||61
        ! @10:02:30.001 request|1|||62 => changes closed at the final call, 30 s before the end",
    );
    // It is data: the current wording was not seen.
    let mut table = long();
    table.play(
        "set|||||declare-within=60
        @10:01:45 request|1|||61",
    );
}

#[test]
fn a_deadline_counts_what_is_left_on_the_clock() {
    // TCRR 6.5.11-12: the signal at 30 s left, wherever the clock stood
    // meanwhile.
    meet("1 A 60 90\n2 A 80 90").play(
        "@10:00:00 call|1
        @10:00:20 clock|||||stop
        @10:03:00 request|1|||61
        @10:03:10 clock|||||resume
        @10:03:20 request|1|||62
        ? clock 10.03.30: 0:30 stands",
    );
}

#[test]
fn a_change_may_go_up_or_down() {
    // TCRR 6.5 as published: increase or decrease; never below the bar
    // (coaching guide), nor below the automatic minimum (the combination from
    // memory).
    meet("1 A 60 90\n2 A 80 90").play(
        "lights|1|||60|www
        request|1|||70
        request|1|||65
        request|1|||61
        ! request|1|||62 => no change left",
    );
    meet("1 A 60 90\n2 A 63 90\n3 A 80 90").play(
        "lights|1|||60|www
        request|1|||70
        lights|2|||63|www
        request|2|||90
        ! request|1|||60 => 63 kg or more: the bar is at 63 kg
        request|1|||63",
    );
}

#[test]
fn how_many_changes_there_are_is_data() {
    // Two beside the declaration: athlete-card guides.
    meet("1 A 60 90\n2 A 80 90").play(
        "set|||||changes=1
        lights|1|||60|www
        request|1|||61
        request|1|||62
        ! request|1|||63 => no change left
        set|||||changes=any
        request|1|||63
        request|1|||64
        request|1|||65",
    );
}

#[test]
fn the_automatic_increase_is_data() {
    // Since which year it is 1 kg from every attempt is from memory (2 kg
    // from the first to the second in the notice of 29 January 2007); a
    // school may fill in nothing.
    meet("1 A 60 90\n2 A 80 90").play(
        "lights|1|||60|www
        ? stands 1 snatch: 61 automatic
        set|||||automatic=none
        ? stands 1 snatch: nothing
        ? queue 1: 2@80 1@
        set|||||automatic=step; step=2 kg
        ? stands 1 snatch: 62 automatic",
    );
}
