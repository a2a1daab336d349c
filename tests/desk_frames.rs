//! No message, no frame: with nothing new to show, no screen and no board asks to
//! be drawn again, also while a text field has the keyboard.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use std::time::{Duration, Instant};

use chrono::NaiveDate;
use desk_support::{desk_on, empty_desk, press, pressed};
use iced::{Element, Size};
use iced_test::core::widget::Operation;
use iced_test::core::widget::operation::{Outcome, black_box, focusable};
use iced_test::core::{Event, clipboard, mouse, renderer, window};
use iced_test::futures::futures::executor::block_on;
use iced_test::renderer::Renderer;
use iced_test::renderer::core::renderer::Headless;
use iced_test::runtime::UserInterface;
use iced_test::runtime::user_interface::{Cache, State};
use maxday::day::Stamp;
use maxday::desk::app::{Desk, Message};
use maxday::desk::board::Board;
use maxday::desk::screen::first::First;
use maxday::desk::{see, theme};
use maxday::samples::{self, Sample};

const WINDOW: Size = Size::new(1366.0, 740.0);

/// A sample day at a time at which nothing runs any more.
fn still(sample: Sample, name: &str) -> Desk {
    let now = "2026-11-21T12:00:00Z";
    let now = Stamp::parse(now, NaiveDate::default(), 0).unwrap();
    let path = desk_support::folder(&format!("frames-{name}")).join("day.maxday");
    samples::make(&path, sample, now).unwrap();
    let mut desk = desk_on(&path);
    desk.effects_mut().set_now(now);
    assert!(!see::moves(desk.facts(), now), "something runs");
    desk
}

fn drawn() -> Renderer {
    // A simulator loads the fonts.
    drop(iced_test::Simulator::<Message>::with_size(
        desk_support::settings(),
        WINDOW,
        iced::widget::text(""),
    ));
    let settings = desk_support::settings();
    block_on(<Renderer as Headless>::new(
        settings.default_font,
        settings.default_text_size,
        Some("tiny-skia"),
    ))
    .unwrap()
}

/// A window that is drawn by hand.
struct Shown<'a> {
    ui: UserInterface<'a, Message, iced::Theme, Renderer>,
    drawn: Renderer,
}

impl<'a> Shown<'a> {
    fn new(view: Element<'a, Message>) -> Self {
        Self::again(view, Cache::default())
    }

    /// With what the widgets remember of the view before.
    fn again(view: Element<'a, Message>, kept: Cache) -> Self {
        let mut drawn = drawn();
        let ui = UserInterface::build(view, WINDOW, kept, &mut drawn);
        Self { ui, drawn }
    }

    /// Gives the keyboard to the field of that number, 1 the first; whether there
    /// is one.
    fn focus(&mut self, number: usize) -> bool {
        // Behind the last field nothing has the keyboard for once.
        self.run(focusable::unfocus::<()>());
        for _ in 0..number {
            self.run(focusable::focus_next::<()>());
        }
        self.has_focus()
    }

    /// Whether a field has the keyboard.
    fn has_focus(&mut self) -> bool {
        let mut found = focusable::find_focused();
        self.ui.operate(&self.drawn, &mut black_box(&mut found));
        matches!(found.finish(), Outcome::Some(_))
    }

    fn run(&mut self, operation: impl Operation<()> + 'static) {
        let mut next: Option<Box<dyn Operation<()>>> = Some(Box::new(operation));
        while let Some(mut operation) = next.take() {
            self.ui.operate(&self.drawn, operation.as_mut());
            if let Outcome::Chain(more) = operation.finish() {
                next = Some(more);
            }
        }
    }

    /// What the window is asked for when it is drawn at a moment.
    fn frame(&mut self, now: Instant) -> window::RedrawRequest {
        let mut messages = Vec::new();
        let (state, _) = self.ui.update(
            &[Event::Window(window::Event::RedrawRequested(now))],
            mouse::Cursor::Unavailable,
            &mut self.drawn,
            &mut clipboard::Null,
            &mut messages,
        );
        assert!(messages.is_empty(), "{messages:?}");
        match state {
            State::Updated { redraw_request, .. } => redraw_request,
            State::Outdated => panic!("out of date"),
        }
    }

    /// What is seen at a moment.
    fn picture(&mut self, now: Instant) -> Vec<u8> {
        let _ = self.frame(now);
        let (theme, style) = (theme::light(), renderer::Style::default());
        let nowhere = mouse::Cursor::Unavailable;
        self.ui.draw(&mut self.drawn, &theme, &style, nowhere);
        self.drawn
            .screenshot(Size::new(1366, 740), 1.0, theme.palette().background)
    }
}

/// The moment at which a field was given the keyboard, or shortly after.
#[allow(clippy::disallowed_methods)]
fn moment() -> Instant {
    Instant::now()
}

/// Draws a window at several moments with the keyboard in each of its fields; how
/// many there are.
fn asks_for_nothing(name: &str, view: Element<'_, Message>) -> usize {
    let mut shown = Shown::new(view);
    let check = |shown: &mut Shown<'_>, what: &str| {
        let start = moment();
        for ms in [0, 250, 499, 500, 777, 1_000, 90_000] {
            let asked = shown.frame(start + Duration::from_millis(ms));
            let none = window::RedrawRequest::Wait;
            assert_eq!(asked, none, "{name}, {what}, after {ms} ms");
        }
    };
    check(&mut shown, "no field");
    let mut number = 1;
    while shown.focus(number) {
        check(&mut shown, &format!("field {number}"));
        number += 1;
    }
    number - 1
}

#[test]
fn no_screen_asks_for_a_frame_of_itself() {
    let today = NaiveDate::from_ymd_opt(2026, 11, 21).unwrap();
    let mut first = First::new(None, std::path::Path::new("days"), today);
    for key in ["Down", "Enter", "Down"] {
        let message = first.key(&press(key)).unwrap();
        assert!(first.update(message).is_none());
    }
    let _ = asks_for_nothing("first", first.view().map(Message::First));
    let desk = empty_desk("frames-empty");
    let _ = asks_for_nothing("nothing open", desk.main());
    let mut with_field = Vec::new();
    for sample in [Sample::MaxDay, Sample::Meet] {
        let mut desk = still(sample, sample.file_stem());
        for key in [
            "F2", "F3", "F4", "F5", "ctrl+f", "F6", "ctrl+k", "F7", "F8", "F9", "F1",
            "Esc", "ctrl+h",
        ] {
            pressed(&mut desk, key);
            let fields = asks_for_nothing(key, desk.main());
            if fields > 0 {
                with_field.push(key);
            }
        }
        for board in [Board::Hall, Board::Loaders, Board::WarmUp] {
            let fields = asks_for_nothing(board.label(), desk.on_board(board));
            assert_eq!(fields, 0, "a board takes the keyboard");
        }
    }
    for key in ["F2", "F3", "F4", "F5", "ctrl+f", "F6", "ctrl+k", "F9"] {
        assert!(with_field.contains(&key), "{key} has no field");
    }
}

#[test]
fn the_caret_stands_as_long_as_the_field_has_the_keyboard() {
    let mut desk = still(Sample::Meet, "caret");
    pressed(&mut desk, "F6");
    let mut shown = Shown::new(desk.main());
    let without = shown.picture(moment());
    assert!(shown.focus(1));
    let start = moment();
    let with = shown.picture(start);
    assert_ne!(without, with, "no caret");
    for ms in [300, 600, 1_300, 59_600] {
        let later = shown.picture(start + Duration::from_millis(ms));
        assert!(with == later, "another picture after {ms} ms");
    }
}

/// A preview comes and goes above the journal's line, which keeps the keyboard.
#[test]
fn the_journals_line_keeps_the_keyboard_while_a_preview_is_shown() {
    let mut desk = still(Sample::Meet, "keyboard");
    pressed(&mut desk, "F9");
    let kept = {
        let mut before = Shown::new(desk.main());
        assert!(before.focus(1));
        before.ui.into_cache()
    };
    pressed(&mut desk, "ctrl+d");
    let settings = desk_support::settings();
    let mut ui = iced_test::Simulator::with_size(settings, WINDOW, desk.main());
    assert!(ui.find("What would change").is_ok(), "no preview");
    drop(ui);
    let mut shown = Shown::again(desk.main(), kept);
    assert!(shown.has_focus(), "the preview has taken the keyboard");
}

/// What the wrapper is for: a field of the toolkit asks twice a second.
#[test]
fn a_bare_field_asks_for_frames() {
    let field = iced::widget::text_input("", "").on_input(|_| Message::Beat);
    let mut shown = Shown::new(field.id("bare").into());
    assert_eq!(shown.frame(moment()), window::RedrawRequest::Wait);
    assert!(shown.focus(1));
    assert!(matches!(
        shown.frame(moment()),
        window::RedrawRequest::At(_)
    ));
}
