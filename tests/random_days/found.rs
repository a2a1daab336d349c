//! Bugs that random days found, each as a short day that shows it.

use maxday::day::{
    ClockMove, Command, Granted, Line, Outcome, Place, Refusal, Ruling, StopFor, Which,
    queue,
};
use maxday::measure::{Unit, Weight};
use maxday::roster::Change;

use crate::support::{Table, entry_in, kg, lb, lights, ruling, slug, tally, which, who};

/// Three lots in flight A on platform 1 with openers 60, 61 and 62; the
/// snatch runs; there are two platforms.
fn meet() -> Table {
    let lifts = ["snatch", "clean-and-jerk"];
    let mut table = Table::new("weightlifting", Unit::Kg, &lifts, 2);
    let entries = [(1, "60"), (2, "61"), (3, "62")].map(|(n, load)| {
        let openers = [("snatch", kg(load)), ("clean-and-jerk", kg("90"))];
        entry_in(n, "A", 1, &openers)
    });
    let _ = table.ok(Command::Add(entries.to_vec()));
    table.start("snatch");
    table
}

fn card(number: u16, attempt: u8, load: &Weight, platform: Option<u8>) -> Command {
    Command::Tally {
        which: which(number, "snatch", attempt),
        load: Some(load.clone()),
        outcome: ruling(Ruling::Good),
        platform,
    }
}

fn call(number: u16, platform: u8) -> Command {
    Command::Call {
        which: who(number, "snatch"),
        load: None,
        platform: Some(platform),
    }
}

fn set(key: &str, value: &str) -> Command {
    Command::Set(vec![(key.to_owned(), value.to_owned())])
}

#[test]
fn undoing_a_card_leaves_the_called_athletes_clock_alone() {
    let mut table = meet();
    assert_eq!(table.call(), 1);
    let _ = table.wait(10).ok(card(3, 1, &kg("62"), None));
    let _ = table.wait(5).ok(Command::Undo(Line::Platform(1)));
    assert_eq!(table.wait(5).left(), 40, "lot 1's clock runs on");
}

#[test]
fn undoing_a_stop_that_names_another_platform_stops_the_clock() {
    let mut table = meet();
    assert_eq!(table.call(), 1);
    let act = table.wait(10).ok(Command::Stop {
        which: who(1, "snatch"),
        stop: StopFor::Technique,
        reason: String::new(),
        platform: Some(2),
    });
    let line = table.day.line_of(act);
    let _ = table.wait(30).ok(Command::Undo(line));
    assert_eq!(table.called(), Some(1));
    assert_eq!(table.wait(5).left(), 50, "as it stood when the stop came");
}

#[test]
fn a_card_that_came_before_its_turn_can_be_undone_and_redone() {
    let mut table = meet();
    let _ = table.ok(card(1, 2, &kg("62"), None));
    let before = table.facts().clone();
    let _ = table.ok(Command::Undo(Line::Platform(1)));
    let _ = table.ok(Command::Redo(Line::Platform(1)));
    assert_eq!(*table.facts(), before);
}

#[test]
fn no_redo_rules_an_attempt_for_which_somebody_is_called() {
    let mut table = meet();
    let _ = table.ok(card(1, 1, &kg("60"), Some(2)));
    let _ = table.ok(Command::Undo(Line::Platform(2)));
    assert_eq!(table.call(), 1);
    let refusal = table.no(Command::Redo(Line::Platform(2)));
    assert!(matches!(refusal, Refusal::Dangling(_)), "{refusal}");
}

#[test]
fn the_bar_stays_up_when_the_running_flight_moves_to_another_platform() {
    let mut table = meet();
    table.lift(1, "www");
    table.lift(2, "www");
    // The flight still lifts on platform 1, whatever becomes of the move.
    let _ = table.say(&set("flight.1/A", "2"));
    let refusal = table.no(crate::support::request(3, "snatch", &kg("60")));
    assert!(matches!(refusal, Refusal::TooLight { .. }), "{refusal}");
}

#[test]
fn no_attempt_is_taken_anew_while_its_athlete_is_called_for_the_next() {
    let mut table = meet();
    table.lift(1, "rrr");
    assert_eq!(table.call(), 1);
    let refusal = table.no(Command::Loaded {
        which: which(1, "snatch", 1),
        load: kg("65"),
        granted: Granted::Repeat,
        platform: None,
    });
    assert!(
        matches!(refusal, Refusal::SomebodyIsCalled { number: 1, .. }),
        "{refusal}"
    );
}

#[test]
fn no_annulment_brings_back_a_call_for_an_attempt_after_one_that_is_open() {
    let mut table = meet();
    table.lift(1, "rrr");
    let call = table.ok(call(1, 1));
    let annul = table.ok(Command::Annul {
        act: call,
        reason: "slip".to_owned(),
    });
    let _ = table.ok(Command::Loaded {
        which: which(1, "snatch", 1),
        load: kg("65"),
        granted: Granted::Again,
        platform: None,
    });
    let _ = table.say(&Command::Annul {
        act: annul,
        reason: "no slip".to_owned(),
    });
    let facts = table.facts();
    let call = facts.platform(1).unwrap().call.as_ref();
    let next = call.and_then(|c| facts.next_attempt(c.entry, &c.slot));
    assert_eq!(call.map(|c| c.attempt), next);
}

#[test]
fn a_platform_with_a_flight_on_it_is_not_undone() {
    let mut table = meet();
    let _ = table.ok(set("platforms", "4"));
    let _ = table.ok(Command::Place(vec![(
        3,
        Place {
            flight: Some("C".to_owned()),
            platform: Some(4),
            ..Place::default()
        },
    )]));
    let refusal = table.no(Command::Undo(Line::Day));
    assert!(matches!(refusal, Refusal::Dangling(_)), "{refusal}");
}

#[test]
fn a_fourth_attempt_keeps_the_rule_that_allows_it() {
    let mut table = meet();
    let act = table.ok(set("attempts", "4"));
    let _ = table.ok(card(1, 4, &kg("62"), None));
    let refusal = table.no(Command::Annul {
        act,
        reason: "three".to_owned(),
    });
    assert!(matches!(refusal, Refusal::Dangling(_)), "{refusal}");
}

#[test]
fn the_newest_act_is_always_undone_although_a_card_is_missing() {
    let mut table = meet();
    let first = table.ok(card(1, 1, &kg("60"), None));
    let annul = table.ok(Command::Annul {
        act: first,
        reason: "other lot".to_owned(),
    });
    let _ = table.ok(card(1, 2, &kg("62"), None));
    let before = table.facts().clone();
    let _ = table.ok(Command::Annul {
        act: annul,
        reason: "it was lot 1".to_owned(),
    });
    let _ = table.ok(Command::Undo(Line::Platform(1)));
    assert_eq!(*table.facts(), before);
}

#[test]
fn nobody_is_called_on_two_platforms() {
    let mut table = meet();
    assert_eq!(table.call(), 1);
    // Whether the move or the second start is refused is open; not the call.
    let _ = table.say(&set("flight.1/A", "2"));
    let _ = table.say(&Command::Start {
        platform: Some(2),
        lift: slug("snatch"),
        session: Some("1".to_owned()),
        flight: Some("A".to_owned()),
    });
    let refusal = table.no(call(1, 2));
    let allowed = matches!(
        refusal,
        Refusal::SomebodyIsCalled { .. } | Refusal::NothingRuns { .. }
    );
    assert!(allowed, "{refusal}");
}

#[test]
fn two_entries_never_get_one_number_in_an_updated_roster() {
    let mut table = meet();
    let keys: Vec<_> = table.facts().entries.keys().copied().collect();
    let edit = |key| (key, vec![Change::Number(50)], Place::default());
    let refusal = table.no(Command::EditMany(vec![edit(keys[0]), edit(keys[1])]));
    assert!(
        matches!(refusal, Refusal::NumberTaken { number: 50, .. }),
        "{refusal}"
    );
}

#[test]
fn an_order_without_the_attempt_is_still_an_order() {
    let mut table = meet();
    let _ = table.ok(set("order", "previous number"));
    for (number, load) in [(3, "60"), (1, "61")] {
        let _ = table.ok(card(number, 1, &kg(load), None));
    }
    // Lot 2 has no attempt before and goes first; then who lifted earlier.
    let order: Vec<u16> = queue(table.facts(), 1).iter().map(|q| q.number).collect();
    assert_eq!(order, [2, 3, 1]);
}

#[test]
fn a_stopped_clock_stays_stopped_over_undo_and_redo() {
    let mut table = meet();
    assert_eq!(table.call(), 1);
    let _ = table.wait(10).ok(Command::Clock {
        platform: Some(1),
        movement: ClockMove::Stop,
    });
    table.lights("www");
    let _ = table.wait(10).ok(Command::Undo(Line::Platform(1)));
    assert_eq!(table.wait(10).left(), 50);
    let _ = table.ok(Command::Redo(Line::Platform(1)));
    assert_eq!(table.called(), None);
}

#[test]
fn a_max_days_call_and_ruling_in_one_are_undone_as_one() {
    let entries = vec![entry_in(4, "A", 1, &[("back-squat", lb("135"))])];
    let mut table = Table::max_day(1, entries);
    table.start("back-squat");
    let before = table.facts().clone();
    let _ = table.ok(Command::Lights {
        which: Which {
            number: Some(4),
            ..Which::default()
        },
        load: Some(lb("135")),
        outcome: lights("w"),
        platform: None,
    });
    let _ = table.ok(Command::Undo(Line::Platform(1)));
    assert_eq!(*table.facts(), before, "next in the queue, not called");
    let refusal = table.no(tally(who(4, "back-squat"), None, Outcome::default()));
    assert!(matches!(refusal, Refusal::NoOutcome), "{refusal}");
}
