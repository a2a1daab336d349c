//! The clock's marks: shown on the table, and sounded once where that is on.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_with_meet, later, pressed, settings, typed};
use iced::Size;
use iced_test::Simulator;
use maxday::desk::app::Desk;
use maxday::sheets::ClockMark;

fn shown(desk: &Desk, words: &str) -> bool {
    let size = Size::new(1366.0, 740.0);
    let mut ui = Simulator::with_size(settings(), size, desk.main());
    ui.find(words).is_ok()
}

/// Weightlifting: 60 s for an attempt, the final call with 30 s left (the
/// rules files name their source).
#[test]
fn the_final_call_is_shown_and_sounded_once() {
    let mut desk = desk_with_meet("marks");
    typed(&mut desk, "");
    typed(&mut desk, "");
    assert!(shown(&desk, "Clock runs"));
    later(&mut desk, 25);
    assert!(desk.marks().sounded().is_empty());
    assert!(!shown(&desk, "Clock runs: final call"));
    later(&mut desk, 8);
    assert_eq!(desk.marks().sounded(), [ClockMark::FinalCall]);
    assert!(shown(&desk, "Clock runs: final call"));
    later(&mut desk, 1);
    assert_eq!(desk.marks().sounded().len(), 1);
    later(&mut desk, 40);
    assert_eq!(
        desk.marks().sounded(),
        [ClockMark::FinalCall, ClockMark::Up]
    );
    assert!(shown(&desk, "Clock time is up; rule it: time"));
}

#[test]
fn a_key_turns_the_tones_off_and_the_table_shows_the_mark_all_the_same() {
    let mut desk = desk_with_meet("marks-off");
    pressed(&mut desk, "ctrl+m");
    assert!(shown(
        &desk,
        "Tones are off; the table shows the final call. Ctrl+M turns them on."
    ));
    typed(&mut desk, "");
    typed(&mut desk, "");
    later(&mut desk, 20);
    later(&mut desk, 15);
    assert!(shown(&desk, "Clock runs: final call"));
    assert!(desk.marks().sounded().is_empty());
    // Turning them on makes one at once, to be heard.
    pressed(&mut desk, "ctrl+m");
    assert_eq!(desk.marks().sounded(), [ClockMark::FinalCall]);
}
