//! The scale on the screen, as the official sees it.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use desk_support::{desk_with, pressed, settings};
use iced::{Rectangle, Size};
use iced_test::Simulator;
use maxday::day::Command;
use maxday::desk::app::{Desk, Message};
use maxday::roster::Change;

/// A window on a screen of 1366 by 768.
const SMALL: Size = Size::new(1366.0, 740.0);
/// Type that is read from a distance is at least so high.
const LARGE: f32 = 24.0;

/// Invented athletes, with openers that are odd in several ways.
const ROSTER: &str = "lot,given,family,sex,born,team,flight,session,entry total,snatch,\
clean-and-jerk,clean-and-jerk last,grip snatch
3,Ana,Ruiz,F,2009-03-01,Larks,A,1,120,50,62,,820
7,Anouk,Lindqvarn,F,2009-03-01,Larks,A,1,150,55,,60,
12,Cy,Marsh,F,2009-03-01,Herons,A,1,,61,70,,
41,Inés,Arrecife,F,2009-03-01,Herons,A,1,,61,70,,
";

fn at_the_scale(name: &str) -> Desk {
    let mut desk = desk_with(name, "Four of them", "weightlifting", ROSTER);
    let set = Command::Set(vec![("categories".into(), "iwf-2026".into())]);
    desk.effects_mut().submit(&set).unwrap();
    pressed(&mut desk, "F4");
    desk
}

/// Presses one key for each character; `|` is Enter.
fn keys(desk: &mut Desk, script: &str) {
    for letter in script.chars() {
        match letter {
            '|' => pressed(desk, "Enter"),
            letter => pressed(desk, &letter.to_string()),
        }
    }
}

/// Where some words are wholly in sight.
fn seen(desk: &Desk, words: &str) -> Option<Rectangle> {
    let mut ui: Simulator<'_, Message> =
        Simulator::with_size(settings(), SMALL, desk.main());
    let found = ui.find(words).ok()?;
    let (all, seen) = (found.bounds(), found.visible_bounds()?);
    let same = |a: f32, b: f32| (a - b).abs() < 0.01;
    let whole = same(all.width, seen.width) && same(all.height, seen.height);
    let inside = all.x + all.width <= SMALL.width && all.y + all.height <= SMALL.height;
    (whole && inside).then_some(all)
}

#[track_caller]
fn large(desk: &Desk, words: &str) {
    match seen(desk, words) {
        Some(place) => assert!(place.height >= LARGE, "{words}: {place:?}"),
        None => panic!("not in sight: {words}"),
    }
}

#[test]
fn the_athlete_in_hand_is_in_sight_in_large_type() {
    let mut desk = at_the_scale("scale-hand");
    keys(&mut desk, "7|");
    large(&desk, "Anouk Lindqvarn");
    large(&desk, "Category: not weighed yet");
    large(&desk, "Owed: bodyweight, opener in clean and jerk.");
    large(&desk, "4 of 4 still to weigh");
    assert!(seen(&desk, "F, Larks, entry total 150 kg, flight A").is_some());
    keys(&mut desk, "61.4");
    large(&desk, "Category F 69");
    large(&desk, "0.4 kg over 61");
    large(&desk, "7.6 kg under its limit");
    large(&desk, "135.4 lb");
    large(&desk, "Owed: opener in clean and jerk.");
    // Nothing is weighed before Enter.
    large(&desk, "4 of 4 still to weigh");
    keys(&mut desk, "|");
    large(&desk, "3 of 4 still to weigh");
    assert!(seen(&desk, "Lot 3, 12, 41").is_some());
    keys(&mut desk, "73|");
    large(&desk, "Nothing is owed.");
    // The next in the order of the lots, round to the first.
    keys(&mut desk, "||");
    large(&desk, "Cy Marsh");
}

#[test]
fn those_who_may_be_meant_are_in_sight() {
    let mut desk = at_the_scale("scale-candidates");
    keys(&mut desk, "an");
    for words in ["2 begin with “an”", "3  Ana Ruiz", "7  Anouk Lindqvarn"] {
        large(&desk, words);
    }
    keys(&mut desk, "|");
    large(&desk, "2 begin with “an”");
    pressed(&mut desk, "Down");
    pressed(&mut desk, "Down");
    assert!(seen(&desk, "Enter goes to lot 7, Anouk Lindqvarn.").is_some());
    keys(&mut desk, "|");
    large(&desk, "Anouk Lindqvarn");
    pressed(&mut desk, "Esc");
    // Marks needn't be typed.
    keys(&mut desk, "ines");
    large(&desk, "Inés Arrecife");
    pressed(&mut desk, "Esc");
    keys(&mut desk, "62.4|");
    large(&desk, "Nobody begins with “62.4”");
    let told = "No lot is “62.4” and no name begins with it. Esc clears it; new athletes \
                are entered on the roster, F3.";
    assert!(seen(&desk, told).is_some());
}

#[test]
fn openers_are_judged_in_sight_as_they_are_typed() {
    let mut desk = at_the_scale("scale-openers");
    keys(&mut desk, "7|61|");
    for (typed, said) in [
        (
            "10",
            "The opener 10 kg in the clean and jerk is less than the empty bar for girls and \
             women, 20 kg. The openers add up to 65 kg; with an entry total of 150 kg they \
             need 130 kg or more.",
        ),
        (
            "70.5",
            "The opener 70.5 kg in the clean and jerk is not a multiple of 1 kg; the nearest \
             are 70 kg and 71 kg. The openers add up to 125.5 kg; with an entry total of 150 \
             kg they need 130 kg or more.",
        ),
    ] {
        keys(&mut desk, typed);
        let line = desk.at_scale().line(desk.facts());
        let begins = format!(
            "Enter records {typed} as the opener in clean and jerk of lot 7, Anouk Lindqvarn. "
        );
        assert_eq!(line, begins + said);
        assert!(seen(&desk, &line).is_some(), "{line}");
        pressed(&mut desk, "Esc");
    }
    // What was taken nevertheless is said for as long as it stands.
    keys(&mut desk, "70.5|");
    let odd = "The opener 70.5 kg in the clean and jerk is not a multiple of 1 kg; the \
               nearest are 70 kg and 71 kg. The openers add up to 125.5 kg; with an entry \
               total of 150 kg they need 130 kg or more.";
    assert!(seen(&desk, odd).is_some());
}

#[test]
fn wrong_input_stays_typed_with_one_sentence() {
    let mut desk = at_the_scale("scale-wrong");
    let before = desk.facts().entries.clone();
    keys(&mut desk, "7|624|");
    large(&desk, "624");
    let told = "“624” is no bodyweight; it must lie between 15 kg and 300 kg.";
    assert!(seen(&desk, told).is_some());
    assert_eq!(desk.facts().entries, before);
    pressed(&mut desk, "Esc");
    // A grip wider than the bar between its sleeves: 1,310 mm (IWF TCRR, from
    // memory).
    pressed(&mut desk, "End");
    keys(&mut desk, "1400");
    let told =
        "1400 mm is wider than the bar between its sleeves; at most 1310 mm is possible.";
    assert!(seen(&desk, told).is_some());
    keys(&mut desk, "|");
    large(&desk, "1400");
    assert!(seen(&desk, told).is_some());
    assert_eq!(desk.facts().entries, before);
}

#[test]
fn an_athlete_of_another_category_than_entered_is_said() {
    let mut desk = at_the_scale("scale-entered");
    let changes = vec![Change::Category("F 61".into())];
    let edit = Command::Edit { number: 3, changes };
    desk.effects_mut().submit(&edit).unwrap();
    keys(&mut desk, "3|61|");
    large(&desk, "exactly at its limit");
    assert!(seen(&desk, "Entered for F 61.").is_none());
    pressed(&mut desk, "Esc");
    keys(&mut desk, "3|61.01|");
    large(&desk, "Category F 69");
    large(&desk, "0.01 kg over 61");
    assert!(seen(&desk, "Entered for F 61.").is_some());
}

#[test]
fn a_lift_that_is_not_cleared_is_said_once() {
    let mut desk = at_the_scale("scale-cleared");
    keys(&mut desk, "3|61|");
    for _ in 0..2 {
        pressed(&mut desk, "Right");
    }
    keys(&mut desk, "no|");
    assert!(seen(&desk, "Not cleared today: snatch, clean and jerk.").is_some());
    pressed(&mut desk, "Esc");
    keys(&mut desk, "3||52");
    let line = desk.at_scale().line(desk.facts());
    let told = "Enter records 52 in place of 50 as the opener in snatch of lot 3, Ana Ruiz. \
                The lift is not cleared today.";
    assert_eq!(line, told);
}

#[test]
fn an_enter_that_is_held_down_does_nothing_twice() {
    let mut desk = at_the_scale("scale-held");
    keys(&mut desk, "7|61|");
    let mut held = desk_support::press("Enter");
    held.repeat = true;
    let line = desk.at_scale().line(desk.facts());
    for _ in 0..3 {
        let window = iced::window::Id::unique();
        let _ = desk.update(Message::Pressed(window, held.clone()));
    }
    assert_eq!(desk.at_scale().line(desk.facts()), line);
    // Nor does it in the text field of the window.
    let enter = |repeat| {
        let enter = iced::keyboard::Key::Named(iced::keyboard::key::Named::Enter);
        iced::Event::Keyboard(iced::keyboard::Event::KeyPressed {
            key: enter.clone(),
            modified_key: enter,
            physical_key: iced::keyboard::key::Physical::Code(
                iced::keyboard::key::Code::Enter,
            ),
            location: iced::keyboard::Location::Standard,
            modifiers: iced::keyboard::Modifiers::empty(),
            text: None,
            repeat,
        })
    };
    let taken = |repeat| -> usize {
        let mut ui = Simulator::with_size(settings(), SMALL, desk.main());
        let field = iced_test::selector::id(maxday::desk::screen::scale::FIELD);
        let _ = ui.click(field).unwrap();
        let _ = ui.simulate([enter(repeat)]);
        ui.into_messages().count()
    };
    assert_eq!(taken(false), taken(true) + 1);
}
