//! Places and ties.

use maxday::day::{Command, Ruling};
use maxday::standings::{Basis, Line, standings};

use super::support::{Table, entry, kg, lights, ruling, tally, which};

/// Attempts of a lot: a lift's loads in order, a no lift below zero.
type Card<'a> = (u16, &'a [i16], &'a [i16]);

/// A meet with finished cards, entered in the order given; no categories.
fn carded(cards: &[Card<'_>]) -> Table {
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
    by(&carded(cards), |l| l.slots[0].place)
}

fn in_total(cards: &[Card<'_>]) -> Vec<(u32, u16)> {
    by(&carded(cards), |l| l.place)
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
    let table = carded(&[(1, &[-60, -60, -60], &[90]), (2, &[60], &[80])]);
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
    let mut table = carded(&[(3, &[60], &[80]), (7, &[60], &[80])]);
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
    let mut table = carded(&[(1, &[60, -64], &[80]), (2, &[62], &[80])]);
    assert_eq!(by(&table, |l| l.slots[0].place), [(1, 2), (2, 1)]);
    let _ = table.ok(Command::Rerule {
        which: which(1, "snatch", 2),
        outcome: ruling(Ruling::Good),
        authority: maxday::day::Authority::Overrule,
        reason: "video review".to_owned(),
    });
    assert_eq!(by(&table, |l| l.slots[0].place), [(1, 1), (2, 2)]);
}

#[test]
fn a_guest_lifts_without_a_place() {
    // Common practice: out of competition; the others are placed as if the
    // guest weren't there.
    let mut table = super::meet("1 A 60 90\n2 A 62 90\n3 A 61 90");
    table.play(
        "edit|2||||guest=yes
        ? queue 1: 1@60 3@61 2@62
        lights|1|||60|www
        request|1|||80
        lights|3|||61|www
        request|3|||80
        lights|2|||62|www
        ? bests snatch: 1=60 2=62 3=61
        ? places snatch: 1=2 2= 3=1
        edit|2||||guest=no
        ? places snatch: 1=3 2=1 3=2",
    );
}

#[test]
fn who_is_disqualified_has_no_place_and_no_total() {
    // From memory: in the lift, or altogether. What was lifted stays shown.
    let mut table = super::meet("1 A 60 90\n2 A 62 90\n3 A 61 90");
    table.play(
        "tally|1|snatch|1|60|good
        tally|2|snatch|1|62|good
        tally|3|snatch|1|61|good
        tally|1|clean-and-jerk|1|90|good
        tally|2|clean-and-jerk|1|90|good
        tally|3|clean-and-jerk|1|91|good
        ? totals: 1=150/3 2=152/1 3=152/2
        disqualify|2|snatch|||foot on the bar
        ? places snatch: 1=2 2= 3=1
        ? places clean-and-jerk: 1=2 2=3 3=1
        ? totals: 1=150/2 2= 3=152/1
        disqualify|3||||misconduct
        ? places snatch: 1=1 2= 3=
        ? places clean-and-jerk: 1=1 2=2 3=
        ? totals: 1=150/1 2= 3=
        ? bests snatch: 1=60 2=62 3=61",
    );
}

#[test]
fn what_three_misses_mean_is_data() {
    // From memory: no total, but placed in the lift that was made.
    let script = "tally|1|snatch|1|60|no
        tally|1|snatch|2|60|no
        tally|1|snatch|3|60|no
        tally|1|clean-and-jerk|1|90|good
        tally|2|snatch|1|60|good
        tally|2|clean-and-jerk|1|20|good";
    let mut table = super::meet("1 A 60 90\n2 A 60 20");
    table.play(script);
    table.play("? totals: 1= 2=80/1");
    table.play("set|||||no-good=counts-nothing\n? totals: 1=90/1 2=80/2");
}

#[test]
fn ties_are_broken_by_the_chain_that_the_rules_name() {
    // TCRR 6.8.2; before 2017 bodyweight came second (IWF announcement).
    let mut table = super::meet("1 A 60 90; bodyweight=70\n2 A 60 90; bodyweight=69");
    table.play(
        "tally|1|snatch|1|60|good
        tally|2|snatch|1|60|good
        ? places snatch: 1=1 2=2
        set|||||ties-lift=bodyweight best-attempt number
        ? places snatch: 1=2 2=1
        set|||||ties-lift=shared
        ? places snatch: 1=1 2=1",
    );
}

#[test]
fn points_of_teams_are_data() {
    // IWF's 28-25-23-22 … 1 for snatch, clean and jerk and total: from
    // memory, as are ties by first places.
    super::script::Table::meet().play(
        "? rule team-points: 28 25 23 22 21 20 19 18 17 16 15 14 13 12 11 10 9 8 7 6 5 4 3 2 1
        ? rule team-scores: all
        ? rule team-ties: places shared
        set|||||team-points=5 3 1; team-scores=total
        ? rule team-points: 5 3 1",
    );
}
