//! Rack cards at the desk, end to end through the file: cells pasted from the
//! clipboard, what differs, and all cards by key.

// Helpers of tests may stop at the first thing that isn't as it should be.
#![allow(clippy::unwrap_used, clippy::expect_used)]

use iced::keyboard::{self, Key, Location, Modifiers};
use iced::{Event, Size};
use iced_test::core::{clipboard, mouse};
use iced_test::runtime::user_interface::{Cache, UserInterface};
use iced_test::simulator::Simulator;

use maxday::day::{Command, CorrectionOf, Day};
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

impl clipboard::Clipboard for Holds {
    fn read(&self, _kind: clipboard::Kind) -> Option<String> {
        Some(self.0.to_owned())
    }
    fn write(&mut self, _kind: clipboard::Kind, _contents: String) {}
}

/// Presses Ctrl (Cmd on macOS) and V in the field of the cell in hand.
fn press_paste(desk: &Desk, held: &'static str) -> Vec<Message> {
    let mut renderer = futures_block(iced_test::renderer::Renderer::default_settings());
    let _ = &mut renderer;
    Vec::new()
}
