//! A powerlifting flight run from the keyboard alone, the keys for leave and
//! start numbers, and a new powerlifting day.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_with, empty_desk, later, line, pressed, settings, typed};
use iced::Size;
use iced_test::Simulator;
use maxday::day::Command;
use maxday::desk::app::{Desk, Message};
use maxday::desk::screen::{ScreenId, cards, first};
use maxday::desk::widget::form;
use maxday::standings::{Basis, standings};

const SMALL: Size = Size::new(1366.0, 740.0);

const LIFTERS: &str =
    "lot,given,family,sex,flight,bodyweight,back-squat,bench-press,deadlift
4,Ida,Storm,F,A,56.2,100,60,120
9,Ola,Brandt,F,A,56.2,102.5,57.5,122.5
2,Una,Falk,F,B,62,110,65,140
";

fn lifters(name: &str) -> Desk {
    desk_with(name, "Meet of three", "powerlifting", LIFTERS)
}

fn shown(desk: &Desk, words: &str) -> bool {
    let mut ui = Simulator::with_size(settings(), SMALL, desk.main());
    ui.find(words).is_ok()
}

fn on_board(desk: &Desk, words: &str) -> bool {
    let mut ui = Simulator::with_size(settings(), SMALL, desk.board());
    ui.find(words).is_ok()
}

fn called(desk: &Desk) -> Option<(u16, u8, String)> {
    let facts = desk.facts();
    let call = facts.platforms[0].call.as_ref()?;
    let number = facts.entries[&call.entry].number;
    Some((number, call.attempt, call.load.show(facts.bar_unit)))
}

/// Runs what the empty line starts to its end; says what was called, and
/// misses the attempts named.
fn run(desk: &mut Desk, misses: &[(u16, u8)]) -> Vec<(u16, u8, String)> {
    typed(desk, "");
    let mut all = Vec::new();
    loop {
        later(desk, 20);
        pressed(desk, "F10");
        let Some((lot, attempt, load)) = called(desk) else {
            return all;
        };
        later(desk, 15);
        if misses.contains(&(lot, attempt)) {
            typed(desk, "rrw 1 2 down");
        } else {
            pressed(desk, "ctrl+g");
        }
        assert_eq!(called(desk), None, "the lights rule");
        all.push((lot, attempt, load));
    }
}

/// Rounds: nobody follows himself or herself, the bar rises within a round,
/// and 2.5 kg more after a good lift, the same after a miss, is filled in (World
/// Para Powerlifting and IPL as published).
#[test]
fn a_flight_is_run_from_the_keyboard_alone() {
    let mut desk = lifters("power-flight");
    let calls = run(&mut desk, &[(4, 2)]);
    let calls: Vec<(u16, u8, &str)> = calls
        .iter()
        .map(|(l, a, kg)| (*l, *a, kg.as_str()))
        .collect();
    assert_eq!(
        calls,
        [
            (4, 1, "100"),
            (9, 1, "102.5"),
            (4, 2, "102.5"),
            (9, 2, "105"),
            (4, 3, "102.5"),
            (9, 3, "107.5"),
        ]
    );
    // The reasons of the miss were named by the cards.
    let facts = desk.facts();
    let key = facts.numbers[&4];
    let ruled = facts.attempt(key, &facts.slots[0].slot, 2).unwrap();
    let faults = &ruled.ruled.as_ref().unwrap().fact.faults;
    let codes: Vec<&str> = faults.iter().map(|f| f.code.as_str()).collect();
    assert_eq!(codes, ["not-deep-enough", "downward-movement"]);
    // Flight B comes next, then the bench.
    line(&mut desk, "");
    assert_eq!(
        desk.table().promise().unwrap(),
        &Ok("Starts back squat for flight 1/B on platform 1.".to_owned())
    );
    assert_eq!(run(&mut desk, &[]).len(), 3);
    line(&mut desk, "");
    assert_eq!(
        desk.table().promise().unwrap(),
        &Ok("Starts bench press for flight 1/A on platform 1.".to_owned())
    );
    for flights in [6, 3, 6, 3] {
        assert_eq!(run(&mut desk, &[]).len(), flights);
    }
    let facts = desk.facts();
    let mut totals: Vec<(u16, String, Option<u32>)> = Vec::new();
    for group in standings(facts, Basis::Category) {
        for line in group.lines {
            let number = facts.entries[&line.entry].number;
            let total = line.total.unwrap().show(facts.bar_unit);
            totals.push((number, total, line.place));
        }
    }
    totals.sort();
    // 4: 102.5 + 65 + 125; 9: 107.5 + 62.5 + 127.5; both in one class.
    assert_eq!(
        totals,
        [
            (2, "330".to_owned(), Some(1)),
            (4, "292.5".to_owned(), Some(2)),
            (9, "297.5".to_owned(), Some(1)),
        ]
    );
}

#[test]
fn table_and_board_tell_flight_and_round_and_the_clock_of_a_minute() {
    let mut desk = lifters("power-round");
    for line in ["check Ms Bell", "", ""] {
        typed(&mut desk, line);
    }
    assert!(shown(
        &desk,
        "Platform 1, back squat, session 1, flight A, round 1"
    ));
    assert!(on_board(&desk, "back squat, flight A, round 1"));
    assert!(shown(&desk, "1:00") && on_board(&desk, "1:00"));
    assert!(shown(&desk, "Called"));
    typed(&mut desk, "www");
    typed(&mut desk, "103 record");
    typed(&mut desk, "");
    typed(&mut desk, "www");
    later(&mut desk, 30);
    assert!(shown(
        &desk,
        "Platform 1, back squat, session 1, flight A, round 2"
    ));
    assert!(on_board(&desk, "back squat, flight A, round 2"));
    // A record's request is said as such, and who rests is marked.
    assert!(shown(&desk, "Next on the bar, for a record"));
    assert!(shown(&desk, "103 kg"));
    assert!(shown(&desk, "rests 1:30"), "lot 9 lifted half a minute ago");
    assert!(shown(
        &desk,
        "Lot 9 owes the request for attempt 2, to hand in within 60 s (30 left): type the \
         load. 105 kg stands until then."
    ));
    // Nothing runs any more once the minute and the rest are over.
    later(&mut desk, 31);
    assert!(!shown(&desk, "rests 1:30"));
    typed(&mut desk, "9 107.5");
    assert!(
        desk.table()
            .answer()
            .unwrap()
            .as_ref()
            .unwrap_err()
            .contains("60 s after the last attempt")
    );
}

/// Weigh-in lasts an hour and a half and opens two hours before the start
/// (WDFPF 2007 and national guides).
#[test]
fn table_day_and_board_tell_the_times_before_a_session() {
    let mut desk = lifters("power-before");
    let plan = vec![("session.1".to_owned(), "10:00-12:00".to_owned())];
    desk.effects_mut().submit(&Command::Set(plan)).unwrap();
    later(&mut desk, 10 * 60);
    assert!(shown(
        &desk,
        "Session 1: weigh-in 08:00 to 09:30 (open, 20 min left), start 10:00 (in 50 min)."
    ));
    assert!(shown(
        &desk,
        "Openers close 5 minutes before the start, in 45:00."
    ));
    for line in [
        "Session 1",
        "Weigh-in 08:00 to 09:30 (open, 20 min left)",
        "Start 10:00 (in 50 min)",
    ] {
        assert!(on_board(&desk, line), "{line}");
    }
    pressed(&mut desk, "F2");
    assert!(shown(&desk, "weigh-in 08:00 to 09:30, start 10:00."));
    pressed(&mut desk, "F6");
    typed(&mut desk, "");
    assert!(!on_board(&desk, "Session 1"));
}

#[test]
fn one_key_gives_one_more_attempt_by_leave() {
    let roster =
        "lot,given,family,flight,back-squat\n3,Ana,Ruiz,A,100\n7,Bo,Lind,A,110\n";
    let mut desk = desk_with("leave", "Max day", "max-day", roster);
    let allowed = |desk: &Desk, number: u16| {
        let facts = desk.facts();
        let slot = &facts.slot("back-squat").unwrap().slot;
        facts.attempts_allowed(facts.numbers[&number], slot)
    };
    typed(&mut desk, "start back-squat A");
    // Nobody is in hand yet.
    pressed(&mut desk, "ctrl+e");
    assert!(desk.table().answer().unwrap().is_err());
    for line in ["3 100 w", "3 105 w", "3 110 r 1"] {
        typed(&mut desk, line);
    }
    assert!(shown(&desk, "Ctrl+E One more"));
    pressed(&mut desk, "ctrl+e");
    assert_eq!((allowed(&desk, 3), allowed(&desk, 7)), (4, 3));
    assert_eq!(
        desk.table().answer().unwrap(),
        &Ok("Entered: Lot 3, Ana Ruiz gets one more attempt by leave.".to_owned())
    );
    // The athlete called comes before the one ruled last.
    typed(&mut desk, "call 7");
    pressed(&mut desk, "ctrl+e");
    assert_eq!((allowed(&desk, 3), allowed(&desk, 7)), (4, 4));
    // An undo takes it back.
    pressed(&mut desk, "ctrl+z");
    pressed(&mut desk, "ctrl+z");
    assert_eq!((allowed(&desk, 3), allowed(&desk, 7)), (4, 3));

    // On a rack card it is the row in hand.
    typed(&mut desk, "7 pass");
    pressed(&mut desk, "ctrl+k");
    assert_eq!(desk.screen(), Some(ScreenId::Cards));
    let slot = desk.facts().slot("back-squat").unwrap().slot.clone();
    let card = cards::CardId {
        session: "1".to_owned(),
        flight: "A".to_owned(),
        slot,
    };
    let _ = desk.update(Message::Cards(cards::Message::Open(card)));
    pressed(&mut desk, "ctrl+e");
    assert_eq!((allowed(&desk, 3), allowed(&desk, 7)), (5, 3));

    // Where the queue is law the key only says how.
    let mut meet = lifters("no-leave");
    for line in ["", ""] {
        typed(&mut meet, line);
        later(&mut meet, 2);
    }
    pressed(&mut meet, "ctrl+e");
    assert_eq!(
        meet.table().answer().unwrap(),
        &Err(
            "Where the queue is law one more attempt needs its reason: type 4 extra and why."
                .to_owned()
        )
    );
    assert!(!shown(&meet, "Ctrl+E One more"));
}

/// Weightlifting gives start numbers after the weigh-in so that the order of
/// the lots is kept (a published guide to the athlete's card).
#[test]
fn start_numbers_are_given_at_the_scale_where_the_rules_have_them() {
    let mut desk = desk_support::desk_with_meet("numbers");
    pressed(&mut desk, "F4");
    assert_eq!(desk.screen(), Some(ScreenId::Scale));
    pressed(&mut desk, "ctrl+n");
    assert!(
        desk.said()
            .unwrap()
            .as_ref()
            .unwrap_err()
            .contains("the table number is the lot under these rules")
    );
    let start = vec![("table-number".to_owned(), "start".to_owned())];
    desk.effects_mut().submit(&Command::Set(start)).unwrap();
    let numbers = |desk: &Desk| desk.facts().numbers.keys().copied().collect::<Vec<_>>();
    pressed(&mut desk, "ctrl+n");
    assert_eq!(numbers(&desk), [3, 7, 12], "the first press only says what");
    assert!(shown(
        &desk,
        "Gives start numbers, session by session in the order of the lots. Ctrl+N again does \
         it; the Roster screen undoes it."
    ));
    pressed(&mut desk, "ctrl+n");
    assert_eq!(numbers(&desk), [1, 2, 3]);
    pressed(&mut desk, "F3");
    pressed(&mut desk, "ctrl+z");
    pressed(&mut desk, "ctrl+z");
    assert_eq!(numbers(&desk), [3, 7, 12]);
}

#[test]
fn a_new_day_offers_powerlifting_with_its_own_lifts_and_name() {
    let mut desk = empty_desk("power-new");
    let say = |desk: &mut Desk, m: form::Message| {
        let _ = desk.update(Message::First(first::Message::Form(m)));
    };
    say(&mut desk, form::Message::Entered);
    assert!(shown(&desk, "New day"));
    // Max day, weightlifting, powerlifting.
    for _ in 0..2 {
        say(&mut desk, form::Message::Turned(true));
    }
    assert!(shown(&desk, "back-squat, bench-press, deadlift"));
    assert!(shown(&desk, "Powerlifting meet"));
    for _ in 0..4 {
        say(&mut desk, form::Message::Entered);
    }
    say(&mut desk, form::Message::Entered);
    let facts = desk.facts();
    assert_eq!(facts.format, "powerlifting");
    assert_eq!(facts.name, "Powerlifting meet");
    assert_eq!(facts.rules.judges, 3);
    assert_eq!(facts.slots.len(), 3);
    assert_eq!(desk.screen(), Some(ScreenId::Roster));
    let file = desk.effects_mut().path().unwrap().to_owned();
    let file = file.file_name().unwrap().to_string_lossy().into_owned();
    assert_eq!(file, "Powerlifting meet 2026-11-21.maxday");
}

#[test]
fn the_sample_powerlifting_meet_opens_from_the_first_screen() {
    let mut desk = empty_desk("power-sample");
    let n = 20;
    let say = |desk: &mut Desk, m: form::Message| {
        let _ = desk.update(Message::First(first::Message::Form(m)));
    };
    // The last line of the list.
    say(&mut desk, form::Message::Moved(n));
    say(&mut desk, form::Message::Entered);
    assert_eq!(desk.facts().format, "powerlifting");
    assert_eq!(desk.screen(), Some(ScreenId::Table));
    assert!(desk.facts().platforms[0].running.is_some());
}

#[test]
fn standings_go_round_to_the_teams_and_note_guests() {
    let roster =
        "lot,given,family,sex,flight,team,bodyweight,guest,back-squat,bench-press,deadlift
4,Ida,Storm,F,A,Larks,56.2,,100,60,120
9,Ola,Brandt,F,A,Herons,57.2,,102.5,57.5,122.5
2,Una,Falk,F,A,,56,yes,110,65,140
";
    let mut desk = desk_with("power-teams", "Meet of three", "powerlifting", roster);
    for flight in 0..3 {
        assert!(!run(&mut desk, &[]).is_empty(), "{flight}");
    }
    pressed(&mut desk, "F7");
    assert!(shown(&desk, "By category"));
    assert!(shown(&desk, "guest"));
    // Three lifts are wide: the total is in sight all the same.
    assert!(shown(&desk, "Total") && shown(&desk, "Deadlift"));
    let mut ui = Simulator::with_size(settings(), SMALL, desk.main());
    let total = ui.find("Total").unwrap().visible_bounds().unwrap();
    assert!(total.x + total.width <= SMALL.width, "{total:?}");
    drop(ui);
    for _ in 0..3 {
        pressed(&mut desk, "ctrl+t");
    }
    assert!(shown(&desk, "Teams"));
    assert!(shown(&desk, "Larks") && shown(&desk, "Herons: Ola Brandt (12)."));
    assert!(shown(&desk, "Herons"));
    // The score of the sport; its number stands where bodyweights may be posted.
    // Three good lifts each, so 297.5 kg at 57.2 kg: 69.60 (IPF GL points of 2020, worked out apart).
    pressed(&mut desk, "ctrl+t");
    assert!(shown(&desk, "By score: IPF GL points"));
    assert!(shown(&desk, "69.60"));
    pressed(&mut desk, "ctrl+t");
    assert!(shown(&desk, "By category"));
}
