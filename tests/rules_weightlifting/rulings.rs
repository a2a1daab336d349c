//! Lights, time, passes, withdrawals, and who overrules.

use maxday::day::{Command, Refusal, Ruling, Which};

use super::support::{call_first, kg, lights, request, ruling, slug, tally, who};
use super::{meet, snatch, stands};

#[test]
fn two_of_three_lights_decide() {
    // Federation rules page: three referees, the majority decides.
    for (letters, good) in [("www", true), ("wrw", true), ("rrw", false), ("rrr", false)]
    {
        let mut table = snatch(&[(1, "60")]);
        table.lift(1, letters);
        let key = table.facts().entry_by_number(1).unwrap().key;
        let best = table.facts().best(key, &slug("snatch"));
        assert_eq!(best.is_some(), good, "{letters}");
    }
    let mut table = snatch(&[(1, "60")]);
    let _ = table.call();
    let refusal = table.no(Command::Lights {
        which: Which::default(),
        load: None,
        outcome: lights("w"),
        platform: Some(1),
    });
    assert!(
        matches!(
            refusal,
            Refusal::WrongLights {
                given: 1,
                judges: 3
            }
        ),
        "{refusal}"
    );
}

#[test]
fn when_time_runs_out_it_is_no_lift_and_the_load_stands() {
    // TCRR 6.5.9: no lift.
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    let _ = table.call();
    let _ = table.wait(60).ok(Command::Lights {
        which: Which::default(),
        load: None,
        outcome: ruling(Ruling::Time),
        platform: Some(1),
    });
    let key = table.facts().entry_by_number(1).unwrap().key;
    let attempt = table.facts().attempt(key, &slug("snatch"), 1).unwrap();
    assert!(attempt.ruled.as_ref().unwrap().fact.ruling.is_no_lift());
    assert_eq!(table.facts().best(key, &slug("snatch")), None);
    assert_eq!(stands(&table, 1).0, kg("60"));
}

#[test]
fn a_pass_uses_up_the_attempt() {
    // Common practice: a declined attempt is lost.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    table.lift(1, "www");
    let _ = table.ok(Command::Pass {
        which: who(1, "snatch"),
        rest: false,
        platform: None,
    });
    let key = table.facts().entry_by_number(1).unwrap().key;
    assert_eq!(table.facts().next_attempt(key, &slug("snatch")), Some(3));
    assert_eq!(stands(&table, 1).0, kg("61"), "as before the pass");
    let _ = table.ok(Command::Pass {
        which: who(1, "snatch"),
        rest: true,
        platform: None,
    });
    assert_eq!(table.order(), [2]);
}

#[test]
fn who_withdraws_from_the_snatch_may_clean_and_jerk() {
    // From memory.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    let _ = table.ok(Command::Withdraw {
        number: 1,
        lift: Some(slug("snatch")),
        reason: "wrist".to_owned(),
    });
    assert_eq!(table.order(), [2]);
    let refusal = table.no(request(1, "snatch", &kg("62")));
    assert!(matches!(refusal, Refusal::NotPresent { .. }), "{refusal}");
    table.start("clean-and-jerk");
    assert_eq!(table.order(), [1, 2]);
}

#[test]
fn three_no_lifts_in_the_snatch_do_not_bar_the_clean_and_jerk() {
    // From memory.
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    for _ in 0..3 {
        table.lift(1, "rrr");
    }
    assert_eq!(table.order(), [2]);
    let refusal = table.no(tally(who(1, "snatch"), Some(kg("60")), lights("www")));
    assert!(
        matches!(refusal, Refusal::NoAttemptLeft { allowed: 3, .. }),
        "{refusal}"
    );
    table.start("clean-and-jerk");
    assert_eq!(table.order(), [1, 2]);
}

#[test]
fn an_undone_ruling_leaves_the_athlete_called_with_the_clock_stopped() {
    // This program's own promise.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    let _ = table.call();
    let _ = table.wait(22);
    table.lights("rrr");
    let _ = table
        .wait(40)
        .ok(Command::Undo(maxday::day::Line::Platform(1)));
    assert_eq!(table.called(), Some(1));
    assert_eq!(table.wait(10).left(), 38);
    let refusal = table.no(call_first());
    assert!(
        matches!(refusal, Refusal::SomebodyIsCalled { number: 1, .. }),
        "{refusal}"
    );
}

#[test]
fn a_challenge_that_succeeds_is_kept_and_one_that_fails_is_lost() {
    // Pan American federation on video review: one card an athlete, only for
    // the own attempt; kept if the challenge succeeds, lost if not.
    meet("1 A 60 90\n2 A 80 90").play(
        "lights|1|||60|rrw
        challenge|1||1||good: the elbow was straight
        ? attempts 1 snatch: 60 good
        lights|1|||61|rrw
        challenge|1||2||no: looked at again
        ? attempts 1 snatch: 60 good, 61 no
        lights|1|||61|rrw
        ! challenge|1||3||good: the elbow was straight => no challenge is left
        overrule|1||3||good: the jury saw it
        ? attempts 1 snatch: 60 good, 61 no, 61 good",
    );
}

#[test]
fn a_challenge_closes_with_the_call_of_the_next_athlete() {
    // Pan American federation on video review: before the next athlete is on
    // the stage and has the clock started.
    let mut table = meet("1 A 60 90\n2 A 61 90");
    table.play(
        "lights|1|||60|rrw
        request|1|||62
        call|2
        ! challenge|1||1||good: the elbow was straight => the next athlete has been called since
        lights|||||www
        ! challenge|1||1||good: the elbow was straight => the next athlete has been called since
        challenge|2||1||no: the bar touched the head",
    );
    // It is data.
    table.play(
        "set|||||challenge-closes=off
        challenge|1||1||good: the elbow was straight
        ? bests snatch: 1=60 2=",
    );
}

#[test]
fn how_many_challenges_may_be_lost_is_data() {
    // One card: Pan American federation on video review.
    let script = "lights|1|||60|rrw
        challenge|1||1||no: looked at again";
    let mut table = meet("1 A 60 90");
    table.play("set|||||challenges=2");
    table.play(script);
    table.play("challenge|1||1||no: looked at once more");
    table.play("! challenge|1||1||good: again => no challenge is left");
    let mut table = meet("1 A 60 90");
    table.play(
        "set|||||challenges=0
        lights|1|||60|rrw
        ! challenge|1||1||good: the elbow was straight => no challenge is left",
    );
}

#[test]
fn a_jury_reverses_the_referees_with_a_reason() {
    // Pan American federation on video review: the jury may start a review
    // itself. That it had to be unanimous is told by a referee in a forum, the
    // rule's text from memory: the table enters what the jury decides.
    meet("1 A 60 90\n2 A 61 90").play(
        "lights|1|||60|www
        call|2
        ! overrule|1||1||no => reason
        ! overrule|1||1||good: seen again => changes nothing
        overrule|1||1||no:press-out: seen on video
        ? bests snatch: 1= 2=
        ? called 1: 2@61",
    );
}

#[test]
fn each_lift_has_the_published_reasons_for_a_no_lift() {
    // Federation and club pages on incorrect movements, and a technical
    // officials' questionnaire.
    use maxday::lift::catalogue;
    let has = |lift: &str, code: &str| {
        let lift = catalogue().get(lift).unwrap();
        lift.faults.iter().any(|f| f == code)
    };
    for code in [
        "pulled-from-hang",
        "body-touched-floor",
        "not-locked-out",
        "paused-in-extension",
        "press-out",
        "elbows-re-bent",
        "off-platform",
        "lowered-early",
        "dropped-early",
        "feet-not-in-line",
        "bar-off-platform",
        "pull-not-completed",
        "lubricant",
        "foot-on-bar",
    ] {
        assert!(has("snatch", code), "{code}");
        assert!(has("clean-and-jerk", code), "{code}");
    }
    for code in ["paused-in-pull", "head-touched"] {
        assert!(has("snatch", code), "{code}");
        assert!(!has("clean-and-jerk", code), "{code}");
    }
    for code in [
        "chest-before-turn",
        "cleaned-in-two",
        "trunk-touched",
        "elbow-on-thigh",
        "jerk-not-completed",
        "bar-bounced",
        "not-motionless",
    ] {
        assert!(has("clean-and-jerk", code), "{code}");
        assert!(!has("snatch", code), "{code}");
    }
    meet("1 A 60 90").play("! lights|1|||60|rrr:bar-bounced => no fault of the");
}

#[test]
fn the_receiving_depth_is_free_in_a_meet() {
    // Trade naming: a competition lift may be caught at any depth.
    meet("1 A 60 90").play("! lights|1|||60|rrr:caught-too-low => no fault of the");
}

#[test]
fn who_is_disqualified_is_not_called_any_more() {
    // From memory: out of the lift, or of the meet; a reason is needed.
    let mut table = meet("1 A 60 90\n2 A 61 90\n3 A 70 90");
    table.play(
        "call|1
        ! disqualify|1|||||| => This needs a reason
        ! disqualify|1||||misconduct => Lot 1 is called
        lights|||||www
        disqualify|1|snatch|||grease on the thighs
        ? queue 1: 2@61 3@70
        ! call|1 => disqualified
        ! request|1|snatch||70 => disqualified
        ! disqualify|1|snatch|||grease on the thighs => disqualified already
        disqualify|2||||misconduct
        ? queue 1: 3@70
        start||clean-and-jerk|||A
        ? queue 1: 1@90 3@90
        undo|||||roster
        ? queue 1: 1@90 2@90 3@90",
    );
}

#[test]
fn a_wrong_athlete_who_was_called_is_called_back() {
    // From memory: handled like a speaker's error. The call is undone, and
    // nobody loses time or an attempt.
    meet("1 A 60 90\n2 A 61 90").play(
        "@10:00:00 call|1
        @10:00:30 undo
        ? called 1: nobody
        @10:00:40 call|1
        ? clock 10.00.40: 1:00",
    );
}
