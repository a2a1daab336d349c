//! Weightlifting by its published rules, each check with its source.
//!
//! TCRR is the IWF's Technical and Competition Rules & Regulations, in the
//! parts that federations and officials' pages publish. "From memory" marks a
//! rule whose text was not seen.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod support;

use maxday::day::{
    ClockMove, Command, Granted, LoadAsked, Origin, Refusal, Ruling, Which, limits,
    standing_request,
};
use maxday::measure::Weight;
use maxday::standings::{Basis, Line, standings};
use support::{
    Table, call_first, entry, kg, lights, request, ruling, slug, tally, which, who,
};

/// A meet whose lots open the snatch with these loads; the snatch runs.
fn snatch(openers: &[(u16, &str)]) -> Table {
    let entries = openers
        .iter()
        .map(|(n, load)| entry(*n, &[("snatch", kg(load)), ("clean-and-jerk", kg("90"))]))
        .collect();
    let mut table = Table::meet(entries);
    table.start("snatch");
    table
}

/// What stands for the next attempt of a lot in the snatch.
fn stands(table: &Table, number: u16) -> (Weight, Origin) {
    let facts = table.facts();
    let entry = facts.entry_by_number(number).unwrap();
    let slot = slug("snatch");
    let attempt = facts.next_attempt(entry.key, &slot).unwrap();
    let standing = standing_request(facts, entry, &slot, attempt).unwrap();
    (standing.load, standing.origin)
}

/// Says a request that has to be refused.
fn refused(table: &mut Table, number: u16, load: &str) -> Refusal {
    table.no(request(number, "snatch", &kg(load)))
}

fn clock(movement: ClockMove) -> Command {
    Command::Clock {
        platform: Some(1),
        movement,
    }
}

// Order of call.

#[test]
fn the_lowest_load_is_called_first() {
    // TCRR on the order of call: lowest weight first.
    let table = snatch(&[(1, "62"), (2, "60"), (3, "61")]);
    assert_eq!(table.order(), [2, 3, 1]);
}

#[test]
fn at_the_same_load_the_lower_attempt_goes_first() {
    // TCRR on the order of call: a first attempt before a second.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    table.lift(1, "www");
    table.request(1, "snatch", &kg("61"));
    assert_eq!(table.order(), [2, 1]);
    table.lift(2, "rrr");
    // Both take a second attempt at 61 now; lot 1 took the first one earlier.
    assert_eq!(table.order(), [1, 2]);
}

#[test]
fn at_the_same_attempt_who_took_the_previous_one_earlier_goes_first() {
    // TCRR on the order of call, the item before art. 6.5.9.
    let mut table = snatch(&[(1, "61"), (2, "60")]);
    table.lift(2, "www");
    table.request(2, "snatch", &kg("63"));
    table.lift(1, "www");
    table.request(1, "snatch", &kg("63"));
    assert_eq!(table.order(), [2, 1], "lot 2 has rested longer");
}

#[test]
fn equal_openers_are_called_by_number() {
    // TCRR on the order of call: start number; an older text says lot.
    let table = snatch(&[(9, "60"), (4, "60"), (7, "60")]);
    assert_eq!(table.order(), [4, 7, 9]);
}

#[test]
fn the_queue_is_law() {
    // TCRR 6.5: the order of call is binding.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    let refusal = table.no(Command::Call {
        which: who(2, "snatch"),
        load: None,
        platform: Some(1),
    });
    assert!(
        matches!(refusal, Refusal::NotNext { number: 1, .. }),
        "{refusal}"
    );
}

#[test]
fn the_bar_never_comes_down_once_a_load_was_called() {
    // Published guide to the sport: the weight is never reduced.
    let mut table = snatch(&[(1, "60"), (2, "64"), (3, "70")]);
    table.lift(1, "rrr");
    table.request(1, "snatch", &kg("70"));
    table.lift(2, "www");
    let refusal = refused(&mut table, 3, "63");
    assert!(
        matches!(&refusal, Refusal::TooLight { least, .. } if least == "64 kg"),
        "{refusal}"
    );
    table.request(3, "snatch", &kg("64"));
}

#[test]
fn a_called_load_binds_although_the_call_is_taken_back() {
    // "Once a weight has been called": from memory of the wording.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    assert_eq!(table.call(), 1);
    table.request(1, "snatch", &kg("65"));
    assert_eq!(table.called(), None, "lot 2 is next at 61");
    let refusal = refused(&mut table, 2, "59");
    assert!(
        matches!(&refusal, Refusal::TooLight { least, .. } if least == "60 kg"),
        "{refusal}"
    );
}

#[test]
fn the_bar_comes_down_only_to_put_an_official_error_right() {
    // "Except to correct an official error": from memory.
    let mut table = snatch(&[(1, "60"), (2, "62"), (3, "70")]);
    table.lift(1, "rrr");
    table.request(1, "snatch", &kg("70"));
    table.lift(2, "www");
    // The bar had 65 for lot 1, who may take that attempt again at 60.
    let _ = table.ok(Command::Loaded {
        which: which(1, "snatch", 1),
        load: kg("65"),
        granted: Granted::Repeat,
        platform: None,
    });
    assert_eq!(table.order()[0], 1);
    assert_eq!(table.call(), 1);
    let facts = table.facts();
    let call = facts.platform(1).unwrap().call.as_ref().unwrap();
    assert_eq!((call.attempt, &call.load), (1, &kg("60")));
}

// Clocks.

#[test]
fn an_attempt_has_sixty_seconds() {
    // TCRR 6.5.9.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    let _ = table.call();
    assert_eq!(table.left(), 60);
    let _ = table.wait(25);
    assert_eq!(table.left(), 35);
}

#[test]
fn who_follows_himself_or_herself_has_two_minutes() {
    // TCRR 6.5.9: 120 s for the second of two attempts in succession.
    let mut table = snatch(&[(1, "60"), (2, "70")]);
    table.lift(1, "www");
    assert_eq!(table.call(), 1);
    assert_eq!(table.left(), 120);
    table.lights("www");
    assert_eq!(table.call(), 1, "and for the third");
    assert_eq!(table.left(), 120);
}

#[test]
fn following_oneself_ends_when_another_was_called_in_between() {
    // TCRR refers to an exception in 6.5.15, whose text was not seen: from
    // memory.
    let mut table = snatch(&[(1, "60"), (2, "65")]);
    table.lift(1, "www");
    assert_eq!(table.call(), 1);
    assert_eq!(table.left(), 120);
    table.request(1, "snatch", &kg("66"));
    assert_eq!(table.call(), 2);
    assert_eq!(table.left(), 60);
    table.request(2, "snatch", &kg("67"));
    assert_eq!(table.call(), 1);
    assert_eq!(table.left(), 60, "lot 2 was called in between");
}

#[test]
fn the_clock_stops_goes_on_and_can_be_set() {
    // Officials' guide for timekeepers: a bar that is put back below the
    // knees restarts the clock from where it stood.
    let mut table = snatch(&[(1, "60")]);
    let _ = table.call();
    let _ = table.wait(20).ok(clock(ClockMove::Stop));
    assert_eq!(table.wait(30).left(), 40);
    let _ = table.ok(clock(ClockMove::Resume));
    assert_eq!(table.wait(10).left(), 30);
    let _ = table.ok(clock(ClockMove::Set(42_000)));
    assert_eq!(table.wait(2).left(), 40);
    assert_eq!(table.wait(100).left(), 0, "it never rules by itself");
    assert_eq!(table.called(), Some(1));
}

#[test]
fn a_change_stops_the_clock_and_the_athlete_goes_on_with_what_is_left() {
    // From memory; that the clock is stopped is in an officials' guide.
    let mut table = snatch(&[(1, "60"), (2, "70")]);
    let _ = table.call();
    let _ = table.wait(10);
    table.request(1, "snatch", &kg("62"));
    assert_eq!(table.called(), Some(1), "still next");
    assert_eq!(table.wait(15).left(), 50, "the loaders change the bar");
    let _ = table.ok(clock(ClockMove::Resume));
    assert_eq!(table.wait(5).left(), 45);
    table.lights("www");
    assert_eq!(stands(&table, 1).0, kg("63"));
}

#[test]
fn a_change_that_loses_the_turn_gives_the_next_athlete_a_full_minute() {
    // From memory.
    let mut table = snatch(&[(1, "60"), (2, "61")]);
    let _ = table.call();
    let _ = table.wait(20);
    table.request(1, "snatch", &kg("62"));
    assert_eq!(table.called(), None);
    assert_eq!(table.call(), 2);
    assert_eq!(table.left(), 60);
}

#[test]
fn a_change_to_an_equal_load_loses_the_turn_to_a_lower_number() {
    // Order of call at the same load and attempt: number (TCRR).
    let mut table = snatch(&[(5, "60"), (2, "61")]);
    assert_eq!(table.call(), 5);
    table.request(5, "snatch", &kg("61"));
    assert_eq!(table.call(), 2);
}

// Automatic increase and what may be asked for.

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

// Declaration, changes, deadlines.

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

// Rulings.

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
fn a_rise_is_over_the_last_attempt() {
    // Common practice: "plus five" counts from what was last on the bar.
    let mut table = snatch(&[(1, "60"), (2, "80")]);
    table.lift(1, "www");
    let _ = table.ok(Command::Request {
        which: who(1, "snatch"),
        load: LoadAsked::Relative(kg("5").mass),
        platform: None,
    });
    assert_eq!(stands(&table, 1).0, kg("65"));
}

// Places.

/// Attempts of a lot: a lift's loads in order, a no lift below zero.
type Card<'a> = (u16, &'a [i16], &'a [i16]);

/// A meet with finished cards, entered in the order given; no categories.
fn meet(cards: &[Card<'_>]) -> Table {
    let entries = cards
        .iter()
        .map(|(n, _, _)| entry(*n, &[("snatch", kg("60")), ("clean-and-jerk", kg("90"))]))
        .collect();
    let mut table = Table::meet(entries);
    table.set("categories", "none");
    for (number, snatch, jerk) in cards {
        for (lift, loads) in [("snatch", snatch), ("clean-and-jerk", jerk)] {
            for (load, attempt) in loads.iter().zip(1..) {
                let letters = if *load > 0 { "www" } else { "rrr" };
                let load = kg(&load.unsigned_abs().to_string());
                let which = which(*number, lift, attempt);
                let _ = table.wait(30).ok(tally(which, Some(load), lights(letters)));
            }
        }
    }
    table
}

/// Lots by the place that a line has; those without a place are left out.
fn by(table: &Table, place: impl Fn(&Line) -> Option<u32>) -> Vec<(u32, u16)> {
    let groups = standings(table.facts(), Basis::Category);
    assert_eq!(groups.len(), 1);
    let mut places: Vec<(u32, u16)> = groups[0]
        .lines
        .iter()
        .filter_map(|l| Some((place(l)?, table.facts().entries.get(&l.entry)?.number)))
        .collect();
    places.sort_unstable();
    places
}

fn in_snatch(cards: &[Card<'_>]) -> Vec<(u32, u16)> {
    by(&meet(cards), |l| l.slots[0].place)
}

fn in_total(cards: &[Card<'_>]) -> Vec<(u32, u16)> {
    by(&meet(cards), |l| l.place)
}

#[test]
fn the_heavier_best_is_placed_first() {
    // TCRR 6.8.2 as quoted on determining placement.
    let places = in_snatch(&[(1, &[60, 62, -64], &[]), (2, &[61, 63, -64], &[])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn a_tie_in_a_lift_goes_to_the_lower_attempt_number() {
    // TCRR 6.8.2, second step.
    let places = in_snatch(&[(1, &[60, 62, 64], &[]), (2, &[62, 64, -65], &[])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn then_to_the_lower_previous_attempt() {
    // TCRR 6.8.2, third step.
    let places = in_snatch(&[(1, &[60, 63, 64], &[]), (2, &[61, 62, 64], &[])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn then_to_the_one_before_that() {
    // TCRR 6.8.2, third step: previous attempts, walking back.
    let places = in_snatch(&[(1, &[61, 63, 64], &[]), (2, &[60, 63, 64], &[])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn a_missed_previous_attempt_counts_by_its_load() {
    // TCRR 6.8.2, third step: who took the lower load was earlier.
    let places = in_snatch(&[(1, &[63, 64, -66], &[]), (2, &[-62, 64, -66], &[])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn at_last_to_the_lower_number_not_to_who_lifted_earlier_in_the_day() {
    // TCRR 6.8.2, last step; sessions don't matter (same source). Lot 9's
    // card came first.
    let same: &[i16] = &[60, 62, 64];
    assert_eq!(
        in_snatch(&[(9, same, &[]), (4, same, &[])]),
        [(1, 4), (2, 9)]
    );
}

#[test]
fn the_heavier_total_is_placed_first() {
    // TCRR 6.8.2.
    let places = in_total(&[(1, &[60], &[80]), (2, &[60], &[81])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn a_tie_in_the_total_goes_to_the_lower_clean_and_jerk() {
    // TCRR 6.8.2: who completed the total first.
    let places = in_total(&[(1, &[60], &[80]), (2, &[62], &[78])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn then_to_the_lower_attempt_of_the_clean_and_jerk() {
    // TCRR 6.8.2, third step of the total.
    let places = in_total(&[(1, &[60], &[78, 79, 80]), (2, &[60], &[79, 80, -82])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn then_to_the_lower_previous_clean_and_jerk() {
    // TCRR 6.8.2, fourth step of the total.
    let places = in_total(&[(1, &[60], &[76, 79, 80]), (2, &[60], &[77, -78, 80])]);
    assert_eq!(places, [(1, 2), (2, 1)]);
}

#[test]
fn a_tie_in_the_total_goes_at_last_to_the_lower_number() {
    // TCRR 6.8.2, last step of the total.
    let places = in_total(&[(7, &[60], &[80]), (3, &[60], &[80])]);
    assert_eq!(places, [(1, 3), (2, 7)]);
}

#[test]
fn no_good_snatch_is_no_total_but_a_place_in_the_clean_and_jerk() {
    // From memory.
    let table = meet(&[(1, &[-60, -60, -60], &[90]), (2, &[60], &[80])]);
    assert_eq!(by(&table, |l| l.place), [(1, 2)]);
    assert_eq!(by(&table, |l| l.slots[0].place), [(1, 2)]);
    assert_eq!(by(&table, |l| l.slots[1].place), [(1, 1), (2, 2)]);
    let lines = &standings(table.facts(), Basis::Category)[0].lines;
    assert_eq!(lines.len(), 2, "everybody has a line");
}

#[test]
fn bodyweight_breaks_no_tie_unless_the_day_says_so() {
    // Since 1 January 2017 bodyweight breaks no tie (IWF announcement); the
    // lighter went first before.
    let weigh = |number, bodyweight: &str| Command::Weigh {
        number,
        bodyweight: kg(bodyweight),
    };
    let mut table = meet(&[(3, &[60], &[80]), (7, &[60], &[80])]);
    let _ = table.ok(weigh(3, "70.1"));
    let _ = table.ok(weigh(7, "69.9"));
    assert_eq!(by(&table, |l| l.place), [(1, 3), (2, 7)]);
    table.set("tie", "bodyweight");
    assert_eq!(by(&table, |l| l.place), [(1, 7), (2, 3)]);
}

#[test]
fn an_overruled_attempt_counts_as_it_is_ruled_now() {
    // The jury may reverse the referees (Pan American federation on video
    // review).
    let mut table = meet(&[(1, &[60, -64], &[80]), (2, &[62], &[80])]);
    assert_eq!(by(&table, |l| l.slots[0].place), [(1, 2), (2, 1)]);
    let _ = table.ok(Command::Rerule {
        which: which(1, "snatch", 2),
        outcome: ruling(Ruling::Good),
        authority: maxday::day::Authority::Overrule,
        reason: "video review".to_owned(),
    });
    assert_eq!(by(&table, |l| l.slots[0].place), [(1, 1), (2, 2)]);
}
