//! When to take which warm-up set, worked out by hand.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod support;

use maxday::day::{Command, Stamp, openers};
use maxday::measure::{Unit, Weight};
use maxday::sheets::{WarmUpSet, warm_up_rows, warm_up_sets, warm_up_steps};
use support::{Table, entry, entry_in};

fn kg(text: &str) -> Weight {
    Weight::parse(text, Unit::Kg).unwrap()
}

fn minutes(from: Stamp, to: Stamp) -> i64 {
    to.since(from) / 60_000
}

/// Powerlifting at a minute an attempt: squat openers of 100, 110, 140 and so
/// on. The order is by rounds, so that lot n has n - 1 attempts before it.
fn meet(many: u16) -> Table {
    let mut table =
        Table::new("powerlifting", Unit::Kg, &["back-squat", "bench-press"], 1);
    let one = |n: u16| {
        let squat = kg(&format!("{}", 95 + 5 * n));
        entry(n, &[("back-squat", squat), ("bench-press", kg("60"))])
    };
    let _ = table.ok(Command::Add((1..=many).map(one).collect()));
    table
}

/// Number, load, minutes from now, attempts out.
fn told(sets: &[WarmUpSet], now: Stamp) -> Vec<(u8, String, i64, u32)> {
    let load = |s: &WarmUpSet| s.load.map_or("bar".into(), |m| m.show(Unit::Kg));
    sets.iter()
        .map(|s| (s.number, load(s), minutes(now, s.at), s.out))
        .collect()
}

fn row(n: u8, load: &str, at: i64, out: u32) -> (u8, String, i64, u32) {
    (n, load.to_owned(), at, out)
}

#[test]
fn the_steps_rise_and_stay_below_the_opener() {
    let percents: Vec<u8> = warm_up_steps().iter().map(|s| s.percent).collect();
    assert_eq!(percents, [50, 70, 80, 90]);
    assert!(warm_up_steps().iter().all(|s| !s.repetitions.is_empty()));
}

/// Lot 15 opens with 170 and has 14 attempts before it: the call is in 14
/// minutes. 50, 70, 80 and 90 % of 170 are 85, 119, 136 and 153. On a bar and
/// collars of 25 kg with pairs from 25 down to 1.25 every 2.5 kg can be made:
/// 85, 117.5, 135, 152.5. The last set is 3 minutes before the call, the
/// others 3 minutes from each other: in 11, 8, 5 and 2 minutes; at a minute an
/// attempt 3, 6, 9 and 12 attempts out.
#[test]
fn sets_go_back_from_the_predicted_call() {
    let mut table = meet(15);
    table.start("back-squat");
    table.set("discs.1", "25x4 20x1 15x1 10x1 5x1 2.5x1 1.25x1");
    let now = table.stamp();
    let openers = openers(table.facts(), 1, now);
    let last = &openers[14];
    assert_eq!(
        (last.queued.number, last.out, minutes(now, last.call.at)),
        (15, 14, 14)
    );
    let sets = warm_up_sets(table.facts(), 1, last);
    assert_eq!(
        told(&sets, now),
        [
            row(1, "85", 2, 12),
            row(2, "117.5", 5, 9),
            row(3, "135", 8, 6),
            row(4, "152.5", 11, 3)
        ]
    );
    let words = sets[2].words(table.facts());
    assert!(
        words.starts_with("warm-up set 3 of 4: 135 kg x 2 at ")
            && words.ends_with(", about 6 attempts out"),
        "{words}"
    );
    // Lot 1 is next: its sets are past.
    let first = told(&warm_up_sets(table.facts(), 1, &openers[0]), now);
    assert_eq!(
        first.iter().map(|s| s.2).collect::<Vec<_>>(),
        [-12, -9, -6, -3]
    );
}

/// Pairs of 20 and 10 alone: 85, 119, 136 and 153 come down to 85, 105 (20 and
/// 20 a side make 105), 125 and 145 on 25 kg.
#[test]
fn loads_are_what_the_discs_can_make() {
    let mut table = meet(15);
    table.start("back-squat");
    table.set("discs.1", "20x3 10x1");
    let now = table.stamp();
    let openers = openers(table.facts(), 1, now);
    let sets = told(&warm_up_sets(table.facts(), 1, &openers[14]), now);
    let loads: Vec<&str> = sets.iter().map(|s| s.1.as_str()).collect();
    // 25 + 2 x 30 = 85; + 2 x 40 = 105; + 2 x 50 = 125; + 2 x 60 = 145.
    assert_eq!(loads, ["85", "105", "125", "145"]);
    // One pair alone: every share comes down to it, which is one set.
    table.set("discs.1", "20x1");
    let sets = told(&warm_up_sets(table.facts(), 1, &openers[14]), now);
    assert_eq!(sets, [row(1, "65", 11, 3)]);
    // On a bar of 100 three shares are the empty bar, or below it.
    table.set("discs.1", "25x1");
    table.set("bar.1", "100");
    let sets = told(&warm_up_sets(table.facts(), 1, &openers[14]), now);
    assert_eq!(sets, [row(1, "bar", 8, 6), row(2, "150", 11, 3)]);
}

/// Three squatters, three rounds: 9 attempts, 9 minutes, and the rest of
/// rounds apart; then the break, then the bench press in the order of lots.
#[test]
fn the_next_lift_is_warmed_up_for_after_the_last_attempt() {
    let mut table = meet(3);
    table.start("back-squat");
    let now = table.stamp();
    let pause = i64::from(table.facts().rules.break_minutes);
    let list = openers(table.facts(), 1, now);
    let bench: Vec<_> = list.iter().filter(|o| o.lifts_before).collect();
    let calls: Vec<i64> = bench.iter().map(|o| minutes(now, o.call.at)).collect();
    assert_eq!(calls, [9 + pause, 10 + pause, 11 + pause]);
    // In the break no attempt goes by: what is out then is the own flight's.
    let third = told(&warm_up_sets(table.facts(), 1, bench[2]), now);
    assert_eq!(third.last().map(|s| (s.2, s.3)), Some((8 + pause, 2)));
    // While they squat, no set for the bench press is due.
    let due = warm_up_rows(table.facts(), 1, now);
    let bench_due = due.iter().filter(|r| r.lift.as_str() == "bench-press");
    assert!(bench_due.map(|r| minutes(now, r.set.at)).all(|at| at >= 9));
}

/// Two flights: the second one waits for the 6 attempts of the first.
#[test]
fn the_next_flight_is_warmed_up_for_while_the_first_lifts() {
    let mut table = Table::new("powerlifting", Unit::Kg, &["back-squat"], 1);
    let squat = |load| [("back-squat", kg(load))];
    let _ = table.ok(Command::Add(vec![
        entry_in(1, "A", 1, &squat("100")),
        entry_in(2, "A", 1, &squat("110")),
        entry_in(3, "B", 1, &squat("100")),
        entry_in(4, "B", 1, &squat("120")),
    ]));
    table.start_for("back-squat", "A");
    let now = table.stamp();
    let list = openers(table.facts(), 1, now);
    let calls: Vec<(u16, i64)> = list
        .iter()
        .map(|o| (o.queued.number, minutes(now, o.call.at)))
        .collect();
    assert_eq!(calls, [(1, 0), (2, 1), (3, 6), (4, 7)]);
    // Lot 4: 108 % minus: 60, 84, 96, 108 of 120; the set in 4 minutes has two
    // of flight A and one of its own before it.
    let sets = told(&warm_up_sets(table.facts(), 1, &list[3]), now);
    assert_eq!(sets.last().map(|s| (s.2, s.3)), Some((4, 3)));
    let due = warm_up_rows(table.facts(), 1, now);
    let numbers: Vec<(u16, u8)> = due
        .iter()
        .map(|r| (table.facts().entries[&r.entry].number, r.set.number))
        .collect();
    // Lot 3's sets were 6, 3 minutes ago, now and in 3; lot 4's 5, 2 ago, in 1
    // and 4.
    assert_eq!(numbers, [(3, 3), (4, 3)]);
}

#[test]
fn before_anything_runs_the_planned_start_counts() {
    let mut table = meet(3);
    let date = table.facts().date;
    let at = |time: &str| Stamp::parse(time, date, 0).unwrap();
    assert_eq!(openers(table.facts(), 1, at("09:00")), []);
    table.set("session.1", "start 09:30");
    let calls = |time: &str| -> Vec<i64> {
        let list = openers(table.facts(), 1, at(time));
        list.iter()
            .map(|o| minutes(at("09:00"), o.call.at))
            .collect()
    };
    assert_eq!(calls("09:00"), [30, 31, 32]);
    // It begins late: whenever it does.
    assert_eq!(calls("09:40"), [40, 41, 42]);
    // That was another day, or will be.
    assert!(calls("23:40").is_empty());
    // Lot 2's last set is 3 minutes before its call.
    let due = warm_up_rows(table.facts(), 1, at("09:27"));
    let second = due
        .iter()
        .find(|r| table.facts().entries[&r.entry].number == 2);
    let second = second.unwrap();
    assert_eq!(
        (minutes(at("09:00"), second.set.at), second.set.number),
        (28, 4)
    );
    assert_eq!(second.set.out, 1);
}
