//! Rack cards at the desk, end to end through the file: cells pasted from the
//! clipboard, what differs, and all cards by key.

// Helpers of tests may stop at the first thing that isn't as it should be.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use iced::keyboard::{self, Key, Modifiers};
use iced::{Event, Size};
use iced_test::core::renderer::Headless;
use iced_test::core::widget::operation;
use iced_test::core::{clipboard, mouse};
use iced_test::futures::futures::executor::block_on;
use iced_test::renderer::Renderer;
use iced_test::runtime::user_interface::{Cache, UserInterface};
use iced_test::simulator::Simulator;

use maxday::day::Day;
use maxday::desk::app::{Desk, Message};
use maxday::desk::screen::ScreenId;
use maxday::desk::screen::cards;
use maxday::desk::widget::grid;
use maxday::file::Live;

mod desk_support;
use desk_support::{desk_of, later, pressed, settings};

const ROSTER: &str = "lot,given,family,sex,flight,platform,power-clean
4,Ann,Oru,F,A,1,40
7,Bea,Lund,F,A,1,45
9,Cleo,Marsh,F,A,1,50
12,Dana,Quill,F,B,2,55
";

/// A max day with two racks, on the first card.
fn desk(name: &str) -> Desk {
    let mut desk = desk_of(name, "Max day of four", "max-day", Some(2), ROSTER);
    pressed(&mut desk, "ctrl+k");
    assert_eq!(desk.screen(), Some(ScreenId::Cards));
    desk
}

fn given(desk: &mut Desk, message: cards::Message) {
    later(desk, 1);
    let _ = desk.update(Message::Cards(message));
}

fn key(desk: &mut Desk, key: grid::Key) {
    given(desk, cards::Message::Grid(grid::Event::Pressed(key, 10)));
}

fn paste(desk: &mut Desk, text: &str) {
    given(
        desk,
        cards::Message::Grid(grid::Event::Pasted(text.to_owned())),
    );
}

fn shown(desk: &Desk, words: &str) -> bool {
    let mut simulator = Simulator::with_size(settings(), (1366.0, 690.0), desk.main());
    simulator.find(words).is_ok()
}

/// What stands of a lot in the file, which is read anew.
fn stored(desk: &mut Desk, number: u16) -> Vec<String> {
    let path = desk.effects_mut().path().unwrap().to_owned();
    let live = Live::open_read(&path).unwrap();
    rulings(live.day(), number)
}

fn rulings(day: &Day, number: u16) -> Vec<String> {
    let facts = day.facts();
    let entry = facts.entry_by_number(number).unwrap();
    let Some(run) = facts.run(entry.key, &facts.slots[0].slot) else {
        return Vec::new();
    };
    let ruled = run.attempts.values().filter_map(|a| a.ruled.as_ref());
    ruled
        .map(|r| {
            let load = r.fact.credited.as_ref().map(|w| w.show(facts.bar_unit));
            format!("{} {}", load.unwrap_or_default(), r.fact.ruling)
        })
        .collect()
}

/// A clipboard that holds a text.
struct Holds(&'static str);

impl iced_test::core::Clipboard for Holds {
    fn read(&self, _kind: clipboard::Kind) -> Option<String> {
        Some(self.0.to_owned())
    }
    fn write(&mut self, _kind: clipboard::Kind, _contents: String) {}
}

/// Presses Ctrl (Cmd on macOS) and V in the field of the cell in hand.
fn press_paste(desk: &Desk, held: &'static str) -> Vec<Message> {
    let renderer =
        <Renderer as Headless>::new(iced::Font::DEFAULT, iced::Pixels(16.0), None);
    let mut renderer = block_on(renderer).unwrap();
    let size = Size::new(1366.0, 690.0);
    let mut ui = UserInterface::build(desk.main(), size, Cache::default(), &mut renderer);
    let field = iced::widget::Id::new(cards::FIELD);
    ui.operate(&renderer, &mut operation::focusable::focus::<()>(field));
    let letter = Key::Character("v".into());
    let event = Event::Keyboard(keyboard::Event::KeyPressed {
        key: letter.clone(),
        modified_key: letter,
        physical_key: keyboard::key::Physical::Code(keyboard::key::Code::KeyV),
        location: keyboard::Location::Standard,
        modifiers: Modifiers::COMMAND,
        text: None,
        repeat: false,
    });
    let modifiers =
        Event::Keyboard(keyboard::Event::ModifiersChanged(Modifiers::COMMAND));
    let mut messages = Vec::new();
    let _ = ui.update(
        &[modifiers, event],
        mouse::Cursor::Unavailable,
        &mut renderer,
        &mut Holds(held),
        &mut messages,
    );
    messages
}

#[test]
fn the_key_that_pastes_keeps_tabs_and_line_ends() {
    let desk = desk("clipboard");
    let cells = "40\tg\r\n45\tn\r\n";
    let messages = press_paste(&desk, cells);
    assert!(
        matches!(&messages[..], [Message::Cards(cards::Message::Grid(
            grid::Event::Pasted(text)))] if text == cells),
        "{messages:?}"
    );
    // One cell alone goes into the field as ever.
    let messages = press_paste(&desk, "62.5\n");
    assert!(
        matches!(&messages[..], [Message::Cards(cards::Message::Grid(
            grid::Event::Typed(text)))] if text == "62.5"),
        "{messages:?}"
    );
}

#[test]
fn pasted_rows_are_in_the_file_all_or_none() {
    let mut desk = desk("pasted");
    // Lot 9 owes a load for its second attempt: all is refused.
    paste(&mut desk, "40\tg\t45\tn\n45\tg\n50\tg\t\tg\n");
    assert!(shown(
        &desk,
        "0 of 9 attempts are in; lots 4, 7, 9 owe the first."
    ));
    let rows = desk.effects_mut().day().journal().len();
    key(&mut desk, grid::Key::Enter);
    assert_eq!(desk.effects_mut().day().journal().len(), rows);
    assert_eq!(stored(&mut desk, 4), Vec::<String>::new());
    key(&mut desk, grid::Key::Escape);

    paste(&mut desk, "40\tg\t45\tn\n45\tg\n50\tg\t55\tg\n");
    assert!(shown(
        &desk,
        "3 rows pasted: 5 attempts are new. Enter records all at once; Esc takes them away."
    ));
    assert_eq!(stored(&mut desk, 4), Vec::<String>::new());
    key(&mut desk, grid::Key::Enter);
    assert!(shown(&desk, "5 pasted attempts are recorded."));
    assert!(shown(
        &desk,
        "5 of 9 attempts are in; lot 7 owes the second, lots 4, 9 the third."
    ));
    assert_eq!(stored(&mut desk, 4), ["40 good", "45 no"]);
    assert_eq!(stored(&mut desk, 7), ["45 good"]);
    assert_eq!(stored(&mut desk, 9), ["50 good", "55 good"]);
}

#[test]
fn what_differs_is_shown_side_by_side_and_decided() {
    let mut desk = desk("differs");
    paste(&mut desk, "82.5\tg\n60\tg\n");
    key(&mut desk, grid::Key::Enter);
    key(&mut desk, grid::Key::First);
    // The card comes again, and says another load.
    key(&mut desk, grid::Key::Home);
    paste(&mut desk, "lot\tload\truling\n4\t85\tg\n7\t60\tn\n");
    key(&mut desk, grid::Key::Enter);
    for words in [
        "Card and record differ, 1 of 2: lot 4 Ann Oru, clean, attempt 1",
        "good at 82.5 kg",
        "good at 85 kg",
        "lot 4 best in clean: 85 kg instead of 82.5 kg",
    ] {
        assert!(shown(&desk, words), "{words}");
    }
    assert_eq!(stored(&mut desk, 4), ["82.5 good"]);
    // Esc leaves it undecided; the key takes it up again.
    pressed(&mut desk, "Esc");
    assert!(shown(&desk, "2 attempts differ from what stands: Ctrl+D."));
    pressed(&mut desk, "ctrl+d");
    pressed(&mut desk, "c");
    assert_eq!(stored(&mut desk, 4), ["85 good"]);
    assert!(shown(
        &desk,
        "Attempt 1 of lot 4 Ann Oru is corrected to good at 85 kg."
    ));
    for words in [
        "Card and record differ, 1 of 1: lot 7 Bea Lund, clean, attempt 1",
        "no lift at 60 kg",
    ] {
        assert!(shown(&desk, words), "{words}");
    }
    pressed(&mut desk, "k");
    assert_eq!(stored(&mut desk, 7), ["60 good"]);
    assert!(shown(
        &desk,
        "Attempt 1 of lot 7 Bea Lund stays as it stands, good at 60 kg."
    ));
    // The correction is an act of its own, with its reason.
    let day = desk.effects_mut().day();
    let corrected = day
        .journal()
        .iter()
        .filter(|r| matches!(r.event, maxday::day::Event::Corrected { .. }))
        .count();
    assert_eq!(corrected, 1);
}

#[test]
fn what_is_asked_for_is_said_in_words() {
    let desk = desk("asks");
    assert!(shown(&desk, "asks 40"));
    assert!(!shown(&desk, "(40)"));
}

#[test]
fn all_cards_are_listed_with_what_is_missing() {
    let mut desk = desk("list");
    pressed(&mut desk, "ctrl+j");
    for words in [
        "Platform 1, flight A",
        "Platform 2, flight B",
        "0 of 9",
        "lot 12 owes the first",
    ] {
        assert!(shown(&desk, words), "{words}");
    }
    given(&mut desk, cards::Message::Moved(100));
    pressed(&mut desk, "Enter");
    pressed(&mut desk, "ctrl+j");
    pressed(&mut desk, "Esc");
    assert!(!shown(&desk, "What is missing"));
}
