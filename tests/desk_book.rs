//! The school's record book at the desk: taken in from a file that is typed or
//! dropped, its faults named, and written out again.

// A test may panic.
#![allow(clippy::unwrap_used, clippy::expect_used)]

mod desk_support;

use std::path::{Path, PathBuf};

use desk_support::{desk_with_meet, folder, pressed, settings};
use iced::Size;
use iced_test::Simulator;
use maxday::desk::app::{Desk, Message};
use maxday::desk::screen::ScreenId;
use maxday::desk::screen::day::Message as Day;
use maxday::desk::widget::form::Message as Form;
use maxday::exchange::book::read_book;

const BOOK: &str = "lift,sex,category,load,holder,date,place
snatch,F,,61,Rosa Quill,2024,here
clean-and-jerk,F,59.5,75,Ida Vane,2025-03-01,away
snatch,M,,,,,
";

fn shown(desk: &Desk, words: &str) -> bool {
    let size = Size::new(1366.0, 740.0);
    let mut ui = Simulator::with_size(settings(), size, desk.main());
    ui.find(words).is_ok()
}

/// The report on the book: the category that this day doesn't have is asked about.
fn report(desk: &Desk, book: &[u8], changed: u8) -> String {
    let read = read_book(book, desk.facts()).unwrap();
    let [asked] = read.queries.as_slice() else {
        panic!("{:?}", read.queries);
    };
    format!("3 records read, {changed} new or changed.\nAsked: {asked}")
}

fn file(name: &str, text: &str) -> PathBuf {
    let path = folder(&format!("a-book-{name}")).join("book.csv");
    std::fs::write(&path, text).unwrap();
    path
}

/// Goes down the day's list until a line is shown.
fn go_to(desk: &mut Desk, hint: &str) {
    pressed(desk, "F2");
    for _ in 0..60 {
        if shown(desk, hint) {
            return;
        }
        pressed(desk, "Down");
    }
    panic!("{hint} isn't there");
}

fn form(desk: &mut Desk, message: Form) {
    let _ = desk.update(Message::Day(Day::Form(message)));
}

/// Types a path where a book is taken in.
fn take_in(desk: &mut Desk, path: &Path) {
    go_to(
        desk,
        "The path of its .csv file, then Enter; or drop the file on this window. A record that \
         it doesn't name stays.",
    );
    form(desk, Form::Typed(path.display().to_string()));
    form(desk, Form::Entered);
}

#[test]
fn a_typed_book_is_taken_in_whole_and_one_undo_takes_it_back() {
    let mut desk = desk_with_meet("book");
    pressed(&mut desk, "F2");
    let acts = desk.effects_mut().day().journal().len();
    take_in(&mut desk, &file("good", BOOK));
    assert_eq!(desk.facts().records.len(), 3);
    assert!(shown(&desk, "Imported."));
    // The day has no such category, which is said and no fault.
    assert!(shown(&desk, &report(&desk, BOOK.as_bytes(), 3)));
    let day = desk.effects_mut().day();
    let mut ids: Vec<u64> = day.journal()[acts..].iter().map(|r| r.act).collect();
    ids.dedup();
    assert_eq!(ids.len(), 1, "one act");
    // Esc closes the report, and the field says how much there is.
    pressed(&mut desk, "Esc");
    assert!(!shown(&desk, "Imported."));
    pressed(&mut desk, "Down");
    assert!(shown(&desk, "3 records in the book"));
    pressed(&mut desk, "ctrl+z");
    pressed(&mut desk, "ctrl+z");
    assert!(desk.facts().records.is_empty());
}

#[test]
fn faults_are_listed_and_nothing_is_taken_in() {
    let mut desk = desk_with_meet("book-bad");
    let bad = "lift,sex,load\nsnatch,F,61\nsnach,F,60\nsnatch,Q,heavy\n";
    let path = file("bad", bad);
    take_in(&mut desk, &path);
    assert!(desk.facts().records.is_empty());
    assert!(shown(&desk, "Nothing was imported."));
    let faults = read_book(bad.as_bytes(), desk.facts()).unwrap_err();
    assert_eq!(faults.len(), 3, "{faults:?}");
    let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
    let report = format!("3 faults in the record book:\n{}", lines.join("\n"));
    assert!(shown(&desk, &report), "{report}");
    // The path stays, for the next try; Esc closes the report.
    pressed(&mut desk, "Esc");
    assert!(!shown(&desk, "Nothing was imported."));
    std::fs::write(&path, BOOK).unwrap();
    form(&mut desk, Form::Entered);
    assert_eq!(desk.facts().records.len(), 3);

    take_in(&mut desk, Path::new("nowhere/book.csv"));
    assert!(shown(&desk, "Nothing was imported."));
    assert_eq!(desk.facts().records.len(), 3);
}

#[test]
fn a_written_book_is_the_next_days() {
    let mut desk = desk_with_meet("book-written");
    go_to(
        &mut desk,
        "The path of its .csv file, then Enter; or drop the file on this window. A record that \
         it doesn't name stays.",
    );
    assert!(
        !shown(&desk, "Write the record book"),
        "there is nothing to write"
    );
    take_in(&mut desk, &file("to-write", BOOK));
    pressed(&mut desk, "Esc");
    go_to(
        &mut desk,
        "Enter writes it as it now stands, with what today broke, beside the day's file; the \
         next day takes it in.",
    );
    pressed(&mut desk, "Enter");
    let day = desk.effects_mut().path().unwrap().to_owned();
    let written = day.with_file_name("meet record book.csv");
    assert!(
        shown(
            &desk,
            &format!("The record book is in {}.", written.display())
        ),
        "{:?}",
        desk.said()
    );
    let text = std::fs::read_to_string(&written).unwrap();
    assert!(
        text.starts_with("\u{feff}lift,") && text.contains("\r\n"),
        "{text}"
    );
    assert!(text.contains("Rosa Quill"));

    // Dropped on another day's window, whatever screen is shown.
    let mut next = desk_with_meet("book-next");
    pressed(&mut next, "F6");
    let _ = next.update(Message::Dropped(written.clone()));
    assert_eq!(next.screen(), Some(ScreenId::Day));
    assert_eq!(next.facts().records, desk.facts().records);
    assert!(shown(&next, &report(&next, text.as_bytes(), 3)));
    let _ = next.update(Message::Dropped(written));
    assert!(shown(&next, &report(&next, text.as_bytes(), 0)));
}
