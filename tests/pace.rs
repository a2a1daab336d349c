//! Forecasts: the pace so far, when somebody is likely to be called, and when a
//! flight and a session are likely to end, worked out by hand.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod support;

use maxday::day::pace::{attempts_out, calls, flight_end, pace, session_end};
use maxday::day::{Command, Ruling, Stamp};
use maxday::measure::{Unit, Weight};
use support::{Table, entry, ruling, which};

fn kg(text: &str) -> Weight {
    Weight::parse(text, Unit::Kg).unwrap()
}

/// Three athletes of a powerlifting meet: a minute an attempt by the rules.
fn meet() -> Table {
    let lifts = ["back-squat", "bench-press"];
    let mut table = Table::new("powerlifting", Unit::Kg, &lifts, 1);
    let one = |n, squat, bench| {
        entry(n, &[("back-squat", kg(squat)), ("bench-press", kg(bench))])
    };
    let _ = table.ok(Command::Add(vec![
        one(1, "100", "60"),
        one(2, "110", "70"),
        one(3, "120", "80"),
    ]));
    table.start("back-squat");
    table
}

fn seconds(from: Stamp, to: Stamp) -> i64 {
    to.since(from) / 1000
}

#[test]
fn before_anything_was_seen_the_rules_pace_holds() {
    let table = meet();
    let pace = pace(table.facts(), 1);
    assert_eq!((pace.ms, pace.spread, pace.seen), (60_000, 20_000, 0));
    let now = table.stamp();
    let expected: Vec<(i64, i64)> = calls(table.facts(), 1, &table.queue(), now)
        .iter()
        .map(|e| (seconds(now, e.at), e.give_or_take / 1000))
        .collect();
    assert_eq!(expected, [(0, 0), (60, 20), (120, 20)]);
}

#[test]
fn the_pace_so_far_moves_the_forecast() {
    let mut table = meet();
    for number in [1, 2, 3] {
        let _ = table.wait(60);
        table.lift(number, "www");
    }
    // Two intervals of 90 s beside four of 60 s: 70 s, and each of the two is
    // 20 s off it.
    let pace = pace(table.facts(), 1);
    assert_eq!((pace.ms, pace.spread, pace.seen), (70_000, 20_000, 2));
    let now = table.stamp();
    let (left, end) = flight_end(table.facts(), 1, now).unwrap();
    assert_eq!((left, seconds(now, end.at)), (6, 6 * 70));
    assert_eq!(end.give_or_take, 2 * 20_000);
    // All bench presses are still to come, after the break of ten minutes.
    let (left, end) = session_end(table.facts(), 1, "1", now).unwrap();
    assert_eq!((left, seconds(now, end.at)), (15, 15 * 70 + 600));
    assert_eq!(session_end(table.facts(), 1, "2", now), None);
}

#[test]
fn a_pause_and_a_card_say_nothing_of_the_pace() {
    let mut table = meet();
    table.lift(1, "www");
    let _ = table.wait(1800);
    table.lift(2, "www");
    assert_eq!(pace(table.facts(), 1).seen, 0);
    let _ = table.wait(60);
    let _ = table.ok(support::tally(
        which(3, "back-squat", 1),
        Some(kg("120")),
        ruling(Ruling::Good),
    ));
    assert_eq!(pace(table.facts(), 1).seen, 0);
}

#[test]
fn a_break_holds_everybody_back() {
    let mut table = meet();
    let _ = table.ok(Command::Break {
        platform: Some(1),
        minutes: Some(10),
    });
    let now = table.stamp();
    let first = calls(table.facts(), 1, &table.queue(), now)[0];
    assert_eq!(seconds(now, first.at), 600);
}

#[test]
fn attempts_out_are_counted_past_the_load_where_the_bar_only_rises() {
    let mut table = Table::new("weightlifting", Unit::Kg, &["snatch"], 1);
    let one = |n, load| entry(n, &[("snatch", kg(load))]);
    let _ = table.ok(Command::Add(vec![one(1, "60"), one(2, "70"), one(3, "80")]));
    table.start("snatch");
    let out = |n: u16| {
        let key = table.facts().entry_by_number(n).unwrap().key;
        attempts_out(table.facts(), 1, key)
    };
    // 60, 63 and 67 come before 70; 70, 74 and 78 before 80.
    assert_eq!((out(1), out(2), out(3)), (Some(0), Some(3), Some(6)));
    // The predicted call goes by them: a minute and a half an attempt.
    let now = table.stamp();
    let at: Vec<i64> = calls(table.facts(), 1, &table.queue(), now)
        .iter()
        .map(|e| seconds(now, e.at))
        .collect();
    assert_eq!(at, [0, 270, 540]);
}

#[test]
fn in_rounds_attempts_out_are_the_places_in_the_queue() {
    let table = meet();
    let key = table.facts().entry_by_number(3).unwrap().key;
    assert_eq!(attempts_out(table.facts(), 1, key), Some(2));
}
