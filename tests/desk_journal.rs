//! The journal on the screen: filters, and a correction whose preview names
//! bests, records, places and queues before it is entered.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_with, later, pressed, settings, typed};
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

/// In the middle of an attempt of a meet: lot 3 was called, and ruled half a minute
/// later.
fn ruled(name: &str) -> Desk {
    let mut desk = desk_with(name, "Lifters", "powerlifting", ROSTER);
    for line in ["start back-squat A", "call"] {
        typed(&mut desk, line);
    }
    later(&mut desk, 25);
    typed(&mut desk, "www");
    desk
}

#[test]
fn a_ruling_that_is_annulled_gives_the_clock_back_as_it_stood() {
    let clock = |desk: &Desk| desk.facts().platforms[0].call.as_ref().unwrap().clock;
    let mut undone = ruled("journal-undone");
    for _ in 0..2 {
        pressed(&mut undone, "ctrl+z");
    }
    let left = clock(&undone).unwrap();
    assert!(!left.runs());

    let mut desk = ruled("journal-annulled");
    later(&mut desk, 600);
    pressed(&mut desk, "F9");
    journal(&mut desk, "annul lights of the other platform");
    enter(&mut desk);
    assert!(shown(
        &desk,
        "Annuls: lot 3, Ana Ruiz, back squat attempt 1 at 100 kg: good lift; lights of the \
         other platform. The call stands again, with its clock stopped at 0:34. Ctrl+D or \
         Enter again does it."
    ));
    enter(&mut desk);
    let now = clock(&desk).unwrap();
    assert_eq!((now.left, now.anchor), (left.left, None));
    // The row says what became of it, and why.
    assert!(shown(
        &desk,
        "annulled: lot 3, Ana Ruiz, back squat attempt 1 at 100 kg: good lift; lights of the \
         other platform"
    ));
    assert!(shown(&desk, "annulled at 09:10 by table"));
}

#[test]
fn what_became_of_a_row_and_its_lights_are_shown_in_it() {
    let mut desk = lifted("journal-marks");
    pressed(&mut desk, "F9");
    assert!(shown(
        &desk,
        "lot 3, Ana Ruiz, back squat attempt 3 at 108 kg: good lift; lights www"
    ));
    journal(&mut desk, "3 lights");
    enter(&mut desk);
    journal(&mut desk, "wrr deep");
    enter(&mut desk);
    enter(&mut desk);
    assert!(shown(&desk, "corrected at 09:00 by table"));
    journal(&mut desk, "only correct");
    let fault = maxday::lift::catalogue().fault("not-deep-enough").unwrap();
    let corrected = format!(
        "corrected: lot 3, Ana Ruiz, back squat attempt 3: no lift instead of good lift, \
         lights wrr instead of www, reason {}",
        fault.text
    );
    // It has no room in its row, so it is told in full below while it is in hand.
    journal(&mut desk, "");
    pressed(&mut desk, "Esc");
    assert!(
        shown(&desk, &format!("C{}.", &corrected[1..])),
        "{corrected}"
    );
}
