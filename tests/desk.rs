//! The desk without its windows: keys, the call line's flow, and every
//! screen shown and typed into.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_with_meet, press, pressed, settings, typed};
use iced::Size;
use iced::keyboard::key::Named;
use iced_test::Simulator;
use maxday::desk::action::{ACTIONS, Action, Place, of_press};
use maxday::desk::app::{Desk, Message};
use maxday::desk::keys::Chord;
use maxday::desk::screen::ScreenId;

const SMALL: Size = Size::new(1366.0, 740.0);

fn all_places() -> Vec<Option<ScreenId>> {
    let mut places: Vec<Option<ScreenId>> = ScreenId::ALL.map(Some).to_vec();
    places.push(Some(ScreenId::Cards));
    places.push(None);
    places
}

#[test]
fn no_key_means_two_things_in_one_place() {
    for place in all_places() {
        let mut seen: Vec<(Chord, Action)> = Vec::new();
        for row in ACTIONS.iter().filter(|r| r.place.holds(place)) {
            let Some(key) = row.key else { continue };
            let twice = seen.iter().find(|(k, _)| *k == key);
            assert!(
                twice.is_none(),
                "{key} twice on {place:?}: {twice:?}, {:?}",
                row.action
            );
            seen.push((key, row.action));
        }
    }
}

#[test]
fn every_action_has_a_key_or_a_reason() {
    for row in ACTIONS {
        assert!(!row.label.is_empty(), "{:?}", row.action);
        assert_eq!(
            row.key.is_none(),
            !row.no_key.is_empty(),
            "{:?}",
            row.action
        );
    }
    for screen in ScreenId::ALL {
        assert!(ACTIONS.iter().any(|r| r.action == Action::Show(screen)));
    }
}

#[test]
fn a_text_field_keeps_none_of_the_keys() {
    // A focused field takes printable text, and Ctrl with A, C, V and X.
    for row in ACTIONS {
        if let Some(Chord::Ctrl(letter)) = row.key {
            assert!(!"acvx".contains(letter), "{:?}", row.action);
            assert!(letter.is_ascii_lowercase());
        }
    }
}

#[test]
fn presses_find_their_actions() {
    let table = Some(ScreenId::Table);
    let of = |name: &str, screen| of_press(&press(name), screen);
    assert_eq!(of("F6", None), None);
    assert_eq!(of("F6", table), Some(Action::Show(ScreenId::Table)));
    assert_eq!(of("F1", None), Some(Action::Help));
    assert_eq!(of("ctrl+g", table), Some(Action::AllWhite));
    assert_eq!(of("ctrl+g", Some(ScreenId::Papers)), None);
    assert_eq!(of("g", table), None);
    assert_eq!(of("Esc", table), Some(Action::Escape));
    assert!(Place::Everywhere.holds(None));
}

fn shown(desk: &Desk, words: &str) -> bool {
    let mut ui = Simulator::with_size(settings(), SMALL, desk.main());
    ui.find(words).is_ok()
}

#[test]
fn the_table_runs_a_lift_from_the_line() {
    let mut desk = desk_with_meet("lift");
    assert_eq!(desk.screen(), Some(ScreenId::Table));
    // Nothing runs: an empty line starts the first lift.
    let promise = desk.table().promise().unwrap().clone();
    assert_eq!(
        promise,
        Ok("Starts snatch for flight 1/A on platform 1.".to_owned())
    );
    typed(&mut desk, "");
    let promise = desk.table().promise().unwrap().clone();
    assert_eq!(
        promise,
        Ok("Calls lot 3, Ana Ruiz, attempt 1 at 50 kg.".to_owned())
    );
    typed(&mut desk, "");
    assert!(shown(&desk, "Called"));
    assert!(shown(&desk, "Ana Ruiz"));
    assert!(shown(&desk, "110.2 lb"));
    assert!(shown(&desk, "1:00"));
    // A refusal keeps the text.
    typed(&mut desk, "ww");
    assert_eq!(desk.table().line(), "ww");
    assert!(desk.table().answer().unwrap().is_err());
    desk_support::line(&mut desk, "");
    typed(&mut desk, "wwr");
    assert_eq!(desk.table().line(), "");
    assert!(shown(&desk, "Good lift"));
    // The lights stay for some seconds, then the next is shown.
    desk_support::later(&mut desk, 9);
    assert!(!shown(&desk, "Good lift"));
    // The athlete who was ruled owes the declaration: a bare load is it.
    typed(&mut desk, "53");
    assert_eq!(desk.table().line(), "");
    let owed = desk.table().answer().unwrap().clone().unwrap();
    assert!(owed.contains("asks for 53 kg"), "{owed}");
}

#[test]
fn a_key_held_down_calls_nobody() {
    let mut desk = desk_with_meet("held");
    typed(&mut desk, "");
    let _ = desk.update(Message::Table(
        maxday::desk::screen::table::Message::Entered,
    ));
    assert!(desk.facts().platforms[0].call.is_none());
}

#[test]
fn undo_shows_first_and_never_while_something_is_typed() {
    let mut desk = desk_with_meet("undo");
    typed(&mut desk, "");
    desk_support::line(&mut desk, "12");
    pressed(&mut desk, "ctrl+z");
    assert!(desk.table().answer().unwrap().is_err());
    assert!(desk.facts().platforms[0].running.is_some());
    pressed(&mut desk, "Esc");
    pressed(&mut desk, "ctrl+z");
    let told = desk.table().answer().unwrap().clone().unwrap();
    assert!(
        told.starts_with("Would take back: start of snatch"),
        "{told}"
    );
    assert!(desk.facts().platforms[0].running.is_some());
    // Another key between the two takes the readiness away.
    pressed(&mut desk, "F9");
    pressed(&mut desk, "F6");
    pressed(&mut desk, "ctrl+z");
    assert!(desk.facts().platforms[0].running.is_some());
    pressed(&mut desk, "ctrl+z");
    assert!(desk.facts().platforms[0].running.is_none());
    // What was taken back is said, and the key that brings it again.
    let told = desk.table().answer().unwrap().clone().unwrap();
    assert_eq!(
        told,
        "Taken back: start of snatch for flight 1/A. Ctrl+Y brings it again."
    );
    pressed(&mut desk, "ctrl+y");
    pressed(&mut desk, "ctrl+y");
    let told = desk.table().answer().unwrap().clone().unwrap();
    assert_eq!(
        told,
        "Brought back: start of snatch for flight 1/A. Ctrl+Z takes it back again."
    );
    assert!(desk.facts().platforms[0].running.is_some());
}

#[test]
fn keys_call_stop_the_clock_and_give_lights() {
    let mut desk = desk_with_meet("keys");
    typed(&mut desk, "");
    pressed(&mut desk, "F10");
    let clock = |d: &Desk| d.facts().platforms[0].call.as_ref().unwrap().clock.unwrap();
    assert!(clock(&desk).runs());
    pressed(&mut desk, "F10");
    assert!(!clock(&desk).runs());
    pressed(&mut desk, "F10");
    assert!(clock(&desk).runs());
    pressed(&mut desk, "ctrl+r");
    assert!(desk.facts().platforms[0].call.is_none());
    assert!(shown(&desk, "No lift"));
}

#[test]
fn every_screen_shows() {
    let mut desk = desk_with_meet("screens");
    for (key, words) in [
        ("F2", "Label of platform 1"),
        ("F7", "By category"),
        ("F8", "Write all papers"),
        ("F9", "By"),
        ("F6", "Call line"),
    ] {
        pressed(&mut desk, key);
        assert!(shown(&desk, words), "{key}: {words}");
    }
    for key in ["F3", "F4", "F5", "ctrl+k"] {
        pressed(&mut desk, key);
        let _ = Simulator::<Message>::with_size(settings(), SMALL, desk.main());
    }
    pressed(&mut desk, "F1");
    assert!(shown(&desk, "The call line"));
    pressed(&mut desk, "F1");
    let mut board: Simulator<'_, Message> =
        Simulator::with_size(settings(), Size::new(1920.0, 1080.0), desk.board());
    assert!(board.find("Next").is_ok());
}

#[test]
fn the_call_line_is_typed_into() {
    let desk = desk_with_meet("typing");
    let mut ui = Simulator::with_size(settings(), SMALL, desk.main());
    let _ = ui
        .click(iced_test::selector::id(
            maxday::desk::screen::table::CALL_LINE,
        ))
        .unwrap();
    let _ = ui.typewrite("3 55");
    let _ = ui.tap_key(Named::Enter);
    let messages: Vec<Message> = ui.into_messages().collect();
    assert!(matches!(
        messages.last(),
        Some(Message::Table(
            maxday::desk::screen::table::Message::Entered
        ))
    ));
}

#[test]
fn a_setting_is_changed_and_a_wrong_one_is_kept_typed() {
    use maxday::desk::screen::day::Message as Day;
    use maxday::desk::widget::form::Message as Form;
    let mut desk = desk_with_meet("settings");
    pressed(&mut desk, "F2");
    let say = |desk: &mut Desk, m: Form| {
        let _ = desk.update(Message::Day(Day::Form(m)));
    };
    say(&mut desk, Form::Typed("Autumn meet".into()));
    say(&mut desk, Form::Entered);
    assert_eq!(desk.facts().name, "Autumn meet");
    say(&mut desk, Form::Typed("tomorrow".into()));
    say(&mut desk, Form::Entered);
    assert!(shown(&desk, "tomorrow"));
    assert!(shown(
        &desk,
        "“tomorrow” is no date; write it as 2026-11-17."
    ));
}

#[test]
fn an_annulment_is_previewed() {
    use maxday::desk::screen::journal::Message as Journal;
    let mut desk = desk_with_meet("annul");
    for line in ["", "", "www"] {
        desk_support::later(&mut desk, 2);
        typed(&mut desk, line);
    }
    pressed(&mut desk, "F9");
    pressed(&mut desk, "ctrl+d");
    let best = |d: &Desk| {
        let entry = d.facts().entry_by_number(3).unwrap();
        d.facts()
            .best(entry.key, &d.facts().slots[0].slot)
            .is_some()
    };
    assert!(best(&desk));
    let told = "Annuls: lot 3, Ana Ruiz, snatch attempt 1 at 50 kg: good lift. The call stands \
                again, with its clock stopped at 0:57. Ctrl+D or Enter again does it.";
    assert!(shown(&desk, told));
    for change in [
        "What would change",
        "Lot 3 best in snatch: nothing instead of 50 kg.",
        "Lot 3 place in snatch: nothing instead of 1.",
        "Queue of platform 1: lot 3 attempt 1 at 50 kg instead of lot 3 attempt 2 at 51 kg.",
    ] {
        assert!(shown(&desk, change), "{change}");
    }
    pressed(&mut desk, "ctrl+d");
    assert!(!best(&desk));
    let _ = desk.update(Message::Journal(Journal::Typed("3".into())));
    assert!(shown(
        &desk,
        "Shows only acts about lot 3; Enter keeps that, Esc shows all."
    ));
}

#[test]
fn a_clock_that_ran_stands_when_the_file_is_opened_again() {
    let mut desk = desk_with_meet("reopened");
    for line in ["", ""] {
        desk_support::later(&mut desk, 2);
        typed(&mut desk, line);
    }
    desk_support::later(&mut desk, 10);
    let path = desk.effects_mut().path().unwrap().to_owned();
    drop(desk);
    let again = desk_support::desk_on(&path);
    let clock = again.facts().platforms[0]
        .call
        .as_ref()
        .unwrap()
        .clock
        .unwrap();
    assert!(!clock.runs());
    assert_eq!(clock.left, 50_000);
}

#[test]
fn the_first_screen_makes_a_day() {
    use maxday::desk::screen::first::Message as First;
    use maxday::desk::widget::form::Message as Form;
    let mut desk = desk_support::empty_desk("first");
    assert_eq!(desk.screen(), None);
    assert!(shown(&desk, "New day"));
    pressed(&mut desk, "Enter");
    assert!(shown(&desk, "Kind of day"));
    // Four choices, each as it stands, and the day is made.
    for _ in 0..4 {
        let _ = desk.update(Message::First(First::Form(Form::Entered)));
        assert_eq!(desk.screen(), None);
    }
    pressed(&mut desk, "Enter");
    assert_eq!(desk.screen(), Some(ScreenId::Roster));
    assert_eq!(desk.facts().name, "Max day");
    let said = desk.said().unwrap().clone().unwrap();
    assert!(said.starts_with("The day is made and kept in "), "{said}");
    assert!(said.ends_with("F2 Day has its settings."), "{said}");
    // The same once more: the file of the first is left as it is.
    pressed(&mut desk, "ctrl+o");
    pressed(&mut desk, "ctrl+n");
    for _ in 0..5 {
        let _ = desk.update(Message::First(First::Form(Form::Entered)));
    }
    let file = desk.effects_mut().path().unwrap().to_owned();
    assert!(file.ends_with("Max day 2026-11-21 2.maxday"), "{file:?}");
}

#[test]
fn the_board_obeys_the_posting_policy() {
    use maxday::day::Command;
    let mut desk = desk_with_meet("posting");
    for line in ["", ""] {
        typed(&mut desk, line);
    }
    let says = |desk: &Desk, words: &str| {
        let mut ui: Simulator<'_, Message> =
            Simulator::with_size(settings(), Size::new(1280.0, 720.0), desk.board());
        ui.find(words).is_ok()
    };
    assert!(says(&desk, "Ana Ruiz"));
    for (policy, name) in [("initial", "Ana R."), ("number", "No. 3")] {
        let set = Command::Set(vec![("posting-name".into(), policy.into())]);
        desk.effects_mut().submit(&set).unwrap();
        assert!(says(&desk, name), "{policy}");
        assert!(!says(&desk, "Ana Ruiz"));
    }
}

#[test]
fn a_dropped_roster_is_imported_and_a_dropped_day_is_opened() {
    let mut desk = desk_with_meet("dropped");
    let folder = desk_support::folder("dropped-roster");
    let roster = folder.join("late.csv");
    std::fs::write(&roster, "lot,name,flight\n40,Eve Novak,A\n").unwrap();
    let _ = desk.update(Message::Dropped(roster));
    assert_eq!(desk.screen(), Some(ScreenId::Roster));
    assert!(desk.facts().entry_by_number(40).is_some());
    let workbook = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/spreadsheets/roster.xlsx"
    );
    let _ = desk.update(Message::Dropped(workbook.into()));
    let named = |family: &str| desk.facts().entries.values().any(|e| e.family == family);
    assert!(named("Tolland") && named("Novak"));
    let other = desk_with_meet("dropped-day");
    let mut other = other;
    let path = other.effects_mut().path().unwrap().to_owned();
    drop(other);
    let _ = desk.update(Message::Dropped(path));
    assert!(desk.facts().entry_by_number(40).is_none());
}

#[test]
fn a_request_that_hands_the_turn_over_says_so_first() {
    let mut desk = desk_with_meet("turn");
    typed(&mut desk, "");
    typed(&mut desk, "");
    desk_support::later(&mut desk, 5);
    // Lot 3 is called at 50 and asks for 57: lot 7, at 55, is first then.
    desk_support::line(&mut desk, "3 57");
    let promise = desk.table().promise().unwrap().clone().unwrap();
    assert!(
        promise.ends_with("The call ends: somebody else is first then."),
        "{promise}"
    );
    let _ = desk.update(Message::Table(
        maxday::desk::screen::table::Message::Entered,
    ));
    assert!(desk.facts().platforms[0].call.is_none());
}
