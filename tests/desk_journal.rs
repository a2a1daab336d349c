//! The journal on the screen: filters, and a correction whose preview names
//! bests, records, places and queues before it is entered.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_with, pressed, settings, typed};
use iced::Size;
use iced_test::Simulator;
use maxday::desk::app::{Desk, Message};
use maxday::desk::screen::journal::Message as Journal;
use maxday::sheets::changes;

const ROSTER: &str =
    "lot,given,family,sex,team,flight,session,bodyweight,back-squat,bench-press,deadlift
3,Ana,Ruiz,F,Larks,A,1,56,100,50,110
7,Bo,Lind,F,Herons,A,1,56.5,105,55,120
";

fn shown(desk: &Desk, words: &str) -> bool {
    let size = Size::new(1366.0, 740.0);
    let mut ui = Simulator::with_size(settings(), size, desk.main());
    ui.find(words).is_ok()
}

fn journal(desk: &mut Desk, text: &str) {
    let _ = desk.update(Message::Journal(Journal::Typed(text.into())));
}

fn enter(desk: &mut Desk) {
    let _ = desk.update(Message::Journal(Journal::Entered));
}

/// A squat in which lot 3 made a record in the last attempt.
fn lifted(name: &str) -> Desk {
    let mut desk = desk_with(name, "Lifters", "powerlifting", ROSTER);
    for line in [
        "start back-squat A",
        "call",
        "www",
        "102.5",
        "call",
        "www",
        "107.5",
        "call",
        "www",
        "3 108 record",
        "call",
        "www",
        "7 110",
        "call",
        "www",
    ] {
        typed(&mut desk, line);
        let answer = desk.table().answer().cloned();
        assert!(!matches!(answer, Some(Err(_))), "{line}: {answer:?}");
    }
    desk
}

/// Goes to the last ruling of lot 3 and asks what a no lift would change.
fn previewed(desk: &mut Desk) {
    pressed(desk, "F9");
    journal(desk, "3 lights");
    assert!(shown(
        desk,
        "Shows only acts “lights” about lot 3; Enter keeps that, Esc shows all."
    ));
    enter(desk);
    journal(desk, "ruling=no; reason=video");
    enter(desk);
}

#[test]
fn a_ruling_is_found_corrected_and_all_that_changes_is_named() {
    let mut done = lifted("journal-done");
    let before = done.facts().clone();
    previewed(&mut done);
    assert_eq!(done.facts().runs, before.runs);
    enter(&mut done);
    let list = changes(&before, done.facts());
    for change in [
        "lot 3 best in back squat: 102.5 kg instead of 108 kg",
        "lot 3 record in back squat, attempt 3: 108 kg not made instead of 108 kg made",
        "lot 7 place in back squat: 1 instead of 2",
    ] {
        assert!(list.contains(&change.to_owned()), "{change}: {list:#?}");
    }

    let mut desk = lifted("journal-preview");
    previewed(&mut desk);
    assert!(shown(&desk, "What would change"));
    for change in list.iter().take(7) {
        let mut letters = change.chars();
        let first = letters.next().unwrap().to_uppercase().to_string();
        let line = format!("{first}{}.", letters.as_str());
        assert!(shown(&desk, &line), "{line}");
    }
    pressed(&mut desk, "Esc");
    assert!(!shown(&desk, "What would change"));
}
