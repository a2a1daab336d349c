//! Proposals and moves of flights.

use super::plan::{read_plan, usual};
use super::*;
use crate::day::{Day, FlightBy, Outcome, Ruling, Which};
use crate::desk::widget::grid::trial::{enter, keys, max_day, slug, submit};

fn started() -> Day {
    let mut day = max_day();
    for number in 1..=20_u16 {
        enter(
            &mut day,
            number,
            "Ann",
            "X",
            &format!("{}", 40 + number * 5 / 2 * 2),
        );
    }
    day
}

/// Hands in what the screen asks for; gives the refusal.
fn settle(day: &mut Day, flights: &mut Flights, out: Option<Out>) -> Option<String> {
    let Some(Out::Submit(command)) = out else {
        return None;
    };
    let answer = submit(day, &command);
    let _ = flights.answered(answer.clone(), day.facts());
    answer.err()
}

#[test]
fn the_line_reads_in_any_order() {
    let day = started();
    let facts = day.facts();
    assert_eq!(usual(facts), "1 by strength on 1 2");
    let plan = read_plan(facts, "1 from c on 2,1 by cat").unwrap();
    assert_eq!(
        (plan.by, plan.platforms, plan.first),
        (FlightBy::Category, vec![2, 1], 'C')
    );
    let plan = read_plan(facts, "1 by rack on all").unwrap();
    assert_eq!(
        (plan.by, plan.platforms),
        (FlightBy::RackHeight, vec![1, 2])
    );
    for (text, part) in [
        ("", "Write the session"),
        ("9", "Nobody is entered in session 9; there is 1."),
        ("1 by luck", "write by strength, rack, sex or category"),
        ("1 on 3", "this day has 1 to 2"),
        ("1 from 7", "write a letter"),
    ] {
        let sentence = read_plan(facts, text).unwrap_err();
        assert!(sentence.contains(part), "{text}: {sentence}");
    }
}

#[test]
fn a_proposal_is_accepted_as_one_act() {
    let mut day = started();
    let plan_end = Command::Set(vec![("session.1".into(), "10:05-10:50".into())]);
    submit(&mut day, &plan_end).unwrap();
    let mut flights = Flights::new();
    let plan = read_plan(day.facts(), &usual(day.facts())).unwrap();
    let sentence = plan.sentence(day.facts(), &plan.propose(day.facts()));
    // 10 athletes a platform, 2 lifts, 3 attempts, 45 seconds each.
    assert_eq!(
        sentence,
        "Enter places 20 athletes in 2 flights, A to B; the longest platform takes 45 minutes \
         of the 45 that are planned."
    );
    let acts = day
        .journal()
        .iter()
        .map(|r| r.act)
        .collect::<std::collections::BTreeSet<_>>();
    let (_, out) = flights.update(Message::Accepted, day.facts());
    assert_eq!(settle(&mut day, &mut flights, out), None);
    let after = day
        .journal()
        .iter()
        .map(|r| r.act)
        .collect::<std::collections::BTreeSet<_>>();
    assert_eq!(after.len(), acts.len() + 1);
    assert_eq!(day.facts().entries_of("1", "A").count(), 10);
    assert_eq!(day.facts().flight("1", "B").unwrap().platform, 2);
    assert!(flights.by_hand);
}

#[test]
fn a_flight_on_another_platform_is_named_before_enter() {
    let mut day = started();
    let mut flights = Flights::new();
    let (_, out) = flights.update(Message::Accepted, day.facts());
    assert_eq!(settle(&mut day, &mut flights, out), None);
    let _ = flights.update(Message::PlanTyped("1 on 2 1".into()), day.facts());
    let (_, out) = flights.update(Message::Accepted, day.facts());
    assert_eq!(out, None);
    let sentence = flights.refused.unwrap();
    assert!(
        sentence.starts_with("Flight A is on platform 1 already"),
        "{sentence}"
    );
}

#[test]
fn a_session_that_has_begun_is_moved_only_by_a_second_enter() {
    let mut day = started();
    let mut flights = Flights::new();
    let (_, out) = flights.update(Message::Accepted, day.facts());
    assert_eq!(settle(&mut day, &mut flights, out), None);
    let tally = Command::Tally {
        which: Which {
            number: Some(1),
            lift: Some(slug("clean")),
            attempt: None,
        },
        load: Some(day.facts().reading().load("45").unwrap()),
        outcome: Outcome {
            ruling: Some(Ruling::Good),
            ..Outcome::default()
        },
        platform: None,
    };
    submit(&mut day, &tally).unwrap();
    // Nobody would change flight, so nothing is to be warned of.
    let (_, out) = flights.update(Message::Accepted, day.facts());
    assert!(out.is_some());
    let _ = flights.answered(Ok(()), day.facts());
    let asked = Message::PlanTyped("1 on 1 2 from C".into());
    let _ = flights.update(asked, day.facts());
    let (_, out) = flights.update(Message::Accepted, day.facts());
    assert_eq!(out, None);
    assert_eq!(
        flights.refused.as_deref(),
        Some(
            "Session 1 has begun, with 1 attempt; this would put 20 athletes into other \
             flights. Enter again does it; Ctrl+F leaves it."
        )
    );
    let (_, out) = flights.update(Message::Accepted, day.facts());
    assert_eq!(settle(&mut day, &mut flights, out), None);
    assert_eq!(day.facts().entries_of("1", "C").count(), 10);
}

#[test]
fn a_flight_is_typed_beside_an_athlete() {
    let mut day = started();
    let mut flights = Flights::new();
    let _ = flights.update(Message::Turned, day.facts());
    for event in keys("C on 2<Enter>C<Enter><Enter><Home>12<Enter>2/D<Enter>") {
        let (_, out) = flights.update(Message::Grid(event), day.facts());
        assert_eq!(settle(&mut day, &mut flights, out), None);
    }
    let facts = day.facts();
    let place = |n| {
        let entry = facts.entry_by_number(n).unwrap();
        format!(
            "{}/{} {:?}",
            entry.session,
            entry.flight,
            facts.platform_of(entry)
        )
    };
    assert_eq!(place(1), "1/C Some(2)");
    assert_eq!(place(2), "1/C Some(2)");
    assert_eq!(place(3), "1/X Some(1)");
    assert_eq!(place(12), "2/D Some(1)");
}
